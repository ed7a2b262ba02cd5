"""What a list of prices needs beside its rows, worked out off the key path.

Sum and median, what a filter without an answer may have meant, and whether two machines disagree:
each reads much of the log, so a thread with a log of its own does it.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from contextlib import AbstractContextManager
from typing import TypeVar

from appraise.app.work import Asker, start
from appraise.records.entry import Entry
from appraise.store.log import Log
from appraise.store.merge import conflicts
from appraise.store.search import Summary
from appraise.store.suggestions import Guess, guess

DRAWN = 600  # prices in the picture at most
Found = TypeVar("Found")


def look_up(
    node: Asker,
    group: str,
    job: Callable[[Log], Found],
    then: Callable[[Found], object],
    lock: AbstractContextManager[object] | None = None,
) -> None:
    """Look something up in the log; as in `start`."""
    session = node.session

    def work() -> Found:
        with session.opened_anew() as log:
            return job(log)

    start(node, group, work, then, lock)


def added_up(log: Log, query: str) -> tuple[Summary, Sequence[Entry]]:
    """How many entries a filter finds and their prices, and the last of them for the picture."""
    return log.summary(query), log.entries(query, limit=DRAWN)


def meant(log: Log, query: str) -> Guess | None:
    """What a filter that finds nothing may have meant."""
    return guess(log, query)


def disagreeing(log: Log) -> int:
    """How many entries two machines left in different states."""
    return len(conflicts(log))
