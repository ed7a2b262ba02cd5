"""The filter of kept pieces: words, and field:value."""

import datetime as dt
from collections.abc import Callable, Mapping, Sequence

from appraise.base.dates import Dating
from appraise.base.errors import InputError
from appraise.base.oneline import folded
from appraise.base.spelling import did_you_mean
from appraise.keeping.upkeep import due
from appraise.knowledge.records import Knowledge
from appraise.log.records import Stored
from appraise.records.owned import OwnedPiece

TEXTS = ("title", "number", "place", "status", "kind", "process", "housing", "format",
    "acquired", "provenance", "receipt", "climate", "note")  # fmt: skip
FIELDS = (*TEXTS, "dated", "due")
YES_NO = {"yes": True, "no": False}

Test = Callable[[Stored[OwnedPiece]], bool]


def sought(
    pieces: Sequence[Stored[OwnedPiece]], query: str, knowledge: Knowledge | None, as_of: dt.date
) -> tuple[Stored[OwnedPiece], ...]:
    """The pieces that every word of a query fits.

    A word is looked for in all that was written of a piece; `place:box` in one field;
    `dated:1858` or `dated:1850..1860` asks whether it may be of such a year; `due:yes` whether
    care asks for something now. A minus before a word turns it round.

    Args:
        pieces: All of them.
        query: What was typed.
        knowledge: For `due`; None while it is being read: nothing is due.
        as_of: The day.

    Raises:
        InputError: for an unknown field, or a year or answer that cannot be read.
    """
    tests = [_test(word, knowledge, as_of) for word in query.split()]
    return tuple(one for one in pieces if all(test(one) for test in tests))


def _test(word: str, knowledge: Knowledge | None, as_of: dt.date) -> Test:
    bare = word.removeprefix("-")
    field, colon, value = bare.partition(":")
    if not colon:
        test = _anywhere(folded(bare))
    elif field == "dated":
        test = _dated(value)
    elif field == "due":
        test = _due(value, knowledge, as_of)
    elif field in TEXTS:
        test = _in_field(field, folded(value))
    else:
        raise InputError(f"'{field}' is no field", "filter", did_you_mean(field, FIELDS))
    return test if bare == word else lambda one: not test(one)


def _anywhere(wanted: str) -> Test:
    return lambda one: (
        wanted in folded(" ".join(str(getattr(one.thing, name)) for name in TEXTS))
        or (len(wanted) > 3 and one.id.startswith(wanted))
    )


def _in_field(field: str, wanted: str) -> Test:
    if field == "number":
        return lambda one: not wanted or folded(one.thing.number) == wanted
    return lambda one: wanted in folded(str(getattr(one.thing, field)))


def _dated(value: str) -> Test:
    if not value:
        return lambda one: True
    first, dots, last = value.partition("..")
    ends = [first or "1", (last or "9999") if dots else first]
    if not all(end.isascii() and end.isdigit() and 0 < int(end) <= 9999 for end in ends):
        raise InputError(f"'{value}' is no year", "dated", "Write dated:1858 or dated:1850..1860.")
    low, high = map(int, ends)
    return lambda one: bool(one.thing.dated) and _meets(one.thing.dated, low, high)


def _meets(dated: str, low: int, high: int) -> bool:
    first, last = Dating.parse(dated).bounds()
    return (first is None or first.year <= high) and (last is None or last.year >= low)


def _due(value: str, knowledge: Knowledge | None, as_of: dt.date) -> Test:
    word = value.lower()
    if word and word not in YES_NO:
        raise InputError(f"'{value}' is neither yes nor no", "due", "Write due:yes.")
    wanted = YES_NO.get(word, True)
    return lambda one: (
        any(each.now for each in due(one.thing, knowledge, as_of)) == wanted if knowledge else False
    )


def counts(pieces: Sequence[Stored[OwnedPiece]]) -> Mapping[str, int]:
    """How many pieces there are of each status, in the order of the statuses met."""
    found: dict[str, int] = {}
    for one in pieces:
        found[one.thing.status] = found.get(one.thing.status, 0) + 1
    return found
