"""A cell that tells several amounts in words: 'sold $58 / fees $7.54', '71 + 5 ship'.

Each part holds one amount; the words beside it say whose it is. The first without any is the price.
"""

import re
from collections.abc import Iterator

from appraise.base.oneline import folded
from appraise.exchange import sheet_cells, sheet_days
from appraise.exchange.vocabulary import SheetWords, bare
from appraise.records.entry import BESIDE

SOLD = "sold"
_LONGEST = 120  # characters of a cell that is taken apart
_BETWEEN = re.compile(
    r"\s*(?:[/;+&\n]|,(?=\s)|\s[-\u2013]\s|\b(?:and|plus|und|zzgl|zuzüglich|m[aá]s|pi[uù])\b"
    r"|(?<=[\d$£€.\-])\s+(?:et|e|y|en)\b)\s*",
    re.IGNORECASE,
)
_POSTAGE = re.compile(r"\b(?:p ?[&+/] ?p|s ?[&+/] ?h)\b", re.IGNORECASE)
_WORD = re.compile(r"[^\W\d_][\w'&+.]*|[^\W\d_]")
_MOST_BESIDE = 5  # words beside an amount that change nothing
_THEN = re.compile(r"(.*?\d[\d.,]*\S*)\s*(?:\(|,\s|\s(?:in|on|am|im|le|en|il|el|op)\s)(.*?)\)?")
_FOR_MANY = re.compile(
    r"(?<=\d\D)\s*\b(?:for|für|fur|pour|per|por|voor)\s+\d{1,3}\s*\Z", re.IGNORECASE
)
_TO = re.compile(r"(?:^|\s+)(?:to|an|à|aan|a)\s+(?=[^\W\d])", re.IGNORECASE)
_AHEAD = re.compile(
    r"(\D{0,4}\d[\d.,]*(?:\s?[$£€]|\s[A-Za-z]{3}\b)?),?\s+(?:(?:in|on|am|im|le|en|il|el|op)\s+)?(.+)"
)
_MOST = 4  # words beside an amount that say whose it is
_AMOUNT_OF = {"sold": SOLD, "bought": "paid", "asking": "asked"}
_FIRST = ("price", SOLD, "paid", "hammer", "asked", "offered")


def money_parts(cell: str, say: SheetWords) -> dict[str, str]:
    """The amounts of a cell by whose they are, 'record' for what happened; none where not all fits.

    Args:
        cell: The cell.
        say: The words of spreadsheets.
    """
    if len(cell) > _LONGEST:
        return {}
    found: dict[str, str] = {}
    for part in _parts(cell, say):
        if say.money.get(folded(part)) in BESIDE:
            continue  # what was on top is not told
        told = _told(part, say)
        if told is None:
            return {}
        whose, amount = told
        if whose == "price" and found.keys() & set(_FIRST):
            return {}  # a second amount without a word is not understood
        if whose in found:
            return {}
        found[whose] = amount
    if SOLD in found:
        found["price"] = found.pop(SOLD)
        found.setdefault("record", SOLD)
    return found


def _parts(cell: str, say: SheetWords) -> Iterator[str]:
    text = _POSTAGE.sub("postage", re.sub(r"[()]", " ; ", cell))
    for part in _BETWEEN.split(text):
        if part.strip():
            yield from _of_two(part.strip(), say)


def _of_two(part: str, say: SheetWords) -> tuple[str, ...]:
    """A part of two amounts before the words of the second: 'asked 55 got it for 45'."""
    words = part.split()
    for at in range(2, len(words) - 1):
        first, second = " ".join(words[:at]), " ".join(words[at:])
        if not (re.search(r"\d\S*\Z", first) and re.search(r"\d", second)):
            continue
        said = (folded(" ".join(words[at : at + many])) for many in range(1, _MOST + 1))
        if any(one in say.money for one in said):
            return (first, second)
    return (part,)


def _told(part: str, say: SheetWords) -> tuple[str, str] | None:
    """Whose amount a part is, and the amount; of words alone the record that they tell."""
    if not re.search(r"\d", part):
        event = say.event(part)
        return ("record", event) if event else None
    if sheet_cells.is_amount(part):
        return "price", part
    words = list(_WORD.finditer(part))
    for many in range(min(_MOST, len(words)), 0, -1):
        for first in (True, False):
            some = words[:many] if first else words[-many:]
            said = part[some[0].start() : some[-1].end()]
            rest = part[some[-1].end() :] if first else part[: some[0].start()]
            outer = part[: some[0].start()] if first else part[some[-1].end() :]
            whose = say.money.get(folded(said.strip(" .:"))) or _event_of(said, say)
            amount = rest.strip(" :=.,@") if first else rest.strip(" :=,@")
            if whose and not outer.strip(" .:=") and sheet_cells.is_amount(amount):
                return whose, amount
    return None


def _event_of(said: str, say: SheetWords) -> str:
    """Whose amount it is where the word says what happened."""
    return _AMOUNT_OF.get(say.events.get(bare(said), ""), "")


def only_amount(cell: str, say: SheetWords) -> str:
    """An amount without the words beside it that change nothing: '15 the lot', '20 incl. post'."""
    cell = _FOR_MANY.sub("", cell)
    words = re.sub(r"[()\[\];]|,(?![\d\u2013\u2014-])", " ", cell).split()
    if len(cell) > _LONGEST or sheet_cells.is_amount(cell) or not re.search(r"\d", cell):
        return cell
    for many in range(min(_MOST_BESIDE, len(words) - 1), 0, -1):
        for said, rest in ((words[-many:], words[:-many]), (words[:many], words[many:])):
            amount = " ".join(rest)
            if say.has("beside-amount", folded(" ".join(said))) and sheet_cells.is_amount(amount):
                return amount
    return cell


def tells_several(cell: str, say: SheetWords) -> bool:
    """Whether a cell tells an amount with words that say whose it is."""
    found = money_parts(cell, say)
    return bool(found.keys() & {*_FIRST, *BESIDE})


def in_figures(cell: str, say: SheetWords) -> str:
    """An amount whose number is written in words, in figures: 'twenty pounds' is '20 pounds'."""
    if len(cell) > _LONGEST or re.search(r"\d", cell):
        return cell
    first, _, rest = cell.strip().partition(" ")
    number = say.numbers.get(folded(first))
    figures = f"{number} {rest}".strip()
    return figures if number and sheet_cells.is_amount(figures) else cell


def amount_and_day(cell: str) -> dict[str, str]:
    """Price and day of a sale that a cell tells as '$110 (Mar 2016)'; empty where it does not."""
    first, comma, last = cell.rpartition(", ")
    if comma and sheet_cells.is_amount(last) and _as_day(first.strip()):
        return {"sold_price": last, "sold_date": first.strip()}
    match = _THEN.fullmatch(cell)
    if not match or not sheet_cells.is_amount(match[1]):
        return {}
    day = match[2].strip()
    known = sheet_days.is_day(day) or re.fullmatch(r"(?:19|20)\d\d", day)
    return {"sold_price": match[1], "sold_date": day} if known else {}


def offer_in_words(note: str, say: SheetWords) -> dict[str, str]:
    """What was offered in vain, as a remark tells: 'offer of 70 refused'."""
    for part in re.split(r"[;.]\s+", note[:_LONGEST]):
        words = part.split()
        for many in range(1, min(_MOST, len(words) - 1) + 1):
            for said, rest in ((words[-many:], words[:-many]), (words[:many], words[many:])):
                told = money_parts(" ".join(rest).strip(" ,"), say)
                if say.event(" ".join(said)) == "refused" and set(told) == {"offered"}:
                    return {**told, "record": "refused"}
    return {}


def sale_in_words(cell: str, say: SheetWords) -> dict[str, str]:
    """Day and price of a later sale that a cell tells of; empty where it does not."""
    if len(cell) > _LONGEST or not re.search(r"\d", cell):
        return {}
    for part in (cell, *re.split(r"[;,.]\s+", cell)):
        if found := _sale_told(part, say):
            return found
    return {}


def _sale_told(cell: str, say: SheetWords) -> dict[str, str]:
    words = cell.split()
    if not words or say.event(words[0]) != SOLD:
        return {}
    rest = " ".join(words[1:])
    ahead = _AHEAD.fullmatch(rest)
    if ahead and sheet_cells.is_amount(ahead[1]) and (known := _as_day(ahead[2])):
        return {"sold_price": ahead[1], "sold_date": known}
    match = re.search(r"(?:\b(?:for|at|fur|für|pour|per|a|por|voor)\s+)(\S.*)\Z", rest)
    amount = match[1] if match else words[-1]
    if not sheet_cells.is_amount(amount) or re.fullmatch(r"(?:19|20)\d\d", amount):
        return {}
    day = rest[: match.start()] if match else " ".join(words[1:-1])
    day, _, buyer = _TO.sub("\n", day.strip(" ,"), count=1).partition("\n")
    day = re.sub(r"^(?:on|in|am|im|le|en|il|el|op)\s+", "", day)
    found = {"sold_price": amount, **({"sold_venue": buyer} if buyer else {})}
    return {**found, "sold_date": day} if _as_day(day) else found


def _as_day(text: str) -> str:
    """A text that is a day or a year; '' for another."""
    return text if sheet_days.is_day(text) or re.fullmatch(r"(?:19|20)\d\d", text) else ""
