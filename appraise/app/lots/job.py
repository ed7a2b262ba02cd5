"""Judging the pieces of a lot, away from the keys."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from textual.message import Message
from textual.worker import get_current_worker

from appraise.app.messages import Trouble
from appraise.base.errors import AppraiseError

if TYPE_CHECKING:
    from textual.dom import DOMNode

    from appraise.app.session import Session
    from appraise.records.lot import Lot
    from appraise.verdict import Verdict


class LotJudged(Message):
    """To a lot's page: its pieces have been judged; `turn` says at which state of it."""

    def __init__(self, turn: int, verdicts: Sequence[Verdict | None]) -> None:
        super().__init__()
        self.turn = turn
        self.verdicts = tuple(verdicts)


def judge_lot(node: DOMNode, session: Session, lot: Lot, turn: int) -> None:
    """Judge each piece and post `LotJudged`; 15 to 90 ms a piece.

    A job that was superseded before it began never begins.
    """

    def job() -> None:
        from appraise.collection.lotworth import judged  # 15 ms, first time

        worker = get_current_worker()
        with session.bench:
            if worker.is_cancelled or session.knowledge is None:
                return
            try:
                message: Message = LotJudged(turn, judged(lot, session.knowledge, session.judge))
            except AppraiseError as error:
                message = Trouble(str(error))
        if not worker.is_cancelled:
            node.post_message(message)

    run: Any = node.run_worker
    run(job, thread=True, exclusive=True, group="lot", exit_on_error=False)
