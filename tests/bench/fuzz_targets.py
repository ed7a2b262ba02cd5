"""The sorts of input that the fuzz bench makes, and what each is given to."""

import contextlib
import datetime as dt
import io
import random
from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from typing import Any
from unittest.mock import patch

from fuzz_inputs import ROOT, listings, mangled, sheets

from appraise.base.dates import Dating, meant, year_range
from appraise.base.errors import AppraiseError
from appraise.base.logday import log_day_of, read_log_day
from appraise.base.measures import Measure
from appraise.base.moments import parse_moment
from appraise.base.money import Money
from appraise.base.oneline import visible
from appraise.base.settings import load_settings
from appraise.cli.main import run as run_command
from appraise.commands.registry import FAMILIES, commands_of
from appraise.exchange.sheets import ReadAs, read_csv
from appraise.exchange.yaml_file import from_yaml, to_yaml
from appraise.knowledge import load
from appraise.listing.first_look import understand
from appraise.listing.reader import read as read_listing
from appraise.records.fields import changed, written
from appraise.records.lot_file import parse_lot, write_lot
from appraise.records.piece_file import parse_piece, write_piece
from appraise.records.record_types import TYPES, from_text, to_text
from appraise.records.values import Author

ON = dt.date(2026, 11, 30)
NOON = dt.datetime(2026, 11, 30, 12, tzinfo=dt.UTC)
DATES = (
    "1855", "about 1855", "1850s", "c. 1848-1852", "before 1860", "1855-06", "1855-06-31",
    "May 1855", "spring 1855", "[1855..1860]", "1855/1860", "185X", "1855~", "1855?", "early 1850s",
    "mid 1850s", "late nineteenth century", "19th century", "5 May 1855", "5.6.1855",
    "05/06/1855", "unknown",
    "between 1850 and 1855", "um 1855", "vers 1855", "2026-11-08 20:00 Europe/Berlin",
    "2026-11-08T19:00Z", "8 Nov 8pm", "tomorrow", "2015~", "2014..2016", "X", "..", "1855/..",
)  # fmt: skip
AMOUNTS = (
    "45", "45.00 USD", "£12.50", "45 dollars", "18,-", "1.250,00 €", "1,250", "$45", "US$ 45.00",
    "CHF 1'200.-", "kr 450", "¥12000", "12s 6d", "£1 2s 6d", "1 guinea", "40..65 USD", "45 GBP",
    "-45", "0.001 KWD", "1e5", "45k", "45 USD 3", "five pounds", "12½", "٣٤",
)  # fmt: skip
MEASURES = (
    "2 3/4 x 3 1/4 in", "70 x 83 mm", "7,0 x 8,3 cm", "2¾ × 3¼\"", "1/6 plate", "8 mm deep",
    "6 in", "2' 3\"", "10x8x1 cm", "2.75in x 3.25in", "1/0 in", "diameter 40 mm", "⌀ 40 mm",
)  # fmt: skip
FILTERS = (
    "girl", "-girl vine", "process:amb", "price:20..50", "date:2012..2013-02", "subject:child,man",
    'title:"two words"', "own:yes", "pictures:no", "price:..", "appeal:3..", "quality:?", "id:ab",
    "date:?", "-price:20", "kind:cased price:1.5..2", "currency:usd",
)  # fmt: skip
LINES = (
    "sixth ambro thermoplastic vine 45", "quarter plate tintype girl seated £30 market",
    "carte de visite soldier 1863 stamp 12 USD", "lot of 3 tintypes 60", "case only, hinge split 8",
    "ninth daguerreotype tarnish halo 80 EUR + 6 post", "mat nonpareil 1856 brass",
)  # fmt: skip
SETTINGS = (
    "currency: USD\ntheme: night\nregion: us\nascii: yes\nbudget: 100\nextra: 5\nbidders: 4\n"
)
PIECE = """piece: 1
kind: cased
title: girl seated
motif: vine
channel: market
format: sixth
from: {where: quay market, on: 2026-11-25}
size: 70 x 83 mm
findings:
  own.process: ambrotype
  mat.shape: {value: nonpareil, known: photo}
subjects: [child]
asking: 40.00 USD
notes: |
  a line
  another
"""
LOT = """lot: 1
title: three tintypes
closes: 2026-12-08 20:00 Europe/Berlin
venue: quay rooms
estimate: 40..65 USD
pieces:
- kind: tintype
  format: sixth
- kind: cased
  findings: {own.process: ambrotype}
"""
SAFE = ("piece.yaml", "lot.yaml", "sheet.csv", "log.yaml", "none.yaml", "-", "out.csv", "photo.jpg")


@dataclass(frozen=True)
class Target:
    """A sort of input: what makes one by chance, what takes it, and its share of the time."""

    name: str
    make: Callable[[random.Random], Any]
    run: Callable[[Any], object]
    weight: float = 1.0


def targets(place: Path) -> list[Target]:
    """All sorts of input, working in a directory."""
    knowledge = load()
    texts = listings()
    return [
        Target("money", of(AMOUNTS), _money, 1.5),
        Target("dates", of(DATES), _dates, 1.5),
        Target("measures", of(MEASURES), Measure.parse, 1),
        Target("filters", of(FILTERS), _Filters(place), 1),
        Target("field", _fields, _Fields(knowledge), 1.5),
        Target("first look", of(LINES), lambda text: understand(text, knowledge, today=ON), 2),
        Target("listing", of(texts), lambda text: read_listing(text, knowledge), 2),
        Target("piece YAML", of([PIECE, *_demo("*.yaml")]), lambda t: _piece(t, knowledge), 2),
        Target("lot YAML", of([LOT]), lambda text: _lot(text, knowledge), 1),
        Target("settings", of([SETTINGS]), _Settings(place), 0.5),
        Target("log YAML", of(_logs()), lambda text: to_yaml(from_yaml(text, "log.yaml")), 1),
        Target("log text", of(_log_texts()), lambda text: to_text(from_text(text, "")), 1),
        Target("sheet", _sheets(sheets()), _sheet, 2),
        Target("command", _command(texts), _Commands(place), 6),
        Target("shown", of([*texts, *DATES]), _shown, 0.3),
    ]


def of(seeds: Any) -> Callable[[random.Random], str]:
    """Texts that are mangled seeds."""
    return lambda chance: mangled(chance, seeds)


def _demo(names: str) -> list[str]:
    return [path.read_text(encoding="utf-8") for path in sorted((ROOT / "demo").rglob(names))][:60]


def _money(text: str) -> None:
    for currency, point in (("", ""), ("USD", ""), ("EUR", ","), ("KWD", ".")):
        with contextlib.suppress(AppraiseError):
            found = Money.parse(text, currency, point)
            str(found)
            found.rounded()


def _dates(text: str) -> None:
    with contextlib.suppress(ValueError, AppraiseError):
        log_day_of(text)
    for read in (Dating.parse, year_range, meant, read_log_day, parse_moment):
        with contextlib.suppress(AppraiseError):
            found = read(text)
            str(found)
            if isinstance(found, Dating):
                found.bounds()


class _Filters:
    def __init__(self, place: Path) -> None:
        from appraise.commands.workspace import open_at

        self.log = open_at(place / "filtered.sqlite")
        self.log.add_all(from_yaml(_logs()[0], "log.yaml"))

    def __call__(self, text: str) -> None:
        from appraise.records.filter import terms, written
        from appraise.store.search import FIELDS

        written(terms(text, FIELDS))
        self.log.entries(text)
        self.log.summary(text)


def _fields(chance: random.Random) -> tuple[str, dict[str, str]]:
    from appraise.records.fields import typed_fields

    sort = chance.choice(tuple(TYPES))
    names = list(typed_fields(TYPES[sort]))
    some = chance.sample(names, min(len(names), chance.randint(1, 3)))
    seeds = (*DATES, *AMOUNTS, *MEASURES, "yes", "no", "3", "child, man", "a; b", "bought", "sixth")
    return sort, {name: mangled(chance, seeds, 300) for name in some}


class _Fields:
    def __init__(self, knowledge: Any) -> None:
        self.by = Author("USD", ON, knowledge)

    def __call__(self, made: tuple[str, dict[str, str]]) -> None:
        sort, texts = made
        thing = changed(_blank(sort), texts, self.by)
        again = changed(thing, written(thing), self.by)
        assert again == thing, "what is written does not read as the same"
        assert from_text(to_text(thing)) == thing, "what is kept does not read as the same"


def _blank(sort: str) -> Any:
    told: dict[str, tuple[Any, ...]] = {
        "price": ("bought", ON), "want": ("x", ON), "kept": ("x",), "lot": ("x", ON, "USD"),
        "budget": (Money.parse("100 USD"), "month", ON), "stock": ("x", ON, "mat"),
        "work": ("x", ON), "venue": ("x", "USD"),
        "rate": ("GBP", "USD", Decimal("1.2"), ON), "currency": ("USD",),
    }  # fmt: skip
    return TYPES[sort](*told.get(sort, ()))


def _piece(text: str, knowledge: Any) -> None:
    piece = parse_piece(text, "piece.yaml", knowledge)
    again = parse_piece(write_piece(piece), "piece.yaml", knowledge)
    assert write_piece(again) == write_piece(piece), "what is written does not read as the same"


def _lot(text: str, knowledge: Any) -> None:
    by = Author("USD", ON, knowledge)
    lot = parse_lot(text, "lot.yaml", knowledge, by, NOON)
    parse_lot(write_lot(lot), "lot.yaml", knowledge, by, NOON)


class _Settings:
    def __init__(self, place: Path) -> None:
        self.file = place / "settings-fuzzed.yaml"

    def __call__(self, text: str) -> None:
        self.file.write_bytes(text.encode("utf-8", "surrogatepass"))
        load_settings(self.file)


def _logs() -> list[str]:
    from bench_log import invented

    return [to_yaml(invented(3, seed=number)) for number in range(4)]


def _log_texts() -> list[str]:
    from bench_log import invented

    return [to_text(each) for each in invented(20)]


def _sheets(seeds: list[str]) -> Callable[[random.Random], tuple[bytes, ReadAs]]:
    def make(chance: random.Random) -> tuple[bytes, ReadAs]:
        text = mangled(chance, seeds, 2_000)
        code = chance.choice(("utf-8", "utf-8", "latin-1", "utf-16"))
        told = ReadAs(record=chance.choice(("", "bought")), order=chance.choice(("", "day")))
        return text.encode(code, "replace"), told

    return make


def _sheet(made: tuple[bytes, ReadAs]) -> None:
    from appraise.cli.importing import preview_json, tell_preview

    data, told = made
    preview = read_csv(data, "sheet.csv", told)
    with contextlib.redirect_stderr(io.StringIO()):
        tell_preview(preview, whole=True)
    preview_json(preview)


def _shown(text: str) -> None:
    told = visible(text)
    assert not any(ord(sign) < 32 and sign not in "\n\t" for sign in told), "a raw control"


def _command(texts: list[str]) -> Callable[[random.Random], list[str]]:
    left = ("demo", "completion")
    rows = [row for name in FAMILIES if name not in left for row in commands_of(name)]
    seeds = (*DATES, *AMOUNTS, *MEASURES, *FILTERS, *LINES, "title=x", "paid=4 USD", "a1", "1")

    def make(chance: random.Random) -> list[str]:
        row = chance.choice(rows)
        words = row.name.split()
        for each in row.takes:
            if each.name.startswith("-"):
                if chance.random() < 0.3:
                    words += [
                        each.name,
                        *([] if each.kind is bool else [_word(chance, each, seeds)]),
                    ]
            elif each.many not in ("?", "*") or chance.random() < 0.5:
                words += [_word(chance, each, seeds) for _ in range(chance.choice((1, 1, 1, 2)))]
        if row.json and chance.random() < 0.3:
            words.append("--json")
        if chance.random() < 0.1:
            words.insert(chance.randrange(len(words) + 1), mangled(chance, seeds, 60))
        return [_harmless(word) for word in words]

    return make


def _word(chance: random.Random, each: Any, seeds: Any) -> str:
    if each.kind is Path or "file" in each.offers.lower() or each.name.lower() in ("file", "piece"):
        return chance.choice(SAFE)
    if each.choices and chance.random() < 0.8:
        return str(chance.choice(each.choices))
    return mangled(chance, seeds, 200)


def _harmless(word: str) -> str:
    """A word that names no place outside the directory, as a system would hand it on."""
    told = word.replace("/", "_").replace("\0", "").replace("~", "_").replace("--home", "--hume")
    return told.replace("\ud800", "\udcff")


class _Commands:
    """Runs a command line in this process, on a home of its own with some entries and files."""

    def __init__(self, place: Path) -> None:
        self.place = place
        self.many = 0
        self._laid_out()

    def _laid_out(self) -> None:
        import shutil

        shutil.rmtree(self.place / "home", ignore_errors=True)
        for name, text in (
            ("piece.yaml", PIECE), ("lot.yaml", LOT), ("sheet.csv", sheets()[0]),
            ("log.yaml", _logs()[0]),
        ):  # fmt: skip
            (self.place / name).write_bytes(text.encode("utf-8", "replace"))
        with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()):
            run_command(["log", "import", "log.yaml"])

    def __call__(self, words: list[str]) -> None:
        self.many += 1
        if self.many % 500 == 0:
            self._laid_out()

        def raised(error: Exception, _args: object) -> str:
            raise error

        out = io.TextIOWrapper(io.BytesIO(), encoding="utf-8", errors="backslashreplace")
        with (
            patch("appraise.cli.main._broken", raised),
            patch("sys.stdin", io.TextIOWrapper(io.BytesIO(b""))),
            contextlib.redirect_stdout(out),
            contextlib.redirect_stderr(out),
        ):
            status = run_command(words)
        if status not in (0, 1, 2):
            raise AssertionError(f"status {status}")
