"""Benchmark of the reading: calibration on its own model, questions saved, speed.

    python tests/bench/bench_reading.py [--pieces 20000] [--decisions 300] [--only NAME ...]

NAME is calibration, shared, decisions or speed. Calibration draws pieces and answers from the
shipped knowledge's own model (fixed seed) and reads them: in every tenth of the scale that holds
200 pieces or more, what was said must happen as often as said, within .03 or two standard errors,
whichever is more. `shared` is the same where half of the signs of a part, and then of a piece, are
odd together or ordinary together, which the model does not know; its figures are told and held to
no bar. The exit status is 1 when a bar is missed.
"""

import argparse
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from random import Random

import numpy as np

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests"), str(ROOT / "tests" / "bench")]

from bench_reading_decisions import check_decisions  # noqa: E402
from bench_reading_pieces import REGIONS, World, by_part, by_piece  # noqa: E402
from bench_reading_speed import check_speed  # noqa: E402

from appraise.knowledge import load  # noqa: E402
from appraise.knowledge.records import BELONGING, FIRST_YEAR  # noqa: E402
from appraise.reading.completions import Truth  # noqa: E402
from appraise.reading.reading import Reading, read  # noqa: E402

SEED = 20240601
FEWEST = 200  # pieces in a bin that counts
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


def calibrate(pieces: int, world: World) -> tuple[dict[str, np.ndarray], np.ndarray]:
    """What was said and whether it was so, by name; and whether the span of years held."""
    rng = Random(SEED)
    rows: dict[str, list[tuple[float, bool]]] = {}
    held = []
    for _ in range(pieces):
        region = rng.choices(list(REGIONS), list(REGIONS.values()))[0]
        truth, piece = world.looked_at(region, rng)
        reading = read(piece, world.knowledge)
        for name, said, so in said_and_so(reading, truth):
            rows.setdefault(name, []).append((said, so))
        if truth.states["belonging"] not in (3, 4):
            year = FIRST_YEAR + truth.years["image"]
            held.append(reading.together.first <= year <= reading.together.last)
    return {name: np.array(found, float) for name, found in rows.items()}, np.array(held)


def bins(rows: np.ndarray) -> Iterator[tuple[int, int, float, float]]:
    """By tenth of the scale: its place, how many, mean said, share so."""
    places = np.minimum(9, (rows[:, 0] * 10).astype(int))
    for place in range(10):
        mine = rows[places == place]
        if len(mine) >= FEWEST:
            yield place, len(mine), float(mine[:, 0].mean()), float(mine[:, 1].mean())


def check_calibration(pieces: int, world: World, told: str) -> bool:
    """Print the reliability of every read-out; True where the bar holds."""
    start = time.perf_counter()
    rows, held = calibrate(pieces, world)
    print(f"{pieces} pieces, {told}, {time.perf_counter() - start:.0f} s")
    good = True
    for name, found in rows.items():
        worst, line = 0.0, []
        for place, count, said, so in bins(found):
            error = (so * (1 - so) / count) ** 0.5
            worst = max(worst, abs(so - said))
            good &= abs(so - said) <= max(BAR, 2 * error)
            line.append(f"{place}:{100 * so:.0f}/{100 * said:.0f}({count})")
        brier = float(((found[:, 0] - found[:, 1]) ** 2).mean())
        print(f"  {name:14} worst {worst:.3f}  Brier {brier:.4f}  {' '.join(line)}")
    print(f"  years: the central 80 % held {held.mean():.3f} of {len(held)}")
    return good and held.mean() >= 0.78


def main() -> int:
    """Run what was asked for."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--pieces", type=int, default=20_000)
    parser.add_argument("--decisions", type=int, default=300)
    parser.add_argument(
        "--only", nargs="*", default=["calibration", "shared", "decisions", "speed"]
    )
    asked = parser.parse_args()
    good = True
    if "speed" in asked.only:
        good &= check_speed()
    if "calibration" in asked.only:
        good &= check_calibration(asked.pieces, World(load()), "as the model has it")
    if "shared" in asked.only:
        for cause, word in ((by_part, "part"), (by_piece, "piece")):
            world = World(load(), SHARED, cause)
            check_calibration(asked.pieces, world, f"half the signs of a {word} odd together")
    if "decisions" in asked.only:
        good &= check_decisions(asked.decisions)
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main())
