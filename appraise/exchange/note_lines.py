"""A list kept as lines of text, each with a day, a piece and an amount: a note from a phone.

Each line becomes a row of a table of its own: day, what happened, title, price, place. Years and
months stand above the lines that they hold for, as in other sheets.
"""

import re
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.oneline import folded
from appraise.exchange import sheet_cells, sheet_days
from appraise.exchange.layout import Row
from appraise.exchange.money_words import in_figures, money_parts, only_amount
from appraise.exchange.vocabulary import SheetWords, bare

if TYPE_CHECKING:
    from appraise.exchange.tables import SheetTable

HEADER = ("date", "record", "title", "price", "venue", "note")
_LEAST = 0.4  # share of lines with a day or an amount by which a text is such a list
_LONGEST = 400  # characters of a line that is read
_ANY_YEAR = "2000"  # for a day without its year, which a heading tells
_BETWEEN = re.compile(r"\s+[-\u2013\u2014|*:]+\s+|(?<=[^\W\d]):\s+|\s*\t\s*|\s*;\s+")
_DASHED = re.compile(r"\s[-\u2013\u2014|]\s")
_OR = re.compile(r"\d[\d.,]*\s?[$£€]?,?\s(?:ou|or|oder|of|o)\s[$£€]?\s?\d[\d.,]*\s?[$£€]?\s?\?\Z")
_EVENT_WORDS = 4  # words at the start of a part that say what happened
_DAY_WORDS = 5
_YEAR_ABOVE = re.compile(r"\W*(?:19|20)\d\d(?!\s*[-/.]\s*\d)\W*(?:\(.*|:?)\Z")
_NAMED = r"[$£€]|(?:euros?|eur|pounds?|quid|bucks?|dollars?|francs?)\b"  # money in a note
_LAST = re.compile(
    r"(?:^|(?<=\s)|(?<=,))(?:for|fur|für|at|@|a|à|pour|per|por|voor|um|=)?\s*"
    r"(?P<money>(?:[$£€]|[A-Z]{3}\s)\s*\d[\d.,' ]*(?:[.,]?[-\u2013]+)?|"
    rf"\d[\d.,']*(?:[.,][-\u2013]+)?\s*(?:{_NAMED}|[A-Z]{{3}}\b|fr\.?|franken\b)|"
    r"\d+[.,](?:[-\u2013]+|\d\d))\s*$",
    re.IGNORECASE,
)


_BULLET = re.compile(r"\A(?:[-*•·–—>+]|\d{1,2}\)|\[[x ]?\])\s+")
_SENTENCE = re.compile(r"(?<=[^\W\d_]{4}|[\d ][\d]{2}[$£€]|\d\d\d\d)\.\s+(?=[^\W\d_a-zà-ÿ]|\d)")
_REMARKED = re.compile(r"([^()]+?)\s*\(([^()]*)\)")  # '$95 (birthday money)'
_TIGHT = re.compile(r",(?=[^\s\d.\u2013\u2014-])|(?<!\d),(?=\d)")
_COMMA = re.compile(r",\s+")
_AND_PLACE = re.compile(
    r"(?P<money>[$£€]?\s?\d[\d.,]*\s?(?:[$£€]|[^\W\d_]{2,7}\b)?)\s+"
    r"(?P<place>(?:at|from|to|en|a|al|bei|beim|von|an|auf|chez|à|au|aux|da|dal|alla|bij|aan|op|van)\s+\D+)"
)
_MOST = 0.6  # share of lines that end with a place by which the others do
_DEPICTS = re.compile(
    r"^[^A-Z]*$|\s(?:with|of|in|on|mit|im|am|avec|au|aux|met|con|col|y|et|und|and)\s"
)
_WHERE = ("at", "from", "off", "bei", "beim", "auf", "vom", "aus", "chez", "bij", "op", "presso",
          "dal", "dalla", "da", "en")  # fmt: skip
_BUYER = re.compile(r"\s(?:to|an|à|aan|(?<!\bof )(?<!\bwith )a)\s+([A-Z][^,]*)\Z")
_FOR = ("for", "fur", "pour", "per", "por", "para", "voor")
_ARTICLE = re.compile(r"\A(?:an?|the|my|that)\s+", re.IGNORECASE)
_NAME = re.compile(r"(?:[^\W\d_a-zà-ÿ][\w.]*\s+){1,2}[a-zà-ÿ]")  # a person's, before small letters
_ARTICLES = re.compile(r"\A(?:an?|the|el|la|los|las|le|les|il|lo|der|die|das|den|de|het)\s+")
_AMID = re.compile(
    r"\s(?:for|at|@|für|pour|per|por|voor)?\s*(?P<money>[$£€]\s?\d[\d.,]*|"
    rf"\d[\d.,]*\s?(?:{_NAMED}))(?=\s)",
    re.IGNORECASE,
)


@dataclass(slots=True)
class _Line:
    """What a line tells, by the names of `HEADER`."""

    date: str = ""
    record: str = ""
    title: str = ""
    price: str = ""
    venue: str = ""
    note: str = ""

    @property
    def cells(self) -> tuple[str, ...]:
        return (self.date, self.record, self.title, self.price, self.venue, self.note)


def noted(lines: Sequence[Row], say: SheetWords) -> tuple[Row, ...]:
    """The lines as rows under `HEADER`; none where the text is no such list.

    Args:
        lines: The lines that hold anything, each a row of one cell.
        say: The words of spreadsheets.
    """
    texts = _of_sentences([(number, _spaced(row[0])) for number, row in lines])
    placed = _places_last([text for _, text in texts], say)
    read = [(number, _whole(_read(text, say, placed), text, say)) for number, text in texts]
    _under_days(read, say)
    told = sum(bool(line.date and (line.price or line.title)) for _, line in read)
    if not told or told < _LEAST * len(read) or not any(line.price for _, line in read):
        return ()
    return tuple((number, line.cells) for number, line in read)


def _whole(line: _Line, text: str, say: SheetWords) -> _Line:
    """A line that tells no day, no amount and no piece, as the heading or note that it is."""
    told = line.date or line.price or say.of_title(text)
    return line if told else _Line(title=text)


def _spaced(line: str) -> str:
    """A line with one space between its words, also behind commas that are none of a number."""
    return " ".join(_TIGHT.sub(", ", line).split())


def _of_sentences(texts: list[tuple[int, str]]) -> list[tuple[int, str]]:
    """The lines, of which most are sentences, with other marks between these."""
    told = sum(len(_SENTENCE.findall(text)) > 1 for _, text in texts)
    if told < _MOST * len(texts):
        return texts
    return [(number, _SENTENCE.sub(" - ", text)) for number, text in texts]


def _under_days(read: Sequence[tuple[int, _Line]], say: SheetWords) -> None:
    """Lines below one of a day and a place alone, '18 March - Norbury fair', are of those."""
    heading = None
    for _, line in read:
        told = line.title and say.of_title(line.title)
        if line.date and not line.price and not told and not line.record:
            heading = replace(line)
            line.title = " ".join(filter(None, (line.date, line.title, line.venue)))
            line.date = line.venue = ""
        elif line.date or _YEAR_ABOVE.match(line.title):
            heading = None
        elif heading and (line.price or told):
            line.date = heading.date
            line.venue = line.venue or heading.title


def parted(found: "SheetTable", place: int, fields: Iterable[str], say: SheetWords) -> "SheetTable":
    """A table of which one column tells everything, with what that tells in columns of their own.

    Args:
        found: The table.
        place: The column's place.
        fields: The fields that other columns have.
        say: The words of spreadsheets.
    """
    texts = [row[place] if place < len(row) else "" for _, row in found.rows]
    placed = _places_last(texts, say)
    read = [
        (n, row, _read(text, say, placed)) for (n, row), text in zip(found.rows, texts, strict=True)
    ]
    if sum(bool(line.price) for _, _, line in read) < _LEAST * len(read):
        return found
    taken = {*fields, "title"}
    new = [name for name in HEADER if name not in taken]
    header = tuple(dict.fromkeys((*found.header, *new)))
    width, rows = len(found.header), list[Row]()
    for number, row, line in read:
        cells = [*row, *[""] * (width - len(row))]
        cells[place] = line.title
        rows.append((number, (*cells, *(getattr(line, name) for name in new))))
    return replace(found, header=header, rows=tuple(rows))


def _places_last(texts: Sequence[str], say: SheetWords) -> frozenset[str]:
    """The last parts of lines, before their amounts, where most of them say where it was."""
    last = list[str]()
    for text in texts:
        _, rest = _day(text, say)
        if _event(rest, say)[0]:
            continue
        parts = [] if _BETWEEN.search(rest) else [one for one in _COMMA.split(rest) if one]
        kept = [one for one in parts if not (sheet_cells.is_amount(one) or money_parts(one, say))]
        line = _Line()
        if kept and len(kept) == len(parts):
            kept[-1] = _with_last_amount(kept[-1], line, say)
        if len(kept) > 1 and kept[-1] and not say.of_title(kept[-1]):
            last.append(folded(kept[-1]))
    many = Counter(last)
    sure = [one for one in last if many[one] > 1 or is_place(one, say)]
    return frozenset(last) if len(sure) >= _MOST * len(last) > 0 else frozenset()


def _read(text: str, say: SheetWords, placed: frozenset[str] = frozenset()) -> _Line:
    line, text = _Line(), _BULLET.sub("", text, count=1)
    if len(text) > _LONGEST or _YEAR_ABOVE.match(text):
        return _Line(title=text)
    line.date, rest = _day(text, say)
    parts = [part.strip(" ,") for part in _BETWEEN.split(rest) if part.strip(" ,")]
    if not line.date:
        parts = _dated_behind(parts, line)
    left = [part for one in parts for part in _part(one, line, say)]
    if not line.price and (unsure := _OR.search(text)):
        line.price = unsure[0]  # which of two amounts is not told
    for place in reversed(range(len(left))):
        if not _is_priced(line, say):
            left[place] = _with_last_amount(left[place], line, say)
    left = [part for part in left if part]
    if not left:
        return line
    at = max(range(len(left)), key=lambda place: (_names(left[place], say), place))
    if not _names(left[at], say):
        at = min(1, len(left) - 1) if line.date and len(left) > 1 else 0
    line.venue, left[at] = _seen_where(left[at], line.venue, say, line.record == "sold")
    buyer = _BUYER.search(left[at]) if line.record == "sold" else None
    if buyer:
        line.venue, left[at] = buyer[1], left[at][: buyer.start()]
    if not line.venue:
        left[at], line.venue = _without_ending(left[at], say)
    if not line.venue:
        line.venue, left[at] = _without_start(left[at], say)
    line.title, beside = _without_place(
        left[at].strip(" .,"), say, placed if len(parts) == 1 else frozenset()
    )
    where = [*beside, *(part for place, part in enumerate(left) if place != at)]
    where = [*([line.venue] if line.venue else []), *where]
    line.venue, line.note = (where[0] if where else ""), "; ".join(where[1:])
    return line


def _is_priced(line: _Line, say: SheetWords) -> bool:
    """Whether a line tells more than what was asked, offered or on top."""
    beside = {"asked", "offered", "postage", "record"}
    return bool(line.price) and not {"", *money_parts(line.price, say)} <= {"", *beside}


def _seen_where(title: str, venue: str, say: SheetWords, sold: bool) -> tuple[str, str]:
    """The place and the piece of 'seen at Harle a tintype'; both as they are of another title."""
    first, *words = title.split()
    led = say.titles.get(folded(first)) == "asking" or (sold and _NAME.match(title))
    if not led or say.begins_piece(title):
        return venue, title
    words = [first, *words] if sold else words
    for at in range(len(words)):
        rest = " ".join(words[at:])
        if "," in " ".join(words[:at]):
            break
        if say.begins_piece(_ARTICLES.sub("", rest)):
            where = [word for word in words[:at] if word[:1].isupper()]
            return venue or " ".join(where), rest
    return venue, title


def _without_ending(title: str, say: SheetWords) -> tuple[str, str]:
    """A title without the words at its end that say where, 'at Harle fair', and those words."""
    words = title.split()
    for at in range(len(words) - 2, 1, -1):
        rest = words[at + 1 :]
        kept = " ".join(words[:at])
        within = any(word[:1].isupper() for word in rest) and "," not in " ".join(rest)
        named = within and say.of_title(kept)
        shop = len(rest) == 1 and rest[0].endswith(("'s", "\u2019s"))  # 'at Harle's'
        if named and words[at] in _WHERE and (shop or is_place(" ".join(rest), say)):
            return kept.rstrip(" ,"), " ".join(rest)
    return title, ""


def _without_start(title: str, say: SheetWords) -> tuple[str, str]:
    """The words before a piece that say where, 'boot sale', and the title without them."""
    words = title.split()
    for at in range(1, min(_EVENT_WORDS, len(words))):
        where, rest = " ".join(words[:at]), " ".join(words[at:])
        if say.begins_piece(rest):
            return (
                (where, rest) if _is_place(where, say) and not _names(where, say) else ("", title)
            )
    return "", title


def _without_place(title: str, say: SheetWords, placed: frozenset[str]) -> tuple[str, list[str]]:
    """A title without the parts between commas that say where, and those parts."""
    pieces = _COMMA.split(title)
    where = [
        piece
        for place, piece in enumerate(pieces)
        if len(pieces) > 1 and not _names(piece, say)
        if _is_place(piece, say)
        or (place == len(pieces) - 1 and folded(piece) in placed and not _DEPICTS.search(piece))
    ]
    kept = [piece for piece in pieces if piece not in where]
    return (", ".join(kept), where) if kept else (title, [])


def is_place(cell: str, say: SheetWords) -> bool:
    """Whether a text names a place or a person of whom one buys."""
    first = folded(cell).split()[:1]
    return (bool(first) and say.has("person", first[0])) or _is_place(cell, say)


def _is_place(piece: str, say: SheetWords) -> bool:
    words = folded(piece).split()
    led = len(words) > 1 and say.has("from", words[0]) and piece[:1].islower()
    named = led and any(word[:1].isupper() for word in piece.split()[1:])
    same = bool(words) and say.has("same", words[0])
    return named or same or say.any_of("place").search(" ".join(words)) is not None


def _names(part: str, say: SheetWords) -> int:
    """How many fields of a piece the words of a part name."""
    found = say.of_title(part)
    return len(found) + bool(re.search(r"\b1/(?:1|2|3|4|6|8|9|16)\b", part) and found)


def _day(text: str, say: SheetWords) -> tuple[str, str]:
    """The day that a line begins with, and the rest; a year alone is a heading."""
    words = text.split()
    if words and say.event(words[0]):
        return "", text
    for many in range(min(_DAY_WORDS, len(words)), 0, -1):
        first = " ".join(words[:many]).rstrip(",:.-")
        if first.isdecimal() or (_DASHED.search(first) and re.search(r"[^\W\d_]", first)):
            continue
        if not _is_day(first):
            continue
        return first, text[len(" ".join(words[:many])) :].lstrip(" ,:-\u2013")
    return "", text


def _dated_behind(parts: list[str], line: _Line) -> list[str]:
    """The parts of a line without the day that the last of them tells, behind the first."""
    for at in range(len(parts) - 1, 0, -1):
        told, plus, top = parts[at].partition(" + ")
        day, where = (told, "") if _is_day(told) else sheet_days.day_and_place(told)
        if day and re.search(r"[^\W\d]|[/.-]", day):
            line.date = day
            behind = [where, top] if plus else [where]
            return [*parts[:at], *filter(None, behind), *parts[at + 1 :]]
    return parts


def _is_day(text: str) -> bool:
    try:
        return str(sheet_days.day(text, "day", _ANY_YEAR)) != "unknown"
    except InputError:
        return False


def _part(part: str, line: _Line, say: SheetWords) -> list[str]:
    """What a part still tells once what happened and its amounts are taken out of it."""
    part = in_figures(part, say)
    noted = None if line.price else _REMARKED.fullmatch(part)
    if noted and sheet_cells.is_amount(noted[1]):
        line.price = noted[1]
        return [noted[2]]
    alone = sheet_cells.is_amount(only_amount(part, say))
    told = re.search(r"\d", part) and (alone or money_parts(part, say))
    both = f"{line.price}; {part}" if line.price else part
    if told and (not line.price or len(money_parts(both, say)) > 1):
        line.price = both
        return []
    placed = None if line.price or line.venue else _AND_PLACE.fullmatch(part)
    if placed and sheet_cells.is_amount(placed["money"]):
        line.price, line.venue = placed["money"], placed["place"]
        return []
    event, rest = _event(part, say)
    if event:
        line.record = line.record or event
        return _part(rest, line, say) if rest else []
    pieces = [one.strip() for one in re.split(r",\s+", part)]
    kept = [pieces[0], *(one for one in pieces[1:] if not _taken(one, line, say))]
    return [", ".join(kept)]


def _taken(piece: str, line: _Line, say: SheetWords) -> bool:
    """Take what stands behind the last comma of a part, where it is an event or an amount."""
    event = say.event(piece)
    if event:
        line.record = line.record or event
        return True
    amount = sheet_cells.is_amount(piece) or bool(money_parts(piece, say))
    both = f"{line.price}; {piece}" if line.price else piece
    if amount and re.search(r"\d", piece) and (not line.price or money_parts(both, say)):
        line.price = both
        return True
    return False


def _event(part: str, say: SheetWords) -> tuple[str, str]:
    """What happened by the words that a part begins with, and the rest; '' where they do not."""
    words = part.split()
    for many in range(min(_EVENT_WORDS, len(words)), 0, -1):
        said = " ".join(words[:many])
        plain = bare(said.rstrip(":,"))
        none = say.has("no-event", plain)
        if not none and plain not in say.events:
            continue
        if many == 1 and not said.endswith(":") and len(plain) < 3:
            continue
        rest = _ARTICLE.sub("", " ".join(words[many:]).lstrip(" :,"))
        return (plain if none else say.events[plain]), rest
    return "", part


def _offered_for(rest: str, say: SheetWords) -> str:
    """The piece that words behind an amount name: 'offered her 30 for the half plate'."""
    first, _, piece = rest.partition(" ")
    named = _ARTICLES.sub("", piece)
    return named if folded(first) in _FOR and say.begins_piece(named) else ""


def _with_last_amount(part: str, line: _Line, say: SheetWords) -> str:
    """A part without the amount that it ends with, or that it bears: the price; and the place."""
    match = _LAST.search(part)
    if match and folded(match["money"]):
        line.price = "; ".join(filter(None, (match["money"].strip(), line.price)))
        rest, comma, last = part[: match.start()].rstrip(" ,:-@.").rpartition(", ")
        if comma and folded(last) in say.money:
            line.price = f"{last} {line.price}"
            return rest
        return f"{rest}{comma}{last}"
    match = _AMID.search(part)
    if match and not line.price:
        line.price, rest = match["money"].strip(), part[match.end() :].strip()
        if say.has("beside-amount", folded(rest)):
            return part[: match.start()].rstrip(" ,:-@.")
        if rest.startswith("+"):
            line.price = f"{line.price} {rest}"
            return part[: match.start()].rstrip(" ,:-@.")
        if piece := _offered_for(rest, say):
            first = part.split()[0]
            line.price = f"{first} {line.price}" if folded(first) in say.money else line.price
            return piece
        if rest.isalpha() and rest.islower() and not is_place(rest, say):
            return part[: match.start()].rstrip(" ,:-@.")  # 'wants 450 lol'
        line.venue = re.sub(r"^(?:at|to|from|in|on|the|,|\s)+", "", part[match.end() :]).strip()
        return part[: match.start()].rstrip(" ,:-@.")
    return part
