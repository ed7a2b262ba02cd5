"""Loading all knowledge beside `yaml.load` with the C safe loader over the same files.

Run with `python tests/bench/bench_knowledge.py`. The ratio of medians is what counts; bound 1.5.
"""

import statistics
import time

import yaml

from appraise.base.places import shipped_data
from appraise.knowledge import load

ROUNDS = 15
BOUND = 1.5


def seconds(work) -> float:
    started = time.perf_counter()
    work()
    return time.perf_counter() - started


def plain() -> None:
    for path in sorted(shipped_data().rglob("*.yaml")):
        yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.CSafeLoader)


def main() -> None:
    load()
    pairs = [(seconds(load), seconds(plain)) for _ in range(ROUNDS)]
    ours, floor = (statistics.median(column) for column in zip(*pairs, strict=True))
    ratio = statistics.median(a / b for a, b in pairs)
    print(f"load {1000 * ours:.1f} ms, yaml.load {1000 * floor:.1f} ms")
    print(f"ratio {ratio:.2f} (bound {BOUND})")
    assert ratio <= BOUND


if __name__ == "__main__":
    main()
