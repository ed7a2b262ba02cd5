"""Columns that are known by what stands beside them: a sale's own fees, the text that is the title.

And one of amounts with both signs, which is an account.
"""

from collections.abc import Callable, Mapping, Sequence

from appraise.exchange import sheet_cells, sheet_days
from appraise.exchange.cells import is_owed
from appraise.exchange.currencies import header_currency
from appraise.exchange.header_words import PRICES, SIDES, plain_name
from appraise.exchange.layout import Row
from appraise.exchange.sheet_column import Columns, put
from appraise.exchange.vocabulary import SheetWords
from appraise.exchange.words import Words, is_word, words_in

_TEXTS = ("subjects", "motif")
_MOST, _HALF, _FEW, _ALIKE = 0.7, 0.5, 0.25, 0.6  # shares of cells, and of rows
_SIDE = {
    "fees": "sold_fees",
    "premium": "sold_fees",
    "postage": "sold_postage",
    "venue": "sold_venue",
}
_RARE = 0.2  # share of rows, such as totals
_SPENT_AND_EARNED = {
    "debit": ("gasto", "gastos", "ausgabe", "ausgaben", "depense", "depenses", "uscita", "uscite",
              "uitgave", "uitgaven", "expense", "expenses", "spent", "spending", "out"),
    "credit": ("ingreso", "ingresos", "einnahme", "einnahmen", "recette", "recettes", "entrata",
               "entrate", "inkomst", "inkomsten", "income", "received", "earned", "in", "takings"),
}  # fmt: skip
_COSTS = ("kosten", "costs", "spese", "frais", "gastos", "costi", "costes")


def described(
    named: Columns, cells: Sequence[Sequence[str]], chosen: Mapping[str, str], words: Words
) -> Columns:
    """A column of subjects or motifs in sentences is the title where no column is called so."""
    if any(each.field == "title" for each in named):
        return named
    for field in _TEXTS:
        for place, each in enumerate(named):
            if each.field != field or each.header in chosen or not cells[place]:
                continue
            if _are_sentences(cells[place], field, words):
                return put(named, place, each.taken_for("title", "its cells are descriptions"))
    return named


def _are_sentences(cells: Sequence[str], field: str, words: Words) -> bool:
    """Whether cells are texts of several words, and not words of choice."""
    several = sum(" " in cell.strip() for cell in cells) / len(cells)
    plain = sum(
        all(is_word(field, one, words) and " " not in one for one in words_in(field, cell))
        for cell in cells
    )
    return several >= _FEW and plain / len(cells) < _MOST and len(cells) > 1


def best_title(
    named: Columns, cells: Sequence[Sequence[str]], chosen: Mapping[str, str], say: SheetWords
) -> Columns:
    """The column of texts that names the most pieces is the title, whatever others are called."""
    titled = next((place for place, each in enumerate(named) if each.field == "title"), -1)
    if titled < 0 or named[titled].header in chosen:
        return named
    account = {each.field for each in named} & {
        *SIDES,
        "way",
    }  # of which the remarks name the pieces
    free = [
        place
        for place, each in enumerate(named)
        if not each.field or (account and each.field == "note")
        if each.header not in chosen and cells[place]
    ]
    shares = {place: _names_pieces(cells[place], say) for place in (titled, *free)}
    best = max(shares, key=lambda place: shares[place])
    if best == titled or shares[best] < _HALF or shares[titled] >= _FEW:
        return named
    named = put(named, titled, named[titled].taken_for("", "another column names the pieces"))
    return put(named, best, named[best].taken_for("title", "its cells name pieces"))


def _names_pieces(cells: Sequence[str], say: SheetWords) -> float:
    """The share of cells that name a piece, where they hold more than one word of it."""
    several = [cell for cell in cells if " " in cell.strip()]
    if len(several) <= _HALF * len(cells):
        return 0.0
    return sum(bool(say.of_title(cell)) for cell in cells) / len(cells)


def with_sale(named: Columns, rows: Sequence[Row], chosen: Mapping[str, str]) -> Columns:
    """A second column of days and one of amounts, filled in the same few rows, are a later sale."""
    fields = {each.field for each in named}
    if fields & {"sold_price", "hammer"} or not fields & {"price", "paid"}:
        return named
    first = next(at for at, each in enumerate(named) if each.field in ("price", "paid"))
    free = [
        at
        for at, each in enumerate(named)
        if at > first and not each.field and each.header not in chosen
    ]
    told = {at: [number for number, row in rows if _told(row, at)] for at in free}
    cells = {at: [row[at] for _, row in rows if _told(row, at)] for at in free}
    days = [at for at in free if len(told[at]) > 1 and _most(cells[at], sheet_days.is_day)]
    for at, each in enumerate(named):
        if each.field == "sold_date":
            days, told[at] = [at], [number for number, row in rows if _told(row, at)]
    for day in days:
        for at in free:
            shared = set(told[day]) & set(told[at])
            alike = len(shared) >= _ALIKE * max(len(told[day]), len(told[at]))
            if at != day and alike and _most(cells[at], sheet_cells.is_amount):
                why = "days and amounts stand there in the same rows, as of a later sale"
                named = put(named, day, named[day].taken_for("sold_date", why))
                return put(named, at, named[at].taken_for("sold_price", why))
    return named


def _most(cells: Sequence[str], test: Callable[[str], bool]) -> bool:
    return bool(cells) and sum(map(test, cells)) >= _MOST * len(cells)


def of_the_sale(named: Columns, rows: Sequence[Row], chosen: Mapping[str, str]) -> Columns:
    """Fees and postage right of a sale's columns are the sale's, where no other row has any."""
    at = {each.field: place for place, each in enumerate(named) if each.field}
    sale = [at[name] for name in ("sold_price", "sold_date") if name in at]
    if "sold_price" not in at:
        return named
    for field, own in _SIDE.items():
        place = at.get(field, -1)
        if place < min(sale) or own in at or named[place].header in chosen:
            continue
        told = [row for _, row in rows if _told(row, place)]
        if told and all(_told(row, at["sold_price"]) for row in told):
            why = "it stands beside the sale"
            named = put(named, place, named[place].taken_for(own, why))
    return named


def _told(row: Sequence[str], place: int) -> bool:
    return place < len(row) and bool(row[place].strip(" -"))


def as_account(named: Columns, rows: Sequence[Row], chosen: Mapping[str, str]) -> Columns:
    """One column of amounts of which some went out, with a minus, and others came in."""
    fields = {each.field for each in named}
    if fields & {"sold_price", "debit", "credit"} or len(fields & set(PRICES)) != 1:
        return named
    states = next((at for at, each in enumerate(named) if each.field == "record"), -1)
    if states >= 0 and len({row[states].strip() for _, row in rows if states < len(row)}) > 1:
        return named  # of payments all of which came to pass it says nothing
    for place, each in enumerate(named):
        if each.field not in ("price", "paid") or each.header in chosen:
            continue
        amounts = [row[place] for _, row in rows if _told(row, place)]
        out = sum(map(is_owed, amounts))
        if out and out < len(amounts) and out / len(amounts) >= 1 - _MOST:
            why = "its amounts went out and came in"
            named = put(named, place, each.taken_for("flow", why))
            kept = named[states].taken_for("", "it is one in all rows")
            return named if states < 0 else put(named, states, kept)
    return named


def of_results(named: Columns, rows: Sequence[Row], chosen: Mapping[str, str]) -> Columns:
    """Fees beside hammer prices are the premium, where no column is called so."""
    fields = {each.field for each in named}
    if "hammer" not in fields or fields & {"premium", "sold_price", "paid"}:
        return named
    for place, each in enumerate(named):
        if each.field in ("fees", "sold_fees") and each.header not in chosen:
            return put(named, place, each.taken_for("premium", "fees beside hammer prices"))
    return named


def of_costs(named: Columns, rows: Sequence[Row], chosen: Mapping[str, str]) -> Columns:
    """A column of costs beside one of prices is what came on top."""
    fields = {each.field for each in named}
    if "price" not in fields or "fees" in fields:
        return named
    for place, each in enumerate(named):
        plain = plain_name(header_currency(each.header)[1])
        if each.field == "paid" and plain in _COSTS and each.header not in chosen:
            return put(named, place, each.taken_for("fees", "costs beside a price"))
    return named


def other_side(named: Columns, rows: Sequence[Row], chosen: Mapping[str, str]) -> Columns:
    """A column of amounts called as a place is, 'Bij', beside what went out is what came in."""
    fields = {each.field for each in named}
    if "debit" not in fields or "credit" in fields:
        return named
    for place, each in enumerate(named):
        cells = [row[place] for _, row in rows if _told(row, place)]
        free = each.field == "venue" and each.header not in chosen
        if free and cells and all(map(sheet_cells.is_amount, cells)):
            return put(named, place, each.taken_for("credit", "amounts beside what went out"))
    return named


def as_cash_book(named: Columns, rows: Sequence[Row], chosen: Mapping[str, str]) -> Columns:
    """Columns of income and of spending, each row in one of them, are those of an account."""
    if any(each.field in ("sold_date", "sold_venue", "record") for each in named):
        return named
    at = {
        side: next((p for p, each in enumerate(named) if plain_name(each.header) in words), -1)
        for side, words in _SPENT_AND_EARNED.items()
    }
    free = all(place >= 0 and named[place].header not in chosen for place in at.values())
    both = sum(all(_told(row, place) for place in at.values()) for _, row in rows)
    if not free or both > _RARE * len(rows):
        return named
    for side, place in at.items():
        named = put(named, place, named[place].taken_for(side, "income beside spending"))
    return named


def of_won(named: Columns, rows: Sequence[Row], chosen: Mapping[str, str]) -> Columns:
    """Final prices beside bids, told of lots that were won and of others, are hammer prices."""
    at = {each.field: place for place, each in enumerate(named) if each.field}
    price = at.get("paid", at.get("price", -1))
    if "done" not in at or "offered" not in at or price < 0 or "hammer" in at:
        return named
    if named[price].header in chosen:
        return named
    lost = [row for _, row in rows if _told(row, at["done"]) and not _is_yes(row[at["done"]])]
    if not lost or not all(_told(row, price) for row in lost):
        return named
    return put(named, price, named[price].taken_for("hammer", "it is told of lots of others too"))


def _is_yes(cell: str) -> bool:
    return not sheet_cells.is_flag(cell) or sheet_cells.flag(cell)


Correction = Callable[[Columns, Sequence[Row], Mapping[str, str]], Columns]
AFTER: tuple[Correction, ...] = (
    other_side,
    of_costs,
    with_sale,
    of_the_sale,
    of_won,
    as_cash_book,
    of_results,
    as_account,
)
"""What is corrected once the columns are known by their names and cells."""
