"""The price log as a list, and the page of an entry."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from appraise.app.desklines import WORDS
from appraise.app.discretion import DOTS
from appraise.app.lines import EMPTY, Line, fold
from appraise.app.lists.spec import ListView, RecordSpec, Writer
from appraise.app.marks import DOUBT
from appraise.app.page import document_rows
from appraise.app.photos import Album, Pictures
from appraise.app.prices import actions
from appraise.app.session import Session
from appraise.app.widgets.columns import Column
from appraise.base.logday import day_in_words
from appraise.documents.bid import line_name
from appraise.documents.price_page import entry_page
from appraise.pricing.cost_basis import bill_of
from appraise.records.entry import Entry
from appraise.records.stored import Stored

if TYPE_CHECKING:
    from appraise.app.session import Session

LABEL = 12  # cells
LEARNT_AT_ONCE = 5_000
"""Entries up to which the log is learnt as soon as it is shown, so that odd prices are marked."""


def status_lines(session: Session, entry: Entry, width: int) -> list[Line]:
    """What stands above an entry's fields; nothing where its price is as it was noted and fits."""
    out: list[Line] = []
    odd = session.odd(entry.id)
    if odd:
        out += fold(odd, width, "? ", role="doubt", lead_role="doubt")
    bill = bill_of(entry, session.settings.currency, session.book)
    if bill is not None and len(bill.lines) > 1:
        parts = ", ".join(f"{line_name(one)} {one.amount.plain}" for one in bill.lines)
        told = f"{bill.total} to you ({parts})"
        out += fold(told, width, f"{'total':<{LABEL}} ", lead_role="quiet")
    return [*out, EMPTY] if out else []


def _cell(view: ListView, one: Stored[Entry], name: str) -> str:
    entry, session = one.thing, view.session
    if name == "price":
        return DOTS if session.discreet else priced(entry, session.settings.currency)
    if name == "title":
        return entry.title or entry.motif
    if name == "record":
        return WORDS[entry.record]
    told = str(getattr(entry, name))
    return day_in_words(told) if name == "date" else told


def priced(entry: Entry, currency: str) -> str:
    """The amount that says most, its currency named where it is not the usual one."""
    if entry.price is None:
        return ""
    return entry.price.plain if entry.price.currency == currency else str(entry.price)


def _mark(view: ListView, one: Stored[Entry]) -> tuple[str, str]:
    return (DOUBT if view.session.odd(one.id) else "", "")


def _facts(session: Session, one: Stored[Entry]) -> Writer:
    """How its price stands, then the entry as it is told everywhere."""
    page = entry_page(one.thing)

    def write(width: int) -> list[Line]:
        status = [] if session.discreet else status_lines(session, one.thing, width)
        return [*status, *document_rows(page, width, session.marks)]

    return write


def _album(session: Session, one: Stored[Entry]) -> Album:
    entry = one.thing

    def save(pictures: Pictures) -> None:
        session.log.edit(replace(entry, pictures=pictures), was=entry)

    return Album(entry.pictures, save)


SPEC: RecordSpec[Entry] = RecordSpec(
    name="price",
    title="Prices",
    area="prices",
    page_area="entry",
    columns=(
        Column("date", "day", 11, whole=True),
        Column("record", "how", 10, 60),
        Column("title", "title"),
        Column("process", "process", 13, 76),
        Column("housing", "housing", 13, 110),
        Column("format", "size", 13, 110),
        Column("price", "price", 11, right=True, whole=True),
    ),
    cell=_cell,
    acts=actions.PRICES,
    facts=_facts,
    totals=lambda view: (),  # added up by a worker, and told by the screen
    empty="The log is empty. Press n to log a price.",
    hint="/ filters: girl vine process=amb price=20-50 date=2025-",
    orders=("date", "price", "title", "process", "format"),
    down=("date", "price"),
    mark=_mark,
    album=_album,
    shows=frozenset({"price"}),
)
