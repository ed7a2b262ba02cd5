"""A document as lines for a terminal, a pipe or a printer.

A line is a row of (words, role) pairs. Roles name a meaning and never a colour: the app gives each
its look, and text leaves them out.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from functools import partial

from appraise.base.dataclass import dataclass
from appraise.base.oneline import plain
from appraise.base.wrapping import cells, folded
from appraise.documents.chart import Bar, Chart
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
    Tone,
)
from appraise.documents.timeline import Axis, axis_for, labels, row_of
from appraise.knowledge.records import Years

Line = tuple[tuple[str, str], ...]

WIDTH = 78  # cells of a line of text
LABEL = 28  # cells of a name beside which something is said
INSET = 2  # cells by which what stands under a heading is moved in
NAME = 22  # cells of a name in a drawing
GAP = 2  # cells between columns
NARROWEST = 12  # cells of a column that holds words
WIDE = 72  # cells from which sections may stand beside one another
LONGEST, SHORTEST = 30, 8  # cells of a bar
EMPTY: Line = ()
MARKS = {"warn": "! ", "doubt": "? "}
ROLES = {"plain": "", "lead": "strong"}
"""Roles of tones whose name is not their role."""


@dataclass(frozen=True, slots=True)
class LineLayout:
    """How lines are laid out.

    Attributes:
        label: Cells of the names of facts, the same in the whole document.
        bar: A cell of a bar.
        mark: What stands on a bar where it should end.
    """

    width: int = WIDTH
    label: int = LABEL
    bar: str = "#"
    mark: str = "|"

    def narrower(self, by: int) -> "LineLayout":
        """The same in fewer cells."""
        return replace(self, width=max(1, self.width - by))


def text(document: Document) -> str:
    """The whole document as plain text, in lines of at most 78 cells."""
    rows = document_lines(document, LineLayout())
    lines = "\n".join(map(_words, rows))
    parts = (
        _folded(document.title, document.about),
        _folded(document.purpose) if document.reader else "",
        lines,
        _folded(document.purpose),
    )
    return "\n\n".join(part for part in parts if part) + "\n"


def _folded(*says: str) -> str:
    return "\n".join(row for one in says if one for row in folded(plain(one), WIDTH))


def _words(row: Line) -> str:
    return "".join(words for words, _ in row).rstrip()


def document_lines(document: Document, layout: LineLayout) -> list[Line]:
    """The parts of a document in lines; its title and purpose are the caller's."""
    label = _label(document, layout.width)
    within = replace(layout, label=label)
    out: list[Line] = []
    for group in _groups(document.sections, layout.width):
        out += [*([EMPTY] if out else []), *_side_by_side(group, within)]
    return out


def _groups(sections: Iterable[Section], width: int) -> list[list[Section]]:
    """The sections that stand beside one another, in their order."""
    out: list[list[Section]] = []
    for one in sections:
        if one.beside and out and width >= WIDE:
            out[-1].append(one)
        else:
            out.append([one])
    return out


def _side_by_side(sections: Sequence[Section], layout: LineLayout) -> Iterator[Line]:
    apart = 2 * GAP
    width = (layout.width - apart * (len(sections) - 1)) // len(sections)
    columns = [list(_section(one, replace(layout, width=width))) for one in sections]
    for at in range(max(map(len, columns))):
        row: list[tuple[str, str]] = []
        for place, column in enumerate(columns):
            gap = place * (width + apart) - sum(cells(words) for words, _ in row)
            told = column[at] if at < len(column) else EMPTY
            row += [(" " * gap, ""), *told] if told and gap else told
        yield tuple(row)


def _label(document: Document, width: int) -> int:
    """The widest name of a fact that can stand beside what is said."""
    most = min(LABEL, width * 2 // 5)
    names = (
        cells(plain(row.label)) + len(MARKS.get(row.tone, ""))
        for one in document.sections
        for block in one.blocks
        if isinstance(block, Facts)
        for row in block.rows
    )
    return max((length for length in names if length <= most), default=0)


def _section(section: Section, layout: LineLayout) -> Iterator[Line]:
    if section.heading:
        yield from _fold(section.heading, layout.width, role="head")
    inset, before = INSET if section.heading else 0, None
    for block in section.blocks:
        if before is not None and _apart(before, block, section.airy):
            yield EMPTY
        # What is behind a warning stands under its words.
        by = inset + (INSET if _behind(before, block) else 0)
        for row in _block(block, layout.narrower(by)):
            yield ((" " * by, ""), *row) if row and by else row
        before = block


def _apart(before: Block, block: Block, airy: bool) -> bool:
    """Whether a blank line stands between two blocks."""
    if isinstance(before, Table | Picture) or isinstance(block, Table | Picture):
        return True
    return airy and not _behind(before, block)


def _behind(before: Block | None, block: Block) -> bool:
    """Whether a block says what is behind the one before it."""
    return isinstance(before, Paragraph) and before.tone in MARKS and isinstance(block, Facts)


def _block(block: Block, layout: LineLayout) -> Iterator[Line]:
    match block:
        case Paragraph(says, tone):
            yield from _fold(says, layout.width, MARKS.get(tone, ""), _role(tone), _role(tone))
        case Bullets(items, tone):
            for item in items:
                role = "strong" if tone == "lead" else ""
                yield from _fold(item, layout.width, MARKS.get(tone, "- "), role, _role(tone))
        case Facts(rows):
            yield from _facts(rows, layout)
        case Table():
            yield from _captioned(block, layout)
        case Photos():
            yield from _fold(block.says, layout.width)
        case Picture(chart, table, drawn):
            yield from _fold(chart.says, layout.width)
            yield EMPTY
            if drawn:
                for words in drawn_lines(chart, layout.width):
                    yield ((words, ""),) if words else EMPTY
                yield EMPTY
            yield from table_lines(table, layout)


def _role(tone: Tone) -> str:
    return ROLES.get(tone, tone)


def _fold(says: str, width: int, sign: str = "", role: str = "", lead: str = "") -> Iterator[Line]:
    """A text in lines, a sign before the first and blanks before the others."""
    blank = " " * cells(sign)
    for place, row in enumerate(folded(plain(says), max(1, width - len(blank)))):
        bits = ((blank if place else sign, lead), (row, role))
        yield tuple(bit for bit in bits if bit[0])


def _facts(rows: Sequence[Fact], layout: LineLayout) -> Iterator[Line]:
    """Names on the left, each where there is room for it, else above what is said."""
    lead = 2 if any(one.tone in MARKS for one in rows) else 0
    most = layout.label - lead
    beside = any(cells(plain(one.label)) <= most for one in rows if one.label)
    for one in rows:
        name, sign = plain(one.label), MARKS.get(one.tone, "") or " " * lead
        role = _role(one.tone) if one.tone in MARKS else "quiet"
        says = "strong" if one.tone == "lead" else ""
        above = bool(name) and not (beside and cells(name) <= most)
        if above:
            yield from _fold(name, layout.width, sign, role, role)
        blank = " " * (layout.label + GAP if beside else lead + INSET)
        label = blank if above else f"{sign}{name}{blank[cells(sign + name) :]}"
        for place, told in enumerate(one.says):
            yield from _fold(told, layout.width, blank if place else label, says, role)


def _captioned(table: Table, layout: LineLayout) -> Iterator[Line]:
    if table.caption:
        yield from _fold(f"{table.caption}:", layout.width)
    yield from table_lines(table, layout)


def table_text(table: Table) -> Iterator[str]:
    """A table by itself as lines of plain text."""
    return map(_words, table_lines(table, LineLayout()))


def table_lines(table: Table, layout: LineLayout) -> Iterator[Line]:
    """A table in aligned columns; words wrap within theirs, figures never do.

    Where even that is too wide, each row is told cell by cell.
    """
    head = tuple(map(plain, table.head))
    rows = [tuple(map(plain, row)) for row in table.rows]
    widths = _widths([*([head] if head else []), *rows], table.figures, layout.width)
    if widths is None:
        yield from _told(head, rows, table.strong, layout)
        return
    row_lines = partial(_row, widths=widths, figures=table.figures)
    if head:
        yield from row_lines(head, role="quiet")
        yield (((" " * GAP).join("-" * width for width in widths), "quiet"),)
    room = layout.width - sum(widths) - GAP * len(widths)
    for place, row in enumerate(rows):
        first, *others = row_lines(row, role="strong" if place == table.strong else "")
        yield (*first, *_bar(table, place, sum(widths) + GAP * len(widths), first, room, layout))
        yield from others


def _widths(rows: Sequence[tuple[str, ...]], figures: Sequence[int], room: int) -> list[int] | None:
    """Widths of columns: what they need, and for the widest of words no more than there is."""
    if not rows:
        return []
    widths = [max(map(cells, column)) for column in zip(*rows, strict=True)]
    while sum(widths) + GAP * (len(widths) - 1) > room:
        words = [n for n in range(len(widths)) if n not in figures and widths[n] > NARROWEST]
        if not words:
            return None
        widths[max(words, key=lambda n: widths[n])] -= 1
    return widths


def _row(
    row: Sequence[str], widths: Sequence[int], figures: Sequence[int], role: str
) -> Iterator[Line]:
    columns = [folded(cell, width) for cell, width in zip(row, widths, strict=True)]
    for at in range(max(map(len, columns))):
        told = [column[at] if at < len(column) else "" for column in columns]
        filled = [
            " " * (width - cells(cell)) + cell
            if n in figures
            else cell + " " * (width - cells(cell))
            for n, (cell, width) in enumerate(zip(told, widths, strict=True))
        ]
        yield (((" " * GAP).join(filled).rstrip(), role),)


def _told(
    head: Sequence[str], rows: Iterable[Sequence[str]], strong: int | None, layout: LineLayout
) -> Iterator[Line]:
    """A table too wide for its room: the first cell of a row as a line, the others under it."""
    for place, (first, *others) in enumerate(rows):
        yield from _fold(first, layout.width, role="strong" if place == strong else "")
        for n, cell in enumerate(others, start=1):
            name = f"{head[n]} " if head else ""
            yield from _fold(cell, layout.width, f"{' ' * INSET}{name}", lead="quiet")


def _bar(
    table: Table, place: int, start: int, row: Line, room: int, layout: LineLayout
) -> Iterator[tuple[str, str]]:
    """The bar at the end of a row, and on it the mark; nothing where there is no room for one."""
    length = min(LONGEST, room)
    if not table.bars or length < SHORTEST:
        return
    filled = round(length * min(1.0, max(0.0, table.bars[place])))
    bar = f"{layout.bar * filled:<{length}}"
    yield " " * (start - sum(cells(words) for words, _ in row)), ""
    if not table.marks:
        yield bar.rstrip(), "bar"
        return
    mark = min(length - 1, round(length * table.marks[place]))
    yield bar[:mark], "bar"
    yield layout.mark, "quiet"
    yield bar[mark + 1 :].rstrip(), "bar"


def drawn_lines(chart: Chart, width: int) -> Iterator[str]:
    """A chart of years in signs: `|` common, `:` and `.` less so, `^` what they add up to."""
    axis = axis_for([int(year) for year in chart.values], width - NAME - GAP)
    room = " " * (NAME + GAP)
    yield (room + labels(axis)).rstrip()
    for bar in chart.bars:
        name = folded(plain(bar.label), NAME)
        short = name[0] if len(name) == 1 else f"{folded(name[0], NAME - 3)[0]} .."
        yield f"{short}{' ' * (NAME - cells(short) + GAP)}{_signs(bar, axis)}".rstrip()


def _signs(bar: Bar, axis: Axis) -> str:
    if bar.outer is None:
        return ""
    first, last = (int(year) for year in bar.outer)
    if bar.inner is None:
        start, end = axis.cell(first), axis.cell(last)
        return " " * start + "^" * (end - start + 1)
    start, end = (int(year) for year in bar.inner)
    return row_of([Years(first, start, end, last, "low")], axis)
