"""Marked lots as a list: what closes next, bids, results."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from appraise.app.lines import Line, line
from appraise.app.lists.spec import ListView, RecordSpec
from appraise.app.lots import actions
from appraise.app.lots.actions import now_in
from appraise.app.lots.lotlines import lot_page
from appraise.app.marks import WARN
from appraise.app.page import document_rows
from appraise.app.widgets.columns import Column
from appraise.app.widgets.reading import Write
from appraise.collection.budget_status import BudgetStatus
from appraise.collection.lotsteps import by_closing, due
from appraise.documents.budget import promised_line, purse_line
from appraise.documents.lots import standing_words
from appraise.records.lot import Lot
from appraise.records.stored import Stored
from appraise.store.venue_book import read_budget_status

if TYPE_CHECKING:
    from appraise.app.lists.page import RecordPage
    from appraise.app.session import Session


def _status(view: ListView, one: Stored[Lot]) -> str:
    now = now_in(view.session)
    when = due(one.thing, now.at, now.zone)
    return standing_words(one.thing, when, now).removeprefix("closes ")


def _bid(view: ListView, one: Stored[Lot]) -> str:
    lot = one.thing
    if lot.bid is not None:
        return f"bid {lot.bid.plain}"
    return f"most {lot.ceiling.plain}" if lot.ceiling is not None else ""


def _amount(lot: Lot) -> Decimal | None:
    money = lot.bid or lot.ceiling
    return money.amount if money else None


def _mark(view: ListView, one: Stored[Lot]) -> tuple[str, str]:
    now = now_in(view.session)
    when = due(one.thing, now.at, now.zone)
    return (WARN, "warn") if when.urgent or when.overdue else ("", "")


def _facts(session: Session, one: Stored[Lot]) -> Write:
    page = lot_page(one, None, "", now_in(session))
    return lambda width: document_rows(page, width, session.marks)


def _purse(session: Session) -> BudgetStatus:
    return read_budget_status(session.log, session.settings.currency, session.as_of)


def _totals(view: ListView) -> Line:
    """How many there are, what is left to spend, and what the bids cost."""
    purse = [purse_line(view.more), promised_line(view.more)] if view.more is not None else []
    told = "; ".join(part for part in purse if part)
    return line(f" {view.counted(*SPEC.nouns)}{view.hidden('ended')}   ", (told, "strong"))


def _page(spec: RecordSpec[Lot], one: Stored[Lot]) -> RecordPage:
    from appraise.app.lots.page import LotPage  # 5 ms

    return LotPage(spec, one)


SPEC: RecordSpec[Lot] = RecordSpec(
    name="lot",
    title="Lots",
    area="lots",
    page_area="lot",
    nouns=("lot", "lots"),
    columns=(
        Column("status", "closing", 22, whole=True),
        Column("title", "lot"),
        Column("venue", "venue", 20, 84),
        Column("bid", "bid or limit", 15, 60, right=True, whole=True),
    ),
    acts=actions.LOTS,
    empty="No marked lots. Press n, or f on a listing or a bid, to add one.",
    hint="/ filters: soldier venue=rooms channel=auction",
    cells={"status": _status, "bid": _bid},
    facts=_facts,
    totals=_totals,
    orders=("status", "title", "venue", "bid"),
    rank={
        "status": lambda view, one: by_closing(one.thing, None),
        "bid": lambda view, one: _amount(one.thing),
    },
    mark=_mark,
    load=_purse,
    shows=frozenset({"lot", "budget"}),
    page=_page,
)
