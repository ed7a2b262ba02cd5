"""A faulty file of the user's own knowledge: one line on stderr, and every command works."""

import json
from pathlib import Path

import pytest

from appraise.base.places import Home
from appraise.cli.demo import furnish
from appraise.cli.main import run

PIECE = next(iter(sorted((Path(__file__).parents[2] / "demo" / "pieces").glob("*.yaml"))))
COMMANDS = [
    ("checks", "--kind", "cased"),
    ("verdict", str(PIECE)),
    ("report", str(PIECE)),
    ("year", "1858"),
    ("care", "ambrotype"),
    ("never",),
    ("want", "add", "sixth daguerreotype"),
    ("log", "add", "sixth ambrotype leather 20"),
    ("track",),
    ("kept", "list"),
]


@pytest.fixture
def faulty(tmp_path, monkeypatch):
    monkeypatch.setenv("APPRAISE_HOME", str(tmp_path))
    furnish(Home(tmp_path))
    (tmp_path / "knowledge").mkdir()

    def write(data):
        (tmp_path / "knowledge" / "own.yaml").write_bytes(data)

    write(b"cautions:\n\town: {text: Mind it., basis: practice}\n")
    return write


@pytest.mark.parametrize("words", COMMANDS, ids=" ".join)
def test_every_command_says_it_in_one_line_and_works(faulty, capsys, words):
    assert run(words) == 0
    told = capsys.readouterr()
    lines = [line for line in told.err.splitlines() if "own.yaml" in line]
    assert lines in (
        [],  # it needs no knowledge
        [
            "  problem in your own rows: knowledge/own.yaml:2: not readable as YAML: found "
            "character that cannot start any token. Write spaces in place of the tab."
        ],
    )
    assert "own.yaml" not in told.out
    if words[0] in ("checks", "verdict", "report", "year", "care"):
        assert lines


def test_of_many_faults_the_first_are_told(faulty, capsys):
    faulty(b"".join(b"topic%d: {}\n" % number for number in range(6)))
    assert run(["checks", "--json"]) == 0
    told = capsys.readouterr()
    lines = told.err.splitlines()
    assert [line.split(":")[0] for line in lines[:3]] == ["  problem in your own rows"] * 3
    assert lines[3:] == ["  and 3 more problems: 'appraise knowledge check' lists them"]
    assert json.loads(told.out)["checks"]


def test_the_check_of_the_files_lists_them_and_fails(faulty, capsys):
    assert run(["knowledge", "check"]) == 1
    told = capsys.readouterr()
    assert told.out.count("knowledge/own.yaml:2: not readable as YAML") == 1
    assert told.err == ""
