"""Reading what can be read of a damaged log.

SQLite's tables are trees of pages; when a branch is lost, whole leaves that are sound can
no longer be reached through it. Revisions need no tree: each is named by a digest of all
it says, so every page is searched for records of their form and only what agrees with its
digest is believed. The damaged file is only read; what is found goes into a new log.
"""

import re
from contextlib import closing
from dataclasses import field
from pathlib import Path

from appraise.base.dataclass import dataclass
from appraise.base.errors import StoreError
from appraise.store import current_state, drafts, revisions
from appraise.store.drafts import Draft
from appraise.store.faults import DamageError, as_kept, faults_told
from appraise.store.files import ensure, free_name, open_existing, reading
from appraise.store.migrations import SETTINGS, migrate, settings_as_records
from appraise.store.packing import unpacked
from appraise.store.revisions import Revision, revision_id
from appraise.store.sqlite_pages import Value, records
from appraise.store.transaction import transaction

_REVISION, _DRAFT, _SETTING = 11, 3, 2  # columns of the tables
_TIME = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{6}Z\Z")


@dataclass(frozen=True, slots=True)
class Salvaged:
    """What was got out of a damaged log.

    Attributes:
        path: The new log; `backup.restore` puts it in place.
        entries: How many entries it shows.
        lost: How many revisions are named by others but were not found.
    """

    path: Path
    revisions: int
    entries: int
    drafts: int
    lost: int


@dataclass(slots=True)
class _Found:
    revisions: dict[str, Revision] = field(default_factory=dict)
    drafts: dict[str, Draft] = field(default_factory=dict)
    settings: dict[str, str] = field(default_factory=dict)


def salvage(path: Path, time: str) -> Salvaged:
    """Make a new log beside a damaged one out of all that is still whole in it.

    Raises:
        StoreError: when a file cannot be read or written.
    """
    with faults_told(path):
        found = _searched(path)
        target = free_name(path, "salvaged", time)
    ensure(target, time)
    with faults_told(target), closing(open_existing(target, 0)) as connection:
        migrate(connection, target, time)
        with transaction(connection):
            ordered = sorted(found.revisions.values(), key=lambda each: each.order)
            revisions.insert(connection, ordered)
            current_state.rebuild(connection)
            for draft in sorted(found.drafts.values(), key=lambda each: each.time):
                drafts.save(connection, draft)
            connection.executemany(
                "INSERT OR REPLACE INTO setting (name, value) VALUES (?, ?)", found.settings.items()
            )
            settings_as_records(connection)
        (shown,) = connection.execute("SELECT count(*) FROM shelf").fetchone()
    parents = {name for each in found.revisions.values() for name in each.parents.split()}
    lost = parents - found.revisions.keys()
    return Salvaged(target, len(found.revisions), shown, len(found.drafts), len(lost))


def readable(path: Path) -> int:
    """How many revisions a salvage would save; 0 where the file cannot be read at all."""
    try:
        with faults_told(path):
            return len(_searched(path).revisions)
    except StoreError:
        return 0


def revisions_of(path: Path) -> int:
    """How many revisions a sound log or backup holds; 0 for one that cannot be read."""
    try:
        with (
            unpacked(path, path) as plain,
            faults_told(path),
            closing(reading(plain)) as connection,
        ):
            (many,) = connection.execute("SELECT count(*) FROM revision").fetchone()
            return int(many)
    except StoreError:
        return 0


def _searched(path: Path) -> _Found:
    found = _Found()
    for values in records(path):
        _believe(values, found)
    return found


def _believe(values: tuple[Value, ...], found: _Found) -> None:
    """Take a record in when it can only be one of ours."""
    if len(values) == _REVISION:
        try:
            with as_kept():
                # The first column is the row's number and stands in the record as NULL.
                revision = Revision(*values[1:])  # type: ignore[arg-type]
                if revision_id(revision) != revision.id:
                    return
                if revision.body is not None:
                    current_state.kept(revision.body, revision.entry)
                found.revisions[revision.id] = revision
        except DamageError:
            return
    elif len(values) == _DRAFT and all(isinstance(each, str) for each in values):
        draft = Draft(*values)  # type: ignore[arg-type]
        known = found.drafts.get(draft.id)
        if _TIME.match(draft.time) and (known is None or known.time <= draft.time):
            found.drafts[draft.id] = draft
    elif len(values) == _SETTING and values[0] in SETTINGS:
        found.settings[str(values[0])] = str(values[1])
