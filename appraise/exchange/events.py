"""What a spreadsheet's rows tell of: purchases, sales, prices seen, or nothing that happened."""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence

from appraise.base.dataclass import dataclass
from appraise.base.oneline import folded
from appraise.exchange import sheet_cells, sheet_days
from appraise.exchange.housing_words import housing_of_cell
from appraise.exchange.header_words import (
    DATE_TARGETS,
    MONEY_TARGETS,
    is_of_purchase,
    is_of_sale,
    named_field,
    plain_name,
)
from appraise.exchange.layout import Row
from appraise.exchange.money_words import tells_several
from appraise.exchange.sheet_column import Columns
from appraise.exchange.vocabulary import SheetWords, bare
from appraise.exchange.words import Words, short_words
from appraise.records.entry import OPEN_WORDS

_LONGEST = 60  # characters of a word of what happened
_BRIEF = 5  # words of a cell of choice in which the one that is meant is looked for
_SHARE = 0.25  # of rows without a day, from which they are of some other kind
_FEW = 3  # words of a cell of totals
_LONGEST_NOTE = 400  # characters of a note in which one is looked for
_ABOUT = frozenset(("on", "about", "of", "for", "uber", "zu", "sur", "de", "des", "su", "sui",
                    "sobre", "over"))  # fmt: skip
_LINKS = frozenset(("with", "in", "on", "at", "mit", "im", "am", "auf", "avec", "dans", "au", "con", "en",
                    "nel", "met", "op", "and", "und", "et", "e", "y", "&", "+"))  # fmt: skip
_PARTS = re.compile(r"\s[-\u2013/]\s|[,;(]|\s(?:and|und|et|en)\s")
_YEARS = re.compile(  # '2014 total', '14-15 total'
    r"^\W*(?:\d\d\s?[-/\u2013]\s?\d\d|(?:19|20)\d\d(?:\s?[-/\u2013]\s?\d+)?)\W+(?=[^\W\d])"
)
_DEALS = ("bs", "ps", "kv", "av", "cv", "ev")  # of six languages, the purchase first
_NONE = ("no-event", "called-off")
_LINE = re.compile(r"[-=_*.~ ]+")
_COUNT = re.compile(r"(?:\d+\s*(?:x|stk|st|pcs|pezzi|pieces)?\s+)?")


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
    said = {say.event(cell) or folded(cell) for cell in given}
    told = {folded(cell) for cell in given}
    hammered = any(each.field == "hammer" for each in columns) or "unsold" in said
    column = any(each.field == "hammer" for each in columns)
    failed = bool({"unsold", "passed"} & (said | told))
    results = failed and (column or (hammered and "bought" not in said))
    lost = column and "hammer" in said  # who passed on a lot calls it so, and a lost one lost
    bought_once = _is_status(columns, told, say)

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
        if results and meant == "sold":
            return "hammer"
        if results and plain in ("passed", "pass") and (lost or "bought" not in said):
            return "unsold"
        if bought_once and meant in ("sold", "asking"):
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
    return housing_of_cell(folded(text), say.materials) if made else found


def _is_status(columns: Columns, told: set[str], say: SheetWords) -> bool:
    """Whether a column of what happened says where pieces are now that were all bought once."""
    status = next((each for each in columns if each.field == "record"), None)
    paid = any(each.field == "paid" for each in columns)
    if status is None or not paid:
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
    sold = any(is_of_sale(each.header, say) for each in dated)
    beside = {named_field(each.header, say) for each in columns} & {"sold_fees", "sold_venue"}
    return sold and bool(beside) and not any(is_of_purchase(each.header, say) for each in columns)


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


def _is_sum(cells: Sequence[str], columns: Columns, say: SheetWords) -> bool:
    """Whether a row without a title tells amounts, and in words that they are of all."""
    told = [(each, cell) for each, cell in zip(columns, cells, strict=False) if cell.strip()]
    if any(each.field == "title" for each, _ in told[1:]) or len(told) < 2:
        return False
    each, first = told[0]
    amounts = [cell for one, cell in told[1:] if one.field in MONEY_TARGETS]
    rest = [cell for _, cell in told[1:] if not sheet_cells.is_amount(cell)]
    word = bare(first).split()[:1]
    wordy = each.field in DATE_TARGETS and not re.search(r"\d", first)
    named = bool(word) and say.has("total", word[0])
    return bool(amounts) and not rest and (named or (wordy and _untimely(first)))


def _untimely(cell: str) -> bool:
    return not sheet_days.is_day(cell, "2000")


def aside(cells: Sequence[str], columns: Columns, say: SheetWords) -> str:
    """Why a row is no entry: totals, a heading, a line, the header again; '' where it is one."""
    told = [cell.strip() for cell in cells if cell.strip()]
    if all(_LINE.fullmatch(cell) for cell in told):
        return "a line"
    headers = [each.header.strip() for each in columns]
    if [cell.strip() for cell in cells[: len(columns)]] == headers:
        return "the header again"
    dated = any(
        each.field in DATE_TARGETS and (sheet_days.is_day(cell) or sheet_days.is_serial(cell))
        for cell, each in zip(cells, columns, strict=False)
    )
    if not dated and (any(is_total(cell, say) for cell in told) or _is_sum(cells, columns, say)):
        return "a row of totals"
    fields = {each.field for cell, each in zip(cells, columns, strict=False) if cell.strip()}
    if fields <= {"date", "note"} and any(each.field == "title" for each in columns):
        return "a heading or a note"
    if len(told) == 1 and not dated:
        only = next(each for cell, each in zip(cells, columns, strict=False) if cell.strip())
        if only.field not in MONEY_TARGETS or _is_note(told[0], say):
            return "a heading or a note"
    return ""


def stray(rows: Sequence[Row], columns: Columns, say: SheetWords) -> Iterator[int]:
    """The numbers of rows of a text and an amount alone, without a day, where others have one.

    'Budget left 46' is such; a text that names a piece is not.
    """
    fields = [each.field for each in columns]
    if "date" not in fields or "title" not in fields:
        return
    undated = [one for one in rows if not any(_under(one[1], fields, DATE_TARGETS))]
    for number, row in undated if len(undated) < _SHARE * len(rows) else ():
        title, *_ = (*_under(row, fields, ("title",)), "")
        amounts = list(_under(row, fields, MONEY_TARGETS))
        alone = sum(1 for cell in row if cell.strip()) == 1 + len(amounts)
        if title and amounts and alone and not say.of_title(title):
            yield number


def _under(row: Sequence[str], fields: Sequence[str], names: Sequence[str]) -> Iterator[str]:
    """The cells of a row that say anything in columns of some fields."""
    for field, cell in zip(fields, row, strict=False):
        if field in names and cell.strip():
            yield cell


def sums_below(rows: Sequence[Row], columns: Columns) -> tuple[int, str, tuple[str, ...]] | None:
    """The last row, where it holds amounts alone of which one is the sum of those above it."""
    if len(rows) < _FEW:
        return None
    number, last = rows[-1]
    noted = [place for place, each in enumerate(columns) if each.field in ("", "note")]
    filled = [(place, cell) for place, cell in enumerate(last) if cell.strip()]
    told = [one for one in filled if one[0] not in noted or sheet_cells.is_amount(one[1])]
    if not told or not all(sheet_cells.is_amount(cell) for _, cell in told):
        return None
    money = [place for place, each in enumerate(columns) if each.field in MONEY_TARGETS]
    for place, cell in told:
        above = [row[place] for _, row in rows[:-1] if place < len(row)]
        if place in money and _cents(cell) and _cents(cell) == sum(map(_cents, above)):
            return number, "a row of totals", tuple(last)
    return None


def _cents(cell: str) -> int:
    """The figures of an amount as a whole number of hundredths; 0 where it is none."""
    if not sheet_cells.is_amount(cell):
        return 0
    match = re.search(r"(\d[\d.,' ]*?)(?:[.,](\d\d?))?\D*\Z", cell.strip())
    whole = re.sub(r"\D", "", match[1]) if match else ""
    return int(whole or 0) * 100 + int((match[2] or "0").ljust(2, "0")) if match else 0


def _is_note(cell: str, say: SheetWords) -> bool:
    """Whether the only cell of a row, though in a column of amounts, is a remark."""
    return not sheet_cells.is_amount(cell) and not tells_several(cell, say)


def is_total(cell: str, say: SheetWords) -> bool:
    """Whether a cell is a word of totals, with figures behind it or without."""
    if len(cell) > _LONGEST:
        return False
    text = _YEARS.sub("", folded(cell))
    plain = bare(re.sub(r"\W*\d.*|\W+\Z", "", text))
    words = plain.split()
    ends = (words[0], words[-1]) if 1 < len(words) <= _FEW else ()
    whole = say.has("total", plain) or say.has("total-alone", plain)
    return whole or any(say.has("total", word) for word in ends)


def year_of_heading(cells: Sequence[str]) -> str:
    """The year that a heading names, or begins with; '' for none."""
    text = " ".join(cells).strip()
    found = re.findall(r"\b(?:19|20)\d\d\b", text[:_LONGEST_NOTE])
    return found[0] if len(set(found)) == 1 or (found and text.startswith(found[0])) else ""


def went_back(title: str, say: SheetWords) -> bool:
    """Whether a title says that the piece was returned, or begins so that none was had."""
    if say.has("called-off", bare(re.split(r"\s[-\u2013]\s|[:(,;]", title)[0])):
        return True
    text = f" {folded(title[:_LONGEST_NOTE])} "
    several = (word for word, record in say.events.items() if record == "returned" and " " in word)
    return any(f" {word} " in text or f" {word}." in text for word in several)


def is_of_postage(title: str, say: SheetWords) -> bool:
    """Whether a title begins with a word for postage: 'Versand der Ambrotypie'."""
    words = folded(title[:_LONGEST_NOTE]).split()
    starts = (" ".join(words[:many]).strip(" :,") for many in range(1, _FEW + 1))
    return any(say.has("postage-of", start) for start in starts)


def is_other_thing(title: str, known: bool, say: SheetWords) -> bool:
    """Whether a title names what is no piece: a book, a loupe, boxes.

    Args:
        title: The title.
        known: Whether it names a process or a format: 'tintype in a book case' is a piece, 'book on
            tintypes' and '100 sleeves, CDV size' are none.
        say: The words of spreadsheets.
    """
    text = folded(title[:_LONGEST_NOTE])
    if say.any_of("empty").search(text):
        return True
    found = say.any_of("other-thing").search(text)
    if not found or not known:
        return found is not None
    before = text[: found.start()]
    rest = text[found.end() :].lstrip()
    word = re.match(r"\w+", rest)
    at_start = _COUNT.fullmatch(before) is not None
    about = found[0].split()[-1] in _ABOUT or (word is not None and word[0] in _ABOUT)
    several = " " in found[0]
    ends = not rest or several or re.match(r"[,;(]|-\s", rest) is not None
    return (at_start and ends) or (about and (at_start or _is_led(before, say)))


def _is_led(before: str, say: SheetWords) -> bool:
    """Whether the words before a thing only say how many, or of what kind: 'two old'."""
    words = before.split()
    of = any(word in _LINKS or say.has("other-thing", word) for word in words)
    return len(words) <= _FEW - 1 and not of and not say.of_title(before) and "," not in before
