"""A document as a small tree of records, before anybody decides how it is written.

Everything in it is plain text: whoever writes it escapes what their markup needs, and takes out
what no terminal should be sent.
"""

from collections.abc import Iterable
from dataclasses import field
from pathlib import Path
from typing import Literal

from appraise.base.dataclass import dataclass
from appraise.base.oneline import counted
from appraise.documents.chart import Chart

Tone = Literal["plain", "lead", "warn", "doubt", "quiet"]
"""How loud something is: an opening, a warning, a doubt, an aside, or none of them."""


@dataclass(frozen=True, slots=True)
class Paragraph:
    """A paragraph."""

    text: str
    tone: Tone = "plain"


@dataclass(frozen=True, slots=True)
class Bullets:
    """A list of points; cautions are one in a tone of warning."""

    items: tuple[str, ...]
    tone: Tone = "plain"


@dataclass(frozen=True, slots=True)
class Fact:
    """A name with what is said under it, a line for each; without a name it goes on."""

    label: str
    says: tuple[str, ...]
    tone: Tone = "plain"


@dataclass(frozen=True, slots=True)
class Facts:
    """A list of facts."""

    rows: tuple[Fact, ...]

    @classmethod
    def of(cls, rows: Iterable[tuple[str, str | Iterable[str]]]) -> "Facts":
        """Names, each with a line or several; what says nothing is left out."""
        told = ((name, (says,) if isinstance(says, str) else tuple(says)) for name, says in rows)
        return cls(tuple(Fact(name, says) for name, says in told if any(says)))


@dataclass(frozen=True, slots=True)
class Table:
    """A table, in which each row may end in a bar.

    Attributes:
        caption: What it shows; empty where its heading says so.
        head: The names of its columns; empty where its cells need none, as in a bill.
        rows: Its cells, as many in each row.
        figures: Which columns hold figures.
        strong: Which row the others lead up to, or None.
        bars: The length of each row's bar, 0 to 1; empty: no bars.
        marks: Where a mark stands on each bar, 0 to 1; empty: no marks.
    """

    caption: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    figures: tuple[int, ...] = ()
    strong: int | None = None
    bars: tuple[float, ...] = ()
    marks: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing, and the same facts as a sentence and a table for who cannot see it.

    Attributes:
        table: The same in figures.
        drawn: Whether it can also be drawn in signs, where there is nothing but text.
    """

    chart: Chart
    table: Table
    drawn: bool = False


@dataclass(frozen=True, slots=True)
class Photos:
    """Photos of a piece, shown as copies where a page can; elsewhere their number is told.

    Attributes:
        files: The files that are copied. Neither their names nor where they lie are told.
    """

    files: tuple[Path, ...]

    @property
    def says(self) -> str:
        """How many there are."""
        return f"{counted(len(self.files), 'photo')}, shown in the HTML report."


Block = Paragraph | Bullets | Facts | Table | Picture | Photos


@dataclass(frozen=True, slots=True)
class Section:
    """A part of a document under a heading; the first one may have none.

    Attributes:
        id: A word that no other part of the document bears.
        airy: Whether its blocks stand apart, as on paper.
        beside: Whether it may stand beside the one before it, on a wide screen.
    """

    id: str
    heading: str
    blocks: tuple[Block, ...]
    airy: bool = False
    beside: bool = False


@dataclass(frozen=True, slots=True)
class Document:
    """A whole document.

    Attributes:
        title: What it is about, mostly the piece's own title; empty: nothing stands above it.
        sections: Its parts, none of them empty.
        subtitle: What sort of document it is.
        as_of: The day it holds for, ISO 8601; empty where that is nothing to it.
        purpose: What it is for and what it is not; stands at the foot, of a report at the head too.
        reader: For whom a report is, a key of `READERS`; empty: it is the user's own screen.
        language: The language of its words, for those who read it aloud.
    """

    title: str
    sections: tuple[Section, ...]
    subtitle: str = ""
    as_of: str = ""
    purpose: str = ""
    reader: str = ""
    language: str = field(default="en-GB")

    @property
    def about(self) -> str:
        """What sort of document it is, and for which day."""
        day = f"as of {self.as_of}" if self.as_of else ""
        return ", ".join(part for part in (self.subtitle, day) if part)


def section(name: str, heading: str, *blocks: Block, airy: bool = False) -> tuple[Section, ...]:
    """A section of the blocks that say something; nothing where none does."""
    told = tuple(one for one in blocks if says_something(one))
    return (Section(name, heading, told, airy),) if told else ()


def says_something(block: Block) -> bool:
    """Whether there is anything in a block."""
    match block:
        case Paragraph(words):
            return bool(words)
        case Bullets(items):
            return bool(items)
        case Facts(rows):
            return bool(rows)
        case Table():
            return bool(block.rows)
        case Photos(files):
            return bool(files)
        case Picture():
            return True


def fact(label: str, says: str, tone: Tone = "plain") -> Fact:
    """A name with one line under it."""
    return Fact(label, (says,), tone)


def asked(label: str, says: str, missing: str = "not recorded") -> Fact:
    """A name with what is recorded; where nothing is, that is said as a doubt."""
    return fact(label, says) if says else fact(label, missing, "doubt")
