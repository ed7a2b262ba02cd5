"""Backups, their rotation, and the way back."""

import datetime as dt
import os
import shutil
import sqlite3
import stat
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from store.logkit import NOON, bought, opened

from appraise.base.errors import InputError, StoreError
from appraise.store import backup
from appraise.store.backup import Backup, back_up, backups, daily, outlived, restore
from appraise.store.files import inspect
from appraise.store.migrations import MIGRATIONS, Migration, migrate, pending, statements
from appraise.store.revisions import iso

NOW = iso(NOON)


@pytest.fixture
def path(tmp_path):
    with opened(tmp_path / "log.sqlite") as log:
        log.add_all([bought("one"), bought("two")])
    return tmp_path / "log.sqlite"


def titles(path):
    with opened(path) as log:
        return sorted(entry.title for entry in log.entries())


def test_a_backup_is_one_whole_file(path):
    with opened(path) as log:
        log.add(bought("still in the journal"))
        made = back_up(path, NOW)
    assert made.path.name == "log-20240531T120000Z-asked.sqlite"
    assert sorted(each.name for each in made.path.parent.iterdir()) == [made.path.name]
    inspect(made.path)
    with closing(sqlite3.connect(made.path)) as copy:
        assert copy.execute("PRAGMA journal_mode").fetchone() == ("delete",)
        assert copy.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        assert copy.execute("SELECT count(*) FROM shelf").fetchone() == (3,)
    assert backups(path) == (made,)


def test_two_backups_of_one_second_are_two(path):
    first, second = back_up(path, NOW), back_up(path, NOW)
    assert first.path != second.path
    assert len(backups(path)) == 2


def logged(path):
    with opened(path) as log:
        log.add(bought("one more"))


def test_one_daily_backup_a_day(path):
    assert daily(path, NOW) is not None
    logged(path)
    assert daily(path, iso(NOON + dt.timedelta(hours=5))) is None
    assert daily(path, iso(NOON + dt.timedelta(days=1))) is not None
    assert [each.reason for each in backups(path)] == ["daily", "daily"]


def test_no_daily_backup_of_what_the_last_one_holds(path):
    back_up(path, NOW)
    assert daily(path, iso(NOON + dt.timedelta(days=1))) is None
    logged(path)
    assert daily(path, iso(NOON + dt.timedelta(days=1))) is not None
    assert daily(path, iso(NOON + dt.timedelta(days=2))) is None
    backups(path)[0].path.write_bytes(b"damaged")
    assert daily(path, iso(NOON + dt.timedelta(days=2))) is not None


def test_files_that_are_no_backups_are_left_alone(path):
    place = backup.directory(path)
    place.mkdir()
    strangers = ["notes.sqlite", "log-20240531T120000Z-mine.sqlite", "other-log-1.sqlite"]
    strangers += ["log2-20240531T120000Z-daily.sqlite", "20240531T120000Z-daily.sqlite"]
    for name in strangers:
        (place / name).write_text("mine")
    for day in range(30):
        logged(path)
        daily(path, iso(NOON + dt.timedelta(days=day)))
    assert {each.name for each in place.iterdir()} >= set(strangers)
    assert len(backups(path)) == 11


DAYS = st.lists(st.integers(0, 900), unique=True, max_size=80)


@given(DAYS, st.sampled_from(backup.REASONS))
def test_rotation_keeps_the_newest_and_one_a_month(days, reason):
    start = dt.datetime(2022, 1, 1, tzinfo=dt.UTC)
    known = [
        Backup(Path(f"{day}"), f"{start + dt.timedelta(days=day):%Y%m%dT%H%M%SZ}", reason, 1)
        for day in days
    ]
    kept = sorted(set(known) - set(outlived(known)), key=lambda each: each.time, reverse=True)
    newest = sorted(known, key=lambda each: each.time, reverse=True)
    if reason == "asked":
        assert kept == newest
    elif reason == "daily":
        months = list(dict.fromkeys(each.time[:6] for each in newest))[:12]
        assert kept[:10] == newest[:10]
        assert set(months) <= {each.time[:6] for each in kept}
        assert len(kept) <= 22
    else:
        assert kept == newest[:5]
    # what was kept once is kept when nothing was added
    assert outlived(kept) == ()


def test_restore_brings_the_backup_and_keeps_what_stood_there(path):
    made = back_up(path, NOW)
    with opened(path) as log:
        log.add(bought("after the backup"))
    aside = restore(path, made.path, NOW)
    assert titles(path) == ["one", "two"]
    assert aside == path.with_name("log.aside-20240531T120000Z.sqlite")
    assert titles(aside) == ["after the backup", "one", "two"]
    assert made.path.exists()


def test_restore_takes_the_journal_aside_with_its_log(path, tmp_path):
    made = back_up(path, NOW)
    killed = tmp_path / "killed" / path.name  # as a program that was killed leaves it
    killed.parent.mkdir()
    with opened(path) as log:
        log.add(bought("only in the journal"))
        assert path.with_name("log.sqlite-wal").stat().st_size
        for file in (path, path.with_name("log.sqlite-wal")):
            shutil.copyfile(file, killed.with_name(file.name))
    aside = restore(killed, made.path, NOW)
    assert titles(killed) == ["one", "two"]
    assert "only in the journal" in titles(aside)


def test_restore_is_refused_while_another_program_has_the_log_open(path):
    made = back_up(path, NOW)
    held = "import sqlite3, sys; c = sqlite3.connect(sys.argv[1]); " + (
        "c.execute('SELECT count(*) FROM shelf').fetchone(); print('open', flush=True); input()"
    )
    words = [sys.executable, "-c", held, str(path)]
    with subprocess.Popen(words, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as other:
        assert other.stdout.readline() == "open\n"
        with pytest.raises(StoreError, match="in use by another program"):
            restore(path, made.path, NOW)
        other.communicate("\n")
    assert titles(path) == ["one", "two"]
    assert restore(path, made.path, NOW) is not None
    assert {stat.S_IMODE(os.stat(one).st_mode) for one in (path, made.path)} == {0o600}


def test_a_damaged_log_is_moved_aside_unchanged(path):
    made = back_up(path, NOW)
    os.truncate(path, 3000)
    hurt = path.read_bytes()
    aside = restore(path, made.path, NOW)
    assert aside.read_bytes() == hurt
    assert titles(path) == ["one", "two"]
    second = restore(path, made.path, NOW)
    assert second not in (aside, path)
    assert aside.read_bytes() == hurt


def test_restore_where_nothing_stands(path):
    made = back_up(path, NOW)
    path.unlink()
    assert restore(path, made.path, NOW) is None
    assert titles(path) == ["one", "two"]


def test_restore_never_lets_an_old_journal_into_the_new_log(path):
    made = back_up(path, NOW)
    path.unlink()
    path.with_name("log.sqlite-wal").write_bytes(b"left over" * 1000)
    restore(path, made.path, NOW)
    assert titles(path) == ["one", "two"]
    aside = path.with_name("log.aside-20240531T120000Z.sqlite-wal")
    assert aside.read_bytes() == b"left over" * 1000


@pytest.mark.parametrize("harm", ["foreign", "short", "scrambled", "newer", "missing"])
def test_restore_refuses_what_is_not_sound_and_changes_nothing(path, harm):
    made = back_up(path, NOW).path
    data = bytearray(made.read_bytes())
    if harm == "foreign":
        made.write_text("not a log" * 100)
    elif harm == "short":
        made.write_bytes(data[: len(data) // 2])
    elif harm == "scrambled":
        for at in range(4096, len(data), 4096):
            data[at : at + 200] = b"\xff" * 200
        made.write_bytes(data)
    elif harm == "newer":
        with closing(sqlite3.connect(made)) as newer:
            newer.execute("PRAGMA user_version = 99")
    else:
        made.unlink()
    before = path.read_bytes()
    with pytest.raises(StoreError) as caught:
        restore(path, made, NOW)
    assert str(caught.value).startswith(f"{made}: ")
    assert path.read_bytes() == before
    assert {each.name for each in path.parent.iterdir()} == {"log.sqlite", "backups"}


def test_a_damaged_log_is_not_taken_into_the_rotation(path):
    with opened(path) as log:
        log.add_all([bought(note="n" * 500)] * 200)
    daily(path, NOW)
    logged(path)
    data = bytearray(path.read_bytes())
    for at in range(4096 * 2, len(data), 4096):
        data[at : at + 2000] = b"\xff" * 2000
    path.write_bytes(data)
    with pytest.raises(StoreError, match="the log is damaged"):
        daily(path, iso(NOON + dt.timedelta(days=1)))
    assert [each.time for each in backups(path)] == ["20240531T120000Z"]


def test_the_newest_backup_is_found(path):
    with pytest.raises(InputError, match=r"there is no backup\. Name a file to restore"):
        backup.latest(path)
    back_up(path, NOW, "import")
    newest = back_up(path, iso(NOON + dt.timedelta(seconds=9)), "asked")
    assert backup.latest(path) == newest


def with_steps(real, steps, others):
    def called(*args):
        return real(*args[:others], steps)

    return called


def test_an_older_log_is_backed_up_before_it_is_changed(path, monkeypatch):
    more = (*MIGRATIONS, Migration("more", statements("CREATE TABLE more (x)")))
    for module in ("migrations", "log"):
        monkeypatch.setattr(f"appraise.store.{module}.pending", with_steps(pending, more, 2))
        monkeypatch.setattr(f"appraise.store.{module}.migrate", with_steps(migrate, more, 3))
    assert titles(path) == ["one", "two"]
    (made,) = backups(path)
    assert made.reason == "migration"
    with closing(sqlite3.connect(made.path)) as copy:
        assert copy.execute("PRAGMA user_version").fetchone() == (len(MIGRATIONS),)
    with closing(sqlite3.connect(path)) as now:
        assert now.execute("PRAGMA user_version").fetchone() == (len(more),)
