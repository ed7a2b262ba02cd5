"""What is special about a list of records and the page of one: columns, totals, actions.

A spec is written once for each type; `screen` and `page` do the rest. No widgets here.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import field
from typing import TYPE_CHECKING, Any, Generic, TypeVar

from appraise.app.lines import EMPTY, Line, fold, line
from appraise.app.widgets.columns import Column
from appraise.base.dataclass import dataclass
from appraise.records.fields import Record, typed_fields
from appraise.records.filter import fits, terms
from appraise.records.stored import Stored

if TYPE_CHECKING:
    from appraise.app.photos import Album
    from appraise.app.session import Session

R = TypeVar("R", bound=Record)


@dataclass(frozen=True, slots=True)
class Act:
    """What a key does to the record one is at.

    Attributes:
        do: Called with the screen and the record.
        free: Whether it is done without a record too, which is None then.
        knows: Whether it has to wait for the trade's knowledge.
    """

    do: Callable[[Any, Any], object]
    free: bool = False
    knows: bool = False


@dataclass(frozen=True, slots=True)
class ListView:
    """What the functions of a spec are given beside a record.

    Attributes:
        session: This run.
        more: What the spec read for the whole list.
        known: All records of the type, before the filter.
        shown: Those that are shown.
        query: The filter.
        every: Whether those that matter less are shown too.
    """

    session: Session
    more: Any = None
    known: Sequence[Stored[Any]] = ()
    shown: Sequence[Stored[Any]] = ()
    query: str = ""
    every: bool = False


Writer = Callable[[int], Sequence[Line]]
"""Writes lines of a width."""


def nothing_more(session: Session) -> Any:
    """A spec that reads nothing beside its records."""
    return None


def no_photos(session: Session, one: Stored[Any]) -> Album | None:
    """A record that has no photos."""
    return None


def unmarked(view: ListView, one: Stored[Any]) -> tuple[str, str]:
    """No sign before a row, and no role of its own."""
    return "", ""


def by_fields(view: ListView, records: Sequence[Stored[Any]], query: str) -> Sequence[Stored[Any]]:
    """The records that every term of a filter fits.

    Raises:
        InputError: for an unknown field, or a value that cannot be read.
    """
    if not records:
        return ()
    asked = terms(query, typed_fields(type(records[0].thing)))
    return [one for one in records if all(fits(one.thing, term) for term in asked)]


@dataclass(frozen=True, slots=True)
class RecordSpec(Generic[R]):
    """One type of record as a list and as a page.

    Attributes:
        name: The type in the log.
        title: What the list is called.
        area: Where the list's actions stand in the registry.
        page_area: Where the page's stand.
        columns: The columns of the table; the table is sorted by any of them.
        cell: The text of a record in a column.
        acts: What is done to a record, by the names in the registry.
        facts: Reads what the page tells of a record, and returns what writes it.
        totals: The line below the table.
        empty: What stands in an empty table; `nothing found` stands where a filter hides all.
        hint: What stands in the empty filter line.
        orders: The columns that the sort key goes through, the first one first; none: as they
            were added, then all that sort.
        rank: By what a column is sorted where its text will not do.
        down: Columns of which the largest comes first.
        mark: The sign before a row, and its role.
        load: Reads what belongs to the whole list.
        matches: The records that a filter fits.
        album: A record's photos; None where it can have none.
        shows: The types of record whose changes are undone here without a question.
        tabs: The types that stand beside it, for the keys that go from list to list.
        page: Makes the page of a record, where it does more than tell of it.
    """

    name: str
    title: str
    area: str
    page_area: str
    columns: tuple[Column, ...]
    cell: Callable[[ListView, Stored[R], str], str]
    acts: Mapping[str, Act]
    facts: Callable[[Session, Stored[R]], Writer]
    totals: Callable[[ListView], Line]
    empty: str
    hint: str = "/ filters: words, field=value"
    orders: tuple[str, ...] = ()
    rank: Mapping[str, Callable[[ListView, Stored[R]], Any]] = field(default_factory=dict)
    down: tuple[str, ...] = ()
    mark: Callable[[ListView, Stored[R]], tuple[str, str]] = unmarked
    load: Callable[[Session], Any] = nothing_more
    matches: Callable[[ListView, Sequence[Stored[R]], str], Sequence[Stored[R]]] = by_fields
    album: Callable[[Session, Stored[R]], Album | None] = no_photos
    shows: frozenset[str] = frozenset()
    tabs: tuple[str, ...] = ()
    page: Callable[[Any, Stored[R]], Any] | None = None

    @property
    def turns(self) -> tuple[str, ...]:
        """The columns that the sort key goes through."""
        return self.orders or ("", *(one.name for one in self.columns if one.sorts))

    def sorted(
        self, view: ListView, records: Sequence[Stored[R]], order: tuple[str, bool]
    ) -> list[Stored[R]]:
        """The records in an order; unknown values last, ties as they came."""
        column, down = order
        if not column:
            return list(reversed(records) if down else records)
        rank = self.rank.get(column) or (lambda view, one: self.cell(view, one, column).casefold())
        keyed = [(rank(view, one), one) for one in records]
        told = [pair for pair in keyed if pair[0] not in ("", None)]
        told.sort(key=lambda pair: pair[0], reverse=down)
        return [one for _, one in told] + [one for key, one in keyed if key in ("", None)]


def nothing_found(width: int) -> list[Line]:
    """What stands in a table of which a filter hides all."""
    return [EMPTY, line("  Nothing matches the filter; ", ("esc", "key"), " clears it.")]


def nothing_there(says: str, width: int) -> list[Line]:
    """What stands in a table of which there is nothing."""
    return [EMPTY, *fold(says, max(1, width - 2), "  ")]
