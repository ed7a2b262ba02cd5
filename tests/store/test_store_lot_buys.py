"""A lot's result: one act that shares the cost out over its pieces, undone by one undo."""

import datetime as dt
from dataclasses import replace
from decimal import Decimal

import pytest
from collection.lotkit import NOW, lot, usd
from hypothesis import given
from hypothesis import strategies as st
from store.logkit import opened, terms

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.collection.lot_results import (
    KEY,
    carriage_of,
    lost_act,
    passed_act,
    whole_cost,
    won_act,
)
from appraise.knowledge import load
from appraise.pricing.cost_basis import all_in_price
from appraise.records.lot import Lot, LotItem
from appraise.records.piece_file import parse_piece
from appraise.records.rate import Rate
from appraise.records.stored import Stored
from appraise.records.venue import Venue
from appraise.records.venuebook import VenueBook
from appraise.store.records import commit, held, keep
from appraise.verdict import judge

DAY = dt.date(2026, 11, 9)
TERMS = {"channel": "auction", "premium": "25", "carriage": "12.50", "travel": "8"}
ROOMS = terms(Venue("Quay rooms", "USD"), TERMS)
HAFEN = terms(Venue("Hafen", "EUR"), {"premium": "20", "exchange-fee": "3"})
RATE = Rate("EUR", "USD", Decimal("1.10"), DAY)
BOOK = VenueBook((ROOMS, HAFEN), (RATE,))
PIECE = "title: girl\nchannel: auction\nmotif: vine\nfindings: {case.material: thermoplastic}\n"
ONE = lot("girl", venue="Quay rooms", asking=usd(20), items=(LotItem("girl", PIECE),))
TWO = lot("two pieces", venue="Quay rooms", number="118", items=(*ONE.items, LotItem("case")))
VERDICT = judge(parse_piece(PIECE, "p", load()), load(), None, DAY)


def euros(amount):
    return Money.parse(f"{amount} EUR")


class TestCost:
    def test_the_bill_without_the_travel(self):
        assert whole_cost(ONE, usd(40), BOOK, "USD", DAY) == usd("62.50")  # 40 + 10 + 12.50

    def test_abroad_by_the_users_own_rate(self):
        there = replace(ONE, venue="Hafen", currency="EUR", asking=None)
        # 40 + 8 = 48 EUR; at 1.10: 52.80 USD; 3 % of it: 1.58.
        assert whole_cost(there, euros(40), BOOK, "USD", DAY) == usd("54.38")

    def test_without_a_rate_the_invoice_stands_in_its_own_currency(self):
        there = replace(ONE, venue="Hafen", currency="EUR", asking=None)
        assert whole_cost(there, euros(40), VenueBook((HAFEN,)), "USD", DAY) == euros("48.00")

    def test_without_terms_the_hammer_price(self):
        assert whole_cost(replace(ONE, venue="barn"), usd(40), BOOK, "USD", DAY) == usd(40)
        far = replace(ONE, venue="barn", currency="EUR", asking=None)
        assert whole_cost(far, euros(40), VenueBook(), "USD", DAY) == euros(40)

    def test_in_the_currency_of_the_sale(self):
        with pytest.raises(InputError, match="Bid in USD"):
            whole_cost(ONE, euros(40), BOOK, "USD", DAY)


class TestWon:
    def test_a_single_piece(self, tmp_path):
        with opened(tmp_path / "log.sqlite") as log:
            kept = keep(log, ONE)
            commit(log, won_act(kept, usd(40), DAY, usd("62.50"), (1.0,), (VERDICT,)))
            (entry,) = log.entries()
            (after,) = held(log, Lot)
        assert (entry.record, entry.paid, entry.hammer) == ("bought", usd("62.50"), usd(40))
        assert (entry.asked, entry.venue, entry.channel) == (usd(20), "Quay rooms", "auction")
        assert (entry.title, entry.motif, entry.piece) == ("girl", "vine", PIECE)
        assert (entry.housing, entry.date) == ("thermoplastic", DAY)
        assert entry.extra == {KEY: kept.id, "pieces in lot": 1}
        assert (after.thing.state, after.thing.hammer) == ("won", usd(40))

    def test_several_pieces_share_and_one_undo_takes_all_of_it_back(self, tmp_path):
        with opened(tmp_path / "log.sqlite") as log:
            kept = keep(log, TWO)
            commit(log, won_act(kept, usd(40), DAY, usd("62.50"), (3.0, 1.0), (VERDICT, None)))
            paid = {one.title: one.paid for one in log.entries()}
            assert paid == {"girl": usd("46.88"), "case": usd("15.62")}  # 46.875 and 15.625
            assert {one.extra["lot number"] for one in log.entries()} == {"118"}
            assert all(one.hammer is None for one in log.entries())
            log.undo()
            assert log.entries() == ()
            assert held(log, Lot) == (kept,)
            log.redo()
            assert len(log.entries()) == 2
            assert held(log, Lot)[0].thing.state == "won"

    def test_what_was_paid_needs_no_bill_on_top(self):
        act = won_act(Stored("a", ONE), usd(40), DAY, usd("62.50"), (1.0,), (VERDICT,))
        assert all_in_price(act.add[0], "USD", BOOK) == usd("62.50")

    def test_a_lot_of_which_no_piece_is_noted_is_one_entry(self):
        act = won_act(Stored("a", lot("odd lot")), usd(40), DAY, usd(40), (1.0,), ())
        assert [one.title for one in act.add] == ["odd lot"]

    def test_shares_are_one_for_each_piece(self):
        with pytest.raises(InputError, match="1 shares for 2 pieces"):
            won_act(Stored("a", TWO), usd(40), DAY, usd(40), (1.0,), (VERDICT, None))

    def test_once(self):
        over = replace(ONE, state="lost", ended=DAY)
        with pytest.raises(InputError, match="was lost"):
            won_act(Stored("a", over), usd(40), DAY, usd(40), (1.0,), (VERDICT,))

    @given(
        st.integers(0, 10**8),
        st.lists(st.floats(0.0, 1e6, allow_subnormal=False), min_size=1, max_size=9),
    )
    def test_what_is_logged_adds_up_to_the_cost_exactly(self, minor, weights):
        many = lot("many", items=tuple(LotItem(str(n)) for n in range(len(weights))))
        total = Money.of_minor(minor, "USD")
        act = won_act(Stored("a", many), usd(1), DAY, total, weights, (None,) * len(weights))
        assert sum(one.paid.minor for one in act.add) == minor


class TestLost:
    def test_of_one_piece_the_hammer_price_is_logged(self):
        act = lost_act(Stored("a", ONE), usd(44), DAY, (VERDICT,))
        (entry,) = act.add
        assert (entry.record, entry.hammer, entry.paid) == ("hammer", usd(44), None)
        # The bill comes on top when it is learnt: 44 + 11 + 12.50.
        assert all_in_price(entry, "USD", BOOK) == usd("67.50")
        assert act.change[0].thing.state == "lost"

    def test_of_several_pieces_nothing_unless_it_is_asked_for(self):
        act = lost_act(Stored("a", TWO), usd(44), DAY, (VERDICT, None))
        assert act.add == ()
        assert act.change[0].thing.hammer == usd(44)

    def test_several_pieces_share_hammer_price_and_carriage(self):
        posted = carriage_of(TWO, BOOK)
        act = lost_act(Stored("a", TWO), usd(44), DAY, (VERDICT, None), (3.0, 1.0), posted)
        assert [one.hammer for one in act.add] == [usd(33), usd(11)]
        # 44 + 11 premium + 12.50 carriage, once for the whole lot.
        costs = [all_in_price(one, "USD", BOOK) for one in act.add]
        assert costs[0] + costs[1] == usd("67.50")

    def test_a_price_that_nobody_knows(self):
        act = lost_act(Stored("a", ONE), None, DAY, (VERDICT,))
        assert act.add == ()
        assert act.change[0].thing.hammer is None

    def test_a_house_without_carriage_has_none(self):
        assert carriage_of(replace(ONE, venue="barn"), BOOK) is None


def test_what_is_passed_over_keeps_the_bid_that_was_placed():
    bid = replace(ONE, bid=usd(30), bid_at=NOW, state="bid")
    (after,) = passed_act(Stored("a", bid), DAY).change
    assert (after.thing.state, after.thing.bid) == ("passed", usd(30))
