"""Listings from the command line."""

import io
import json
import sys

import pytest

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
    assert "questions to copy" in capsys.readouterr().out
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
    assert "not read like a photograph" in capsys.readouterr().out


def test_a_missing_file_is_one_line(capsys):
    assert run(("listing", "none.txt")) == 1
    assert (
        capsys.readouterr().err == "appraise: none.txt: cannot be read: No such file or directory\n"
    )
