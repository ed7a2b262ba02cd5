"""What SQLite and the disk complain of, told as one line: what, where and the mend."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from appraise.base.errors import InputError, StoreError

_IN_USE = (
    "the log is in use by another program",
    "Nothing was changed; try again when it is done.",
)
_NOT_YOURS = (
    "the log cannot be written to",
    "Make the file and its directory writable for you.",
)
FULL = "the disk is full"
# Keyed by SQLite's primary result code (sqlite.org/rescode.html).
_TOLD: dict[int, tuple[str, str]] = {
    sqlite3.SQLITE_BUSY: _IN_USE,
    sqlite3.SQLITE_LOCKED: _IN_USE,
    sqlite3.SQLITE_FULL: (
        FULL,
        "The last change was not saved; free some space and try again.",
    ),
    sqlite3.SQLITE_READONLY: _NOT_YOURS,
    sqlite3.SQLITE_PERM: _NOT_YOURS,
    sqlite3.SQLITE_CANTOPEN: (
        "the log cannot be opened",
        "Check that the file and its directory are readable and writable for you.",
    ),
    sqlite3.SQLITE_IOERR: (
        "the disk failed while the log was read or written",
        "The last change was not saved; check the disk, then 'appraise log check'.",
    ),
}
# SQLite's shared memory for one log begins with 32 KiB, and what failed to be written may be free
# again by the time one looks.
_LEAST_ROOM = 256 * 1024  # bytes


class DamagedLogError(StoreError):
    """The log cannot be read to its end: nothing may be written to it."""


class DamageError(Exception):
    """Something was read from the log that it cannot have written."""


def foreign(path: Path) -> StoreError:
    """The error for a file that is something else than a price log."""
    mend = "Name another file with --log, or move this one aside."
    return StoreError("is not a price log", str(path), mend)


def damaged(path: Path) -> DamagedLogError:
    """The error for a price log that cannot be read to the end."""
    mend = (
        "Nothing was changed; 'appraise log check' says more, 'appraise log restore' restores a "
        "backup."
    )
    return DamagedLogError("the log is damaged", str(path), mend)


def unusable(error: OSError, path: Path) -> StoreError:
    """The error for a file or directory that the system refuses."""
    reason = (error.strerror or type(error).__name__).lower()
    return StoreError(
        f"cannot be used: {reason}", str(path), "Check the path, its rights and the disk."
    )


def told(error: sqlite3.Error, path: Path) -> StoreError:
    """The error for a complaint of SQLite."""
    code = getattr(error, "sqlite_errorcode", None)
    code = None if code is None else code & 0xFF
    if code in (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB):
        return damaged(path)
    if code in (sqlite3.SQLITE_IOERR, sqlite3.SQLITE_READONLY) and _no_room(path):
        code = sqlite3.SQLITE_FULL
    if code is not None and code in _TOLD:
        what, mend = _TOLD[code]
        return StoreError(what, str(path), mend)
    if code is None and isinstance(error, sqlite3.OperationalError):  # text that is not UTF-8
        return damaged(path)
    return StoreError(f"the log cannot be used ({error})", str(path), "Try 'appraise log check'.")


def _no_room(path: Path) -> bool:
    """Whether the disk of a file is full, which SQLite may only tell as a failure to read."""
    from shutil import disk_usage  # 2 ms, with what it packs by

    try:
        return disk_usage(path.parent).free < _LEAST_ROOM
    except OSError:
        return False


@contextmanager
def as_kept() -> Iterator[None]:
    """Around code that takes in rows of the log: a value that it cannot bear is damage."""
    try:
        yield
    except (
        InputError,
        AttributeError,
        TypeError,
        ValueError,
        ArithmeticError,
        LookupError,
    ) as error:
        raise DamageError from error


@contextmanager
def faults_told(path: Path) -> Iterator[None]:
    """Turn complaints of SQLite and the system about `path` into `StoreError`."""
    try:
        yield
    except sqlite3.Error as error:
        raise told(error, path) from error
    except (DamageError, UnicodeDecodeError) as error:
        raise damaged(path) from error
    except OSError as error:
        raise unusable(error, path) from error
