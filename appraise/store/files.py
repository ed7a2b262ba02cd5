"""The log as a file: is it one, is it whole, and how a new one comes to be."""

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from appraise.base.errors import StoreError
from appraise.store.faults import damaged, faults_told, foreign
from appraise.store.held import connect as connect_held
from appraise.store.held import is_held, unheld
from appraise.store.migrations import APPLICATION_ID, migrate
from appraise.store.transaction import connect

_HEADER = 100  # bytes; sqlite.org/fileformat2.html, section 1.3
_DAY = 86_400  # seconds
_WAIT = 5.0  # seconds for another program's write
_MAGIC = b"SQLite format 3\x00"
JOURNALS = ("-wal", "-shm")
# What SQLite says where it cannot lay its own files beside a database.
_NO_JOURNAL = (
    sqlite3.SQLITE_CANTOPEN,
    sqlite3.SQLITE_READONLY,
    sqlite3.SQLITE_FULL,
    sqlite3.SQLITE_IOERR,
)


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

    A log that this process has open was looked at before, and must not be read beside.

    Raises:
        StoreError: when it is no log, or is shorter than it says and has no journal.
        OSError: when it cannot be read.
    """
    if path.is_dir():
        raise foreign(path)
    with unheld(path) as free:
        if free:
            _inspect(path)


def _inspect(path: Path) -> None:
    with path.open("rb") as file:
        head = file.read(_HEADER)
    size = path.stat().st_size
    if not size:
        raise StoreError(
            "the log file is empty",
            str(path),
            "Move it aside, then 'appraise log restore' restores a backup.",
        )
    if len(head) < _HEADER and _MAGIC.startswith(head[: len(_MAGIC)]):
        raise damaged(path)
    if not head.startswith(_MAGIC) or _number(head, 68, 4) != APPLICATION_ID:
        raise foreign(path)
    # Pages missing here may be in the journal, or on their way out of it while we look.
    if _short(path) and not journal(path, "-wal").exists() and _short(path):
        raise damaged(path)


def _short(path: Path) -> bool:
    """Whether a file holds fewer pages than its header says."""
    with path.open("rb") as file:
        head = file.read(_HEADER)
    page = _number(head, 16, 2)
    return path.stat().st_size < _number(head, 28, 4) * (65_536 if page == 1 else page)


def free_name(path: Path, word: str, time: str) -> Path:
    """A name beside `path` that no file bears: log.aside-20240531T120000Z.sqlite.

    `word`: what becomes of it.
    """
    base = f"{path.stem}.{word}-{basic(time)}"
    names = (base, *(f"{base}-{n}" for n in range(2, 1_000)))
    for name in names:
        free = path.with_name(f"{name}.sqlite")
        if not os.path.lexists(free):
            return free
    raise StoreError("too many files of one second", str(path), "Wait, then try again.")


def basic(time: str) -> str:
    """ISO 8601 in UTC as it can stand in a file's name: 20240531T120000Z."""
    return f"{time[:19].replace('-', '').replace(':', '')}Z"


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


def duplicate(source: Path, target: Path) -> None:
    """Copy a database as it stands at one moment into one new file, journal included.

    SQLite's backup interface reads a consistent state while others write. Where it cannot
    open the source, as on a medium that is full or cannot be written to, the files are copied
    and the copy takes its own journal in.

    Raises:
        sqlite3.Error: when the source is no sound database, or the disk is full.
        OSError: when a file cannot be read or written.
    """
    target.touch(mode=0o600)
    try:
        with closing(reading(source)) as old, closing(sqlite3.connect(target)) as new:
            old.backup(new)
            new.execute("PRAGMA journal_mode = DELETE")
    except sqlite3.OperationalError as error:
        if error.sqlite_errorcode & 0xFF not in _NO_JOURNAL or is_held(source):
            raise
        from shutil import copyfile

        copyfile(source, target)
        if journal(source, "-wal").exists():
            copyfile(journal(source, "-wal"), journal(target, "-wal"))
        with closing(sqlite3.connect(target)) as new:
            new.execute("PRAGMA journal_mode = DELETE")
    sync_file(target)


def reading(path: Path) -> sqlite3.Connection:
    """A connection to read by, that leaves the files as they are.

    A connection that may write takes a journal in and away when it closes; one that may
    not would leave an empty journal where there was none.
    """
    mode = "ro" if journal(path, "-wal").exists() else "rw"
    return connect_held(path, f"mode={mode}", wait_seconds=_WAIT)


@contextmanager
def workshop(path: Path) -> Iterator[Path]:
    """A directory beside `path`, on the same file system, that is gone afterwards.

    One that a killed program left there is cleared when it is a day old.
    """
    path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    from glob import escape
    from shutil import rmtree
    from tempfile import mkdtemp  # 4 ms, and few commands need it

    made = Path(mkdtemp(prefix=f".{path.name}.", dir=path.parent))
    try:
        old = made.stat().st_mtime - _DAY
        for other in path.parent.glob(f".{escape(path.name)}.*"):
            if other.is_dir() and other.stat().st_mtime < old:
                rmtree(other, ignore_errors=True)
        yield made
    finally:
        rmtree(made, ignore_errors=True)


def sync_file(path: Path) -> None:
    """Make a file's bytes durable."""
    with path.open("rb+") as file:
        os.fsync(file.fileno())


def _create(path: Path, time: str) -> None:
    left = journal(path, "-wal")
    if left.exists() and left.stat().st_size:
        raise StoreError(
            "the log is gone, but its journal is still there and may hold entries",
            str(left),
            "Put the log back beside it, or move the journal aside.",
        )
    # Built apart and named when whole: a log that is cut short is never taken for a new one.
    with workshop(path) as place:
        made = place / path.name
        made.touch(mode=0o600)
        with closing(connect(made)) as connection:
            migrate(connection, path, time)
        publish(made, path)


def open_existing(path: Path, wait_seconds: float) -> sqlite3.Connection:
    """A connection to a log that `inspect` found whole; one that only reads where need be.

    Raises:
        StoreError: when it cannot be opened, read or written.
    """
    with faults_told(path):
        try:
            connection = connect(path, wait_seconds=wait_seconds)
        except sqlite3.OperationalError as error:
            connection = _looked_at(path, error)
        try:
            connection.execute("SELECT count(*) FROM sqlite_master").fetchone()
        except BaseException:
            connection.close()
            raise
    return connection


def _looked_at(path: Path, error: sqlite3.OperationalError) -> sqlite3.Connection:
    """A connection that only reads, where the disk is full or may not be written to.

    A journal that cannot be opened beside holds what the file lacks: then the error stands.
    """
    if (getattr(error, "sqlite_errorcode", None) or 0) & 0xFF not in _NO_JOURNAL:
        raise error
    left = journal(path, "-wal")
    journalled = left.exists() and left.stat().st_size
    sure = "" if journalled or is_held(path) else "&immutable=1"  # closing one drops locks too
    connection = connect_held(path, f"mode=ro{sure}")
    try:
        connection.execute("SELECT count(*) FROM sqlite_master").fetchone()
    except sqlite3.Error:
        connection.close()
        raise error from None
    return connection


def _number(head: bytes, at: int, size: int) -> int:
    return int.from_bytes(head[at : at + size], "big")
