"""What workers tell the screens; each message is one plain fact."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from textual.message import Message

from appraise.base.dataclass import dataclass

if TYPE_CHECKING:
    from appraise.app.session import Learnt
    from appraise.documents.track import Track
    from appraise.knowledge.records import Knowledge
    from appraise.verdict import NextSteps, Verdict
    from appraise.verdict.behind import Behind


def stamp() -> float:
    """The time now by the clock that stamps messages and keys, seconds."""
    return Message().time


@dataclass(eq=False)
class KnowledgeRead(Message):
    """The trade's knowledge has been read."""

    knowledge: Knowledge


@dataclass(eq=False)
class PricesLearnt(Message):
    """The log has been learnt as it stood after so many changes."""

    learnt: Learnt


@dataclass(eq=False)
class Judged(Message):
    """A piece has been judged at a state of it, `turn`; `aside` is what else is to be said."""

    turn: int
    verdict: Verdict
    aside: str = ""


@dataclass(eq=False)
class Planned(Message):
    """It is known what to look at next; `turn` says at which state of the piece."""

    turn: int
    steps: NextSteps


@dataclass(eq=False)
class Explained(Message):
    """To the page that asked: what is behind each figure of a reading."""

    told: tuple[Behind, ...]


@dataclass(eq=False)
class Tracked(Message):
    """To the screen that asked: the track record."""

    track: Track


@dataclass(eq=False)
class Written(Message):
    """To the screen that asked: a report is written; its text is meant for the clipboard, or ''."""

    path: Path
    text: str


class Ready(Message):
    """To a screen: knowledge or prices have come, so what is shown may be more now."""


@dataclass(eq=False)
class Trouble(Message):
    """Something could not be done, told in one line."""

    says: str


@dataclass(eq=False)
class Progress(Message):
    """How far a long job has come; `of` steps in all, 0 where that is not known."""

    says: str
    done: int
    of: int
