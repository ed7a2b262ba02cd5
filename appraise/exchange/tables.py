"""A table of text from the bytes of a CSV file: encoding and delimiter are recognised."""

import codecs
import csv
import io
import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import field

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.exchange.layout import Row, laid_out
from appraise.exchange.note_lines import HEADER, noted
from appraise.exchange.vocabulary import SheetWords

DELIMITERS = (",", ";", "\t", "|")
ENCODINGS = ("utf-8", "utf-16", "cp1252")
LARGEST = 200_000_000  # bytes
_LONGEST_CELL = 4_000_000
_NOTES = 20_000  # lines of a note from a phone
_EVEN = 0.7  # share of rows of one width from which a text is a table
_TRIED = 100  # records looked at to find the delimiter
_MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)


@dataclass(frozen=True, slots=True)
class SheetTable:
    """A file's cells as text.

    Attributes:
        header: The names of the columns, each once; a column without one is named by its letter.
        rows: What stands below that holds anything, with its number as a spreadsheet counts.
        encoding: How the bytes were read.
        delimiter: What parts the cells.
        written: The header as it stands in the file; empty where there is none.
        above: The texts above the header.
        again: Headers of later rows, which stand in the columns of the first.
        sections: What headings say happened in the rows below them, by their numbers.
    """

    header: tuple[str, ...]
    rows: tuple[tuple[int, tuple[str, ...]], ...]
    encoding: str
    delimiter: str
    written: tuple[str, ...] = ()
    above: tuple[str, ...] = ()
    again: tuple[Row, ...] = ()
    sections: Mapping[int, str] = field(default_factory=dict)


def table(
    data: bytes, file: str, say: SheetWords, *, encoding: str = "", delimiter: str = ""
) -> SheetTable:
    """Read a CSV file (RFC 4180, with any of four delimiters).

    Args:
        data: The file's bytes.
        file: Its name for messages.
        say: The words of spreadsheets.
        encoding: How to read the bytes; recognised when empty.
        delimiter: One of `DELIMITERS`; recognised when empty.

    Raises:
        InputError: when it is no table of at least two columns.
    """
    if len(data) > LARGEST:
        raise InputError("is larger than 200 MB", file, "Split it.")
    text, encoding = decoded(data, file, encoding)
    told, text = _told_delimiter(text)
    delimiter = delimiter or told or _delimiter(text)
    records = list(records_of(text, delimiter, file))
    filled = [(number, row) for number, row in records if any(cell.strip() for cell in row)]
    if not filled:
        raise InputError("the table is empty", file)
    notes = _notes(text, delimiter, filled, say)
    if notes:
        return SheetTable(HEADER, notes, encoding, "", HEADER, _above(notes))
    found = laid_out(filled, say)
    if len(found.header) < 2:
        raise InputError("has only one column", file, "Name its delimiter, one of , ; tab |.")
    return SheetTable(found.header, found.rows, encoding, delimiter, found.written, found.above)


def _notes(text: str, delimiter: str, filled: Sequence[Row], say: SheetWords) -> tuple[Row, ...]:
    """The rows of a text that is a list of lines rather than a table; none where it is a table."""
    even = _evenness(text, delimiter)[0] >= _EVEN and not (delimiter == "," and _is_prose(text))
    if len(filled) > _NOTES or even:
        return ()
    if all(len(row) == 1 for _, row in filled):
        return noted(filled, say)
    lines = enumerate(text.splitlines(), 1)
    return noted([(number, (line,)) for number, line in lines if line.strip()], say)


def _is_prose(text: str) -> bool:
    """Whether commas stand as in sentences and numbers, which those of a table do not."""
    return '"' not in text and not re.search(r",(?! )(?!(?<=\d,)[\d\u2013-])", text)


def _above(notes: Sequence[Row]) -> tuple[str, ...]:
    """The lines above the first one with a day."""
    first = next(place for place, (_, row) in enumerate(notes) if row[0])
    return tuple(" ".join(filter(None, row)) for _, row in notes[:first])


def decoded(data: bytes, file: str, encoding: str) -> tuple[str, str]:
    """The text of a file and how its bytes were read; errors as in `table`."""
    marked = next((name for mark, name in _MARKS if data.startswith(mark)), "")
    unmarked = _utf16(data)
    tried = [encoding] if encoding else [marked or unmarked] if marked or unmarked else []
    for name in tried or ["utf-8", "cp1252"]:
        try:
            text = data.decode(name)
        except LookupError as error:
            known = ", ".join(ENCODINGS)
            raise InputError(f"encoding '{name}' is not known", file, f"Known: {known}.") from error
        except UnicodeError:
            continue
        if "\x00" in text:
            break
        return text, name
    raise InputError("is not text in UTF-8, UTF-16 or Windows-1252", file, "Save it as UTF-8.")


def _utf16(data: bytes) -> str:
    """UTF-16 without its mark: every second byte of a text in Latin letters is nothing."""
    start = data[:400]
    if len(start) < 4 or len(data) % 2:
        return ""
    for name, first in (("utf-16-le", 1), ("utf-16-be", 0)):
        nothing = start[first::2].count(0)
        if nothing >= 0.8 * len(start[first::2]) and not start[1 - first :: 2].count(0):
            return name
    return ""


def _told_delimiter(text: str) -> tuple[str, str]:
    """Spreadsheets may say 'sep=;' in a first line of its own."""
    line, _, rest = text.partition("\n")
    told = line.strip("\r").removeprefix("sep=")
    return (told, rest) if line.startswith("sep=") and told in DELIMITERS else ("", text)


def _delimiter(text: str) -> str:
    """The delimiter that gives the most rows one width, then the widest rows."""
    return max(DELIMITERS, key=lambda each: _evenness(text, each))


def _evenness(text: str, delimiter: str) -> tuple[float, int]:
    widths: list[int] = []
    try:
        for _, row in records_of(text, delimiter, ""):
            if any(cell.strip() for cell in row):
                widths.append(len(row))
            if len(widths) == _TRIED:
                break
    except InputError:
        return (0.0, 0)
    wide = Counter(width for width in widths if width > 1)
    if not wide:
        return (0.0, 0)
    usual, many = max(wide.items(), key=lambda one: (one[1], one[0]))
    return (many / len(widths), usual)


def records_of(text: str, delimiter: str, file: str) -> Iterator[tuple[int, tuple[str, ...]]]:
    """The records of a text with their numbers from 1; errors as in `table`."""
    return records_in(io.StringIO(text, newline=""), delimiter, file)


def records_in(
    lines: Iterable[str], delimiter: str, file: str
) -> Iterator[tuple[int, tuple[str, ...]]]:
    """The records of lines with their ends, such as an open file's; numbers and errors as above."""
    with _long_cells():
        reader = csv.reader(lines, delimiter=delimiter, strict=True)
        number = 1
        try:
            for number, row in enumerate(reader, 1):
                yield number, tuple(row)
        except csv.Error as error:
            line = reader.line_num
            if "field limit" in str(error):
                raise InputError(
                    f"a cell of row {number + 1} is longer than {_LONGEST_CELL:,} characters",
                    f"{file}:{line}",
                    "Shorten it, or look for a quotation mark that was left open.",
                ) from error
            raise InputError(
                f"the quotation marks of row {number + 1} do not match ({error})",
                f"{file}:{line}",
                "Double each one inside a quoted cell.",
            ) from error


@contextmanager
def _long_cells() -> Iterator[None]:
    """A piece file in a cell is longer than the csv module allows by itself."""
    before = csv.field_size_limit(_LONGEST_CELL)
    try:
        yield
    finally:
        csv.field_size_limit(before)
