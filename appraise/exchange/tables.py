"""A table of text from the bytes of a CSV file: encoding and delimiter are recognised."""

import codecs
import csv
import io
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from appraise.base.errors import InputError

DELIMITERS = (",", ";", "\t", "|")
ENCODINGS = ("utf-8", "utf-16", "cp1252")
LARGEST = 200_000_000  # bytes
_LONGEST_CELL = 4_000_000
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
        header: The first row.
        rows: The others that hold anything, with their number as a spreadsheet counts:
            the header is row 1.
        encoding: How the bytes were read.
        delimiter: What parts the cells.
    """

    header: tuple[str, ...]
    rows: tuple[tuple[int, tuple[str, ...]], ...]
    encoding: str
    delimiter: str


def table(data: bytes, file: str, *, encoding: str = "", delimiter: str = "") -> SheetTable:
    """Read a CSV file (RFC 4180, with any of four delimiters).

    Args:
        data: The file's bytes.
        file: Its name for messages.
        encoding: How to read the bytes; recognised when empty.
        delimiter: One of `DELIMITERS`; recognised when empty.

    Raises:
        InputError: when it is no table of at least two columns and a header.
    """
    if len(data) > LARGEST:
        raise InputError("is larger than 200 MB", file, "Split it.")
    text, encoding = _decoded(data, file, encoding)
    told, text = _told_delimiter(text)
    delimiter = delimiter or told or _delimiter(text)
    records = list(_records(text, delimiter, file))
    filled = [(number, row) for number, row in records if any(cell.strip() for cell in row)]
    if not filled:
        raise InputError("the table is empty", file)
    header = filled[0][1]
    if len(header) < 2:
        raise InputError("has only one column", file, "Name its delimiter, one of , ; tab |.")
    return SheetTable(header, tuple(filled[1:]), encoding, delimiter)


def _decoded(data: bytes, file: str, encoding: str) -> tuple[str, str]:
    marked = next((name for mark, name in _MARKS if data.startswith(mark)), "")
    tried = [encoding] if encoding else [marked] if marked else ["utf-8", "cp1252"]
    for name in tried:
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


def _told_delimiter(text: str) -> tuple[str, str]:
    """Spreadsheets may say 'sep=;' in a first line of its own."""
    line, _, rest = text.partition("\n")
    told = line.strip("\r").removeprefix("sep=")
    return (told, rest) if line.startswith("sep=") and told in DELIMITERS else ("", text)


def _delimiter(text: str) -> str:
    """The delimiter that gives the most rows the header's width, then the widest header."""
    return max(DELIMITERS, key=lambda each: _evenness(text, each))


def _evenness(text: str, delimiter: str) -> tuple[float, int]:
    widths: list[int] = []
    try:
        for _, row in _records(text, delimiter, ""):
            widths.append(len(row))
            if len(widths) == _TRIED:
                break
    except InputError:
        return (0.0, 0)
    if not widths or widths[0] < 2:
        return (0.0, 0)
    return (Counter(widths)[widths[0]] / len(widths), widths[0])


def _records(text: str, delimiter: str, file: str) -> Iterator[tuple[int, tuple[str, ...]]]:
    with _long_cells():
        reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
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
