"""The book of venues and rates in the log's settings: kept as text, read without complaint."""

import datetime as dt
import json
import sqlite3
from collections.abc import Mapping
from decimal import Decimal, InvalidOperation
from typing import Any

from appraise.base.errors import InputError
from appraise.log.store import Log
from appraise.log.venues import Book, House, Rate
from appraise.log.venuetext import changed, new_house, written
from appraise.log.words import folded

SETTING = "book"


def read_book(log: Log) -> Book:
    """The venues and rates of a log; one that cannot be read any more is left out."""
    with log.snapshot():
        return book_in(log.connection)


def book_in(connection: sqlite3.Connection) -> Book:
    """The same by a connection that the caller looks after."""
    row = connection.execute("SELECT value FROM setting WHERE name = ?", (SETTING,)).fetchone()
    return from_text(str(row[0])) if row else Book()


def keep_book(log: Log, book: Book) -> None:
    """Keep a book in place of the one before; it is on the disk when this returns."""
    with log.transaction():
        put_book(log.connection, book)


def put_book(connection: sqlite3.Connection, book: Book) -> None:
    """The same within a transaction of the caller's."""
    sql = "INSERT OR REPLACE INTO setting (name, value) VALUES (?, ?)"
    connection.execute(sql, (SETTING, to_text(book)))


def joined(book: Book, other: Book) -> Book:
    """The book with what another one has beside it, whichever of the two comes first.

    Of two houses of one name the one whose terms were checked later counts; one house of a
    channel stays usual.
    """
    houses: dict[str, House] = {}
    for house in sorted((*book.houses, *other.houses), key=_standing):
        houses[folded(house.name)] = house
    rates = {
        (one.currency, one.base, one.on): one
        for one in sorted((*book.rates, *other.rates), key=lambda one: (one.rate, one.source))
    }
    both = Book()
    for house in houses.values():
        both = both.with_house(house)
    for rate in rates.values():
        both = both.with_rate(rate)
    return both


def _standing(house: House) -> tuple[dt.date, str]:
    """The day of the last check; of equal days the text decides, so that machines agree."""
    return house.checked or dt.date.min, json.dumps(written(house), sort_keys=True)


def to_text(book: Book) -> str:
    """The book as JSON text."""
    told = {
        "houses": {one.name: written(one) for one in book.houses},
        "rates": [
            {
                "currency": one.currency,
                "base": one.base,
                "rate": str(one.rate),
                "on": one.on.isoformat(),
                "source": one.source,
            }
            for one in book.rates
        ],
    }
    return json.dumps(told, ensure_ascii=False, sort_keys=True)


def from_text(text: str) -> Book:
    """The book that `to_text` wrote; rows that cannot be read are left out."""
    try:
        told = json.loads(text)
    except ValueError:
        return Book()
    book = Book()
    if not isinstance(told, Mapping):
        return book
    houses, rates = told.get("houses"), told.get("rates")
    for name, texts in houses.items() if isinstance(houses, Mapping) else ():
        house = _house(name, texts)
        book = book.with_house(house) if house else book
    for row in rates if isinstance(rates, list) else ():
        rate = _rate(row)
        book = book.with_rate(rate) if rate else book
    return book


def _house(name: str, texts: Any) -> House | None:
    if not isinstance(texts, Mapping):
        return None
    try:
        told = {str(key): str(value) for key, value in texts.items()}
        return changed(new_house(name, told.get("currency", "")), told)
    except InputError:
        return None


def _rate(row: Any) -> Rate | None:
    try:
        return Rate(
            str(row["currency"]),
            str(row["base"]),
            Decimal(str(row["rate"])),
            dt.date.fromisoformat(str(row["on"])),
            str(row.get("source", "")),
        )
    except (InputError, InvalidOperation, ValueError, TypeError, KeyError, AttributeError):
        return None
