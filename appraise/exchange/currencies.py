"""In which currency the amounts of a spreadsheet are that do not say so themselves.

In this order: what the row's column of currencies says, the row's other amounts, the column's name,
most of the file, the user's own. What stays open is a question, never a guess.
"""

import re
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import field

from appraise.base.dataclass import dataclass
from appraise.base.moneytext import DOLLARS, FAMILIES, currency_named, one_of_family
from appraise.exchange.sheet_cells import split_postage, told_currency
from appraise.records.entry import BESIDE

_FEW = 2  # how many times as many amounts name no currency where those that do are exceptions
_TOKEN = re.compile(r"[A-Za-z]{0,3}\$|[£€¥]|[A-Za-z.]+")


def header_currency(name: str) -> tuple[str, str]:
    """The currency that a column's name ends with or has in brackets, and the name without it.

    'Price (GBP)', 'Postage (£)' and 'Preis EUR' are told; 'Pound coins seen' is not.
    """
    inside = re.search(r"\(([^)]*)\)|\[([^\]]*)\]", name)
    if inside:
        told = currency_named(inside[1] or inside[2] or "")
        if told:
            return told, f"{name[: inside.start()]}{name[inside.end() :]}".strip()
    if alone := currency_named(name.strip()):
        return alone, ""
    words = name.replace("_", " ").replace(",", " ").replace("/", " ").split()
    for last in (len(words) - 1, 0):
        if len(words) > 1 and _TOKEN.fullmatch(words[last]):
            told = currency_named(words[last])
            if told:
                rest = [word for place, word in enumerate(words) if place != last]
                return told, " ".join(word for word in rest if word.lower() != "in")
    return "", name


@dataclass(frozen=True, slots=True)
class Currencies:
    """What is known of the currencies of a file.

    Attributes:
        base: ISO 4217 code of the user's own currency.
        dollar: The code that a bare '$' stands for; '' where it is open.
        usual: The code for amounts that nothing else tells; '' where it is open.
        headers: What each column of amounts says in its name, by field.
        bare: An amount that names no currency and whose row and column tell none.
        sign: A cell or a column's name with a bare '$' that is open.
        seen: How many amounts name which code.
    """

    base: str
    dollar: str
    usual: str
    headers: Mapping[str, str] = field(default_factory=dict)
    bare: str = ""
    sign: str = ""
    seen: Mapping[str, int] = field(default_factory=dict)

    def of(self, name: str, cells: Mapping[str, str], row: str) -> str:
        """The code for an amount of a row that names none, or that bears a sign several share.

        Args:
            name: The amount's field.
            cells: The row's amounts by field.
            row: What the row's own column of currencies says; '' for nothing.
        """
        told = self.code(told_currency(cells[name]), row)
        own = self.code(self.headers.get(name, "")) if name in BESIDE else ""
        return told or own or self.code(row) or self._around(name, cells, row) or self.usual

    def _around(self, name: str, cells: Mapping[str, str], row: str) -> str:
        """What the row's other amounts say, else the column's name, else those of the others."""
        others = [at for at in cells if at != name]
        signs = [self.code(told_currency(cells[at]), row) for at in others]
        heads = [self.code(self.headers.get(at, "")) for at in others]
        return _only(signs) or self.code(self.headers.get(name, "")) or _only(heads)

    def code(self, named: str, row: str = "") -> str:
        """The code behind a name or sign; '' where there is none."""
        own = row if row in FAMILIES.get(named, ()) else ""
        usual = self.dollar if named == "$" else self.base
        return own or one_of_family(named, usual)


def _only(codes: Sequence[str]) -> str:
    """The one code among some; '' for none or several."""
    told = {code for code in codes if code}
    return told.pop() if len(told) == 1 else ""


def settle(
    rows: Sequence[tuple[str, Mapping[str, str]]],
    headers: Mapping[str, str],
    base: str,
    chosen: str,
    dollar: str,
) -> Currencies:
    """The currencies of a file.

    Args:
        rows: For each row what its column of currencies says, and its amounts by field.
        headers: What each column of amounts says in its name, by field.
        base: ISO 4217 code of the user's own currency.
        chosen: The code for amounts that name none, where the user said; else ''.
        dollar: The code of a bare '$', where the user said; else ''.
    """
    own_dollar = dollar or (base if base in DOLLARS else "")
    found = Currencies(base, own_dollar, "", headers)
    seen: Counter[str] = Counter()
    bare = sign = ""
    without = 0
    for row, cells in rows:
        for name, cell in cells.items():
            named = told_currency(cell)
            code = found.of(name, cells, row)
            seen[code] += bool(code)
            if named == "$" and not code:
                sign = sign or cell.strip()
            elif not (named or code):
                bare = bare or cell.strip()
                without += 1
    if not own_dollar and "$" in headers.values():
        sign = sign or "$"
    seen = +seen
    first = seen.most_common(2)
    clear = len(first) == 1 or (len(first) == 2 and first[0][1] > first[1][1])
    few = bool(first) and sum(seen.values()) * _FEW < without  # they are the exceptions
    usual = chosen or (base if few or not first else first[0][0] if clear else "")
    return Currencies(base, own_dollar, usual, headers, bare, sign, seen)


def amounts_of(cells: Mapping[str, str], fields: Sequence[str]) -> dict[str, str]:
    """The amounts of a row by field; a price that tells its postage too is parted."""
    found = {name: cells[name] for name in fields if name in cells}
    for name in [one for one in found if one != "postage"]:
        price, post = split_postage(found[name])
        if post and not found.get("postage", "").strip():
            found[name], found["postage"] = price, post
    return found
