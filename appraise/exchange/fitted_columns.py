"""Columns taken by their name, corrected by what stands in them."""

import re
from collections.abc import Mapping

from appraise.exchange import sheet_cells
from appraise.exchange.columns import Column
from appraise.exchange.csv_out import OWN_HEADERS, plain
from appraise.exchange.tables import Table
from appraise.exchange.words import WORD_FIELDS, Words, is_word

_ID = re.compile(r"[0-9a-f]{16}\Z")
_PIECE_FILE = re.compile(r"\s*(?:#.*\n\s*)*piece:", re.IGNORECASE)


def fitted(
    named: tuple[Column, ...], found: Table, chosen: Mapping[str, str], words: Words
) -> tuple[Column, ...]:
    """The columns of a table, where their cells say otherwise than their names.

    Args:
        named: The columns by their names.
        found: The table; an export of the log stands as it is.
        chosen: Header to field where the user decided, which stands.
        words: Turns a cell of a word field into the field's word.
    """
    named = _with_true_ids(named, found)
    if found.header in OWN_HEADERS:
        return named
    return _with_fitting_words(_with_titles(named, found, chosen), found, chosen, words)


def _with_true_ids(named: tuple[Column, ...], found: Table) -> tuple[Column, ...]:
    """A column of the user's own numbers is not one of ids that a log gave."""
    for place, each in enumerate(named):
        cells = [row[place].strip() for _, row in found.rows if place < len(row)]
        if each.field == "id" and not all(_ID.match(cell) for cell in cells if cell):
            return (*named[:place], Column(each.header, ""), *named[place + 1 :])
    return named


def _with_titles(
    named: tuple[Column, ...], found: Table, chosen: Mapping[str, str]
) -> tuple[Column, ...]:
    """A column 'piece' of plain words is the title, or is kept aside where there is one."""
    for place, each in enumerate(named):
        if each.field != "piece" or each.header in chosen:
            continue
        cells = [row[place] for _, row in found.rows if place < len(row)]
        if not all(_PIECE_FILE.match(plain(cell)) for cell in cells if cell.strip()):
            titled = any(one.field == "title" for one in named)
            one = Column(each.header, "" if titled else "title")
            return (*named[:place], one, *named[place + 1 :])
    return named


def _with_fitting_words(
    named: tuple[Column, ...], found: Table, chosen: Mapping[str, str], words: Words
) -> tuple[Column, ...]:
    """A column 'type' of processes is the process: words that fit one other field move there."""
    for place, each in enumerate(named):
        if each.field not in WORD_FIELDS or each.header in chosen:
            continue
        cells = {row[place].strip() for _, row in found.rows if place < len(row)}
        cells = {cell for cell in cells if not sheet_cells.is_nothing(cell)}
        if not cells or any(is_word(each.field, cell, words) for cell in cells):
            continue
        taken = {one.field for one in named}
        fits = [
            name
            for name in WORD_FIELDS
            if name not in taken and all(is_word(name, cell, words) for cell in cells)
        ]
        if fits:
            named = (*named[:place], Column(each.header, fits[0]), *named[place + 1 :])
    return named
