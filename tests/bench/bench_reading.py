"""Benchmark of the reading: calibration on its own model, questions saved, speed.

    python tests/bench/bench_reading.py [--pieces 100000] [--decisions 300] [--only NAME ...]

NAME is calibration, shared, decisions or speed. Calibration draws pieces and answers from the
shipped knowledge's own model (fixed seeds) and reads them: in every tenth of the scale that holds
one piece in a hundred and 200 or more, what was said must happen as often as said, within .03. A
share seen on 200 pieces has itself a standard error of up to .035, so that with 20,000 pieces an
exact model misses some of 50 tenths by chance; with 100,000 (12 minutes on two cores) the smallest
tenth that counts holds 1,000 and the error is less than half of that. How many standard errors the
worst tenth is away stands beside it. `shared` is the same, with a fifth of the pieces, where half
of the signs of a part, and then of a piece, are odd together or ordinary together, which the model
does not know; its figures are told and held to no bar. The exit status is 1 when a bar is missed.
"""

import argparse
import sys
import time
from collections.abc import Callable, Iterator
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path
from random import Random

import numpy as np

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests"), str(ROOT / "tests" / "bench")]

from appraise.reading.completions import Truth  # noqa: E402
from bench_reading_decisions import check_decisions  # noqa: E402
from bench_reading_pieces import REGIONS, World, by_part, by_piece  # noqa: E402
from bench_reading_speed import check_speed  # noqa: E402

from appraise.knowledge import load  # noqa: E402
from appraise.knowledge.records import BELONGING, FIRST_YEAR, Check  # noqa: E402
from appraise.reading.reading import Reading, read  # noqa: E402

SEED = 20240601
FEWEST, PART = 200, 0.01  # pieces in a bin that counts, and their part of all
CHUNK = 1000  # pieces drawn from one seed
BAR = 0.03
SHARED = 0.5
MODERN = range(2, len(BELONGING))


def said_and_so(reading: Reading, truth: Truth) -> Iterator[tuple[str, float, bool]]:
    """What a reading said of a piece, and whether it was so."""
    h = truth.states["belonging"]
    yield "together", reading.belonging["together"], h == 0
    yield "married", reading.belonging["married"], h == 1
    yield "modern", reading.modern, h in MODERN
    yield "opened", reading.disturbed, truth.states["package"] == 1
    families = [process.family for process in reading.joint.frame.processes]
    for family in ("daguerreotype", "ambrotype", "tintype"):
        yield family, reading.families[family], families[truth.states["process"]] == family
    yield "altered", reading.joint.altered, truth.states["altered"] == 1


def drawn(number: int, world: World) -> tuple[dict[str, list[tuple[float, bool]]], list[bool]]:
    """What was said of some pieces and whether it was so; and whether the span of years held."""
    rng = Random(SEED + number)
    rows: dict[str, list[tuple[float, bool]]] = {}
    held = []
    for _ in range(CHUNK):
        region = rng.choices(list(REGIONS), list(REGIONS.values()))[0]
        truth, piece = world.looked_at(region, rng)
        reading = read(piece, world.knowledge)
        for name, said, so in said_and_so(reading, truth):
            rows.setdefault(name, []).append((said, so))
        if truth.states["belonging"] not in (3, 4):
            year = FIRST_YEAR + truth.years["image"]
            held.append(reading.together.first <= year <= reading.together.last)
    return rows, held


_WORLD: list[World] = []  # the world of a process of its own


def _start(shared: float, cause: Callable[[Check], str] | None) -> None:
    _WORLD.append(World(load(), shared, cause))


def _drawn_here(number: int) -> tuple[dict[str, list[tuple[float, bool]]], list[bool]]:
    return drawn(number, _WORLD[0])


def calibrate(
    pieces: int, shared: float, cause: Callable[[Check], str] | None
) -> tuple[dict[str, np.ndarray], np.ndarray]:
    """What was said and whether it was so, by name; and whether the span of years held."""
    rows: dict[str, list[tuple[float, bool]]] = {}
    held: list[bool] = []
    with ProcessPoolExecutor(initializer=_start, initargs=(shared, cause)) as pool:
        for found, within in pool.map(_drawn_here, range(-(-pieces // CHUNK))):
            held += within
            for name, told in found.items():
                rows.setdefault(name, []).extend(told)
    return {name: np.array(found, float) for name, found in rows.items()}, np.array(held)


def bins(rows: np.ndarray) -> Iterator[tuple[int, int, float, float]]:
    """By tenth of the scale: its place, how many, mean said, share so."""
    places = np.minimum(9, (rows[:, 0] * 10).astype(int))
    for place in range(10):
        mine = rows[places == place]
        if len(mine) >= max(FEWEST, PART * len(rows)):
            yield place, len(mine), float(mine[:, 0].mean()), float(mine[:, 1].mean())


def check_calibration(
    pieces: int, told: str, shared: float = 0.0, cause: Callable[[Check], str] | None = None
) -> bool:
    """Print the reliability of every read-out; True where the bar holds."""
    start = time.perf_counter()
    rows, held = calibrate(pieces, shared, cause)
    print(f"{pieces} pieces, {told}, {time.perf_counter() - start:.0f} s")
    worst = [_told(name, found) for name, found in rows.items()]
    print(f"  years: the central 80 % held {held.mean():.3f} of {len(held)}")
    return max(worst) <= BAR and held.mean() >= 0.78


def _told(name: str, found: np.ndarray) -> float:
    """Print the reliability of one read-out; its worst gap."""
    gaps, line = [], []
    for place, count, said, so in bins(found):
        gaps.append((abs(so - said), abs(so - said) / max(1e-9, said * (1 - said) / count) ** 0.5))
        line.append(f"{place}:{100 * so:.0f}/{100 * said:.0f}({count})")
    brier = float(((found[:, 0] - found[:, 1]) ** 2).mean())
    gap, errors = max(gaps)
    print(f"  {name:14} worst {gap:.3f} ({errors:.1f} s.e.)  Brier {brier:.4f}  {' '.join(line)}")
    return gap


def main() -> int:
    """Run what was asked for."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--pieces", type=int, default=100_000)
    parser.add_argument("--decisions", type=int, default=300)
    parser.add_argument(
        "--only", nargs="*", default=["calibration", "shared", "decisions", "speed"]
    )
    asked = parser.parse_args()
    good = True
    if "speed" in asked.only:
        good &= check_speed()
    if "calibration" in asked.only:
        good &= check_calibration(asked.pieces, "as the model has it")
    if "shared" in asked.only:
        for cause, word in ((by_part, "part"), (by_piece, "piece")):
            told = f"half the signs of a {word} odd together"
            check_calibration(asked.pieces // 5, told, SHARED, cause)
    if "decisions" in asked.only:
        good &= check_decisions(asked.decisions)
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main())
