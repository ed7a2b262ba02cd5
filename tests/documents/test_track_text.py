"""The track record in words: four sentences that say what the figures say."""

from dataclasses import replace
from datetime import date

import pytest

from appraise.base.money import Money
from appraise.documents.track import (
    NO_BELIEFS,
    NO_PRICES,
    PARTS,
    TOO_SHORT,
    _error,
    how_scored,
    sentences,
    track_document,
    track_json,
    track_of,
)
from appraise.documents.writers.lines import text as written
from appraise.pricing.outcomes import Outcome, with_outcome
from appraise.pricing.track import PastEstimate
from appraise.records.entry import Entry, LoggedEstimate


def usd(amount):
    return Money.parse(f"{amount} USD")


BASE = Entry(
    "bought",
    date(2026, 3, 1),
    estimate=LoggedEstimate(usd(20), usd(30), usd(45)),
    belonging=(("together", 0.6), ("married", 0.3), ("modern-case", 0.1)),
)
PRICES = (22, 25, 28, 30, 31, 35, 40, 44, 60, 12)
LOG = [replace(BASE, paid=usd(price)) for price in PRICES]


def test_coverage_error_lean_and_belief():
    found = Outcome(date(2026, 5, 1), "married", "certain")
    told = list(sentences(track_of([with_outcome(LOG[0], found), *LOG[1:]], "USD")))
    # Wilson 1927: 8 of 10 at 95 % is .490 to .943.
    assert told[0] == (
        "8 of 10 prices fell inside their predicted range: 80% (target 80%; 95% interval 49-94%)."
    )
    assert told[1].startswith("Half of the estimates were within ")
    assert told[2] == "5 of 10 prices came above their estimate, no clear bias."
    # One third was said and it came: (1 - 1/3)^2 = 4/9.
    assert (
        "1 of 1 piece with an outcome were married pieces; the predictions scored 0.444" in told[3]
    )


@pytest.mark.parametrize(
    ("price", "told"),
    [(44, "the estimates tend to be too low"), (21, "the estimates tend to be too high")],
)
def test_a_lean_is_told_once_chance_does_not_make_it(price, told):
    assert told in " ".join(sentences(track_of([replace(BASE, paid=usd(price))] * 12, "USD")))
    assert told not in " ".join(sentences(track_of([replace(BASE, paid=usd(price))] * 2, "USD")))


def test_fifths_count_every_price_once():
    track = track_of(LOG, "USD")
    assert sum(track.parts) == len(LOG)
    assert track.parts[0] >= 1
    assert track.parts[-1] >= 1
    text = written(track_document(track))
    assert all(name in text for name in PARTS)
    assert track_json(track)["prices"]["crps"] > 0.0


def test_an_empty_record_says_so():
    assert list(sentences(track_of([], "USD"))) == [NO_PRICES, NO_BELIEFS]
    again = track_of([], "USD", again=[])
    assert next(iter(sentences(again))) == TOO_SHORT
    assert "Back-test" in how_scored(again)
    assert track_json(again)["replayed"] is True


def test_a_replay_takes_the_place_of_what_was_stored():
    forecasts = [PastEstimate(20.0, 30.0, 45.0, 0.8, 50.0)] * 3
    track = track_of(LOG, "USD", again=forecasts)
    assert track.prices is not None
    assert (track.prices.count, track.prices.inside) == (3, 0)


@pytest.mark.parametrize(
    ("error", "says"), [(0.004, "1%"), (0.29, "29%"), (0.99, "99%"), (1.0, "a factor of 2.0"),
                        (3.4, "a factor of 4.4")],
)  # fmt: skip
def test_an_error_is_no_chance(error, says):
    """An estimate may lie further off than the price itself."""
    assert _error(error) == says
