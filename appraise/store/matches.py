"""What the log says of a piece in passing: that it is on the list, or that one has its twin."""

from collections.abc import Collection, Iterable

from appraise.collection.wanting import (
    CAME,
    WENT,
    Matches,
    Owned,
    Sight,
    key_of,
    matching,
    owned,
    twins,
)
from appraise.knowledge.records import Knowledge
from appraise.records.want import Want
from appraise.store.log import Log
from appraise.store.records import held


def matches_of(log: Log, sight: Sight, knowledge: Knowledge, own: Collection[str] = ()) -> Matches:
    """What the log has to say of a piece; a few milliseconds, whatever the log's length.

    `own`: Ids of the entries of this very piece, which is no twin of itself.
    """
    twins = tuple(one for one in twins_in(log, sight, knowledge) if one.id not in own)
    return Matches(matching(wants_of(log), sight, knowledge), twins)


def wants_of(log: Log) -> Iterable[tuple[str, Want]]:
    """The list, as `matching` takes it."""
    return [(one.id, one.thing) for one in held(log, Want)]


def twins_in(log: Log, sight: Sight, knowledge: Knowledge) -> tuple[Owned, ...]:
    """The twins of a piece, from the entries of its format alone."""
    key = key_of(sight, knowledge)
    if not sight.motif or not all(key):
        return ()
    entries = log.entries(f"record:{','.join((*CAME, *WENT))} format:{key[0]} housing:{key[2]}")
    return twins(owned(entries, knowledge), sight, knowledge)
