"""Judging the pieces of a lot, away from the keys."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.message import Message

from appraise.app.work import compute
from appraise.base.dataclass import dataclass

if TYPE_CHECKING:
    from textual.dom import DOMNode

    from appraise.app.session import Session
    from appraise.knowledge.records import Knowledge
    from appraise.records.lot import Lot
    from appraise.verdict import Verdict


@dataclass(eq=False)
class LotJudged(Message):
    """To a lot's page: its pieces have been judged; `turn` says at which state of it."""

    turn: int
    verdicts: tuple[Verdict | None, ...]


def judge_lot(node: DOMNode, session: Session, lot: Lot, turn: int) -> None:
    """Judge each piece and post `LotJudged`; 15 to 90 ms a piece."""

    def job(knowledge: Knowledge) -> Message:
        from appraise.collection.lotworth import judged  # 15 ms, first time

        return LotJudged(turn, tuple(judged(lot, knowledge, session.judge)))

    compute(node, session, "lot", job)
