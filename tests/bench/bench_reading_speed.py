"""Speed of the reading and of the next check, on invented pieces with many findings."""

import time
from random import Random
from statistics import median

from bench_reading_pieces import World

from appraise.knowledge import load
from appraise.knowledge.records import Knowledge
from appraise.piece.records import Piece
from appraise.reading.enough import enough
from appraise.reading.next_check import Price, ranked
from appraise.reading.reading import read

FINDINGS, PIECES, ROUNDS = 60, 24, 5
READING_MS, RANKING_MS = 1000 / 60 / 3, 1000 / 60 * 4  # a third of a frame at 60 Hz, four frames
LEFT = {"together": 1.0, "married": 0.92, "modern-case": 0.45, "modern-image": 0.47,
        "all-modern": 0.05}  # fmt: skip


def worth(belonging: dict[str, float], kept: float) -> float:
    """An invented worth: 100 for a whole piece with the usual damage."""
    return 100 * kept * sum(LEFT[state] * chance for state, chance in belonging.items())


def looked_at(knowledge: Knowledge, findings: int, seed: int) -> Piece:
    """A piece with so many findings, as the model draws them."""
    world, rng = World(knowledge), Random(seed)
    while True:
        _, piece = world.looked_at("us", rng)
        if len(piece.findings) >= findings:
            kept = list(piece.findings.items())[:findings]
            return Piece(region="us", findings=dict(kept))


def milliseconds(run, times: int) -> float:
    """The shortest of several runs, in milliseconds of the processor."""
    found = []
    for _ in range(times):
        start = time.process_time()
        run()
        found.append(1000 * (time.process_time() - start))
    return min(found)


def check_speed() -> bool:
    """Print the times; True where they keep within the frames."""
    knowledge = load()
    good = True
    pieces = [looked_at(knowledge, FINDINGS, seed) for seed in range(PIECES)]
    rounds = []
    for _ in range(ROUNDS):
        # One after the other, so that what is kept of a piece is of another one by then.
        rounds.append([milliseconds(lambda one=one: read(one, knowledge), 1) for one in pieces])
    each = [min(times) for times in zip(*rounds, strict=True)]
    print(f"reading with {FINDINGS} findings: median {median(each):.2f} ms, worst {max(each):.2f}")
    good &= median(each) <= READING_MS
    price = Price(worth, 60.0)
    for count in (2, 10, 30, 60):
        told = []
        for seed in range(4):
            reading = read(looked_at(knowledge, count, seed), knowledge)
            blind = milliseconds(lambda r=reading: ranked(r, knowledge), 3)
            priced = milliseconds(lambda r=reading: ranked(r, knowledge, price), 3)
            found = ranked(reading, knowledge, price)
            stop = milliseconds(lambda r=reading, f=found: enough(r, knowledge, f, price), 1)
            told.append((blind, priced, stop, len(found)))
            good &= max(blind, priced) <= RANKING_MS
        worst = [max(column) for column in zip(*told, strict=True)]
        print(
            f"  {count:2} findings, {worst[3]} open: ranked by information {worst[0]:.0f} ms, "
            f"by price {worst[1]:.0f} ms; enough seen {worst[2]:.0f} ms (worst of 4 pieces)"
        )
    return good
