"""Exchange rates as the user found them."""

import datetime as dt
from decimal import Decimal
from typing import ClassVar

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.records.fields import Field, Record
from appraise.records.quantities import DAY
from appraise.records.terms import SumKind
from appraise.records.values import CodeKind

HIGHEST = Decimal(10) ** 5
"""No currency is worth more of another; one of them is worth less than the inverse."""


@dataclass(frozen=True, slots=True)
class Rate(Record):
    """What one unit of a currency cost in another on a day."""

    currency: str
    base: str
    rate: Decimal
    on: dt.date
    source: str = ""

    FIELDS: ClassVar[tuple[Field, ...]] = (
        Field("currency", "the currency that is converted", CodeKind()),
        Field("base", "into which", CodeKind()),
        Field("rate", "what one of it costs", SumKind()),
        Field("on", "the day", DAY),
        Field("source", "source of the rate"),
    )

    def check_whole(self) -> None:
        """It is one of two currencies, and not out of all measure."""
        if self.currency == self.base:
            raise InputError(f"{self.currency} needs no rate to itself")
        where = f"rate of {self.currency}"
        if not (self.rate.is_finite() and self.rate > 0):
            raise InputError(f"'{self.rate}' is not a rate above 0", where)
        if not 1 / HIGHEST <= self.rate <= HIGHEST:
            raise InputError(
                f"'{self.rate}' is not a rate of {1 / HIGHEST:f} to {HIGHEST}",
                where,
                f"Write how many {self.base} one {self.currency} costs.",
            )

    @property
    def title(self) -> str:
        """The line to know it by."""
        return f"1 {self.currency} on {self.on}"

    @property
    def key(self) -> str:
        """What makes two records one: the currencies and the day."""
        return f"{self.currency} {self.base} {self.on}"
