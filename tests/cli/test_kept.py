"""Kept pieces from the command line: what is printed and kept, and that bad input is one line."""

import json
from datetime import date

import pytest

from appraise.base.money import Money
from appraise.base.places import home
from appraise.cli.main import run
from appraise.commands.workspace import open_at
from appraise.records.entry import Entry
from appraise.records.picture_file import PictureFile
from appraise.store.owned_pieces import every

DAY = ("--as-of", "2026-11-07")
ONLINE = """piece: 1
title: woman with a lace collar
channel: online
from: {who: a seller, receipt: order 17}
findings:
  claim.process: {answer: ambrotype, known: seller}
  claim.material: {answer: thermoplastic, known: seller}
  hinge.tape: {answer: "0", known: photo}
"""
HAND = """piece: 1
title: woman with a lace collar
channel: private
findings: {case.material: resin, hinge.tape: "2", glass.weep: "0"}
"""


@pytest.fixture(autouse=True)
def _home(tmp_path, monkeypatch):
    monkeypatch.setenv("APPRAISE_HOME", str(tmp_path / "home"))
    monkeypatch.chdir(tmp_path)


@pytest.fixture
def say(capsys):
    def said(*words, status=0):
        assert run(words) == status, words
        told = capsys.readouterr()
        assert "Traceback" not in told.out + told.err
        return told.out if status == 0 else told.err

    return said


@pytest.fixture
def told(say):
    def read(*words):
        return json.loads(say(*words, "--json", *DAY))

    return read


@pytest.fixture
def bought():
    """A piece bought online from its description."""
    with open_at(home().log) as log:
        entry = log.add(
            Entry(
                record="bought",
                date=date(2026, 11, 2),
                channel="online",
                kind="cased",
                process="ambrotype",
                housing="thermoplastic",
                format="sixth",
                title="woman with a lace collar",
                paid=Money.parse("45 USD"),
                postage=Money.parse("6 USD"),
                venue="an online site",
                piece=ONLINE,
                pictures=(PictureFile("0" * 64, "front.jpg"),),
            )
        )
    return entry.id


def test_an_empty_home_says_so_calmly(say, told):
    assert say("kept", "list", *DAY) == "0 pieces; something due now: 0, later: 0\n"
    assert say("kept", "schedule", *DAY) == "Nothing is due.\n"
    assert "No piece needs a conservator" in say("kept", "care", *DAY)
    assert told("kept", "list") == {
        "schema": "appraise.kept-list/1",
        "as_of": "2026-11-07",
        "kept": [],
    }


def test_a_purchase_is_kept_once_with_a_running_number(say, told, bought):
    made = told("kept", "add", bought, "--place", "box 2", "--return-by", "2026-11-20")
    assert made["schema"] == "appraise.kept/1"
    kept = made["kept"]
    assert (kept["number"], kept["place"], kept["status"]) == ("1", "box 2", "ordered")
    assert (kept["entry"], kept["acquired"]) == (bought, "2026-11-02")
    assert kept["receipt"] == "order 17, a seller"
    assert "price" not in kept
    assert "paid" not in kept
    assert "on the list already" in say("kept", "add", bought, *DAY, status=1)
    (row,) = told("kept", "list", "status:ordered")["kept"]
    assert row["due"][0] == {
        "sort": "return",
        "on": "2026-11-20",
        "says": "last day to send it back",
        "days_left": 13,
    }


# Not in an attic or basement: "Caring for Your Photographic Collections", Library of Congress.
@pytest.mark.parametrize("place", ["attic", "cold store", "window sill"])
def test_an_unfit_place_is_taken_with_a_caution(say, told, bought, place):
    made = told("kept", "add", bought, "--place", place)
    assert made["kept"]["place"] == place
    (caution,) = made["cautions"]
    assert "Instead: " in caution["says"]
    assert f"caution: {caution['says']}" in say("kept", "move", "1", place, "shelf")
    assert caution["says"][:40] in " ".join(say("kept", "show", "1").split())
    assert told("kept", "edit", "1", "place=box 2")["cautions"] == []


def test_an_inherited_piece_is_kept_from_its_file(say, told, tmp_path):
    (tmp_path / "hand.yaml").write_text(HAND)
    kept = told("kept", "add", "hand.yaml", "--number", "A7", "--acquired", "199X")["kept"]
    assert (kept["number"], kept["acquired"]) == ("A7", "199X")
    assert "entry" not in kept
    assert kept["looks"][0]["found"] == ["hinge.tape 2", "glass.weep 0"]
    say("kept", "show", "A7", "--piece", "out.yaml", *DAY)
    assert "case.material: resin" in (tmp_path / "out.yaml").read_text()
    assert "is there already" in say("kept", "show", "A7", "--piece", "out.yaml", status=1)


def test_the_page_says_all_that_an_heir_would_ask(say, told, bought):
    say("kept", "add", bought, *DAY)
    text = say("kept", "show", "1", *DAY)
    flat = " ".join(text.split())
    for words in (
        "2026-11-02, 45.00 USD, an online site",
        "total cost",
        "51.00 USD",
        "order 17, a seller",
        "provenance",
        "front.jpg",
        "--for insurer",
        "this tool's judgement",
        "sources, and more appraise care ambrotype thermoplastic",
    ):
        assert words in flat
    assert all(len(row) <= 78 for row in text.splitlines())
    page = told("kept", "show", "1")
    assert page["cost"] == {"amount": "51.00", "currency": "USD"}
    assert page["purchase"]["id"] == bought


def test_an_arrival_is_compared_and_becomes_a_page_to_send(say, told, bought, tmp_path):
    (tmp_path / "hand.yaml").write_text(HAND)
    say("kept", "add", bought, "--return-by", "2026-11-08", *DAY)
    before = say("kept", "arrival", "1", *DAY)
    assert "nothing to compare" in before
    assert "1 day left" in before
    assert "by itself for two weeks" in " ".join(before.split())  # what care says of every arrival
    assert "no letter needed" in say("kept", "arrival", "1", "--letter", *DAY, status=1)
    found = told("kept", "arrival", "1", "hand.yaml", "--out", "letter.txt")
    assert [(one["what"], one["matters"]) for one in found["differences"]] == [
        ("case", "much"),
        ("hinge or spine: tape on the hinge", "some"),
    ]
    assert (found["days_left"], found["kept"]["status"]) == (1, "kept")
    letter = (tmp_path / "letter.txt").read_text()
    assert letter == found["letter"]
    assert "front.jpg" in letter
    assert "by 8 November 2026" in letter
    assert "45" not in letter.replace("2026-11-07", "")  # no price
    for word in ("fake", "authentic", "genuine", "forg"):
        assert word not in letter.lower()
    assert say("kept", "arrival", "1", "--letter", *DAY) == letter
    assert told("kept", "arrival", "1", "--returned")["kept"]["status"] == "returned"
    say("log", "undo")
    assert told("kept", "list")["kept"][0]["status"] == "kept"


LETTER = """Not as described: woman with a lace collar

7 November 2026

The piece I bought from you on 2 November 2026 (an online site) has
arrived, thank you. On careful inspection it does not match the
description:

1. Case. Described: moulded thermoplastic ("union"). Found: cast resin.

2. Hinge or spine: tape on the hinge. Shown in the photos: no tape.
Found: over the design.

Photos: front.jpg.

These things are easy to miss. Please let me know within the next few
days whether you will accept a return for a full refund, or what you
suggest instead. I am keeping it safe and unaltered until then.

Kind regards
"""


def test_the_page_to_send_is_plain_and_courteous(say, bought, tmp_path):
    (tmp_path / "hand.yaml").write_text(HAND)
    say("kept", "add", bought, *DAY)
    assert say("kept", "arrival", "1", "hand.yaml", "--letter", *DAY) == LETTER


def test_a_loan_that_ends_before_it_begins_is_refused(say, bought):
    say("kept", "add", bought, "--status", "kept", *DAY)
    told = say("kept", "lend", "1", "--to", "a club", "--until", "2026-11-01", *DAY, status=1)
    assert "lies before" in told


def test_everything_that_happens_is_undone_one_by_one(say, told, bought):
    say("kept", "add", bought, "--status", "kept", *DAY)
    acts = (
        ("move", "1", "drawer", "3"),
        ("lend", "1", "--to", "a club", "--until", "2027-01-31"),
        ("back", "1", "--place", "box 9"),
        ("lend", "1", "--to", "a conservator", "--as", "with-conservator"),
        ("back", "1", "--cost", "20 USD"),
        ("did", "1", "cleaned", "--note", "dust on the case"),
        ("light", "1", "100", "50", "--where", "club evening"),
        ("check", "1", "glass.weep=1", "--by", "me"),
        ("lost", "1"),
        ("lost", "1", "--found"),
        ("give", "1", "--to", "a cousin"),
    )
    states = [told("kept", "show", "1")["kept"]]
    for act in acts:
        say("kept", *act, *DAY)
        states.append(told("kept", "show", "1")["kept"])
    assert [state["status"] for state in states if "status" in state] == [
        *("lent", "with-conservator", "lost", "given"),
    ]
    assert states[-1]["place"] == "box 9"
    for state in reversed(states[:-1]):
        say("log", "undo")
        assert told("kept", "show", "1")["kept"] == state


def test_work_after_the_last_look_asks_for_another_look(say, bought):
    say("kept", "add", bought, "--status", "kept", *DAY)
    say("kept", "check", "1", "hinge.tape=1", "--as-of", "2026-11-03")
    say("kept", "did", "1", "mended", "--as-of", "2026-11-05")
    assert "mended since the last look: look again" in say("kept", "show", "1", *DAY)
    say("kept", "check", "1", "hinge.tape=0", *DAY)
    assert "since the last look" not in say("kept", "show", "1", *DAY)


def test_a_sale_is_reckoned_then_logged_as_one(say, told, bought):
    """By hand: 80.00 less 12.5 per cent (10.00) less 6.10 postage = 63.90; it cost 45 + 6 and a
    conservator 10.00, so the gain is 63.90 - 51.00 - 10.00 = 2.90."""
    say("kept", "add", bought, "--status", "kept", *DAY)
    say("kept", "did", "1", "mended", "--cost", "10 USD", *DAY)
    words = (
        "kept",
        "sell",
        "1",
        "80",
        "--percent",
        "12.5",
        "--postage",
        "6.10",
        "--to",
        "a friend",
    )
    tried = told(*words, "--try")
    assert tried["net"] == {"amount": "63.90", "currency": "USD"}
    assert tried["gain"] == {"amount": "2.90", "currency": "USD"}
    assert tried["entry"] is None
    done = told(*words)
    assert done["kept"]["status"] == "sold"
    assert done["entry"]["record"] == "sold"
    assert "is sold" in say(*words, *DAY, status=1)
    say("log", "undo")
    with open_at(home().log) as log:
        assert len(log.entries()) == 1
        assert every(log)[0].thing.status == "kept"


def test_a_stolen_piece_tells_whom_to_tell(capsys, bought):
    run(["kept", "add", bought, "--status", "kept", *DAY])
    assert run(["kept", "lost", "1", "--stolen", *DAY]) == 0
    assert "police" in capsys.readouterr().err


def test_cleaning_is_noted_with_the_usual_caution(capsys, bought):
    run(["kept", "add", bought, "--status", "kept", *DAY])
    capsys.readouterr()
    assert run(["kept", "did", "1", "cleaned", *DAY]) == 0
    assert "conservator's work" in capsys.readouterr().err


def test_what_became_worse_is_told_between_two_checks(say, told, bought):
    say("kept", "add", bought, "--status", "kept", *DAY)
    say("kept", "check", "1", "glass.weep=1", "hinge.tape=1", "--as-of", "2025-11-07")
    say("kept", "check", "1", "glass.weep=2", *DAY)
    page = told("kept", "show", "1")
    assert page["worse"] == [{"check": "glass.weep", "before": 1, "after": 2}]
    assert page["conservator"][0]["id"] == "glass.weep"
    assert page["conservator"][0]["active"]
    (due,) = page["due"]
    assert (due["sort"], due["on"]) == ("look", "2027-02-07")  # three months: it goes on by itself
    assert "now many" in " ".join(say("kept", "show", "1", *DAY).split())


def test_air_and_light_are_told_with_their_sources(say, told, bought):
    say("kept", "add", bought, "--status", "kept", *DAY)
    found = told("kept", "care", "--humidity", "58", "--lux", "50")
    alarms = [one["row"] for one in found["outside"] if one["alarm"]]
    assert alarms == ["watch-glass"]
    assert found["outside"][0]["sources"] == ["distlist-glass-negatives"]
    text = say("kept", "care", "--humidity", "58", "--lux", "50", *DAY)
    assert "58 is above 55%" in text
    assert "1,000 hours" in text


BAD = [
    (("kept", "show", "9"), "no owned piece '9'"),
    (("kept", "add", "zzzz"), "no entry"),
    (("kept", "add", "none.yaml"), "cannot be read"),
    (("kept", "edit", "1", "plase=x"), "Did you mean 'place'"),
    (("kept", "edit", "1", "process=ambrotqpe"), "Did you mean 'ambrotype'"),
    (("kept", "edit", "1", "place"), "not FIELD=VALUE"),
    (("kept", "edit", "1", "dated=5/6/1858"), "1858-05-06"),
    (("kept", "edit", "1", "return_by=soon"), "is not a day"),
    (("kept", "edit", "1", "status=gone"), "is not known"),
    (("kept", "edit", "1", "title="), "needs a title"),
    (("kept", "list", "plase:2"), "Did you mean 'place'"),
    (("kept", "lend", "1", "--to", "x", "--until", "then"), "is not a day"),
    (("kept", "lend", "1", "--to", "x", "--as", "sold"), "is not known"),
    (("kept", "back", "1"), "is not away"),
    (("kept", "did", "1", "polished"), "is not known"),
    (("kept", "light", "1", "0", "50"), "of 1 to 100,000"),
    (("kept", "check", "1", "hinge.tape"), "is not DEFECT=STEP"),
    (("kept", "check", "1", "hinge.tap=1"), "Did you mean 'hinge.tape'"),
    (("kept", "check", "1", "hinge.tape=9"), "Steps: 0"),
    (("kept", "care", "--humidity", "300"), "is not a humidity"),
    (("kept", "care", "--humidity", "nan"), "is not a humidity"),
    (("kept", "sell", "1", "0"), "a price above 0"),
    (("kept", "sell", "1", "80", "--percent", "x"), "is not a share"),
    (("kept", "sell", "1", "80", "--percent", "nan"), "is not a share"),
    (("kept", "sell", "1", "80", "--fee", "2 EUR"), "Write it in USD"),
    (("kept", "sell", "1", "80", "--channel", "stall"), "is not known"),
    (("kept", "move", "1", " "), "no place given"),
    (("kept", "show", "1", "--as-of", "soon"), "is not a day"),
]


@pytest.mark.parametrize(("words", "says"), BAD, ids=lambda one: str(one)[:40])
def test_bad_input_is_one_line_with_the_mend(say, bought, words, says):
    say("kept", "add", bought, "--status", "kept", *DAY)
    told = say(*words, status=1)
    assert says in told
    assert len(told.splitlines()) == 1
    with open_at(home().log) as log:
        assert every(log)[0].thing.status == "kept"
