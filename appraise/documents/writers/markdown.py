"""A report as Markdown: CommonMark 0.31 and nothing beyond it, so tables are blocks of text.

What a user wrote never becomes markup: every sign that could begin some stands behind a backslash
(CommonMark 0.31, section 2.4), the addresses that some readers turn into links among them.
"""

import re
from collections.abc import Iterable, Iterator

from appraise.base.oneline import plain
from appraise.documents.document import (
    Block,
    Bullets,
    Document,
    Fact,
    Facts,
    Paragraph,
    Photos,
    Picture,
    Section,
    Table,
)
from appraise.documents.writers.lines import WIDTH, drawn_lines, table_text

_ANYWHERE = re.compile(r"([\\`*_\[\]<>&~|@$^]|(?<=www)\.|:(?=//))", re.IGNORECASE)
_NUMBER = re.compile(r"^(\d{1,9})([.)])")


def markdown(document: Document) -> str:
    """The whole report as CommonMark."""
    title, about, purpose = map(escaped, (document.title, document.about, document.purpose))
    blocks = [
        f"# {title}" if title else "",
        f"*{about}.*" if about else "",
        f"**{purpose}**" if purpose and document.reader else "",
        *(block for one in document.sections for block in _section(one)),
        f"---\n\n{purpose}" if purpose else "",
    ]
    return "\n\n".join(block for block in blocks if block) + "\n"


def escaped(says: str) -> str:
    """A text of one line that CommonMark shows as it is."""
    says = _ANYWHERE.sub(r"\\\1", plain(says))
    says = re.sub(r"^([#+\-=])", r"\\\1", says)
    return _NUMBER.sub(r"\1\\\2", says)


def _section(section: Section) -> Iterator[str]:
    if section.heading:
        yield f"## {escaped(section.heading)}"
    for block in section.blocks:
        yield from _block(block)


def _block(block: Block) -> Iterator[str]:
    match block:
        case Paragraph(says, "warn" | "doubt" | "lead"):
            yield f"**{escaped(says)}**"
        case Paragraph(says, _):
            yield escaped(says)
        case Bullets(items, tone):
            strong = "**" if tone in ("warn", "doubt") else ""
            # Another sign than that of facts, or a list after facts would go on with theirs.
            yield "\n".join(f"* {strong}{escaped(item)}{strong}" for item in items)
        case Facts(rows):
            yield "\n".join(line for one in rows for line in _fact(one))
        case Table(caption):
            if caption:
                yield f"{escaped(caption)}:"
            yield fenced(table_text(block))
        case Photos():
            yield escaped(block.says)
        case Picture(chart, table, drawn):
            yield escaped(chart.says)
            if drawn:
                yield fenced(drawn_lines(chart, WIDTH))
            yield fenced(table_text(table))


def _fact(one: Fact) -> Iterator[str]:
    name = f"**{escaped(one.label)}**" if one.label else ""
    if len(one.says) == 1:
        yield f"- {': '.join(part for part in (name, escaped(one.says[0])) if part)}"
        return
    yield f"- {name}"
    yield from (f"  - {escaped(says)}" for says in one.says)


def fenced(lines: Iterable[str]) -> str:
    """Lines shown as they are, between fences longer than any run of their own."""
    rows = list(lines)
    longest = max((len(run) for row in rows for run in re.findall(r"`+", row)), default=0)
    fence = "`" * max(3, longest + 1)
    return "\n".join([fence, *rows, fence])
