"""Checks and answers that were renamed: what was stored under the old names still reads."""

from datetime import date

import pytest
from conditionkit import KNOWLEDGE

from appraise.collection.sameyears import as_piece
from appraise.knowledge import load
from appraise.knowledge.formerly import former_names, today
from appraise.records.part import Part, Seen
from appraise.records.piece_file import parse_piece, write_piece

OLD = [  # old check and answer, the kind it was asked of, today's
    ("print.neutral-matte yes", "card", "print.neutral yes"),
    ("print.neutral-matte no", "print", "print.neutral no"),
    ("print.neutral-matte cannot-tell", "card", "print.neutral cannot-tell"),
    ("mat.mark wharton", "cased", "case.stamp wharton"),
]


@pytest.mark.parametrize(("old", "kind", "now"), OLD)
def test_a_stored_piece_reads_under_the_names_of_today(old, kind, now):
    name, answer = old.split()
    text = f"kind: {kind}\nfindings:\n  {name}: {{answer: {answer!r}, known: photo}}\n"
    piece = parse_piece(text, "stored", KNOWLEDGE)
    check, said = now.split()
    assert [(one.check, one.answer, one.known) for one in piece.findings.values()] == [
        (check, said, "photo")
    ]
    again = parse_piece(write_piece(piece), "written anew", KNOWLEDGE)
    assert again.findings == piece.findings


def test_an_answer_that_stayed_keeps_its_check():
    piece = parse_piece("findings: {mat.mark: beard}", "stored", KNOWLEDGE)
    assert piece.found("mat.mark") == "beard"


@pytest.mark.parametrize(
    "findings",
    [
        "{print.neutral-matte: 'no', print.neutral: 'yes'}",
        "{print.neutral: 'yes', print.neutral-matte: 'no'}",
    ],
)
def test_what_was_said_under_the_new_name_counts(findings):
    piece = parse_piece(f"kind: card\nfindings: {findings}", "stored", KNOWLEDGE)
    assert piece.found("print.neutral") == "yes"
    assert len(piece.findings) == 1


def test_a_part_in_stock_reads_under_the_names_of_today():
    part = Part(
        title="a case", since=date(2026, 11, 25), part="case", seen=(Seen("mat.mark", "wharton"),)
    )
    assert as_piece(part, KNOWLEDGE).found("case.stamp") == "wharton"


def test_today_leaves_what_was_never_renamed():
    assert today(KNOWLEDGE.former, "mat.shape", "oval") == "mat.shape oval"
    assert former_names(KNOWLEDGE.checks) == KNOWLEDGE.former


@pytest.mark.parametrize(
    ("formerly", "told"),
    [("[mat.shape]", "'mat.shape' is still in use"), ("[old.one, old.one]", "is claimed twice")],
)
def test_a_former_name_that_is_taken_is_told(formerly, told, tmp_path):
    (tmp_path / "own.yaml").write_text(
        "checks:\n  image.own:\n    ask: Is it?\n    how: Look.\n    seconds: 2\n    risk: none\n"
        f"    basis: practice\n    formerly: {formerly}\n    answers: {{a: one, b: two}}\n",
        encoding="utf-8",
    )
    problems = [str(one) for one in load(overlay=tmp_path).problems]
    assert any(told in one for one in problems), problems


def test_a_region_or_kind_that_is_none_is_told(tmp_path):
    row = "processes:\n  own: {name: own, share: {cased: .1, %s: .2}, basis: practice}\n"
    for key, told in (
        ("cased xx", "'xx' is not a region"),
        ("shoe", "'shoe' is not a kind of piece"),
        ("card gb", "no share of 'card' by itself"),
    ):
        (tmp_path / "own.yaml").write_text(row % key, encoding="utf-8")
        problems = [str(one) for one in load(overlay=tmp_path).problems]
        assert any(told in one for one in problems), problems
