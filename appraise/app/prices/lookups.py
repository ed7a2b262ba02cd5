"""What a list of prices needs beside its rows, worked out off the key path.

Sum and median, what a filter without an answer may have meant, and whether two machines disagree:
each reads much of the log, so a thread with a log of its own does it and posts what it found.
"""

from __future__ import annotations

import threading
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING

from textual.message import Message
from textual.worker import get_current_worker

from appraise.app.work import start
from appraise.store.log import Log, open_log
from appraise.store.merge import conflicts
from appraise.store.suggestions import Guess, guess

if TYPE_CHECKING:
    from textual.dom import DOMNode

    from appraise.records.entry import Entry
    from appraise.store.search import Summary

DRAWN = 600  # prices in the picture at most
Post = Callable[[Message], object]


@dataclass(eq=False)
class Counted(Message):
    """How many entries a filter finds, and their prices; `turn` says at which reading.

    `latest` are the last of them, for the picture of prices over time.
    """

    turn: int
    summary: Summary
    latest: Sequence[Entry]


@dataclass(eq=False)
class FilterMeant(Message):
    """What a filter that found nothing may have meant."""

    turn: int
    guess: Guess


@dataclass(eq=False)
class Disagreed(Message):
    """How many entries two machines left in different states."""

    count: int


class Lookups:
    """The background jobs of one screen; a later reading supersedes an earlier one."""

    def __init__(self, node: DOMNode, log: Log) -> None:
        self._node = node
        self._open = partial(open_log, log.path, log.clock, log.machine)
        self._one_at_a_time = threading.Lock()

    def count(self, query: str, turn: int) -> None:
        """Begin to add up what a filter finds."""

        def job(log: Log) -> None:
            with self._one_at_a_time:
                if not get_current_worker().is_cancelled:
                    _count(log, query, turn, self._node.post_message)

        self._start("counting", job)

    def disagreements(self) -> None:
        """Begin to look for entries that two machines left in different states."""
        self._start(
            "disagreements", lambda log: self._node.post_message(Disagreed(len(conflicts(log))))
        )

    def _start(self, group: str, job: Callable[[Log], object]) -> None:
        def work() -> None:
            with self._open() as log:
                job(log)

        start(self._node, group, work)


def _count(log: Log, query: str, turn: int, post: Post) -> None:
    summary = log.summary(query)
    post(Counted(turn, summary, log.entries(query, limit=DRAWN)))
    if query and not summary.count:
        meant = guess(log, query)
        if meant is not None:
            post(FilterMeant(turn, meant))
