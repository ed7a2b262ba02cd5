"""Which entries of the log are pieces that the user still owns, as far as the log itself tells."""

from collections import Counter
from collections.abc import Iterable

from appraise.base.oneline import folded
from appraise.collection.wanting import Owned
from appraise.knowledge.records import Knowledge
from appraise.pricing.outcomes import outcome_of
from appraise.records.entry import Entry

CAME = ("bought", "swap", "gift")
WENT = ("sold", "returned")


def still_here(entries: Iterable[Entry]) -> tuple[Entry, ...]:
    """The entries that came into the user's hands and have not gone since, the earliest first.

    A later entry that sells or returns a piece of the same title, format and process takes one of
    them away, the earliest; so does an outcome with a price.
    """
    came, gone = list[Entry](), Counter[tuple[str, ...]]()
    for one in entries:
        if one.record in CAME:
            came.append(one)
        elif one.record in WENT:
            gone[_same(one)] += 1
    words = {same[1:] for same in gone}
    out = []
    for one in sorted(came, key=lambda one: one.date):
        if (one.format, one.process) in words and gone[_same(one)]:
            gone[_same(one)] -= 1
        elif not _fetched(one):
            out.append(one)
    return tuple(out)


def owned(entries: Iterable[Entry], knowledge: Knowledge) -> tuple[Owned, ...]:
    """The pieces that the user still owns by the log, as far as twins are told by them.

    Entries without a motif are left out, since nothing is a twin of theirs.
    """
    families = {name: one.family for name, one in knowledge.processes.items()}
    return tuple(
        _owned(one, families.get(one.process, one.process))
        for one in still_here(entries)
        if one.motif
    )


def _owned(entry: Entry, family: str) -> Owned:
    key = (entry.format, family, entry.housing)
    day = entry.date.isoformat()
    return Owned(entry.id, entry.title or entry.motif, day, key, entry.motif)


def _same(entry: Entry) -> tuple[str, ...]:
    return folded(entry.title or entry.motif), entry.format, entry.process


def _fetched(entry: Entry) -> bool:
    outcome = outcome_of(entry) if entry.extra else None
    return outcome is not None and outcome.price is not None
