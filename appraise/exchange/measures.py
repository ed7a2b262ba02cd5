"""Sizes in figures whose unit the column's name tells, or the figures of all of its cells."""

import re
from collections.abc import Sequence

from appraise.exchange.layout import Row
from appraise.exchange.sheet_column import Columns
from appraise.exchange.words import Words, is_word

_SIZE = re.compile(r"\d+(?:[.,]\d+)?\s?[x×*]\s?\d+(?:[.,]\d+)?")
_NOTED = re.compile(rf"({_SIZE.pattern}(?:\s?(?:cm|mm|inches|inch|in)\b)?)[\s,]+[^\d]{{3,24}}")
_UNIT = re.compile(r"\b(cm|mm|inches|in|inch)\b\.?\W*\Z", re.IGNORECASE)
_LARGE = 50  # of sizes in millimetres one at least
_UNITS = ("", "cm", "mm")


def with_units(rows: Sequence[Row], columns: Columns, words: Words) -> tuple[Row, ...]:
    """The rows with the unit behind each bare size of the column of formats.

    Words behind a size, 'on card', are left out where that alone is a format.
    """
    place = next((at for at, each in enumerate(columns) if each.field == "format"), -1)
    rows = [(number, _without_words(row, place, words)) for number, row in rows]
    bare = {row[place].strip() for _, row in rows if 0 <= place < len(row)}
    sizes = [cell for cell in bare if _SIZE.fullmatch(cell)]
    if not sizes:
        return tuple(rows)
    told = _UNIT.search(columns[place].header)
    unit = told[1].lower() if told else _unit_of(sizes, words)
    return tuple(
        (number, (*row[:place], f"{row[place].strip()} {unit}", *row[place + 1 :]))
        if unit and place < len(row) and row[place].strip() in sizes
        else (number, row)
        for number, row in rows
    )


def _without_words(row: Sequence[str], place: int, words: Words) -> tuple[str, ...]:
    """A row whose cell of a size and words is the size alone, where the whole is no format."""
    noted = _NOTED.fullmatch(row[place].strip()) if 0 <= place < len(row) else None
    if noted is None or is_word("format", row[place].strip(), words):
        return tuple(row)
    return (*row[:place], noted[1], *row[place + 1 :])


def _unit_of(sizes: Sequence[str], words: Words) -> str:
    """The unit in which most sizes are formats; millimetres only where they are large numbers."""
    figures = re.findall(r"\d+(?:[.,]\d+)?", " ".join(sizes))
    large = max(float(one.replace(",", ".")) for one in figures) >= _LARGE
    units = _UNITS if large else _UNITS[:-1]
    return max(units, key=lambda one: _known(sizes, one, words))


def _known(sizes: Sequence[str], unit: str, words: Words) -> int:
    """How many sizes are formats in a unit."""
    return sum(is_word("format", f"{size} {unit}".strip(), words) for size in sizes)
