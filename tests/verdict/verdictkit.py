"""Verdicts of every sort for tests: pieces of published records and pieces answered at random."""

import random
from dataclasses import replace
from datetime import date
from functools import cache, wraps

from external.whole.prices import learnt
from external.whole.scoring import cases

from appraise.base.money import Money
from appraise.base.places import shipped_demo
from appraise.knowledge import load
from appraise.knowledge.records import KINDS
from appraise.reading.applying import applying
from appraise.records.piece import Image, Piece
from appraise.records.piece_file import read_piece
from appraise.verdict import Verdict, judge, next_steps

DAY = date(2026, 11, 30)
KNOWLEDGE = load()
CHANNELS = ("market", "shop", "online", "auction")
RANDOM = 150


@cache
def prices():
    """The demo's invented log, learnt."""
    return learnt(KNOWLEDGE, DAY)


def judged(piece: Piece) -> Verdict:
    """A piece judged by the demo's log."""
    return judge(piece, KNOWLEDGE, prices(), DAY)


def at_random(seed: int) -> Piece:
    """A piece with answers given at random to checks that make sense for it; invented."""
    rng = random.Random(seed)
    piece = Piece(
        kind=rng.choice([*KINDS, "cased", "cased", "cased", "loose-plate"]),
        channel=rng.choice(CHANNELS),
        asking=Money.parse(f"{rng.randint(3, 200)} USD") if rng.random() < 0.6 else None,
    )
    for _ in range(rng.choice([0, 1, 3, 8, 20])):
        asked = applying(piece, KNOWLEDGE, {})
        if asked:
            check = rng.choice(asked)
            answer = rng.choice(sorted(one.id for one in check.answers))  # in whatever order
            piece = piece.with_finding(check.id, answer)
    if piece.kind == "cased" and rng.random() < 0.1:
        sides = (Image("left", {}), Image("right", dict(piece.findings)))
        piece = replace(piece, findings={}, images=sides)
    return piece


def pieces() -> list[tuple[str, Piece]]:
    """Named pieces: the demo's, those of published records, and some answered at random."""
    demo = [(path.stem, read_piece(path, KNOWLEDGE)) for path in
            sorted((shipped_demo() / "pieces").glob("*.yaml"))]  # fmt: skip
    known = [(case.id, case.piece(KNOWLEDGE)) for case in cases()]
    return [*demo, *known, *((f"random {seed}", at_random(seed)) for seed in range(RANDOM))]


@cache
def verdicts() -> tuple[tuple[str, Verdict], ...]:
    """Each of them judged."""
    return tuple((name, judged(piece)) for name, piece in pieces())


def once(worked_out):
    """A function of a verdict, worked out once for each; verdicts are frozen but not hashable."""
    known = {}

    @wraps(worked_out)
    def of(verdict):
        if id(verdict) not in known:
            known[id(verdict)] = (verdict, worked_out(verdict))
        return known[id(verdict)][1]

    return of


@once
def steps_of(verdict: Verdict):
    """What to look at next."""
    return next_steps(verdict, KNOWLEDGE)
