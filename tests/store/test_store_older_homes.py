"""A home that an earlier version wrote opens whole: log, backup, own knowledge, piece and lot file.

`tests/homes/first` was written by the commands of an earlier version; `told.json` is what these
said of it. Invented data.
"""

import json
import shutil
from pathlib import Path

import pytest

from appraise.cli.main import run
from appraise.store.check import check
from appraise.store.salvage import salvage

OLD = Path(__file__).parent.parent / "homes" / "first"
TOLD = json.loads((OLD / "told.json").read_text(encoding="utf-8"))
DAY = ("--as-of", "2026-09-10")
ASKED = {
    "entries": ("log", "list"),
    "lots": ("lots", "list", "--all", *DAY),
    "kept": ("kept", "list", *DAY),
    "parts": ("stock", "list", "--all", *DAY),
    "works": ("work", "list", *DAY),
    "wants": ("want", "list", *DAY),
    "venues": ("venues", "list"),
    "rates": ("rates",),
}


@pytest.fixture
def home(tmp_path, monkeypatch):
    root = tmp_path / "home"
    shutil.copytree(OLD, root)
    monkeypatch.setenv("APPRAISE_HOME", str(root))
    return root


def said(capsys, *words):
    assert run([*words, "--json"]) == 0, capsys.readouterr().err
    return json.loads(capsys.readouterr().out)


def plain(row):
    """A row of a list without what changes with the clock, or is worded for a reader.

    Since when a piece that was never looked over is due is told otherwise now.
    """
    due = [one["sort"] for one in row.get("due") or ()]
    return {**row, "due": due, "seconds_left": 0}


def check_lists(capsys):
    """All that was told is told, but for the time left of a lot and sentences; more may be."""
    for name, words in ASKED.items():
        now, then = said(capsys, *words)[name], TOLD[name][name]
        assert len(now) == len(then)
        for row, was in zip(now, then, strict=True):
            now_told, was_told = plain({**was, **row}), plain({**row, **was})
            assert now_told == was_told


@pytest.mark.usefixtures("home")
def test_every_record_is_told_as_it_was(capsys):
    check_lists(capsys)


def test_its_backup_is_put_back_whole(home, capsys):
    (backup,) = (home / "backups").iterdir()
    assert run(["log", "restore", str(backup)]) == 0
    capsys.readouterr()
    check_lists(capsys)


def test_what_is_salvaged_of_it_is_told_as_it_was(home, capsys):
    found = salvage(home / "log.sqlite", "2026-11-07T12:00:00.000000Z")
    found.path.replace(home / "log.sqlite")
    assert check(home / "log.sqlite").problems == ()
    check_lists(capsys)


def test_its_piece_is_read_with_its_own_knowledge(home, capsys):
    told = said(capsys, "verdict", str(home / "vine.yaml"), *DAY)
    assert {key: told[key] for key in ("schema", "kind", "title")} == {
        key: TOLD["verdict"][key] for key in ("schema", "kind", "title")
    }
    (row,) = [one for one in told["explanation"] if one["check"] == "mat.shape"]
    assert row["answer"] == "keyhole"


def test_its_lot_file_is_read(home, capsys):
    lot = said(capsys, "lots", "add", str(home / "lot.yaml"), *DAY, "--tz", "UTC")["lot"]
    (was,) = TOLD["lots"]["lots"]
    assert {key: lot[key] for key in ("title", "venue", "asking", "estimate", "closes")} == {
        key: was[key] for key in ("title", "venue", "asking", "estimate", "closes")
    }
