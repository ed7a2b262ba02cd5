"""A report as a small tree of records, before anybody decides how it is written.

Everything in it is plain text: whoever writes it escapes what their markup needs.
"""

from collections.abc import Mapping
from dataclasses import asdict, dataclass, field
from typing import Any, Literal

from appraise.documents.reader.chart import Chart

Role = Literal["plain", "lead", "warn", "doubt", "quiet"]


@dataclass(frozen=True, slots=True)
class Paragraph:
    """A paragraph; its role says how loud it is: an opening, a warning, a doubt, an aside."""

    text: str
    role: Role = "plain"


@dataclass(frozen=True, slots=True)
class Bullets:
    """A list of points."""

    items: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Facts:
    """A list of names, each with what is said under it."""

    rows: tuple[tuple[str, tuple[str, ...]], ...]


@dataclass(frozen=True, slots=True)
class Table:
    """A table.

    Attributes:
        caption: What it shows.
        head: The names of its columns.
        rows: Its cells, as many in each row as there are columns.
        figures: Which columns hold figures.
    """

    caption: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    figures: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing, and the same facts as a sentence and a table for who cannot see it.

    Attributes:
        chart: What is drawn.
        table: The same in figures.
        drawn: Whether it can also be drawn in signs, where there is nothing but text.
    """

    chart: Chart
    table: Table
    drawn: bool = False


Block = Paragraph | Bullets | Facts | Table | Picture


@dataclass(frozen=True, slots=True)
class Section:
    """A part of a report under a heading."""

    id: str
    heading: str
    blocks: tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class Document:
    """A whole report.

    Attributes:
        reader: For whom it is, a key of `READERS`.
        title: The piece's own title.
        subtitle: What sort of report it is.
        as_of: The day it holds for, ISO 8601.
        sections: Its parts, none of them empty.
        purpose: What it is for and what it is not; stands at the head and at the foot.
        language: The language of its words, for those who read it aloud.
    """

    reader: str
    title: str
    subtitle: str
    as_of: str
    sections: tuple[Section, ...]
    purpose: str
    language: str = field(default="en-GB")


def report_json(document: Document) -> dict[str, Any]:
    """The report as plain JSON values, schema "appraise.report/1"."""
    return {
        "schema": "appraise.report/1",
        "as_of": document.as_of,
        "for": document.reader,
        "title": document.title,
        "subtitle": document.subtitle,
        "purpose": document.purpose,
        "sections": [
            {
                "id": one.id,
                "heading": one.heading,
                "blocks": [_block(block) for block in one.blocks],
            }
            for one in document.sections
        ],
    }


NAMES: Mapping[type, str] = {
    Paragraph: "paragraph",
    Bullets: "bullets",
    Facts: "facts",
    Table: "table",
    Picture: "picture",
}


def _block(block: Block) -> dict[str, Any]:
    return {"block": NAMES[type(block)], **asdict(block)}
