"""The listing reader measured: labelled listings, speed, growth with length, and hostile texts.

    python tests/bench/bench_listing.py              labels, speed, growth, 1,000 hostile texts
    python tests/bench/bench_listing.py --full       the same with 20,000, and growth of every shape
    python tests/bench/bench_listing.py --labels     precision and recall, each set of the corpus
    python tests/bench/bench_listing.py --speed      listings a second beside a bare regex
    python tests/bench/bench_listing.py --growth     time of 1 MB over time of 100 kB
    python tests/bench/bench_listing.py --hostile N  texts of random shapes, up to 1 MB each

It ends with status 1 where a set misses a bar, a text raises, a span lies outside its text, or
1 MB of listings takes more than twelve times as long as 100 kB. The hostile shapes are shown
beside that: the reader is linear in each, and what they take above ten times is the collector of
garbage and the cache.
"""

import argparse
import gc
import random
import re
import sys
import time
from collections.abc import Callable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent))
sys.path.insert(0, str(Path(__file__).parent.parent.parent))

from listing.hostile import SHAPES, hostile, sound
from listing.scoring import CORPUS, SETS, labelled, listings_of, score, shortfalls

from appraise.knowledge import Knowledge, load
from appraise.listing.patterns import MOST, spelt_out
from appraise.listing.reader import read

SHORT, LONG = 100_000, 1_000_000
GROWTH = 12.0


def run_labels(knowledge: Knowledge) -> bool:
    """Precision and recall of each set of the corpus; whether all keep the bars."""
    short: list[str] = []
    for name, told in SETS.items():
        rows = listings_of(name)
        found = score(rows, knowledge)
        print(f"set {name}, {told}: {len(rows)} listings")
        print(found.table())
        short += [f"set {name}: {miss}" for miss in shortfalls(found)]
    print("\n".join(short) or "all sets keep every bar")
    return not short


def run_hostile(knowledge: Knowledge, count: int) -> bool:
    """Read many hostile texts; whether all went well."""
    rng = random.Random(20240601)
    slowest, total, characters, longest, bad = 0.0, 0.0, 0, 0, 0
    for number in range(count):
        text = hostile(rng)
        start = time.perf_counter()
        try:
            bad += not sound(read(text, knowledge))
        except Exception as error:  # every exception is a failure here
            bad += 1
            print(f"text {number}: {type(error).__name__}: {error}")
        spent = time.perf_counter() - start
        total, slowest, characters = total + spent, max(slowest, spent), characters + len(text)
        longest = max(longest, len(text))
    print(f"{count} hostile texts, the longest {longest} characters: {bad} went wrong")
    print(f"  {characters / 1e6:.1f} million characters in {total:.0f} s, one {slowest:.2f} s")
    return not bad


def seconds(work: Callable[[], object], runs: int = 3) -> float:
    """Processor time of the best of some runs."""
    best = float("inf")
    for _ in range(runs):
        gc.collect()
        start = time.process_time()
        work()
        best = min(best, time.process_time() - start)
    return best


def run_growth(knowledge: Knowledge, shapes: dict[str, str]) -> bool:
    """Time of 1 MB over time of 100 kB, shape by shape; whether listings keep within the bound."""
    rows = labelled(CORPUS.glob("**/*.yaml"))
    corpus = [row["text"] for row in rows if row["sort"] != "unrelated"]  # else read as unrelated
    prose = " ".join(" ".join(text.split()) for text in corpus) + " "
    ratios = {}
    print(f"{'shape':<16}{'100 kB':>10}{'1 MB':>10}{'ratio':>8}")
    for name, bit in {"listings": prose, **shapes}.items():
        short, long = ((bit * (size // len(bit) + 1))[:size] for size in (SHORT, LONG))
        runs = 3 if name == "listings" else 1
        first = seconds(lambda text=short: read(text, knowledge), runs=runs + 2)
        second = seconds(lambda text=long: read(text, knowledge), runs=runs)
        ratios[name] = second / first
        print(f"{name:<16}{first:>9.3f}s{second:>9.3f}s{second / first:>8.1f}")
    print(f"listings {ratios['listings']:.1f}, the worst shape {max(ratios.values()):.1f}")
    return ratios["listings"] <= GROWTH


def bare_regex(knowledge: Knowledge) -> re.Pattern[str]:
    """Every plain phrase of the vocabulary as one alternation, the longest first."""
    phrases = {
        " ".join(row)
        for term in knowledge.terms.values()
        for pattern in term.synonyms
        if not pattern.startswith("<")
        for row in spelt_out(pattern)
        if not set(row) & set(MOST)
    }
    ordered = sorted(phrases, key=len, reverse=True)
    return re.compile(rf"\b(?:{'|'.join(map(re.escape, ordered))})\b", re.IGNORECASE)


def run_speed(knowledge: Knowledge) -> bool:
    """Listings a second, beside one pass of a bare regex over the same texts."""
    texts = [row["text"] for row in labelled(CORPUS.glob("**/*.yaml"))]
    pattern = bare_regex(knowledge)
    read(texts[0], knowledge)
    mine = seconds(lambda: [read(text, knowledge) for text in texts], runs=5)
    bare = seconds(lambda: [list(pattern.finditer(text)) for text in texts], runs=5)
    size = sum(map(len, texts)) / len(texts)
    print(f"{len(texts)} listings of {size:.0f} characters on average")
    print(f"  reader     {len(texts) / mine:>8.0f} listings a second")
    print(f"  bare regex {len(texts) / bare:>8.0f} listings a second (it only finds the words)")
    print(f"  the reader takes {mine / bare:.2f} times as long")
    return True


def main() -> int:
    """Run what was asked for."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--full", action="store_true")
    parser.add_argument("--labels", action="store_true")
    parser.add_argument("--speed", action="store_true")
    parser.add_argument("--growth", action="store_true")
    parser.add_argument("--hostile", type=int, metavar="N")
    args = parser.parse_args()
    everything = args.full or not (args.labels or args.speed or args.growth or args.hostile)
    knowledge = load()
    well = True
    if args.labels or everything:
        well &= run_labels(knowledge)
    if args.speed or everything:
        well &= run_speed(knowledge)
    if args.growth or everything:
        well &= run_growth(knowledge, SHAPES if args.full or args.growth else {})
    if args.hostile or everything:
        well &= run_hostile(knowledge, args.hostile or (20_000 if args.full else 1_000))
    return 0 if well else 1


if __name__ == "__main__":
    raise SystemExit(main())
