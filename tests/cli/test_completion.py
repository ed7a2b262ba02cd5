"""`appraise completion`: scripts that real shells read, and what is offered to them."""

import os
import shutil
import subprocess
import sys

import pytest
from argcomplete import CompletionFinder
from argcomplete.completers import SuppressCompleter

from appraise.base.places import Home
from appraise.cli.completion import INSTALL, whole_parser
from appraise.cli.demo import furnish
from appraise.cli.main import run
from appraise.commands.registry import FAMILIES, commands_of
from appraise.commands.workspace import open_at
from appraise.records.want import Want
from appraise.store.records import held

# What is typed, the last word unfinished, and what is offered.
CASES = [
    (("lo",), {"look", "log", "lots"}),
    (("log", "a"), {"add"}),
    (("log", "im"), {"import"}),
    (("report", "--for", "c"), {"conservator"}),
    (("report", "--fo"), {"--for", "--force"}),
    (("--home", "log", "verd"), {"verdict"}),
    (("checks", "--kind", "lan"), {"lantern-slide"}),
    (("completion", "f"), {"fish"}),
    (("verdict", "odd"), {"odd piece.yaml"}),
    (("verdict", "bo"), {"boxes/"}),
    (("report", "--out", "odd"), {"odd piece.yaml"}),
    (("report", "--as-of", ""), set()),
    (("log", "zzz"), set()),
    (("log", "currency", "GB"), {"GBP"}),
    (("want", "add", "ninth", "mo"), {"motif=", "most="}),
    (("stock", "edit", "x", "mad"), {"made="}),
    (("log", "edit", "x", "record=b"), {"record=bought"}),
    (("log", "list", "chan"), {"channel:"}),
    (("kept", "show", "1"), {"1"}),
    (("venues", "show", "Thorn"), {"Thornfield rooms"}),
    (("bid", "--venue", "mill"), {"mill town rooms"}),
    (("work", "add", "x", "rev"), {"reversible="}),
]


@pytest.fixture(scope="module")
def home(tmp_path_factory):
    place = tmp_path_factory.mktemp("home")
    furnish(Home(place))
    return place


@pytest.fixture
def here(tmp_path, monkeypatch, home):
    """A directory with a piece file, a blank in its name; the home is the furnished demo."""
    (tmp_path / "odd piece.yaml").write_text("piece: 1\n", encoding="utf-8")
    (tmp_path / "boxes").mkdir()
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("APPRAISE_HOME", str(home))
    return tmp_path


@pytest.fixture(scope="module")
def finder():
    return CompletionFinder(whole_parser(), default_completer=SuppressCompleter())


def offered(finder, words):
    *before, last = words
    found = finder._get_completions(["appraise", *before], last, "", None)
    return {one.strip().replace("\\ ", " ") for one in found}


@pytest.mark.parametrize(("words", "wanted"), CASES, ids=range(len(CASES)))
def test_what_is_offered(here, finder, words, wanted):
    assert offered(finder, words) == wanted


def test_records_are_offered_by_their_ids(here, finder, home):
    with open_at(home / "log.sqlite") as log:
        ids = {one.id[:8] for one in held(log, Want)}
        entry = log.entries(limit=1)[0].id
    assert offered(finder, ("want", "edit", "")) - {"--json", "--as-of", "--help", "-h"} == ids
    assert offered(finder, ("log", "show", entry[:4])) == {entry[:8]}


def test_without_a_log_nothing_is_offered_and_nothing_is_made(here, finder, monkeypatch, tmp_path):
    monkeypatch.setenv("APPRAISE_HOME", str(tmp_path / "none"))
    assert offered(finder, ("want", "show", "a")) == set()
    assert not (tmp_path / "none").exists()


def test_every_command_and_option_of_the_registry_is_offered(here, finder):
    assert set(FAMILIES) <= offered(finder, ("",))
    for family in FAMILIES:
        for row in commands_of(family):
            flags = {one.name for one in row.takes if one.name.startswith("--")}
            assert flags <= offered(finder, (*row.name.split(), "--"))


@pytest.mark.parametrize("shell", INSTALL)
def test_there_is_a_script_for_every_shell(shell, capsys):
    assert run(("completion", shell)) == 0
    out, told = capsys.readouterr()
    assert "appraise" in out
    assert told.startswith("To install it: ")


def test_a_shell_that_is_not_known_is_usage(capsys):
    assert run(("completion", "csh")) == 2
    assert capsys.readouterr().out == ""


ASKS = """\
source "$1"; shift; COMP_LINE="appraise $*"; COMP_POINT=${#COMP_LINE}; COMP_TYPE=9
COMP_WORDS=(appraise "$@"); COMP_CWORD=$#
_python_argcomplete appraise; printf '%s\\n' "${COMPREPLY[@]}"
"""


@pytest.mark.skipif(not shutil.which("bash"), reason="needs bash")
@pytest.mark.parametrize(("words", "wanted"), [CASES[0], CASES[5]])
def test_bash_completes_by_its_script(here, capsys, words, wanted):
    assert run(("completion", "bash")) == 0
    script = here / "script.bash"
    script.write_text(capsys.readouterr().out, encoding="utf-8")
    command = here / "appraise"
    command.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m appraise "$@"\n', encoding="utf-8")
    command.chmod(0o755)
    path = os.pathsep.join((str(here), os.environ["PATH"]))
    done = subprocess.run(
        ["bash", "--norc", "-c", ASKS, "bash", str(script), *words],
        capture_output=True, text=True, check=True, env={**os.environ, "PATH": path},
    )  # fmt: skip
    assert {one.strip() for one in done.stdout.splitlines()} - {""} == wanted
