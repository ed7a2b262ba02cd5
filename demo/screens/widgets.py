"""Every widget of our own on one page, with invented figures: `python demo/screens/widgets.py`.

Wheel and paging keys move, t changes day and night, q leaves. `--ascii` draws in plain signs,
`--text` prints the page.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from typing import ClassVar

from textual.app import App, ComposeResult
from textual.binding import Binding, BindingType

from appraise.app.app import SCREENS
from appraise.app.lines import EMPTY, Line, line, words_of
from appraise.app.marks import DOUBT, ORDER, UNSEEN, WARN, Marks, marks_for
from appraise.app.themes import NAMES, chosen, other, theme
from appraise.app.widgets.band import TONES, band
from appraise.app.widgets.drawing import drawing_lines
from appraise.app.widgets.marked import PartMark, mark_row, rail, strip
from appraise.app.widgets.moneyaxis import Mark, money_axis
from appraise.app.widgets.photo import thumbnail
from appraise.app.widgets.reading import Tall
from appraise.app.widgets.stacked import BarPart, stacked
from appraise.app.widgets.years import YearRow, year_lines
from appraise.base.places import shipped_demo
from appraise.knowledge.records import Years as Dated
from appraise.verdict.headline import ORDER as IN_ORDER

PHOTO = "photos/girl-basket.jpg"
PARTS = (
    PartMark("plate", ORDER, " 8"),
    PartMark("mat", DOUBT, " 2"),
    PartMark("glass", WARN, " 1"),
    PartMark("hinge", UNSEEN, "  "),
)
SHARES = (
    BarPart("together", 0.83, "good"),
    BarPart("married", 0.15, "doubt"),
    BarPart("modern", 0.02, "stop"),
)
NOTED = Mark("limit 80", "80", 80, "head"), Mark("asked 85", "85", 85, "warn")
DATED = {
    "image": (1856, 1858, 1863, 1866),
    "case": (1853, 1855, 1868, 1873),
    "mat": (1866, 1868, 1874, 1879),
}
SAYS = "Ambrotype, about 1858-67, probably together (83%). Asked 85: 5 above your limit of 80."


def page(width: int, marks: Marks, colours: bool = True) -> list[Line]:
    """All of them, each under its name."""
    out: list[Line] = []
    for name, rows in _widgets(width, marks, colours):
        out += [line((name, "head")), *rows, EMPTY]
    return out


def _widgets(width: int, marks: Marks, colours: bool) -> list[tuple[str, Sequence[Line]]]:
    bands = [band([SAYS], tone, width, 2, marks) for tone in (IN_ORDER, *TONES)]
    return [
        ("the answer in a band", [row for rows in bands for row in rows]),
        ("years", year_lines(_dated(), width, marks)),
        ("belonging", stacked(SHARES, width, marks)),
        ("money", money_axis((52, 61, 77, 78, 84, 96), (53, 81, 130), NOTED, width, marks)),
        ("condition", [mark_row("condition", PARTS[:3], width, marks)]),
        ("parts in a rail", rail(PARTS, 1, 20, len(PARTS), marks)),
        ("parts in a line", [strip(PARTS, 1, width, marks)]),
        ("a drawing", drawing_lines("mat-nonpareil", 24, 8, marks.grain)),
        ("a photo", thumbnail(shipped_demo() / PHOTO, 40, 12, marks, colours)),
    ]


def _dated() -> list[YearRow]:
    """Rows of years from the four years of an answer, and one that sums them up."""
    rows = [
        YearRow(name, Dated(*years, confidence="low").weight, years[1], years[2],
              f"{years[1]}-{years[2] % 100}", odd=name == "mat")
        for name, years in DATED.items()
    ]  # fmt: skip
    return [*rows, YearRow("combined", lambda _: 0.0, 1858, 1867, "1858-67", sums=True)]


class Gallery(App[None], inherit_bindings=False):
    """The page in the app's own themes."""

    CSS_PATH: ClassVar = [SCREENS.with_name("app.tcss"), SCREENS]
    ENABLE_COMMAND_PALETTE = False
    BINDINGS: ClassVar[list[BindingType]] = [Binding("q", "quit"), Binding("t", "theme")]

    def __init__(self, marks: Marks) -> None:
        super().__init__()
        self._marks = marks
        for name in NAMES:
            self.register_theme(theme(name))
        self.theme = chosen("auto")

    def compose(self) -> ComposeResult:
        yield Tall(lambda width, _: page(width, self._marks, not self.no_color))

    def action_theme(self) -> None:
        self.theme = other(self.theme)


def main(options: Sequence[str]) -> None:
    """Show the page, or print it."""
    marks = marks_for("--ascii" in options)
    if "--text" in options:
        print("\n".join(words_of(row).rstrip() for row in page(78, marks, colours=False)))
    else:
        Gallery(marks).run()


if __name__ == "__main__":
    main(sys.argv[1:])
