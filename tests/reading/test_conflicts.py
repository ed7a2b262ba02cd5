"""Findings that exclude each other, against a plain sum and over pairs of the shipped tables."""

import random
from functools import cache
from itertools import combinations
from math import prod

import pytest
from every import every
from reading.smallworld import random_knowledge, random_piece

from appraise.knowledge import load
from appraise.knowledge.records import Knowledge
from appraise.reading.conflicts import AXIS, SAID, conflict
from appraise.reading.factors import axes_of, state_rows
from appraise.reading.frame import frame_of
from appraise.reading.reading import read
from appraise.records.piece import Piece

MANY, FEW = 0.5, 0.05  # P(answer): of a process that has it as a rule, and of one that has not
USUAL = 0.1  # P(answer) of all pieces: a slip into a rare answer says little


@cache
def shipped() -> Knowledge:
    return load()


def by_process(one, reading):
    """P'(answer | process) of one finding, the other axes averaged one state after the other."""
    frame, factor = reading.joint.frame, reading.factors.tables[one.id]
    told = dict.fromkeys(range(len(frame.processes)), 0.0)
    for places in [()] if factor.values.ndim == 0 else list(_places(factor.values.shape)):
        weight, process = 1.0, 0
        for axis, place in zip(factor.axes, places, strict=True):
            if axis == AXIS:
                process = place
            else:
                weight *= float(frame.reference(axis)[place])
        told[process] += weight * float(factor.values[places])
    return told


def _places(shape):
    if not shape:
        yield ()
        return
    for place in range(shape[0]):
        for rest in _places(shape[1:]):
            yield (place, *rest)


@every("seed", range(30))
def test_the_ratio_is_that_of_a_plain_sum(seed):
    rng = random.Random(seed)
    knowledge = random_knowledge(rng)
    reading = read(random_piece(rng, knowledge), knowledge)
    tables = reading.factors.tables
    found = [
        one
        for one in reading.evidence
        if one.id in tables and AXIS in tables[one.id].axes and one.check.part != SAID
    ]
    told = conflict(reading)
    if len(found) < 2:
        assert told is None
        return
    shares = reading.joint.frame.process_share
    rows = {one.id: by_process(one, reading) for one in found}
    alone = {name: sum(s * row[n] for n, s in enumerate(shares)) for name, row in rows.items()}
    both = sum(s * prod(row[n] for row in rows.values()) for n, s in enumerate(shares))
    assert told.ratio == pytest.approx(prod(alone.values()) / both)
    worst = min(
        sum(s * rows[a][n] * rows[b][n] for n, s in enumerate(shares)) / alone[a] / alone[b]
        for a, b in combinations(rows, 2)
    )
    one, other = rows[told.first.id], rows[told.second.id]
    mine = sum(s * one[n] * other[n] for n, s in enumerate(shares))
    assert mine / alone[told.first.id] / alone[told.second.id] == pytest.approx(worst)


def excluding_pairs():
    """Pairs of answers in hand of which every usual process has one as a rule and not the other."""
    knowledge = shipped()
    frame = frame_of(knowledge, "cased", "us")
    usual = [n for n, share in enumerate(frame.process_share) if share >= 0.03]
    rows = [
        (check.id, answer.id, state_rows(frame, check.id, "in-hand", False, True)[place])
        for check in frame.checks.values()
        if axes_of(check, frame) == (AXIS,) and "cased" in check.kinds and check.part != SAID
        and not check.when
        for place, answer in enumerate(check.answers)
    ]  # fmt: skip
    telling = [
        (check, answer, row[usual])
        for check, answer, row in rows
        if row[usual].max() >= MANY and row @ frame.process_share >= USUAL
    ]
    for (a, said, one), (b, told, other) in combinations(telling, 2):
        apart = [min(x, y) <= FEW for x, y in zip(one, other, strict=True)]
        groups = {knowledge.checks[name].group for name in (a, b)}
        if a != b and all(apart) and (len(groups) > 1 or groups == {""}):
            yield a, said, b, told


PAIRS = list(excluding_pairs())


def test_there_are_such_pairs_among_them_the_magnet_and_the_mirror():
    assert len(PAIRS) >= 5
    named = {frozenset([(a, said), (b, told)]) for a, said, b, told in PAIRS}
    assert frozenset([("plate.magnet", "yes"), ("plate.mirror", "flips")]) in named


@pytest.mark.parametrize(("a", "said", "b", "told"), PAIRS)
def test_what_no_usual_process_has_together_excludes_each_other(a, said, b, told):
    piece = Piece(region="us").with_finding(a, said, "in-hand").with_finding(b, told, "in-hand")
    found = conflict(read(piece, shipped()))
    assert found.ratio >= shipped().weights.exclude_ratio
    assert {found.first.id, found.second.id} == {a, b}
    heard = Piece(region="us").with_finding(a, said, "seller").with_finding(b, told, "seller")
    assert conflict(read(heard, shipped())).ratio < found.ratio
