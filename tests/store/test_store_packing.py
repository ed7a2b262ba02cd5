"""Backups of a large log are packed, come back whole, and are thinned by age and size."""

import gzip
import shutil
import stat
import subprocess

import pytest
from store.logkit import NOON, bought, opened

from appraise.base.errors import StoreError
from appraise.cli.main import run
from appraise.store import backup
from appraise.store.backup import Backup, BackupLimits, back_up, backups, daily, outlived, restore
from appraise.store.merge import merge
from appraise.store.packing import last_row, unpacked
from appraise.store.revisions import iso
from appraise.store.salvage import revisions_of

NOW = iso(NOON)


@pytest.fixture
def path(tmp_path, monkeypatch):
    monkeypatch.setattr(backup, "LARGE", 0)
    with opened(tmp_path / "log.sqlite") as log:
        log.add_all([bought(f"piece {n}") for n in range(50)])
    return tmp_path / "log.sqlite"


def titles(path):
    with opened(path) as log:
        return sorted(entry.title for entry in log.entries())


def test_a_large_log_is_packed_privately_and_much_smaller(path):
    made = back_up(path, NOW)
    assert made.path.name == "log-20240531T120000Z-asked.sqlite.gz"
    assert stat.S_IMODE(made.path.stat().st_mode) == 0o600
    assert made.size < path.stat().st_size / 3
    assert last_row(made.path) == 50
    assert backups(path) == (made,)


@pytest.mark.skipif(shutil.which("gzip") is None, reason="needs the gzip program")
def test_another_program_unpacks_it(path):
    made = back_up(path, NOW)
    done = subprocess.run(["gzip", "-dc", made.path], capture_output=True, check=True)
    with unpacked(made.path, path) as plain:
        assert plain.read_bytes() == done.stdout


def test_restored_whole(path):
    made = back_up(path, NOW)
    before = titles(path)
    with opened(path) as log:
        log.add(bought("after"))
    restore(path, made.path, NOW)
    assert titles(path) == before
    assert stat.S_IMODE(path.stat().st_mode) == 0o600


def test_one_from_before_that_is_not_packed_is_restored_too(path, monkeypatch):
    monkeypatch.setattr(backup, "LARGE", 1 << 40)
    made = back_up(path, NOW)
    assert made.path.suffix == ".sqlite"
    restore(path, made.path, NOW)
    assert len(titles(path)) == 50


def test_a_packed_one_is_merged_and_counted(path, tmp_path):
    made = back_up(path, NOW)
    assert revisions_of(made.path) == 50
    with opened(tmp_path / "other" / "log.sqlite", "laptop") as log:
        assert merge(log, made.path).revisions == 50


@pytest.mark.parametrize(
    "harm",
    [
        lambda data: data[: len(data) // 2],
        lambda data: data[:200] + bytes(20) + data[220:],
        lambda data: data[:-8] + bytes(8),
        lambda data: gzip.compress(b"notes"),
    ],
    ids=["cut", "overwritten", "wrong sum", "another file"],
)
def test_a_damaged_one_is_refused_and_changes_nothing(path, harm):
    made = back_up(path, NOW)
    made.path.write_bytes(harm(made.path.read_bytes()))
    before = path.read_bytes()
    with pytest.raises(StoreError):
        restore(path, made.path, NOW)
    assert path.read_bytes() == before
    assert revisions_of(made.path) == 0
    assert not list(path.parent.glob(".log.sqlite.*"))


def test_no_daily_one_of_what_the_last_one_holds(path):
    assert daily(path, NOW) is not None
    assert daily(path, "2024-06-01T12:00:00.000000Z") is None
    with opened(path) as log:
        log.add(bought("one more"))
    assert daily(path, "2024-06-02T12:00:00.000000Z") is not None


def one(day: str, reason: str = "import", size: int = 10) -> Backup:
    """A backup of a day."""
    return Backup(backup.Path(f"{day}-{reason}"), f"{day}T120000Z", reason, size)


def test_what_is_too_old_goes_but_not_the_last_ones():
    known = [one(f"202401{n:02}") for n in range(1, 6)]
    gone = outlived(known, BackupLimits(30, 10**9), "20250101T000000Z")
    assert [each.time[:8] for each in gone] == ["20240101", "20240102"]
    assert outlived(known, BackupLimits(400, 10**9), "20250101T000000Z") == ()


def test_of_what_is_too_much_the_oldest_go_until_it_fits():
    known = [one(f"202401{n:02}") for n in range(1, 6)]
    gone = outlived(known, BackupLimits(10_000, 45), "20240201T000000Z")
    assert [each.time[:8] for each in gone] == ["20240101"]
    gone = outlived(known, BackupLimits(10_000, 1), "20240201T000000Z")
    assert [each.time[:8] for each in gone] == ["20240101", "20240102"]


def test_those_that_were_asked_for_stay():
    known = [one(f"202401{n:02}", "asked") for n in range(1, 9)]
    assert outlived(known, BackupLimits(1, 1), "20260101T000000Z") == ()


def test_the_limits_are_those_of_the_settings(path):
    (path.parent / "settings.yaml").write_text("backup_days: 10\nbackup_size: 3\n")
    assert backup.limits(path) == BackupLimits(10, 3_000_000)
    (path.parent / "settings.yaml").write_text("backup_days: never\n")
    assert backup.limits(path) == BackupLimits(500, 2_000_000_000)
    for day in range(1, 29):
        back_up(path, f"2024-02-{day:02}T12:00:00.000000Z", "merge")
    assert len(backups(path)) == 5


def test_restored_by_its_command(path, capsys, monkeypatch):
    made = back_up(path, NOW)
    monkeypatch.setenv("APPRAISE_HOME", str(path.parent))
    assert run(["log", "restore", str(made.path)]) == 0
    assert "restored" in capsys.readouterr().out
    assert len(titles(path)) == 50
