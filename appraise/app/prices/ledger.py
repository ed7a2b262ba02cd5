"""A long list seen through a window: pages are fetched when they are looked at. No widgets here."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from appraise.records.entry import Entry

PAGE = 50  # entries fetched at once
KEPT = 8  # pages remembered

Fetch = Callable[[int, int], Sequence[Entry]]
"""Fetches `limit` entries from `offset` on."""


class Ledger:
    """Entries by their place in a list that may be very long, and the place one is at.

    How many there are is learnt from a page that is not full, or told from outside; it is asked
    for only where one goes beyond what is known.
    """

    def __init__(self, fetch: Fetch, ask: Callable[[], int], at: int = 0, top: int = 0) -> None:
        self._fetch = fetch
        self._ask = ask
        self._pages: dict[int, Sequence[Entry]] = {}
        self._count: int | None = None
        self.at = at
        self.top = top

    @property
    def count(self) -> int:
        """How many entries there are; asked for when it is not known yet."""
        if self._count is None:
            self._count = self._ask()
        return self._count

    def told(self, count: int) -> None:
        """How many there are has been found out elsewhere."""
        self._count = count

    def entry(self, place: int) -> Entry | None:
        """The entry at a place, or None beyond the ends."""
        if place < 0 or (self._count is not None and place >= self._count):
            return None
        number, rest = divmod(place, PAGE)
        page = self._pages.pop(number, None)
        if page is None:
            page = self._fetch(PAGE, number * PAGE)
            if len(page) < PAGE and (page or not number):
                self._count = number * PAGE + len(page)
        self._pages[number] = page
        while len(self._pages) > KEPT:
            self._pages.pop(next(iter(self._pages)))
        return page[rest] if rest < len(page) else None

    def window(self, rows: int) -> list[tuple[int, Entry]]:
        """The places and entries in a window of `rows`, moved no further than needed."""
        self.move(0)
        self.top = max(min(self.top, self.at), self.at - rows + 1, 0)
        if self.entry(self.top + rows - 1) is None:
            self.top = max(0, min(self.top, self.count - rows))
        found = ((place, self.entry(place)) for place in range(self.top, self.top + rows))
        return [(place, entry) for place, entry in found if entry is not None]

    def move(self, by: int) -> None:
        """Go so many places on, as far as the list goes."""
        self.at = max(0, self.at + by)
        if self.entry(self.at) is None:
            self.at = max(0, self.count - 1)

    def end(self, way: int) -> None:
        """Go to the first place, or to the last."""
        self.at = max(0, self.count - 1) if way > 0 else 0
