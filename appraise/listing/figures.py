"""Everything in a text that is told in figures: sizes, amounts of money and days, each once.

The line that one types and the text of a seller take them from here, so that a stretch of figures
means one thing to every reader of a field.
"""

import datetime as dt
from typing import Protocol

from appraise.base.dataclass import dataclass
from appraise.knowledge.records import Knowledge
from appraise.listing.amounts import Amount, amounts
from appraise.listing.days import Day, days_in, partial_in
from appraise.listing.sale import no_prices
from appraise.listing.sizes import SizeSaid, sizes


class _Placed(Protocol):
    @property
    def start(self) -> int: ...
    @property
    def end(self) -> int: ...


@dataclass(frozen=True, slots=True)
class Figures:
    """What a text tells in figures, each list from the left, without overlap among them.

    Attributes:
        sizes: Sizes with their units.
        amounts: Amounts that name a currency.
        days: Days, where a line of the log is read; of a day that cannot be the date is None.
        others: Stretches with figures that are none of these: hours, shares, days of a sale.
    """

    sizes: tuple[SizeSaid, ...]
    amounts: tuple[Amount, ...]
    days: tuple[Day, ...] = ()
    others: tuple[tuple[int, int], ...] = ()

    @property
    def masks(self) -> list[tuple[int, int]]:
        """The stretches of the text that they cover."""
        placed: list[_Placed] = [*self.sizes, *self.amounts, *self.days]
        return [*((one.start, one.end) for one in placed), *self.others]

    @property
    def day(self) -> Day | None:
        """The first day that can be one."""
        return next((one for one in self.days if one.date is not None), None)


def figures(
    text: str,
    knowledge: Knowledge,
    currency: str,
    today: dt.date | None = None,
    region: str = "unknown",
    *,
    partial: bool = False,
) -> Figures:
    """Sizes, amounts and days of a text.

    Args:
        text: Any text.
        knowledge: For the words that currencies go by.
        currency: ISO 4217 code of a bare sign that several countries share.
        today: The day of a line of the log; None: no days are read.
        region: Where the user is at home, for days in figures.
        partial: Whether a month, season or year may stand for the day.
    """
    days = sorted(days_in(text, today, region), key=_start) if today is not None else []
    if partial and today is not None and not any(one.date for one in days):
        in_part = partial_in(text, today)
        days += [in_part] if in_part else []
    measured = [one for one in sizes(text) if not _covered(one, days)]
    priced = [one for one in amounts(text, knowledge, currency) if not _covered(one, days)]
    return Figures(tuple(measured), tuple(priced), tuple(days), tuple(no_prices(text)))


def _start(one: _Placed) -> int:
    return one.start


def _covered(one: _Placed, others: list[Day]) -> bool:
    return any(one.start < other.end and other.start < one.end for other in others)
