"""Whoever reads a command's output may stop, as `head` does: nothing is said of it."""

import os
import subprocess
import sys

import pytest
from thorough import times

from appraise.base.places import Home
from appraise.cli.demo import furnish

COMMANDS = [
    ("log", "list"), ("log", "list", "--json"), ("checks",), ("checks", "--json"),
    ("year", "1858"), ("care",), ("--help",), ("log", "--help"), ("venues",), ("paths",),
    ("look", "sixth", "ambro", "45"), ("kept", "list"), ("want", "list"), ("track",),
    ("report", "demo/pieces/sound.yaml"),
]  # fmt: skip


@pytest.fixture(scope="module")
def place(tmp_path_factory):
    made = tmp_path_factory.mktemp("home")
    furnish(Home(made))
    return made


def closed(place, *words) -> tuple[int, str]:
    """Status and stderr of a command whose output nobody reads."""
    reader, writer = os.pipe()
    os.close(reader)
    told = subprocess.run(
        [sys.executable, "-m", "appraise", *words],
        stdout=writer,
        stderr=subprocess.PIPE,
        env={**os.environ, "APPRAISE_HOME": str(place)},
        text=True,
        check=False,
    )
    os.close(writer)
    return told.returncode, told.stderr


@pytest.mark.parametrize("words", COMMANDS[:: times(3, 1)], ids=" ".join)
def test_a_closed_pipe_ends_a_command_silently(place, words):
    assert closed(place, *words) == (0, "")


def test_what_is_wrong_is_still_said(place):
    status, said = closed(place, "verdict", "none.yaml")
    assert status == 1
    assert said.startswith("appraise: none.yaml")
