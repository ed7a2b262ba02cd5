"""What a column is by its cells, where its name tells nothing: days, amounts, processes, places."""

import re
from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise

from appraise.base.oneline import folded
from appraise.exchange import sheet_cells, sheet_days
from appraise.exchange.events import is_no_event
from appraise.exchange.header_words import PRICES, SIDES, is_other_figure
from appraise.exchange.money_words import only_amount, sale_in_words, tells_several
from appraise.exchange.note_lines import is_place
from appraise.exchange.sheet_column import Columns, put
from appraise.exchange.vocabulary import SheetWords
from appraise.exchange.words import Words, is_word, words_in
from appraise.records.entry import OPEN_WORDS

MOST, HALF = 0.8, 0.5  # shares of its cells by which a column is known, or is not what it is called
_SERIALS = {str(day) for day in range(29_221, 51_501)}  # 1980 to 2040, from the end of 1899
_YEAR = re.compile(r"(?:[^\W\d]+ ){0,2}(?:19|20)\d\d\Z")
_RARE = 0.2  # share of cells
_FEW = 3  # of which fewer may be in order by chance
_MOST_EVENTS = 12  # different words of a column of what happened
_BRIEF = 3  # words of a cell of choice
_PLATE = re.compile(r"1/(?:1|2|3|4|6|8|9|16)")
Test = Callable[[Sequence[str], Words, SheetWords], float]
_LETTERS = re.compile(r"[^\W\d_]")


def share(cells: Sequence[str], test: Callable[[str], bool]) -> float:
    """The share of cells for which something holds."""
    return sum(map(test, cells)) / len(cells) if cells else 0.0


def are_kinds(cells: Sequence[str], words: Words) -> bool:
    """Whether cells are processes, and formats where the process goes without saying."""
    of = [[is_word(name, cell, words) for name in ("process", "format")] for cell in cells]
    known = sum(map(any, of)) >= MOST * len(of)
    return known and sum(one[0] for one in of) >= HALF * len(of)


def understood(cells: Sequence[str], field: str, words: Words) -> float:
    """The share of cells of which every word is one of a field."""
    return share(
        cells, lambda cell: all(is_word(field, one, words) for one in words_in(field, cell))
    )


def is_money(cell: str) -> bool:
    """Whether a cell is an amount, or one with its postage."""
    return sheet_cells.is_amount(cell) or bool(sheet_cells.split_postage(cell)[1])


def by_cells(
    named: Columns,
    cells: Sequence[Sequence[str]],
    chosen: Mapping[str, str],
    words: Words,
    say: SheetWords,
    bare: bool = False,
) -> Columns:
    """Columns of no name that is known, by what their cells are; each field that is free once."""
    for field, why, fits in (*_KINDS, *(_WITHOUT_NAMES if bare else _LAST)):
        taken = {each.field for each in named}
        if field in taken or (field == "price" and taken & {*PRICES, "sold_price", *SIDES}):
            continue
        scores = [
            (fits(cells[place], words, say), -place)
            for place, each in enumerate(named)
            if not each.field and not each.why and each.header not in chosen and cells[place]
            if field != "price" or not is_other_figure(each.header, say)
        ]
        best, place = max(scores, default=(0.0, 0))
        if bare and field == "price":
            place = _fuller(named, cells, place)
        if best >= MOST:
            named = put(named, -place, named[-place].taken_for(field, why))
    return named


def _fuller(named: Columns, cells: Sequence[Sequence[str]], place: int) -> int:
    """The place of the prices, below 0, where they stand left of what came on top of some."""
    at = -place
    left = at > 1 and not named[at - 1].field and len(cells[at - 1]) > len(cells[at])
    signed = any(re.search(r"[$£€]", cell) for cell in cells[at])
    return place + 1 if left and not signed and share(cells[at - 1], is_money) == 1 else place


def _word_test(field: str) -> Test:
    def fits(cells: Sequence[str], words: Words, say: SheetWords) -> float:
        if is_word(field, "qzxv", words):
            return 0.0  # it takes any word
        whole = {*say.said.get(field, ()), *say.cells.get(field, ())}
        short = [
            cell
            for cell in cells
            if (_LETTERS.search(cell) or _PLATE.fullmatch(cell))
            and (len(cell.split()) <= _FEW or _first(cell) in whole)
        ]
        brief = share(cells, _is_brief) > HALF
        few = len(short) == len(cells) and len(cells) >= 1 and brief
        return understood(cells, field, words) if few else 0.0

    return fits


def _record_test(cells: Sequence[str], words: Words, say: SheetWords) -> float:
    """Words of what happened, and of what did not, of which most tell of something."""
    plain = _word_test("record")
    told = [cell for cell in cells if not is_no_event(cell, say)]
    events = {say.event(cell) for cell in told}
    if {"bought", "sold"} <= events:  # of the others one asks
        told = [cell for cell in told if say.event(cell) or len(told) > _MOST_EVENTS]
    sure = len(told) >= HALF * len(cells) and all(map(_is_brief, cells))
    return plain(told if sure else cells, words, say)


def _kind_test(cells: Sequence[str], words: Words, say: SheetWords) -> float:
    """Processes, and formats where the process goes without saying."""
    free = not is_word("process", "qzxv", words) and not is_word("format", "qzxv", words)
    parts = [part.strip() for cell in cells for part in cell.split(",")]
    plain = all(any(is_word(name, part, words) for name in OPEN_WORDS) for part in parts)
    few = free and plain and len(cells) > _FEW and share(cells, _is_brief) > HALF
    return float(few and are_kinds(cells, words))


def _is_brief(cell: str) -> bool:
    return len(cell.split()) <= _BRIEF


def _first(cell: str) -> str:
    """A cell, folded, up to its first comma or bracket."""
    return folded(re.split(r"[,;(]", cell)[0])


def _money_test(cells: Sequence[str], words: Words, say: SheetWords) -> float:
    """Amounts of which some bear a currency or cents, so that counts are none."""
    told = [cell for cell in cells if sheet_cells.has_figure(cell)]
    marked = share(told, lambda cell: bool(re.search(r"[$£€¥]|[.,]\d\d\D*\Z|[A-Z]{3}", cell)))
    amounts = share(told, lambda one: is_money(only_amount(one, say)) or tells_several(one, say))
    return amounts if marked >= HALF and len(told) >= HALF * len(cells) else 0.0


def _title_test(cells: Sequence[str], words: Words, say: SheetWords) -> float:
    """Texts of some words, most of them different."""
    wordy = share(cells, lambda cell: len(_LETTERS.findall(cell)) >= 6 and " " in cell.strip())
    return 1.4 * wordy * (1 - share(cells, lambda cell: is_place(cell, say)) / 8)


def _venue_test(cells: Sequence[str], words: Words, say: SheetWords) -> float:
    """Texts of which half or more name a place or a person, and few a piece."""
    pieces = share(cells, lambda cell: bool(say.of_title(cell)))
    return 1.6 * share(cells, lambda cell: is_place(cell, say)) if pieces < _RARE else 0.0


def _day_test(cells: Sequence[str], words: Words, say: SheetWords) -> float:
    headings = [cell for cell in cells if _YEAR.search(cell) and not sheet_days.is_day(cell)]
    if headings:  # of the years that days below do not tell
        days = [cell for cell in cells if cell not in headings]
        return share(days, lambda cell: sheet_days.is_day(cell, "2000"))
    return share(cells, sheet_days.is_day)


def _serial_test(cells: Sequence[str], words: Words, say: SheetWords) -> float:
    return are_serials(cells)


def are_serials(cells: Sequence[str]) -> float:
    """The share of numbers by which spreadsheets count days, in order; days among them."""
    days = [int(cell) for cell in cells if cell in _SERIALS]
    moved = len(days) > _FEW and (days == sorted(days) or days == sorted(days, reverse=True))
    others = [cell for cell in cells if cell not in _SERIALS]
    known = [cell for cell in others if sheet_days.is_day(cell) or _YEAR.fullmatch(cell)]
    return (len(days) + len(known)) / len(cells) if moved and len(days) >= len(others) else 0.0


def _number_test(cells: Sequence[str], words: Words, say: SheetWords) -> float:
    """Amounts without a currency, in a table that names no column; no numbers in a row."""
    counted = [int(cell) for cell in cells if cell.isdecimal()]
    steps = {b - a for a, b in pairwise(counted)}
    return 0.0 if len(counted) == len(cells) and len(steps) <= 1 else share(cells, is_money)


def _text_test(cells: Sequence[str], words: Words, say: SheetWords) -> float:
    """Words without a figure, in a table that names no column; no places."""
    return share(cells, lambda cell: len(_LETTERS.findall(cell)) > _FEW and not is_place(cell, say))


def _different_test(cells: Sequence[str], words: Words, say: SheetWords) -> float:
    """Texts of which some have several words, in a table with no other title; no places."""
    several = share(cells, lambda cell: " " in cell.strip())
    return _text_test(cells, words, say) if several >= HALF and len(cells) > _FEW else 0.0


def _sale_test(cells: Sequence[str], words: Words, say: SheetWords) -> float:
    return share(cells, lambda cell: bool(sale_in_words(cell, say)))


def _remark_test(cells: Sequence[str], words: Words, say: SheetWords) -> float:
    """Texts of which some tell of a later sale."""
    return float(any(sale_in_words(cell, say) for cell in cells))


_WITHOUT_NAMES: tuple[tuple[str, str, Test], ...] = (
    ("price", "its cells are numbers, and no other column has amounts", _number_test),
    ("title", "its cells are texts", _text_test),
)
_LAST: tuple[tuple[str, str, Test], ...] = (
    ("title", "its cells are the most different texts", _different_test),
)
_KINDS: tuple[tuple[str, str, Test], ...] = (
    ("date", "its cells are days", _day_test),
    ("date", "its cells are days as a spreadsheet counts them", _serial_test),
    ("price", "its cells are amounts", _money_test),
    ("sale", "its cells tell of a later sale", _sale_test),
    ("note", "some of its cells tell of a later sale", _remark_test),
    ("sale", "some of its cells tell of a later sale", _remark_test),
    ("record", "its cells say what happened", _record_test),
    ("process", "its cells are processes", _word_test("process")),
    ("process", "its cells are processes and formats", _kind_test),
    ("format", "its cells are formats", _word_test("format")),
    ("housing", "its cells are housings", _word_test("housing")),
    ("venue", "its cells are places and people", _venue_test),
    ("title", "its cells are descriptions", _title_test),
)
