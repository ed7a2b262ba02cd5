"""A lot that is followed: what is in it, when it closes, what one would pay, what became of it."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import replace
from typing import ClassVar, Self

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError, placed
from appraise.base.moments import Closing
from appraise.base.money import Money
from appraise.base.regex import late
from appraise.base.spelling import did_you_mean
from appraise.knowledge.basics import CHANNELS
from appraise.records.fields import Field, Record, changed, typed_fields
from appraise.records.piece import PLANS
from appraise.records.quantities import (
    DAY,
    AmountKind,
    AmountRangeKind,
    ClosingKind,
    CountKind,
    InstantKind,
)
from appraise.records.values import PAGE, Author, CodeKind, RowsKind, WordKind

STATES = ("followed", "bid", "won", "lost", "passed")
ENDED = ("won", "lost", "passed")
MOST_PIECES = 500
_OF_PIECE = late(r"piece\.(?P<number>\d{1,3})\.(?P<field>.*)")


@dataclass(frozen=True, slots=True)
class LotItem(Record):
    """One piece of a lot; `piece` is the text of its piece file, where anything was noted."""

    title: str
    piece: str = ""
    plan: str = "keep"
    worth: Money | None = None
    extra: Money | None = None
    parts: Money | None = None

    FIELDS: ClassVar[tuple[Field, ...]] = (
        Field("title", "a title, one line; empty removes the piece from the lot"),
        Field("plan", "plan: keep, resell or parts", WordKind(PLANS, needed=True)),
        Field("worth", "resale value, if you know better than the log", AmountKind()),
        Field("extra", "extra you would pay to keep it", AmountKind()),
        Field("parts", "value of its parts", AmountKind()),
        Field("piece", "its piece file", PAGE, typed=False),
    )

    @property
    def text(self) -> str:
        """What it is called, and what is to become of it."""
        return f"{self.title} ({self.plan})"


@dataclass(frozen=True, slots=True)
class Lot(Record):
    """A lot of a sale; what is empty or None was not recorded.

    `asking`, `low`, `high`, `bid` and `hammer` are in `currency`.
    """

    title: str
    since: dt.date
    currency: str
    venue: str = ""
    channel: str = "auction"
    number: str = ""
    where: str = ""
    closes: Closing | None = None
    asking: Money | None = None
    shipping: Money | None = None
    low: Money | None = None
    high: Money | None = None
    selling: int = 0
    items: tuple[LotItem, ...] = ()
    ceiling: Money | None = None
    ceiling_on: dt.date | None = None
    bid: Money | None = None
    bid_at: dt.datetime | None = None
    chance: int | None = None
    state: str = "followed"
    hammer: Money | None = None
    ended: dt.date | None = None
    note: str = ""

    FIELDS: ClassVar[tuple[Field, ...]] = (
        Field("title", "a title, one line"),
        Field("venue", "venue, as listed by 'appraise venues'"),
        Field("channel", "sort of place, e.g. auction or online", WordKind(CHANNELS)),
        Field("number", "lot number"),
        Field("where", "web address, or where it can be seen"),
        Field(
            "closes",
            "closing time: 2026-11-08 20:00, with a zone, e.g. Europe/Berlin, or only the day",
            ClosingKind(),
        ),
        Field("currency", "currency of the bids, e.g. EUR", CodeKind()),
        Field("asking", "asking price or starting bid", AmountKind()),
        Field("shipping", "shipping for the whole lot", AmountKind()),
        Field("estimate", "the seller's estimate, e.g. 40..60", AmountRangeKind(), ("low", "high")),
        Field("selling", "selling costs, in % of the sale price", CountKind(percent=True)),
        Field("ceiling", "your limit: the most it may cost in total", AmountKind()),
        Field(
            "chance",
            "your own estimate of the chance that your bid wins, in %",
            CountKind(percent=True),
        ),
        Field("note", "anything else", PAGE),
        Field("since", "the day it was marked", DAY, typed=False),
        Field("items", "pieces of the lot", RowsKind(MOST_PIECES), label="pieces", typed=False),
        Field("ceiling_on", "the day of that decision", DAY, label="decided on", typed=False),
        Field("bid", "your bid", AmountKind(), typed=False),
        Field("bid_at", "when it was placed", InstantKind(), label="bid at", typed=False),
        Field("state", "outcome", WordKind(STATES, needed=True), typed=False),
        Field("hammer", "the hammer price", AmountKind(), typed=False),
        Field("ended", "the day the outcome was recorded", DAY, typed=False),
    )

    def check_whole(self) -> None:
        """Sums are in its currency, and its state has what belongs to it."""
        if not self.title.strip():
            raise InputError("a lot needs a title", "title")
        for name in ("asking", "low", "high", "bid", "hammer"):
            money = getattr(self, name)
            if money is not None and money.currency != self.currency:
                mend = f"Write it in {self.currency}."
                where = "estimate" if name in ("low", "high") else name
                raise InputError(f"{money} at a sale in {self.currency}", where, mend)
        if self.state == "bid" and self.bid is None:
            raise InputError("a bid has no amount", "bid")
        if self.state == "won" and self.hammer is None:
            raise InputError("a lot that was won needs a hammer price", "hammer")
        if (self.state in ENDED) != (self.ended is not None):
            raise InputError("a result needs a day, and only a result", "ended")

    @property
    def open(self) -> bool:
        """Whether nothing came of it yet."""
        return self.state not in ENDED

    @property
    def standing(self) -> Money | None:
        """The bid that stands; None without one, or after the sale."""
        return self.bid if self.state == "bid" else None

    def read_by(self, by: Author, field: Field) -> Author:
        """What is asked is in the sale's currency, what one would pay in one's own."""
        own = field.name in ("asking", "shipping", "estimate")
        return replace(by, currency=self.currency) if own else by

    def adopt(self, texts: Mapping[str, str], by: Author) -> tuple[Self, dict[str, str]]:
        """The lot in its currency, with its pieces as typed, and a new ceiling decided today."""
        lot, left = self._in_currency(self._told_currency(texts, by)), dict[str, str]()
        for name, text in texts.items():
            part = _OF_PIECE.fullmatch(name)
            if part:
                lot = lot._with_piece(name, int(part["number"]), part["field"], text, by)
            elif name == "ceiling" and text != typed_fields(Lot)[name].text(lot):
                read = typed_fields(Lot)[name].read(text, lot, by, {})
                lot = replace(lot, **read, ceiling_on=by.today if text else None)
            elif name != "currency":
                left[name] = text
        gone = {name for name, text in texts.items() if name.endswith(".title") and not text}
        kept = [one for place, one in enumerate(lot.items, 1) if f"piece.{place}.title" not in gone]
        return (replace(lot, items=tuple(kept)) if gone else lot), left

    def _told_currency(self, texts: Mapping[str, str], by: Author) -> str:
        """That of its venue, else as written, else as it was; another than its venue's is none."""
        told = texts.get("currency", "").upper() or self.currency
        venue = texts.get("venue", self.venue)
        sells = by.sells(venue) if venue and {"venue", "currency"} & texts.keys() else ""
        if sells and told not in (sells, self.currency):
            raise InputError(f"{venue} sells in {sells}", "currency", f"Write {sells}.")
        return sells or told

    def _in_currency(self, code: str) -> Self:
        """The lot in another currency; sums of the one before would be wrong in it."""
        if code == self.currency:
            return self
        if self.bid is not None or self.hammer is not None:
            raise InputError(f"a bid is open in {self.currency}", "currency", "Undo that first.")
        return replace(self, currency=code, asking=None, low=None, high=None)

    def _with_piece(self, name: str, number: int, field: str, text: str, by: Author) -> Self:
        if not 1 <= number <= len(self.items):
            many = "1 piece" if len(self.items) == 1 else f"{len(self.items)} pieces"
            raise InputError(f"there is no piece {number}", name, f"The lot holds {many}.")
        if field not in typed_fields(LotItem):
            mend = did_you_mean(field, typed_fields(LotItem))
            raise InputError(f"field '{field}' is not known", name, mend)
        with placed(name):
            item = changed(self.items[number - 1], {field: text}, by)
        return replace(self, items=(*self.items[: number - 1], item, *self.items[number:]))
