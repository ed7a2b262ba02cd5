"""What a spreadsheet leaves open, and what the program takes for so, with its reasons.

The decimal point, the order of a date, what happened, the currencies and the words of choice.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from appraise.base.dataclass import dataclass
from appraise.base.moneytext import DOLLARS, EXPONENTS, FORMER, currency_named
from appraise.exchange import sheet_cells, sheet_days
from appraise.exchange.cells import CellReader, is_owed, without_sign
from appraise.exchange.currencies import Currencies, amounts_of, settle
from appraise.exchange.events import EventGuess, is_no_event, record_of, results_watched
from appraise.exchange.former import named_in
from appraise.exchange.header_words import DATE_TARGETS, MONEY_TARGETS, SIDES, plain_name
from appraise.exchange.note_lines import HEADER
from appraise.exchange.preview import ReadAs, SheetQuestion
from appraise.exchange.sections import OF_HEADINGS
from appraise.exchange.sheet_column import Columns
from appraise.exchange.words import (
    WORD_FIELDS,
    WordUse,
    options,
    unknown,
    word_uses,
    words_in,
)

_EITHER = ("CAD", "HKD", "SGD", "TWD")  # where days are written either way
_FEW = 1 / 3  # share of rows whose words may be left unread
_CODE = re.compile(r"\b[A-Z]{3}\b|[A-Z]{1,3}\$|[£€]|\b(?:euros?|pounds|francs|Franken|Euro)\b")
_SPOILT = re.compile(
    r"\d{1,2}[-. /]{1,2}[a-z]{3}[a-z]*\.?|[a-z]{3}[a-z]*[-. /]{1,2}\d{1,2}", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class Settled:
    """How the cells of a file are to be read.

    Attributes:
        point, order, record: As `ReadAs` has them; of what is open the usual one.
        currencies: Of its amounts.
        uses: What each word of choice was taken for.
        owed: Fields whose amounts all stand with a minus.
        guesses: What was taken for so, and why.
        questions: What is open.
    """

    point: str
    order: str
    record: str
    currencies: Currencies
    uses: tuple[WordUse, ...]
    owed: frozenset[str]
    guesses: tuple[EventGuess, ...]
    questions: tuple[SheetQuestion, ...]


def settled(
    named: Columns, rows: Sequence[tuple[str, ...]], above: Sequence[str], chosen: ReadAs, file: str
) -> Settled:
    """How a file is to be read.

    Args:
        named: Its columns.
        rows: The cells of its rows.
        above: The texts above its header.
        chosen: What the user decided.
        file: Its name.
    """
    reader = CellReader(named, chosen.say, chosen.words, chosen.base)
    cells = [reader.said(row) for row in rows]
    owed = _owed(cells)
    money = [
        (sheet_cells.currency_of(one.get("currency", "")), _amounts(one, owed)) for one in cells
    ]
    headers = {each.field: each.currency for each in named if each.currency}
    told = chosen.currency or _currency_above(above)
    currencies = settle(money, headers, chosen.base, told, chosen.dollar)
    told_words = _told_words(cells, chosen)
    uses = word_uses(told_words, chosen.words, chosen.meant)
    uses, spoilt_guess = _unspoilt(uses)
    point, point_guess, point_asked = _point(money, currencies, chosen)
    order, order_guess, order_asked = _order(named, cells, currencies, chosen)
    watched = results_watched(named, rows, chosen.say)
    record, record_guess, record_asked = _record(
        named, cells, (*above,), chosen, file, owed, watched
    )
    guesses = [*spoilt_guess, *point_guess, *order_guess, *record_guess]
    if told and not chosen.currency:
        guesses.append(EventGuess("currency", told, "it is named above the table"))
    if not any(each.field in DATE_TARGETS for each in named):
        guesses.append(EventGuess("columns", "day unknown", "no column holds days"))
    asked = (*point_asked, *order_asked, *record_asked, *_of_money(currencies))
    asked = (*asked, *_of_words(uses, record))
    return Settled(point, order, record, currencies, uses, owed, tuple(guesses), asked)


def _amounts(one: Mapping[str, str], owed: frozenset[str]) -> dict[str, str]:
    cells = {name: without_sign(cell) if name in owed else cell for name, cell in one.items()}
    return amounts_of(cells, MONEY_TARGETS)


def _owed(cells: Sequence[Mapping[str, str]]) -> frozenset[str]:
    """Columns of amounts that all went out: each stands with a minus or in brackets."""
    found = set()
    for name in MONEY_TARGETS:
        amounts = [one[name] for one in cells if name in one]
        if len(amounts) > 1 and all(map(is_owed, amounts)):
            found.add(name)
    return frozenset(found)


def _currency_above(above: Sequence[str]) -> str:
    worded = (text for text in above if not text.isupper())  # 'RON - OLD PHOTOS' is a name
    codes = {currency_named(one) for text in worded for one in _CODE.findall(text)}
    codes = named_in(above) if named_in(above) & FORMER.keys() else codes & set(EXPONENTS)
    return codes.pop() if len(codes) == 1 else ""


def _unspoilt(uses: tuple[WordUse, ...]) -> tuple[tuple[WordUse, ...], list[EventGuess]]:
    """Fractions of a plate that a spreadsheet took for days, where several of a column are such.

    One alone is asked about.
    """
    spoilt = [
        use
        for use in uses
        if use.open and use.field == "format" and use.offers and _SPOILT.fullmatch(use.text)
    ]
    if len({use.offers[0] for use in spoilt}) < 2:
        return uses, []
    meant = tuple(
        replace(use, meaning=use.offers[0], open=False) if use in spoilt else use for use in uses
    )
    why = f"'{spoilt[0].text}' and {len(spoilt) - 1} more were fractions before a spreadsheet took"
    return meant, [EventGuess("meant", "parts of a plate", f"{why} them for days")]


def _told_words(cells: Sequence[Mapping[str, str]], chosen: ReadAs) -> list[tuple[str, str]]:
    return [
        (name, part)
        for one in cells
        for name in one
        if name in WORD_FIELDS and not (name == "record" and is_no_event(one[name], chosen.say))
        for part in words_in(name, one[name])
    ]


Answer = tuple[str, list[EventGuess], list[SheetQuestion]]


def _point(money: list[tuple[str, dict[str, str]]], found: Currencies, chosen: ReadAs) -> Answer:
    amounts = [cell for _, cells in money for cell in cells.values()]
    point = chosen.point or sheet_cells.settle_point(amounts)
    if point != "?":
        return point, [], []
    open_ones = [cell for cell in amounts if sheet_cells.point_of(cell) == "?"]
    whole = any(sheet_cells.point_of(cell) == "" for cell in amounts)
    cents = all(EXPONENTS.get(code) == 2 for code in (*found.seen, found.usual) if code)
    commas = {"," in cell for cell in open_ones}
    if whole and cents and len(commas) == 1:
        point = "." if commas == {True} else ","
        why = f"'{open_ones[0]}' would have three decimals, and other amounts have none"
        return point, [EventGuess("point", point, why)], []
    says = f"is '{open_ones[0]}' more than a thousand, or does it have decimals?"
    mend = "Write --point . or --point , to tell."
    return ".", [], [SheetQuestion("point", says, (".", ","), mend)]


def _order(
    named: Columns, cells: Sequence[Mapping[str, str]], found: Currencies, chosen: ReadAs
) -> Answer:
    dates = [one[name] for name in DATE_TARGETS for one in cells if name in one]
    order = chosen.order or sheet_days.settle_order(dates)
    if order != "?":
        return order, [], []
    for name in DATE_TARGETS:
        by_rows = sheet_days.order_by_rows([one[name] for one in cells if name in one])
        if by_rows:
            return (
                by_rows,
                [EventGuess("order", by_rows, "so the rows follow one another in time")],
                [],
            )
    continental = chosen.say.groups.get("continental", frozenset())
    if any(continental & set(plain_name(each.header).split()) for each in named):
        return "day", [EventGuess("order", "day", "the language of the header")], []
    known = chosen.region != "unknown"
    orders = {
        "month" if code == "USD" else "" if code in _EITHER else "day"
        for code in _codes(found, known)
    }
    if known:
        orders.add("month" if chosen.region == "us" else "day")
    if len(orders) == 1 and (first := orders.pop()):
        why = f"amounts in {min(found.seen)}" if found.seen else "as it is written where you are"
        return first, [EventGuess("order", first, why)], []
    example = next(cell for cell in dates if sheet_days.day_first(cell) == "?")
    says = f"does '{example}' begin with the day or with the month?"
    mend = "Write --order day or --order month."
    return "day", [], [SheetQuestion("order", says, ("day", "month"), mend)]


def _codes(found: Currencies, known: bool) -> set[str]:
    """The currencies of the amounts, where they name any, else the user's own, where known."""
    return set(found.seen) or {found.base} if known else set(found.seen)


def _record(
    named: Columns,
    cells: Sequence[Mapping[str, str]],
    above: Sequence[str],
    chosen: ReadAs,
    file: str,
    owed: frozenset[str],
    watched: bool,
) -> Answer:
    if chosen.record:
        return chosen.record, [], []
    guess = record_of(named, above, file, chosen.say, watched)
    if any(each.field == "record" for each in named):
        lacking = any("record" not in one for one in cells)
        if not guess and lacking and _told_by_lines(named):
            why = "other lines say of themselves that they are not"
            guess = EventGuess("record", "bought", why)
        if (
            guess
            and guess.value == "sold"
            and any("record" in one and chosen.say.event(one["record"]) == "sold" for one in cells)
        ):
            why = "other rows say of themselves that they are sales"
            guess = EventGuess("record", "bought", why)
        return (guess.value, [guess], []) if guess and lacking else ("", [], [])
    if all("sold_price" in one for one in cells) or any(
        each.field in (*SIDES, "way") for each in named
    ):
        return "bought", [], []
    if guess:
        return guess.value, [guess], []
    if owed & {"price", "paid"}:
        why = "amounts with a minus, as money that went out"
        return "bought", [EventGuess("record", "bought", why)], []
    if any(one.keys() & {"record", "sold_price"} for one in cells):
        why = "other rows say of themselves that they are not"
        return "bought", [EventGuess("record", "bought", why)], []
    why = "nothing says otherwise; --record tells what else it was"
    return "bought", [EventGuess("record", "bought", why)], []


def _told_by_lines(named: Columns) -> bool:
    """Whether what happened was found in texts or headings, which say where it was no purchase."""
    if any(each.why == OF_HEADINGS for each in named):
        return True
    return {"record", "price"} <= {each.header for each in named if each.header in HEADER}


def _of_money(found: Currencies) -> list[SheetQuestion]:
    asked = []
    if found.sign and not found.dollar:
        says = f"which dollar is '{sheet_cells.shortened(found.sign)}'?"
        asked.append(SheetQuestion("dollar", says, DOLLARS, "Write --dollar AUD, or another."))
    if found.bare and not found.usual:
        seen = tuple(sorted(found.seen, key=lambda code: (-found.seen[code], code)))
        says = (
            f"in which currency is '{sheet_cells.shortened(found.bare)}'? The file has "
            f"{' and '.join(seen)}"
        )
        choices = tuple(dict.fromkeys((*seen, found.base)))
        mend = f"Write --currency {seen[0]}, or another."
        asked.append(SheetQuestion("currency", says, choices, mend))
    return asked


def _of_words(uses: tuple[WordUse, ...], record: str) -> list[SheetQuestion]:
    """Words that are not understood: others than of what happened are kept beside.

    Where few rows tell what happened in such words, those rows are left out; in a list of results
    they name who bought a lot.
    """
    says = unknown(uses)
    told = [use for use in uses if use.field == "record"]
    open_ones = sum(use.rows for use in told if use.open)
    needed = record != "hammer" and open_ones > _FEW * sum(use.rows for use in told)
    return [SheetQuestion("meant", says, (), options(uses), needed)] if says else []
