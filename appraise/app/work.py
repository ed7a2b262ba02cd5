"""The slow jobs. Each runs in a thread, touches no widget and no log, and posts one message."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from time import monotonic
from typing import TYPE_CHECKING, Any

from textual.worker import get_current_worker

from appraise.app.messages import (
    Explained,
    Judged,
    KnowledgeRead,
    Planned,
    PricesLearnt,
    Progress,
    Tracked,
    Trouble,
    Written,
)
from appraise.base.errors import AppraiseError, InputError, StoreError

if TYPE_CHECKING:
    from textual.dom import DOMNode
    from textual.message import Message

    from appraise.app.marks import Marks
    from appraise.app.session import Session
    from appraise.knowledge.records import Check, Knowledge
    from appraise.reading.reading import Reading
    from appraise.records.entry import Entry
    from appraise.records.piece import Piece
    from appraise.verdict import Verdict

BETWEEN = 0.1  # seconds between two tellings of how far a job has come
CANCELLED = "cancelled; nothing was changed"
Step = Callable[[int, int], None]
PAGE = 500  # entries fetched between two looks at the keyboard


def read_knowledge(node: DOMNode, session: Session) -> None:
    """Read the trade's knowledge and post `KnowledgeRead`; 150 ms, or 10 if it is as before."""

    def job() -> Message:
        from appraise.knowledge.ready import ready  # 10 ms

        return KnowledgeRead(ready(session.home.known, session.home.knowledge))

    start(node, "knowledge", job)


def back_up_daily(node: DOMNode, session: Session) -> None:
    """Make the day's backup where there is need of one; seconds for a very long log."""
    path, time = session.log.path, session.log.now()

    def job() -> None:
        from appraise.store.backup import daily  # 5 ms

        try:
            with session.saving():
                daily(path, time)
        except AppraiseError as error:
            raise StoreError(f"no backup today: {error}") from error

    start(node, "backup", job)


def learn_prices(node: DOMNode, session: Session) -> None:
    """Learn the log as it stands and post `PricesLearnt`, unless that was begun already.

    The job reads the log over a connection of its own; one that was asked for again never begins.
    """
    session.read_book()
    session.read_wants()
    if session.knowledge is None or session.learning == session.changes:
        return
    session.learning = session.changes

    changes = session.changes
    start(node, "learning", lambda: _learnt(session, changes))


async def _entries(session: Session) -> list[Entry]:
    """The whole log, fetched a page at a time so that keys are minded in between."""
    from asyncio import sleep

    entries: list[Entry] = []
    while page := session.log.entries(limit=PAGE, offset=len(entries)):
        entries.extend(page)
        await sleep(0)
    return entries


def read_track(node: DOMNode, session: Session, again: bool = False) -> None:
    """Score the log's estimates and beliefs and post `Tracked`.

    A second for a thousand entries; `again`, with every price estimated anew, some seconds: how
    far it has come is told, and it can be cancelled.
    """
    session.read_book()
    step = stepping(node, session, "Back-test")

    async def fetch() -> None:
        entries = await _entries(session)
        start(node, "track", lambda: Tracked(session.track(entries, again, step)), session)

    node.run_worker(fetch(), group="track", exclusive=True, exit_on_error=False)


def _learnt(session: Session, changes: int) -> Message | None:
    with session.learns:
        return PricesLearnt(session.learn(changes)) if session.learning == changes else None


def judge(
    node: DOMNode,
    session: Session,
    piece: Piece,
    turn: int,
    own: frozenset[str] = frozenset(),
) -> None:
    """Judge a piece and post `Judged`.

    `own`: ids of the piece's own entries in the log, by which it is not judged.
    """

    def job(knowledge: Knowledge) -> Message:
        verdict = session.judge(piece, own)
        return Judged(turn, verdict, session.aside(verdict, own))

    compute(node, session, "verdict", job)


def plan(node: DOMNode, session: Session, verdict: Verdict, turn: int) -> None:
    """Work out what to look at next and post `Planned`; 50 to 200 ms."""

    def job(knowledge: Knowledge) -> Message:
        from appraise.verdict import next_steps

        return Planned(turn, next_steps(verdict, knowledge))

    compute(node, session, "plan", job)


def explain(node: DOMNode, session: Session, reading: Reading) -> None:
    """Work out what is behind each figure of a reading and post `Explained`; 300 to 600 ms."""

    def job(knowledge: Knowledge) -> Message:
        from appraise.verdict.behind import behind

        return Explained(behind(reading, knowledge))

    compute(node, session, "behind", job)


def draw_ahead(node: DOMNode, checks: Sequence[Check], marks: Marks) -> None:
    """Draw what checks show before it is asked for; 1 ms a drawing, each once in a run."""

    def job() -> None:
        from appraise.app.examine.figure import draw_all  # 5 ms

        for check in checks:
            if get_current_worker().is_cancelled:
                return
            draw_all(check, marks)

    start(node, "drawings", job)


def write_report(
    node: DOMNode, session: Session, write: Callable[[Step], tuple[Path, str]]
) -> None:
    """Have a report written and post `Written`; 50 to 400 ms.

    Args:
        node: Who is told.
        session: Whose bench is used.
        write: Writes the file, and returns it with the text for the clipboard.
    """
    step = stepping(node, session, "Report")

    def job() -> Message:
        with session.bench, session.saving():
            return Written(*write(step))

    start(node, "report", job, session)


def stepping(node: DOMNode, session: Session, says: str) -> Step:
    """What a long job calls at every step: it tells how far that has come, or ends it."""
    stop = session.begin_job()
    told = [0.0]

    def step(done: int, of: int) -> None:
        if stop.is_set():
            raise InputError(CANCELLED)
        now = monotonic()
        if now - told[0] >= BETWEEN:
            told[0] = now
            node.post_message(Progress(says, done, of))

    return step


def compute(
    node: DOMNode, session: Session, group: str, job: Callable[[Knowledge], Message | None]
) -> None:
    """Run a job that only computes, one at a time; one that was superseded never begins."""

    def work() -> Message | None:
        worker = get_current_worker()
        with session.bench:
            if worker.is_cancelled or session.knowledge is None:
                return None
            return job(session.knowledge)

    start(node, group, work)


def start(
    node: DOMNode, group: str, job: Callable[[], Message | None], session: Session | None = None
) -> None:
    """Run a job in a thread; of one that can be cancelled the session is told when it has ended."""

    def work() -> None:
        try:
            message = job()
        except AppraiseError as error:
            message = Trouble(str(error))
        finally:
            if session is not None:
                session.end_job()
        if message is not None and not get_current_worker().is_cancelled:
            node.post_message(message)

    run: Any = node.run_worker
    run(work, thread=True, exclusive=True, group=group, exit_on_error=False)
