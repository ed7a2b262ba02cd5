"""Database files that this process has open, which it must not also read as plain files.

On POSIX systems closing any handle of a file drops every lock that the process has on it, SQLite's
own too. Another program then takes itself for the last user of an open log, takes the journal away
and what is written afterwards is lost ("How To Corrupt An SQLite Database File", 2.2, sqlite.org).
"""

import os
import sqlite3
import threading
import weakref
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

_LOCK = threading.RLock()
_OPEN = weakref.WeakSet["HeldConnection"]()


class HeldConnection(sqlite3.Connection):
    """A connection whose file is known to be open until it is closed."""

    inode: tuple[int, int] | None = None

    def close(self) -> None:
        """Let go of the file. Closing twice is harmless."""
        super().close()
        with _LOCK:
            _OPEN.discard(self)


def connect(path: Path, options: str, *, wait_seconds: float = 0) -> sqlite3.Connection:
    """A connection to a file that exists, held from before its first lock.

    Args:
        path: The file.
        options: What its URI says of it, such as 'mode=rw'.
        wait_seconds: How long to wait for another program's write.

    Raises:
        sqlite3.Error: when it cannot be opened.
    """
    with _LOCK:
        connection = sqlite3.connect(
            f"{path.absolute().as_uri()}?{options}",
            uri=True,
            timeout=wait_seconds,
            isolation_level=None,
            cached_statements=256,
            factory=HeldConnection,
        )
        with suppress(OSError):
            connection.inode = _inode(path)
        _OPEN.add(connection)
    return connection


def is_held(path: Path) -> bool:
    """Whether this process has a file open as a database."""
    with _LOCK:
        try:
            inode = _inode(path)
        except OSError:
            return False
        return any(each.inode == inode for each in _OPEN)


@contextmanager
def unheld(path: Path) -> Iterator[bool]:
    """Whether a file may be read as a plain one; while inside nothing here opens it."""
    with _LOCK:
        yield not is_held(path)


def _inode(path: Path) -> tuple[int, int]:
    told = os.stat(path)
    return told.st_dev, told.st_ino
