"""Entries that two machines left in different states: which, how they differ, and the choice."""

from __future__ import annotations

from collections.abc import Sequence

from appraise.app.lists.sheet import RecordSheet
from appraise.app.picker import Choice, Picker, choose
from appraise.base.errors import AppraiseError
from appraise.records.record_types import from_text
from appraise.store.changes import REMOVED, disagreement
from appraise.store.machines import Machine
from appraise.store.merge import Conflict, conflicts, settle
from appraise.store.revisions import Revision

SHOWS = "shows now"
MARKS = (" ", "!")  # of a version that keeps the entry, and of one that removes it


def open_disagreements(sheet: RecordSheet, here: object) -> None:
    """Choose an entry, then one of its versions; the others stay in its history."""
    found = sheet.tried(lambda: conflicts(sheet.session.log))
    if not found:
        if found is not None:
            sheet.say("No disagreements.")
        return
    by_id = {one.entry: one for one in found}

    def taken(entry: str) -> None:
        _versions(sheet, by_id[entry])

    own = sheet.session.log.signs
    choices = [Choice(one.entry, title(one.versions), "!", _machines(one, own)) for one in found]
    choose(sheet, "Changed on two computers", choices, taken)


def _versions(sheet: RecordSheet, conflict: Conflict) -> None:
    session = sheet.session

    def taken(version: str) -> None:
        if sheet.attempt(lambda: settle(session.log, conflict.entry, version)):
            sheet.changed()
            sheet.say("Resolved. u: undo.", "good")

    choices = sheet.tried(lambda: version_choices(conflict, session.log.signs))
    if choices is not None:
        sheet.open(Picker(f"Which is right: {title(conflict.versions)}", choices), taken)


def version_choices(conflict: Conflict, own: Machine) -> list[Choice]:
    """Each version by where it differs, with the machine and the time.

    Raises:
        InputError: when a version cannot be read.
    """
    said = disagreement(conflict.versions)
    return [
        Choice(
            one.id, says if place else f"{says} ({SHOWS})", MARKS[says == REMOVED], _when(one, own)
        )
        for place, (one, says) in enumerate(zip(conflict.versions, said, strict=True))
    ]


def title(versions: Sequence[Revision]) -> str:
    """What an entry is called in the first of its versions that was not a removal."""
    for one in versions:
        if one.body is not None:
            try:
                thing = from_text(one.body)
            except AppraiseError:
                continue
            return getattr(thing, "title", "") or getattr(thing, "motif", "") or one.entry
    return versions[0].entry


def _machines(conflict: Conflict, own: Machine) -> str:
    return ", ".join(dict.fromkeys(own.calls(one.machine) for one in conflict.versions))


def _when(one: Revision, own: Machine) -> str:
    day, _, rest = one.time.partition("T")
    return f"{own.calls(one.machine)} {day} {rest[:5]}"
