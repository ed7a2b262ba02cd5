"""What a command loads, and that what is kept from one run to the next never makes it wrong."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from store.logkit import bought

from appraise.base.places import Home
from appraise.commands.learnt import files_state
from appraise.commands.workspace import open_at

ROOT = Path(__file__).parent.parent.parent


@pytest.fixture
def home(tmp_path):
    place = Home(tmp_path / "home")
    with open_at(place.log) as log:
        log.add_all([bought("girl with a basket"), bought("vine", "60.00")])
    return place


def loaded(home, *words):
    """What an interpreter holds once it has run a command."""
    code = "import sys; from appraise.__main__ import main; done = main(sys.argv[1:]); "
    code += "print(*sys.modules, file=sys.stderr); sys.exit(done)"
    run = [sys.executable, "-c", code, "--home", str(home.root), *words]
    done = subprocess.run(run, capture_output=True, text=True, cwd=ROOT, check=True)
    return done.stdout, set(done.stderr.split())


def test_a_list_loads_no_more_than_it_needs(home):
    loaded(home, "log", "list")  # the first keeps what it learnt
    shown, held = loaded(home, "log", "list")
    assert "2 entries" in shown
    slow = {
        "numpy",
        "msgspec",
        "yaml",
        "rapidfuzz",
        "textual",
        "rich",
        "appraise.knowledge.records",
    }
    code = "import argparse, pathlib, sqlite3, sys; print(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    late = {"hashlib", "shutil", "difflib", "platform", "tempfile", "glob"}
    assert held.isdisjoint(slow | late - {*done.stdout.split()})


def test_a_command_that_is_done_ends_without_a_search_for_garbage():
    code = "import atexit, gc, sys; from appraise.__main__ import main; main(['care']); "
    code += "atexit._run_exitfuncs(); print(gc.get_freeze_count() > 1_000, file=sys.stderr)"
    run = [sys.executable, "-c", code]
    done = subprocess.run(run, capture_output=True, text=True, cwd=ROOT, check=True)
    assert done.stderr.split()[-1] == "True"


def test_prices_are_learnt_anew_when_a_file_of_the_user_changes_wherever_it_lies(home):
    def state():
        return files_state(home)

    bare = state()
    file = home.knowledge / "own" / "deeper" / "prices.yaml"
    file.parent.mkdir(parents=True)
    assert state() == bare
    file.write_text("about: one\n")
    written = state()
    assert written != bare
    (file.parent / "notes.txt").write_text("nothing that is read")
    assert state() == written
    os.utime(file, ns=(1, 1))
    touched = state()
    assert touched not in (bare, written)
    file.write_text("about: another\n")
    os.utime(file, ns=(1, 1))
    assert state() not in (bare, written, touched)
    file.unlink()
    file.symlink_to(file.parent / "nowhere.yaml")
    assert state() == bare
