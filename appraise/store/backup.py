"""Backups: whole copies of the log in one file each, kept in rotation, and the way back.

A copy is made by SQLite's backup interface, so it is one consistent state even while
another program writes, and gets its name only when it is complete and synced. That of a large
log is packed.
"""

import datetime as dt
import os
import re
import sqlite3
from collections.abc import Sequence
from contextlib import closing
from pathlib import Path

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError, StoreError
from appraise.base.settings import Settings, load_settings
from appraise.store import pictures
from appraise.store.faults import damaged, faults_told
from appraise.store.files import (
    JOURNALS,
    basic,
    duplicate,
    free_name,
    inspect,
    journal,
    publish,
    reading,
    sync_directory,
    workshop,
)
from appraise.store.migrations import pending
from appraise.store.packing import PACKED, last_row, pack, unpacked

REASONS = ("asked", "daily", "import", "merge", "migration")
# Kept of each reason, the newest first; those that were asked for are never taken away.
_KEPT = {"daily": 10, "import": 5, "merge": 5, "migration": 5}
_MONTHS = 12
_LAST = 3  # of all, which neither age nor size takes away
LARGE = 4_000_000
"""Bytes from which a copy is packed: below, packing saves little."""
_NAME = re.compile(r"(?P<stamp>\d{8}T\d{6}Z)-(?P<reason>[a-z]+)(?:-\d+)?\.sqlite(?:\.gz)?\Z")


@dataclass(frozen=True, slots=True)
class Backup:
    """A copy of the log.

    Attributes:
        time: When it was made, ISO 8601 basic in UTC, as in its name.
        reason: One of `REASONS`.
        size: Bytes.
    """

    path: Path
    time: str
    reason: str
    size: int


def directory(log_path: Path) -> Path:
    """Where the backups of a log are kept: a directory beside it."""
    return log_path.parent / "backups"


def backups(log_path: Path) -> tuple[Backup, ...]:
    """The backups of a log, the newest first; other files there are left out."""
    place = directory(log_path)
    found = []
    made = {}
    with faults_told(place):
        for path in place.glob("*.sqlite*") if place.is_dir() else ():
            stem, _, rest = path.name.partition(f"{log_path.stem}-")
            match = None if stem else _NAME.match(rest)
            if match and match["reason"] in REASONS:
                looked = path.stat()
                made[path] = looked.st_mtime_ns  # names tell whole seconds
                found.append(Backup(path, match["stamp"], match["reason"], looked.st_size))
    return tuple(sorted(found, key=lambda each: (each.time, made[each.path]), reverse=True))


def back_up(log_path: Path, time: str, reason: str = "asked") -> Backup:
    """Make a backup now, pictures included, and let old ones of the same reason go.

    `reason`: one of `REASONS`.

    Raises:
        StoreError: when the copy cannot be made; nothing else was touched.
    """
    with faults_told(log_path):
        inspect(log_path)
    made = _copy(log_path, time, reason)
    pictures.copy_missing(log_path.parent, directory(log_path))
    for old in outlived(backups(log_path), limits(log_path), basic(time)):
        with faults_told(old.path):
            old.path.unlink(missing_ok=True)
    return made


def daily(log_path: Path, time: str) -> Backup | None:
    """Make the day's backup, unless there is one or nothing was logged since the last of any.

    A log that holds nothing is not backed up.

    Cheap enough for every start or end of the program: it looks at names, and at one row.

    Returns:
        The backup, or None when there was no need.

    Raises:
        StoreError: when the log cannot be read, or there is no room.
    """
    known = backups(log_path)
    today = basic(time)[:8]
    if any(each.reason == "daily" and each.time.startswith(today) for each in known):
        return None
    row = _last_row(log_path)
    if row == 0 or (known and _holds_all(known[0].path, row)):
        return None
    return back_up(log_path, time, "daily")


def _holds_all(copy: Path, row: int) -> bool:
    """Whether a backup can be read and goes as far as `row`."""
    try:
        with faults_told(copy):
            told = last_row(copy) if copy.name.endswith(PACKED) else _last_row(copy)
        return told == row
    except StoreError:
        return False


def _last_row(path: Path) -> int:
    with faults_told(path), closing(reading(path)) as connection:
        (number,) = connection.execute("SELECT max(number) FROM revision").fetchone()
    return number or 0


def _copy(log_path: Path, time: str, reason: str) -> Backup:
    stamp = basic(time)
    base = f"{log_path.stem}-{stamp}-{reason}"
    with faults_told(log_path), workshop(directory(log_path) / "new") as place:
        made = place / "copy.sqlite"
        duplicate(log_path, made)
        _sound(made, log_path)  # a damaged copy must not push sound ones out of the rotation
        end = ".sqlite"
        if made.stat().st_size >= LARGE:
            end += PACKED
            pack(made, place / "packed", _last_row(made))
            made = place / "packed"
        for name in (base, *(f"{base}-{n}" for n in range(2, 1_000))):
            path = directory(log_path) / f"{name}{end}"
            if _taken(path.with_name(name)):
                continue
            if publish(made, path):
                return Backup(path, stamp, reason, path.stat().st_size)
    raise StoreError("too many backups in one second", str(log_path), "Wait, then try again.")


def _taken(name: Path) -> bool:
    """Whether a backup has that name, packed or not."""
    return any(name.with_name(f"{name.name}.sqlite{end}").exists() for end in ("", PACKED))


@dataclass(frozen=True, slots=True)
class BackupLimits:
    """How long and how much is kept of what was not asked for.

    Attributes:
        size: Bytes of all backups together.
    """

    days: int
    size: int


def limits(log_path: Path) -> BackupLimits:
    """The limits of the home that a log stands in; where they cannot be read, the usual ones."""
    try:
        chosen = load_settings(log_path.parent / "settings.yaml")
    except InputError:
        chosen = Settings()
    return BackupLimits(chosen.backup_days, chosen.backup_size * 1_000_000)


def outlived(
    known: Sequence[Backup], within: BackupLimits | None = None, time: str = ""
) -> tuple[Backup, ...]:
    """Backups that need not be kept: beyond the newest of their reason, too old, or too much.

    Of the daily ones the newest of each month stays too, for twelve months. The last ones of all,
    and those that were asked for, are not taken away by age or size.

    `within`: age and size; None: whatever these are.
    """
    gone, ordered = list[Backup](), sorted(known, key=lambda each: (each.time, each.path.name))
    for reason, most in _KEPT.items():
        those = [each for each in ordered if each.reason == reason]
        kept = set(those[-most:])
        if reason == "daily":
            newest_of_month = {each.time[:6]: each for each in those}
            kept |= set([*newest_of_month.values()][-_MONTHS:])
        gone += [each for each in those if each not in kept]
    if within is not None:
        size = sum(each.size for each in ordered if each not in gone)
        for each in [each for each in ordered if each not in gone][:-_LAST]:
            old = _days_between(each.time, time) > within.days
            if each.reason != "asked" and (old or size > within.size):
                size -= each.size
                gone.append(each)
    return tuple(gone)


def _days_between(first: str, last: str) -> int:
    """Days from one day to another, both as `Backup.time` has them; 0 where one tells none."""
    try:
        return (dt.date.fromisoformat(last[:8]) - dt.date.fromisoformat(first[:8])).days
    except ValueError:
        return 0


def restore(log_path: Path, source: Path, time: str) -> Path | None:
    """Put a backup, or any sound log, in the log's place; what stood there moves aside.

    `source`: the backup's file; it stays.
    `time`: now, ISO 8601 in UTC, for the name of what moves aside.

    Returns:
        The file that the former log became, or None when there was none.

    Raises:
        StoreError: when the backup is not sound, another program has the log open, or a file
            cannot be moved; the log then stands as before.
    """
    with (
        unpacked(source, log_path) as plain,
        faults_told(log_path),
        workshop(log_path) as place,
    ):
        made = place / "restored.sqlite"
        with faults_told(source):
            inspect(plain)
            duplicate(plain, made)
        _sound(made, source)
        _free(log_path)
        aside = _move_aside(log_path, time)
        os.replace(made, log_path)
        sync_directory(log_path.parent)
    pictures.copy_missing(source.parent, log_path.parent)
    return aside


def latest(log_path: Path) -> Backup:
    """The newest backup.

    Raises:
        InputError: when there is none.
    """
    known = backups(log_path)
    if not known:
        raise InputError("there is no backup", str(directory(log_path)), "Name a file to restore.")
    return known[0]


def _sound(copy: Path, told: Path) -> None:
    """Refuse a copy that is damaged, or newer than this program; `told` is named for it."""
    with faults_told(told):
        inspect(copy)
        with closing(reading(copy)) as connection:
            (said,) = connection.execute("PRAGMA quick_check(1)").fetchone()
            if said != "ok":
                raise damaged(told)
            pending(connection, told)


def _free(log_path: Path) -> None:
    """Refuse to move a log that another program holds open; a damaged one is held by none.

    Leaving the write-ahead log takes the file for oneself alone (sqlite.org/pragma.html), which
    SQLite refuses while anybody else has it open.
    """
    if not log_path.is_file():
        return
    uri = f"{log_path.absolute().as_uri()}?mode=rw"
    with closing(sqlite3.connect(uri, uri=True, timeout=0, isolation_level=None)) as alone:
        try:
            alone.execute("PRAGMA journal_mode = DELETE").fetchone()
        except sqlite3.Error as error:
            if getattr(error, "sqlite_errorcode", 0) & 0xFF in (
                sqlite3.SQLITE_BUSY,
                sqlite3.SQLITE_LOCKED,
            ):
                raise
            return


def _move_aside(log_path: Path, time: str) -> Path | None:
    """Give a log and its journals another name; the log's own name never stands empty.

    The journals go first: SQLite would play one that stays into the log that follows.
    """
    there = os.path.lexists(log_path)
    journals = [each for each in JOURNALS if journal(log_path, each).exists()]
    if not there and not journals:
        return None
    aside = free_name(log_path, "aside", time)
    if there:
        try:
            os.link(log_path, aside)
        except OSError:  # a file system without hard links
            os.rename(log_path, aside)
    for suffix in journals:
        os.replace(journal(log_path, suffix), journal(aside, suffix))
    return aside
