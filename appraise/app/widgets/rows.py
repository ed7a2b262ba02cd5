"""What a table shows rows of: a sequence, or a long list of which pages are fetched. No widgets."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Generic, Protocol, TypeVar

T = TypeVar("T")
T_co = TypeVar("T_co", covariant=True)
PAGE = 50  # rows fetched at once
KEPT = 8  # pages remembered

Fetch = Callable[[int, int], Sequence[T]]
"""Fetches `limit` rows from `offset` on."""


class Rows(Protocol[T_co]):
    """Rows by their place."""

    @property
    def count(self) -> int:
        """How many there are."""

    @property
    def least(self) -> int:
        """How many there are as far as is known without asking."""

    def at(self, place: int) -> T_co | None:
        """The row at a place, or None beyond the ends."""


class Listed(Generic[T]):
    """Rows that are all there."""

    def __init__(self, rows: Sequence[T] = ()) -> None:
        self.rows = rows

    @property
    def count(self) -> int:
        return len(self.rows)

    least = count

    def at(self, place: int) -> T | None:
        return self.rows[place] if 0 <= place < len(self.rows) else None


class Paged(Generic[T]):
    """Rows of a list that may be very long: pages are fetched when they are looked at.

    How many there are is learnt from a page that is not full, or told from outside; it is asked
    for only where one goes beyond what is known.
    """

    def __init__(self, fetch: Fetch[T], ask: Callable[[], int], known: int | None = None) -> None:
        self._fetch = fetch
        self._ask = ask
        self._pages: dict[int, Sequence[T]] = {}
        self._count: int | None = None
        self._least = known or 0

    @property
    def count(self) -> int:
        """How many there are; asked for when it is not known yet."""
        if self._count is None:
            self._count = self._ask()
        return self._count

    @property
    def least(self) -> int:
        """How many there are, or at least are as far as was seen."""
        return self._least if self._count is None else self._count

    def told(self, count: int) -> None:
        """How many there are has been found out elsewhere."""
        self._count = count

    def at(self, place: int) -> T | None:
        """The row at a place, or None beyond the ends."""
        if place < 0 or (self._count is not None and place >= self._count):
            return None
        number, rest = divmod(place, PAGE)
        page = self._pages.pop(number, None)
        if page is None:
            page = self._fetch(PAGE, number * PAGE)
            self._least = max(self._least, number * PAGE + len(page) + (len(page) == PAGE))
            if len(page) < PAGE and (page or not number):
                self._count = number * PAGE + len(page)
        self._pages[number] = page
        while len(self._pages) > KEPT:
            self._pages.pop(next(iter(self._pages)))
        return page[rest] if rest < len(page) else None
