"""Amounts of a currency that the euro took over, in a list that tells so in words above it.

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
_YEAR = re.compile(r"(?:19|20)\d\d|(?<=[-./'])\d\d\Z")
_STERLING = re.compile(r"ster|stg|gbp", re.IGNORECASE)


def named_in(texts: Iterable[str]) -> set[str]:
    """The currencies that texts name in one word or two: 'DM', 'Irish pounds'."""
    words = [re.findall(r"[^\W\d_]{2,}|[€£]", text) for text in texts]
    pairs = {f"{a} {b}" for line in words for a, b in pairwise(line)}
    of_pairs = {pair: code for pair in pairs if (code := currency_named(pair))}
    spent = {word for pair in of_pairs for word in pair.split()}
    alone = {word for line in words for word in line} - spent
    return {*of_pairs.values(), *filter(None, map(currency_named, alone))}


def with_former(
    rows: Sequence[Row], columns: Columns, texts: Sequence[str], years: Mapping[int, str]
) -> tuple[Row, ...]:
    """The rows, in which amounts up to 2001 that name no other currency bear the former one."""
    old = named_in([*texts, *(each.header for each in columns)]) & FORMER.keys()
    day = next((at for at, each in enumerate(columns) if each.field == "date"), -1)
    if len(old) != 1 or any(each.currency in FORMER for each in columns):
        return tuple(rows)
    code, changed = old.pop(), list[Row]()
    for number, row in rows:
        found = _YEAR.findall(row[day] if 0 <= day < len(row) else "") or [years[number]]
        last = int(found[-1] or 0)
        late = not _SHORT <= last <= _LAST  # years of two figures: 69 to 99 are of the last century
        cells = (
            _with(cell, code) if each.field in MONEY_TARGETS and not late else cell
            for each, cell in zip(columns, row, strict=False)
        )
        changed.append((number, (*cells, *row[len(columns) :])))
    return tuple(changed)


def _with(cell: str, code: str) -> str:
    """An amount with a code, where it names no currency, or a pound that is no British one."""
    if code == "IEP" and "£" in cell and not _STERLING.search(cell):
        cell = cell.replace("£", "")
    bare = sheet_cells.is_amount(cell) and not sheet_cells.told_currency(cell)
    return f"{cell} {code}" if bare else cell
