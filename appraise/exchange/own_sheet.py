"""An export of the log as CSV read row by row, so that a log of any length comes in again."""

import csv
from dataclasses import replace
from pathlib import Path

from appraise.base.errors import InputError
from appraise.exchange.columns import columns
from appraise.exchange.csv_file import OWN_HEADERS, own_entry
from appraise.exchange.currencies import settle
from appraise.exchange.intake import SpooledEntries
from appraise.exchange.preview import BadRow, Preview, ReadAs
from appraise.exchange.sheets import sample_cells
from appraise.exchange.tables import records_in

_HEAD = 4_000  # characters in which the header ends
_LOOKED = 200  # rows from which samples are shown


def own_preview(path: Path, read_as: ReadAs) -> Preview | None:
    """The file as it would be taken in; None where it is no export of the log in UTF-8.

    Raises:
        InputError: when it cannot be read, or its quotation marks do not match.
    """
    if read_as.columns or read_as.encoding or read_as.delimiter:
        return None
    try:
        with path.open(encoding="utf-8-sig", newline="") as file:
            written = tuple(next(csv.reader([file.readline(_HEAD)]), ()))
            return _read(path, written, read_as) if written in OWN_HEADERS else None
    except (UnicodeDecodeError, csv.Error):
        return None
    except OSError as error:
        raise InputError(f"cannot be read: {error.strerror or error}", str(path)) from None


def _read(path: Path, written: tuple[str, ...], read_as: ReadAs) -> Preview:
    entries, bad = SpooledEntries(), list[BadRow]()
    first = list[tuple[int, tuple[str, ...]]]()
    with path.open(encoding="utf-8-sig", newline="") as file:
        for number, row in records_in(file, ",", path.name):
            if number == 1 or not any(map(str.strip, row)):
                continue
            if len(first) < _LOOKED:
                first.append((number, row))
            try:
                entries.add(own_entry(written, row))
            except InputError as error:
                bad.append(BadRow(number, str(error), row))
    named = columns(written, {}, path.name, read_as.say)
    samples = tuple(sample_cells(first, place) for place in range(len(named)))
    currencies = settle([], {}, read_as.base, "", "")
    looked = Preview(path.name, "utf-8-sig", ",", named, samples, (), currencies)
    return replace(looked, entries=entries, bad=tuple(bad))
