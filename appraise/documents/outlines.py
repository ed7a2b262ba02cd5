"""Outlines of plates and mounts at true scale: every size on a sheet to lay a piece against.

All outlines of a sheet share their upper left corner, and each has its name on its lower edge.
Where two names would lie on each other the second size stands on another sheet. Lengths are in mm.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from html import escape

from appraise.base.dataclass import dataclass
from appraise.knowledge.records import Format, Knowledge

SHEETS = {"A4": (186.0, 262.0), "A3": (273.0, 392.0)}
"""What a sheet holds within its margins and below its heading (ISO 216: 210 x 297, 297 x 420)."""
BAR = 50.0  # the length by which the printer is checked
TYPE, WIDE = 2.6, 1.45  # the height of the words, and the room for one letter
PLATES = ("cased", "loose-plate")
GROUPS = {"plates": "Plates", "mounts": "Mounts, cards, slides and paper"}


@dataclass(frozen=True, slots=True)
class Outline:
    """One size with the words at its corner, and where these begin."""

    id: str
    width: float
    height: float
    told: str
    left: float

    @property
    def words(self) -> tuple[float, float, float, float]:
        """The room of its words: left, top, right, bottom."""
        right = self.left + WIDE * len(self.told)
        return self.left, self.height - TYPE - 0.4, right, self.height + 0.4


@dataclass(frozen=True, slots=True)
class OutlineSheet:
    """A sheet of paper with its outlines, the largest first."""

    group: str
    paper: str
    outlines: tuple[Outline, ...]


def sheets(knowledge: Knowledge) -> tuple[OutlineSheet, ...]:
    """Every size of every format, plates first, on as few sheets as leave all names readable."""
    out: list[OutlineSheet] = []
    for group in GROUPS:
        for paper in SHEETS:
            mine = [
                (form, size)
                for form in knowledge.formats.values()
                if (group == "plates") == bool({*PLATES} & {*form.kinds})
                for size in form.sizes
                if paper_for(*size) == paper
            ]
            out += [
                OutlineSheet(group, paper, rows) for rows in _shared_out(_outlines(mine, paper))
            ]
    return tuple(out)


def paper_for(width: float, height: float) -> str:
    """The smallest paper that holds a size; a size too large for all is put on none."""
    return next((name for name, (w, h) in SHEETS.items() if width <= w and height <= h), "")


def _outlines(found: Iterable[tuple[Format, tuple[float, float]]], paper: str) -> list[Outline]:
    """The outlines, the largest first, their words where there is room on the paper."""
    out = [
        Outline(form.id, *size, f"{form.name} {size[0]:g} x {size[1]:g}", SHEETS[paper][0])
        for form, size in found
    ]
    return sorted(out, key=lambda one: (-one.width * one.height, one.id))


def _shared_out(outlines: Sequence[Outline]) -> list[tuple[Outline, ...]]:
    """The outlines on sheets, each on the first where its words lie on no others."""
    out: list[list[Outline]] = [[]]
    for one in outlines:
        tries = ((sheet, told) for sheet in [*out, []] for told in _worded(one))
        sheet, told = next(
            (sheet, told)
            for sheet, told in tries
            if not any(_meet(told.words, each.words) for each in sheet)
        )
        sheet.append(told)
        if not any(sheet is each for each in out):
            out.append(sheet)
    return [tuple(sheet) for sheet in out if sheet]


def _worded(one: Outline) -> Iterator[Outline]:
    """The outline with its words beside its corner, or on its lower edge, right, left or between.

    What it was given as the place of its words is the width of the paper.
    """
    room = one.left - WIDE * len(one.told)
    inner = one.width - WIDE * len(one.told) - 1
    lefts = (one.width + 1, inner, 1.0, inner / 2, inner / 3, 2 * inner / 3)
    near = [left for left in lefts if 0 < left <= min(room, one.width + 1)]
    yield from (replace(one, left=left) for left in near or [max(0.0, room)])


def _meet(one: tuple[float, ...], other: tuple[float, ...]) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def drawn(sheet: OutlineSheet) -> Iterator[str]:
    """The sheet as SVG in which one unit is one millimetre."""
    width, height = SHEETS[sheet.paper]
    yield (
        f'<svg class="outlines" xmlns="http://www.w3.org/2000/svg" width="{width:g}mm" '
        f'height="{height:g}mm" viewBox="-0.5 -0.5 {width:g} {height:g}" role="img">'
    )
    for one in sheet.outlines:
        yield (
            f'<rect data-format="{escape(one.id)}" x="0" y="0" width="{one.width:g}" '
            f'height="{one.height:g}"/>'
        )
    for one in sheet.outlines:
        yield f'<text x="{one.left:g}" y="{one.height - 0.6:g}">{escape(one.told)}</text>'
    yield "</svg>"


def bar() -> str:
    """The bar by which the printer is checked, with a mark at every ten millimetres."""
    ticks = "".join(f"M{at:g} 0V4" for at in range(0, int(BAR) + 1, 10))
    return (
        f'<svg class="bar" xmlns="http://www.w3.org/2000/svg" width="{BAR + 1:g}mm" height="5mm" '
        f'viewBox="-0.5 -0.5 {BAR + 1:g} 5" role="img" aria-label="{BAR:g} mm">'
        f'<path d="M0 2H{BAR:g}{ticks}"/></svg>'
    )
