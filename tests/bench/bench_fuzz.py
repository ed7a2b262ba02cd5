"""Inputs of every sort by chance, in one process: whatever is raised but a told error is a fault.

    PYTHONPATH=.:tests:tests/bench nice -n 19 python tests/bench/bench_fuzz.py --minutes 40 --seed 1
    PYTHONPATH=.:tests:tests/bench python tests/bench/bench_fuzz.py --only money:1234 --seed 1

Each sort gets a slice of the time in turn. An input follows from the seed, its sort and its number
alone; of each place that broke the first input is told with its number, and of each sort the
slowest input.
"""

import argparse
import contextlib
import os
import random
import re
import signal
import tempfile
import time
import traceback
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from types import FrameType

from fuzz_targets import Target, targets

from appraise.base.errors import AppraiseError

SLICE = 1.0  # seconds of a sort at a time
LONGEST = 20  # seconds of computing after which an input counts as one that does not end


class DoesNotEndError(BaseException):
    """An input took longer than `LONGEST`."""


@dataclass
class Tally:
    """What came of a sort of input."""

    inputs: int = 0
    told: int = 0
    seconds: float = 0.0
    slowest: tuple[float, int] = (0.0, -1)
    faults: dict[str, tuple[int, int]] = field(default_factory=dict)


def _alarm(_signal: int, _frame: FrameType | None) -> None:
    raise DoesNotEndError


def place_of(error: BaseException) -> str:
    """What was raised and the last line of the program that it came through."""
    frames = traceback.extract_tb(error.__traceback__)
    own = [each for each in frames if "/appraise/" in each.filename] or frames
    last = own[-1]
    name = last.filename.rpartition("/appraise/")[2]
    says = re.sub(r"[^a-z ]", "", str(error)[:40].lower())
    return f"{type(error).__name__} at {name}:{last.lineno} ({says})"


def one(target: Target, number: int, seed: int, tally: Tally) -> None:
    """Run one input and keep what came of it."""
    made = target.make(random.Random(f"{seed} {target.name} {number}"))
    start = time.process_time()
    signal.setitimer(signal.ITIMER_VIRTUAL, LONGEST)
    try:
        target.run(made)
    except AppraiseError:
        tally.told += 1
    except (Exception, DoesNotEndError) as error:
        place = place_of(error)
        first, many = tally.faults.get(place, (number, 0))
        tally.faults[place] = first, many + 1
        if not many:
            print(f"FAULT {target.name}:{number} {place}", flush=True)
    finally:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0)
    took = time.process_time() - start
    tally.inputs += 1
    tally.seconds += took
    tally.slowest = max(tally.slowest, (took, number))


@contextlib.contextmanager
def elsewhere() -> Iterator[Path]:
    """A directory of its own as home and as where one stands."""
    with tempfile.TemporaryDirectory() as name:
        before = Path.cwd()
        os.environ |= {"APPRAISE_HOME": f"{name}/home", "HOME": name, "XDG_DATA_HOME": name}
        os.chdir(name)
        try:
            yield Path(name)
        finally:
            os.chdir(before)


def told(tallies: dict[str, Tally]) -> None:
    """Print what came of all."""
    print(f"{'sort':14} {'inputs':>9} {'refused':>9} {'faults':>7} {'seconds':>8}  slowest")
    for name, tally in tallies.items():
        took, number = tally.slowest
        print(
            f"{name:14} {tally.inputs:9,} {tally.told:9,} {len(tally.faults):7} "
            f"{tally.seconds:8.0f}  {took:.2f} s ({name}:{number})"
        )
    whole, faults = (
        sum(each.inputs for each in tallies.values()),
        sum(len(each.faults) for each in tallies.values()),
    )
    print(f"{whole:,} inputs, {faults} places that broke", flush=True)


def rounds(chosen: list[Target], seed: int, minutes: float, first: int) -> dict[str, Tally]:
    """All sorts in turn, a slice each, until the time is over."""
    tallies = {each.name: Tally() for each in chosen}
    numbers = dict.fromkeys(tallies, first)
    end = time.monotonic() + 60 * minutes
    shown = time.monotonic()
    while time.monotonic() < end:
        for target in chosen:
            until = time.monotonic() + SLICE * target.weight
            while time.monotonic() < until:
                one(target, numbers[target.name], seed, tallies[target.name])
                numbers[target.name] += 1
        if time.monotonic() > shown + 300:
            shown = time.monotonic()
            told(tallies)
    return tallies


def main() -> None:
    """Run the benchmark."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--minutes", type=float, default=1.0)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--first", type=int, default=0)
    parser.add_argument("--target", default="")
    parser.add_argument("--only", default="")
    given = parser.parse_args()
    signal.signal(signal.SIGVTALRM, _alarm)
    with elsewhere() as place:
        chosen = [each for each in targets(place) if given.target in each.name]
        if given.only:
            name, _, number = given.only.partition(":")
            target = next(each for each in chosen if each.name == name)
            made = target.make(random.Random(f"{given.seed} {name} {number}"))
            print(repr(made)[:3_000])
            target.run(made)
            return
        told(rounds(chosen, given.seed, given.minutes, given.first))


if __name__ == "__main__":
    main()
