"""What the log says of a piece in passing: that it is on the list, or that one has its twin."""

from collections.abc import Collection

from appraise.collection.wanting import (
    CAME,
    WENT,
    Matches,
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

    Twins are sought among the entries of its format alone. `own`: ids of the entries of this very
    piece, which is no twin of itself.
    """
    wanted = matching([(one.id, one.thing) for one in held(log, Want)], sight, knowledge)
    key = key_of(sight, knowledge)
    if not sight.motif or not all(key):
        return Matches(wanted)
    entries = log.entries(f"record:{','.join((*CAME, *WENT))} format:{key[0]} housing:{key[2]}")
    found = twins(owned(entries, knowledge), sight, knowledge)
    return Matches(wanted, tuple(one for one in found if one.id not in own))
