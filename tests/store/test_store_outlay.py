"""The budget: what was paid in its period, what the bids that stand cost, and what is left."""

import datetime as dt
from decimal import Decimal

import pytest
from collection.lotkit import NOW, lot, usd
from store.logkit import bought, opened, terms

from appraise.base.money import Money
from appraise.collection.budget_status import (
    BudgetStatus,
    Promise,
    bid_warnings,
    cost_of,
    over_words,
    period_of,
    terms_of_lot,
)
from appraise.records.budget import Budget
from appraise.records.rate import Rate
from appraise.records.stored import Stored
from appraise.records.venue import Venue
from appraise.records.venuebook import VenueBook
from appraise.store.merge import merge
from appraise.store.records import held, keep
from appraise.store.salvage import salvage
from appraise.store.venue_book import keep_book, keep_budget, read_budget, read_budget_status

DAY = dt.date(2026, 11, 7)
ROOMS = terms(
    Venue("Quay rooms", "USD"), {"channel": "auction", "premium": "25", "carriage": "12.50"}
)
HAFEN = terms(Venue("Hafen", "EUR"), {"channel": "online", "premium": "20"})
EUR = Rate("EUR", "USD", Decimal("1.10"), DAY)
BOOK = VenueBook((ROOMS, HAFEN), (EUR,))


def on(month, day, price, year=2026, **more):
    return bought("a piece", price, date=dt.date(year, month, day), **more)


def bid(amount, venue="Quay rooms", **more):
    return lot(bid=usd(amount), bid_at=NOW, state="bid", venue=venue, **more)


@pytest.mark.parametrize(
    ("day", "per", "first", "last"),
    [
        ("2026-11-07", "month", "2026-11-01", "2026-11-30"),
        ("2024-02-29", "month", "2024-02-01", "2024-02-29"),
        ("2023-02-01", "month", "2023-02-01", "2023-02-28"),
        ("2026-12-31", "month", "2026-12-01", "2026-12-31"),
        ("2026-11-07", "year", "2026-01-01", "2026-12-31"),
        ("2026-11-07", "", "2026-11-01", "2026-11-30"),
    ],
)
def test_a_period_is_a_calendar_month_or_year(day, per, first, last):
    found = period_of(dt.date.fromisoformat(day), per)
    assert found == (dt.date.fromisoformat(first), dt.date.fromisoformat(last))


CASES = [
    # entries, lots, budget, per, spent, if all win, left
    ([], [], 100, "month", 0, 0, 100),
    # 20 + 30; what was paid in October and December is of other months.
    ([on(10, 31, "8"), on(11, 1, "20"), on(11, 30, "30"), on(12, 1, "8")], [], 100, "month",
     50, 0, 50),
    # 8 + 20 + 30 + 8 of one year; 7 of the year before.
    ([on(10, 31, "8"), on(11, 1, "20"), on(11, 30, "30"), on(12, 1, "8"), on(11, 1, "7", 2025)],
     [], 100, "year", 66, 0, 34),
    # Carriage is part of what was paid: 20 + 4.50.
    ([on(11, 2, "20", postage=usd("4.50"))], [], 100, "month", "24.50", 0, "75.50"),
    # Only what was bought counts.
    ([on(11, 2, "20", record="sold"), on(11, 2, "20", record="refused")], [], 100, "month",
     0, 0, 100),
    # 40 + 10 premium + 12.50 carriage; 20 + 5 + 12.50.
    ([], [bid(40), bid(20)], 150, "month", 0, 100, 50),
    # A bid at a sale without terms costs what is bid.
    ([], [bid(35, "barn")], 100, "month", 0, 35, 65),
    # What is only followed, or has ended, promises nothing.
    ([], [lot(), lot(bid=usd(8), state="lost", ended=DAY)], 100, "month", 0, 0, 100),
    # More promised than there is: 58 spent, 62.50 promised.
    ([on(11, 2, "58")], [bid(40)], 100, "month", 58, "62.50", "-20.50"),
]  # fmt: skip


@pytest.mark.parametrize(("entries", "lots", "amount", "per", "spent", "win", "left"), CASES)
def test_the_sum(tmp_path, entries, lots, amount, per, spent, win, left):
    with opened(tmp_path / "log.sqlite") as log:
        keep_book(log, BOOK)
        log.add_all(entries)
        for one in lots:
            keep(log, one)
        keep_budget(log, Budget(usd(amount), per, DAY))
        purse = read_budget_status(log, "USD", DAY)
    assert purse.spent == usd(spent)
    assert purse.if_all_win == usd(win)
    assert purse.left == usd(left)


def test_without_a_budget_nothing_is_left_and_nothing_is_beyond_it(tmp_path):
    with opened(tmp_path / "log.sqlite") as log:
        log.add(on(11, 2, "20"))
        purse = read_budget_status(log, "USD", DAY)
    assert (purse.budget, purse.left, purse.spent) == (None, None, usd(20))
    assert purse.over(usd(10**6)) is None


def test_what_has_no_rate_is_told_apart_and_never_guessed(tmp_path):
    pounds = Money.parse("30 GBP")
    with opened(tmp_path / "log.sqlite") as log:
        keep_book(log, BOOK)
        log.add(on(11, 2, "20", paid=pounds))
        keep(log, lot("far", currency="GBP", bid=pounds, state="bid"))
        # 45 EUR + 20 % = 54 EUR, at 1.10: 59.40 USD.
        euros = Money.parse("45 EUR")
        keep(log, lot("near", currency="EUR", venue="Hafen", bid=euros, state="bid"))
        keep_budget(log, Budget(usd(100), "month", DAY))
        purse = read_budget_status(log, "USD", DAY)
    assert purse.spent == usd(0)
    assert purse.without_rate == (pounds,)
    assert [one.title for one in purse.uncounted] == ["far"]
    assert purse.if_all_win == usd("59.40")
    assert purse.left == usd("40.60")


def test_a_budget_in_another_currency_is_turned_or_told(tmp_path):
    with opened(tmp_path / "log.sqlite") as log:
        keep_book(log, BOOK)
        keep_budget(log, Budget(Money.parse("100 EUR"), "month", DAY))
        assert read_budget_status(log, "USD", DAY).budget == usd(110)
        keep_budget(log, Budget(Money.parse("100 GBP"), "month", DAY))
        purse = read_budget_status(log, "USD", DAY)
    assert purse.budget is None
    assert purse.unturned == Money.parse("100 GBP")


def purse_of(*promises):
    return BudgetStatus("USD", DAY, DAY, "month", usd(100), usd(0), 0, (), promises)


def test_what_to_expect_is_by_the_users_own_chances():
    first = Promise("a", "a", usd(40), usd("62.50"), 40)
    second = Promise("b", "b", usd(20), usd("37.50"), 70)
    # .40 x 62.50 + .70 x 37.50 = 25.00 + 26.25
    assert purse_of(first, second).expected == usd("51.25")
    assert purse_of(first, Promise("c", "c", usd(1), usd(1), None)).expected is None
    assert purse_of().expected is None


class TestWarnings:
    def purse(self, log):
        keep_book(log, BOOK)
        keep_budget(log, Budget(usd(100), "month", DAY))
        return read_budget_status(log, "USD", DAY)

    def test_a_bid_beyond_the_budget_is_told_and_not_held_back(self, tmp_path):
        with opened(tmp_path / "log.sqlite") as log:
            one = keep(log, bid(80))
            purse = self.purse(log)
        # 80 + 20 + 12.50 = 112.50; the bid does not stand against itself.
        (told,) = bid_warnings(one, BOOK, purse, DAY)
        assert "12.50 USD over this month's budget (total 112.50 USD; 100.00 USD" in told
        assert list(over_words(purse.without(one.id), usd(100))) == []

    def test_a_bid_above_ones_own_ceiling_is_told(self, tmp_path):
        with opened(tmp_path / "log.sqlite") as log:
            one = keep(log, bid(40, ceiling=usd(61)))
            purse = self.purse(log)
        (told,) = bid_warnings(one, BOOK, purse, DAY)
        assert told == "the total of 62.50 USD is 1.50 USD above your limit of 61.00 USD"

    def test_a_bid_without_a_rate_is_told(self, tmp_path):
        with opened(tmp_path / "log.sqlite") as log:
            purse = self.purse(log)
        far = Stored("", lot(currency="GBP", bid=Money.parse("30 GBP"), state="bid"))
        (told,) = bid_warnings(far, BOOK, purse, DAY)
        assert "no rate from GBP to USD" in told

    def test_no_bid_no_word(self, tmp_path):
        with opened(tmp_path / "log.sqlite") as log:
            assert list(bid_warnings(Stored("", lot()), BOOK, self.purse(log), DAY)) == []


def test_terms_in_another_currency_than_the_lot_are_none_of_its():
    there = lot(currency="EUR", venue="Quay rooms")
    assert terms_of_lot(there, BOOK, "USD", DAY).bands == ()
    assert cost_of(there, Money.parse("50 EUR"), BOOK, "USD", DAY) == usd(55)


class TestKept:
    def test_one_budget_counts_and_undo_brings_the_last_one_back(self, tmp_path):
        with opened(tmp_path / "log.sqlite") as log:
            keep_budget(log, Budget(usd(100), "month", DAY))
            keep_budget(log, Budget(usd(900), "year", DAY))
            assert [one.thing.per for one in held(log, Budget)] == ["year"]
            log.undo()
            assert read_budget(log).amount == usd(100)
            keep_budget(log, None)
            assert read_budget(log) is None
            log.undo()
            assert read_budget(log).amount == usd(100)

    def test_a_budget_is_merged_and_salvaged_with_the_log(self, tmp_path):
        here, there = tmp_path / "here.sqlite", tmp_path / "there" / "log.sqlite"
        with opened(here, "here") as log:
            keep_budget(log, Budget(usd(100), "month", DAY))
            keep(log, bid(35))
        with opened(there, "there") as log:
            merge(log, here)
            assert read_budget_status(log, "USD", DAY).left == usd(65)
        found = salvage(there, "2026-11-08T12:00:00.000000Z")
        with opened(found.path) as log:
            assert read_budget(log).amount == usd(100)

    def test_two_machines_budgets_become_one_again(self, tmp_path):
        here, there = tmp_path / "here.sqlite", tmp_path / "there" / "log.sqlite"
        with opened(there, "there") as log:
            keep_budget(log, Budget(usd(900), "year", DAY))
        with opened(here, "here") as log:
            keep_budget(log, Budget(usd(100), "month", DAY))
            merge(log, there)
            assert len(held(log, Budget)) == 2
            keep_budget(log, Budget(usd(50), "month", DAY))
            assert [one.thing.amount for one in held(log, Budget)] == [usd(50)]
