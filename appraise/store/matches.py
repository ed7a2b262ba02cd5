"""What the log says of a piece in passing: that it is on the list, or that one has its twin."""

from collections.abc import Iterable, Sequence

from appraise.collection.still_owned import CAME, WENT, owned
from appraise.collection.wanting import Matches, Owned, Sight, key_of, matching, twins
from appraise.knowledge.records import Knowledge
from appraise.records.entry import Entry
from appraise.records.want import Want
from appraise.store.log import Log
from appraise.store.records import held


def asides(log: Log, sight: Sight, knowledge: Knowledge) -> Matches:
    """What the log has to say of a piece; a few milliseconds, whatever the log's length."""
    return Matches(matching(wants_of(log), sight, knowledge), twins_in(log, sight, knowledge))


def wants_of(log: Log) -> Iterable[tuple[str, Want]]:
    """The list, as `matching` takes it."""
    return [(one.id, one.thing) for one in held(log, Want)]


def twins_in(log: Log, sight: Sight, knowledge: Knowledge) -> tuple[Owned, ...]:
    """The twins of a piece, from the entries of its format alone."""
    key = key_of(sight, knowledge)
    if not sight.motif or not all(key):
        return ()
    records = ",".join((*CAME, *WENT))
    family = [key[1]]
    family += [name for name, one in knowledge.processes.items() if one.family == key[1]]
    sought = f"record:{records} format:{key[0]} housing:{key[2]} process:{','.join(family)}"
    entries: Sequence[Entry] = log.entries(sought)
    mine = tuple(one for one in owned(entries, knowledge) if one.key == key)
    return twins({key: mine}, sight, knowledge)
