"""Lots that are followed: records, what becomes of them, and what closes when."""

import datetime as dt
from dataclasses import replace
from zoneinfo import ZoneInfo

import pytest
from collection.lotkit import DAY, NOW, closing, lot, lots, usd
from hypothesis import given

from appraise.base.errors import InputError
from appraise.base.moments import Closing
from appraise.base.money import Money
from appraise.collection.lotsteps import by_closing, due, ended, with_bid, without_bid
from appraise.pricing.lot import Plan
from appraise.records import record_types
from appraise.records.budget import Budget
from appraise.records.lot import LotItem
from appraise.records.piece import PLANS

BERLIN = ZoneInfo("Europe/Berlin")
BID = lot(bid=usd(30), bid_at=NOW, state="bid")


@given(lots())
def test_a_lot_comes_back_as_it_was_kept(thing):
    text = record_types.to_text(thing)
    assert record_types.type_of(text) == "lot"
    assert record_types.from_text(text) == thing
    assert record_types.to_text(record_types.from_text(text)) == text


def test_a_budget_comes_back_as_it_was_kept():
    thing = Budget(usd(150), "month", DAY)
    assert record_types.from_text(record_types.to_text(thing)) == thing


def test_the_plans_of_a_lot_file_are_those_of_the_price():
    assert tuple(one.value for one in Plan) == PLANS


@pytest.mark.parametrize(
    ("field", "value", "told"),
    [
        ("title", " ", "needs a title"),
        ("title", "a\nb", "a line break"),
        ("currency", "USX", "'USX' is not known"),
        ("channel", "auktion", "Did you mean 'auction'?"),
        ("asking", Money.parse("3 EUR"), "Write it in USD."),
        ("selling", 101, "from 0 to 100"),
        ("chance", 1.5, "is not a whole number"),
        ("state", "gone", "'gone' is not known"),
        ("state", "bid", "a bid has no amount"),
        ("state", "won", "needs a hammer price"),
        ("state", "lost", "a result needs a day"),
        ("ended", DAY, "a result needs a day"),
        ("bid_at", dt.datetime(2026, 1, 1), "not an instant in UTC"),
        ("items", (LotItem("a"),) * 501, "more than 500"),
    ],
)
def test_what_a_lot_cannot_be_is_refused(field, value, told):
    with pytest.raises(InputError) as caught:
        lot(**{field: value})
    assert told in str(caught.value)


def test_an_estimate_rises():
    with pytest.raises(InputError, match="is not an estimate"):
        lot(low=usd(11), high=usd(8))


@pytest.mark.parametrize(("plan", "told"), [("sell", "Did you mean 'resell'?")])
def test_a_plan_is_one_of_three(plan, told):
    with pytest.raises(InputError, match="is not known") as caught:
        LotItem("a", plan=plan)
    assert told in str(caught.value)


@pytest.mark.parametrize(("amount", "per"), [("0", "month"), ("5", "week")])
def test_a_budget_is_above_nothing_for_a_month_or_a_year(amount, per):
    with pytest.raises(InputError):
        Budget(usd(amount), per, DAY)


class TestSteps:
    def test_a_bid_takes_the_place_of_the_one_before_and_keeps_the_chance(self):
        first = with_bid(lot(), usd(20), NOW, 40)
        second = with_bid(first, usd(30), NOW + dt.timedelta(microseconds=5))
        assert (second.state, second.bid, second.chance) == ("bid", usd(30), 40)
        assert second.bid_at == NOW
        assert second.standing == usd(30)
        assert without_bid(second) == lot()

    def test_a_bid_in_another_zone_is_kept_in_utc(self):
        there = NOW.astimezone(BERLIN)
        assert with_bid(lot(), usd(20), there).bid_at == NOW

    @pytest.mark.parametrize("amount", ["0", "-1"])
    def test_a_bid_is_above_nothing(self, amount):
        with pytest.raises(InputError, match="above 0"):
            with_bid(lot(), usd(amount), NOW)

    def test_a_bid_is_in_the_currency_of_the_sale(self):
        with pytest.raises(InputError, match="Write it in USD"):
            with_bid(lot(), Money.parse("3 EUR"), NOW)

    @pytest.mark.parametrize("state", ["won", "lost", "passed"])
    def test_a_result_is_noted_once(self, state):
        after = ended(BID, state, DAY, usd(28))
        assert (after.state, after.hammer, after.ended) == (state, usd(28), DAY)
        assert after.bid == usd(30)
        assert after.standing is None
        assert not after.open
        for step in (lambda: ended(after, "lost", DAY), lambda: with_bid(after, usd(3), NOW)):
            with pytest.raises(InputError, match=f"was {state} on 2026-11-07"):
                step()


class TestDue:
    @pytest.mark.parametrize(
        ("closes", "bid", "left", "overdue", "urgent"),
        [
            (None, False, None, False, False),
            ("2026-11-07T12:01", False, 1, False, True),
            ("2026-11-08T12:00", False, 24 * 60, False, True),
            ("2026-11-08T12:01", False, 24 * 60 + 1, False, False),
            ("2026-11-07T12:01", True, 1, False, False),
            ("2026-11-07T12:00", False, None, True, False),
            ("2026-11-01T12:00", True, None, True, False),
        ],
    )
    def test_a_lot_stands_thus(self, closes, bid, left, overdue, urgent):
        one = replace(BID if bid else lot(), closes=closing(closes) if closes else None)
        stands = due(one, NOW, dt.UTC)
        assert stands.left == (None if left is None else dt.timedelta(minutes=left))
        assert (stands.overdue, stands.urgent) == (overdue, urgent)

    def test_a_day_without_an_hour_is_over_at_its_midnight(self):
        one = lot(closes=Closing(on=DAY))
        assert due(one, NOW, BERLIN).left == dt.timedelta(hours=11)  # 23:00 UTC
        assert due(one, NOW + dt.timedelta(hours=11), BERLIN).overdue
        there = lot(closes=Closing(on=DAY, zone="America/New_York"))
        assert due(there, NOW, BERLIN).left == dt.timedelta(hours=17)  # 05:00 UTC

    def test_what_ended_is_never_overdue(self):
        one = ended(lot(closes=closing("2026-11-01T12:00")), "passed", DAY)
        assert not due(one, NOW, dt.UTC).overdue

    def test_what_closes_first_is_first_and_nothing_is_dropped(self):
        known = [
            lot("no closing"),
            ended(lot("over long ago"), "passed", dt.date(2026, 10, 1)),
            ended(lot("over"), "passed", DAY),
            lot("later", closes=closing("2026-12-01T12:00")),
            lot("day", closes=Closing(on=dt.date(2026, 11, 8))),
            lot("hour", closes=closing("2026-11-08T12:00")),
            lot("no result", closes=closing("2026-11-01T12:00")),
        ]
        ordered = sorted(known, key=lambda one: by_closing(one, dt.UTC))
        assert [one.title for one in ordered] == [
            "no result", "hour", "day", "later", "no closing", "over", "over long ago",
        ]  # fmt: skip
