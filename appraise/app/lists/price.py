"""The price log as a list, and the page of an entry."""

from __future__ import annotations

from dataclasses import replace

from appraise.app.desklines import WORDS
from appraise.app.discretion import DOTS
from appraise.app.lines import EMPTY, Line, fold
from appraise.app.lists.spec import ListView, RecordSpec
from appraise.app.marks import DOUBT
from appraise.app.page import document_rows
from appraise.app.photos import Album, Pictures
from appraise.app.prices import actions
from appraise.app.session import Session
from appraise.app.widgets.columns import Column
from appraise.app.widgets.reading import Write
from appraise.base.logday import day_in_words
from appraise.documents.bid import line_name
from appraise.documents.price_page import entry_page
from appraise.pricing.cost_basis import bill_of
from appraise.records.entry import Entry
from appraise.records.stored import Stored

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


def _price(view: ListView, one: Stored[Entry]) -> str:
    session = view.session
    return DOTS if session.discreet else priced(one.thing, session.settings.currency)


def priced(entry: Entry, currency: str) -> str:
    """The amount that says most, its currency named where it is not the usual one."""
    if entry.price is None:
        return ""
    return entry.price.plain if entry.price.currency == currency else str(entry.price)


def _mark(view: ListView, one: Stored[Entry]) -> tuple[str, str]:
    return (DOUBT if view.session.odd(one.id) else "", "")


def _facts(session: Session, one: Stored[Entry]) -> Write:
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
    nouns=("entry", "entries"),  # added up by a worker, and told by the screen
    columns=(
        Column("date", "day", 11, whole=True),
        Column("record", "how", 10, 60),
        Column("title", "title"),
        Column("process", "process", 13, 76),
        Column("housing", "housing", 13, 110),
        Column("format", "size", 13, 110),
        Column("price", "price", 11, right=True, whole=True),
    ),
    acts=actions.PRICES,
    empty="The log is empty. Press n to log a price.",
    hint="/ filters: girl vine process=amb price=20-50 date=2025-",
    cells={
        "date": lambda view, one: day_in_words(str(one.thing.date)),
        "record": lambda view, one: WORDS[one.thing.record],
        "title": lambda view, one: one.thing.title or one.thing.motif,
        "price": _price,
    },
    facts=_facts,
    orders=("date", "price", "title", "process", "format"),
    down=("date",),
    mark=_mark,
    album=_album,
)
