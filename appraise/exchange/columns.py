"""Which column of a spreadsheet is which field of an entry: by its name, corrected by its cells.

What the name says is believed where the cells can be that; a column without a name that is known
is taken for what its cells are. Each guess has its reason, and is changed by one option.
"""

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise

from appraise.base.errors import InputError
from appraise.base.oneline import folded
from appraise.base.spelling import did_you_mean
from appraise.exchange import sheet_cells, sheet_days
from appraise.exchange.beside import AFTER, best_title, described
from appraise.exchange.csv_file import plain
from appraise.exchange.currencies import header_currency
from appraise.exchange.events import event_in_amount, is_total
from appraise.exchange.header_words import (
    DATE_TARGETS,
    MONEY_TARGETS,
    SIDES,
    TARGETS,
    named_field,
    plain_name,
    second_field,
)
from appraise.exchange.money_words import in_figures, sale_in_words, tells_several
from appraise.exchange.note_lines import is_place
from appraise.exchange.sheet_cells import has_figure, is_currency
from appraise.exchange.sheet_column import Columns, SheetColumn
from appraise.exchange.tables import SheetTable
from appraise.exchange.vocabulary import SheetWords
from appraise.exchange.words import WORD_FIELDS, Words, is_word, words_in
from appraise.records.entry import BESIDE, KIND_OF, OPEN_WORDS
from appraise.records.values import UntypedKind

PRICES = ("price", "paid", "hammer", "asked", "total")
LOOKED = 400  # cells of a column that are looked at
MOST, HALF = 0.8, 0.5  # shares of its cells by which a column is known, or is not what it is called
_SOME_NUMBERS = ("condition_factor", "quality", "appeal")
_UNTYPED = tuple(name for name, kind in KIND_OF.items() if isinstance(kind, UntypedKind))
_FLAGS = ("maker_known", "own_work")
_ID = re.compile(r"[0-9a-f]{16}\Z")
_MANGLED = re.compile(r"\d(?:[.,]\d+)?E\+?\d+\Z|\d{14,16}\Z", re.IGNORECASE)
_PIECE_FILE = re.compile(r"\s*(?:#.*\n\s*)*piece:", re.IGNORECASE)
_VALUES = ("value", "wert", "valeur", "valore", "valor", "waarde")
_SERIALS = {str(day) for day in range(29_221, 51_501)}  # 1980 to 2040, from the end of 1899
_YEAR = re.compile(r"(?:19|20)\d\d")
_WAYS = "its cells say whether money went out or came in"
_RESULTS = {"done": "paid", "record": "hammer"}
_RARE = 0.2  # share of cells
_FEW = 3  # of which fewer may be in order by chance
_PLATE = re.compile(r"1/(?:1|2|3|4|6|8|9|16)")
Test = Callable[[Sequence[str], Words, SheetWords], float]
_LETTERS = re.compile(r"[^\W\d_]")


def columns(
    header: Sequence[str], chosen: Mapping[str, str], file: str, say: SheetWords
) -> Columns:
    """The columns of a table, each field taken once, from the left.

    Args:
        header: The names of the columns.
        chosen: Header to field where the user decided; an empty field leaves it out.
        file: Its name for messages.
        say: The words of spreadsheets.

    Raises:
        InputError: when the user's choice names a column or a field that there is not.
    """
    for name, field in chosen.items():
        if name not in header:
            raise InputError(f"there is no column '{name}'", file, did_you_mean(name, header))
        if field and field not in TARGETS:
            raise InputError(f"field '{field}' is not known", file, did_you_mean(field, TARGETS))
    taken = set(chosen.values())
    found = []
    for name in header:
        currency, _ = header_currency(name)
        guess = named_field(name, say)
        guess = guess if guess not in taken else second_field(name, say)
        field = chosen.get(name, "" if guess in taken else guess)
        why = "you said so" if name in chosen else "its name" if field else ""
        taken.add(field)
        found.append(SheetColumn(name, field, currency if field in MONEY_TARGETS else "", why))
    return tuple(found)


def _one_sided(named: Columns) -> Columns:
    """Columns of a sale are the file's own day and price where there is no purchase beside."""
    taken = {each.field for each in named}
    if "date" not in taken and "sold_date" in taken:
        named = _renamed(named, "sold_date", "date")
    if "sold_price" in taken and not taken & {*PRICES, "done"}:
        named = _renamed(named, "sold_price", "price")
        for part in ("fees", "venue", "postage"):
            if part not in taken:
                named = _renamed(named, f"sold_{part}", part)
    if not {each.field for each in named} & {*PRICES, "offered"}:
        for place, each in enumerate(named):
            if not each.field and plain_name(header_currency(each.header)[1]) in _VALUES:
                currency = header_currency(each.header)[0]
                priced = SheetColumn(each.header, "price", currency, "the only amount by its name")
                return (*named[:place], priced, *named[place + 1 :])
    return named


def of_sales(named: Columns) -> Columns:
    """The columns of a list of sales: their day is that of the sale, whatever else is dated."""
    if "sold_date" not in {each.field for each in named}:
        return named
    return _renamed(_renamed(named, "date", ""), "sold_date", "date")


def _renamed(named: Columns, field: str, new: str) -> Columns:
    return tuple(replace(each, field=new) if each.field == field else each for each in named)


def fitted(
    named: Columns, found: SheetTable, chosen: Mapping[str, str], words: Words, say: SheetWords
) -> Columns:
    """The columns of a table, where their cells say otherwise than their names.

    Args:
        named: The columns by their names.
        found: The table.
        chosen: Header to field where the user decided, which stands.
        words: Turns a cell of a word field into the field's word.
        say: The words of spreadsheets.

    Raises:
        InputError: when a spreadsheet has spoilt the ids of a log's own export.
    """
    rows = [row for _, row in found.rows if _tells(row, say)]
    cells = [_cells(rows, place) for place in range(len(named))]
    named = _with_true_ids(named, cells)
    named = described(_with_titles(named, cells, chosen), cells, chosen, words)
    for place, each in enumerate(named):
        if each.field and each.header not in chosen and cells[place]:
            named = (
                *named[:place],
                _believed(each, cells[place], words, named, say),
                *named[place + 1 :],
            )
    named = _one_sided(_by_cells(named, cells, chosen, words, say, bare=not found.written))
    for correct in AFTER:
        named = correct(named, found.rows, chosen)
    return best_title(named, cells, chosen, say)


def _tells(row: Sequence[str], say: SheetWords) -> bool:
    """Whether a row is more than a heading, but for that of a year, or than totals."""
    told = [cell.strip() for cell in row if cell.strip()]
    if len(told) == 1 < len(row):
        return _YEAR.fullmatch(told[0]) is not None
    return any(map(sheet_days.is_day, told)) or not any(is_total(cell, say) for cell in told)


def _cells(rows: Sequence[Sequence[str]], place: int) -> list[str]:
    """The different cells of a column that say anything, as far as they are looked at."""
    seen: dict[str, None] = {}
    for row in rows:
        cell = plain(row[place]).strip() if place < len(row) else ""
        if cell and not sheet_cells.is_nothing(cell):
            seen[cell] = None
        if len(seen) == LOOKED:
            break
    return list(seen)


def _share(cells: Sequence[str], test: Callable[[str], bool]) -> float:
    """The share of cells for which something holds."""
    return sum(map(test, cells)) / len(cells) if cells else 0.0


def _with_true_ids(named: Columns, cells: Sequence[Sequence[str]]) -> Columns:
    """A column of the user's own numbers is not one of ids that a log gave."""
    for place, each in enumerate(named):
        if each.field != "id" or all(map(_ID.match, cells[place])):
            continue
        if any(map(_ID.match, cells[place])) and any(map(_MANGLED.match, cells[place])):
            spoilt = next(cell for cell in cells[place] if _MANGLED.match(cell))
            raise InputError(
                f"'{sheet_cells.shortened(spoilt)}' was an id before a spreadsheet took it for a "
                "number",
                each.header,
                "Format that column as text in the spreadsheet and export anew.",
            )
        return _put(named, place, each.taken_for("", "its cells are no ids of a log"))
    return named


def _put(named: Columns, place: int, column: SheetColumn) -> Columns:
    return (*named[:place], column, *named[place + 1 :])


def _with_titles(
    named: Columns, cells: Sequence[Sequence[str]], chosen: Mapping[str, str]
) -> Columns:
    """A column 'piece' of plain words is the title, or is kept aside where there is one."""
    for place, each in enumerate(named):
        if each.field != "piece" or each.header in chosen:
            continue
        if not all(_PIECE_FILE.match(cell) for cell in cells[place]):
            titled = any(one.field == "title" for one in named)
            one = each.taken_for("" if titled else "title", "its cells are plain words")
            return _put(named, place, one)
    return named


def _believed(
    each: SheetColumn, cells: Sequence[str], words: Words, named: Columns, say: SheetWords
) -> SheetColumn:
    """A column whose cells cannot be what its name says is another, or is kept aside."""
    taken = {one.field for one in named}
    if each.field in ("record", "way", "kind", "note") and _are_ways(cells, words, say):
        return each.taken_for("way" if "way" not in taken - {each.field} else "", _WAYS)
    if each.field in MONEY_TARGETS:
        if _share(cells, sheet_cells.is_flag) == 1 and _share(cells, _is_amount) < 1:
            done = each.field == "paid" and "done" not in taken
            return each.taken_for("done" if done else "", "its cells are yes or no")
        if days := _days_of(each, cells, taken):
            return each.taken_for(days, "its cells are days")
        if _share(cells, has_figure) and _share(cells, lambda one: _tells_money(one, say)) < HALF:
            return each.taken_for("", "its cells are no amounts")
        if each.field in BESIDE and _are_estimates(each, cells, taken, say):
            return each.taken_for("", "its cells are estimates")
        if each.field not in PRICES and not _share(cells, has_figure):
            return each.taken_for("", "none of its cells is an amount")
    elif each.field in ("record", "done") and not taken & {*PRICES} and _are_results(cells, say):
        return each.taken_for(_RESULTS[each.field], "its cells are amounts")
    elif each.field == "done" and _share(cells, lambda one: _is_done(one, say)) < 1:
        dated = _share(cells, sheet_days.is_day) >= MOST and "date" not in taken
        priced = _share(cells, _is_amount) >= MOST and not taken & set(PRICES)
        other = "date" if dated else "paid" if priced else ""
        why = "its cells are days" if dated else "its cells are not yes or no"
        return each.taken_for(other, why)
    elif each.field in DATE_TARGETS and not _share(cells, has_figure):
        return each.taken_for("", "none of its cells is a day")
    elif each.field in _UNTYPED and not all(cell[:1] in "{[" for cell in cells):
        return each.taken_for("", f"its cells are no {each.field} of a log")
    elif each.field in _TESTED and _share(cells, _TESTED[each.field]) < 1:
        return each.taken_for("", "its cells are no numbers, or not yes or no")
    elif each.field == "identified" and _share(cells, sheet_cells.is_identified) < HALF:
        return each.taken_for("", "its cells do not say how well")
    elif each.field == "way" or (each.field == "currency" and _share(cells, is_currency) < MOST):
        return each.taken_for("", "its cells are nothing of the kind")
    elif each.field in WORD_FIELDS:
        return _fitting_words(each, cells, words, taken)
    return each


def _are_results(cells: Sequence[str], say: SheetWords) -> bool:
    """Whether cells tell amounts, or what happened where there is none."""
    known = _share(cells, lambda one: _is_amount(one) or bool(event_in_amount(one, say)))
    return known >= MOST and _share(cells, _is_amount) >= HALF > _share(cells, sheet_cells.is_flag)


def _days_of(each: SheetColumn, cells: Sequence[str], taken: set[str]) -> str:
    """The field of days in a column of amounts, a tick in 'Sold' among them; '' for none."""
    dated = _share(cells, sheet_days.is_day)
    if dated >= MOST and "date" not in taken:
        return "date"
    ticked = dated >= HALF and dated + _share(cells, sheet_cells.is_flag) == 1
    return "sold_date" if ticked and each.field == "sold_price" and "sold_date" not in taken else ""


def _is_done(cell: str, say: SheetWords) -> bool:
    return sheet_cells.is_flag(cell) or say.has("mine", folded(cell.strip(" .!")))


def _are_ways(cells: Sequence[str], words: Words, say: SheetWords) -> bool:
    """Whether cells say of bookings that money went out, or out and in."""
    told = [folded(cell.strip(" .")) for cell in cells]
    known = all(say.has("went", one) or say.has("came", one) for one in told)
    out = any(say.has("went", one) for one in told)
    return known and out and not all(is_word("record", cell, words) for cell in cells)


def _fitting_words(
    each: SheetColumn, cells: Sequence[str], words: Words, taken: set[str]
) -> SheetColumn:
    """A column 'type' of processes is the process: words that fit one other field move there."""
    own = _understood(cells, each.field, words)
    if each.field == "record" and own < 1:  # single letters are words only among themselves
        own = _understood([cell for cell in cells if len(cell) > 1], each.field, words)
    for name in ("process", "format"):
        if own < 1 and name not in taken and _understood(cells, name, words) == 1:
            return each.taken_for(name, "its cells")
    if not own and "process" not in taken and _are_kinds(cells, words):
        return each.taken_for("process", "its cells")
    if own > 0 and (own >= HALF or len(cells) < 4):
        return each
    fits = [
        name
        for name in WORD_FIELDS
        if name not in taken and _understood(cells, name, words) >= (MOST if own < HALF else 1)
    ]
    if fits and not own:
        return each.taken_for(fits[0], "its cells")
    if own or each.field not in ("record", "channel") or len(cells) < 2:
        return each
    where = "venue" if each.field == "channel" and "venue" not in taken else ""
    return each.taken_for(where, f"none of its words is a {each.field}")


def _are_kinds(cells: Sequence[str], words: Words) -> bool:
    """Whether cells are processes, and formats where the process goes without saying."""
    of = [[is_word(name, cell, words) for name in ("process", "format")] for cell in cells]
    return all(map(any, of)) and sum(one[0] for one in of) >= HALF * len(of)


def _understood(cells: Sequence[str], field: str, words: Words) -> float:
    return _share(
        cells, lambda cell: all(is_word(field, one, words) for one in words_in(field, cell))
    )


def _is_amount(cell: str) -> bool:
    return sheet_cells.is_amount(cell) or bool(sheet_cells.split_postage(cell)[1])


def _tells_money(cell: str, say: SheetWords) -> bool:
    """Whether a cell is an amount, several, or says what happened instead."""
    return (
        _is_amount(cell)
        or not has_figure(cell)
        or tells_several(cell, say)
        or sheet_cells.is_amount(in_figures(cell, say))
        or sheet_cells.leads_with_amount(cell)
    )


def _are_estimates(
    each: SheetColumn, cells: Sequence[str], taken: set[str], say: SheetWords
) -> bool:
    """Whether a column of what comes on top is one of estimates, as 'Taxe' is in German."""
    guided = "hammer" in taken and say.has("estimate", plain_name(each.header))
    return guided or _share(cells, sheet_cells.is_range) > 0


_TESTED = {
    **dict.fromkeys(_SOME_NUMBERS, sheet_cells.is_number),
    **dict.fromkeys(_FLAGS, sheet_cells.is_flag),
}


def _by_cells(
    named: Columns,
    cells: Sequence[Sequence[str]],
    chosen: Mapping[str, str],
    words: Words,
    say: SheetWords,
    bare: bool = False,
) -> Columns:
    """Columns of no name that is known, by what their cells are; each field that is free once."""
    for field, why, fits in (*_KINDS, *(_WITHOUT_NAMES if bare else ())):
        taken = {each.field for each in named}
        if field in taken or (field == "price" and taken & {*PRICES, "sold_price", *SIDES}):
            continue
        scores = [
            (fits(cells[place], words, say), -place)
            for place, each in enumerate(named)
            if not each.field and not each.why and each.header not in chosen and cells[place]
        ]
        best, place = max(scores, default=(0.0, 0))
        if bare and field == "price":
            place = _fuller(named, cells, place)
        if best >= MOST:
            named = _put(named, -place, named[-place].taken_for(field, why))
    return named


def _fuller(named: Columns, cells: Sequence[Sequence[str]], place: int) -> int:
    """The place of the prices, below 0, where they stand left of what came on top of some."""
    at = -place
    left = at > 1 and not named[at - 1].field and len(cells[at - 1]) > len(cells[at])
    signed = any(re.search(r"[$£€]", cell) for cell in cells[at])
    return place + 1 if left and not signed and _share(cells[at - 1], _is_amount) == 1 else place


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
        few = len(short) == len(cells) and len(cells) >= 1
        return _understood(cells, field, words) if few else 0.0

    return fits


def _kind_test(cells: Sequence[str], words: Words, say: SheetWords) -> float:
    """Processes, and formats where the process goes without saying."""
    free = not is_word("process", "qzxv", words) and not is_word("format", "qzxv", words)
    parts = [part.strip() for cell in cells for part in cell.split(",")]
    plain = all(any(is_word(name, part, words) for name in OPEN_WORDS) for part in parts)
    return float(free and plain and len(cells) > _FEW and _are_kinds(cells, words))


def _first(cell: str) -> str:
    """A cell, folded, up to its first comma or bracket."""
    return folded(re.split(r"[,;(]", cell)[0])


def _money_test(cells: Sequence[str], words: Words, say: SheetWords) -> float:
    """Amounts of which some bear a currency or cents, so that counts are none."""
    marked = _share(cells, lambda cell: bool(re.search(r"[$£€¥]|[.,]\d\d\D*\Z|[A-Z]{3}", cell)))
    amounts = _share(cells, lambda cell: _is_amount(cell) or tells_several(cell, say))
    return amounts if marked >= HALF else 0.0


def _title_test(cells: Sequence[str], words: Words, say: SheetWords) -> float:
    """Texts of some words, most of them different."""
    wordy = _share(cells, lambda cell: len(_LETTERS.findall(cell)) >= 6 and " " in cell.strip())
    return 1.4 * wordy * (1 - _share(cells, lambda cell: is_place(cell, say)) / 8)


def _venue_test(cells: Sequence[str], words: Words, say: SheetWords) -> float:
    """Texts of which half or more name a place or a person, and few a piece."""
    pieces = _share(cells, lambda cell: bool(say.of_title(cell)))
    return 1.6 * _share(cells, lambda cell: is_place(cell, say)) if pieces < _RARE else 0.0


def _day_test(cells: Sequence[str], words: Words, say: SheetWords) -> float:
    if any(map(_YEAR.fullmatch, cells)):  # headings of the years that days below do not tell
        days = [cell for cell in cells if not _YEAR.fullmatch(cell)]
        return _share(days, lambda cell: sheet_days.is_day(cell, "2000"))
    return _share(cells, sheet_days.is_day)


def _serial_test(cells: Sequence[str], words: Words, say: SheetWords) -> float:
    """Numbers by which spreadsheets count days, one after the other in time; days among them."""
    days = [int(cell) for cell in cells if cell in _SERIALS]
    moved = len(days) > _FEW and (days == sorted(days) or days == sorted(days, reverse=True))
    others = [cell for cell in cells if cell not in _SERIALS]
    known = [cell for cell in others if sheet_days.is_day(cell) or _YEAR.fullmatch(cell)]
    return (len(days) + len(known)) / len(cells) if moved and len(days) >= len(others) else 0.0


def _number_test(cells: Sequence[str], words: Words, say: SheetWords) -> float:
    """Amounts without a currency, in a table that names no column; no numbers in a row."""
    counted = [int(cell) for cell in cells if cell.isdecimal()]
    steps = {b - a for a, b in pairwise(counted)}
    return 0.0 if len(counted) == len(cells) and len(steps) <= 1 else _share(cells, _is_amount)


def _text_test(cells: Sequence[str], words: Words, say: SheetWords) -> float:
    """Words without a figure, in a table that names no column; no places."""
    return _share(
        cells, lambda cell: len(_LETTERS.findall(cell)) > _FEW and not is_place(cell, say)
    )


def _sale_test(cells: Sequence[str], words: Words, say: SheetWords) -> float:
    return _share(cells, lambda cell: bool(sale_in_words(cell, say)))


def _remark_test(cells: Sequence[str], words: Words, say: SheetWords) -> float:
    """Texts of which some tell of a later sale."""
    return float(any(sale_in_words(cell, say) for cell in cells))


_WITHOUT_NAMES: tuple[tuple[str, str, Test], ...] = (
    ("price", "its cells are numbers, and no other column has amounts", _number_test),
    ("title", "its cells are texts", _text_test),
)
_KINDS: tuple[tuple[str, str, Test], ...] = (
    ("date", "its cells are days", _day_test),
    ("date", "its cells are days as a spreadsheet counts them", _serial_test),
    ("price", "its cells are amounts", _money_test),
    ("sale", "its cells tell of a later sale", _sale_test),
    ("note", "some of its cells tell of a later sale", _remark_test),
    ("sale", "some of its cells tell of a later sale", _remark_test),
    ("record", "its cells say what happened", _word_test("record")),
    ("process", "its cells are processes", _word_test("process")),
    ("process", "its cells are processes and formats", _kind_test),
    ("format", "its cells are formats", _word_test("format")),
    ("housing", "its cells are housings", _word_test("housing")),
    ("venue", "its cells are places and people", _venue_test),
    ("title", "its cells are descriptions", _title_test),
)
