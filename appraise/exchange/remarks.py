"""What the words beside a row say of it: remarks, and the name of a place that tells what happened.

'wanted 120', 'not bought', 'offer of 70 refused', 'SOLD to the dealer', 'gift from my aunt'.
"""

import re
from collections.abc import Iterator, Mapping

from appraise.base.moneytext import FAMILIES, one_of_family
from appraise.base.oneline import folded
from appraise.exchange.money_words import money_parts, offer_in_words
from appraise.exchange.sheet_cells import shortened, told_currency
from appraise.exchange.vocabulary import SheetWords, bare

_LONGEST = 400  # characters of a remark that is read
_BETWEEN = re.compile(r"[,;.!]\s+|\s[-\u2013]\s|\s?[()]\s?")
_PERCENT = re.compile(r"\d+(?:[.,]\d+)?\s?%")
_WORDS = 4  # words at the start of a part that say what happened
_PLACED = ("gift", "swap", "returned")
_TO = ("to", "an", "a", "aan", "al", "alla", "au", "aux")  # before the name of a buyer
_SIGNED = re.compile(r"[$£€]\s?\d|\d\s?(?:[$£€]|euros?\b|eur\b|pounds?\b)", re.IGNORECASE)


def parts_of(text: str) -> Iterator[str]:
    """The parts of a remark, the whole one first."""
    if len(text) <= _LONGEST:
        yield text
        if len(parts := _BETWEEN.split(text)) > 1:
            yield from (part.strip() for part in parts if part.strip())


def event_of_place(place: str, say: SheetWords) -> str:
    """What happened by the words that a place begins with; '' where it is the name of one."""
    words = place.split()
    for many in range(min(_WORDS, len(words)), 0, -1):
        event = say.event(" ".join(words[:many]))
        ends = [folded(word) for word in words[many - 1 : many + 1]]
        sold = event == "sold" and say.money.get(folded(words[0])) == "sold"  # no noun, as 'vente'
        if sold and set(ends) & {*_TO}:
            return event
        person = many < len(words) and (say.has("person", ends[-1]) or words[many][:1].isupper())
        led = many == len(words) or any(say.has("from", end) for end in ends)
        if event in _PLACED and (led or (event == "gift" and person)):
            return event
    return ""


def event_of_remark(note: str, priced: bool, say: SheetWords) -> str:
    """What happened instead of a purchase, as a part of a remark tells; '' for nothing.

    Args:
        note: The remark.
        priced: Whether the row tells a price: then it is no gift.
        say: The words of spreadsheets.
    """
    for part in parts_of(note):
        event = say.event(part)
        if event == "asking" and " " in part:
            return event
        if event == "sold" and any(_tells_fees(one, say) for one in parts_of(note)):
            return event
        if not priced and (placed := event_of_place(part, say)) in ("gift", "swap"):
            return placed
    return ""


def _tells_fees(part: str, say: SheetWords) -> bool:
    """Whether a part of a remark tells what a seller pays."""
    return bool({"fees", "premium"} & money_parts(part, say).keys())


def amounts_of_remark(note: str, say: SheetWords) -> dict[str, str]:
    """What was asked and offered, and what came on top, as a remark tells."""
    told = dict[str, str]()
    for part in parts_of(note):
        found = money_parts(_PERCENT.sub("", part).replace("=", " "), say)
        if found and found.keys() <= {"postage", "asked", "offered", "premium", "fees"}:
            told = {**found, **told}
    return told


def offer_of_remark(note: str, say: SheetWords) -> Mapping[str, str]:
    """What was offered in vain, as a remark tells."""
    return offer_in_words(note, say)


def without_call(texts: Iterator[str], record: str, say: SheetWords) -> str:
    """Why a row is no purchase, as its remarks tell: called off, or sent back; '' for nothing."""
    for text in texts:
        for part in parts_of(text):
            if say.has("called-off", bare(part)):
                return f"'{shortened(part)}' says that nothing happened"
            if record == "bought" and say.event(part) == "returned":
                return f"'{shortened(part)}' says that it went back"
    return ""


def tells_amount(text: str) -> bool:
    """Whether a remark holds an amount with a currency."""
    return len(text) <= _LONGEST and _SIGNED.search(text) is not None


def with_country(cell: str, texts: Iterator[str], base: str, say: SheetWords) -> str:
    """An amount whose sign several currencies share, with that of the country which texts name.

    A sign that is the user's own currency's stays so.
    """
    sign = told_currency(cell)
    if sign not in FAMILIES or one_of_family(sign, base):
        return cell
    told = {code for text in texts for code in say.countries_in(text)} & {*FAMILIES[sign]}
    code = told.pop() if len(told) == 1 else ""
    return re.sub(r"\$|\bkr\b\.?", f" {code} ", cell, flags=re.IGNORECASE) if code else cell
