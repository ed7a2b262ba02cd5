"""One row of a spreadsheet to its entries, once it is known how the file is to be read.

A row of a piece that was bought and sold again gives both.
"""

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import field
from typing import Any

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.logday import UNKNOWN_DAY, read_log_day
from appraise.base.moneytext import decimal
from appraise.base.oneline import folded
from appraise.exchange import sheet_cells, sheet_days
from appraise.exchange.account import bill_of, piece_of
from appraise.exchange.cells import CellReader, is_owed, without_sign
from appraise.exchange.csv_file import from_json_cell, plain
from appraise.exchange.currencies import Currencies, amounts_of
from appraise.exchange.events import is_mine, is_no_event, tells_mine
from appraise.exchange.header_words import DATE_TARGETS, MONEY_TARGETS, SALE, SIDES, plain_name
from appraise.exchange.no_entries import is_of_postage, is_other_thing, went_back
from appraise.exchange.remarks import parts_of, tells_amount, without_call
from appraise.exchange.row_prices import PRICES, billed, priced, with_percent
from appraise.exchange.vocabulary import bare
from appraise.exchange.words import WORD_FIELDS, is_several, is_word, words_in
from appraise.records.entry import BESIDE, KIND_OF, OPEN_WORDS, Entry
from appraise.records.values import FlagKind, PageKind, UntypedKind

Titles = Callable[[str], Mapping[str, Any]]
_OF_SALE = ("channel", "asked", "offered", "paid", "hammer", *BESIDE, "venue", "note", "extra")
_TURNS = re.compile("[\u202a-\u202e\u2066-\u2069]")  # marks that turn the reading direction
_NUMBER = r"\d[\d.,]*(?:\s?\d/\d{1,2})?\s?[¼½¾⅛⅜⅝⅞]?"
_SIZE = re.compile(rf"{_NUMBER}\s?[x×]\s?{_NUMBER}(?:\s?(?:cm|mm|in|inches)\b)?")
_DASH = re.compile(r"\s*[-\u2013\u2014/x]+\s*")  # for a lot that found no buyer
_FEW = 3  # words at the start of a title
_TITLE = 400  # characters of a title in which a size is looked for
_UNSURE = ("whole", "carte-de-visite")  # formats that 'full' and 'card' alone do not tell
_FLAT = ("cyanotype", "salted-paper", "lantern-slide", "platinum", "carbon")
_MOUNTS = ("imperial", "boudoir", "promenade", "victoria", "cabinet", "circular")
_FREE = ("gift", "swap", "returned")  # what may have come without a day and without an amount
_PAID = ("bought", "sold", "gift", "swap")  # of which none has a price of 0
_SHORT = 4  # letters of a word in a title that may stand for anything
_BREAK = re.compile("[\r\n\t\u2028\u2029]")
_PART_OF_DAY = re.compile(  # 'Easter 2014', '9/14'
    r"[^\d]{3,}(?:19|20)\d\d|(?:19|20)\d\d[^\d]{3,}|\d{1,2}[-/.]\d{1,2}\.?"
)
_WORDY = re.compile(r"[^\W\d_]|[?+/&=%]")  # what no slip of a figure is
_LETTER = re.compile(r"[^\W\d_]")
_DIGITS = 40  # a longer one is not an amount


class UnsureRowError(InputError):
    """A day in words that are not understood: where few rows are so, they are asked about."""


@dataclass(frozen=True, slots=True)
class RowRead:
    """What a row gives.

    Attributes:
        entries: Its entries; of a purchase and a sale the purchase first.
        doubt: Why it may be no event that belongs into the log; '' for nothing.
    """

    entries: tuple[Entry, ...]
    doubt: str = ""


@dataclass(frozen=True, slots=True)
class RowReader:
    """How the rows of a file are read.

    Attributes:
        cells: What finds what a row says.
        currencies: Of amounts that name none.
        dropped: Words that are left out, as (field, cell).
        point, order: The decimal point, and what a date begins with.
        record, channel: What happened and where, for rows that do not say.
        titles: What a title says beside, as fields of an entry.
        owed: Fields whose amounts all stand with a minus, as money that went out.
        unsure: What happened in words that are not understood.
    """

    cells: CellReader
    currencies: Currencies
    dropped: frozenset[tuple[str, str]] = frozenset()
    point: str = "."
    order: str = "day"
    record: str = ""
    channel: str = ""
    titles: Titles = field(default=lambda _: {})
    owed: frozenset[str] = frozenset()
    unsure: frozenset[str] = frozenset()

    def entry(self, row: Sequence[str]) -> Entry:
        """The first entry of a row; raises as `read` does."""
        return self.read(row).entries[0]

    def read(self, row: Sequence[str], year: str = "") -> RowRead:
        """What a row gives.

        Args:
            row: Its cells.
            year: The year of days that tell none; '' for none.

        Raises:
            InputError: when the row cannot be read.
        """
        cells = self.cells.said(row)
        doubt = self._doubt(cells, row)
        try:
            return self._read(row, cells, year, doubt)
        except InputError as error:
            if doubt:
                raise UnsureRowError(doubt) from error
            raise

    def _read(self, row: Sequence[str], cells: dict[str, str], year: str, doubt: str) -> RowRead:
        """What a row gives, as `read` says, of which it is known why it may be no event."""
        say = self.cells.say
        currency = _currency(cells.pop("currency", "").strip())
        values: dict[str, Any] = {"record": self.record, "channel": self.channel}
        amounts, unread = self._amounts(cells, currency)
        values, doubt = values | amounts, doubt or unread
        for name, cell in cells.items():
            if is_several(name) or (name, cell.strip()) not in self.dropped:
                doubt = self._take(values, name, cell, year) or doubt
        done = values.pop("done", "")
        if self.cells.of_account:
            doubt = doubt or self._of_account(values, self._kept(row))
        self._titled(values, cells)
        doubt = self._remarked(values, row) or doubt
        if values["record"] == "hammer" and (tells_mine(done, say) or self._is_mine(values)):
            values["record"] = "bought"
        if "record" not in cells and values["record"] == "bought":
            values["record"] = self._unless_paid(values)
        measured = cells.get("format") or cells.get("title", "")
        if _is_print(values) and re.search(r"\d\s?[x×]\s?\d", measured):
            del values["format"]
        used_total = priced(values, values["record"] == "sold" or self._is_commission())
        if self.record == "hammer" and self._is_unsold(values, row):
            values["record"] = "unsold"
        if values["record"] == "hammer" and not any(values.get(name) for name in PRICES):
            doubt = doubt or "its price is not told"
        if values["record"] == "bought" and not doubt:
            doubt = self._without_price(values, row, "record" in cells)
        values["extra"] = {**values.get("extra", {}), **self._others(row, used_total)}
        return self._sides(values, doubt)

    def _is_commission(self) -> bool:
        """Whether the premium is called as that is which a seller pays."""
        of = (each.header for each in self.cells.columns if each.field == "premium")
        return any(self.cells.say.money.get(plain_name(name)) == "fees" for name in of)

    def _take(self, values: dict[str, Any], name: str, cell: str, year: str) -> str:
        """Take a cell's value; why it is none where a day is told in words that name none."""
        try:
            values[name] = self._value(name, cell, year)
        except InputError as error:
            told = re.search(r"\d", cell) and not _PART_OF_DAY.fullmatch(cell.strip())
            if name not in DATE_TARGETS or told:
                wordy = name in DATE_TARGETS and _LETTER.search(cell)
                sort = UnsureRowError if wordy else InputError
                raise sort(error.what, error.where or name, error.mend) from error
            return f"'{sheet_cells.shortened(cell)}' is not a day"
        return ""

    def _titled(self, values: dict[str, Any], cells: Mapping[str, str]) -> None:
        """What the title says of fields that have no column, or surely of one that is empty."""
        for name in OPEN_WORDS:
            cell = cells.get(name, "")
            told = self.told_by(cell) if " " in cell else {}
            for other, word in {**told, **self.cells.say.of_title(cell)}.items():
                free = other != name and other in OPEN_WORDS and not values.get(other)
                if free and re.search(r"\w\W+\w", cell):
                    values[other] = word
        title = values.get("title", "")
        own = {each.field for each in self.cells.columns}
        sure = self.cells.say.of_title(title)
        for name, found in self.told_by(title).items() if title else ():
            free = not values.get(name) and name not in ("record", "channel")
            if free and (name not in own or name in sure):
                values[name] = found

    def _without_price(self, values: Mapping[str, Any], row: Sequence[str], recorded: bool) -> str:
        """Why a row without an amount is no purchase; '' where it may be."""
        if not recorded and self._is_bare(values, row):
            return "it tells of no purchase of a piece"
        said = folded(values.get("title", "")).split()
        asks = (" ".join(said[:many]) for many in range(1, _FEW + 1))
        told = any(values.get(name) is not None for name in (*PRICES, *SALE))
        if not told and any(self.cells.say.money.get(one) == "asked" for one in asks):
            return "its title tells of an asking price"
        return "its amount stands in a remark" if self._unpriced(values, row) else ""

    def _is_bare(self, values: Mapping[str, Any], row: Sequence[str]) -> bool:
        """Whether a row without an amount names no piece, or tells of something else."""
        cells = zip(self.cells.columns, row, strict=False)
        money = any(cell.strip() for each, cell in cells if each.field in MONEY_TARGETS)
        if money or any(values.get(name) for name in SALE):
            return False
        words = values.get("title", "").split()
        events = {self.cells.say.event(word) for word in words if len(word) > _SHORT}
        return bool(events & {*_FREE, "refused", "asking"}) or not any(
            values.get(name) for name in OPEN_WORDS
        )

    def _is_unsold(self, values: Mapping[str, Any], row: Sequence[str]) -> bool:
        """Whether a lot without a price was passed, has a dash there, or a remark that says so."""
        if values.get("hammer") or values.get("asked") or values["record"] != "hammer":
            return values["record"] == "asking" and not values.get("asked")
        for each, cell in zip(self.cells.columns, row, strict=False):
            if each.field in ("hammer", "price") and re.fullmatch(
                r"\s*[-\u2013\u2014/x]+\s*", cell
            ):
                return True
            if each.field in ("", "note") and self.cells.say.event(cell) == "unsold":
                return True
        return False

    def _unpriced(self, values: Mapping[str, Any], row: Sequence[str]) -> bool:
        """Whether a row of a list of prices has none of its own, but in a remark."""
        told = any(values.get(name) is not None for name in (*PRICES, "sold_price", "sold_date"))
        listed = any(each.field in PRICES for each in self.cells.columns)
        noted = zip(self.cells.columns, row, strict=False)
        return (
            listed
            and not told
            and any(
                tells_amount(c) for each, c in noted if each.field in ("note", "title", "venue")
            )
        )

    def _remarked(self, values: dict[str, Any], row: Sequence[str]) -> str:
        """A housing that a remark names as a whole; why the row is none, as a remark tells."""
        texts = [
            cell
            for each, cell in zip(self.cells.columns, row, strict=False)
            if each.field in ("", "note", "venue", "sold_venue")
        ]
        for part in (part for text in texts for part in parts_of(text)):
            named = self.cells.say.housing(part)
            if named not in ("", "none") and not values.get("housing"):
                values["housing"] = named
        return without_call(iter(texts), values["record"], self.cells.say)

    def _is_mine(self, values: Mapping[str, Any]) -> bool:
        """Whether a note or the buyer's name says that the writer bought a lot."""
        buyer = values.get("sold_venue", "")
        note = values.get("note", "")
        say = self.cells.say
        noted = is_mine(note, say) if " " in note else say.has("mine", bare(note))
        return tells_mine(buyer, say) or noted

    def _unless_paid(self, values: Mapping[str, Any]) -> str:
        """What happened in a row of a list of prices paid that tells none, but what was asked."""
        paid = {each.field for each in self.cells.columns} & {"paid", "price"}
        told = any(values.get(name) for name in ("paid", "price", "hammer", "total"))
        if told or not paid or not (values.get("asked") or values.get("offered")):
            return "bought"
        return "refused" if values.get("offered") else "asking"

    def told_by(self, title: str) -> Mapping[str, Any]:
        """What a title says of its piece, as fields of an entry."""
        said = self._sized(title, self.cells.say.of_title(title))
        told = {
            name: word
            for name, word in self.titles(title).items()
            if name != "housing" and not (name == "format" and word in _UNSURE)
        }
        read = {**said, **told}
        closer = {name: word for name, word in said.items() if word.startswith(f"{read[name]}-")}
        return {**read, **closer}

    def _sized(self, title: str, said: dict[str, str]) -> dict[str, str]:
        """What a title says, with the format that a size in it measures."""
        size = _SIZE.search(title[:_TITLE]) if "format" not in said else None
        if size and is_word("format", size[0].strip(), self.cells.words):
            return {**said, "format": self.cells.words("format", size[0].strip())}
        return said

    def _forgotten(self, row: Sequence[str]) -> bool:
        """Whether a row says that its price is not known any more."""
        told = zip(self.cells.columns, row, strict=False)
        amounts = (folded(cell.strip()) for each, cell in told if each.field in PRICES)
        return any(len(one) > 1 and self.cells.say.has("day-unknown", one) for one in amounts)

    def _doubt(self, cells: dict[str, str], row: Sequence[str]) -> str:
        """Why a row may be no event; what says so is taken out of its cells."""
        word = cells.get("record", "").strip()
        none = is_no_event(word, self.cells.say)
        if word in self.unsure and not none and self.record == "hammer" and "hammer" in cells:
            del cells["record"]  # who else bought a lot, in a word of its own
            return ""
        if none or word in self.unsure:
            del cells["record"]
            if not self.record:
                cells["record"] = "asking"
            why = "says that nothing happened" if none else "is not understood"
            return f"'{sheet_cells.shortened(word)}' {why}"
        watched = self.record == "hammer"
        if (
            not watched
            and sheet_cells.is_flag(cells.get("done", ""))
            and not sheet_cells.flag(cells["done"])
        ):
            header = next(each.header for each in self.cells.columns if each.field == "done")
            return f"{header} is {cells['done'].strip()}"
        free = cells.get("record", "") and self.cells.words("record", cells["record"]) in _FREE
        dated = any(name in cells for name in (*DATE_TARGETS, *MONEY_TARGETS))
        if not (free or dated or self._forgotten(row)):
            return "neither a day nor an amount"
        if len(cells) > 0 and all(name in MONEY_TARGETS for name in cells):
            return "amounts alone"
        kinds = (cells.get(name, "") for name in ("process", "kind"))
        other = any(is_other_thing(kind, False, self.cells.say) for kind in kinds)
        return "it may be no photograph" if other else ""

    def _of_account(self, values: dict[str, Any], kinds: Sequence[str]) -> str:
        """Keep of the text of a booking what names the piece; why it may be none."""
        words = re.findall(r"[^\W\d_]+", " ".join((values.get("title", ""), *kinds)))
        if any(self.cells.say.event(word) == "returned" for word in words):
            return "its text tells of money that came back"
        text, bill = bill_of(values.get("title", ""), self.cells.say)
        if self.cells.say.any_of("part-payment").search(folded(text)):
            return "its text tells of a part of a price"
        if is_of_postage(text, self.cells.say):
            return "its text tells of postage"
        piece = piece_of(text, self.told_by, self.cells.say)
        if not piece:
            return "its text names no piece"
        values["title"] = piece
        price = values.get("price")
        return billed(values, price, bill, self.point) if price is not None and bill else ""

    def _kept(self, row: Sequence[str]) -> list[str]:
        """The cells of no field."""
        return [cell for each, cell in zip(self.cells.columns, row, strict=False) if not each.field]

    def _amounts(self, cells: dict[str, str], currency: str) -> tuple[dict[str, Any], str]:
        """The amounts of a row, and what of them is no amount but words."""
        amounts = {name: cells.pop(name) for name in MONEY_TARGETS if name in cells}
        for name in self.owed & set(amounts):
            amounts[name] = without_sign(amounts[name])
        amounts = amounts_of(amounts, MONEY_TARGETS)
        found, doubt = dict[str, Any](), ""
        for name, cell in amounts.items():
            try:
                usual = self.currencies.of(name, amounts, currency)
                found[name] = sheet_cells.amount(cell, self.point, usual)
            except InputError as error:
                if found | (more := with_percent(name, cell, self.point, usual)) != found:
                    found |= more
                    continue
                if is_owed(cell) and sheet_cells.is_amount(without_sign(cell)):
                    doubt = f"'{sheet_cells.shortened(cell)}' stands with a minus"
                    continue
                if not _WORDY.search(cell):
                    raise InputError(error.what, error.where or name, error.mend) from error
                doubt = f"'{sheet_cells.shortened(cell)}' is no amount"
        return found, doubt

    def _sides(self, values: dict[str, Any], doubt: str) -> RowRead:
        """The purchase, the sale, or both."""
        sale = {name: values.pop(name) for name in SALE if name in values}
        if not sale.keys() & {"sold_price", "sold_date"}:
            sale = {}
        if "date" in values and sale and self._is_of_sale(values, sale):
            sale["sold_date"] = values.pop("date")
        bought = values if not sale or _tells_of_purchase(values) else {}
        entries = []
        if bought:
            entries.append(Entry(**{"date": UNKNOWN_DAY, **bought}))
        if sale:
            told = {SALE[name]: value for name, value in sale.items()}
            record = {**values, **dict.fromkeys(_OF_SALE)} if bought else values
            kept = {name: value for name, value in record.items() if value is not None}
            entries.append(Entry(**{**kept, "date": UNKNOWN_DAY, **told, "record": "sold"}))
        first = entries[0]
        free = [one for one in entries if one.record in _PAID and one.price is not None]
        if not doubt and any(not one.price.amount for one in free if one.price):
            doubt = "a price of 0"
        if not doubt and went_back(first.title, self.cells.say):
            doubt = "it says that it went back or was called off"
        if not doubt and is_of_postage(first.title, self.cells.say):
            doubt = "it tells of postage"
        if not doubt and is_other_thing(
            first.title, bool(first.process or first.format), self.cells.say
        ):
            doubt = "it may be no photograph"
        return RowRead(tuple(entries), doubt)

    def _is_of_sale(self, values: Mapping[str, Any], sale: Mapping[str, Any]) -> bool:
        """Whether the only day is that of a sale: no purchase has an amount or a day of its own."""
        if "sold_date" in sale or any(values.get(name) is not None for name in PRICES):
            return False
        dated = [each for each in self.cells.columns if each.field in DATE_TARGETS]
        bought = self.cells.say.any_of("of-a-purchase")
        return len(dated) == 1 and not bought.search(plain_name(dated[0].header))

    def _value(self, name: str, cell: str, year: str) -> Any:
        if name in DATE_TARGETS:
            if year and not re.search(r"\d", cell) and not sheet_days.is_day(cell, year):
                return read_log_day(year)  # a feast or the like: its words are kept beside
            return sheet_days.day(cell, self.order, year)
        if name in ("done", "sold_venue", "sale", "way"):
            return _one_line(cell)
        kind = KIND_OF[name]
        if isinstance(kind, UntypedKind):
            return from_json_cell(name, cell)
        if isinstance(kind, PageKind):
            cell = cell.replace("\r\n", "\n").replace("\r", "\n")
            return _TURNS.sub("", cell)
        if is_several(name):
            parts = [one for one in words_in(name, cell) if (name, one) not in self.dropped]
            return tuple(dict.fromkeys(self.cells.words(name, one) for one in parts))
        if name in WORD_FIELDS:
            return self.cells.words(name, cell.strip())
        if name == "identified":
            return sheet_cells.identified(cell)
        if isinstance(kind, FlagKind):
            return sheet_cells.flag(cell)
        if len(cell) > _DIGITS and name in ("appeal", "condition_factor", "quality"):
            raise InputError(f"'{sheet_cells.shortened(cell)}' is not a number")
        if name == "appeal":
            return int(decimal(cell, "."))
        if name in ("condition_factor", "quality"):
            return float(decimal(cell, self.point))
        return _one_line(cell)

    def _others(self, row: Sequence[str], used_total: bool) -> dict[str, Any]:
        """Cells of columns that are none of ours, and words left out: nothing of a file is lost."""
        kept = {
            each.header.strip(): plain(cell).strip().replace("\r\n", "\n").replace("\r", "\n")
            for each, cell in zip(self.cells.columns, row, strict=False)
            if cell.strip()
            if not each.field
            or each.field in ("done", "sale", "way", "discount", *SIDES)
            or (each.field == "total" and not used_total)
            or self._drops(each.field, plain(cell))
        }
        return {"columns": kept} if kept else {}

    def _drops(self, name: str, cell: str) -> bool:
        if name == "record" and cell.strip():
            plain = cell.strip().casefold()
            status = plain == "sold" and self.cells.words(name, cell) == "bought"
            return status or is_no_event(cell, self.cells.say)
        return any((name, one) in self.dropped for one in words_in(name, cell))


def _currency(told: str) -> str:
    """The code that a cell of a column of currencies names; '' for an empty one."""
    currency = sheet_cells.currency_of(told)
    if told and not currency:
        raise InputError(f"currency '{sheet_cells.shortened(told)}' is not known", "currency")
    return currency


def _is_print(values: Mapping[str, Any]) -> bool:
    """Whether a piece that is known by its size in figures is a print or a slide, and no card."""
    mount, process = values.get("format"), values.get("process")
    large = process == "albumen" and mount in _MOUNTS[:4]
    return mount in _MOUNTS and (large or process in _FLAT)


def _one_line(cell: str) -> str:
    parts = (part.strip() for part in _BREAK.split(_TURNS.sub("", cell)))
    return " ".join(part for part in parts if part)


def _tells_of_purchase(values: Mapping[str, Any]) -> bool:
    return "date" in values or any(values.get(name) is not None for name in PRICES)
