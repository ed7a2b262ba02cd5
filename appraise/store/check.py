"""Is the log sound: the file, the revisions, the shelf, and the pictures."""

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from shutil import disk_usage

from appraise.base.dataclass import dataclass
from appraise.base.errors import StoreError
from appraise.records.entry import Entry
from appraise.records.record_types import type_of
from appraise.store import current_state, revisions
from appraise.store.faults import FULL, DamageError, as_kept, damaged, faults_told
from appraise.store.files import duplicate, inspect, open_existing, workshop
from appraise.store.held import is_held
from appraise.store.migrations import pending
from appraise.store.pictures import digest_of, path_of
from appraise.store.revisions import COLUMNS, Revision, revision_id
from appraise.store.transaction import transaction

_MOST = 20  # problems told of one sort


@dataclass(frozen=True, slots=True)
class Checked:
    """What a check found.

    Attributes:
        problems: What is wrong, a line each; none in a sound log.
        mendable: Whether `mend` puts all of it right: only the shelf is wrong.
    """

    entries: int
    revisions: int
    problems: tuple[str, ...]
    mendable: bool = False


def check(path: Path) -> Checked:
    """Look a log over, from the file's pages to the pictures; nothing is changed.

    A copy is examined, so a log in use is not held up and a damaged one not worn further.

    Raises:
        StoreError: when there is no log to look at, or no room for the copy.
    """
    with faults_told(path):
        if not path.exists():
            raise StoreError("there is no log here", str(path))
    try:
        with faults_told(path):
            inspect(path)
            with workshop(_room(path)) as place:
                copy = place / "copy.sqlite"
                duplicate(path, copy)
                with closing(open_existing(copy, 0)) as connection:
                    if pending(connection, path):
                        return Checked(0, 0, ("the log is of an older version: open it first",))
                    return _examined(connection, path)
    except (StoreError, DamageError) as error:
        if isinstance(error, StoreError) and error.what == FULL:
            raise
        told = error.what if isinstance(error, StoreError) else damaged(path).what
        return Checked(0, 0, (told, *_where(path)))


_HELD = {
    "revision": "the history",
    "shelf": "the list of prices",
    "drawer": "the list of other records",
    "draft": "the pieces under examination",
}


def _where(path: Path) -> Iterator[str]:
    """What of a log that cannot even be copied cannot be read to its end."""
    if is_held(path):
        return  # closing such a connection would drop the locks of the other
    uri = f"{path.absolute().as_uri()}?mode=ro&immutable=1"
    tables = "SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY rootpage"
    try:
        with closing(sqlite3.connect(uri, uri=True)) as connection:
            names = [str(name) for (name,) in connection.execute(tables)]
    except sqlite3.Error:
        yield "the list of its tables cannot be read"
        return
    for table in names:
        says = _HELD.get(table, f"its table '{table}'")
        try:
            with closing(sqlite3.connect(uri, uri=True)) as connection:
                quoted = table.replace("'", "''")
                sql = f"PRAGMA integrity_check('{quoted}')"
                said = [str(one).splitlines()[0] for (one,) in connection.execute(sql)]
        except sqlite3.Error:
            yield f"{says} cannot be read to its end"
            continue
        if said != ["ok"]:
            yield f"{says}: {said[0]}"


def _room(path: Path) -> Path:
    """Where the copy is made: beside the log, or with the system's where it has no room."""
    needed = 2 * path.stat().st_size
    if os.access(path.parent, os.W_OK) and disk_usage(path.parent).free > needed:
        return path
    from tempfile import gettempdir

    return Path(gettempdir()) / path.name


def mend(path: Path) -> None:
    """Make the shelf again from the revisions, the only thing here that can be made again.

    Raises:
        StoreError: when the log cannot be written, or more than the shelf is wrong.
    """
    with faults_told(path), closing(open_existing(path, 10)) as connection, transaction(connection):
        current_state.rebuild(connection)


def _examined(connection: sqlite3.Connection, path: Path) -> Checked:
    pages = connection.execute(f"PRAGMA integrity_check({_MOST})")
    wrong = [line for (said,) in pages if (line := str(said).splitlines()[0]) != "ok"]
    if wrong:
        return Checked(0, 0, tuple(f"the file: {line}" for line in wrong))
    entries, count = (
        connection.execute(f"SELECT count(*) FROM {table}").fetchone()[0]
        for table in ("shelf", "revision")
    )
    record = [*_record(connection)][:_MOST]
    shown = [] if record else [*_shown(connection)][:_MOST]
    pictures = [] if record or shown else [*_pictures(connection, path)][:_MOST]
    problems = (*record, *shown, *pictures)
    return Checked(entries, count, problems, mendable=bool(shown) and not pictures)


def _record(connection: sqlite3.Connection) -> Iterator[str]:
    """Revisions that are not what their ids say, or whose parents are lost."""
    for row in connection.execute(f"SELECT {COLUMNS} FROM revision ORDER BY number"):
        with as_kept():
            revision = Revision(*row)
            genuine = revision_id(revision) == revision.id
        if not genuine:
            yield f"revision {str(revision.id)[:32]}: is not what it was when it was written"
        for parent in str(revision.parents).split():
            if not connection.execute("SELECT 1 FROM revision WHERE id = ?", (parent,)).fetchone():
                yield f"revision {str(revision.id)[:32]}: what it replaces is lost"


def _shown(connection: sqlite3.Connection) -> Iterator[str]:
    """Records that shelf or drawer show otherwise than their revisions say."""
    columns = f"{current_state.COLUMNS}, number, added"
    price = f"SELECT {columns} FROM shelf WHERE entry = ?"
    other = "SELECT entry, sort, number FROM drawer WHERE entry = ?"
    for (entry,) in connection.execute("SELECT DISTINCT entry FROM revision ORDER BY entry"):
        head = revisions.current(connection, entry)
        shown = tuple(connection.execute(sql, (entry,)).fetchone() for sql in (price, other))
        if head is None or head.body is None:
            if any(shown):
                yield f"entry {entry}: was removed but is shown"
        elif shown != _rows(connection, head, head.body):
            yield f"entry {entry}: is not shown as it is"


def _rows(
    connection: sqlite3.Connection, head: Revision, body: str
) -> tuple[tuple[object, ...] | None, tuple[object, ...] | None]:
    """The rows of shelf and drawer that show a record."""
    number, added = connection.execute(
        "SELECT number, (SELECT min(stamp) FROM revision WHERE entry = ?) "
        "FROM revision WHERE id = ?",
        (head.entry, head.id),
    ).fetchone()
    thing = current_state.kept(body, head.entry)
    if isinstance(thing, Entry):
        return (*current_state.row(thing), number, added), None
    return None, (head.entry, type_of(body), number)


def _pictures(connection: sqlite3.Connection, path: Path) -> Iterator[str]:
    """The pictures that entries list and that are missing or altered."""
    rows = connection.execute(
        "SELECT body, shelf.entry FROM shelf JOIN revision USING (number) WHERE pictures > 0"
    )
    for body, entry in rows:
        for picture in current_state.price(body, entry).pictures:
            file = path_of(path, picture)
            if not file.is_file():
                yield f"entry {entry}: the photo {picture.name} is missing ({file})"
            elif digest_of(file) != picture.sha256:
                yield f"entry {entry}: the photo {picture.name} was altered ({file})"
