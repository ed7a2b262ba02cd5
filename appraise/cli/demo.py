"""Furnishes a throw-away home with the invented demo: log, photos, venues, lots, pieces, bench."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, datetime
from decimal import Decimal
from pathlib import Path
from typing import Any

import yaml

from appraise.base.errors import InputError
from appraise.base.files import read_bytes
from appraise.base.money import Money
from appraise.base.places import Home, shipped_demo
from appraise.base.settings import Settings, load_settings
from appraise.base.yamls import read
from appraise.collection.lotsteps import with_bid
from appraise.exchange.sheets import ReadAs, read_csv
from appraise.records import fields as records
from appraise.records.budget import Budget
from appraise.records.entry import Entry
from appraise.records.lot import Lot, LotItem
from appraise.records.owned import OwnedPiece
from appraise.records.part import Part
from appraise.records.picture_file import PictureFile
from appraise.records.record_types import TYPES, from_json
from appraise.records.repair import Repair
from appraise.records.stored import ChangeSet
from appraise.records.values import Author
from appraise.records.venue import Venue
from appraise.records.venuebook import VenueBook
from appraise.records.want import Want
from appraise.store.log import open_log
from appraise.store.machines import machine_at
from appraise.store.pictures import digest_of, keep, path_of
from appraise.store.records import commit
from appraise.store.venue_book import keep_book

DEMO_TIME = datetime(2026, 11, 7, 10, tzinfo=UTC)
DEMO_DAY = DEMO_TIME.date()
CURRENCY = "USD"
BUDGET = Decimal(150)


def furnish(home: Home) -> Settings:
    """Fill an empty home with the demo's log and venues, and lay its pieces on the table.

    Returns:
        The settings under which the demo is shown.
    """
    home.root.mkdir(parents=True, exist_ok=True)
    with open_log(home.log, lambda: DEMO_TIME, machine_at(home.root)) as log:
        log.set_base_currency(CURRENCY)
        for picture, file in demo_photos().values():
            keep(file, path_of(log.path, picture), picture.sha256)
        entries = log.add_all(demo_entries())
        keep_book(log, demo_book())
        pieces = enumerate(sorted((shipped_demo() / "pieces").glob("*.yaml")), start=1)
        for place, path in reversed(list(pieces)):  # the one kept last lies first
            log.save_draft(f"piece {place}", path.read_text(encoding="utf-8"))
        budget = Budget(Money(BUDGET, CURRENCY), "month", DEMO_DAY)
        commit(log, ChangeSet(add=(*demo_lots(), budget)))
        commit(log, ChangeSet(add=demo_kept(entries)))
        commit(log, ChangeSet(add=demo_bench()))
    return load_settings(home.settings)


def demo_lots() -> tuple[Lot, ...]:
    """The lots of the demo's lot files, read without the trade's knowledge: 150 ms are saved."""
    return tuple(map(_lot, sorted((shipped_demo() / "lots").glob("*.yaml"))))


def _lot(path: Path) -> Lot:
    top: dict[str, Any] = yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
    texts = {name: text for name, text in top.items() if name not in ("lot", "pieces", "bid")}
    items = []
    for number, row in enumerate(top["pieces"], start=1):
        told = {
            name: row.pop(name)
            for name in records.typed_fields(LotItem)
            if name in row and name != "title"
        }
        texts |= {f"piece.{number}.{name}": text for name, text in told.items()}
        bare = set(row) == {"title"}
        text = "" if bare else yaml.safe_dump({"piece": "1", "channel": "auction", **row})
        items.append(LotItem(row["title"], text))
    begun = Lot(texts["title"], DEMO_DAY, CURRENCY, items=tuple(items))
    lot = records.changed(begun, texts, Author(CURRENCY, DEMO_DAY, zone=UTC))
    return with_bid(lot, Money.parse(top["bid"]), DEMO_TIME) if "bid" in top else lot


def demo_kept(entries: Sequence[Entry]) -> tuple[OwnedPiece, ...]:
    """The demo's kept pieces, each with its purchase among the entries."""
    path = shipped_demo() / "kept.yaml"
    top: dict[str, Any] = yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
    bought = {(one.date.isoformat(), one.title): one for one in entries}
    made = []
    for number, row in top.items():
        entry = bought[row.pop("bought"), row["title"]]
        told = {name: getattr(entry, name) for name in ("kind", "process", "housing", "format")}
        whole = {**told, "entry": entry.id, "number": number, "acquired": str(entry.date), **row}
        made.append(from_json(OwnedPiece, whole))
    return tuple(made)


def demo_bench() -> tuple[Part | Repair | Want, ...]:
    """The demo's parts in stock, its work in hand, and what is looked out for."""
    path = shipped_demo() / "bench.yaml"
    top: dict[str, Any] = yaml.safe_load(path.read_text(encoding="utf-8"))
    made = [from_json(TYPES[sort], row) for sort, rows in top.items() for row in rows]
    return tuple(one for one in made if isinstance(one, Part | Repair | Want))


def demo_book() -> VenueBook:
    """The demo's invented venues."""
    book, rows = VenueBook(), read(shipped_demo() / "venues.yaml")
    for name in rows:
        row = rows.row(name)
        texts = {field: row.text(field) for field in row}
        book = book.with_venue(
            records.changed(Venue(name, CURRENCY), texts, Author(CURRENCY, DEMO_DAY))
        )
    return book


def demo_photos() -> dict[str, tuple[PictureFile, Path]]:
    """The demo's drawn photos by name: how the log lists each, and its file."""
    folder = shipped_demo() / "photos"
    files = {path.name: path for path in sorted(folder.glob("*.jpg"))}
    return {name: (PictureFile(digest_of(path), name), path) for name, path in files.items()}


def _photographed(entries: Sequence[Entry]) -> tuple[Entry, ...]:
    """The entries, each with the photos that are said to show it."""
    path = shipped_demo() / "photos" / "photos.yaml"
    said: dict[str, dict[str, str]] = yaml.load(path.read_text("utf-8"), Loader=yaml.BaseLoader)
    photos, of = demo_photos(), dict[tuple[str, str], tuple[PictureFile, ...]]()
    for name, whose in said.items():
        key = whose["bought"], whose["title"]
        of[key] = (*of.get(key, ()), photos[name][0])
    return tuple(replace(one, pictures=of.get((str(one.date), one.title), ())) for one in entries)


def demo_entries() -> tuple[Entry, ...]:
    """The entries of the demo's price log."""
    path = shipped_demo() / "prices.csv"
    preview = read_csv(read_bytes(path), path.name, ReadAs(currency=CURRENCY))
    if preview.questions or preview.bad:
        raise InputError("the demo's price log is damaged", str(path), "Reinstall.")
    return _photographed(preview.entries)
