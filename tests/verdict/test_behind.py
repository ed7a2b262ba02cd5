"""What is behind each figure: odds with and without a finding, and readings after an answer."""

from pathlib import Path

import pytest

from appraise.base.places import shipped_demo
from appraise.knowledge import load
from appraise.knowledge.records import UNJUDGED, YEARS, Knowledge
from appraise.reading.influence import influences
from appraise.reading.reading import Reading, read
from appraise.reading.words import word_for
from appraise.records.piece import Image, Piece
from appraise.records.piece_file import read_piece
from appraise.verdict.behind import LIKELY, TOLD, Behind, behind, odds

DEMO = sorted(shipped_demo().glob("pieces/*.yaml"))


@pytest.fixture(scope="module")
def knowledge() -> Knowledge:
    return load()


@pytest.fixture(scope="module", params=DEMO, ids=lambda path: path.stem)
def told(request, knowledge) -> tuple[Piece, Reading, dict[str, Behind]]:
    path: Path = request.param
    piece = read_piece(path, knowledge)
    reading = read(piece, knowledge)
    if reading.images:  # each image has its own figures: those of the last are held against it
        side, reading = reading.images[-1]
        piece = reading.piece
        found = behind(read(read_piece(path, knowledge), knowledge), knowledge)
        return piece, reading, {one.figure: one for one in found if one.side == side}
    return piece, reading, {one.figure: one for one in behind(reading, knowledge)}


def test_figures_are_those_of_the_reading(told):
    _, reading, figures = told
    assert figures["married"].chance == reading.married
    assert figures["modern"].chance == reading.modern
    assert ("process" in figures) == bool(reading.family)  # an empty case holds no image
    if reading.family:
        assert figures["process"].chance == reading.families[reading.family]
    assert figures["opened"].chance == reading.disturbed
    span = reading.combined
    weights = dict.fromkeys(YEARS, 0.0)
    first_years = {
        one.id: min(years.first for years in one.years.values())
        for one in reading.joint.frame.processes
        if one.family in reading.named and one.years
    }
    for row, one in zip(
        reading.views.period.sum(axis=(1, 2)), reading.joint.frame.processes, strict=True
    ):
        mine = first_years.get(one.id, min(first_years.values(), default=YEARS[0]))
        if one.family in reading.named and first_years and one.id not in first_years:
            continue
        for year, weight in zip(YEARS, row, strict=True):
            weights[year] += weight if year >= mine else 0.0
    within = sum(weights[year] for year in range(span.first, span.last + 1))
    assert figures["years"].chance == pytest.approx(within / sum(weights.values()))
    assert str(span.first) in figures["years"].says
    assert str(span.last) in figures["years"].says


def test_findings_come_by_weight_with_the_odds_with_and_without_them(told):
    _, _, figures = told
    assert any(one.moved for one in figures.values())
    for one in figures.values():
        ratios = [moved.ratio for moved in one.moved]
        assert ratios == sorted(ratios, reverse=True)
        for moved in one.moved:
            ratio = odds(one.chance) / odds(moved.without)
            assert moved.speaks_for == (ratio >= 1)
            assert moved.ratio == pytest.approx(max(ratio, 1 / ratio))
            assert moved.word == word_for(ratio)


def test_without_a_finding_belonging_is_what_the_influences_say(told, knowledge):
    _, reading, figures = told
    rest = influences(reading, knowledge)
    for moved in figures["married"].moved:
        assert moved.without == pytest.approx(rest[moved.check][1], abs=1e-9)


def test_what_would_change_a_figure_is_what_a_new_reading_says(told, knowledge):
    piece, reading, figures = told
    values = {
        "married": lambda one: one.married,
        "modern": lambda one: one.modern,
        "process": lambda one: one.families[reading.family],
        "opened": lambda one: one.disturbed,
    }
    seen = 0
    for figure, value in values.items():
        turns = figures[figure].turns if figure in figures else ()
        assert len(turns) <= TOLD
        for turn in turns:
            check = knowledge.checks[turn.check]
            places = [n for n in range(len(check.answers)) if check.told(n) == turn.says]
            after = read(piece.with_finding(check.id, check.answers[places[0]].id), knowledge)
            assert turn.after == pytest.approx(value(after), abs=1e-12)
            assert LIKELY <= turn.chance <= 1
            assert check.risk != "conservator"
            assert check.part != "claim"
            seen += 1
    assert seen


def test_alone_a_finding_is_set_against_the_piece_without_it(knowledge):
    piece = Piece(region="us").with_finding("plate.magnet", "yes")
    figures = {one.figure: one for one in behind(read(piece, knowledge), knowledge)}
    (moved,) = figures["process"].moved
    bare = read(Piece(region="us"), knowledge)
    assert moved.without == pytest.approx(bare.families[read(piece, knowledge).family])
    assert moved.speaks_for


def test_nothing_seen_has_nothing_behind_it_but_much_that_would_change_it(knowledge):
    figures = behind(read(Piece(), knowledge), knowledge)
    assert all(not one.moved for one in figures)
    assert any(one.turns for one in figures)
    assert "copy" not in {one.figure for one in figures}


def test_of_several_images_each_has_its_own(knowledge):
    piece = Piece(images=(Image("left", {}), Image("right", {})))
    sides = {one.side for one in behind(read(piece, knowledge), knowledge)}
    assert sides == {"left", "right"}


def test_a_card_has_no_housing_to_be_married_to(knowledge):
    figures = {one.figure for one in behind(read(Piece(kind="card"), knowledge), knowledge)}
    assert {"modern", "process", "years"} <= figures
    assert not {"married", "housing", "opened"} & figures


@pytest.mark.parametrize("kind", sorted(UNJUDGED))
def test_what_is_not_judged_has_no_figures(kind, knowledge):
    assert behind(read(Piece(kind=kind), knowledge), knowledge) == ()


def test_every_figure_has_a_name(told):
    assert all(one.says.strip() for one in told[2].values())
