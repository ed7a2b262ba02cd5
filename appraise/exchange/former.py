"""Amounts of a currency that the euro took over, in a list that tells so.

The conversion ended with 2001 (Council Regulation (EC) No 974/98): later rows are in euro.
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise

from appraise.base.moneytext import FORMER, currency_named
from appraise.exchange import sheet_cells
from appraise.exchange.header_words import MONEY_TARGETS
from appraise.exchange.layout import Row
from appraise.exchange.sheet_column import Columns

_LAST, _SHORT = 2001, 69
_YEAR = re.compile(r"(?:19|20)\d\d|(?<=[-./' ])\d\d\Z")
_STERLING = re.compile(r"ster|stg|gbp", re.IGNORECASE)
_FRANCS = {"francs": "FRF", "franc": "FRF", "frank": "BEF", "franks": "BEF"}
"""Words for francs that in a country of the euro are those of France or of Belgium."""
_FRANC = re.compile(r"(?<![a-z])(?:frs?|francs?|franks?|f)\b\.?", re.IGNORECASE)


def named_in(texts: Iterable[str]) -> set[str]:
    """The currencies that texts name in one word or two: 'DM', 'Irish pounds'."""
    words = [re.findall(r"[^\W\d_]{2,}|[€£]", text) for text in texts]
    pairs = {f"{a} {b}" for line in words for a, b in pairwise(line)}
    of_pairs = {pair: code for pair in pairs if (code := currency_named(pair))}
    spent = {word for pair in of_pairs for word in pair.split()}
    alone = {word for line in words for word in line} - spent
    return {*of_pairs.values(), *filter(None, map(currency_named, alone))}


def with_former(
    rows: Sequence[Row],
    columns: Columns,
    texts: Sequence[str],
    years: Mapping[int, str],
    base: str = "",
) -> tuple[Row, ...]:
    """The rows, in which amounts up to 2001 that name no other currency bear the former one.

    Args:
        rows: The rows.
        columns: What the columns were taken for.
        texts: What stands above and between the rows.
        years: Of each row the year that a heading tells.
        base: ISO 4217 code of the user's own currency.
    """
    if any(each.currency in FORMER for each in columns):
        return tuple(rows)
    money = [at for at, each in enumerate(columns) if each.field in MONEY_TARGETS]
    dated = {number: _year(row, columns, years[number]) for number, row in rows}
    code, told = _former(rows, money, dated, [*texts, *(each.header for each in columns)], base)
    if not code:
        return tuple(rows)
    changed = list[Row]()
    for number, row in rows:
        early = _SHORT <= dated[number] <= _LAST  # of two figures: 69 to 99 are the last century's
        new = code if early else "EUR" if told and dated[number] else ""
        cells = (
            _with(cell, new, code) if at in money and new else cell for at, cell in enumerate(row)
        )
        changed.append((number, tuple(cells)))
    return tuple(changed)


def _year(row: Sequence[str], columns: Columns, heading: str) -> int:
    day = next((at for at, each in enumerate(columns) if each.field == "date"), -1)
    found = _YEAR.findall(row[day].strip() if 0 <= day < len(row) else "") or [heading]
    return int(found[-1] or 0)


def _former(
    rows: Sequence[Row],
    money: Sequence[int],
    dated: Mapping[int, int],
    texts: Sequence[str],
    base: str,
) -> tuple[str, bool]:
    """The former currency of a list, and whether later amounts that name none are in euro."""
    named = named_in(texts) & FORMER.keys()
    if base == "EUR" and not named:
        words = {word for text in texts for word in re.findall(r"[a-z]+", text.lower())}
        named = {_FRANCS[word] for word in words & _FRANCS.keys()}
    cells = [(dated[n], row[at]) for n, row in rows for at in money if at < len(row)]
    signs = [(year, sheet_cells.told_currency(cell)) for year, cell in cells]
    told = {sign for _, sign in signs} & FORMER.keys()
    if len(named) != 1 and len(told) == 1:
        return told.pop(), True
    pounds = {year for year, sign in signs if sign == "GBP"}
    euros = {year for year, sign in signs if sign == "EUR"}
    early = all(0 < year <= _LAST or (year >= _SHORT and year < 100) for year in pounds)
    if base == "EUR" and not named and len(pounds) > 1 and early and min(euros, default=0) > _LAST:
        return "IEP", True
    return (named.pop(), base == "EUR") if len(named) == 1 else ("", False)


def _with(cell: str, new: str, code: str) -> str:
    """An amount with a code, where it names no currency, or a sign that is the former one's."""
    if new == "IEP" and "£" in cell and not _STERLING.search(cell):
        cell = cell.replace("£", "")
    if new == code in ("BEF", "FRF", "LUF"):
        cell = _FRANC.sub(" ", cell)
    bare = sheet_cells.is_amount(cell) and not sheet_cells.told_currency(cell)
    return f"{cell.strip()} {new}" if bare else cell
