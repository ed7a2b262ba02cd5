"""Which entries of the log are pieces that the user still owns, as far as the log itself tells."""

from collections import Counter
from collections.abc import Iterable, Sequence

from appraise.keeping.wanting import Owned, Sight, key_of, twins
from appraise.knowledge.records import Knowledge
from appraise.log.entries import Entry
from appraise.log.outcomes import outcome_of
from appraise.log.store import Log
from appraise.log.words import folded

CAME = ("bought", "swap", "gift")
WENT = ("sold", "returned")


def owned(entries: Iterable[Entry], knowledge: Knowledge) -> tuple[Owned, ...]:
    """The pieces that came into the user's hands and have not gone since, by the log.

    A later entry that sells or returns a piece of the same title, format and process takes one of
    them away, the earliest; so does an outcome with a price. Entries without a motif are left out,
    since nothing is a twin of theirs.
    """
    listed = sorted(
        (one for one in entries if one.record in (*CAME, *WENT) and (one.motif or one.title)),
        key=lambda one: one.date,
    )
    gone: Counter[tuple[str, ...]] = Counter(_same(one) for one in listed if one.record in WENT)
    out = []
    for one in listed:
        if one.record not in CAME or _fetched(one):
            continue
        if gone[_same(one)]:
            gone[_same(one)] -= 1
        elif one.motif:
            out.append(_owned(one, knowledge))
    return tuple(out)


def twins_in(log: Log, sight: Sight, knowledge: Knowledge) -> tuple[Owned, ...]:
    """The twins of a piece, from the entries of its format alone."""
    key = key_of(sight, knowledge)
    if not sight.motif or not all(key):
        return ()
    records = ",".join((*CAME, *WENT))
    entries: Sequence[Entry] = log.entries(f"record:{records} format:{key[0]} housing:{key[2]}")
    mine = tuple(one for one in owned(entries, knowledge) if one.key == key)
    return twins({key: mine}, sight, knowledge)


def _owned(entry: Entry, knowledge: Knowledge) -> Owned:
    process = knowledge.processes.get(entry.process)
    family = process.family if process else entry.process
    title = entry.title or entry.motif
    key = (entry.format, family, entry.housing)
    return Owned(entry.id, title, entry.date.isoformat(), key, entry.motif)


def _same(entry: Entry) -> tuple[str, ...]:
    return folded(entry.title or entry.motif), entry.format, entry.process


def _fetched(entry: Entry) -> bool:
    outcome = outcome_of(entry)
    return outcome is not None and outcome.price is not None
