"""One line that is typed, and how it was understood: what the screens for such a line share."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Sequence
from typing import ClassVar, Generic, Protocol, TypeVar

from rich.cells import cell_len
from textual import on
from textual.app import ComposeResult
from textual.widgets import Input

from appraise.app.lines import EMPTY, Line, clip, fold, line
from appraise.app.marks import DOUBT, ORDER, Marks
from appraise.app.session import READING
from appraise.app.sheet import Sheet
from appraise.base.errors import InputError
from appraise.knowledge.records import Knowledge

LEFT = 26  # cells for the words


def understood_lines(
    understood: Sequence[tuple[str, str]],
    not_understood: Sequence[str],
    knowledge: Knowledge | None,
    width: int,
    marks: Marks,
    notes: Sequence[str] = (),
) -> list[Line]:
    """A line for each stretch of words, then the motif, what was not understood, and notes."""
    from appraise.listing.summary import meanings, summary  # with the reader, 30 ms, first time

    found = meanings(understood)
    left = min(LEFT, width // 2, max((cell_len(words) for words, _ in found), default=0))
    rows = [EMPTY, line(" ", ("understood as", "quiet"))]
    for words, meaning in found:
        told = clip(in_words(meaning, knowledge), max(1, width - left - 6), marks)
        rows.append(
            line(f" {ORDER} ", (f"{clip(words, left, marks):<{left}}", "strong"), "  ", told)
        )
    for said in summary(understood, not_understood, notes):
        mark, role = (DOUBT, "doubt") if said.startswith("not understood") else (ORDER, "")
        rows += fold(said, max(1, width - 2), f" {mark} ", lead_role=role)
    return rows


def in_words(meaning: str, knowledge: Knowledge | None) -> str:
    """What words were taken for, as the screen says it."""
    from appraise.documents.claimed import meaning_words

    return meaning_words(meaning, knowledge) if knowledge else meaning


class LineRead(Protocol):
    """A line as it was understood: words with their meaning, and the words that were not."""

    @property
    def understood(self) -> Sequence[tuple[str, str]]:
        """Words and what they were taken for."""

    @property
    def not_understood(self) -> Sequence[str]:
        """Words that were not understood."""


T = TypeVar("T")
Read = TypeVar("Read", bound=LineRead)


class OneLine(Sheet[T], Generic[T, Read]):
    """A title, a line to type in, what became of it, the keys.

    Attributes:
        EXAMPLES: Lines that could be typed.
        GUIDE: How to write one.
        read: The line as it was understood; None where nothing is typed or it cannot be read.
        why: Why it cannot be read.
    """

    AUTO_FOCUS = "Input"
    EXAMPLES: ClassVar[tuple[str, ...]]
    GUIDE: ClassVar[str]

    def __init__(self) -> None:
        super().__init__()
        self.read: Read | None = None
        self.why = ""

    def middle(self) -> ComposeResult:
        yield Input(placeholder=self.EXAMPLES[0])
        yield from super().middle()

    def draw(self, width: int, height: int) -> Sequence[Line]:
        """How the line was understood, or how to write one."""
        session, read = self.session, self.read
        if self.why:
            return fold(self.why, max(1, width - 2), " ", role="doubt")
        if read is not None:
            shown, notes = (read.understood, read.not_understood), getattr(read, "notes", ())
            rows = understood_lines(*shown, session.knowledge, width, session.marks, notes)
            return [*rows, *self.told_after(read, width)]
        guide = READING if session.knowledge is None else self.GUIDE
        rows = [EMPTY, *fold(guide, max(1, width - 2), " "), EMPTY]
        return [*rows, *(line("   ", (one, "quiet")) for one in self.EXAMPLES)]

    @abstractmethod
    def read_line(self, text: str, knowledge: Knowledge) -> Read:
        """The line as it is understood.

        Raises:
            InputError: why it cannot be read yet.
        """

    def told_after(self, read: Read, width: int) -> Sequence[Line]:
        """What is said below the words and their meaning."""
        return ()

    def keep(self, read: Read) -> T:
        """Log the line as it was understood; raises an AppraiseError where it cannot be."""
        raise NotImplementedError

    def action_take(self) -> None:
        read = self.read
        if read is None:
            self.say(self.why or "Nothing typed yet. esc: back.")
            return
        kept = self.tried(lambda: self.keep(read))
        if kept is not None:
            self.session.changes += 1
            self.dismiss(kept)

    @on(Input.Changed)
    def changed(self, event: Input.Changed) -> None:
        self._follow(event.value)

    def ready(self) -> None:
        """The knowledge has come: understand what was typed meanwhile."""
        self._follow(self.query_one(Input).value)
        super().ready()

    @on(Input.Submitted)
    def submitted(self, event: Input.Submitted) -> None:
        self.action_take()

    def _follow(self, text: str) -> None:
        knowledge = self.session.knowledge
        self.read, self.why = None, ""
        if knowledge is not None and text.strip():
            try:
                self.read = self.read_line(text, knowledge)
            except InputError as error:
                self.why = str(error)
        self.redraw()
