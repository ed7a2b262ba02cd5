"""What a share and steps may be, and what a piece takes from its lot and from its entry."""

import datetime as dt
from dataclasses import replace
from decimal import Decimal

import pytest

from appraise.base.errors import InputError
from appraise.knowledge import load
from appraise.records.entry import Entry
from appraise.records.entry_piece import plain_piece
from appraise.records.fields import Author, changed
from appraise.records.lot import Lot
from appraise.records.lot_file import met_in
from appraise.records.piece import Piece
from appraise.records.quantities import PercentKind
from appraise.records.venue import Venue

DAY = dt.date(2026, 11, 7)
BY = Author("USD", DAY)
KNOWLEDGE = load()


@pytest.mark.parametrize(("text", "share"), [("0", 0), ("12.5%", "12.5"), ("100", 100)])
def test_a_share_is_read(text, share):
    assert PercentKind().read(text, BY) == Decimal(share)


@pytest.mark.parametrize("text", ["-1", "100.1", "250%", "NaN", "Infinity", "half", ""])
def test_what_is_no_share_is_refused(text):
    with pytest.raises(InputError, match="share of the price"):
        PercentKind().read(text, BY)


@pytest.mark.parametrize("steps", ["25 to 1000, 20 to 1000, 15", "25 to 1000, 20 to 999, 15"])
def test_each_step_ends_above_the_one_before(steps):
    with pytest.raises(InputError, match="does not end above"):
        changed(Venue("a room", "USD"), {"premium": steps}, BY)


@pytest.mark.parametrize(
    ("lot", "piece", "met"),
    [("auction", "market", "auction"), ("", "market", "market"), ("online", "", "online")],
)
def test_a_piece_is_met_where_its_lot_is(lot, piece, met):
    about = replace(Lot("three plates", DAY, "USD"), channel=lot)
    assert met_in(Piece(channel=piece), about).channel == met


@pytest.mark.parametrize(("told", "named"), [("sixth", "sixth"), ("postage-stamp", ""), ("", "")])
def test_an_entry_names_the_format_that_the_knowledge_knows(told, named):
    assert plain_piece(Entry("bought", DAY, format=told), KNOWLEDGE).named_format == named
