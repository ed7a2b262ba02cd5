"""Listings from the command line."""

import io
import json
import re
import sys

import pytest

from appraise.base.places import home
from appraise.cli.demo import furnish
from appraise.cli.main import run

TEXT = """Antique Union Case 1/6 plate Daguerreotype. Gutta percha case measures 3 1/4" x 3 3/4".
Image is an ambrotype I believe, not a tintype. Hinge has been taped. $125 + $8.50 shipping."""


@pytest.fixture(autouse=True)
def _home(tmp_path, monkeypatch):
    monkeypatch.setenv("APPRAISE_HOME", str(tmp_path / "home"))


@pytest.fixture
def listing(tmp_path):
    path = tmp_path / "listing.txt"
    path.write_text(TEXT)
    return str(path)


def test_the_contract_is_kept(listing, capsys):
    assert run(("listing", listing, "--json")) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["schema"] == "appraise.listing/1"
    assert set(told) == {
        "schema",
        "claims",
        "flags",
        "missing",
        "questions",
        "pieces",
        "holds_back",
        "piece",
        "own_rows",
        "wanted",
        "twins",
    }
    for claim in told["claims"]:
        assert TEXT[claim["start"] : claim["end"]] == claim["text"]
    said = {(one["field"], one["value"]) for one in told["claims"]}
    assert {("format", "sixth"), ("asking", "125.00 USD"), ("postage", "8.50 USD")} <= said
    assert not any(value == "tintype" for _, value in said)
    flags = {one["id"] for one in told["flags"]}
    assert {"claims-disagree", "misnamed-material", "tape-words"} <= flags
    assert told["questions"]


def test_standard_input_and_the_piece_file(listing, capsys, tmp_path, monkeypatch):
    data = io.TextIOWrapper(io.BytesIO(TEXT.encode()))
    monkeypatch.setattr(sys, "stdin", data)
    out = tmp_path / "piece.yaml"
    assert run(("listing", "-", "--piece", str(out))) == 0
    assert "Questions to copy" in capsys.readouterr().out
    assert run(("verdict", str(out), "--json")) == 0
    told = json.loads(capsys.readouterr().out)
    assert {one["known"] for one in told["explanation"]} <= {"seller"}


def test_a_verdict_on_what_is_claimed(listing, capsys):
    assert run(("listing", listing, "--verdict")) == 0
    text = capsys.readouterr().out
    assert "do the parts belong together?" in text
    assert "not an archival repair" in text


def test_what_is_no_photograph_says_so(tmp_path, capsys):
    path = tmp_path / "other.txt"
    path.write_text("Cast iron skillet, 10 inch, well seasoned. 25 USD.")
    assert run(("listing", str(path))) == 0
    assert "not look like a photograph" in capsys.readouterr().out


def test_a_missing_file_is_one_line(capsys):
    assert run(("listing", "none.txt")) == 1
    assert (
        capsys.readouterr().err == "appraise: none.txt: cannot be read: No such file or directory\n"
    )


REPRINT = "Sixth plate ambrotype of a girl in a union case. To be plain, it is a reprint. 40 USD."


def told_of(text, tmp_path, capsys, *options):
    path = tmp_path / "one.txt"
    path.write_text(text, encoding="utf-8")
    assert run(("listing", str(path), *options)) == 0
    return " ".join(capsys.readouterr().out.split())


def test_no_maximum_is_given_for_what_the_seller_calls_a_reprint(tmp_path, capsys):
    text = told_of(REPRINT, tmp_path, capsys)
    assert 'No maximum is given: the text speaks of modern work or a copy ("reprint").' in text
    told = json.loads(told_of(REPRINT, tmp_path, capsys, "--json"))
    assert told["holds_back"] == ['the text speaks of modern work or a copy ("reprint")']
    assert told["piece"]["findings"]["claim.age"]["answer"] == "modern"
    plain = told_of(REPRINT.replace("reprint", "treasure"), tmp_path, capsys, "--json")
    assert json.loads(plain)["holds_back"] == []


def test_neither_verdict_nor_bid_shows_a_maximum_under_such_words(tmp_path, capsys):
    furnish(home())
    out = tmp_path / "piece.yaml"
    verdict = told_of(REPRINT, tmp_path, capsys, "--verdict", "--piece", str(out))
    assert "No maximum is given" in verdict
    assert not re.search(r"\blimit \d", verdict)
    assert run(("bid", str(out))) == 0
    text = capsys.readouterr().out
    assert "No maximum is given: the seller says that it is modern" in text
    assert "at most" not in text
    assert run(("bid", str(out), "--json")) == 0
    told = json.loads(capsys.readouterr().out)
    assert (told["bid"], told["ceiling"], told["bill"]) == (None, None, [])
    assert len(told["held"]) == 1


def test_a_sound_listing_keeps_its_maximum(tmp_path, capsys):
    furnish(home())
    text = told_of(REPRINT.replace("reprint", "treasure"), tmp_path, capsys, "--verdict")
    assert re.search(r"\bmaximum bid (?:of )?\d", text)
    assert "No maximum" not in text


def test_the_condition_in_another_language_is_said_not_to_be_read(tmp_path, capsys):
    text = "Ferrotypie einer Dame. Das Glas ist zerbrochen und der Rahmen hat einen Sprung."
    assert "the condition is told in German and was not read" in told_of(text, tmp_path, capsys)
