"""A lot that is followed: what is in it, when it closes, what one would pay, what became of it."""

import datetime as dt
from dataclasses import dataclass

from appraise.base.errors import InputError
from appraise.base.fieldchecks import check_amount, check_number, check_text, check_word
from appraise.base.moments import Closing, check_instant
from appraise.base.money import EXPONENTS, Money
from appraise.base.spelling import did_you_mean
from appraise.knowledge.records import CHANNELS
from appraise.piece.records import PLANS

STATES = ("followed", "bid", "won", "lost", "passed")
ENDED = ("won", "lost", "passed")
MOST_PIECES = 500


@dataclass(frozen=True, slots=True)
class LotItem:
    """One piece of a lot.

    Attributes:
        title: One line to know it by.
        piece: Text of its piece file; empty where nothing of it was noted.
        plan: What is to become of it, one of `PLANS`.
        worth: What it is worth to sell on, as the user states it; None: by the log.
        extra: What one would pay for it beyond resale, when it is kept.
        parts: What its parts are worth when it is taken apart.
    """

    title: str
    piece: str = ""
    plan: str = "keep"
    worth: Money | None = None
    extra: Money | None = None
    parts: Money | None = None

    def __post_init__(self) -> None:
        check_text("title", self.title, one_line=True)
        check_text("piece", self.piece, one_line=False)
        if self.plan not in PLANS:
            raise InputError(f"'{self.plan}' is no plan", "plan", did_you_mean(self.plan, PLANS))
        for name in ("worth", "extra", "parts"):
            check_amount(name, getattr(self, name), optional=True)


@dataclass(frozen=True, slots=True)
class Lot:
    """A lot of a sale. Empty text and None both mean "not recorded".

    Attributes:
        title: One line to know it by.
        since: The day from which it was followed.
        currency: ISO 4217 code of what is bid.
        venue: Where it is sold, as the user's venues name it.
        channel: What sort of place that is, as 'auction'.
        number: Its number in the sale.
        where: Its address, or where it can be seen.
        closes: When it closes.
        asking: What is asked, or where the bids begin, in `currency`.
        shipping: What the seller asks to send the whole lot; None: not said.
        low, high: The seller's estimate, in `currency`.
        selling: Per cent of a sale that selling on costs the user, 0 to 100.
        items: What is in it; a lot of one piece has one.
        ceiling: The most it may cost in all, as decided beforehand.
        ceiling_on: The day of that decision.
        bid: The bid that stands, or stood last, in `currency`.
        bid_at: When it was placed, in UTC.
        chance: How likely the user holds it that the bid wins, in 100; None: not said.
        state: One of `STATES`.
        hammer: What it went for, in `currency`.
        ended: The day on which that was noted.
        note: Anything else.

    Raises:
        InputError: when a value is outside what is said above.
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

    def __post_init__(self) -> None:
        for name in ("title", "venue", "number", "where"):
            check_text(name, getattr(self, name), one_line=True)
        if not self.title.strip():
            raise InputError("a lot needs a title", "title")
        check_text("note", self.note, one_line=False)
        check_word("channel", self.channel, CHANNELS)
        if self.currency not in EXPONENTS:
            mend = did_you_mean(self.currency, EXPONENTS)
            raise InputError(f"currency '{self.currency}' is not known", "currency", mend)
        self._check_money()
        check_number("selling", self.selling, 0, 100, whole=True)
        if self.chance is not None:
            check_number("chance", self.chance, 0, 100, whole=True)
        check_instant("bid_at", self.bid_at)
        if len(self.items) > MOST_PIECES:
            raise InputError(f"holds more than {MOST_PIECES} pieces", "items")
        self._check_state()

    def _check_money(self) -> None:
        check_amount("ceiling", self.ceiling, optional=True)
        check_amount("shipping", self.shipping, optional=True)
        for name in ("asking", "low", "high", "bid", "hammer"):
            money = getattr(self, name)
            check_amount(name, money, optional=True)
            if money is not None and money.currency != self.currency:
                raise InputError(
                    f"{money} at a sale in {self.currency}", name, f"Give it in {self.currency}."
                )
        if self.low is not None and self.high is not None and self.high < self.low:
            raise InputError(f"{self.low} to {self.high} is no estimate", "estimate")

    def _check_state(self) -> None:
        if self.state not in STATES:
            raise InputError(f"'{self.state}' is not known", "state", did_you_mean("", STATES))
        if self.state == "bid" and self.bid is None:
            raise InputError("a bid has no amount", "bid")
        if self.state == "won" and self.hammer is None:
            raise InputError("a lot that was won has a hammer price", "hammer")
        if (self.state in ENDED) != (self.ended is not None):
            raise InputError("a result has its day, and a lot without one has none", "ended")

    @property
    def open(self) -> bool:
        """Whether nothing came of it yet."""
        return self.state not in ENDED

    @property
    def standing(self) -> Money | None:
        """The bid that stands; None without one, or after the sale."""
        return self.bid if self.state == "bid" else None
