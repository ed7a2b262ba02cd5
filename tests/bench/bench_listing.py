"""The listing reader under load: hostile texts, growth with length, and speed beside a bare regex.

    python tests/bench/bench_listing.py                    all three
    python tests/bench/bench_listing.py --hostile 20000    texts of random shapes, up to 1 MB each
    python tests/bench/bench_listing.py --growth           time of 1 MB over time of 100 kB
    python tests/bench/bench_listing.py --speed            listings a second

It ends with status 1 where a text raises, a span lies outside its text, or 1 MB of listings takes
more than twelve times as long as 100 kB. The hostile shapes are shown beside that: the reader is
linear in each, and what they take above ten times is the collector of garbage and the cache.
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

from listing.scoring import CORPUS, labelled

from appraise.knowledge import Knowledge, load
from appraise.listing import Listing, read
from appraise.listing.patterns import MOST, spelt_out

SHORT, LONG = 100_000, 1_000_000
GROWTH = 12.0
SCRIPTS = [(32, 126), (0xA0, 0x17F), (0x370, 0x4FF), (0x5D0, 0x5EA), (0x600, 0x6FF),
           (0x900, 0x97F), (0xE00, 0xE7F), (0x3040, 0x30FF), (0x4E00, 0x9FFF), (0xAC00, 0xD7A3),
           (0x300, 0x36F), (0x2000, 0x206F), (0x1F300, 0x1F6FF), (0, 31)]  # fmt: skip
BITS = (
    "ambrotype", "sixth plate", "1/6", "½", "not", "no", "unlike", "crack", "glass", "hinge",
    "taped", "$45", "€ 1.250,00", "c. 1855", "1850s", "2 3/4 x 3 1/4", '"', "“", "”", "(", ")",
    ".", ",", "\n", "- ", "1) ", "my aunt said", "union case", "union army", "missing", "of the",
    "reads", "stamped", "S. Peck", "two", "lot of", "replaced", "never opened", "e\u0301", "銀板",
    "🜨", "\u202e", "\x00", "'", "x", "/", "kr", "shipping", "free shipping", "1,1,", "x 1 x",
    "portrait of Aa Bb", "{a}", "%s", "<b>", "\\", "\ufffd",
)  # fmt: skip
SHAPES = {
    "spaces": " ", "line breaks": "\n", "digits": "1", "numbers": "1 ", "sizes": "1 x ",
    "prices": "$1 ", "fractions": "1/6 ", "quotations": '"a b" ', "denials": "no ",
    "denied lists": "no cracks, ", "damage": "hinge crack ", "marks": "marked Aa Bb ",
    "years": "1850 ", "processes": "ambrotype ", "brackets": "(", "bullets": "- ambrotype\n",
    "letters": "a", "ideographs": "銀板写真", "accents": "e\u0301", "names": "portrait of Aa Bb ",
}  # fmt: skip


def hostile(rng: random.Random) -> str:
    """A text of a random shape and length: most short, some up to a million characters."""
    size = int(10 ** rng.uniform(0, 3.3)) if rng.random() < 0.998 else int(10 ** rng.uniform(4, 6))
    kind = rng.randrange(5)
    if kind == 0:
        bits = [rng.choice(BITS) for _ in range(size // 6 + 1)]
        return rng.choice((" ", "", "\n")).join(bits)[:size]
    if kind == 1:
        low, high = rng.choice(SCRIPTS)
        return "".join(chr(rng.randint(low, high)) for _ in range(size))
    if kind == 2:
        return "".join(chr(rng.randint(*rng.choice(SCRIPTS))) for _ in range(size))
    if kind == 3:
        bit = rng.choice((*BITS, *SHAPES.values()))
        return (bit * (size // len(bit) + 1))[:size]
    letters = "abcdefghijklmnopqrstuvwxyz"
    words = ["".join(rng.choices(letters, k=rng.randint(1, 14))) for _ in range(size // 8 + 1)]
    return " ".join(words)[:size]


def sound(found: Listing) -> bool:
    """Whether every span lies inside the text and holds the words that it names."""
    size = len(found.text)
    spans = all(
        0 <= one.start < one.end <= size and found.text[one.start : one.end] == one.text
        for one in found.claims
    )
    return spans and all(
        flag.start is None or flag.end is None or 0 <= flag.start < flag.end <= size
        for flag in found.flags
    )


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


def run_growth(knowledge: Knowledge) -> bool:
    """Time of 1 MB over time of 100 kB, shape by shape; whether listings keep within the bound."""
    corpus = [row["text"] for row in labelled(CORPUS.glob("**/*.yaml"))]
    prose = " ".join(" ".join(text.split()) for text in corpus) + " "
    ratios = {}
    print(f"{'shape':<16}{'100 kB':>10}{'1 MB':>10}{'ratio':>8}")
    for name, bit in {"listings": prose, **SHAPES}.items():
        short, long = ((bit * (size // len(bit) + 1))[:size] for size in (SHORT, LONG))
        first = seconds(lambda text=short: read(text, knowledge), runs=7)
        second = seconds(lambda text=long: read(text, knowledge), runs=3)
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
    parser.add_argument("--hostile", type=int, metavar="N")
    parser.add_argument("--growth", action="store_true")
    parser.add_argument("--speed", action="store_true")
    args = parser.parse_args()
    everything = not (args.hostile or args.growth or args.speed)
    knowledge = load()
    well = True
    if args.speed or everything:
        well &= run_speed(knowledge)
    if args.growth or everything:
        well &= run_growth(knowledge)
    if args.hostile or everything:
        well &= run_hostile(knowledge, args.hostile or 20_000)
    return 0 if well else 1


if __name__ == "__main__":
    raise SystemExit(main())
