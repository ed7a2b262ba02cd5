"""What a list of records and the pages of these are made of: a spec for each type of record.

The spec of a type stands as `SPEC` in the module of this folder that bears the type's name in the
log; its keys stand in the table of `actions`.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import field
from importlib import import_module
from typing import TYPE_CHECKING, Any, Generic, TypeVar

from appraise.app.lines import EMPTY, Line, fold, line
from appraise.app.lists.facts import as_recorded
from appraise.app.widgets.columns import Column
from appraise.app.widgets.reading import Write
from appraise.base.dataclass import dataclass
from appraise.base.money import Money
from appraise.records.fields import Record, typed_fields
from appraise.records.filter import fits, terms
from appraise.records.stored import Stored

if TYPE_CHECKING:
    from appraise.app.photos import Album
    from appraise.app.session import Session

R = TypeVar("R", bound=Record)
Of = Callable[["ListView", Stored[R]], Any]
"""What is told of a record in a list."""


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


def later(module: str, name: str) -> Callable[[Any, Any], object]:
    """What a key does that needs a module which is imported when it is first pressed."""

    def do(sheet: Any, here: Any) -> object:
        return getattr(import_module(f"appraise.app.{module}"), name)(sheet, here)

    return do


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

    def counted(self, one: str, several: str) -> str:
        """How many are shown, and of how many where a filter hides some."""
        many = len(self.shown)
        told = f"{many:,} {one if many == 1 else several}"
        return f"{told} of {len(self.known):,}" if self.query else told

    def hidden(self, says: str) -> str:
        """How many are not shown unless one asks for all."""
        many = 0 if self.every or self.query else len(self.known) - len(self.shown)
        return f"   {many} {says}: a shows them" if many and says else ""


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
        nouns: What one record is called, and several.
        columns: The columns of the table; the table is sorted by any of them.
        acts: What is done to a record, by the names in the registry.
        empty: What stands in an empty table; `nothing found` stands where a filter hides all.
        hint: What stands in the empty filter line.
        cells: The text of a record in a column, where it is not that of the field of its name.
        facts: Reads what the page tells of a record, and returns what writes it.
        less: What is said of records that are not shown unless one asks for all.
        foot: A sentence below the table.
        totals: The line below the table, where counts and the sentence will not do.
        orders: The columns that the sort key goes through, the first one first; none: as they
            were added, then all that sort.
        rank: By what a column is sorted where its value will not do.
        down: Columns of which the largest comes first, beside those of figures.
        mark: The sign before a row, and its role.
        load: Reads what belongs to the whole list.
        matches: The records that a filter fits.
        album: A record's photos; None where it can have none.
        shows: The types of record whose changes are undone here without a question; none: its own
            and those of its tabs.
        tabs: The types that stand beside it, for the keys that go from list to list.
        page: Makes the page of a record, where it does more than tell of it.
    """

    name: str
    title: str
    area: str
    page_area: str
    nouns: tuple[str, str]
    columns: tuple[Column, ...]
    acts: Mapping[str, Act]
    empty: str
    hint: str = "/ filters: words, field=value"
    cells: Mapping[str, Of[R]] = field(default_factory=dict)
    facts: Callable[[Session, Stored[R]], Write] = as_recorded
    less: str = ""
    foot: str = ""
    totals: Callable[[ListView], Line] | None = None
    orders: tuple[str, ...] = ()
    rank: Mapping[str, Of[R]] = field(default_factory=dict)
    down: tuple[str, ...] = ()
    mark: Callable[[ListView, Stored[R]], tuple[str, str]] = lambda view, one: ("", "")
    load: Callable[[Session], Any] = lambda session: None
    matches: Callable[[ListView, Sequence[Stored[R]], str], Sequence[Stored[R]]] = by_fields
    album: Callable[[Session, Stored[R]], Album | None] = lambda session, one: None
    shows: frozenset[str] = frozenset()
    tabs: tuple[str, ...] = ()
    page: Callable[[Any, Stored[R]], Any] | None = None

    @property
    def undoes(self) -> frozenset[str]:
        """The types of record whose changes are undone here without a question."""
        return self.shows or frozenset(self.tabs or (self.name,))

    @property
    def turns(self) -> tuple[str, ...]:
        """The columns that the sort key goes through."""
        return self.orders or ("", *(one.name for one in self.columns if one.sorts))

    def largest_first(self, column: str) -> bool:
        """Whether the largest of a column comes first."""
        return column in self.down or any(one.name == column and one.right for one in self.columns)

    def cell(self, view: ListView, one: Stored[R], name: str) -> str:
        """The text of a record in a column."""
        if name in self.cells:
            return str(self.cells[name](view, one))
        known = (each for each in type(one.thing).FIELDS if each.name == name)
        each = next(known, None)
        return each.text(one.thing) if each else str(getattr(one.thing, name))

    def _rank(self, view: ListView, one: Stored[R], column: str) -> Any:
        """By what a record is sorted: an amount or a number by itself, all else by its text."""
        if column in self.rank:
            return self.rank[column](view, one)
        value = getattr(one.thing, column, None)
        if isinstance(value, Money):
            return value.amount
        return value if isinstance(value, int) else self.cell(view, one, column).casefold()

    def sorted(
        self, view: ListView, records: Sequence[Stored[R]], order: tuple[str, bool]
    ) -> list[Stored[R]]:
        """The records in an order; unknown values last, ties as they came."""
        column, down = order
        if not column:
            return list(reversed(records) if down else records)
        keyed = [(self._rank(view, one, column), one) for one in records]
        told = [pair for pair in keyed if pair[0] not in ("", None)]
        told.sort(key=lambda pair: pair[0], reverse=down)
        return [one for _, one in told] + [one for key, one in keyed if key in ("", None)]

    def below(self, view: ListView) -> Line:
        if self.totals is not None:
            return self.totals(view)
        foot = f"   {self.foot}" if self.foot else ""
        return line(f" {view.counted(*self.nouns)}{view.hidden(self.less)}", (foot, "quiet"))


def spec_of(name: str) -> RecordSpec[Any]:
    """The spec of a type of record, imported when its list is first opened."""
    spec: RecordSpec[Any] = import_module(f"appraise.app.lists.{name}").SPEC
    return spec


def nothing_found(width: int) -> list[Line]:
    """What stands in a table of which a filter hides all."""
    return [EMPTY, line("  Nothing matches the filter; ", ("esc", "key"), " clears it.")]


def nothing_there(says: str, width: int) -> list[Line]:
    """What stands in a table of which there is nothing."""
    return [EMPTY, *fold(says, max(1, width - 2), "  ")]
