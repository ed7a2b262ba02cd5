"""`appraise demo` without a terminal: the same demo, told by the commands."""

import io
import os
import shlex
import subprocess
import sys
import tempfile
from contextlib import redirect_stdout
from functools import cache
from pathlib import Path

import pytest

from appraise.base.places import Home, shipped_demo
from appraise.base.yamls import read
from appraise.cli import app as app_commands
from appraise.cli import demotext
from appraise.cli.demo import DEMO_DAY, furnish
from appraise.cli.demotext import scenes
from appraise.cli.main import run

ROOT = Path(__file__).parent.parent.parent
PIECES = sorted((shipped_demo() / "pieces").glob("*.yaml"))


@pytest.fixture
def say(tmp_path, monkeypatch, capsys):
    """Run a command over a home of its own, away from the repository; its output."""
    monkeypatch.setenv("APPRAISE_HOME", str(tmp_path / "home"))
    monkeypatch.chdir(tmp_path)

    def said(*words):
        assert run(words) == 0
        told = capsys.readouterr()
        assert told.err == ""
        return told.out

    return said


@cache
def demo_told():
    """The demo as it tells itself without a terminal, told once in a process."""
    with (
        tempfile.TemporaryDirectory() as place,
        pytest.MonkeyPatch.context() as patch,
        redirect_stdout(io.StringIO()) as out,
    ):
        patch.setenv("APPRAISE_HOME", str(Path(place) / "home"))
        patch.chdir(place)
        assert run(("demo",)) == 0
    assert not (Path(place) / "home").exists()
    return out.getvalue()


def parts(text):
    """What the text tells under each command line."""
    _, *rest = text.split("\n$ appraise ")
    return dict(one.split("\n\n", 1) for one in rest)


def test_it_tells_what_the_commands_tell_on_the_demos_home(say, tmp_path):
    told = parts(demo_told())
    furnish(Home(tmp_path / "home"))
    assert len(told) == len(scenes())
    for line, words in zip(told, scenes(), strict=True):
        assert tuple(shlex.split(line)) == words
        assert told[line] == say(*words, "--as-of", str(DEMO_DAY))


def test_each_piece_a_listing_and_a_bill_are_told():
    text = demo_told()
    assert "Everything in it is invented" in text
    told = parts(text)
    for path in PIECES:
        verdict = told[f"verdict demo/pieces/{path.name}"]
        assert verdict.startswith(f"{read(path).text('title')}\n")
        assert "No opinion" not in verdict
    assert "The case may be a modern reproduction" in told["verdict demo/pieces/resin.yaml"]
    assert "Questions to copy" in told["listing demo/listings/knitting.txt"]
    (bill,) = [one for line, one in told.items() if line.startswith("bid ")]
    assert bill.startswith("Thornfield rooms")
    assert "premium" in bill
    assert "Maximum bid: " in bill


def test_prices_are_stated_for_the_day_that_is_named(say, monkeypatch):
    monkeypatch.setattr(demotext, "scenes", lambda: scenes()[:1])
    assert "as of 2026-11-07" in demo_told()
    assert "as of 2027-02-03" in say("demo", "--as-of", "2027-02-03")


def test_in_a_pipe_it_ends_well_and_leaves_nothing(tmp_path):
    done = subprocess.run(
        [sys.executable, "-m", "appraise", "--home", str(tmp_path / "home"), "demo"],
        capture_output=True, text=True, cwd=ROOT, check=False, stdin=subprocess.DEVNULL,
        env={**os.environ, "TMPDIR": str(tmp_path)},
    )  # fmt: skip
    assert (done.returncode, done.stderr) == (0, "")
    assert "$ appraise bid" in done.stdout
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("keys", "screen", "kind", "opens"),
    [
        (True, True, "xterm-256color", True),
        (True, True, "", True),  # Windows sets none
        (True, True, "dumb", False),
        (False, True, "xterm", False),
        (True, False, "xterm", False),
    ],
)
def test_the_app_opens_where_there_is_a_terminal(say, monkeypatch, keys, screen, kind, opens):
    opened = []
    monkeypatch.setattr("appraise.app.main.run", lambda *_, **more: opened.append(more) or 0)
    monkeypatch.setattr(sys.stdin, "isatty", lambda: keys, raising=False)
    monkeypatch.setattr(sys.stdout, "isatty", lambda: screen, raising=False)
    monkeypatch.setenv("TERM", kind)
    monkeypatch.setattr(demotext, "scenes", lambda: scenes()[:1])
    text = say("demo")
    assert bool(opened) == opens == app_commands._terminal()
    assert ("$ appraise verdict" in text) != opens
    assert all(more["demo"] and more["as_of"] == DEMO_DAY for more in opened)


@pytest.mark.parametrize("words", [("verdict",), ("listing",), ("bid",)])
def test_a_demo_file_is_found_from_anywhere_and_ones_own_comes_first(say, tmp_path, words):
    furnish(Home(tmp_path / "home"))
    folder, name = (
        ("listings", "knitting.txt") if words == ("listing",) else ("pieces", "sound.yaml")
    )
    shipped = say(*words, f"demo/{folder}/{name}")
    assert shipped == say(*words, str(shipped_demo() / folder / name))
    own = tmp_path / "demo" / folder / name
    own.parent.mkdir(parents=True)
    text = (shipped_demo() / folder / name).read_text(encoding="utf-8")
    own.write_text(text.replace("85.00 USD", "12.00 USD").replace("$95", "$12"), encoding="utf-8")
    assert say(*words, f"demo/{folder}/{name}") == say(*words, str(own))
