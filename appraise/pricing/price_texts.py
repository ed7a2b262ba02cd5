"""The log's texts as rows of the price model, without making a whole entry of each.

A text says some thirty things of which the model reads twenty, and a log repeats itself: what is
worked out of a word, an amount or a day is worked out once. A text that holds anything unusual
is read as a whole entry; the rows are those of `price_rows.priced_rows` either way.
"""

from collections.abc import Callable, Iterable
from datetime import date
from functools import lru_cache
from typing import Any, Literal

import msgspec

from appraise.base.errors import InputError
from appraise.base.logday import log_day_of
from appraise.base.money import Money
from appraise.knowledge.records import Knowledge
from appraise.pricing.cost_basis import EMPTY
from appraise.pricing.features import PricedRow
from appraise.pricing.met import MetPrice
from appraise.pricing.price_rows import PRICED, RowMaker
from appraise.records.entry import KIND_OF, Entry, check_belonging, check_subjects
from appraise.records.quantities import AmountKind
from appraise.records.record_types import amount_of
from appraise.records.venuebook import VenueBook

Whole = Callable[[str, str], Entry]
"""Reads a text under an id as a whole entry."""
_SEVERAL = ("channel", "kind", "process", "housing", "format", "identified", "venue", "maker")
"""Fields whose words a log repeats."""
_FIGURES = ("quality", "appeal", "condition_factor")


class _Amount(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    amount: str
    currency: str


class _Text(msgspec.Struct):
    """What of a text the price model reads; `subject` stands only in older ones."""

    record: str
    date: str
    channel: str = ""
    kind: str = ""
    process: str = ""
    housing: str = ""
    format: str = ""
    title: str = ""
    motif: str = ""
    subjects: tuple[str, ...] = ()
    quality: float | int | None = None
    appeal: int | None = None
    identified: str = ""
    maker: str = ""
    maker_known: bool | None = None
    condition_factor: float | int | None = None
    asked: _Amount | None = None
    offered: _Amount | None = None
    paid: _Amount | None = None
    hammer: _Amount | None = None
    premium: _Amount | None = None
    tax: _Amount | None = None
    fees: _Amount | None = None
    postage: _Amount | None = None
    venue: str = ""
    own_work: bool = False
    belonging: tuple[tuple[str, float], ...] = ()
    subject: Literal[None] = None


def priced_texts(
    texts: Iterable[tuple[str, str]],
    whole: Whole,
    knowledge: Knowledge,
    currency: str,
    as_of: date,
    book: VenueBook = EMPTY,
) -> tuple[PricedRow, ...]:
    """The rows of the log's entries that bear a price, as `priced_rows` makes them.

    Args:
        texts: Text and id of each entry.
        whole: Reads a text that holds anything unusual; raises where it is no entry.
        knowledge: The trade's words and price ratios.
        currency: ISO 4217 code of the base currency.
        as_of: The day from which years are counted.
        book: The user's venues and rates.
    """
    maker, reader = RowMaker(knowledge, currency, as_of, book), _Reader()
    rows = []
    for text, entry in texts:
        met = reader.met(text, entry) or whole(text, entry)
        row = maker.row(met)
        if row is not None:
            rows.append(row)
    return tuple(rows)


class _Reader:
    """Reads texts; what was looked over once in a field is not looked over again."""

    def __init__(self) -> None:
        self._decode = msgspec.json.Decoder(_Text).decode
        self._fine: set[tuple[str, type, object]] = set()

    def met(self, text: str, entry: str) -> MetPrice | None:
        """What a text tells; None where it holds anything that has to be read as a whole."""
        try:
            told = self._decode(text)
            if told.record not in PRICED:
                return None
            self._look_over(told)
            return _met(told, entry)
        except (msgspec.MsgspecError, InputError, ValueError, TypeError):
            return None

    def _look_over(self, told: _Text) -> None:
        """Raise where a field holds what it may not."""
        KIND_OF["title"].check("title", told.title)
        if told.motif:
            KIND_OF["motif"].check("motif", told.motif)
        for name in (*_SEVERAL, *_FIGURES):
            held = getattr(told, name)
            if held or held == 0:
                self._checked(name, held)
        if told.subjects:
            self._checked("subjects", told.subjects)
        if told.belonging:
            self._checked("belonging", told.belonging)

    def _checked(self, name: str, held: Any) -> None:
        known = (name, type(held), held)
        if known in self._fine:
            return
        KIND_OF[name].check(name, held)
        if name == "subjects":
            check_subjects(held)
        if name == "belonging":
            check_belonging(held)
        self._fine.add(known)


def _met(told: _Text, entry: str) -> MetPrice:
    return MetPrice(
        entry,
        told.record,
        _day(told.date),
        told.channel,
        told.kind,
        told.process,
        told.housing,
        told.format,
        told.title,
        told.motif,
        told.subjects,
        told.quality,
        told.appeal,
        told.identified,
        told.maker,
        told.maker_known,
        told.condition_factor,
        _amount(told.asked),
        _amount(told.offered),
        _amount(told.paid),
        _amount(told.hammer),
        _amount(told.premium),
        _amount(told.tax),
        _amount(told.fees),
        _amount(told.postage),
        told.venue,
        told.own_work,
        told.belonging,
    )


def _amount(told: _Amount | None) -> Money | None:
    return None if told is None else _money(told.amount, told.currency)


@lru_cache(maxsize=65_536)
def _money(amount: str, currency: str) -> Money:
    money = amount_of(amount, currency)
    AmountKind().check("amount", money)
    return money


_day = lru_cache(maxsize=65_536)(log_day_of)
