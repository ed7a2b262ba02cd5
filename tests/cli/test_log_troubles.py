"""Everything that can be wrong with the log, as the commands tell it.

Each is one golden line, exit status 1, nothing on stdout, and nothing lost or overwritten.
"""

import os
import random
import shutil
import sqlite3
import subprocess
import sys
from contextlib import closing, contextmanager
from pathlib import Path

import pytest

import appraise
from appraise.cli.main import run
from appraise.store.log import open_log
from appraise.store.migrations import MIGRATIONS
from appraise.store.transaction import connect

LINE = "sixth ambrotype thermoplastic vine 38 + 6 post, quay market, yesterday"

GOLDEN = {
    "full": (
        "{log}: the disk is full. The last change was not saved; free some space and try again."
    ),
    "no-rights": (
        "{log}: cannot be used: permission denied. Check the path, its rights and the disk."
    ),
    "read-only": (
        "{log}: the log cannot be written to. Make the file and its directory writable for you."
    ),
    "locked": (
        "{log}: the log is in use by another program. "
        "Nothing was changed; try again when it is done."
    ),
    "newer": (
        "{log}: the log is of version {newer}, this program reads up to {newest}. "
        "Use a newer appraise; nothing was changed."
    ),
    "damaged": (
        "{log}: the log is damaged. Nothing was changed; 'appraise log check' says more, "
        "'appraise log restore' restores a backup."
    ),
    "random": "{log}: is not a price log. Name another file with --log, or move this one aside.",
    "empty": (
        "{log}: the log file is empty. Move it aside, then 'appraise log restore' "
        "restores a backup."
    ),
    "no-backup": "{backups}: there is no backup. Name a file to restore.",
    "no-such-backup": (
        "{gone}: cannot be used: no such file or directory. "
        "Check the path, its rights and the disk."
    ),
}


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


@pytest.fixture
def log(say, home):
    """A log of one entry."""
    say("log", "currency", "USD")
    say("log", "add", LINE)
    return home / "log.sqlite"


def told(answer, name, **places):
    """Whether an answer is the golden line and nothing else."""
    assert answer.out == ""
    places |= {"newest": len(MIGRATIONS), "newer": len(MIGRATIONS) + 1}
    lines = [line for line in answer.err.split("\n") if line.startswith("appraise: ")]
    assert lines == [f"appraise: {GOLDEN[name].format(**places)}"]
    assert answer.err.endswith(f"{lines[0]}\n")


def titles(say):
    return say("log", "list").out.count("vine")


# A disk that is full


@contextmanager
def tiny_disk(place: Path, size: str):
    """A file system in memory of so many bytes."""
    mount = ["mount", "-t", "tmpfs", "-o", f"size={size}", "tmpfs", str(place)]
    try:
        made = subprocess.run(mount, capture_output=True, text=True)
    except OSError as error:
        pytest.skip(f"no file system can be mounted here: {error}")
    if made.returncode:
        pytest.skip(f"no file system can be mounted here: {made.stderr.strip()}")
    try:
        yield
    finally:
        subprocess.run(["umount", str(place)], check=True)


@pytest.fixture
def full(home, say):
    """A home on a disk of 600 kB with a log of one entry, and a file that takes nearly all room."""
    home.mkdir()
    with tiny_disk(home, "600k"):
        say("log", "currency", "USD")
        say("log", "add", LINE)
        room = os.statvfs(home)
        ballast = home / "ballast"
        ballast.write_bytes(b"x" * (room.f_bavail * room.f_frsize - 120_000))
        yield ballast


def test_a_full_disk_loses_nothing_that_was_said_to_be_kept(say, full, home, capsys):
    kept = 1
    while run(["log", "add", LINE]) == 0:
        kept += 1
        assert kept < 1_000
    assert kept > 1
    capsys.readouterr()
    answer = say("log", "add", LINE, status=1)
    told(answer, "full", log=home / "log.sqlite")
    full.unlink()
    assert titles(say) == kept
    say("log", "add", LINE)
    assert titles(say) == kept + 1
    assert "0 problems" in say("log", "check").out


def test_a_full_disk_takes_in_nothing_of_a_file(say, full, home, tmp_path):
    sheet = tmp_path / "years.csv"
    rows = "".join(f"2024-05-31,vine {n},{n}.00\n" for n in range(1, 2_000))
    sheet.write_text(f"date,title,paid\n{rows}")
    answer = say("log", "import", sheet, "--record", "bought", status=1)
    told(answer, "full", log=home / "log.sqlite")
    full.unlink()
    assert titles(say) == 1
    assert "0 problems" in say("log", "check").out


# Rights

AS_NOBODY = """
import glob, hashlib, os, shutil, sys, urllib.parse
from appraise.cli.main import run
import appraise.knowledge, appraise.listing.quick, appraise.store.log
import tempfile, appraise.store.backup, appraise.store.venue_book, appraise.documents.entry
import encodings.utf_8_sig, secrets, threading, traceback
import appraise.pricing.packed, appraise.pricing.price_rows, appraise.commands.learnt
if os.geteuid() == 0:  # the interpreter's own files may be out of reach of others: import first
    os.setgroups([]); os.setgid(65534); os.setuid(65534)
sys.exit(run(["--home", sys.argv[1], *sys.argv[2:]]))
"""


class Answer:
    def __init__(self, ran):
        self.out, self.err, self.status = ran.stdout, ran.stderr, ran.returncode


def as_nobody(home: Path, *words: str) -> Answer:
    """What a user without rights is told; dropping rights matters where tests run as root."""
    ran = subprocess.run(
        [sys.executable, "-c", AS_NOBODY, str(home), *words],
        capture_output=True,
        text=True,
        env={**os.environ, "PYTHONPATH": str(Path(appraise.__file__).parent.parent)},
    )
    return Answer(ran)


@pytest.fixture
def open_home():
    """A home that another user can reach, which pytest's own directories are not."""
    import tempfile

    closed = [one for one in Path(appraise.__file__).parents if not one.stat().st_mode & 0o001]
    if os.geteuid() == 0 and closed:
        pytest.skip(f"another user would not reach the program itself: {closed[0]} is closed")
    with tempfile.TemporaryDirectory() as name:
        os.chmod(name, 0o777)
        yield Path(name)
        os.chmod(name, 0o777)


def test_a_directory_without_rights(open_home):
    os.chmod(open_home, 0o555)
    answer = as_nobody(open_home, "log", "currency", "USD")
    assert answer.status == 1
    told(answer, "no-rights", log=open_home / "log.sqlite")
    assert list(open_home.iterdir()) == []


def test_a_log_that_may_only_be_read(open_home, say):
    say("--home", open_home, "log", "add", LINE)
    os.chmod(open_home / "log.sqlite", 0o644)
    os.chmod(open_home, 0o555)
    before = (open_home / "log.sqlite").read_bytes()
    shown = as_nobody(open_home, "log", "list")
    assert shown.status == 0, shown.err
    assert "1 entries" in shown.out
    answer = as_nobody(open_home, "log", "add", "--yes", LINE)
    assert answer.status == 1
    told(answer, "read-only", log=open_home / "log.sqlite")
    assert (open_home / "log.sqlite").read_bytes() == before


# Another program


def test_a_log_in_use(say, log, monkeypatch):
    monkeypatch.setitem(open_log.__kwdefaults__, "wait_seconds", 0.05)
    with closing(connect(log)) as other:
        other.execute("BEGIN IMMEDIATE")
        told(say("log", "add", LINE, status=1), "locked", log=log)
        assert titles(say) == 1, "reading does not wait"
        other.execute("ROLLBACK")
    say("log", "add", LINE)
    assert titles(say) == 2


# What stands there is not what it should be


def newer(data: Path) -> None:
    with closing(sqlite3.connect(data)) as other:
        other.execute("INSERT INTO migration (name, time) VALUES ('holograms', '2031')")
        other.execute("PRAGMA user_version = 5")
        other.commit()


HARMS = {
    "newer": newer,
    "damaged": lambda path: os.truncate(path, path.stat().st_size // 2),
    "random": lambda path: path.write_bytes(random.Random(1).randbytes(50_000)),
    "empty": lambda path: os.truncate(path, 0),
}
COMMANDS = (("list",), ("add", LINE), ("undo",), ("export", "-", "--as", "csv"), ("backup",))


@pytest.mark.parametrize("harm", HARMS)
@pytest.mark.parametrize("words", COMMANDS, ids=lambda words: words[0])
def test_a_log_that_is_not_what_it_should_be(say, log, harm, words):
    HARMS[harm](log)
    before = {path: path.read_bytes() for path in log.parent.rglob("*") if path.is_file()}
    told(say("log", *words, status=1), harm, log=log)
    after = {path: path.read_bytes() for path in log.parent.rglob("*") if path.is_file()}
    assert after == before


@pytest.mark.parametrize("harm", ["damaged", "random", "empty"])
def test_a_backup_takes_the_place_of_a_log_that_is_moved_aside(say, log, harm):
    say("log", "backup")
    HARMS[harm](log)
    hurt = log.read_bytes()
    answer = say("log", "restore")
    aside = Path(answer.out.strip().rpartition(" is at ")[2])
    assert aside.read_bytes() == hurt
    assert titles(say) == 1


# Backups


def test_no_backup(say, log):
    shutil.rmtree(log.parent / "backups")
    before = log.read_bytes()
    answer = say("log", "restore", status=1)
    told(answer, "no-backup", backups=log.parent / "backups")
    assert log.read_bytes() == before


def test_a_backup_that_is_not_there(say, log, tmp_path):
    before = log.read_bytes()
    answer = say("log", "restore", tmp_path / "gone.sqlite", status=1)
    told(answer, "no-such-backup", gone=tmp_path / "gone.sqlite")
    assert log.read_bytes() == before
