"""A year is asked for, and a page tells in use in it."""

from datetime import date

import pytest
from app.kit import app_on, settled, shown

from appraise.app.era import ASKED
from appraise.app.lines import length, words_of
from appraise.app.marks import PLAIN
from appraise.app.page import document_rows
from appraise.base.errors import InputError
from appraise.documents.yearly import year_document
from appraise.knowledge.yearly import usual_in
from appraise.records.fields import values_of
from appraise.records.owned import OwnedPiece
from appraise.records.values import Author


async def test_a_year_from_the_desk_and_back(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        await pilot.press("ctrl+y")
        await pilot.pause()
        assert "What was in use in a given year" in shown(app)
        app.screen.query_one("#field-year").value = "18x8"
        await pilot.press("enter")
        await pilot.pause()
        assert "is not a year from 1835 to 1960" in shown(app)
        app.screen.query_one("#field-year").value = "1858"
        app.screen.query_one("#field-region").value = "us"
        await pilot.press("enter")
        await settled(pilot)
        text = shown(app)
        assert "In use in 1858" in text
        assert "going out: daguerreotype" in text
        await pilot.press("q")
        await pilot.pause()
        assert "q quit" in shown(app)
    app.session.close()


@pytest.mark.parametrize("width", [100, 60, 30, 12])
def test_the_page_fits_any_width(knowledge, width):
    told = year_document(1858, usual_in(1858, knowledge), knowledge)
    rows = document_rows(told, width, PLAIN)
    assert max(map(length, rows)) <= max(width, 34)
    assert "wide all round, over a cage" in " ".join(" ".join(map(words_of, rows)).split())


@pytest.mark.parametrize("text", ["858", "1834", "1961", "١٨٥٨", "1858.5"])
def test_what_is_no_year(text):
    with pytest.raises(InputError, match="is not a year"):
        values_of(ASKED, {"year": text}, Author("USD", date.min))


def test_own_pieces_that_there_may_have_been_stand_on_top(knowledge):
    mine = [
        OwnedPiece("of the year", dated="1858-03"),
        OwnedPiece("about it", dated="[1855..1862]"),
        OwnedPiece("before it", dated="1849"),
        OwnedPiece("a copy", dated="2023"),
        OwnedPiece("no date"),
        OwnedPiece("sold", dated="1858", status="sold"),
    ]
    told = year_document(1858, usual_in(1858, knowledge), knowledge, mine)
    rows = [words_of(row) for row in document_rows(told, 100, PLAIN)]
    text = "\n".join(rows[:12])
    for words in ("of the year (1858-03)", "about it ([1855..1862])", "older: before it (1849)"):
        assert words in text
    for words in ("a copy", "no date", "sold"):
        assert words not in text
