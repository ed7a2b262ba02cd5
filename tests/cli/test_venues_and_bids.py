"""Venues, rates and bids from the command line; odd prices in lists."""

import json
from dataclasses import replace
from datetime import date, timedelta

import pytest

from appraise.base.money import Money
from appraise.base.places import home, shipped_demo
from appraise.cli.demo import furnish
from appraise.cli.main import run
from appraise.commands.workspace import open_at
from appraise.records.entry import Entry

PIECE = str(shipped_demo() / "pieces" / "sound.yaml")
DAY = ("--as-of", "2026-11-07")
TERMS = ("channel=auction", "premium=25 to 1000, 20", "tax=20 on premium", "carriage=12.50")


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
def rooms(say):
    say("venues", "edit", "Quay rooms", *TERMS, *DAY)


class TestVenues:
    def test_none_are_shipped(self, say):
        assert json.loads(say("venues", "list", "--json"))["venues"] == []
        assert "adds one" in say("venues")
        assert json.loads(say("rates", "--json"))["rates"] == []

    def test_terms_say_when_they_were_checked_and_where_to_look(self, say, rooms):
        told = say("venues", "show", "quay ROOMS", *DAY)
        assert (
            "terms checked on 2026-11-07. Terms change: check the auction house's current "
            "conditions." in told
        )
        later = say("venues", "show", "quay rooms", "--as-of", "2028-01-01")
        assert "more than a year ago" in later
        say("venues", "edit", "Quay rooms", "checked=")
        assert "never checked" in say("venues", "list")

    def test_an_edit_keeps_the_rest(self, say, rooms):
        say("venues", "edit", "quay rooms", "surcharge=3", *DAY)
        told = json.loads(say("venues", "show", "Quay rooms", "--json"))["venue"]
        assert told["premium"] == "25 to 1000, 20"
        assert told["surcharge"] == "3"

    def test_a_venue_is_forgotten(self, say, rooms):
        assert "forgotten: Quay rooms" in say("venues", "remove", "quay rooms")
        assert "no venue 'quay rooms'" in say("venues", "show", "quay rooms", status=1)

    def test_hammer_prices_without_terms_are_told(self, say, rooms):
        entry = Entry("hammer", date(2026, 1, 2), hammer=Money.parse("30 USD"), venue="barn sale")
        with open_at(home().log) as log:
            log.add(entry)
        assert "barn sale (1)" in say("venues", "list")
        assert json.loads(say("venues", "list", "--json"))["without_terms"] == {"barn sale": 1}

    @pytest.mark.parametrize(
        ("words", "told"),
        [
            (("venues", "edit", "x", "premium"), "is not FIELD=VALUE"),
            (("venues", "edit", "x", "premuim=3"), "Did you mean 'premium'?"),
            (("venues", "show", "nowhere"), "no venue 'nowhere'"),
            (("rates", "EUR"), "Write: appraise rates EUR 1.08."),
            (("rates", "EUR", "much"), "'much' is not a number"),
            (("rates", "EUX", "1"), "currency 'EUX' is not known"),
            (("rates", "USD", "1"), "needs no rate to itself"),
        ],
    )
    def test_mistakes_are_one_line(self, say, words, told):
        error = say(*words, status=1)
        assert told in error
        assert error.count("\n") == 1

    def test_a_rate_is_noted_with_day_and_source(self, say):
        told = say("rates", "eur", "1.08", "--on", "2026-05-01", "--source", "my bank")
        assert told == "2026-05-01  1 EUR = 1.08 USD  (my bank)\n"


class TestBid:
    def test_a_ceiling_at_a_venue(self, say, rooms):
        told = json.loads(say("bid", "--ceiling", "100", "--venue", "quay rooms", "--json", *DAY))
        # 65 + 25 % = 16.25, 20 % of that = 3.25, 12.50 carriage: 97.00; at 70 it is 103.50.
        assert told["bid"] == {"amount": "65.00", "currency": "USD"}
        assert told["total"]["amount"] == "97.00"
        assert told["next"]["amount"] == "70.00"
        assert told["terms_checked"] == "2026-11-07"
        text = say("bid", "--ceiling", "100", "--venue", "quay rooms", *DAY)
        assert "Maximum bid: 65.00 USD" in text
        assert "Next increment: 70.00 (103.50 USD in total)" in text

    def test_without_a_venue_nothing_comes_on_top(self, say):
        text = say("bid", "--ceiling", "38")
        assert "no premium, tax or shipping added" in text
        assert "Maximum bid: 38.00 USD" in text

    def test_a_worth_is_shaded_among_bidders(self, say, rooms):
        words = ("bid", "--worth", "100", "--doubt", "0.3", "--venue", "quay rooms", "--json")
        # Valuation table for n = 4, sigma 0.3: .741230 (computed by quadrature in the tests).
        assert json.loads(say(*words))["ceiling"]["amount"] == "74.12"
        assert json.loads(say(*words, "--bidders", "1"))["ceiling"]["amount"] == "100.00"
        less = json.loads(say(*words, "--bidders", "1", "--repair", "10", "--margin", "5"))
        assert less["ceiling"]["amount"] == "85.00"

    def test_a_bare_amount_is_a_worth(self, say, rooms):
        for text in ("250", "250.00 USD", "$250"):
            assert say("bid", text, *DAY) == say("bid", "--worth", "250", *DAY)

    def test_what_is_no_amount_names_the_option(self, say, rooms):
        assert "--worth 40" in say("bid", "the-lot", status=1)
        assert "reads two ways" in say("bid", "1,250", status=1)
        assert "is not in USD" in say("bid", "£20", status=1)

    def test_nothing_left_is_no_bid(self, say, rooms):
        text = say("bid", "--ceiling", "12", "--venue", "quay rooms")
        assert "Do not bid" in text

    def test_a_foreign_venue_shows_its_invoice(self, say):
        say("rates", "EUR", "1.08", "--on", "2026-11-01")
        say("venues", "edit", "Hafen", "currency=EUR", "premium=24", "exchange-fee=3")
        told = json.loads(say("bid", "--ceiling", "100", "--venue", "hafen", "--json"))
        assert told["bid"]["currency"] == "EUR"
        assert told["total"]["currency"] == "USD"
        assert "their invoice" in say("bid", "--ceiling", "100", "--venue", "hafen")

    def test_a_foreign_venue_without_a_rate_asks_for_one(self, say):
        say("venues", "edit", "Hafen", "currency=EUR")
        told = say("bid", "--ceiling", "100", "--venue", "hafen", status=1)
        assert "Enter it: appraise rates EUR RATE." in told

    def test_a_piece_by_the_log(self, say):
        furnish(home())
        say("venues", "edit", "Quay rooms", *TERMS, *DAY)
        words = ("bid", PIECE, "--venue", "Quay rooms", "--json", *DAY)
        told = json.loads(say(*words))
        assert float(told["total"]["amount"]) <= float(told["ceiling"]["amount"])
        assert "the winner of 4 bidders" in told["why"]
        assert any(one["bid"] == told["bid"] for one in told["curve"])
        wins = [one["chance_to_win"] for one in told["curve"]]
        assert wins == sorted(wins)

    def test_at_a_stall_one_number_leads_and_nothing_of_a_sale_is_told(self, say):
        furnish(home())
        text, told = say("bid", PIECE, *DAY), json.loads(say("bid", PIECE, "--json", *DAY))
        headline = json.loads(say("verdict", PIECE, "--json", *DAY).partition("\n}\n")[0] + "}")
        limit = told["bid"]["amount"]
        assert f"Limit: {limit} USD" in text
        assert f"limit of {float(limit):.0f}" in headline["headline"]
        assert told["next"] is None
        assert told["curve"] == []
        for word in ("hammer", "increment", "total", "win", "sale", "must stay"):
            assert word not in text

    def test_a_piece_without_like_entries_says_why(self, say):
        assert "--worth or --ceiling" in say("bid", PIECE, status=1)

    @pytest.mark.parametrize(
        ("words", "told"),
        [
            ((), "name a piece or lot file"),
            (("--worth", "3", "--ceiling", "3"), "name a piece or lot file"),
            (("--worth", "3", "--doubt", "much"), "'much' is not an uncertainty"),
            (("--worth", "3", "--bidders", "0"), "Give 1 to 50."),
            (("--worth", "3 EUR"), "is not in USD"),
            (("--ceiling", "3", "--venue", "moon"), "no venue 'moon'"),
        ],
    )
    def test_mistakes_are_one_line(self, say, words, told):
        error = say("bid", *words, status=1)
        assert told in error
        assert error.count("\n") == 1


def test_the_verdict_goes_by_the_venues_bill(say):
    furnish(home())
    words = ("verdict", PIECE, "--json", *DAY)
    before = json.loads(say(*words))["advice"]
    say("venues", "edit", "Market hall", "channel=market", "usual=yes", "premium=10", *DAY)
    after = json.loads(say(*words))["advice"]
    assert [one["name"] for one in after["bill"]] == ["hammer", "premium"]
    assert float(after["walk_away"]["amount"]) < float(before["walk_away"]["amount"])


class TestOddPrices:
    @pytest.fixture
    def odd(self):
        """Forty pieces at about 40, and one at 4,000."""
        base = Entry("bought", date(2026, 1, 1), kind="cased", process="ambrotype", format="sixth")
        prices = [36 + n % 9 for n in range(40)] + [4000]
        entries = [
            replace(base, date=base.date + timedelta(n), paid=Money.parse(f"{price} USD"))
            for n, price in enumerate(prices)
        ]
        with open_at(home().log) as log:
            return log.add_all(entries)[-1].id

    def test_the_list_marks_it_and_still_shows_it(self, say, odd):
        rows = say("log", "list").splitlines()
        assert [row[:8] for row in rows if row.endswith("? check this price")] == [odd[:8]]
        assert "41 entries" in rows[-1]
        assert list(json.loads(say("log", "list", "--json"))["check"]) == [odd]

    def test_the_entry_tells_what_the_others_say(self, say, odd):
        told = say("log", "show", odd)
        told = " ".join(told.split())
        assert "? Check this price: a total of 4,000 USD, where similar entries" in told
        assert "It is given little weight." in told
        assert "Check this price" in json.loads(say("log", "show", odd, "--json"))["check"]

    def test_the_others_bear_no_mark(self, say, odd):
        with open_at(home().log) as log:
            fine = next(one.id for one in log.entries() if one.id != odd)
        assert "check" not in json.loads(say("log", "show", fine, "--json"))

    def test_a_long_log_is_looked_through_when_asked_to(self, say, odd, monkeypatch):
        monkeypatch.setattr("appraise.commands.odd.LEARNT_UNASKED", 10)
        assert "check this price" not in say("log", "list")
        assert "check this price" in say("log", "list", "--check")
