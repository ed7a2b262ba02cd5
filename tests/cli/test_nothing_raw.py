"""No raw control character reaches the terminal, whatever it came from."""

import json
import os

import pytest

from appraise.app.lines import line
from appraise.base.files import write_new
from appraise.base.oneline import visible
from appraise.cli.main import run
from appraise.commands.registry import FAMILIES, commands_of

# ECMA-48: ESC and the 8-bit CSI begin control sequences, ESC ] a command of the operating system;
# Unicode Standard Annex 9: U+202E and U+2066 turn the direction; U+200B and U+FEFF have no width.
HOSTILE = "a\x1b[31mb\x1b]0;t\x07c\x9b2Jd\u202ee\u2066f\u200bg\ufeffh\u2028i\x7f"
RAW = {mark for mark in HOSTILE if not mark.isprintable() or mark in "\u200b\ufeff"}


@pytest.fixture(autouse=True)
def home(tmp_path, monkeypatch):
    monkeypatch.setenv("APPRAISE_HOME", str(tmp_path / "home"))
    monkeypatch.chdir(tmp_path)
    return tmp_path / "home"


def raw(text):
    return {mark for mark in text if mark in RAW}


COMMANDS = [row.name for name in FAMILIES for row in commands_of(name) if row.name != "demo"]


@pytest.mark.parametrize("name", COMMANDS)
def test_arguments_and_files(name, capsys, tmp_path):
    piece = tmp_path / "piece.yaml"
    piece.write_text(f"piece: 1\ntitle: {json.dumps(HOSTILE)}\n", encoding="utf-8")
    sheet = tmp_path / "sheet.csv"
    sheet.write_text(f"date,record,{HOSTILE},title,paid\n2024-05-31,{HOSTILE},x,{HOSTILE},5\n")
    for words in ([HOSTILE], [str(piece)], [str(sheet)], [HOSTILE, HOSTILE], [f"{HOSTILE}=1"], []):
        run([*name.split(), *words])
        told = capsys.readouterr()
        assert (raw(told.out), raw(told.err)) == (set(), set())
        assert "Traceback" not in told.err


def test_json_loses_nothing(capsys, tmp_path):
    piece = tmp_path / "piece.yaml"
    piece.write_text(f"piece: 1\ntitle: {json.dumps(HOSTILE)}\n", encoding="utf-8")
    assert run(["verdict", str(piece), "--json"]) == 0
    told = capsys.readouterr().out
    assert raw(told) == set()
    assert json.loads(told)["title"] == HOSTILE


def test_the_app_shows_none():
    (bit,) = line((HOSTILE, "strong"))
    assert raw(bit[0]) == set()
    assert visible("Früh\n\tÖrtel 写真") == "Früh\n\tÖrtel 写真"


def test_bytes_that_are_no_text_and_numbers_that_are_too_large(capsys):
    broken = os.fsdecode(b"sixth \xff\xfe ambro 38 usd")
    for words in (
        ["log", "add", "--yes", broken],
        ["log", "list", broken],
        ["log", "list", "--limit", "9" * 40],
        ["log", "list", "--limit", "-1"],
        ["log", "list", f"price:{'9' * 40}"],
        ["log", "import", os.fsdecode(b"\xff.csv")],
        ["bid", "--worth", "9" * 400],
        ["year", "9" * 4_000],
        [broken],
    ):
        assert run(words) in (0, 1, 2)
        told = capsys.readouterr().err
        assert "could not be worked out" not in told
        assert "Traceback" not in told


def test_files_are_private_and_no_device_or_directory_is_replaced(tmp_path):
    write_new(tmp_path / "a", b"1")
    assert (tmp_path / "a").stat().st_mode & 0o777 == 0o600
    link = tmp_path / "link"
    link.symlink_to(tmp_path / "a")
    write_new(link, b"2", over=True)
    assert link.is_symlink()
    assert (tmp_path / "a").read_bytes() == b"2"
    os.mkfifo(tmp_path / "pipe")
    for name in ("pipe", "."):
        with pytest.raises(Exception, match=r"regular file|is a directory"):
            write_new(tmp_path / name, b"3", over=True)
