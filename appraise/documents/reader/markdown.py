"""A report as Markdown: CommonMark 0.31 and nothing beyond it, so tables are blocks of text.

What a user wrote never becomes markup: every sign that could begin some stands behind a backslash
(CommonMark 0.31, section 2.4), the addresses that some readers turn into links among them.
"""

import re
from collections.abc import Iterable, Iterator

from appraise.base.oneline import plain
from appraise.documents.reader.document import (
    Block,
    Bullets,
    Document,
    Facts,
    Paragraph,
    Picture,
    Section,
    Table,
)
from appraise.documents.reader.text import drawn_lines, table_lines

_ANYWHERE = re.compile(r"([\\`*_\[\]<>&~|@$^]|(?<=www)\.|:(?=//))", re.IGNORECASE)
_NUMBER = re.compile(r"^(\d{1,9})([.)])")


def markdown(document: Document) -> str:
    """The whole report as CommonMark."""
    blocks = [
        f"# {escaped(document.title)}",
        f"*{escaped(document.subtitle)}, as of {document.as_of}.*",
        f"**{escaped(document.purpose)}**",
        *(block for one in document.sections for block in _section(one)),
        "---",
        escaped(document.purpose),
    ]
    return "\n\n".join(blocks) + "\n"


def escaped(says: str) -> str:
    """A text of one line that CommonMark shows as it is."""
    says = _ANYWHERE.sub(r"\\\1", plain(says))
    says = re.sub(r"^([#+\-=])", r"\\\1", says)
    return _NUMBER.sub(r"\1\\\2", says)


def _section(section: Section) -> Iterator[str]:
    yield f"## {escaped(section.heading)}"
    for block in section.blocks:
        yield from _block(block)


def _block(block: Block) -> Iterator[str]:
    match block:
        case Paragraph(says, "warn" | "doubt" | "lead"):
            yield f"**{escaped(says)}**"
        case Paragraph(says, _):
            yield escaped(says)
        case Bullets(items):
            # Another sign than that of facts, or a list after facts would go on with theirs.
            yield "\n".join(f"* {escaped(item)}" for item in items)
        case Facts(rows):
            yield "\n".join(line for name, says in rows for line in _fact(name, says))
        case Table(caption):
            yield f"{escaped(caption)}:"
            yield fenced(table_lines(block))
        case Picture(chart, table, drawn):
            yield escaped(chart.says)
            if drawn:
                yield fenced(drawn_lines(chart))
            yield fenced(table_lines(table))


def _fact(name: str, says: tuple[str, ...]) -> Iterator[str]:
    if len(says) == 1:
        yield f"- **{escaped(name)}**: {escaped(says[0])}"
        return
    yield f"- **{escaped(name)}**"
    yield from (f"  - {escaped(one)}" for one in says)


def fenced(lines: Iterable[str]) -> str:
    """Lines shown as they are, between fences longer than any run of their own."""
    rows = list(lines)
    longest = max((len(run) for row in rows for run in re.findall(r"`+", row)), default=0)
    fence = "`" * max(3, longest + 1)
    return "\n".join([fence, *rows, fence])
