"""What the log says of a piece in passing: that it is on the list, or that one has its twin."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from appraise.base.money import as_json
from appraise.collection.wanting import Match, Owned, Sight, matching
from appraise.knowledge.records import Knowledge
from appraise.records.want import Want
from appraise.store.log import Log
from appraise.store.records import held
from appraise.store.still_owned import twins_in

SHOWN = 3  # of each


@dataclass(frozen=True, slots=True)
class Asides:
    """The wishes that a piece meets, and its twins among what one owns."""

    wanted: tuple[Match, ...] = ()
    twins: tuple[Owned, ...] = ()

    @property
    def lines(self) -> tuple[str, ...]:
        """A line for each, the list first; of many only the first few."""
        wanted = (one.says for one in self.wanted[:SHOWN])
        return (*wanted, *(one.says for one in self.twins[:SHOWN]))

    def as_json(self) -> dict[str, Any]:
        """As keys of a JSON document."""
        return {
            "wanted": [
                {
                    "id": one.id,
                    "title": one.title,
                    "reasons": list(one.reasons),
                    "above": as_json(one.above),
                }
                for one in self.wanted
            ],
            "twins": [{"id": one.id, "title": one.title, "since": one.day} for one in self.twins],
        }


def asides(log: Log, sight: Sight, knowledge: Knowledge) -> Asides:
    """What the log has to say of a piece; a few milliseconds, whatever the log's length."""
    return Asides(matching(wants_of(log), sight, knowledge), twins_in(log, sight, knowledge))


def wants_of(log: Log) -> Iterable[tuple[str, Want]]:
    """The list, as `matching` takes it."""
    return [(one.id, one.thing) for one in held(log, Want)]
