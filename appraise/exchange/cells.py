"""What the cells of a row say, by field: before any is read, and whatever column it stood in.

A cell of money may tell several amounts, or what happened; the two sides of an account are a
purchase and a sale; a word of choice may stand in the column of another.
"""

import re
from collections.abc import Iterator, Sequence

from appraise.base.dataclass import dataclass
from appraise.base.oneline import folded
from appraise.exchange import sheet_cells
from appraise.exchange.csv_file import plain
from appraise.exchange.events import event_in_amount
from appraise.exchange.header_words import BESIDE_TARGETS, DATE_TARGETS, MONEY_TARGETS, SIDES
from appraise.exchange.money_words import (
    amount_and_day,
    in_figures,
    money_parts,
    only_amount,
    sale_in_words,
)
from appraise.exchange.remarks import (
    amounts_of_remark,
    event_of_place,
    event_of_remark,
    offer_of_remark,
    with_country,
)
from appraise.exchange.sheet_column import SheetColumn
from appraise.exchange.vocabulary import SheetWords, bare
from appraise.exchange.words import Words, is_word
from appraise.records.entry import KIND_OF, OPEN_WORDS
from appraise.records.values import LINE, PageKind

_NO_AMOUNT = re.compile(r"[$£€¥]?\s*[-\u2013\u2014]+\s*[$£€¥]?")  # as sheets show nothing at all
_NOT = re.compile(r"no|nein|non|nee|nicht|niet|not")  # in a column of what was paid
_SIGNED = re.compile(r"\W*-\s*\W*\d|\s*\(\W*\d.*\)\s*\Z")
_PRICES = ("price", "paid", "hammer", "asked", "offered", "sold_price")
_SALE = {"price": "sold_price", "fees": "sold_fees", "postage": "sold_postage"}


def is_owed(cell: str) -> bool:
    """Whether an amount stands with a minus or in brackets."""
    return _SIGNED.match(cell) is not None


def without_sign(cell: str) -> str:
    """An amount without the minus or the brackets around it."""
    return re.sub(r"^\W*-\s*|^\s*\(\s*|\s*\)\s*$", "", cell)


@dataclass(frozen=True, slots=True)
class CellReader:
    """Finds what a row says.

    Attributes:
        columns: What each column was taken for.
        say: The words of spreadsheets.
        words: Turns a cell of a field of words into the field's word.
        base: ISO 4217 code of the user's own currency.
    """

    columns: tuple[SheetColumn, ...]
    say: SheetWords
    words: Words
    base: str = ""

    @property
    def of_account(self) -> bool:
        """Whether the rows are those of an account, which tell of other things too."""
        return any(each.field in (*SIDES, "way") for each in self.columns)

    def said(self, row: Sequence[str]) -> dict[str, str]:
        """The cells that say anything, by field."""
        cells = zip(self.columns, row, strict=False)
        told = {each.field: plain(cell) for each, cell in cells if each.field}
        found = {name: cell for name, cell in told.items() if self._says(name, cell)}
        if "sold_date" in found:
            found["sold_date"] = sheet_cells.without_yes(found["sold_date"])
        self._account(found)
        self._sale(found)
        for name in BESIDE_TARGETS:
            if name in found:
                found[name] = without_sign(found[name])
        for name in _PRICES:
            if name in found:
                self._money(found, name)
        self._remarked(found, row)
        for name in MONEY_TARGETS:
            if name in found:
                found[name] = with_country(found[name], self._texts(row), self.base, self.say)
        self._moved(found)
        return found

    def _texts(self, row: Sequence[str]) -> Iterator[str]:
        """The cells of a row that are remarks, places or of no field."""
        for each, cell in zip(self.columns, row, strict=False):
            if each.field in ("", "note", "venue"):
                yield cell

    def _remarked(self, found: dict[str, str], row: Sequence[str]) -> None:
        """What remarks and places say of amounts, and of what happened instead of a purchase."""
        if self.of_account:
            return
        priced = bool(found.keys() & {"price", "paid", "hammer", "offered", "sold_price"})
        if found.get("note") and not priced:
            found |= offer_of_remark(found["note"], self.say)
        for text in self._texts(row):
            on_top = amounts_of_remark(text, self.say)
            if "postage" in on_top and not found.keys() & set(_PRICES):
                continue
            for name, amount in on_top.items():
                found.setdefault(name, amount)
        if found.keys() & {"record", "sold_price", "sold_date"}:
            return
        first, _, rest = found.get("title", "").partition(" ")
        if rest and self.say.money.get(folded(first)) == "sold" and self.say.event(first) == "sold":
            found |= {"record": "sold", "title": rest}
            return
        event = event_of_place(found.get("venue", ""), self.say)
        event = "" if priced and event == "gift" else event
        told = (
            event_of_remark(text, priced, self.say)
            for text in self._texts(row)
            if "offered" not in found
        )
        event = event or next(filter(None, told), "")
        if event:
            found["record"] = event
        if event == "asking" and "paid" in found:
            found["price"] = found.pop("paid")

    def _says(self, name: str, cell: str) -> bool:
        """Whether a cell says anything: a dash does not, but in a title it may be meant."""
        kind = KIND_OF.get(name)
        if kind is LINE or isinstance(kind, PageKind):
            return bool(cell.strip())
        if name in MONEY_TARGETS and _NO_AMOUNT.fullmatch(cell.strip()):
            return False
        if name in OPEN_WORDS and self.say.has("nothing", bare(cell)):
            return False
        if name in BESIDE_TARGETS and self.say.has("nothing-beside", bare(cell)):
            return False
        if name == "sold_date" and sheet_cells.is_flag(cell):
            return False
        if name in (*DATE_TARGETS, *MONEY_TARGETS) and self.say.has(
            "day-unknown", folded(cell.strip())
        ):
            return False
        return not sheet_cells.is_nothing(cell)

    def _account(self, found: dict[str, str]) -> None:
        """The two sides of an account, or its one column of signed amounts."""
        went, came, flow = (found.pop(name, "") for name in SIDES)
        way = bare(found.pop("way", ""))
        if way and "price" in found:
            went = found["price"] if self.say.has("went", way) else ""
            came = found["price"] if self.say.has("came", way) else ""
        if flow:
            went, came = (flow, "") if is_owed(flow) else ("", flow)
        if went or came:
            found["price"] = without_sign(went or came)
            found.setdefault("record", "bought" if went else "sold")

    def _sale(self, found: dict[str, str]) -> None:
        """What a column of later sales tells in words: 'sold Sep 2016 for $75'."""
        sold = found.get("sold_price", "")
        if sold and not sheet_cells.is_amount(sold) and "sold_date" not in found:
            found |= sale_in_words(sold, self.say) or amount_and_day(sold)
        told = sale_in_words(found.pop("sale", "") or found.get("note", ""), self.say)
        if told and not found.keys() & {"sold_price", "sold_date"}:
            found.update(told)

    def _money(self, found: dict[str, str], name: str) -> None:
        """An amount that says what happened instead, or several amounts in words."""
        event = event_in_amount(found[name], self.say)
        if not event and not sheet_cells.has_figure(found[name]):
            placed = event_of_place(found[name], self.say)
            event = placed if placed == "swap" else ""
        if not event and self.say.has("no-event", bare(found[name])):
            event = found[name].strip()
        if name == "paid" and _NOT.fullmatch(bare(found[name])):
            event = "asking"
        if name == "hammer" and event == "asking":
            event = "unsold"  # 'passed'
        if event:
            del found[name]
            if name != "sold_price":
                found.setdefault("record", event)
            return
        found[name] = only_amount(in_figures(found[name], self.say), self.say)
        if sheet_cells.is_amount(found[name]):
            return
        parts = money_parts(found[name], self.say)
        if not parts:
            return
        sale = name == "sold_price"
        del found[name]
        for whose, amount in parts.items():
            if whose == "record":
                if not sale:
                    found.setdefault("record", amount)
                continue
            field = name if whose == "price" else whose
            found.setdefault(_SALE.get(field, field) if sale else field, amount)

    def _moved(self, found: dict[str, str]) -> None:
        """A word that stands in the column of another word of choice, where that one is empty."""
        for name in OPEN_WORDS:
            cell = found.get(name, "")
            if not cell or is_word(name, cell, self.words):
                continue
            free = [one for one in OPEN_WORDS if one != name and one not in found]
            fits = [one for one in free if is_word(one, cell, self.words)]
            if len(fits) == 1:
                found[fits[0]] = found.pop(name)
