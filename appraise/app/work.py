"""The slow jobs: each runs in a thread, and what it finds is handed on where it was asked for.

A job touches no widget, nor the log that is open: one that reads or writes it opens it anew.
"""

from __future__ import annotations

from collections.abc import Callable
from contextlib import AbstractContextManager, nullcontext
from functools import partial
from time import monotonic
from typing import TYPE_CHECKING, Any, Protocol, TypeVar

from textual.worker import get_current_worker

from appraise.base.errors import AppraiseError, InputError, StoreError
from appraise.base.faultlog import record_fault

if TYPE_CHECKING:
    from appraise.app.session import Session
    from appraise.knowledge.records import Knowledge

BETWEEN = 0.1  # seconds between two tellings of how far a job has come
CANCELLED = "cancelled; nothing was changed"
Step = Callable[[int, int], None]
Found = TypeVar("Found")


class Asker(Protocol):
    """A screen, or the app: who has a job done, and is called in its own turn when it is."""

    @property
    def session(self) -> Session:
        """This run."""

    @property
    def run_worker(self) -> Any:
        """Begins a worker."""

    @property
    def call_later(self) -> Callable[..., object]:
        """Has something called in its turn."""

    def trouble(self, says: str) -> None:
        """A job could not be done."""

    def progress(self, says: str, done: int, of: int) -> None:
        """A long job has come so far; `of` steps in all, 0 where that is not known."""


def start(
    node: Asker,
    group: str,
    job: Callable[[], Found],
    then: Callable[[Found], object] = lambda found: None,
    lock: AbstractContextManager[object] | None = None,
) -> None:
    """Run a job in a thread; what it finds is handed on, unless a later one of its group began.

    Args:
        node: Who asks.
        group: A later job of a group supersedes an earlier one.
        job: Computes, and raises an AppraiseError where it cannot.
        then: Called by `node` with what was found.
        lock: Held meanwhile; a job that was superseded before never begins.
    """

    def work() -> None:
        worker = get_current_worker()
        try:
            with lock or nullcontext():
                if worker.is_cancelled:
                    return
                done: Callable[[], object] = partial(then, job())
        except AppraiseError as error:
            done = partial(node.trouble, str(error))
        except Exception as error:  # whatever broke: what was answered is kept
            done = partial(node.trouble, broken(error, group, node.session))
        if not worker.is_cancelled:
            node.call_later(done)

    node.run_worker(work, thread=True, exclusive=True, group=group, exit_on_error=False)


def broken(error: Exception, group: str, session: Session) -> str:
    """What to say of a job that broke; where it broke is written beside the log."""
    record_fault(session.home.faults, error, group, session.clock())
    says = " ".join(f"{type(error).__name__}: {error}".split())
    told = f"Something went wrong ({says}). Your answers are saved."
    return f"{told} More: {session.home.faults.name}"


def compute(
    node: Asker,
    group: str,
    job: Callable[[Knowledge], Found],
    then: Callable[[Found], object],
) -> None:
    """Run a job that only computes, one at a time, once the trade's knowledge has been read."""
    session, knowledge = node.session, node.session.knowledge
    if knowledge is not None:
        start(node, group, lambda: job(knowledge), then, session.bench)


def start_long(
    node: Asker,
    group: str,
    says: str,
    job: Callable[[Step], Found],
    then: Callable[[Found], object],
) -> None:
    """Run a job that tells at every step how far it has come, and can be ended there."""
    session, told = node.session, [0.0]
    stop = session.begin_job()

    def step(done: int, of: int) -> None:
        if stop.is_set():
            raise InputError(CANCELLED)
        now = monotonic()
        if now - told[0] >= BETWEEN:
            told[0] = now
            node.call_later(node.progress, says, done, of)

    def work() -> Found:
        try:
            return job(step)
        finally:
            session.end_job()

    start(node, group, work, then)


def read_knowledge(session: Session) -> Knowledge:
    """The trade's knowledge; 150 ms, or 10 if it is as before."""
    from appraise.knowledge.ready import ready  # 10 ms

    return ready(session.home.known, session.home.knowledge)


def back_up_daily(session: Session) -> None:
    """Make the day's backup where there is need of one; seconds for a very long log."""
    from appraise.store.backup import daily  # 5 ms

    try:
        with session.saving():
            daily(session.log.path, session.log.now())
    except AppraiseError as error:
        raise StoreError(f"no backup today: {error}") from error
