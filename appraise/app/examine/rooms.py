"""How the Examine screen is divided, for any size of terminal."""

from __future__ import annotations

from appraise.app.widgets.band import rows_for
from appraise.base.dataclass import dataclass

NARROW, WIDE, VAST = 72, 110, 160  # cells from which there is a panel, a rail, and more beside
RAIL = 20
PANELS = {NARROW: 38, WIDE: 40, VAST: 48}
MORE = 44
MOST = 96  # cells of a question: wider lines are hard to read
FRAME = 2  # the head and the line of keys


@dataclass(frozen=True, slots=True)
class Rooms:
    """Cells of each pane, 0 where it is not shown; lines of the band, the strip and the panes.

    A pane keeps a blank cell at either side.
    """

    rail: int
    question: int
    panel: int
    more: int
    band: int
    strip: int
    rows: int

    @property
    def alone(self) -> bool:
        """Whether no panel stands beside the question."""
        return not self.panel


def rooms_for(width: int, height: int) -> Rooms:
    """The division of a screen of so many cells and lines."""
    rail = RAIL if width >= WIDE else 0
    panel = next((cells for least, cells in reversed(PANELS.items()) if width >= least), 0)
    more = MORE if width >= VAST else 0
    spare = max(0, width - rail - panel - more - MOST)
    if more and spare:
        panel, more = panel + min(24, spare // 3), more + spare - min(24, spare // 3)
    band = rows_for(height)
    strip = 0 if rail or height < 10 else 1
    rows = max(1, height - FRAME - band - strip)
    return Rooms(rail, width - rail - panel - more, panel, more, band, strip, rows)
