"""Whether what a person or a file hands over is read in a time that grows as its length does.

    python tests/bench/bench_linear.py

Each reader is given hostile texts of two lengths, the longer of eight times the shorter, and the
least processor time of three rounds counts. A reader that is linear takes 8 times as long, one
that goes back over the text at each step takes 64 times. The exit status is 1 where one takes more
than 16 times, or where the longer takes more than 20 ms and the shorter is too quick to tell.
"""

import sys
import time
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

from appraise.base.dates import year_range  # noqa: E402
from appraise.base.errors import InputError  # noqa: E402
from appraise.base.logday import read_log_day  # noqa: E402
from appraise.base.measures import Measure  # noqa: E402
from appraise.base.money import Money  # noqa: E402
from appraise.base.yamls import compose  # noqa: E402
from appraise.exchange import sheet_cells, sheet_days  # noqa: E402
from appraise.exchange.sheets import ReadAs, read_csv  # noqa: E402
from appraise.exchange.yaml_file import from_yaml  # noqa: E402
from appraise.knowledge import load  # noqa: E402
from appraise.listing.first_look import understand  # noqa: E402
from appraise.records.piece_file import piece_of  # noqa: E402

LENGTHS = (4_000, 32_000)
BAR, LEAST, ROUNDS = 16.0, 0.02, 3
FILLERS = (" ", "1", "1 ", "a", "a ", "1/", ".", ",", "-", "'", "2 3/4 x ", "1858 ", "no ", "(")
IMAGE = "- {side: left, findings: {plate.magnet: no}}\n"
KNOWLEDGE = load()

Reader = Callable[[str], object]


def _sheet(cell: str) -> object:
    text = f'Date,Title,Paid\n2021-05-06,girl,12\n"{cell}",boy,13\n2021-05-07,"{cell}",14\n'
    return read_csv(text.encode(), "prices.csv", ReadAs())


def _images(text: str) -> object:
    many = len(text) // 16
    return piece_of(compose("piece: 1\nimages:\n" + IMAGE * many, "piece.yaml"), KNOWLEDGE)


READERS: dict[str, Reader] = {
    "a day of the log": read_log_day,
    "years (EDTF)": year_range,
    "an amount": Money.parse,
    "a measure": Measure.parse,
    "a cell as a day": lambda text: sheet_days.day("3/4/2021" + text + "x", "day"),
    "a cell as an amount": lambda text: sheet_cells.amount("12" + text + "x", ".", "USD"),
    "a sheet": _sheet,
    "a log file": lambda text: from_yaml(
        f"log: 1\nentries:\n- record: bought\n  date: 2021-05-06\n  title: '{text}'\n", "log.yaml"
    ),
    "a title in a piece file": lambda text: piece_of(
        compose(f'piece: 1\ntitle: "{text}"\n', "piece.yaml"), KNOWLEDGE
    ),
    "images of a piece file": _images,
    "a first look": lambda text: understand("sixth ambrotype " + text, KNOWLEDGE),
}


def taken(reader: Reader, text: str) -> float:
    """The least processor time in seconds of some rounds; what is refused is read as well."""
    times = []
    for _ in range(ROUNDS):
        start = time.process_time()
        with suppress(InputError):
            reader(text)
        times.append(time.process_time() - start)
    return min(times)


def worst(reader: Reader) -> tuple[float, float, float, str]:
    """The filler that grows most: seconds at either length, their ratio, and itself."""
    rows = []
    for filler in FILLERS:
        short, long = (taken(reader, filler * (length // len(filler))) for length in LENGTHS)
        rows.append((short, long, long / max(short, LEAST / BAR), filler))
    return max(rows, key=lambda row: row[2])


def main() -> int:
    bad = 0
    print(f"{'':26}{LENGTHS[0]:>10,} {LENGTHS[1]:>10,} characters")
    for name, reader in READERS.items():
        short, long, ratio, filler = worst(reader)
        bad += ratio > BAR
        print(f"{name:26}{1000 * short:8.2f} ms{1000 * long:8.2f} ms{ratio:7.1f} times, {filler!r}")
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
