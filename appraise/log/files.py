"""The log as a file: is it one, is it whole, and how a new one comes to be."""

import os
import sqlite3
from contextlib import closing, suppress
from pathlib import Path
from tempfile import mkdtemp

from appraise.base.errors import StoreError
from appraise.log.faults import damaged, faults_told, foreign
from appraise.log.migrations import APPLICATION_ID, migrate
from appraise.log.transaction import connect

_HEADER = 100  # bytes; sqlite.org/fileformat2.html, section 1.3
_MAGIC = b"SQLite format 3\x00"
JOURNALS = ("-wal", "-shm")


def journal(path: Path, suffix: str) -> Path:
    """The file that SQLite keeps beside a database: '-wal' or '-shm'."""
    return path.with_name(path.name + suffix)


def ensure(path: Path, time: str) -> None:
    """See to it that a whole log stands at `path`: a new one, or one that was there before.

    Raises:
        StoreError: when something else stands there, or the place cannot be used.
    """
    with faults_told(path):
        if not os.path.lexists(path):
            _create(path, time)
        inspect(path)


def inspect(path: Path) -> None:
    """Read a file's header without opening the database, so that nothing is touched.

    Raises:
        StoreError: when it is no log, or is shorter than it says and has no journal.
        OSError: when it cannot be read.
    """
    if path.is_dir():
        raise foreign(path)
    with path.open("rb") as file:
        head = file.read(_HEADER)
    size = path.stat().st_size
    if not size:
        raise StoreError(
            "the log is empty: it was cut short",
            str(path),
            "Move it aside, then 'appraise log restore' brings a backup.",
        )
    if len(head) < _HEADER and _MAGIC.startswith(head[: len(_MAGIC)]):
        raise damaged(path)
    if not head.startswith(_MAGIC) or _number(head, 68, 4) != APPLICATION_ID:
        raise foreign(path)
    page = _number(head, 16, 2)
    told = _number(head, 28, 4) * (65_536 if page == 1 else page)
    # While a journal is there the pages missing here may be in it; SQLite puts them back.
    if size < told and not journal(path, "-wal").exists():
        raise damaged(path)


def sync_directory(directory: Path) -> None:
    """Make a rename or a new name in a directory durable, where the system can."""
    if os.name == "nt":
        return
    handle = os.open(directory, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def publish(made: Path, path: Path) -> bool:
    """Give a finished file its name, never over another; False when the name was taken."""
    try:
        os.link(made, path)
    except FileExistsError:
        return False
    except OSError:  # a file system without hard links
        if os.path.lexists(path):
            return False
        os.rename(made, path)
    sync_directory(path.parent)
    return True


def _create(path: Path, time: str) -> None:
    if journal(path, "-wal").exists():
        raise StoreError(
            "the log is gone, but its journal is still there and may hold entries",
            str(journal(path, "-wal")),
            "Put the log back beside it, or move the journal aside.",
        )
    path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    # Built apart and named when whole: a log that is cut short is never taken for a new one.
    workshop = Path(mkdtemp(prefix=f".{path.name}.", dir=path.parent))
    made = workshop / path.name
    try:
        made.touch(mode=0o600)
        with closing(connect(made)) as connection:
            migrate(connection, path, time)
        publish(made, path)
    finally:
        for each in (made, *(journal(made, suffix) for suffix in JOURNALS)):
            with suppress(OSError):
                each.unlink()
        with suppress(OSError):
            workshop.rmdir()


def open_existing(path: Path, wait_seconds: float) -> sqlite3.Connection:
    """A connection to a log that `inspect` found whole.

    Raises:
        StoreError: when it cannot be opened, read or written.
    """
    with faults_told(path):
        connection = connect(path, wait_seconds=wait_seconds)
        try:
            connection.execute("SELECT count(*) FROM sqlite_master").fetchone()
        except BaseException:
            connection.close()
            raise
    return connection


def _number(head: bytes, at: int, size: int) -> int:
    return int.from_bytes(head[at : at + size], "big")
