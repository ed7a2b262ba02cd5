"""A log that is open in one program while others use it: nothing of it is lost.

"How To Corrupt An SQLite Database File", 2.2 (sqlite.org): a handle of the file that is closed in
the program drops its locks, and the next program to close the log takes the journal away.
"""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from store.logkit import bought, opened

from appraise.base.places import Home
from appraise.commands.workspace import open_at
from appraise.store import backup, check
from appraise.store.log import Log
from appraise.store.packing import is_packed

ANOTHER = """
import sys
from pathlib import Path
from store.logkit import opened
with opened(Path(sys.argv[1]), machine="other") as log:
    print(log.connection.execute("SELECT count(*) FROM shelf").fetchone()[0])
"""


def count_elsewhere(path: Path) -> int:
    """How many prices another program finds, which opens the log and closes it again."""
    told = subprocess.run(
        [sys.executable, "-c", ANOTHER, str(path)],
        env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
        capture_output=True,
        text=True,
        check=True,
    )
    return int(told.stdout)


def opened_again(path: Path, log: Log) -> None:
    with opened(path):
        pass


def backed_up(path: Path, log: Log) -> None:
    backup.back_up(path, "2024-05-31T12:00:00Z")


def checked(path: Path, log: Log) -> None:
    assert not check.check(path).problems


def looked_at(path: Path, log: Log) -> None:
    assert not is_packed(path)


def opened_by_a_command(path: Path, log: Log) -> None:
    with open_at(path):
        pass


def daily(path: Path, log: Log) -> None:
    backup.daily(path, "2030-05-31T12:00:00Z")


@pytest.mark.parametrize(
    "act", [opened_again, opened_by_a_command, backed_up, checked, looked_at, daily]
)
def test_what_is_written_after_another_program_came_and_went_is_kept(tmp_path, act):
    path = tmp_path / "log.sqlite"
    with opened(path) as log:
        log.commit([bought("one")])
        act(path, log)
        assert count_elsewhere(path) == 1
        log.commit([bought("two")])
        assert count_elsewhere(path) == 2
        assert path.with_name("log.sqlite-wal").exists()
        log.commit([bought("three")])
    assert count_elsewhere(path) == 3


def test_a_restore_is_refused_while_the_log_is_open_twice_here(tmp_path):
    path = tmp_path / "log.sqlite"
    with opened(path) as log:
        log.commit([bought("one")])
        made = backup.back_up(path, "2024-05-31T12:00:00Z")
        code = (
            "import sys; from pathlib import Path; from appraise.store import backup;"
            "backup.restore(Path(sys.argv[1]), Path(sys.argv[2]), '2024-06-01T12:00:00Z')"
        )
        told = subprocess.run(
            [sys.executable, "-c", code, str(path), str(made.path)],
            capture_output=True, text=True, check=False,
        )  # fmt: skip
        assert told.returncode
        assert "StoreError" in told.stderr
        log.commit([bought("two")])
    assert count_elsewhere(path) == 2


def test_a_command_beside_the_open_app_loses_nothing_of_either(tmp_path):
    """As the README says: the app on a home, and commands of another process on the same."""

    def elsewhere(*words: str) -> str:
        told = subprocess.run(
            [sys.executable, "-m", "appraise", *words],
            env={**os.environ, "APPRAISE_HOME": str(tmp_path)},
            capture_output=True,
            text=True,
            check=True,
        )
        return told.stdout

    with opened(Home(tmp_path).log) as log:
        log.commit([bought("in the app")])
        assert "in the app" in elsewhere("log", "list")
        elsewhere("log", "add", "sixth ambrotype vine 38, at the quay")
        log.save_draft("piece", "piece: 1")
        log.commit([bought("in the app again")])
        assert len(log.entries()) == 3
    told = elsewhere("log", "list")
    assert "in the app again" in told
    assert "vine" in told
