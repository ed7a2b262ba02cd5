"""A report as plain text, for a terminal, a pipe or a printer."""

import textwrap
from collections.abc import Iterator, Sequence

from appraise.base.oneline import plain
from appraise.documents.reader.chart import Bar, Chart
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
from appraise.documents.timeline import Axis, axis_for, labels, row_of
from appraise.knowledge.records import Years

WIDTH = 78
LABEL = 22  # cells of a name beside which something is said
GAP = 2  # cells between columns
NARROWEST = 12  # cells of a column that holds words
MARKS = {"warn": "! ", "doubt": "? "}


def text(document: Document) -> str:
    """The whole report in lines of at most 78 cells."""
    head = [*_wrapped("", document.title), document.subtitle, f"as of {document.as_of}"]
    parts = ["\n".join(head), "\n".join(_wrapped("", document.purpose))]
    parts += ["\n".join(_section(one)) for one in document.sections]
    return "\n\n".join([*parts, "\n".join(_wrapped("", document.purpose))]) + "\n"


def _section(section: Section) -> Iterator[str]:
    heading = plain(section.heading)
    yield heading
    yield "-" * len(heading)
    for place, block in enumerate(section.blocks):
        if place:
            yield ""
        yield from _block(block)


def _block(block: Block) -> Iterator[str]:
    match block:
        case Paragraph(says, role):
            yield from _wrapped(MARKS.get(role, ""), says)
        case Bullets(items):
            for item in items:
                yield from _wrapped("- ", item)
        case Facts(rows):
            yield from _facts(rows)
        case Table(caption):
            yield from _wrapped("", f"{caption}:")
            yield from table_lines(block)
        case Picture(chart, table, drawn):
            yield from _wrapped("", chart.says)
            yield ""
            if drawn:
                yield from drawn_lines(chart)
                yield ""
            yield from table_lines(table)


def _facts(rows: Sequence[tuple[str, tuple[str, ...]]]) -> Iterator[str]:
    beside = all(len(plain(name)) <= LABEL for name, _ in rows)
    for name, says in ((plain(name), says) for name, says in rows):
        if not beside:
            yield from _wrapped("", name)
        for place, one in enumerate(says):
            lead = f"{name if not place else '':<{LABEL}}" + " " * GAP if beside else "    "
            yield from _wrapped(lead, one)


def _wrapped(lead: str, says: str) -> list[str]:
    return _broken(f"{lead}{plain(says)}", WIDTH, " " * len(lead)) or [lead]


def _broken(says: str, width: int, indent: str = "") -> list[str]:
    """Lines of a width, the later ones indented; days and paths are not broken at a hyphen."""
    return textwrap.wrap(says, width, subsequent_indent=indent, break_on_hyphens=False)


def table_lines(table: Table) -> Iterator[str]:
    """A table in aligned columns; words wrap within theirs, figures never do."""
    cells = [tuple(map(plain, row)) for row in (table.head, *table.rows)]
    widths = _widths(cells, table.figures)
    yield from _row(cells[0], widths, table.figures)
    yield (" " * GAP).join("-" * width for width in widths)
    for row in cells[1:]:
        yield from _row(row, widths, table.figures)


def _widths(cells: Sequence[tuple[str, ...]], figures: Sequence[int]) -> list[int]:
    """Widths of columns: what they need, and for the widest of words no more than there is."""
    widths = [max(map(len, column)) for column in zip(*cells, strict=True)]
    while sum(widths) + GAP * (len(widths) - 1) > WIDTH:
        words = [n for n in range(len(widths)) if n not in figures and widths[n] > NARROWEST]
        if not words:
            break
        widths[max(words, key=lambda n: widths[n])] -= 1
    return widths


def _row(cells: Sequence[str], widths: Sequence[int], figures: Sequence[int]) -> Iterator[str]:
    columns = [_broken(cell, width) or [""] for cell, width in zip(cells, widths, strict=True)]
    for line in range(max(map(len, columns))):
        row = [column[line] if line < len(column) else "" for column in columns]
        yield (
            (" " * GAP)
            .join(
                f"{cell:>{width}}" if n in figures else f"{cell:<{width}}"
                for n, (cell, width) in enumerate(zip(row, widths, strict=True))
            )
            .rstrip()
        )


def drawn_lines(chart: Chart) -> Iterator[str]:
    """A chart of years in signs: `|` common, `:` and `.` less so, `^` what they add up to."""
    axis = axis_for([int(year) for year in chart.values], WIDTH - LABEL - GAP)
    room = " " * (LABEL + GAP)
    yield (room + labels(axis)).rstrip()
    for bar in chart.bars:
        name = textwrap.shorten(plain(bar.label), LABEL, placeholder=" ..")
        yield f"{name:<{LABEL}}{' ' * GAP}{_signs(bar, axis)}".rstrip()


def _signs(bar: Bar, axis: Axis) -> str:
    if bar.outer is None:
        return ""
    first, last = (int(year) for year in bar.outer)
    if bar.inner is None:
        start, end = axis.cell(first), axis.cell(last)
        return " " * start + "^" * (end - start + 1)
    start, end = (int(year) for year in bar.inner)
    return row_of([Years(first, start, end, last, "low")], axis)
