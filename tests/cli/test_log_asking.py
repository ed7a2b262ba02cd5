"""What the log's commands ask at a terminal, and say where nobody can be asked."""

import io
import json
import sqlite3
import sys
from contextlib import closing

import pytest

from appraise.cli.main import run
from appraise.store import pictures

LINE = "sixth ambrotype thermoplastic vine 38 + 6 post, quay market, yesterday"


@pytest.fixture(autouse=True)
def home(tmp_path, monkeypatch):
    monkeypatch.setenv("APPRAISE_HOME", str(tmp_path / "home"))
    return tmp_path / "home"


@pytest.fixture
def say(capsys):
    def said(*words, status=0):
        assert run([str(word) for word in words]) == status
        return capsys.readouterr()

    return said


class Typed(io.StringIO):
    """A terminal at which somebody types."""

    def isatty(self):
        return True


@pytest.fixture
def typed(monkeypatch, say):
    def at_the_terminal(lines, *words, status=0):
        monkeypatch.setattr(sys, "stdin", Typed("".join(f"{line}\n" for line in lines)))
        monkeypatch.setattr(sys.stderr, "isatty", lambda: True, raising=False)
        told = say(*words, status=status)
        assert sys.stdin.read() == "", "a question was not asked"
        return told

    return at_the_terminal


def entries(say):
    return json.loads(say("log", "list", "--json").out)["entries"]


def test_the_currency_is_asked_once(typed, say):
    told = typed(["gbp", "y"], "log", "add", LINE)
    assert "Which currency are your prices in? [USD]" in told.err
    assert "paid 38.00 GBP" in told.err
    told = typed([""], "log", "add", LINE)
    assert "Which currency" not in told.err
    assert [one["paid"]["currency"] for one in entries(say)] == ["GBP", "GBP"]
    assert say("log", "currency").out == "GBP\n"


def test_a_currency_that_is_none_is_asked_again(typed, say):
    told = typed(["gpb", "", "y"], "log", "add", LINE)
    assert "currency 'GPB' is not known. Did you mean 'GBP'?" in told.err
    assert say("log", "currency").out == "USD\n"


def test_where_nobody_can_be_asked_the_currency_is_said(say):
    told = say("log", "add", LINE)
    assert (
        "amounts without a currency are USD; 'appraise log currency CODE' changes this" in told.err
    )
    assert say("log", "currency").out == "USD, until you choose one\n"
    say("log", "currency", "eur")
    assert "amounts that name" not in say("log", "add", LINE).err
    assert {one["paid"]["currency"] for one in entries(say)} == {"USD", "EUR"}
    assert json.loads(say("log", "currency", "--json").out) == {
        "schema": "appraise.currency/1",
        "currency": "EUR",
        "chosen": True,
    }


def test_the_chosen_currency_holds_for_first_looks_too(say):
    say("log", "currency", "GBP")
    assert "45.00 GBP" in say("look", "sixth ambro 45").out


def test_a_line_is_shown_as_understood_before_it_is_kept(typed, say):
    say("log", "currency", "USD")
    told = typed(["n"], "log", "add", LINE)
    at = [
        told.err.index(words)
        for words in (
            "process ambrotype",
            "paid 38.00 USD",
            "shipping 6.00 USD",
            "venue",
            "save it?",
        )
    ]
    assert at[-1] == max(at)
    assert told.out == "nothing saved\n"
    assert entries(say) == []
    typed([""], "log", "add", LINE)
    assert len(entries(say)) == 1
    say("log", "add", LINE, "--yes")
    assert len(entries(say)) == 2


def test_words_of_the_trade_in_a_sheet_are_understood(say, tmp_path):
    path = tmp_path / "years.csv"
    path.write_text("date,process,size,case,paid\n2024-05-31,ambro,6th plate,union case,38\n")
    say("log", "import", path, "--record", "bought")
    (entry,) = entries(say)
    assert (entry["process"], entry["format"], entry["housing"]) == (
        "ambrotype",
        "sixth",
        "thermoplastic",
    )


@pytest.fixture
def pictured(say, tmp_path):
    """An entry with two pictures."""
    entry = json.loads(say("log", "add", LINE, "--json").out)["entry"]["id"]
    for name in ("front.jpg", "back.jpg"):
        (tmp_path / name).write_bytes(f"invented {name}".encode())
        say("log", "picture", entry, tmp_path / name)
    return entry


def test_pictures_are_listed_and_shown_with_the_systems_viewer(say, pictured, home, monkeypatch):
    started = []
    monkeypatch.setattr(pictures, "_start", lambda opener, path: started.append(path))
    monkeypatch.setattr("shutil.which", lambda name: f"/usr/bin/{name}")
    listed = say("log", "picture", pictured).out
    assert "front.jpg" in listed
    assert "back.jpg" in listed
    say("log", "picture", pictured, "front", "--open")
    assert [path.read_bytes() for path in started] == [b"invented front.jpg"]
    assert started[0].parent == home / "pictures"
    assert "has several photos" in say("log", "picture", pictured, "--open", status=1).err


def test_a_picture_that_cannot_be_shown_is_one_line(say, pictured, home, monkeypatch):
    monkeypatch.setattr("shutil.which", lambda name: None)
    told = say("log", "picture", pictured, "front", "--open", status=1).err
    assert "no image viewer found. Open the file yourself." in told
    for path in (home / "pictures").iterdir():
        path.unlink()
    told = say("log", "picture", pictured, "front", "--open", status=1).err
    assert "the photo's file is missing. 'appraise log restore' may bring it back." in told


def test_conflicts_say_where_the_versions_differ(say, tmp_path, monkeypatch):
    entry = json.loads(say("log", "add", LINE, "--json").out)["entry"]["id"]
    for name, paid in (("other", "40"), ("home", "41")):
        if name == "other":
            with closing(sqlite3.connect(tmp_path / "home" / "log.sqlite")) as log:
                (tmp_path / "other").mkdir()
                log.execute(f"VACUUM INTO '{tmp_path / 'other' / 'log.sqlite'}'")
        monkeypatch.setenv("APPRAISE_HOME", str(tmp_path / name))
        say("log", "edit", entry, f"paid={paid} USD")
    told = say("log", "merge", tmp_path / "other" / "log.sqlite").out
    assert "was changed on both computers" in told
    assert "'log conflicts' shows them" in told
    told = say("log", "conflicts").out.split("\n")
    assert told[0].endswith(": paid 41.00 USD")
    assert told[1].endswith(": paid 40.00 USD")
    say("log", "settle", entry, told[1].split()[1])
    assert say("log", "conflicts").out == "no conflicts\n"
    assert entries(say)[0]["paid"]["amount"] == "40.00"


def test_what_a_sheet_leaves_open_is_asked_and_the_rows_are_shown_first(typed, say, tmp_path):
    path = tmp_path / "years.csv"
    path.write_text("date,paid,what\n03/04/2024,38,vine case\n05/06/2024,12,boat\n")
    say("log", "currency", "USD")
    told = typed(["sideways", "day", "n"], "log", "import", path)
    assert told.err.count("begin with the day or with the month?") == 2
    assert "2024-04-03   bought      38.00 USD  vine case" in told.err
    assert told.err.index("vine case") < told.err.index("import 2 entries?")
    assert told.out == "nothing imported\n"
    assert entries(say) == []
    typed(["day", ""], "log", "import", path)
    assert len(entries(say)) == 2


def test_a_question_left_open_takes_nothing_in(typed, say, tmp_path):
    path = tmp_path / "years.csv"
    path.write_text("date,paid,type\n03/04/2024,38,bought\n")
    say("log", "currency", "USD")
    told = typed([""], "log", "import", path, status=1)
    assert "begin with the day or with the month?" in told.err
    assert entries(say) == []
