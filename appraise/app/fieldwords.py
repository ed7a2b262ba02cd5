"""What is typed into fields, read strictly; a mistake names its field."""

from collections.abc import Mapping, Sequence
from datetime import date

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.base.spelling import did_you_mean

Values = Mapping[str, str]
AGAIN = "Press enter again to record it anyway."


def word_in(values: Values, name: str, choices: Sequence[str], usual: str = "") -> str:
    """One of the choices, or the usual one when nothing was typed."""
    word = values[name].lower()
    if not word:
        return usual
    if word not in choices:
        raise InputError(f"'{values[name]}' is not known", name, did_you_mean(word, choices))
    return word


def words_in(values: Values, name: str, choices: Sequence[str]) -> tuple[str, ...]:
    """Some of the choices, with commas or spaces between; none when nothing was typed."""
    words = values[name].lower().replace(",", " ").split()
    for word in words:
        if word not in choices:
            raise InputError(f"'{word}' is not known", name, did_you_mean(word, choices))
    return tuple(dict.fromkeys(words))


def money_in(values: Values, name: str, currency: str) -> Money | None:
    """An amount above nothing, in the usual currency unless it names one; None when empty."""
    if not values.get(name):
        return None
    try:
        money = Money.parse(values[name], currency)
    except InputError as error:
        raise InputError(error.what, name, error.mend) from None
    if money.amount <= 0:
        raise InputError("an amount must be above 0", name)
    return money


def shipping_in(values: Values, name: str, currency: str) -> Money | None:
    """Shipping as typed, which may be free: 0; None when empty."""
    text = values.get(name, "")
    try:
        return Money.parse(text, currency) if text else None
    except InputError as error:
        raise InputError(error.what, name, error.mend) from None


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


def day_in(values: Values, name: str, usual: date) -> date:
    """A day as 2026-11-25, or the usual one when nothing was typed."""
    if not values[name]:
        return usual
    try:
        return date.fromisoformat(values[name])
    except ValueError:
        raise InputError(f"'{values[name]}' is not a day", name, "Write 2026-11-25.") from None


def appeal_in(values: Values, name: str = "appeal") -> int | None:
    """The buyer's own mark from 1 to 5; None when empty."""
    if not values[name]:
        return None
    if values[name] not in ("1", "2", "3", "4", "5"):
        raise InputError(f"'{values[name]}' is not 1 to 5", name)
    return int(values[name])


def quality_in(values: Values, name: str = "quality") -> float | None:
    """Image quality from 1 to 5, with halves if wished; None when empty."""
    text = values[name].replace(",", ".")
    if not text:
        return None
    try:
        mark = float(text)
    except ValueError:
        mark = 0.0
    if not 1.0 <= mark <= 5.0:
        raise InputError(f"'{values[name]}' is not 1 to 5", name)
    return mark


def written(money: Money | None) -> str:
    """An amount as it is typed; empty for None."""
    return str(money) if money else ""
