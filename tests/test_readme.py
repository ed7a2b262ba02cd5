"""The README holds: its commands run, what it quotes is printed, its table is the registry.

`PYTHONPATH=.:tests python tests/test_readme.py` writes the table of commands anew.
"""

import os
import re
import shlex
import sys
from pathlib import Path

import pytest

from appraise.base.places import Home
from appraise.cli.main import run
from appraise.commands.registry import FAMILIES

ROOT = Path(__file__).parent.parent
README = ROOT / "README.md"
START, END = "| command | what it does |\n| --- | --- |\n", "\n\n"


def text():
    return README.read_text(encoding="utf-8")


def table():
    """The commands as the registry has them, a family a row."""
    rows = []
    for name, family in FAMILIES.items():
        says = re.sub(r"\s+", " ", family.says).replace("|", "\\|")
        rows.append(f"| `{name}` | {says} |")
    return START + "\n".join(rows)


def commands():
    """Every line of an indented block that starts the program."""
    return re.findall(r"^    (appraise .*)$", text(), flags=re.M)


@pytest.fixture
def furnished(tmp_path):
    from appraise.cli.demo import furnish

    furnish(Home(tmp_path / "home"))
    return tmp_path / "home"


@pytest.mark.parametrize("line", commands())
def test_every_command_runs(line, furnished, monkeypatch, capsys):
    monkeypatch.setenv("APPRAISE_HOME", str(furnished))
    monkeypatch.chdir(ROOT)
    assert run(shlex.split(line)[1:]) == 0
    assert "Traceback" not in capsys.readouterr().err


def test_no_command_logs_what_is_invented():
    """What a reader types in its order leaves own prices alone in the log."""
    invented = [one for one in commands() if "demo/" in one and " log " in one]
    assert invented
    for line in invented:
        assert "--preview" in line
        assert commands().index(line) > next(n for n, one in enumerate(commands()) if "add" in one)


def quotations():
    """The quoted lines of a verdict, in their order, without the remarks."""
    return re.findall(r"^\| `([^`]+)` \|", text(), flags=re.M)


def test_the_quoted_lines_are_printed(furnished, monkeypatch, capsys):
    monkeypatch.setenv("APPRAISE_HOME", str(furnished))
    assert run(["verdict", str(ROOT / "demo/pieces/sound.yaml"), "--as-of", "2026-11-07"]) == 0
    told = " ".join(capsys.readouterr().out.split())
    quoted = [one for one in quotations() if one not in FAMILIES and "appraise" not in one]
    assert len(quoted) >= 8
    for line in quoted:
        assert " ".join(line.split()) in told


def test_the_table_of_commands_is_the_registry():
    assert table() in text()


def test_lines_are_short_and_no_sentence_names_two_keys():
    for line in text().splitlines():
        assert len(line) <= 100, line
    prose = re.sub(r"^    .*$|^\|.*$", "", text(), flags=re.M)
    for sentence in re.split(r"[.:;]\s", prose):
        assert len(re.findall(r"`(?:[a-z0-9?/]|space|enter|backspace)`", sentence)) < 2, sentence


def test_the_first_paragraph_is_the_job():
    first = text().split("\n\n")[0].split("\n", 1)[1]
    assert 55 <= len(first.split()) <= 95
    assert "what it is" in first


def test_what_it_links_to_is_there():
    for target in re.findall(r"\]\(([^)#]+)\)", text()):
        assert target.startswith("https://") or (ROOT / target).is_file(), target


def test_two_commands_set_up_a_fresh_machine():
    joined = text().replace("\\\n", "")
    lines = [one for one in joined.splitlines() if one.startswith("    python3 -m venv")]
    assert len(lines) == 2
    assert "appraise demo" in lines[0]
    assert "-m pytest" in lines[1]


def rewritten():
    """The README with the table as the registry has it."""
    return re.sub(re.escape(START) + r"(?:\|.*\n)*\|.*|@commands@", lambda _: table(), text())


if __name__ == "__main__":
    README.write_text(rewritten(), encoding="utf-8")
    sys.exit(os.EX_OK)
