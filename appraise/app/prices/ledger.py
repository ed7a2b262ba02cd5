"""A long list seen through a window: pages are fetched when they are looked at. No widgets here."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from appraise.log.entries import Entry

PAGE = 100  # entries fetched at once
KEPT = 8  # pages remembered

Fetch = Callable[[int, int], Sequence[Entry]]
"""Fetches `limit` entries from `offset` on."""


class Ledger:
    """Entries by their place in a list that may be very long, and the place one is at."""

    def __init__(self, fetch: Fetch, count: int, at: int = 0) -> None:
        self._fetch = fetch
        self._pages: dict[int, Sequence[Entry]] = {}
        self.count = count
        self.at = max(0, min(at, count - 1))
        self.top = 0

    def entry(self, place: int) -> Entry | None:
        """The entry at a place, or None beyond the end."""
        if not 0 <= place < self.count:
            return None
        number, rest = divmod(place, PAGE)
        page = self._pages.pop(number, None)
        if page is None:
            page = self._fetch(PAGE, number * PAGE)
        self._pages[number] = page
        while len(self._pages) > KEPT:
            self._pages.pop(next(iter(self._pages)))
        return page[rest] if rest < len(page) else None

    def window(self, rows: int) -> list[tuple[int, Entry]]:
        """The places and entries in a window of `rows`, moved no further than needed."""
        self.top = max(min(self.top, self.at), self.at - rows + 1, 0)
        self.top = max(0, min(self.top, self.count - rows))
        found = ((place, self.entry(place)) for place in range(self.top, self.top + rows))
        return [(place, entry) for place, entry in found if entry is not None]

    def move(self, by: int) -> None:
        """Go so many places on, as far as the list goes."""
        self.at = max(0, min(self.count - 1, self.at + by))
