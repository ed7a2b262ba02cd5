"""What a cell of a spreadsheet means: amounts, yes and no; and what it leaves open.

'1,234' may be a thousand or one and a bit. Such cells are settled by the others of their file, and
asked about when no other tells.
"""

import re
from collections import Counter
from collections.abc import Iterable

from appraise.base import moneytext
from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.exchange.words import listed
from appraise.records.piece_words import IDENTIFIED

NOTHING = ("", "-", "\u2013", "\u2014", "?", "n/a", "na", "none", "unknown")
_LONGEST = 120  # characters of a cell that may be an amount
_QUOTED = 40  # characters of a cell in a message
_YES = frozenset(
    listed("""
    yes; y; true; x; 1; ja; j; wahr; oui; o; vrai; si; sì; sí; s; vero; verdadero; waar; ✓; ✔; ☑
    """)
)
_NO = frozenset(
    listed("""
    no; n; false; 0; nein; falsch; non; faux; falso; nee; onwaar; ✗; ✘; ☐
    """)
)
_NOUGHTS = re.compile(r"(\d[.,]\d\d)00+\b")  # '110.0000', as databases write it
_POST = r"(?:p ?& ?p|p\+p|postage|post|shipping|carriage|delivery|porto|versand)"
_POSTAGE = re.compile(
    rf"(?P<price>.*\d.*?)\s*(?:[,;+&(]|plus|and)\s*{_POST}\s*:?\s*(?P<post>.*\d[^)]*)\)?\Z",
    re.IGNORECASE,
)
_POSTAGE_LAST = re.compile(
    rf"(?P<price>.*\d.*?)\s*(?:[;+&(]|, |plus|and)\s*(?P<post>.*\d.*?)\s*{_POST}\.?\)?\Z",
    re.IGNORECASE,
)


def is_nothing(cell: str) -> bool:
    """Whether a cell says that nothing is known."""
    return cell.strip().casefold() in NOTHING


def shortened(cell: str) -> str:
    """A cell as a message quotes it: no longer than a line bears."""
    return cell if len(cell) <= _QUOTED else f"{cell[: _QUOTED - 2]}.."


def flag(cell: str) -> bool:
    """Yes or no, in the words that spreadsheets use.

    Raises:
        InputError: when it is neither.
    """
    word = cell.strip().casefold()
    if word in _YES or word in _NO:
        return word in _YES
    raise InputError(f"'{shortened(cell)}' is neither yes nor no")


def is_flag(cell: str) -> bool:
    """Whether a cell says yes or no."""
    return cell.strip().casefold() in _YES | _NO


def without_yes(cell: str) -> str:
    """A cell without the yes that it begins with: 'oui 03/20'."""
    first, _, rest = cell.strip().partition(" ")
    told = first.strip(",;:").casefold()
    return rest.strip() if rest and told.isalpha() and told in _YES else cell


def identified(cell: str) -> str:
    """How well a sitter is identified, in the log's words; yes is a name, as older files have it.

    Raises:
        InputError: when it is none of these.
    """
    word = cell.strip().casefold()
    if word in IDENTIFIED:
        return word
    try:
        return "name" if flag(cell) else "no"
    except InputError as error:
        mend = f"Write one of {', '.join(IDENTIFIED)}."
        raise InputError(f"'{shortened(cell)}' does not say how well", mend=mend) from error


def is_range(cell: str) -> bool:
    """Whether a cell is two amounts, from and to."""
    return re.fullmatch(r"\D*\d[\d.,']*\s*[-\u2013]\s*\d[\d.,']*\D*", cell) is not None


def has_figure(cell: str) -> bool:
    """Whether a cell holds a figure."""
    return re.search(r"\d", cell) is not None


def is_number(cell: str) -> bool:
    """Whether a cell is a number and nothing else."""
    return re.fullmatch(r"\d+(?:[.,]\d+)?", cell.strip()) is not None


def is_identified(cell: str) -> bool:
    """Whether a cell says how well a sitter is identified."""
    try:
        identified(cell)
    except InputError:
        return False
    return True


def leads_with_amount(cell: str) -> bool:
    """Whether a cell begins or ends with an amount, whatever else it says."""
    return re.match(r"\W*\d[\d.,']*\b(?![/-]?\d)", cell) is not None


def point_of(cell: str) -> str:
    """The decimal point that an amount must have: '.' or ','; '?' for either; '' for none."""
    found = _typed(cell)
    return moneytext.point_of(found.digits, found.named) if found else ""


def told_currency(cell: str) -> str:
    """What names an amount's currency: a code, '$' or 'kr' that several share, or ''."""
    found = _typed(cell)
    return found.named if found else ""


def currency_of(cell: str) -> str:
    """What a cell of a column of currencies names; '' for nothing that is known."""
    return moneytext.currency_named(cell.strip())


def is_currency(cell: str) -> bool:
    """Whether a cell names a currency."""
    return bool(currency_of(cell))


def amount(cell: str, point: str, currency: str) -> Money:
    """An amount of money; a currency in the cell wins over the one given.

    Args:
        cell: Such as '45', '$1,200.50', '12,50 EUR', 'GBP 8', '18,-'.
        point: The file's decimal point, '.' or ',', for cells that could have either.
        currency: ISO 4217 code for cells that name none.

    Raises:
        InputError: when it is no amount, or has more decimals than its currency.
    """
    if len(cell) > _LONGEST:
        raise InputError(f"'{shortened(cell)}' is not an amount of money")
    cell = _NOUGHTS.sub(r"\1", cell)
    try:
        return Money.parse(cell, currency, point)
    except InputError as error:
        mend = "" if error.what.endswith("is not an amount of money") else error.mend
        raise InputError(error.what, error.where, mend) from error


def is_amount(cell: str) -> bool:
    """Whether a cell is an amount of money, owed or not."""
    return _typed(cell.strip("()+- ")) is not None


def is_signed(cell: str) -> bool:
    """Whether a cell is an amount that names its currency."""
    return is_amount(cell) and bool(told_currency(cell))


def split_postage(cell: str) -> tuple[str, str]:
    """Price and postage of a cell that tells both, as '38 EUR, postage 5' and '38 + 6 post'."""
    if len(cell) > _LONGEST:
        return cell, ""
    found = _POSTAGE.match(cell.strip()) or _POSTAGE_LAST.match(cell.strip())
    return (found["price"], found["post"]) if found else (cell, "")


def settle_point(cells: Iterable[str]) -> str:
    """The decimal point for cells that could have either: '.', ',' or '?' to be asked."""
    seen = Counter(point_of(cell) for cell in cells)
    if seen["?"] and bool(seen["."]) == bool(seen[","]):
        return "?"
    return "," if seen[","] > seen["."] else "."


def _typed(cell: str) -> moneytext.Typed | None:
    if len(cell) > _LONGEST:
        return None
    try:
        return moneytext.typed(cell)
    except InputError:
        return None
