"""What is no single photograph is told as what it is, without a number, everywhere."""

import json
import re

import pytest
from verdict.verdictkit import KNOWLEDGE, judged

from appraise.base.places import Home
from appraise.cli.demo import furnish
from appraise.cli.main import run
from appraise.records.piece_file import read_piece

SAYS = {
    "part brass mat 5": ("part", "A part by itself"),
    "album of 24 cdv 150": ("album", "An album"),
    "lot of 5 tintypes 64": ("lot", "A lot of several pieces"),
    "three tintypes 30": ("lot", "A lot of several pieces"),
    "painted miniature 30": ("other", "Not a photograph"),
    "asdf qwer 12": ("cased", "Nothing recorded yet says what it is"),
    "teapot blue 30": ("cased", "Nothing recorded yet says what it is"),
}
NUMBER = re.compile(r"[Ll]imit of|[Mm]aximum bid|[Oo]pen(?:ing)? offer|worth about|Walk away")


@pytest.fixture
def home(tmp_path, monkeypatch):
    monkeypatch.setenv("APPRAISE_HOME", str(tmp_path / "home"))
    furnish(Home(tmp_path / "home"))
    return tmp_path


def said(capsys, *words):
    """What a command prints."""
    assert run(words) == 0
    return capsys.readouterr().out


def none_of_it(document):
    """Whether a document of a verdict names no amount to pay."""
    advice = document["advice"]
    return not any(advice[key] for key in ("ceiling", "walk_away", "opening", "outcomes")) and (
        document["worth"] is None and document["price"] is None
    )


@pytest.mark.parametrize("line", SAYS)
def test_a_line_of_no_single_photograph_gets_no_number(line, home, capsys):
    kind, starts = SAYS[line]
    path = home / "piece.yaml"
    document = json.loads(said(capsys, "look", line, "--json"))
    assert document["kind"] == kind
    assert document["headline"].startswith(starts)
    assert none_of_it(document)
    said(capsys, "look", line, "--piece", str(path))
    again = json.loads(said(capsys, "verdict", str(path), "--json"))
    assert again["headline"] == document["headline"]
    assert none_of_it(again)
    for told in (
        said(capsys, "look", line),
        said(capsys, "verdict", str(path)),
        said(capsys, "report", str(path), "--for", "myself"),
    ):
        assert document["headline"] in " ".join(told.split())
        assert not NUMBER.search(told), told
    assert str(judged(read_piece(path, KNOWLEDGE)).headline) == document["headline"]


@pytest.mark.parametrize("line", SAYS)
def test_such_a_line_is_logged_as_what_it_is(line, home, capsys):
    kind, starts = SAYS[line]
    told = json.loads(said(capsys, "log", "add", line, "--yes", "--json"))
    assert told["entry"]["kind"] == (kind if starts[0] != "N" or kind == "other" else "other")


def test_an_empty_case_goes_by_its_own_rule(home, capsys):
    document = json.loads(said(capsys, "look", "empty union case 40", "--json"))
    assert document["kind"] == "empty-case"
    assert document["headline"].startswith("Empty case, moulded thermoplastic")
    assert document["advice"]["ceiling"] is None
    assert "a judgement" in document["headline"]
