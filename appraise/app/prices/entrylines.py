"""An entry of the log in full, and how it came to be what it is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from appraise.app.lines import EMPTY, Line, fold, line
from appraise.base.money import Money
from appraise.log.codec import from_text
from appraise.log.entries import Entry
from appraise.log.revisions import Revision

LABEL = 12  # cells
SHOWN = (
    "title", "record", "date", "channel", "venue", "kind", "process", "housing", "format", "motif",
    "subject", "appeal", "condition_factor", "asked", "offered", "paid", "hammer", "postage",
    "identified", "maker_known", "own_work", "note",
)  # fmt: skip
NAMES = {
    "condition_factor": "condition",
    "maker_known": "maker known",
    "own_work": "own work",
}
DONE = {
    "add": "logged",
    "edit": "edited",
    "delete": "removed",
    "undo": "undone",
    "redo": "done again",
    "settle": "settled after a merge",
}


def entry_lines(entry: Entry, history: Sequence[Revision], width: int) -> list[Line]:
    """The entry field by field, what the tool thought at the time, and its history."""
    out: list[Line] = []
    for name in SHOWN:
        told = told_of(getattr(entry, name))
        if told:
            out += fold(told, width, f"{NAMES.get(name, name):<{LABEL}} ", lead_role="quiet")
    out += [*_thought(entry, width), EMPTY, line(("history, the latest first", "head"))]
    for row in _history(history):
        out += fold(row, width, "  ")
    return out


def told_of(value: object) -> str:
    """A field's value as it is read; empty when it was not recorded."""
    if value is None or value in ("", False, ()):
        return ""
    return "yes" if value is True else str(value)


def _thought(entry: Entry, width: int) -> Iterator[Line]:
    if not entry.estimate and not entry.belonging:
        return
    yield EMPTY
    yield line(("what the tool thought when it was logged", "head"))
    if entry.estimate:
        low, middle, high = (
            one.plain for one in (entry.estimate.low, entry.estimate.median, entry.estimate.high)
        )
        told = f"{low} .. {middle} .. {high} {entry.estimate.median.currency}"
        yield from fold(told, width, f"{'price':<{LABEL}} ", lead_role="quiet")
    for state, chance in entry.belonging:
        if chance >= 0.005:
            told = f"{round(100 * chance)} in 100"
            yield from fold(told, width, f"{state:<{LABEL}}  ", lead_role="quiet")


def _history(history: Sequence[Revision]) -> Iterator[str]:
    for place, one in enumerate(history):
        older = history[place + 1] if place + 1 < len(history) else None
        day, _, rest = one.time.partition("T")
        changes = _changes(older, one)
        told = f": {changes}" if changes else ""
        yield f"{day} {rest[:5]} on {one.machine}, {DONE.get(one.kind, one.kind)}{told}"


def _changes(older: Revision | None, newer: Revision) -> str:
    """What an edit changed, field by field."""
    if older is None or older.body is None or newer.body is None:
        return ""
    before, after = from_text(older.body), from_text(newer.body)
    return ", ".join(
        f"{NAMES.get(name, name)} {_short(getattr(before, name))} to {_short(getattr(after, name))}"
        for name in SHOWN
        if getattr(before, name) != getattr(after, name)
    )


def _short(value: object) -> str:
    return str(value) if isinstance(value, Money) else told_of(value) or "nothing"
