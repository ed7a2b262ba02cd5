"""Rows of a table that are no entry, and titles that name no piece.

Totals, headings, lines and the header again; books, boxes and postage; what was sent back.
"""

import re
from collections.abc import Iterator, Sequence

from appraise.base.oneline import folded
from appraise.exchange import sheet_cells, sheet_days
from appraise.exchange.header_words import DATE_TARGETS, MONEY_TARGETS
from appraise.exchange.layout import Row
from appraise.exchange.money_words import tells_several
from appraise.exchange.sheet_column import Columns
from appraise.exchange.vocabulary import SheetWords, bare

_LONGEST = 60  # characters of a cell of totals
_LONGEST_NOTE = 400  # characters of a title or a note that is read
_SHARE = 0.25  # of rows without a day, from which they are of some other kind
_FEW = 3  # words of a cell of totals
_ABOUT = frozenset(("on", "about", "of", "for", "uber", "zu", "sur", "de", "des", "su", "sui",
                    "sobre", "over"))  # fmt: skip
_LINKS = frozenset(("with", "in", "on", "at", "mit", "im", "am", "auf", "avec", "dans", "au", "con",
                    "en", "nel", "met", "op", "and", "und", "et", "e", "y", "&", "+"))  # fmt: skip
_YEARS = re.compile(  # '2014 total', '14-15 total'
    r"^\W*(?:\d\d\s?[-/\u2013]\s?\d\d|(?:19|20)\d\d(?:\s?[-/\u2013]\s?\d+)?)\W+(?=[^\W\d])"
)
_LINE = re.compile(r"[-=_*.~ ]+")
_COUNT = re.compile(r"(?:\d+\s*(?:x|stk|st|pcs|pezzi|pieces)?\s+)?")


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
