"""What became of a piece: kept in its entry, read again, and held against what was thought."""

import datetime as dt
from dataclasses import replace

import pytest
from every import every
from store.logkit import bought, usd

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.pricing.outcomes import (
    KEY,
    Belief,
    Outcome,
    beliefs,
    estimated,
    outcome_of,
    with_outcome,
)
from appraise.records.entry import Entry, LoggedEstimate

DAY = dt.date(2026, 11, 7)
THOUGHT = (("together", 0.6), ("married", 0.2), ("modern-case", 0.2))


def turned_out(found: str, sure: str = "certain", thought=THOUGHT) -> Entry:
    entry = replace(bought(), id="a" * 16, belonging=thought)
    return with_outcome(entry, Outcome(DAY, found, sure))


@every(
    "outcome",
    [Outcome(DAY, "married", "guess", "a dealer", usd("80")), Outcome(DAY, "together", "certain"),
     Outcome(DAY, price=usd("0.01")), Outcome(DAY, "all-modern")],
)  # fmt: skip
def test_an_outcome_is_read_as_it_was_kept(outcome):
    entry = with_outcome(replace(bought(), extra={"x": 1}), outcome)
    assert outcome_of(entry) == outcome
    assert entry.extra["x"] == 1
    assert all(entry.extra[KEY].values())  # what was not said is not kept
    assert outcome_of(with_outcome(entry, Outcome(DAY, "married"))) == Outcome(DAY, "married")


@every(
    "told",
    [None, "married", {}, {"on": "2026-11-07"}, {"on": "then", "found": "married"},
     {"on": "2026-11-07", "found": "wed"}, {"on": "2026-11-07", "price": {"amount": "5"}},
     {"on": "2026-11-07", "found": "married", "sure": "very"}],
)  # fmt: skip
def test_one_that_cannot_be_read_counts_as_none(told):
    assert outcome_of(replace(bought(), extra={KEY: told})) is None
    assert outcome_of(bought()) is None


@every(
    ("more", "where"),
    [({"found": "wed"}, "--found"), ({"found": "married", "sure": "very"}, "--sure"), ({}, "")],
)
def test_what_is_no_outcome_is_refused(more, where):
    with pytest.raises(InputError) as told:
        Outcome(DAY, **more)
    assert told.value.where == where


def test_what_was_thought_of_a_marriage_is_a_share_of_what_is_of_its_period():
    """Two of eight tenths are a quarter."""
    assert list(beliefs([turned_out("married"), turned_out("together", "likely")])) == [
        Belief("a" * 16, pytest.approx(0.25), True), Belief("a" * 16, pytest.approx(0.25), False),
    ]  # fmt: skip


@every(
    "entry",
    [bought(), turned_out("married", "guess"), turned_out("modern-case"), turned_out("all-modern"),
     turned_out("married", thought=()), turned_out("married", thought=(("modern-case", 1.0),)),
     with_outcome(replace(bought(), belonging=THOUGHT), Outcome(DAY, price=usd("5"))),
     replace(bought(), belonging=THOUGHT)],
)  # fmt: skip
def test_guesses_modern_pieces_and_what_nobody_thought_of_say_nothing(entry):
    assert list(beliefs([entry])) == []


def test_a_marriage_of_which_nobody_thought_counts_as_no_chance():
    (told,) = beliefs([turned_out("married", thought=(("together", 0.5), ("modern-case", 0.5)))])
    assert told.married == 0.0
    (told,) = beliefs([turned_out("married", thought=(("married", 0.5), ("modern-case", 0.5)))])
    assert told.married == 1.0


GUESS = LoggedEstimate(usd("30"), usd("40"), usd("50"))


def later(price: Money) -> Entry:
    return with_outcome(bought(estimate=GUESS), Outcome(DAY, price=price))


@every(
    ("entry", "price"),
    [(bought(estimate=GUESS), usd("45")), (bought(), None), (later(usd("80")), usd("80")),
     (later(Money.parse("80 EUR")), None), (bought(price="0.00", estimate=GUESS), None),
     (bought(price="0.01", estimate=GUESS), usd("0.01")),
     (bought(estimate=GUESS, record="refused"), None),
     (bought(estimate=GUESS, record="hammer", paid=None, hammer=usd("7")), usd("7")),
     (bought(estimate=GUESS, record="sold"), usd("45")),
     (bought(estimate=LoggedEstimate(*[Money.parse("4 EUR")] * 3)), None)],
)  # fmt: skip
def test_an_estimate_is_held_against_the_later_price_or_the_one_paid(entry, price):
    told = [(one, found) for one, found in estimated([entry], "USD")]
    assert told == ([] if price is None else [(entry, price)])
