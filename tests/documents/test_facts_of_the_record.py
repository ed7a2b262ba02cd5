"""A report takes what the record of an owned piece says: its date, and by it the sitter's birth."""

import datetime as dt

import pytest

from appraise.documents.reports.identity import _facts, portrayal
from appraise.documents.reports.report_input import ReportInput
from appraise.knowledge import load
from appraise.records.owned import OwnedPiece
from appraise.records.piece import Piece
from appraise.verdict import judge

DAY = dt.date(2026, 12, 1)


@pytest.fixture(scope="module")
def trade():
    return load()


def matter(trade, dated):
    piece = Piece(title="a man", portray=1858, sitter_age=(65, 75))
    kept = OwnedPiece("a man", dated=dated)
    return ReportInput(judge(piece, trade, None, DAY), trade, kept=kept)


def test_what_was_made_later_did_not_exist_in_the_year(trade):
    (told,) = portrayal(matter(trade, "2023"))
    assert told.text == "made 2023 by its record: it did not exist in 1858"
    for dated in ("", "1858-03", "[1855..1862]"):
        (told,) = portrayal(matter(trade, dated))
        assert told.text.startswith("existed by 1858")


def test_a_sitter_is_born_by_the_date_on_record(trade):
    """Aged 65 to 75 in March 1858: born 1782 to 1793, by the calendar."""
    facts = dict(_facts(matter(trade, "1858-03")))
    assert facts["sitter"] == ("65 to 75 years old by looks, so born 1782 to 1793",)
