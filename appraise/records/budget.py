"""A budget: so much in a calendar month or year."""

import datetime as dt
from typing import ClassVar

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.records.fields import Field, Record
from appraise.records.quantities import DAY, AmountKind
from appraise.records.values import WordKind

PERIODS = ("month", "year")


@dataclass(frozen=True, slots=True)
class Budget(Record):
    """What may be spent in a calendar month or year; of several the one begun last counts."""

    amount: Money
    per: str
    since: dt.date
    title: str = "budget"

    FIELDS: ClassVar[tuple[Field, ...]] = (
        Field("amount", "for the whole period", AmountKind()),
        Field("per", "month or year", WordKind(PERIODS, needed=True)),
        Field("since", "the day on which it was set", DAY, typed=False),
        Field("title", "a title, one line"),
    )

    def check_whole(self) -> None:
        """It is something."""
        if self.amount.amount <= 0:
            raise InputError(
                "a budget must be above 0", "amount", "Remove it: appraise budget --none."
            )
