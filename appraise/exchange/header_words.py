"""What the columns of spreadsheets are called.

A name is a word of the vocabulary as a whole, or holds one that is long enough to mean nothing
else.
"""

import re

from appraise.base.moneytext import currency_named
from appraise.base.oneline import folded
from appraise.exchange.currencies import header_currency
from appraise.exchange.vocabulary import SheetWords
from appraise.records.entry import ATTRIBUTES, BESIDE, MONEY_FIELDS

SALE = {"sold_date": "date", "sold_price": "paid", "sold_venue": "venue", "sold_fees": "fees",
        "sold_postage": "postage"}  # fmt: skip
"""Columns of a sale that stand in the row of a purchase, and the field of the sale's own entry."""
# `price` becomes paid, hammer or asked, as the record says, less its `discount`; `total` is all of
# a bill, `currency` goes for all amounts, `done` is yes where it came to pass; `debit` and `credit`
# are the two sides of an account, `flow` both in one column, what went out with a minus; `sale`
# tells of a later sale in words; `way` says of each booking whether its amount went out or came in.
SIDES = ("debit", "credit", "flow")
TARGETS = (
    *ATTRIBUTES,
    "price",
    "total",
    "discount",
    "currency",
    "done",
    "sale",
    "way",
    *SIDES,
    *SALE,
)
MONEY_TARGETS = (*MONEY_FIELDS, "price", "total", "discount", "sold_price", "sold_fees",
                 "sold_postage", *SIDES)  # fmt: skip
BESIDE_TARGETS = (*BESIDE, "discount", "sold_fees", "sold_postage")
PRICES = ("price", "paid", "hammer", "asked", "total")
DATE_TARGETS = ("date", "sold_date")
_CAMEL = re.compile(r"(?<=[a-z])(?=[A-Z])")  # 'PricePaid'
_JOINED = re.compile(r"\s(?:and|und|et|e|y|en|incl|inkl|mit|with|plus)\s")
_UPON = re.compile(r"\s(?:on|auf|sur|su|sul|sui|sobre|op)\s")
_FEW = 4  # words of a name
_LONG = 5  # letters of a word beside amounts that names their column
_OF_SALE = {"date": "sold_date", "price": "sold_price", "postage": "sold_postage",
            "fees": "sold_fees", "venue": "sold_venue"}  # fmt: skip
_OWN = {folded(field.replace("_", " ")): field for field in TARGETS if field not in SALE}


def named_field(name: str, say: SheetWords) -> str:
    """The field that a column's name says, with or without its currency; '' for none."""
    name = re.sub(r"\d+(?:[.,]\d+)?\s*%", "", name)
    if "%" in name:
        return ""
    _, bare = header_currency(name)
    whole, without = plain_name(name), plain_name(bare)
    if with_or_without := _with_or_without(whole, say):
        return with_or_without
    parts = re.split(r"\s*(?:/|,|&|\bor\b|\boder\b|\bou\b|\bof\b)\s*", name.strip(" ?"))
    if len(parts) > 1 and all(say.event(part) for part in parts):
        return "record"
    if currency_named(name.strip()):
        return "price"
    if both := _of_both(whole, say):
        return both
    known = _known(whole, say) or _known(without, say) or _field(whole, say)
    known = known or _field(without, say) or (_begun(whole, say) if "." in name else "")
    parted = _CAMEL.sub(" ", name)
    return known or (named_field(parted, say) if parted != name else "")


def _with_or_without(name: str, say: SheetWords) -> str:
    """The field of a price that is called by what is in it, or not: 'Incl. btw', 'ohne Porto'."""
    words = name.split()
    beside = any(say.headings.get(word) in BESIDE for word in words)
    if not beside or len(words) > _FEW:
        return ""
    if any(say.has("inclusive", word) for word in words):
        return "total"
    return "price" if any(say.has("exclusive", word) for word in words) else ""


def _of_both(name: str, say: SheetWords) -> str:
    """The field of a name that joins two: of 'Prix et port', of 'GST on premium'."""
    if _known(name, say):
        return ""
    first, joined, second = _JOINED.sub("\n", name, count=1).partition("\n")
    priced = bool(joined) and _known(first, say) in PRICES and _known(second, say) in BESIDE
    if priced:
        return _known(first, say)
    first, led, _ = _UPON.sub("\n", name, count=1).partition("\n")
    own = say.money.get(first, "")
    return own if led and own in BESIDE else ""


def _begun(start: str, say: SheetWords) -> str:
    """The field of a name that is cut short, where it is of one alone: 'Versandk.'."""
    if " " in start or len(start) < _LONG:
        return ""
    whole = {name: field for name, field in say.headings.items() if " " not in name}
    found = {field for name, field in whole.items() if name.startswith(start)}
    return found.pop() if len(found) == 1 else ""


def second_field(name: str, say: SheetWords) -> str:
    """The field that a column's name may say beside, where its first one is taken; '' for none."""
    if is_of_sale(name, say):
        return _OF_SALE.get(named_field(name, say), "")
    return ""


def _known(words: str, say: SheetWords) -> str:
    return say.headings.get(words) or _OWN.get(words, "")


def _field(words: str, say: SheetWords) -> str:
    if known := _known(words, say):
        return known
    parts = words.split()
    if not 1 < len(parts) <= 6 or is_other_figure(words, say):
        return ""
    padded = f" {words} "
    found = [name for name in say.within if f" {name} " in padded]
    if not found:
        told = {
            say.money[word]
            for word in parts
            if word in say.money and (len(word) >= _LONG or say.money[word] in BESIDE)
        }
        field = told.pop() if len(told) == 1 else ""
        return "sold_price" if field == "sold" else field
    longest = {say.headings[name] for name in found if len(name) == len(found[0])}
    return longest.pop() if len(longest) == 1 else ""


def plain_name(name: str) -> str:
    """'Price paid (USD):' and 'price_paid' are one."""
    if len(name) > 200:
        return ""
    return " ".join(re.sub(r"\([^)]*\)|[^a-z0-9]", " ", folded(name)).split())


def is_of_purchase(name: str, say: SheetWords) -> bool:
    """Whether a column's name speaks of a purchase."""
    return any(say.has("of-a-purchase", word) for word in plain_name(name).split())


def is_other_figure(name: str, say: SheetWords) -> bool:
    """Whether a column's name speaks of figures that are no amount of an event: a balance."""
    return bool(say.groups.get("other-figures", frozenset()) & set(plain_name(name).split()))


def is_of_sale(name: str, say: SheetWords) -> bool:
    """Whether a column's name speaks of a sale."""
    return any(say.has("of-a-sale", word) for word in plain_name(name).split())
