"""Money: a decimal amount in one currency, with ISO 4217 minor units.

Binary floats are kept out: 0.1 + 0.2 is not 0.3 in them, and a bill has to add up.
"""

import re
from decimal import ROUND_DOWN, ROUND_HALF_UP, Decimal, InvalidOperation
from typing import Self

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.moneytext import EXPONENTS, FAMILIES, decimal, one_of_family, point_of, typed
from appraise.base.spelling import did_you_mean

_QUOTED = 40  # characters of a text in a message

__all__ = ["EXPONENTS", "Money", "as_json"]


@dataclass(frozen=True, slots=True)
class Money:
    """An amount of one currency; amounts are exact decimals, never negative zero.

    Attributes:
        amount: Decimal units (not minor units).
        currency: ISO 4217 code, upper case, one of `EXPONENTS`.
    """

    amount: Decimal
    currency: str

    def __post_init__(self) -> None:
        if self.currency not in EXPONENTS:
            raise InputError(
                f"currency '{self.currency}' is not known",
                mend=did_you_mean(self.currency, EXPONENTS),
            )
        if not self.amount.is_finite():
            raise InputError(f"'{self.amount}' is not an amount of money")

    @classmethod
    def parse(cls, text: str, currency: str = "", point: str = "") -> Self:
        """Read '45.00 USD', '£12.50', '45 dollars', '18,-', '1.250,00 €' or, with a default, '45'.

        Args:
            text: One amount.
            currency: ISO 4217 code of an amount that names none, and of a '$' or 'kr' where it is
                a dollar or a crown; any other '$' is the US dollar.
            point: '.' or ',', the decimal point where the figures could have either, as '1,250'.

        Raises:
            InputError: when the text is no amount, reads two ways, or names no currency and none
                is given.
        """
        shown = text.strip() if len(text) <= _QUOTED else f"{text.strip()[: _QUOTED - 2]}.."
        found = typed(text)
        if not found:
            raise InputError(f"'{shown}' is not an amount of money", mend="Example: 45.00 USD.")
        code = one_of_family(found.named, currency) or ("USD" if found.named == "$" else currency)
        if found.named == "kr" and code not in FAMILIES["kr"]:
            raise InputError(
                f"'{shown}' could be in {', '.join(FAMILIES['kr'])}",
                mend=f"Write it as {found.digits} SEK.",
            )
        if not code:
            raise InputError(f"'{shown}' has no currency", mend="Example: 45.00 USD.")
        own = point_of(found.digits, code)
        if own == "?" and not point and not (EXPONENTS.get(code) == 3 and "." in found.digits):
            whole, rest = re.split("[.,]", found.digits)
            raise InputError(
                f"'{shown}' reads two ways",
                mend=f"Write {whole}{rest} {code} or {whole}.{rest[:2]} {code}.",
            )
        return cls(decimal(found.digits, own if own in (".", ",") and own else point or "."), code)

    @classmethod
    def of_minor(cls, minor: int, currency: str) -> Self:
        """Money from whole minor units (cents, pence, yen)."""
        if currency not in EXPONENTS:
            raise InputError(f"currency '{currency}' is not known")
        return cls(Decimal(minor).scaleb(-EXPONENTS[currency]), currency)

    @property
    def minor(self) -> int:
        """The amount in whole minor units, rounded half up."""
        return int(self.rounded().amount.scaleb(EXPONENTS[self.currency]))

    def rounded(self, rounding: str = ROUND_HALF_UP) -> Self:
        """The amount at its currency's minor unit: half up for fees and taxes."""
        unit = Decimal(1).scaleb(-EXPONENTS[self.currency])
        try:
            return type(self)(self.amount.quantize(unit, rounding=rounding), self.currency)
        except InvalidOperation as error:
            raise InputError(f"'{self.amount}' is too large for money") from error

    def floored(self) -> Self:
        """The amount rounded down to its minor unit: for ceilings."""
        return self.rounded(ROUND_DOWN)

    def __add__(self, other: Self) -> Self:
        self._same(other)
        return type(self)(self.amount + other.amount, self.currency)

    def __sub__(self, other: Self) -> Self:
        self._same(other)
        return type(self)(self.amount - other.amount, self.currency)

    def __mul__(self, factor: Decimal | int) -> Self:
        return type(self)(self.amount * factor, self.currency)

    def __lt__(self, other: Self) -> bool:
        self._same(other)
        return self.amount < other.amount

    def __le__(self, other: Self) -> bool:
        return not other < self

    def __str__(self) -> str:
        return f"{self.plain} {self.currency}"

    @property
    def plain(self) -> str:
        """The amount alone, at its minor unit, for columns that name the currency once."""
        return f"{self.rounded().amount:f}"

    def _same(self, other: Self) -> None:
        if self.currency != other.currency:
            raise InputError(
                f"{self.currency} and {other.currency} cannot be added",
                mend="Convert one of them first, with the rate and its date.",
            )


def as_json(money: Money | None) -> dict[str, str] | None:
    """The JSON form {"amount": "45.00", "currency": "USD"}."""
    return None if money is None else {"amount": money.plain, "currency": money.currency}
