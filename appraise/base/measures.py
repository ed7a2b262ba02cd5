"""Measures of an object: one to three lengths, kept exactly in millimetres.

An inch is 25.4 mm exactly (international yard and pound agreement, 1959), so lengths are fractions
and `2 3/4 in` comes back as written. A closed case is thinner than it is wide or high, so the
smallest of three lengths is its depth, in whatever order a record gives them.
"""

import re
import unicodedata
from dataclasses import field
from fractions import Fraction
from typing import Self

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.regex import late
from appraise.base.spelling import did_you_mean

# Millimetres in each unit, and the other ways of writing it.
UNITS: dict[str, Fraction] = {"mm": Fraction(1), "cm": Fraction(10), "in": Fraction(127, 5)}
_ALIASES: dict[str, str] = {
    **dict.fromkeys(("inch", "inches", "ins", '"', "''"), "in"),
    **dict.fromkeys(("millimetre", "millimetres", "millimeter", "millimeters", "mms"), "mm"),
    **dict.fromkeys(("centimetre", "centimetres", "centimeter", "centimeters", "cms"), "cm"),
}
SMALLEST, LARGEST = 1, 1000  # mm

_ROUND = late(r"\b(?:dia(?:m(?:eter|etre)?)?\b\.?|round\b)|[øØ⌀∅]", re.IGNORECASE)
_BETWEEN = late(r"\s*(?:[x×✕✖*]|\bby\b)\s*", re.IGNORECASE)
_NUMBER = (
    r"(?:(?P<whole>[0-9]{1,4})[\s-]+)?(?P<over>[0-9]{1,4})/(?P<under>[0-9]{1,4})"
    r"|(?P<dec>(?:[0-9]{0,6}[.,])?[0-9]{1,6})"
)
_LENGTH = late(rf"(?:{_NUMBER})\s*(?P<unit>[^\W\d_]+|\"|'')?\.?")
_USUAL = "Example: 70 x 83 mm, 2 3/4 x 3 1/4 in or 44.5 mm dia."


@dataclass(frozen=True, slots=True)
class Measure:
    """One to three lengths of one thing; equal when the lengths are, however written.

    Attributes:
        lengths: In millimetres, exact, each 1 mm to 1 m, in the order written. For a round
            thing the diameter, and maybe the depth.
        round: Whether the first length is a diameter.
        text: The measure as written.
    """

    lengths: tuple[Fraction, ...]
    round: bool = False
    text: str = field(default="", compare=False)

    def __post_init__(self) -> None:
        most = 2 if self.round else 3
        if not 1 <= len(self.lengths) <= most:
            kind = "a round measure" if self.round else "a measure"
            raise InputError(f"{kind} has 1 to {most} lengths, not {len(self.lengths)}")
        for length in self.lengths:
            if not (length >= SMALLEST and round(length) <= LARGEST):
                raise InputError(
                    f"{_decimal(length)} mm is outside 1 mm to 1 m", mend="Check the unit."
                )

    @classmethod
    def parse(cls, text: str) -> Self:
        """Read '2 3/4 x 3 1/4 in', '2¾ × 3¼"', '95 x 82 x 20 mm', '7 by 8,2 cm', '44.5 mm dia'.

        A length without a unit takes the next unit written, else the last one. The decimal
        mark is a point or a comma.

        Raises:
            InputError: when the text is no measure, has no unit, or a length is out of range.
        """
        plain, marks = _ROUND.subn(" ", _plain(text))
        pieces = [_LENGTH.fullmatch(piece.strip(" ,;")) for piece in _BETWEEN.split(plain)]
        found = [piece for piece in pieces if piece]
        if len(found) < len(pieces):
            raise InputError(f"'{text.strip()}' is not a measure", mend=_USUAL)
        if not any(piece["unit"] for piece in found):
            bare = text.strip()
            raise InputError(f"'{bare}' has no unit", mend=f"Write {bare} mm, or cm or in.")
        try:
            units = _units([piece["unit"] or "" for piece in found])
            lengths = [_value(p, u) * UNITS[u] for p, u in zip(found, units, strict=True)]
            return cls(tuple(lengths), marks > 0, text.strip())
        except InputError as error:
            raise InputError(f"'{text.strip()}': {error.what}", mend=error.mend) from None

    @classmethod
    def of_mm(cls, *lengths: Fraction | int | float | str, round: bool = False) -> Self:
        """A measure from millimetres; floats count as their shortest decimal (69.9 is 699/10).

        Raises:
            InputError: when a length is out of range, or there are too few or too many.
        """
        made = cls(tuple(Fraction(str(length)) for length in lengths), round)
        return cls(made.lengths, round, made.as_mm())

    @property
    def depth(self) -> Fraction | None:
        """Thickness in mm: the smallest of three lengths, the second of a round thing."""
        if self.round:
            return self.lengths[1] if len(self.lengths) == 2 else None
        return min(self.lengths) if len(self.lengths) == 3 else None

    @property
    def diameter(self) -> Fraction | None:
        """Diameter in mm of a round thing, else None."""
        return self.lengths[0] if self.round else None

    @property
    def sides(self) -> tuple[Fraction, ...]:
        """Shorter and longer side of the face in mm, whichever way up it was measured.

        A round thing counts as the square around it; a lone length stands alone.
        """
        if self.round:
            return (self.lengths[0], self.lengths[0])
        ordered = sorted(self.lengths)
        return tuple(ordered[1:] if len(ordered) == 3 else ordered)

    def as_mm(self) -> str:
        """In millimetres to a tenth: '69.9 x 82.6 mm', '44.5 mm dia'."""
        return self._written([_decimal(length) for length in self.lengths], "mm")

    def as_inches(self) -> str:
        """In inches to the nearest sixteenth, in lowest terms: '2 3/4 x 3 1/4 in'."""
        return self._written([_sixteenths(length) for length in self.lengths], "in")

    def as_both(self) -> str:
        """In millimetres with inches after: '69.9 x 82.6 mm (2 3/4 x 3 1/4 in)'."""
        return f"{self.as_mm()} ({self.as_inches()})"

    def _written(self, numbers: list[str], unit: str) -> str:
        if not self.round:
            return f"{' x '.join(numbers)} {unit}"
        depth = f" x {numbers[1]} {unit}" if len(numbers) == 2 else ""
        return f"{numbers[0]} {unit} dia{depth}"

    def __str__(self) -> str:
        return self.text or self.as_mm()


def _plain(text: str) -> str:
    """The text with vulgar fractions spelt out, quotes made straight, and blanks trimmed."""
    spelt = "".join(
        f" {unicodedata.normalize('NFKC', mark)}" if "VULGAR FRACTION" in _name(mark) else mark
        for mark in text.strip()
    )
    straight = spelt.replace("⁄", "/").translate(dict.fromkeys(map(ord, "″”“„‟"), '"'))
    return straight.translate(dict.fromkeys(map(ord, "′’‘"), "'"))


def _name(mark: str) -> str:
    return unicodedata.name(mark, "")


def _units(written: list[str]) -> list[str]:
    """The unit of each length: its own, else the next one written, else the last one."""
    known = [_unit(word) for word in written]
    last = [unit for unit in known if unit][-1]
    return [next((unit for unit in known[place:] if unit), last) for place in range(len(known))]


def _unit(word: str) -> str:
    lower = word.lower()
    unit = _ALIASES.get(lower, lower)
    if unit and unit not in UNITS:
        raise InputError(f"the unit '{word}' is not known", mend=did_you_mean(word, UNITS))
    return unit


def _value(match: re.Match[str], unit: str) -> Fraction:
    """The number of a length, exact.

    Raises:
        InputError: for '3/0' and '2 33/4', and for '1,000 mm', which reads two ways.
    """
    if match["dec"]:
        whole, comma, rest = match["dec"].partition(",")
        if comma and unit == "mm" and len(rest) == 3:
            raise InputError(
                f"{match['dec']} mm reads two ways",
                mend=f"Write {whole}{rest} mm or {whole}.{rest} mm.",
            )
        return Fraction(match["dec"].replace(",", "."))
    whole, over, under = (int(match[name] or 0) for name in ("whole", "over", "under"))
    if under == 0 or (whole and over >= under):
        raise InputError(f"{match['over']}/{match['under']} is not a fraction of one")
    return whole + Fraction(over, under)


def _decimal(length: Fraction) -> str:
    """Tenths of a millimetre, halves up, without an idle '.0'."""
    tenths = (length * 20 + 1) // 2
    return f"{tenths // 10}.{tenths % 10}".removesuffix(".0")


def _sixteenths(length: Fraction) -> str:
    """Inches as a mixed number with a denominator of at most sixteen, at least 1/16."""
    sixteenths = max(1, (length / UNITS["in"] * 32 + 1) // 2)
    whole, rest = divmod(sixteenths, 16)
    part = f"{Fraction(rest, 16)}" if rest else ""
    return f"{whole or ''} {part}".strip()
