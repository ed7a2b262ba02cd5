"""Outcomes and the track record from the command line."""

import json
from dataclasses import replace
from datetime import date

import pytest

from appraise.base.money import Money
from appraise.base.places import home
from appraise.cli.main import run
from appraise.commands.workspace import open_at
from appraise.records.entry import Entry, LoggedEstimate

ESTIMATE = LoggedEstimate(*(Money.parse(f"{amount} USD") for amount in (20, 30, 45)))


@pytest.fixture(autouse=True)
def _home(tmp_path, monkeypatch):
    monkeypatch.setenv("APPRAISE_HOME", str(tmp_path / "home"))


@pytest.fixture
def say(capsys):
    def said(*words, status=0):
        assert run(words) == status
        told = capsys.readouterr()
        return told.out if status == 0 else told.err

    return said


@pytest.fixture
def logged():
    """Ten pieces with an estimate made before: eight prices inside it, two outside."""
    with open_at(home().log) as log:
        base = Entry(
            record="bought",
            date=date(2026, 3, 1),
            process="ambrotype",
            estimate=ESTIMATE,
            belonging=(("together", 0.6), ("married", 0.3), ("modern-case", 0.1)),
        )
        amounts = (22, 25, 28, 30, 31, 35, 40, 44, 60, 12)
        paid = (replace(base, paid=Money.parse(f"{amount} USD")) for amount in amounts)
        return [entry.id for entry in log.add_all(paid)]


def test_without_a_log_it_says_so(say):
    assert "there is no log" in say("track", status=1)


def test_coverage_is_counted_with_its_interval(say, logged):
    told = json.loads(say("track", "--json"))["prices"]
    assert told["count"] == 10
    assert told["inside"] == 8
    # Wilson 1927, Journal of the American Statistical Association 22: 8 of 10 at 95 %.
    assert told["wilson"] == pytest.approx([0.4902, 0.9433], abs=1e-4)


def test_a_later_sale_counts_before_the_price_paid(say, logged):
    say("log", "outcome", logged[-1], "--price", "33 USD")
    assert json.loads(say("track", "--json"))["prices"]["inside"] == 9


def test_what_was_found_scores_the_belief(say, logged):
    say("log", "outcome", logged[0], "--found", "married", "--sure", "certain", "--by", "a friend")
    say("log", "outcome", logged[1], "--found", "together")
    say("log", "outcome", logged[2], "--found", "married", "--sure", "guess")
    told = json.loads(say("track", "--json"))["belonging"]
    assert told["count"] == 2  # a guess does not count
    # Of period pieces 1 in 3 was said to be married: ((1/3 - 1)^2 + (1/3)^2) / 2 = 5/18.
    assert told["brier"] == pytest.approx(5 / 18, abs=1e-4)
    text = say("track")
    assert "8 of 10 prices fell inside their predicted range" in text
    assert "1 of 2 pieces with an outcome were married pieces" in text


def test_an_unknown_state_is_one_line(say, logged):
    told = say("log", "outcome", logged[0], "--found", "maried", status=1)
    assert "Did you mean 'married'?" in told
    assert "needs a finding or a later price" in say("log", "outcome", logged[0], status=1)


def test_an_outcome_can_be_undone(say, logged):
    say("log", "outcome", logged[0], "--found", "married")
    say("log", "undo")
    assert json.loads(say("track", "--json"))["belonging"] is None
