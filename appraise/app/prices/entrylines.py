"""An entry of the log in full, and how it came to be what it is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from appraise.app.lines import EMPTY, Line, fold, line
from appraise.app.prices.turnout import outcome_lines
from appraise.base.percents import percent
from appraise.knowledge.statewords import STATES
from appraise.records.entry import Entry
from appraise.records.record_types import from_text
from appraise.store.changes import changes, words
from appraise.store.revisions import Revision

LABEL = 14  # cells
HIDDEN = ("belonging", "estimate", "piece", "extra")
"""Fields that are told apart, or not on this page."""
DONE = {
    "add": "logged",
    "edit": "edited",
    "delete": "removed",
    "undo": "undone",
    "redo": "redone",
    "import": "imported",
    "settle": "resolved after a merge",
}


def entry_lines(entry: Entry, history: Sequence[Revision], width: int) -> list[Line]:
    """The entry field by field, what the tool thought at the time, and its history."""
    out: list[Line] = []
    for each in entry.FIELDS:
        says = "" if each.name in HIDDEN else words(entry, each)
        if says:
            out += fold(says, width, f"{each.title:<{LABEL}} ", lead_role="quiet")
    out += [
        *_thought(entry, width),
        *outcome_lines(entry, width),
        EMPTY,
        line(("history, the latest first", "head")),
    ]
    for row in _history(history):
        out += fold(row, width, "  ")
    return out


def _thought(entry: Entry, width: int) -> Iterator[Line]:
    if not entry.estimate and not entry.belonging:
        return
    yield EMPTY
    yield line(("estimate when it was logged", "head"))
    if entry.estimate:
        low, high = entry.estimate.low.plain, entry.estimate.high.plain
        says = f"about {entry.estimate.median} ({low}-{high})"
        yield from fold(says, width, f"{'price':<{LABEL}} ", lead_role="quiet")
    for state, chance in entry.belonging:
        if chance >= 0.005:
            called = STATES.get(state, state)
            yield from fold(percent(chance), width, f"{called:<{LABEL}} ", lead_role="quiet")


def _history(history: Sequence[Revision]) -> Iterator[str]:
    for place, one in enumerate(history):
        older = history[place + 1] if place + 1 < len(history) else None
        day, _, rest = one.time.partition("T")
        changed = _changed(older, one)
        says = f": {changed}" if changed else ""
        yield f"{day} {rest[:5]} on {one.machine}, {DONE.get(one.kind, one.kind)}{says}"


def _changed(older: Revision | None, newer: Revision) -> str:
    """What an edit changed, field by field."""
    if older is None or older.body is None or newer.body is None:
        return ""
    return ", ".join(changes(from_text(older.body), from_text(newer.body)))
