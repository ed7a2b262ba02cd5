"""The page of an owned piece: its writing, its sitter, its sizes."""

from datetime import date

import pytest

from appraise.documents.owned_page import PageInput, owned_document
from appraise.knowledge import load
from appraise.records.owned import OwnedPiece

KNOWLEDGE = load()
TEXT = """piece: 1
title: a girl
motif: vine
maker: a name on the mat
measured: {plate: 2 3/4 x 3 1/4 in}
inscription: {text: "Jan 23", date: 1857-01-23}
sitter: {age: 38}
"""


def rows(**more):
    return {one.label: one.says[0] for one in facts(**more)}


def facts(**more):
    """The first section of the page."""
    piece = OwnedPiece("a girl", **more)
    page = owned_document(PageInput("1", piece, None, None, KNOWLEDGE, date(2026, 11, 7)))
    return page.sections[0].blocks[0].rows


def test_what_is_written_and_who_sits_is_told():
    told = rows(piece=TEXT, dated="1856")
    assert told["written"] == '"Jan 23", dated 1857-01-23'
    assert told["maker"] == "a name on the mat"
    assert told["size of the plate"] == "69.9 x 82.6 mm (2 3/4 x 3 1/4 in)"
    # Aged 38 in 1856: born 1817 or 1818, by the calendar (the birthday may not have come yet).
    assert told["sitter"] == "aged 38, so born 1817 to 1818"


@pytest.mark.parametrize(
    ("age", "dated", "says"),
    [
        ("25..35", "[1855..1862]", "aged 25 to 35, so born 1819 to 1837"),
        ("8", "", "aged 8"),
        ("8", "[1855..]", "aged 8"),
    ],
)
def test_births_follow_from_age_and_date(age, dated, says):
    piece = f"piece: 1\nsitter: {{age: {age}}}\n"
    assert rows(piece=piece, dated=dated)["sitter"] == says


def test_what_is_not_known_is_asked_for():
    tones = {one.label: one.tone for one in facts()}
    missing = dict.fromkeys(("number", "what it is", "made", "place"), "doubt")
    assert tones == {**missing, "status": "plain"}
    assert "written" not in rows(piece="piece: 1\n")
    assert "cannot be read" in rows(piece="nonsense: [")["piece file"]
