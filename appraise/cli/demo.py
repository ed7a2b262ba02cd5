"""Furnishes a throw-away home with the invented demo: its log, venues, pieces on the table."""

from datetime import UTC, datetime

from appraise.base.errors import InputError
from appraise.base.files import read_bytes
from appraise.base.places import Home, shipped_demo
from appraise.base.settings import Settings, load_settings
from appraise.base.yamls import read
from appraise.cli.context import machine
from appraise.log.bookkeeping import keep_book
from appraise.log.csvin import ReadAs, read_csv
from appraise.log.entries import Entry
from appraise.log.store import open_log
from appraise.log.venues import Book
from appraise.log.venuetext import changed, new_house

DEMO_TIME = datetime(2026, 11, 7, 10, tzinfo=UTC)
DEMO_DAY = DEMO_TIME.date()
CURRENCY = "USD"


def furnish(home: Home) -> Settings:
    """Fill an empty home with the demo's log and venues, and lay its pieces on the table.

    Returns:
        The settings under which the demo is shown.
    """
    home.root.mkdir(parents=True, exist_ok=True)
    with open_log(home.log, lambda: DEMO_TIME, machine()) as log:
        log.set_base_currency(CURRENCY)
        log.add_all(demo_entries())
        keep_book(log, demo_book())
        for place, path in enumerate(sorted((shipped_demo() / "pieces").glob("*.yaml")), start=1):
            log.save_draft(f"piece {place}", path.read_text(encoding="utf-8"))
    return load_settings(home.settings)


def demo_book() -> Book:
    """The demo's invented venues."""
    book, rows = Book(), read(shipped_demo() / "venues.yaml")
    for name in rows:
        row = rows.row(name)
        texts = {field: row.text(field) for field in row}
        book = book.with_house(changed(new_house(name, CURRENCY), texts))
    return book


def demo_entries() -> tuple[Entry, ...]:
    """The entries of the demo's price log."""
    path = shipped_demo() / "prices.csv"
    preview = read_csv(read_bytes(path), path.name, ReadAs(currency=CURRENCY))
    if preview.questions or preview.bad:
        raise InputError("the demo's price log is damaged", str(path), "Reinstall.")
    return preview.entries
