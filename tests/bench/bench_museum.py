"""Benchmark against museum records: formats from measures, and years from what a record tells.

    python tests/bench/bench_museum.py [--records FILE]

Every row of the table stands for this checkout, beside the same row as it stood at an earlier
commit (`BEFORE`). The records, their sources and licences are in tests/external/museum. They are a
test, and may correct what is clearly off; shares of formats or processes are never fitted to them.

Formats: how often the likeliest format is the museum's own word, and the mean of what was stated
of the likeliest. A record whose measure fits no size counts as wrong, and as stated 0. Left out are
modern works, cases no larger than the plate they hold, which are slips of the record, and the
plates of one holder, which stand behind the shipped opening. Years: a record is read by its
process, called as seen in hand, its format and its mount, without any other finding. Cartes
dated before the patent of 27 November 1854 are slips of the record and left out. Objects of one
accession group (series) count as one: each its part. `inside` is how often the middle of the
museum's years lies in the 80 % range; `bits` is the mean of -log2 of the probability given to the
museum's years, by year; `width` is the mean width of the range in years.
"""

import argparse
import json
import sys
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import log2
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

from appraise.base.measures import Measure  # noqa: E402
from appraise.knowledge import Knowledge, load  # noqa: E402
from appraise.knowledge.records import FIRST_YEAR, LAST_YEAR  # noqa: E402
from appraise.reading.formats import read_formats  # noqa: E402
from appraise.reading.reading import Reading, read  # noqa: E402
from appraise.records.piece import Piece  # noqa: E402

RECORDS = ROOT / "tests" / "external" / "museum" / "records.jsonl"
BEHIND_OPENING = "cmoa/collection"  # its plates are a source of the shipped opening offset
PLATES = ("whole", "half", "quarter", "sixth", "ninth")
CARDS = {"carte": "carte-de-visite", "cabinet": "cabinet", "stereo": "stereo"}
PATENT = 1854  # of the carte-de-visite, in France
SAME = {"stereo-large": "stereo"}  # museums call both so

SORTS = ("cased", "loose-plate", "card", "lantern-slide", "cyanotype")  # all kinds at that commit
BEFORE_COMMIT = "c5b2810"
BEFORE: Mapping[str, tuple[float, ...]] = {
    "plate": (16, 87.5, 91.938),
    "opening": (66, 72.727, 92.226),
    "opening, plate told": (66, 75.758, 94.841),
    "case": (25, 96.0, 97.208),
    "slide, continent": (33, 0.0, 75.578),
    "carte mount": (244, 99.18, 97.878),
    "cabinet mount": (89, 95.506, 98.799),
    "stereo mount": (19, 89.474, 87.067),
    "ambrotype, cased": (5, 100.0, 3.85, 15.2),
    "cabinet": (10, 100.0, 5.397, 36.0),
    "carte": (19, 47.368, 5.725, 36.0),
    "cyanotype, cyanotype": (2, 100.0, 5.755, 47.0),
    "daguerreotype, cased": (11, 100.0, 4.396, 18.545),
    "daguerreotype, loose-plate": (1, 0.0, 5.803, 46.0),
    "stereo": (13, 92.308, 5.545, 36.0),
    "tintype, cased": (2, 100.0, 4.033, 17.0),
    "tintype, loose-plate": (1, 100.0, 5.609, 39.0),
    "carte, documented": (19, 47.368, 5.725, 36.0),
    "carte, documented, american-art/npg": (18, 47.222, 5.732, 36.0),
    "carte, documented, cmoa/collection": (1, 50.0, 5.598, 36.0),
    "carte, any date": (83, 53.236, 5.955, 36.024),
    "carte, any date, american-art/npg": (82, 52.931, 5.958, 36.024),
    "carte, any date, cmoa/collection": (1, 78.261, 5.731, 36.0),
    "1840s": (2, 50.0, 5.236, 32.5),
    "1850s": (14, 100.0, 4.217, 17.5),
    "1860s": (25, 59.6, 5.493, 33.704),
    "1870s": (9, 100.0, 5.44, 36.0),
    "1880s": (7, 100.0, 5.373, 36.0),
    "1890s": (4, 100.0, 5.595, 36.0),
    "1900s": (3, 66.667, 5.832, 43.333),
}

Record = Mapping[str, Any]
Row = tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Dated:
    """A record with years, as it was read: series, years and whether they are documented."""

    record: Record
    reading: Reading

    @property
    def inside(self) -> bool:
        """Whether the middle of the museum's years lies in the 80 % range."""
        middle = (self.record["year_first"] + self.record["year_last"]) / 2
        return self.reading.together.first <= middle <= self.reading.together.last

    @property
    def bits(self) -> float:
        """-log2 of the probability given to each of the museum's years."""
        first, last = (
            min(max(self.record[name], FIRST_YEAR), LAST_YEAR)
            for name in ("year_first", "year_last")
        )
        weights = self.reading.year_weights[first - FIRST_YEAR : last - FIRST_YEAR + 1]
        return -log2(sum(weights) / len(weights))

    @property
    def width(self) -> int:
        """Years in the 80 % range."""
        return self.reading.together.last - self.reading.together.first + 1


def records_of(path: Path) -> list[Record]:
    """The records of a file, one JSON object a line, of the kinds of `BEFORE`."""
    rows = [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines()]
    return [row for row in rows if row["kind"] in SORTS]


@lru_cache(maxsize=1)
def _knowledge() -> Knowledge:
    return load()


def measured(record: Record, what: str) -> Measure | None:
    """One measure of a record, or None."""
    sides = record.get("dims_mm", {}).get(what)
    return Measure.of_mm(*sides) if sides else None


def card_word(record: Record) -> str:
    """Which sort of card the museum calls it: carte, cabinet, stereo or none of these."""
    text = record.get("format_text", "").lower()
    return next((word for word in CARDS if word in text), "")


# --- formats ------------------------------------------------------------------------------------


def format_row(cases: Iterable[tuple[Piece, str]], knowledge: Knowledge, case: bool = False) -> Row:
    """Pieces with the museum's word: how many, share right, mean stated of the likeliest."""
    right, stated = [], []
    for piece, word in cases:
        told = read_formats(piece, knowledge)
        best, chances = (told.case_format, told.case) if case else (told.best, told.probabilities)
        right.append(SAME.get(best, best) == word)
        stated.append(chances[best] if best else 0.0)
    many = len(right)
    return (many, 100 * sum(right) / many, 100 * sum(stated) / many) if many else (0, 0.0, 0.0)


def plates(records: Sequence[Record], what: str, *keys: str, named: bool = False) -> list[Any]:
    """Plates that a museum names by a trade size, with one measure given as `what`."""
    found = []
    for record in records:
        word = record.get("plate_word", "")
        sizes = [size for key in keys if (size := measured(record, key))]
        if record.get("modern") or record["source"] == BEHIND_OPENING:
            continue
        if word in PLATES and sizes and not (what == "case" and _too_small(sizes[0], word)):
            piece = Piece(kind=record["kind"], measured={what: sizes[0]})
            if named:
                piece = Piece(kind=piece.kind, measured=piece.measured, named_format=word)
            found.append((piece, word))
    return found


def _too_small(case: Measure, word: str) -> bool:
    """Whether a case is no larger than the plate that it is said to hold."""
    plate = _knowledge().formats[word].sizes[0]
    return any(float(side) <= nominal + 1 for side, nominal in zip(case.sides, plate, strict=True))


def mounts(records: Sequence[Record], word: str) -> list[tuple[Piece, str]]:
    """Cards of one sort with their mounts measured."""
    return [
        (Piece(kind="card", measured={"mount": size}), CARDS[word])
        for record in records
        if card_word(record) == word and (size := measured(record, "mount"))
    ]


def slides(records: Sequence[Record]) -> list[tuple[Piece, str]]:
    """Slides of 100 x 85 mm from the continent, whose size that is."""
    found = []
    for record in records:
        size = measured(record, "plate")
        if record["kind"] == "lantern-slide" and size and record.get("region") == "eu":
            piece = Piece(kind="lantern-slide", region="eu", measured={"plate": size})
            found.append((piece, "lantern-continental"))
    return found


def format_rows(records: Sequence[Record], knowledge: Knowledge) -> dict[str, Row]:
    """All the rows on formats: n, right %, stated %."""
    opening = ("opening", "image")
    told = plates(records, "opening", *opening, named=True)
    rows = {
        "plate": format_row(plates(records, "plate", "plate"), knowledge),
        "opening": format_row(plates(records, "opening", *opening), knowledge),
        "opening, plate told": format_row(told, knowledge),
        "case": format_row(plates(records, "case", "case"), knowledge, case=True),
        "slide, continent": format_row(slides(records), knowledge),
    }
    return rows | {f"{word} mount": format_row(mounts(records, word), knowledge) for word in CARDS}


# --- years --------------------------------------------------------------------------------------


def piece_of(record: Record) -> Piece:
    """A record as a piece: its process called as seen in hand, its format and its mount."""
    word = card_word(record)
    sizes = {}
    size = measured(record, "mount") or measured(record, "overall")
    if record["kind"] == "card" and size:
        sizes["mount"] = size
    piece = Piece(
        kind=record["kind"],
        region=record.get("region") or "unknown",
        measured=sizes,
        named_format=CARDS.get(word, ""),
    )
    return piece.with_finding("claim.process", record["process"], "in-hand")


def dated(records: Sequence[Record], knowledge: Knowledge) -> list[Dated]:
    """Every record with years that is no modern work, read; equal pieces are read once."""
    known: dict[str, Reading] = {}
    found = []
    for record in records:
        if not (record.get("year_first") and record.get("year_last")) or record.get("modern"):
            continue
        if card_word(record) != "carte" or record["year_last"] >= PATENT:
            piece = piece_of(record)
            key = repr(piece)
            if key not in known:
                known[key] = read(piece, knowledge)
            found.append(Dated(record, known[key]))
    return found


def series_mean(rows: Sequence[Dated], of: Callable[[Dated], float]) -> float:
    """The mean over series of the mean within each."""
    by_series: dict[str, list[float]] = {}
    for row in rows:
        by_series.setdefault(row.record["series"], []).append(of(row))
    means = [sum(values) / len(values) for values in by_series.values()]
    return sum(means) / len(means)


def year_row(rows: Sequence[Dated]) -> Row:
    """Series, inside %, bits, width; nothing where there are no rows."""
    if not rows:
        return (0, 0.0, 0.0, 0.0)
    return (
        len({row.record["series"] for row in rows}),
        100 * series_mean(rows, lambda row: row.inside),
        series_mean(rows, lambda row: row.bits),
        series_mean(rows, lambda row: row.width),
    )


def sort_of(record: Record) -> str:
    """The row in which a record's years stand: its sort of card, else its process."""
    return card_word(record) or f"{record['process']}, {record['kind']}"


def year_rows(records: Sequence[Record], knowledge: Knowledge) -> dict[str, Row]:
    """All the rows on years: by sort, cartes by holder, by decade, and cartes of any date."""
    every = dated(records, knowledge)
    sure = [row for row in every if row.record.get("documented")]
    rows: dict[str, Row] = {}
    for sort in sorted({sort_of(row.record) for row in sure}):
        rows[sort] = year_row([row for row in sure if sort_of(row.record) == sort])
    for name, some in (("documented", sure), ("any date", every)):
        cartes = [row for row in some if sort_of(row.record) == "carte"]
        rows[f"carte, {name}"] = year_row(cartes)
        for holder in sorted({row.record["source"] for row in cartes}):
            held = [row for row in cartes if row.record["source"] == holder]
            rows[f"carte, {name}, {holder}"] = year_row(held)
    for decade in range(1840, 1910, 10):
        rows[f"{decade}s"] = year_row(
            [row for row in sure if row.record["year_first"] // 10 * 10 == decade]
        )
    return {name: row for name, row in rows.items() if row[0]}


# --- the table ----------------------------------------------------------------------------------


def measure_all(path: Path, knowledge: Knowledge) -> dict[str, Row]:
    """Every row of the table, by name."""
    records = records_of(path)
    return format_rows(records, knowledge) | year_rows(records, knowledge)


def lines(rows: Mapping[str, Row]) -> Iterable[str]:
    """The table as text, with the earlier figures beside."""
    yield f"{'':36}{'now':>30}     {f'at {BEFORE_COMMIT}':>30}"
    heads = {3: ("n", "right %", "stated %"), 4: ("series", "inside %", "bits", "width")}
    shape = 0
    for name, row in rows.items():
        if len(row) != shape:
            shape = len(row)
            head = "".join(f"{word:>10}" for word in heads[shape])
            yield f"{'':36}{head}   {head}"
        before = BEFORE.get(name, ())
        yield f"{name:36}{_figures(row)}   {_figures(before)}"


def _figures(row: Row) -> str:
    shown = [f"{value:10.2f}" if place == 2 and len(row) == 4 else f"{value:10.0f}"
             for place, value in enumerate(row)]  # fmt: skip
    return "".join(shown)


def main() -> int:
    parser = argparse.ArgumentParser(description=(__doc__ or "").split("\n")[0])
    parser.add_argument("--records", type=Path, default=RECORDS, help="one JSON object a line")
    parser.add_argument("--data", action="store_true", help="print the rows as data for BEFORE")
    given = parser.parse_args()
    rows = measure_all(given.records, _knowledge())
    if given.data:
        for name, row in rows.items():
            print(f'    "{name}": {tuple(round(value, 3) for value in row)},')
    else:
        print("\n".join(lines(rows)))
    return 0


if __name__ == "__main__":
    sys.exit(main())
