"""Lots and the budget from the command line."""

import json
import time
from datetime import date

import pytest

from appraise.base.places import home, shipped_demo
from appraise.cli.demo import DEMO_DAY, DEMO_TIME, demo_lots, furnish
from appraise.cli.main import run
from appraise.commands.workspace import open_at
from appraise.knowledge import load
from appraise.records.lot import Lot
from appraise.records.lot_file import piece_in, read_lot
from appraise.records.values import Author
from appraise.store.records import held

DAY = ("--as-of", "2026-11-07")
TERMS = ("channel=auction", "premium=25", "carriage=12.50")
LOT = """lot: 1
title: two pieces
venue: Quay rooms
closes: 2026-11-08 20:00 Europe/Berlin
pieces:
  - {title: girl, worth: 40 USD, extra: 10 USD}
  - {title: empty case, plan: parts, parts: 8 USD}
"""


@pytest.fixture(autouse=True)
def _home(tmp_path, monkeypatch):
    monkeypatch.setenv("APPRAISE_HOME", str(tmp_path / "home"))


@pytest.fixture
def said(capsys):
    def say(*words, status=0):
        assert run(words) == status
        return capsys.readouterr()

    return say


@pytest.fixture
def say(said):
    return lambda *words, status=0: said(*words, status=status).out


@pytest.fixture
def lot(tmp_path, say):
    """The id of a lot of two pieces at a sale with terms."""
    say("venues", "edit", "Quay rooms", *TERMS, *DAY)
    path = tmp_path / "lot.yaml"
    path.write_text(LOT, encoding="utf-8")
    return json.loads(say("lots", "add", str(path), "--json", *DAY))["lot"]["id"]


def entries():
    with open_at(home().log) as log:
        return log.entries()


class TestFollow:
    def test_none_at_first(self, say):
        assert "No marked lots" in say("lots")
        told = json.loads(say("lots", "list", "--json", *DAY))
        assert (told["schema"], told["as_of"], told["lots"]) == (
            "appraise.lots/1",
            "2026-11-07",
            [],
        )

    def test_a_lot_is_followed_from_its_fields(self, say):
        words = ("number=31", "closes=2026-11-08 14:30", "asking=20", "ceiling=45")
        say("lots", "add", "seated woman", *words, "--tz", "America/New_York", *DAY)
        (told,) = json.loads(say("lots", "list", "--json", *DAY))["lots"]
        assert told["closes"] == "2026-11-08T19:30:00+00:00"
        assert told["zone"] == "America/New_York"
        assert told["ceiling"] == {"amount": "45.00", "currency": "USD"}
        assert told["ceiling_on"] == "2026-11-07"
        shown = say("lots", "show", "seated woman", "--tz", "Europe/Berlin", *DAY)
        assert "Sun 8 Nov 2026 20:30 CET (Sun 8 Nov 14:30 America/New_York)" in shown

    def test_hours_are_told_by_this_machines_clock(self, say, monkeypatch):
        monkeypatch.setenv("TZ", "Europe/Berlin")
        time.tzset()
        try:
            say("lots", "add", "girl", "closes=2026-07-01 20:00", *DAY)
            assert "Wed 1 Jul 2026 20:00 CEST" in say("lots", "show", "girl", *DAY)
            told = json.loads(say("lots", "list", "--json", *DAY))["lots"]
            assert told[0]["closes"] == "2026-07-01T18:00:00+00:00"
        finally:
            monkeypatch.undo()
            time.tzset()

    def test_what_closed_without_a_result_is_told(self, say):
        say("lots", "add", "girl", "closes=2026-11-06", *DAY)
        assert "closed; no result recorded" in say("lots", "list", *DAY)
        (told,) = json.loads(say("lots", "list", "--json", *DAY))["lots"]
        assert told["closed_without_result"]
        assert told["seconds_left"] is None

    def test_piece_files_come_along(self, say):
        path = str(shipped_demo() / "pieces" / "sound.yaml")
        say("lots", "add", "girl", "--piece", path, "--piece", path, *DAY)
        (told,) = json.loads(say("lots", "list", "--json", *DAY))["lots"]
        assert [one["title"] for one in told["pieces"]] == ["girl with a basket, vine case"] * 2
        assert told["pieces"][0]["noted"]

    def test_a_piece_file_is_added_later(self, say, lot):
        path = str(shipped_demo() / "pieces" / "sound.yaml")
        told = say("lots", "edit", lot, "piece.2.title=", "--piece", path, "--json", *DAY)
        titles = [one["title"] for one in json.loads(told)["lot"]["pieces"]]
        assert titles == ["girl", "girl with a basket, vine case"]

    def test_a_house_abroad_brings_its_currency(self, say):
        say("venues", "edit", "Hafen", "currency=EUR", "channel=online", *DAY)
        told = json.loads(say("lots", "add", "girl", "venue=hafen", "asking=20", "--json", *DAY))
        assert told["lot"]["asking"] == {"amount": "20.00", "currency": "EUR"}
        assert told["lot"]["channel"] == "online"

    def test_it_is_edited_written_and_removed(self, say, lot, tmp_path):
        told = say("lots", "edit", lot[:6], "piece.1.plan=resell", "selling=12", "--json", *DAY)
        assert json.loads(told)["lot"]["pieces"][0]["plan"] == "resell"
        out = tmp_path / "out.yaml"
        say("lots", "show", lot, "--lot", str(out), *DAY)
        text = out.read_text(encoding="utf-8")
        assert "closes: 2026-11-08 20:00 Europe/Berlin" in text
        assert "plan: resell" in text
        again = json.loads(say("lots", "add", str(out), "--json", *DAY))["lot"]
        assert again["selling"] == 12
        say("lots", "remove", lot, *DAY)
        assert len(json.loads(say("lots", "list", "--json", *DAY))["lots"]) == 1
        say("log", "undo")
        assert len(json.loads(say("lots", "list", "--json", *DAY))["lots"]) == 2


class TestBidAndResult:
    def test_the_lots_maximum_from_its_file_and_as_it_is_followed(self, say, lot, tmp_path):
        by_file = json.loads(
            say("bid", str(tmp_path / "lot.yaml"), "--bidders", "1", "--json", *DAY)
        )
        # 40 + 8 + 10 = 58.00; 36 + 9 + 12.50 = 57.50, and 38 would cost 60.00.
        assert by_file["schema"] == "appraise.bid/1"
        assert by_file["ceiling"]["amount"] == "58.00"
        assert by_file["bid"]["amount"] == "36.00"
        # 57.50 x 50 / 58 = 49.568...
        assert [one["share"]["amount"] for one in by_file["pieces"]] == ["49.57", "7.93"]
        by_id = json.loads(say("bid", lot[:6], "--bidders", "1", "--json", *DAY))
        assert by_id["bill"] == by_file["bill"]
        assert by_id["lot"]["id"] == lot
        text = say("bid", lot, "--bidders", "1", *DAY)
        assert "parts, parts worth 8.00; its share 7.93" in text
        assert "Maximum bid: 36.00 USD" in text

    def test_another_venue_is_tried(self, say, lot):
        say("venues", "edit", "barn", "premium=0", *DAY)
        told = json.loads(say("bid", lot, "--venue", "barn", "--bidders", "1", "--json", *DAY))
        assert told["venue"] == "barn"
        assert told["bid"]["amount"] == "55.00"

    def test_a_bid_stands_and_may_go_beyond_the_budget(self, said, lot):
        said("budget", "61", "--per", "month", *DAY)
        told = said("lots", "bid", lot[:6], "40", "--yes", "--chance", "40", "--json", *DAY)
        # 40 + 10 + 12.50 = 62.50
        (warning,) = json.loads(told.out)["warnings"]
        assert "1.50 USD over this month's budget" in warning
        assert warning in told.err
        purse = json.loads(said("budget", "--json", *DAY).out)
        assert purse["left"]["amount"] == "-1.50"
        assert purse["expected"]["amount"] == "25.00"
        assert "Your open bids exceed the budget." in said("budget", *DAY).out
        said("lots", "bid", lot, "--none", *DAY)
        assert json.loads(said("budget", "--json", *DAY).out)["left"]["amount"] == "61.00"

    def test_won_is_shared_out_and_undone_as_one(self, say, lot):
        told = json.loads(say("lots", "won", lot, "--hammer", "40", "--json", *DAY))
        assert told["total"] == {"amount": "62.50", "currency": "USD"}
        paid = {one["title"]: one["paid"]["amount"] for one in told["entries"]}
        assert paid == {"girl": "53.88", "empty case": "8.62"}  # 62.50 x 50 / 58 = 53.879
        assert {one.extra["lot"] for one in entries()} == {lot}
        assert {one.record for one in entries()} == {"bought"}
        assert "1 ended" in say("lots", "list", *DAY)
        assert "won, hammer 40.00 USD" in say("lots", "list", "--all", *DAY)
        say("log", "undo")
        assert entries() == ()
        assert json.loads(say("lots", "list", "--json", *DAY))["lots"][0]["state"] == "followed"

    def test_stated_shares_and_the_invoice_count(self, say, lot):
        words = ("--hammer", "40", "--total", "65", "--share", "3 1", "--on", "2026-11-09")
        told = json.loads(say("lots", "won", lot, *words, "--json", *DAY))
        assert [one["paid"]["amount"] for one in told["entries"]] == ["48.75", "16.25"]
        assert told["entries"][0]["date"] == "2026-11-09"

    def test_a_lost_lot_of_several_logs_nothing_unless_asked(self, said, lot):
        told = said("lots", "lost", lot, "--hammer", "70", *DAY)
        assert "says little about each" in told.err
        assert entries() == ()
        said("log", "undo")
        said("lots", "lost", lot, "--hammer", "70", "--share", "equal", *DAY)
        assert [one.hammer.plain for one in entries()] == ["35.00", "35.00"]

    def test_a_lost_piece_is_logged(self, say):
        say("lots", "add", "girl", *DAY)
        say("lots", "lost", "girl", "--hammer", "44", *DAY)
        (entry,) = entries()
        assert (entry.record, entry.hammer.plain, entry.date) == (
            "hammer",
            "44.00",
            date(2026, 11, 7),
        )

    def test_a_lot_is_passed_over(self, say, lot):
        assert "not bid on" in say("lots", "pass", lot, *DAY)
        assert entries() == ()


class TestMistakes:
    @pytest.mark.parametrize(
        ("words", "told"),
        [
            (("lots", "show", "zzz"), "no lot 'zzz' in the log. 'appraise lots list --all' shows"),
            (("lots", "add", "x", "close=3"), "Did you mean 'closes'?"),
            (("lots", "add", "x", "closes"), "'closes' is not FIELD=VALUE"),
            (("lots", "add", " "), "title: a lot needs a title"),
            (("lots", "add", "no.yaml"), "no.yaml: cannot be read"),
            (("lots", "add", "x", "--tz", "Europe/Berln"), "Did you mean 'Europe/Berlin'?"),
            (("lots", "edit", "two pieces"), "no changes given"),
            (("lots", "bid", "two pieces"), "a bid is an AMOUNT, or --none"),
            (("lots", "bid", "two pieces", "x"), "AMOUNT: 'x' is not an amount of money"),
            (("lots", "bid", "two pieces", "3", "--chance", "200"), "chance: 200 is not a whole"),
            (("lots", "bid", "two pieces", "3 EUR"), "Write it in USD"),
            (("lots", "won", "two pieces", "--hammer", "3", "--share", "1"), "is not 2 shares"),
            (("lots", "won", "two pieces", "--hammer", "3", "--on", "x"), "'x' is not a day"),
            (("lots", "lost", "two pieces", "--hammer", "much"), "--hammer: 'much' is not an"),
            (("bid", "nothing"), "no lot 'nothing' in the log"),
            (("bid", "nothing.yaml"), "nothing.yaml: cannot be read"),
            (("bid", "two pieces", "--venue", "barn"), "no venue 'barn'"),
            (("budget", "0"), "a budget must be above 0"),
            (("budget", "x"), "'x' is not an amount of money"),
            (("budget", "--per", "year"), "Example: appraise budget 150"),
            (("budget", "3", "--none"), "a budget is AMOUNT --per month or year, or --none"),
        ],
    )
    def test_each_is_one_line(self, said, lot, words, told):
        error = said(*words, status=1).err.strip().split("\n")[-1]
        assert told in error
        assert error.startswith("appraise: ")

    def test_a_result_is_noted_once(self, said, lot):
        said("lots", "pass", lot, *DAY)
        error = said("lots", "won", lot, "--hammer", "3", *DAY, status=1).err
        assert "two pieces: was passed on 2026-11-07. Undo: appraise log undo." in error

    def test_a_piece_without_a_worth_asks_for_shares(self, said, lot):
        said("lots", "edit", lot, "piece.1.worth=", *DAY)
        error = said("lots", "won", lot, "--hammer", "3", *DAY, status=1).err
        assert "girl: the worth is not known. Enter a worth, or the shares." in error
        assert entries() == ()

    def test_without_a_log_no_lot_is_looked_for(self, said):
        assert "no lot is marked" in said("bid", "girl", status=1).err
        assert not home().log.exists()


class TestBudget:
    def test_it_is_set_shown_and_dropped(self, say):
        assert "No budget set" in say("budget", *DAY)
        assert "budget, November 2026" in say("budget", "150", *DAY)
        assert "budget, 2026" in say("budget", "900", "--per", "year", *DAY)
        told = json.loads(say("budget", "--json", "--as-of", "2027-01-01"))
        assert (told["from"], told["to"]) == ("2027-01-01", "2027-12-31")
        assert "No budget set" in say("budget", "--none", *DAY)


class TestDemo:
    def test_its_lots_are_followed_as_their_files_say(self):
        knowledge = load()
        files = sorted((shipped_demo() / "lots").glob("*.yaml"))
        assert len(files) == 2
        for path, lot in zip(files, demo_lots(), strict=True):
            meant = read_lot(path, knowledge, Author("USD", DEMO_DAY), DEMO_TIME)
            for name in Lot.__dataclass_fields__:
                if name != "items":
                    assert getattr(lot, name) == getattr(meant, name), name
            for one, other in zip(lot.items, meant.items, strict=True):
                assert piece_in(one, lot, knowledge) == piece_in(other, meant, knowledge)
                assert (one.plan, one.worth, one.parts) == (other.plan, other.worth, other.parts)

    def test_something_closes_soon_and_a_budget_is_set(self, say):
        furnish(home())
        with open_at(home().log) as log:
            assert len(held(log, Lot)) == 2
        told = json.loads(say("lots", "list", "--json", "--as-of", str(DEMO_DAY)))["lots"]
        assert [one["closed_without_result"] for one in told] == [False, False]
        # 150 less 30 + 5.40 premium + 6.00 carriage
        purse = json.loads(say("budget", "--json", "--as-of", str(DEMO_DAY)))
        assert purse["left"]["amount"] == "108.60"
