"""Several pieces in a text, shipping as listed, and places abroad without a rate: by commands."""

import datetime as dt
import io
import json
import re
import sys

import pytest

from appraise.base.places import home
from appraise.cli.demo import furnish
from appraise.cli.main import run
from appraise.knowledge import load
from appraise.records.lot_file import piece_in, read_lot
from appraise.records.piece_file import read_piece
from appraise.records.values import Author

DAY = ("--as-of", "2026-11-07")
BY = Author("USD", dt.date(2026, 11, 7))
NOW = dt.datetime(2026, 11, 7, 10, tzinfo=dt.UTC)
OFFERS = "This text offers 11 pieces: judged as a lot."


@pytest.fixture(autouse=True)
def _home(tmp_path, monkeypatch):
    monkeypatch.setenv("APPRAISE_HOME", str(tmp_path / "home"))


@pytest.fixture
def say(capsys, monkeypatch):
    def said(*words, text="", status=0):
        data = io.TextIOWrapper(io.BytesIO(text.encode()))
        monkeypatch.setattr(sys, "stdin", data)
        assert run(words) == status
        told = capsys.readouterr()
        return told.out if status == 0 else told.err

    return said


class TestSeveral:
    def test_one_maximum_for_all_and_none_for_one(self, say):
        furnish(home())
        told = say("listing", "-", "--verdict", *DAY, text="11 tintypes for 45 USD")
        assert OFFERS in told
        assert not re.search(r"\blimit \d", told)
        assert " x tintype, one of 11" in told
        assert "total must stay within" in told

    def test_the_json_holds_the_lot_and_its_maximum(self, say):
        furnish(home())
        text = "11 tintypes for 45 USD + 6 USD shipping"
        told = json.loads(say("listing", "-", "--verdict", "--json", *DAY, text=text))
        assert told["pieces"] == len(told["lot"]["pieces"]) == 11
        assert told["lot"]["shipping"] == "6.00 USD"
        assert {"name": "carriage", "amount": {"amount": "6.00", "currency": "USD"},
                "note": "as listed"} in told["bid"]["bill"]  # fmt: skip
        assert (told["wanted"], told["twins"]) == ([], [])

    def test_the_file_is_a_lot_file_that_can_be_bid_on_and_followed(self, say, tmp_path):
        furnish(home())
        out = tmp_path / "lot.yaml"
        say("listing", "-", "--piece", str(out), *DAY, text="set of four tintypes $62")
        assert len(read_lot(out, load(), BY, NOW).items) == 4
        assert len(json.loads(say("bid", str(out), "--json", *DAY))["pieces"]) == 4
        added = json.loads(say("lots", "add", str(out), "--json", *DAY))
        assert len(added["lot"]["pieces"]) == 4

    def test_one_piece_as_a_lot_when_asked_to(self, say, tmp_path):
        out = tmp_path / "one.yaml"
        words = ("listing", "-", "--as-lot", "--piece", str(out), *DAY)
        assert "Judged as a lot of one piece." in say(*words, text="sixth plate tintype $30")
        lot = read_lot(out, load(), BY, NOW)
        (item,) = lot.items
        assert piece_in(item, lot, load()).found("claim.process") == "tintype"

    def test_nothing_known_is_no_advice_against_it(self, say):
        told = say("listing", "-", "--verdict", *DAY, text="11 tintypes for 45 USD")
        assert "No limit: the worth of no piece is known." in told
        assert "Do not bid" not in told


class TestShipping:
    def test_what_the_listing_asks_takes_the_place_of_the_venues(self, say, tmp_path):
        furnish(home())
        out = tmp_path / "piece.yaml"
        text = "Sixth plate ambrotype in a thermoplastic case. $45 + $18 shipping"
        say("listing", "-", "--piece", str(out), *DAY, text=text)
        assert str(read_piece(out, load()).shipping) == "18.00 USD"
        say("venues", "edit", "Mill site", "channel=online", "carriage=7", *DAY)
        told = say("bid", str(out), "--venue", "mill site", *DAY)
        assert "shipping (as listed)" in told
        assert "18.00" in told
        assert "7.00" not in told.split("shipping (as listed)")[1].splitlines()[0]

    def test_free_is_told(self, say, tmp_path):
        furnish(home())
        out = tmp_path / "piece.yaml"
        text = "Sixth plate ambrotype in a thermoplastic case. $45, free postage"
        say("listing", "-", "--piece", str(out), *DAY, text=text)
        say("venues", "edit", "Mill site", "channel=online", "carriage=7", "premium=5", *DAY)
        told = say("bid", str(out), "--venue", "mill site", *DAY)
        row = next(one for one in told.splitlines() if "shipping (as listed)" in one)
        assert row.split()[-1] == "0.00"


class TestNoRate:
    @pytest.fixture
    def abroad(self, say, tmp_path):
        furnish(home())
        say("venues", "edit", "Hafen", "currency=EUR", "channel=online", "premium=20", *DAY)
        out = tmp_path / "piece.yaml"
        text = "Sixth plate ambrotype in a thermoplastic case. 45 EUR"
        say("listing", "-", "--piece", str(out), *DAY, text=text)
        out.write_text(out.read_text(encoding="utf-8") + "from: {where: Hafen}\n", encoding="utf-8")
        return str(out)

    def test_a_bid_is_refused_with_the_way_to_enter_it(self, say, abroad):
        for words in (("bid", abroad), ("bid", abroad, "--venue", "hafen")):
            error = say(*words, *DAY, status=1)
            assert "no rate from EUR to USD" in error
            assert "appraise rates EUR RATE" in error
            assert error.count("\n") == 1

    def test_a_verdict_says_what_it_can_and_names_no_limit(self, say, abroad):
        told = say("verdict", abroad, *DAY)
        assert "Worth about " in told
        assert "No limit: venue Hafen: no rate from EUR to USD." in " ".join(told.split())
        assert not re.search(r"\blimit \d", told)
        advice = json.loads(say("verdict", abroad, "--json", *DAY))["advice"]
        assert (advice["walk_away"], advice["ceiling"], advice["bill"]) == (None, None, [])
        assert "appraise rates EUR RATE" in advice["why_not"]

    def test_with_a_rate_the_bill_shows_it_and_its_day(self, say, abroad):
        say("rates", "EUR", "1.10", "--on", "2026-10-30")
        told = say("bid", abroad, *DAY)
        assert "1 EUR = 1.1 USD, entered for 2026-10-30" in told
        exchange = json.loads(say("bid", abroad, "--json", *DAY))["exchange"]
        assert exchange == {"currency": "EUR", "base": "USD", "rate": "1.1", "on": "2026-10-30"}

    def test_a_lot_is_refused_too_and_takes_its_venues_currency(self, say, abroad):
        lot = json.loads(
            say("lots", "add", "girl", "venue=Hafen", "--piece", abroad, "--json", *DAY)
        )["lot"]
        assert lot["currency"] == "EUR"
        assert "appraise rates EUR RATE" in say("bid", lot["id"], *DAY, status=1)
        home_lot = json.loads(say("lots", "add", "boy", "--piece", abroad, "--json", *DAY))["lot"]
        edited = json.loads(say("lots", "edit", home_lot["id"], "venue=Hafen", "--json", *DAY))
        assert edited["lot"]["currency"] == "EUR"
        error = say("lots", "edit", home_lot["id"], "currency=GBP", *DAY, status=1)
        assert "Hafen sells in EUR" in error


class TestQueries:
    def test_a_bid_above_the_maximum_is_recorded_with_yes_alone(self, say):
        lot = json.loads(say("lots", "add", "girl", "ceiling=40", "--json", *DAY))["lot"]["id"]
        error = say("lots", "bid", lot, "42", *DAY, status=1)
        assert "42.00 USD is above the maximum bid of 40.00 USD" in error
        assert "Use --yes to record it anyway" in error
        say("lots", "bid", lot, "40", *DAY)
        say("lots", "bid", lot, "42", "--yes", *DAY)

    def test_an_amount_far_from_all_is_logged_with_yes_alone(self, say):
        furnish(home())
        line = ("log", "add", "sixth ambrotype thermoplastic vine, asked 45, paid 4500", *DAY)
        error = say(*line, status=1)
        assert "4500.00 USD is far from the" in error
        assert "and from the 45.00 USD asked" in error
        before = len(json.loads(say("log", "list", "--json"))["entries"])
        say(*line, "--yes")
        assert len(json.loads(say("log", "list", "--json"))["entries"]) == before + 1

    def test_rates_that_are_slips_are_refused(self, say):
        for field, told in (
            ("insurance=40", "insurance: 40% is not a usual rate. Write 0 to 20."),
            ("premium=250", "premium: 250% is not a usual rate. Write 0 to 50."),
            ("premium=25 at least 9 at most 5", "at most 5 is below at least 9"),
            ("payment=300", "payment: 300% is above 100%"),
        ):
            error = say("venues", "edit", "barn", field, *DAY, status=1)
            assert told in error
            assert error.count("\n") == 1
        assert "1/" not in say("rates", "EUR", "1000000", status=1)

    def test_fees_are_kept_as_they_are_written(self, say):
        terms = ("premium=20 at least 10 at most 900", "fee=3", "payment=3 at least 1.5",
                 "tax=5 on hammer, 20 on premium and fee and shipping")  # fmt: skip
        say("venues", "edit", "barn", *terms, *DAY)
        told = json.loads(say("venues", "show", "barn", "--json"))["venue"]
        assert [told[one.partition("=")[0]] for one in terms] == [
            one.partition("=")[2] for one in terms
        ]
        bill = say("bid", "--ceiling", "100", "--venue", "barn", *DAY)
        assert "tax (20% on premium and fee and shipping)" in bill
