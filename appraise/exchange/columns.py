"""Which column of a spreadsheet is which field of an entry: by its name, corrected by its cells.

What the name says is believed where the cells can be that; a column without a name that is known
is taken for what its cells are. Each guess has its reason, and is changed by one option.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from appraise.base.errors import InputError
from appraise.base.oneline import folded
from appraise.base.spelling import did_you_mean
from appraise.exchange import sheet_cells, sheet_days
from appraise.exchange.beside import AFTER, best_title, described
from appraise.exchange.cell_kinds import (
    HALF,
    MOST,
    are_kinds,
    are_serials,
    by_cells,
    is_money,
    share,
    understood,
)
from appraise.exchange.csv_file import plain
from appraise.exchange.currencies import header_currency
from appraise.exchange.events import event_in_amount, letters_of_deals
from appraise.exchange.header_words import (
    DATE_TARGETS,
    MONEY_TARGETS,
    PRICES,
    SIDES,
    TARGETS,
    is_of_purchase,
    is_of_sale,
    is_other_figure,
    named_field,
    plain_name,
    second_field,
)
from appraise.exchange.money_words import in_figures, tells_several
from appraise.exchange.no_entries import is_total, year_of_heading
from appraise.exchange.sheet_cells import has_figure, is_currency, is_signed, without_yes
from appraise.exchange.sheet_column import Columns, SheetColumn, put
from appraise.exchange.tables import SheetTable
from appraise.exchange.vocabulary import SheetWords
from appraise.exchange.words import WORD_FIELDS, Words, is_word
from appraise.records.entry import BESIDE, KIND_OF
from appraise.records.values import UntypedKind

LOOKED = 400  # cells of a column that are looked at
_SOME_NUMBERS = ("condition_factor", "quality", "appeal")
_UNTYPED = tuple(name for name, kind in KIND_OF.items() if isinstance(kind, UntypedKind))
_FLAGS = ("maker_known", "own_work")
_ID = re.compile(r"[0-9a-f]{16}\Z")
_MANGLED = re.compile(r"\d(?:[.,]\d+)?E\+?\d+\Z|\d{14,16}\Z", re.IGNORECASE)
_PIECE_FILE = re.compile(r"\s*(?:#.*\n\s*)*piece:", re.IGNORECASE)
_VALUES = ("value", "wert", "valeur", "valore", "valor", "waarde")
_SOME = 0.3  # share of cells that are days, the others being ticks
_HEADING = 3  # words of the heading of a year
_WAYS = "its cells say whether money went out or came in"
_RESULTS = {"done": "paid", "record": "hammer"}


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
    if "date" not in taken and "sold_date" in taken and not _two_sided(taken):
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


def _two_sided(taken: set[str]) -> bool:
    """Whether a purchase and a sale both have their price."""
    return "sold_price" in taken and bool(taken & set(PRICES))


def of_sales(named: Columns) -> Columns:
    """The columns of a list of sales: their day is that of the sale, whatever else is dated."""
    taken = {each.field for each in named}
    if _two_sided(taken):
        return named
    if "sold_date" in taken:
        named = _renamed(_renamed(named, "date", ""), "sold_date", "date")
    for part in ("fees", "venue", "postage"):
        if part not in taken:
            named = _renamed(named, f"sold_{part}", part)
    return named


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
    named = _all_believed(named, cells, chosen, words, say)
    named = _all_believed(_freed(named, chosen, say), cells, chosen, words, say)
    named = _one_sided(by_cells(named, cells, chosen, words, say, bare=not found.written))
    for correct in AFTER:
        named = correct(named, found.rows, chosen)
    return best_title(named, cells, chosen, say)


def _freed(named: Columns, chosen: Mapping[str, str], say: SheetWords) -> Columns:
    """The columns, where a field that one could not be is that of the next one of its name."""
    for place, each in enumerate(named):
        field = (
            "" if each.field or each.why or each.header in chosen else named_field(each.header, say)
        )
        if field and field not in {one.field for one in named}:
            named = put(named, place, each.taken_for(field, "its name"))
    return named


def _all_believed(
    named: Columns,
    cells: Sequence[Sequence[str]],
    chosen: Mapping[str, str],
    words: Words,
    say: SheetWords,
) -> Columns:
    """The columns as far as their cells can be what their names say."""
    for place, each in enumerate(named):
        if each.header in chosen or not cells[place]:
            continue
        taken = {one.field for one in named}
        believed = (
            _believed(each, cells[place], words, named, say)
            if each.field
            else _of_deal(each, cells[place], taken, say)
        )
        named = put(named, place, believed)
    return named


def _tells(row: Sequence[str], say: SheetWords) -> bool:
    """Whether a row is more than a heading, but for that of a year, or than totals."""
    told = [cell.strip() for cell in row if cell.strip()]
    if len(told) == 1 < len(row):
        return bool(year_of_heading(told)) and len(told[0].split()) <= _HEADING
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
        return put(named, place, each.taken_for("", "its cells are no ids of a log"))
    return named


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
            return put(named, place, one)
    return named


def _believed(
    each: SheetColumn, cells: Sequence[str], words: Words, named: Columns, say: SheetWords
) -> SheetColumn:
    """A column whose cells cannot be what its name says is another, or is kept aside."""
    taken = {one.field for one in named}
    if each.field in ("record", "way", "kind", "note") and _are_ways(cells, words, say):
        return each.taken_for("way" if "way" not in taken - {each.field} else "", _WAYS)
    if each.field == "title" and (told := _no_title(cells, taken, say)):
        return each.taken_for(*told)
    texts = each.field in ("venue", "note", "title", "sale") and "date" not in taken
    if texts and share(cells, sheet_days.is_day) >= MOST:
        return each.taken_for("date", "its cells are days")
    if each.field in SIDES and taken & {"hammer", "paid", "asked"}:
        return each.taken_for("", "no side of an account, beside other prices")
    if each.field in MONEY_TARGETS:
        return _believed_money(each, cells, taken, say)
    if each.field in ("venue", "sold_venue") and share(cells, is_signed) >= MOST:
        return _of_deal(each, cells, taken, say)
    elif each.field in ("record", "done") and _are_results(cells, taken, say):
        return each.taken_for(_RESULTS[each.field], "its cells are amounts")
    elif each.field == "done" and share(cells, lambda one: _is_done(one, say)) < 1:
        days = share(cells, _is_day) >= MOST or are_serials(cells) >= MOST
        dated = days and "date" not in taken
        priced = share(cells, is_money) >= MOST and not taken & set(PRICES)
        other = "date" if dated else "paid" if priced else ""
        why = "its cells are days" if dated else "its cells are not yes or no"
        return each.taken_for(other, why)
    elif each.field in DATE_TARGETS and not share(cells, has_figure):
        return each.taken_for("", "none of its cells is a day")
    elif each.field in _UNTYPED and not all(cell[:1] in "{[" for cell in cells):
        return each.taken_for("", f"its cells are no {each.field} of a log")
    elif each.field in _TESTED and share(cells, _TESTED[each.field]) < 1:
        return each.taken_for("", "its cells are no numbers, or not yes or no")
    elif each.field == "identified" and share(cells, sheet_cells.is_identified) < HALF:
        return each.taken_for("", "its cells do not say how well")
    elif each.field == "way" or (each.field == "currency" and share(cells, is_currency) < MOST):
        return each.taken_for("", "its cells are nothing of the kind")
    elif each.field in WORD_FIELDS:
        return _fitting_words(each, cells, words, taken)
    return each


def _no_title(cells: Sequence[str], taken: set[str], say: SheetWords) -> tuple[str, str] | None:
    """What a column that is called as titles are is instead, and why; None where it may be one."""
    if "record" not in taken and all(map(say.event, cells)):
        return "record", "its cells say what happened"
    return None if share(cells, _has_word) else ("", "its cells are no words")


def _believed_money(
    each: SheetColumn, cells: Sequence[str], taken: set[str], say: SheetWords
) -> SheetColumn:
    """The same of a column that is called as amounts are."""
    if share(cells, sheet_cells.is_flag) == 1 and share(cells, is_money) < 1:
        done = each.field == "paid" and "done" not in taken
        return each.taken_for("done" if done else "", "its cells are yes or no")
    if days := _days_of(each, cells, taken):
        return each.taken_for(days, "its cells are days")
    if share(cells, sheet_days.is_about_year) >= HALF:
        return each.taken_for("", "its cells are years")
    figures = [cell for cell in cells if has_figure(cell)]
    if figures and share(figures, lambda one: _tells_money(one, say)) < HALF:
        return each.taken_for("", "its cells are no amounts")
    if each.field in BESIDE and _are_estimates(each, cells, taken, say):
        return each.taken_for("", "its cells are estimates")
    told = share(cells, lambda one: has_figure(one) or bool(event_in_amount(one, say)))
    numbered = any(has_figure(in_figures(cell, say)) for cell in cells)
    if not told and not numbered and (len(cells) > 1 or taken & set(PRICES) - {each.field}):
        return each.taken_for("", "none of its cells is an amount")
    if each.field not in PRICES and not share(cells, has_figure):
        return each.taken_for("", "none of its cells is an amount")
    return each


def _of_deal(
    each: SheetColumn, cells: Sequence[str], taken: set[str], say: SheetWords
) -> SheetColumn:
    """A column called 'Purchase' or 'Sale' is the day or the amount of it, as its cells are."""
    asks = "hammer" in taken or each.header.strip().endswith("?")
    if asks and "done" not in taken and share(cells, sheet_cells.is_flag) == 1:
        return each.taken_for("done", "its name and cells") if _is_mine(each, say) else each
    if "hammer" in taken and "sold_venue" not in taken and _are_buyers(cells, say):
        return each.taken_for("sold_venue", "its cells say who bought")
    sale, purchase = is_of_sale(each.header, say), is_of_purchase(each.header, say)
    years = purchase and share(cells, sheet_days.is_late_year) == 1
    if sale == purchase or (is_other_figure(each.header, say) and not years):
        return each
    told = [without_yes(cell) for cell in cells if not (sale and sheet_cells.is_flag(cell))]
    dated = share(told, sheet_days.is_day) >= MOST or are_serials(cells) >= MOST
    dated = dated or years
    priced = not dated and share(cells, is_money) >= MOST
    field = ("sold_date" if sale else "date") if dated else ("sold_price" if sale else "paid")
    free = field not in taken and not (field == "paid" and taken & {"price", "hammer"})
    return each.taken_for(field, "its name and cells") if free and (dated or priced) else each


def _is_mine(each: SheetColumn, say: SheetWords) -> bool:
    """Whether a column's name asks whether its writer bought the piece: 'Did I get it?'."""
    name = plain_name(each.header)
    names = (name, name.rpartition(" ")[0])  # 'l ho preso io'
    return any(say.event(one) == "bought" or say.has("mine", one) for one in names if one)


def _are_buyers(cells: Sequence[str], say: SheetWords) -> bool:
    """Whether cells beside hammer prices say who bought, the writer among them: 'me', 'room'."""
    brief = all(len(cell.split()) <= _HEADING for cell in cells)
    return brief and any(say.has("mine", folded(cell.strip(" .!"))) for cell in cells)


def _is_day(cell: str) -> bool:
    """Whether a cell is a day, or one whose year stands above it."""
    return sheet_days.is_day(cell) or (not cell.isdecimal() and sheet_days.is_day(cell, "2000"))


def _has_word(cell: str) -> bool:
    return re.search(r"[^\W\d_]", cell) is not None


def _are_results(cells: Sequence[str], taken: set[str], say: SheetWords) -> bool:
    """Whether cells tell amounts, or what happened where there is none, beside no other price."""
    if taken & {*PRICES} - {"total"}:
        return False
    known = share(cells, lambda one: is_money(one) or bool(event_in_amount(one, say)))
    return known >= MOST and share(cells, is_money) >= HALF > share(cells, sheet_cells.is_flag)


def _days_of(each: SheetColumn, cells: Sequence[str], taken: set[str]) -> str:
    """The field of days in a column of amounts, a tick in 'Sold' among them; '' for none."""
    dated = share([without_yes(cell) for cell in cells], sheet_days.is_day)
    resold = each.field == "sold_price" and bool(taken & {"paid", "price"})
    if dated >= MOST and resold and "sold_date" not in taken:
        return "sold_date"
    if dated >= MOST and "date" not in taken:
        return "date"
    ticked = dated > _SOME and dated + share(cells, sheet_cells.is_flag) == 1
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
    if each.field == "record" and letters_of_deals(cells):
        return each
    own = understood(cells, each.field, words)
    if each.field == "record" and own < 1:  # single letters are words only among themselves
        own = understood([cell for cell in cells if len(cell) > 1], each.field, words)
    for name in ("process", "format"):
        if own < 1 and name not in taken and understood(cells, name, words) == 1:
            return each.taken_for(name, "its cells")
    if own < HALF and "process" not in taken and are_kinds(cells, words):
        return each.taken_for("process", "its cells")
    if own > 0 and (own >= HALF or len(cells) < 4):
        return each
    fits = [
        name
        for name in WORD_FIELDS
        if name not in taken and understood(cells, name, words) >= (MOST if own < HALF else 1)
    ]
    if fits and not own:
        return each.taken_for(fits[0], "its cells")
    if own or each.field not in ("record", "channel") or len(cells) < 2:
        return each
    where = "venue" if each.field == "channel" and "venue" not in taken else ""
    return each.taken_for(where, f"none of its words is a {each.field}")


def _tells_money(cell: str, say: SheetWords) -> bool:
    """Whether a cell is an amount, several, or says what happened instead."""
    return (
        is_money(cell)
        or tells_several(cell, say)
        or sheet_cells.is_amount(in_figures(cell, say))
        or sheet_cells.leads_with_amount(cell)
    )


def _are_estimates(
    each: SheetColumn, cells: Sequence[str], taken: set[str], say: SheetWords
) -> bool:
    """Whether a column of what comes on top is one of estimates, as 'Taxe' is in German."""
    guided = "hammer" in taken and say.has("estimate", plain_name(each.header))
    return guided or share(cells, sheet_cells.is_range) > 0


_TESTED = {
    **dict.fromkeys(_SOME_NUMBERS, sheet_cells.is_number),
    **dict.fromkeys(_FLAGS, sheet_cells.is_flag),
}
