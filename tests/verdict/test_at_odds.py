"""Findings that do not go together are told: of no one process, or of no one time."""

from functools import cache

import pytest
from every import every

from appraise.base.dates import Dating
from appraise.knowledge import load
from appraise.knowledge.records import Knowledge
from appraise.reading.reading import read
from appraise.records.piece import Inscription, Piece
from appraise.verdict.at_odds import GAP
from appraise.verdict.warnings import piece_warnings

SLEEVES, WAIST = "sitter.womens-sleeve", "sitter.womens-waist"


@cache
def shipped() -> Knowledge:
    return load()


def warned(*findings, known="in-hand", **piece):
    """The two warnings that are raised, by id."""
    told = Piece(region="us", **piece)
    for one in findings:
        told = told.with_finding(*one.split(), known)
    found = {one.id: one for one in piece_warnings(read(told, shipped()), shipped())}
    return {name: one for name, one in found.items() if name in ("findings-exclude", "out-of-time")}


def test_a_pull_and_a_flip_exclude_each_other_and_both_are_to_be_looked_at_again():
    told = warned("plate.magnet yes", "plate.mirror flips")["findings-exclude"]
    assert set(told.look_next) == {"plate.magnet", "plate.mirror"}
    assert any("Iron behind" in one for one in told.innocent)
    assert not told.strong


@pytest.mark.parametrize(
    "findings",
    [
        ("plate.magnet yes", "plate.mirror stays"),
        ("plate.magnet no", "plate.mirror flips"),
        ("plate.magnet yes",),
        ("plate.magnet yes", "claim.process daguerreotype"),
    ],
)
def test_what_goes_together_and_what_is_only_said_is_not_told(findings):
    assert "findings-exclude" not in warned(*findings)


def test_a_pull_with_a_backing_behind_glass_leaves_the_ambrotype_open():
    piece = Piece(region="us")
    for name in ("plate.magnet", "plate.dark-backing"):
        piece = piece.with_finding(name, "yes", "in-hand")
    reading = read(piece, shipped())
    assert reading.families["ambrotype"] > 0.3
    assert set(reading.named) == {"tintype", "ambrotype"}


def test_late_dress_beside_early_dress_is_told():
    told = warned(f"{SLEEVES} leg-of-mutton", f"{WAIST} pointed")["out-of-time"]
    assert set(told.look_next) == {SLEEVES, WAIST}
    assert told.innocent


def test_late_dress_beside_an_early_date_on_the_seal_or_an_early_process_is_told():
    dated = Inscription("", Dating.parse("1859"), "seal")
    assert "out-of-time" in warned(f"{SLEEVES} leg-of-mutton", inscription=dated)
    assert "out-of-time" in warned(f"{SLEEVES} leg-of-mutton", "plate.mirror flips")
    assert "out-of-time" not in warned(f"{SLEEVES} pagoda", "plate.mirror flips")


def dress_pairs():
    """Every two styles of dress, of two questions, with the years between them."""
    rows = [
        (check.id, answer.id, answer.years[""])
        for check in shipped().checks.values()
        if check.group == "dress" and not check.when
        for answer in check.answers
        if "" in answer.years
    ]
    for a, said, early in rows:
        for b, told, late in rows:
            if a < b:
                first, second = sorted((early, late), key=lambda years: years.first)
                yield a, said, b, told, second.first - first.last


@every(("a", "said", "b", "told", "between"), list(dress_pairs()))
def test_two_styles_are_told_where_their_years_lie_well_apart(a, said, b, told, between):
    found = warned(f"{a} {said}", f"{b} {told}", kind="loose-plate").get("out-of-time")
    both = found is not None and set(found.look_next) == {a, b}
    assert both == (between > GAP)
