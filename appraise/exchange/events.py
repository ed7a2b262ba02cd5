"""What a spreadsheet's rows tell of: purchases, sales, prices seen, or nothing that happened."""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence

from appraise.base.dataclass import dataclass
from appraise.base.oneline import folded
from appraise.exchange import sheet_cells
from appraise.exchange.header_words import (
    DATE_TARGETS,
    is_of_purchase,
    is_of_sale,
    named_field,
    plain_name,
)
from appraise.exchange.housing_words import housing_of_cell
from appraise.exchange.sheet_column import Columns
from appraise.exchange.vocabulary import SheetWords, bare
from appraise.exchange.words import Words, short_words
from appraise.records.entry import OPEN_WORDS

_LONGEST = 60  # characters of a word of what happened
_BRIEF = 5  # words of a cell of choice in which the one that is meant is looked for
_LONGEST_NOTE = 400  # characters of a note in which one is looked for
_PARTS = re.compile(r"\s[-\u2013/]\s|[,;(]|\s(?:and|und|et|en)\s")
_DEALS = ("bs", "ps", "kv", "av", "cv", "ev")  # of six languages, the purchase first
_NONE = ("no-event", "called-off")


@dataclass(frozen=True, slots=True)
class EventGuess:
    """Something that the program took for so, and why.

    Attributes:
        name: The field of `ReadAs` that says otherwise.
        value: What it was taken for.
        why: The reason.
    """

    name: str
    value: str
    why: str


@dataclass(frozen=True, slots=True)
class _Column:
    """What a column of what happened tells of.

    Attributes:
        of_results: Lots of which some did not sell.
        passed_unsold: In it 'passed' is a lot that found no buyer.
        of_states: Where pieces are now whose price was paid.
    """

    of_results: bool
    passed_unsold: bool
    of_states: bool

    @classmethod
    def of(cls, columns: Columns, cells: Iterable[str], say: SheetWords) -> "_Column":
        """What the cells of a column tell, beside the other columns."""
        told = {folded(cell) for cell in cells}
        said = {say.event(cell) or cell for cell in told}
        fields = {each.field for each in columns}
        failed = bool({"unsold", "passed"} & (said | told))
        own = "unsold" in said and "bought" not in said
        results = failed and ("hammer" in fields or own)
        # a lot that one lost is not called passed, unless one had a limit of one's own
        lost = "hammer" in fields and "offered" not in fields and "hammer" in said
        passed = results and (lost or "bought" not in said)
        return cls(results, passed, _is_status(columns, told, say))


def with_records(
    words: Words, columns: Columns, cells: Iterable[str], say: SheetWords, sales: bool = False
) -> Words:
    """The words of what happened and of choice in six languages, before all other words.

    In a column that tells of lots that did not sell, beside hammer prices or where none was bought,
    'sold' is a hammer price that somebody else paid and 'passed' is unsold. In one that says where
    pieces are now whose price was paid, a piece that was sold since was bought. In a list of
    sales what came to pass was a sale.
    """
    given = list(cells)
    column = _Column.of(columns, given, say)
    words, letters = short_words(words), letters_of_deals(given)

    def word(name: str, text: str) -> str:
        if len(text) > _LONGEST:
            return words(name, text)
        plain = bare(text)
        if name != "record":
            return _choice(name, text, say) or words(name, text)
        meant = (event := letters.get(plain) or say.event(text)) or plain
        if sales and meant == "bought":
            return "sold"
        if column.of_results and meant == "sold":
            return "hammer"
        if column.passed_unsold and plain in ("passed", "pass"):
            return "unsold"
        if column.of_states and meant in ("sold", "asking"):
            return "bought"
        mine = "bought" if say.has("mine", plain) else ""
        return event or _event_of_parts(text, say) or mine or words(name, text)

    return word


def letters_of_deals(cells: Iterable[str]) -> Mapping[str, str]:
    """What single letters mean where a column has two: 'C' and 'V' of compra and venta."""
    told = {bare(cell) for cell in cells if cell.strip()}
    pair = next((one for one in _DEALS if told == set(one)), "")
    return dict(zip(pair, ("bought", "sold"), strict=False))


def _choice(name: str, text: str, say: SheetWords) -> str:
    """The word of a field that a cell of choice means, whole or up to its first comma; or ''."""
    own = say.cells.get(name, {})
    first = bare(re.split(r"[,;(]", text)[0]) if name in OPEN_WORDS else ""
    found = own.get(bare(text)) or own.get(first, "")
    brief = name in say.said and len(text.split()) <= _BRIEF
    found = found or (say.of_title(text).get(name, "") if brief else "") or say.begun(name, text)
    made = not found and name == "housing" and brief
    return housing_of_cell(folded(text), say.materials, say.groups) if made else found


def _is_status(columns: Columns, told: set[str], say: SheetWords) -> bool:
    """Whether a column of what happened says where pieces are now that were all bought once."""
    status = next((each for each in columns if each.field == "record"), None)
    fields = {each.field for each in columns}
    if status is None or "paid" not in fields or fields & {"asked", "offered"}:
        return False
    states = say.groups.get("state", frozenset())
    return bool(states & (told | set(plain_name(status.header).split())))


def is_no_event(cell: str, say: SheetWords) -> bool:
    """Whether a cell of what happened says that nothing did."""
    parts = [bare(part) for part in (cell, *_PARTS.split(cell))] if len(cell) <= _LONGEST else []
    ends = [one.partition(" ")[2] for one in parts if one.count(" ") > 1 and not say.event(one)]
    return any(say.has(place, one) for one in (*parts, *ends) for place in _NONE)


def _event_of_parts(text: str, say: SheetWords) -> str:
    """The one event that parts of a cell tell: 'returned and refunded'; '' for none or several."""
    found = {say.event(part) for part in _PARTS.split(text)} - {""}
    return found.pop() if len(found) == 1 else ""


def is_of_sales(columns: Columns, above: Sequence[str], file: str, say: SheetWords) -> bool:
    """Whether the title of a list, its file or its columns say that it holds sales."""
    texts = (titled(text, say) for text in (*above, file.rpartition(".")[0]))
    return _are_sales(columns, say) or next(filter(None, texts), "") == "sold"


def _are_sales(columns: Columns, say: SheetWords) -> bool:
    """Whether the columns are of sales alone: sold on, to whom or for what fee, and no purchase."""
    dated = [each for each in columns if each.field in ("date", "sold_date")]
    sold = bool(dated) and all(is_of_sale(each.header, say) for each in dated)
    named = {named_field(each.header, say) for each in columns}
    beside = named & {"sold_fees", "sold_venue", "fees"}
    told = (each.header for each in columns if each.field in (*DATE_TARGETS, "paid", "venue"))
    return sold and bool(beside) and not any(is_of_purchase(name, say) for name in told)


def titled(text: str, say: SheetWords) -> str:
    """What a title says that its rows are; of purchases and sales the purchases; '' for nothing."""
    words = plain_name(text.replace("-", " ").replace("_", " ")).split()
    named = [say.titles[word] for word in words if word in say.titles]
    if "hammer" in named and "bought" not in named:
        return "hammer"
    return "bought" if {"bought", "sold"} <= set(named) else next(iter(named), "")


def event_in_amount(cell: str, say: SheetWords) -> str:
    """The record of a cell of an amount that says what happened instead: a gift, unsold; or ''."""
    if len(cell) > _LONGEST or re.search(r"\d", cell):
        return ""
    found = say.event(cell)
    return found or ("gift" if bare(cell) == "gift" else "")


def is_mine(note: str, say: SheetWords) -> bool:
    """Whether a note in a list of results says that its writer bought the lot."""
    return len(note) <= _LONGEST_NOTE and say.any_of("mine").search(folded(note)) is not None


def tells_mine(cell: str, say: SheetWords) -> bool:
    """Whether a cell of a column of buyers, or of what was won, says that it is the writer."""
    return say.has("mine", bare(cell)) or (sheet_cells.is_flag(cell) and sheet_cells.flag(cell))


def results_watched(columns: Columns, rows: Sequence[Sequence[str]], say: SheetWords) -> bool:
    """Whether hammer prices are those of a sale that was watched: some lots did not sell."""
    places = [place for place, each in enumerate(columns) if each.field in ("hammer", "price")]
    buyers = [place for place, each in enumerate(columns) if each.field in ("sold_venue", "done")]
    mine = [tells_mine(row[at], say) for row in rows for at in buyers if at < len(row)]
    guided = sum(say.has("estimate", plain_name(each.header)) for each in columns)
    if places and (guided > 1 or (any(mine) and not all(mine) and guided)):
        return True
    places = [place for place in places if columns[place].field == "hammer" or guided]
    if any(columns[place].field == "hammer" for place in places) and any(mine) and not all(mine):
        return True
    return any(
        place < len(row) and event_in_amount(row[place], say) in ("unsold", "asking")
        for row in rows
        for place in places
    )


def record_of(
    columns: Columns, above: Sequence[str], file: str, say: SheetWords, watched: bool = False
) -> EventGuess | None:
    """What happened in rows that do not say so themselves; None where nothing tells."""
    fields = {each.field for each in columns}
    if _are_sales(columns, say):
        return EventGuess("record", "sold", "its columns of a sale, and none of a purchase")
    if watched and "paid" not in fields:
        return EventGuess("record", "hammer", "the columns of an auction that was watched")
    told = next(speaks_of_purchase(columns, say), "")
    if told:
        return EventGuess("record", "bought", f"the column '{told}'")
    listed = _by_title(above, file, say)
    if "hammer" in fields and "paid" not in fields:
        if listed and listed.value in ("hammer", "bought"):
            return listed
        beside = fields & {"premium", "postage"}
        found = "bought" if beside else "hammer"
        why = f"a hammer price with its {min(beside)}" if beside else "a column of hammer prices"
        return EventGuess("record", found, why)
    if listed:
        return listed
    for each in columns:
        if each.field == "venue" and say.has("seller", plain_name(each.header)):
            return EventGuess("record", "bought", f"the column '{each.header}'")
    if "asked" in fields and not fields & {"paid", "price"}:
        return EventGuess("record", "asking", "a column of asking prices")
    named = {named_field(each.header, say): each.header for each in columns if each.field}
    own = "sold_price" in named and "sold_price" not in fields  # of the rows, not beside others
    if own and named.keys() & {"sold_venue", "sold_fees"}:
        return EventGuess("record", "sold", f"the column '{named['sold_price']}' and who bought")
    beside = fields & {"postage", "premium", "total", "tax", "fees"}
    if beside:
        return EventGuess("record", "bought", f"amounts of {' and '.join(sorted(beside))}")
    return None


def _by_title(above: Sequence[str], file: str, say: SheetWords) -> EventGuess | None:
    """What happened by the words above the table, or by those of the file's name."""
    for text in (*above, file.rpartition(".")[0]):
        named = titled(text, say)
        words = plain_name(text.replace("-", " ").replace("_", " ")).split()
        if not named and any(say.has("of-a-purchase", word) for word in words):
            named = "bought"
        if not named and text in above and any(say.has("own", word) for word in words):
            named = "bought"
        if named:
            return EventGuess("record", named, f"'{sheet_cells.shortened(text)}'")
    return None


def speaks_of_purchase(named: Columns, say: SheetWords) -> Iterator[str]:
    """The names of columns that speak of a purchase."""
    for each in named:
        if each.field and is_of_purchase(each.header, say):
            yield each.header
