"""What workers tell the screens; each message is one plain fact."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from textual.message import Message

if TYPE_CHECKING:
    from appraise.app.session import Learnt
    from appraise.documents.track import Track
    from appraise.knowledge.records import Knowledge
    from appraise.verdict import NextSteps, Verdict
    from appraise.verdict.behind import Behind


def stamp() -> float:
    """The time now by the clock that stamps messages and keys, seconds."""
    return Message().time


class KnowledgeRead(Message):
    """The trade's knowledge has been read."""

    def __init__(self, knowledge: Knowledge) -> None:
        super().__init__()
        self.knowledge = knowledge


class PricesLearnt(Message):
    """The log has been learnt as it stood after so many changes."""

    def __init__(self, learnt: Learnt) -> None:
        super().__init__()
        self.learnt = learnt


class Judged(Message):
    """A piece has been judged at a state of it, `turn`; `aside` is what else is to be said."""

    def __init__(self, turn: int, verdict: Verdict, aside: str = "") -> None:
        super().__init__()
        self.turn = turn
        self.verdict = verdict
        self.aside = aside


class Planned(Message):
    """It is known what to look at next; `turn` says at which state of the piece."""

    def __init__(self, turn: int, steps: NextSteps) -> None:
        super().__init__()
        self.turn = turn
        self.steps = steps


class Explained(Message):
    """To the page that asked: what is behind each figure of a reading."""

    def __init__(self, told: tuple[Behind, ...]) -> None:
        super().__init__()
        self.told = told


class Tracked(Message):
    """To the screen that asked: the track record."""

    def __init__(self, track: Track) -> None:
        super().__init__()
        self.track = track


class Written(Message):
    """To the screen that asked: a report is written; its text is meant for the clipboard, or ''."""

    def __init__(self, path: Path, text: str) -> None:
        super().__init__()
        self.path = path
        self.text = text


class Ready(Message):
    """To a screen: knowledge or prices have come, so what is shown may be more now."""


class Trouble(Message):
    """Something could not be done, told in one line."""

    def __init__(self, says: str) -> None:
        super().__init__()
        self.says = says


class Progress(Message):
    """How far a long job has come; `of` steps in all, 0 where that is not known."""

    def __init__(self, says: str, done: int, of: int) -> None:
        super().__init__()
        self.says = says
        self.done = done
        self.of = of
