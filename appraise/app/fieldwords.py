"""What is typed into fields, read by the kinds of value; a mistake names its field."""

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from appraise.base.errors import InputError, placed
from appraise.base.logday import LogDay
from appraise.base.money import Money
from appraise.records.quantities import DAY, LOG_DAY, AmountKind, CountKind
from appraise.records.values import Author, Kind, SeveralKind, WordKind

Values = Mapping[str, str]
AGAIN = "Press enter again to record it anyway."


def value_in(values: Values, name: str, kind: Kind, usual: Any = None, currency: str = "") -> Any:
    """A field's value, or the usual one when nothing was typed.

    Args:
        values: What was typed, by field.
        name: The field.
        kind: What its value may be.
        usual: What an empty field means.
        currency: ISO 4217 code of an amount that names none.

    Raises:
        InputError: placed at the field.
    """
    text = values.get(name, "")
    if not text:
        return usual
    with placed(name):
        value = kind.read(text, Author(currency, date.min))
    kind.check(name, value)
    return value


def word_in(values: Values, name: str, choices: Sequence[str], usual: str = "") -> str:
    """One of the choices, or the usual one when nothing was typed."""
    word: str = value_in(values, name, WordKind(choices), usual)
    return word


def words_in(values: Values, name: str, choices: Sequence[str]) -> tuple[str, ...]:
    """Some of the choices, with commas or spaces between; none when nothing was typed."""
    words: tuple[str, ...] = value_in(values, name, SeveralKind(WordKind(choices)), ())
    return tuple(dict.fromkeys(words))


def money_in(values: Values, name: str, currency: str) -> Money | None:
    """An amount above nothing, in the usual currency unless it names one; None when empty."""
    money: Money | None = value_in(values, name, AmountKind(above=True), None, currency)
    return money


def shipping_in(values: Values, name: str, currency: str) -> Money | None:
    """Shipping as typed, which may be free: 0; None when empty."""
    money: Money | None = value_in(values, name, AmountKind(), None, currency)
    return money


def day_in(values: Values, name: str, usual: date) -> date:
    """A day as 2026-11-25, or the usual one when nothing was typed."""
    day: date = value_in(values, name, DAY, usual)
    return day


def log_day_in(values: Values, name: str, usual: LogDay) -> LogDay:
    """The day of an entry, which may be partial or unknown, or the usual one."""
    day: LogDay = value_in(values, name, LOG_DAY, usual)
    return day


def appeal_in(values: Values, name: str = "appeal") -> int | None:
    """The buyer's own mark from 1 to 5; None when empty."""
    mark: int | None = value_in(values, name, CountKind(1, 5))
    return mark


class Asked:
    """Doubts that a form raises once each: what is confirmed stands."""

    def __init__(self) -> None:
        self._said = ""

    def once(self, doubt: str, typed: str, field: str) -> None:
        """Raise a doubt about what was typed, unless it was raised about the same before.

        Raises:
            InputError: placed at the field.
        """
        if doubt and typed != self._said:
            self._said = typed
            raise InputError(doubt, field, AGAIN)


def written(money: Money | None) -> str:
    """An amount as it is typed; empty for None."""
    return str(money) if money else ""
