"""The orders in which prices are shown."""

from __future__ import annotations

from dataclasses import dataclass

COLUMNS = ("date", "price", "title", "process", "format")
SAID = {
    "-date": "latest first",
    "date": "earliest first",
    "-price": "most expensive first",
    "price": "cheapest first",
}


@dataclass(frozen=True, slots=True)
class SortOrder:
    """A column, and whether its largest comes first."""

    column: str = "date"
    down: bool = True

    @property
    def sort(self) -> str:
        """As the log is asked."""
        return f"-{self.column}" if self.down else self.column

    @property
    def says(self) -> str:
        """As the head of the screen tells it."""
        return SAID.get(self.sort, f"by {self.column}{', z first' if self.down else ''}")

    def next(self) -> SortOrder:
        """The next column: amounts and days with the largest first, words from a on."""
        column = COLUMNS[(COLUMNS.index(self.column) + 1) % len(COLUMNS)]
        return SortOrder(column, column in ("date", "price"))

    def turned(self) -> SortOrder:
        """The other way round."""
        return SortOrder(self.column, not self.down)
