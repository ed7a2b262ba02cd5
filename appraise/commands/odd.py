"""Prices that fit nothing else in the log: marked in lists, told in full beside one entry."""

from __future__ import annotations

import json
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

from appraise.base.errors import InputError
from appraise.commands.learnt import PriceSource, files_state
from appraise.store.revisions import last

if TYPE_CHECKING:
    from appraise.commands.workspace import AtHome
    from appraise.knowledge.records import Knowledge
    from appraise.records.entry import Entry
    from appraise.store.log import Log

LEARNT_UNASKED = 1_000
"""Entries up to which a command learns the log (under a second) without being asked to."""


def slip_of(work: AtHome, log: Log, entry: Entry, knowledge: Knowledge, currency: str) -> str:
    """What to ask about an entry's price before it is logged; '' where it is near enough.

    A log that takes long to learn is not learnt for that.
    """
    if entry.price is None:
        return ""
    from appraise.pricing.slips import slip, usual_price
    from appraise.store.venue_book import read_book

    book, worth = read_book(log), None
    if 0 < log.summary().count <= LEARNT_UNASKED:
        prices = PriceSource(work.home, log, knowledge, currency, work.as_of).without(())
        worth = usual_price(entry, prices, knowledge, currency, work.as_of, book)
    return slip(entry, worth, currency, knowledge.ratios.far, book)


def odd_prices(work: AtHome, log: Log, asked: bool) -> Mapping[str, str]:
    """The entries whose price fits nothing else in the log, with what the others say, by id.

    Learning the log takes half a second; what came of it is kept beside the log while neither log,
    knowledge nor day has changed.

    `asked`: whether the user wants it for a log of any length.
    """
    if not asked and log.summary().count > LEARNT_UNASKED:
        return {}
    currency = log.base_currency if log.currency_chosen else work.currency
    number, newest = last(log.connection)  # by which venues and rates differ too
    state = f"{newest} {number} {currency} {work.as_of} {files_state(work.home)}"
    known = _kept(work.home.checked, state)
    if known is None:
        source = PriceSource(work.home, log, work.knowledge(), currency, work.as_of)
        known = {one.id: one.says(currency) for one in source.learnt().doubtful()}
        _keep(work.home.checked, {"state": state, "odd": known})
    return known


def _kept(path: Path, state: str) -> dict[str, str] | None:
    """What was learnt in that state; None where it was another, or cannot be read."""
    try:
        told = json.loads(path.read_bytes()) if path.is_file() else {}
    except (OSError, ValueError):
        return None
    odd = told.get("odd") if isinstance(told, dict) and told.get("state") == state else None
    return odd if isinstance(odd, dict) else None


def _keep(path: Path, told: dict[str, object]) -> None:
    """Keep what was learnt for the next time, if that can be."""
    from appraise.base.files import write_new

    with suppress(InputError):
        write_new(path, json.dumps(told, ensure_ascii=False).encode(), over=True)
