"""Times the reading, the ranking and enough seen, under whichever code stands on PYTHONPATH.

    PYTHONPATH=CODE python tests/bench/reading_worker.py answers
    PYTHONPATH=CODE python tests/bench/reading_worker.py times < PIECES

`answers` prints, as JSON, the answers of every check; `times` reads pieces as JSON, each a list of
[check, answer, known], and prints milliseconds of the processor for each piece, the best of several
rounds. It uses nothing that the code of c5b2810 lacks.
"""

import json
import sys
import time
from datetime import date

from appraise.knowledge import load
from appraise.reading.reading import read
from appraise.verdict import judge

try:
    from appraise.inquiry import next_check
    from appraise.inquiry.enough import enough
    from appraise.records.piece import Finding, Piece
except ModuleNotFoundError:  # c5b2810 keeps them there
    from appraise.piece.records import Finding, Piece
    from appraise.reading.enough import enough

    from appraise.reading import next_check

Price, ranked = next_check.Price, next_check.ranked
DAY = date(2026, 11, 30)
ROUNDS = 5
COST = 60.0
LEFT = {"together": 1.0, "married": 0.92, "modern-case": 0.45, "modern-image": 0.47,
        "all-modern": 0.05}  # fmt: skip


def worth(belonging, kept):
    """An invented worth: 100 for a whole piece with the usual damage."""
    return 100 * kept * sum(LEFT[state] * chance for state, chance in belonging.items())


def milliseconds(run):
    """One run, in milliseconds of the processor."""
    start = time.process_time()
    run()
    return 1000 * (time.process_time() - start)


def stop_rule(reading, knowledge, price):
    """What has to be worked out beforehand, and the stop rule alone."""
    if hasattr(next_check, "Order"):
        order = next_check.Order(reading, knowledge, price)
        return lambda: enough(order)
    proposals = ranked(reading, knowledge, price)
    return lambda: enough(reading, knowledge, proposals, price)


def timed(piece, knowledge):
    """Milliseconds of each task for one piece."""
    price = Price(worth, COST)
    reading = read(piece, knowledge)
    return {
        "read": milliseconds(lambda: read(piece, knowledge)),
        "read and judged": milliseconds(lambda: judge(piece, knowledge, None, DAY)),
        "ranked by information": milliseconds(lambda: ranked(reading, knowledge)),
        "ranked by price": milliseconds(lambda: ranked(reading, knowledge, price)),
        "enough seen": milliseconds(stop_rule(reading, knowledge, price)),
    }


def main():
    knowledge = load()
    if sys.argv[1] == "answers":
        checks = knowledge.checks.values()
        print(json.dumps({check.id: [one.id for one in check.answers] for check in checks}))
        return
    pieces = [
        Piece(region="us", findings={check: Finding(check, *rest) for check, *rest in found})
        for found in json.load(sys.stdin)
    ]
    # One piece after the other, so that what is kept of one is of another by the next round.
    rounds = [[timed(piece, knowledge) for piece in pieces] for _ in range(ROUNDS)]
    best = [
        {name: min(one[name] for one in times) for name in times[0]}
        for times in zip(*rounds, strict=True)
    ]
    print(json.dumps(best))


if __name__ == "__main__":
    main()
