"""The joint table against plain enumeration on random small worlds, and its read-outs."""

import random
from functools import cache

import numpy as np
import pytest
from every import every
from reading.bruteforce import AXES as WANTED_AXES
from reading.bruteforce import Enumerated, Enumeration, enumerate_joint, span
from reading.smallworld import PROCESSES, random_knowledge, random_piece
from thorough import times

from appraise.knowledge.records import BELONGING, Knowledge
from appraise.reading.frame import AXES
from appraise.reading.influence import influences
from appraise.reading.named import SETTLED
from appraise.reading.reading import Reading, read
from appraise.records.piece import Piece

PIECES = range(times(120, 2000))
SOME = PIECES[::5]
TIGHT = {"rtol": 1e-12, "atol": 0}


@cache
def world(seed: int) -> tuple[Knowledge, Piece, Enumerated, Reading]:
    rng = random.Random(seed)
    knowledge = random_knowledge(rng)
    piece = random_piece(rng, knowledge)
    return knowledge, piece, enumerate_joint(piece, knowledge), read(piece, knowledge)


def only(values: np.ndarray, axis: int) -> np.ndarray:
    return values.sum(axis=tuple(place for place in range(values.ndim) if place != axis))


def test_the_random_pieces_hold_every_sort_of_evidence():
    readings = [world(seed)[3] for seed in PIECES]
    axes = {factor.axes for one in readings for factor in one.factors.tables.values()}
    assert any(one.factors.dress for one in readings)
    assert len(axes) >= 12
    assert any(len(one.factors.package) == 3 for one in readings)
    assert any(len(one.factors.loose) == 2 for one in readings)
    assert {piece.region for _, piece, _, _ in map(world, PIECES)} >= {"us", "unknown", "au"}


@every("seed", PIECES)
def test_every_cell_equals_the_enumeration(seed):
    _, _, wanted, reading = world(seed)
    cells = reading.joint.cells.transpose([AXES.index(axis) for axis in WANTED_AXES])
    np.testing.assert_allclose(cells / reading.joint.total, wanted.table, **TIGHT)
    assert reading.joint.total == pytest.approx(wanted.evidence, rel=1e-12)


@every("seed", PIECES)
def test_read_outs_equal_the_enumeration(seed):
    _, _, wanted, reading = world(seed)
    np.testing.assert_allclose(reading.states, only(wanted.table, 2), **TIGHT)
    assert list(reading.belonging) == list(BELONGING)
    np.testing.assert_allclose(list(reading.processes.values()), only(wanted.table, 1), **TIGHT)
    np.testing.assert_allclose(list(reading.housings.values()), only(wanted.table, 0), **TIGHT)
    assert reading.disturbed == pytest.approx(only(wanted.table, 3)[1], rel=1e-12)
    assert reading.joint.copy == pytest.approx(only(wanted.table, 4)[1], rel=1e-12)
    assert reading.joint.altered == pytest.approx(only(wanted.table, 5)[1], rel=1e-12)
    by_family = dict.fromkeys(PROCESSES.values(), 0.0)
    for family, share in zip(PROCESSES.values(), only(wanted.table, 1), strict=True):
        by_family[family] += share
    assert reading.families == pytest.approx(by_family, rel=1e-12)
    assert reading.modern == pytest.approx(only(wanted.table, 2)[2:].sum(), rel=1e-12)


@every("seed", PIECES)
def test_years_and_exchanged_parts_equal_the_enumeration(seed):
    _, _, wanted, reading = world(seed)
    np.testing.assert_allclose(reading.year_weights, wanted.year, rtol=1e-11, atol=1e-15)
    found = {one.part: one.probability for one in reading.exchanged}
    assert found == pytest.approx(dict(wanted.exchanged), rel=1e-12)
    assert [one.probability for one in reading.exchanged] == sorted(found.values(), reverse=True)


@every("seed", PIECES)
def test_spans_equal_the_quantiles_of_the_enumeration(seed):
    knowledge, piece, wanted, reading = world(seed)
    plain = Enumeration(piece, knowledge)

    def same(found, line):
        """The three years, and the whole line that they are read from."""
        assert (found.first, found.last, found.median) == span(line)
        np.testing.assert_allclose(
            np.array(found.weights) / sum(found.weights), line / line.sum(), rtol=1e-9, atol=1e-15
        )

    same(reading.together, (wanted.by_process * plain.made(reading.named)).sum(axis=0))
    same(reading.image, plain.image_line(reading.named))
    if plain.lines("package"):
        same(reading.package, plain.package_line(only(wanted.table, 3)[1]))
    else:
        assert reading.package is None
    if plain.lines("housing"):
        same(reading.housing, plain.housing_line())
    else:
        assert reading.housing is None


@every("seed", PIECES)
def test_a_settled_process_is_named_alone_and_else_the_two_likeliest(seed):
    reading = world(seed)[3]
    sure = max(reading.families.values()) >= SETTLED
    assert len(reading.named) == (1 if sure else 2)
    ordered = sorted(reading.families.values(), reverse=True)
    assert [reading.families[word] for word in reading.named] == ordered[: len(reading.named)]


@every("seed", SOME)
def test_influences_equal_an_enumeration_without_the_finding(seed):
    knowledge, piece, _, reading = world(seed)
    before = influences(reading, knowledge)
    alone = [one for one in reading.evidence if not one.check.group]
    told = [one for one in alone if one.id in before]
    for one in told:
        wanted = enumerate_joint(piece.without_finding(one.id), knowledge)
        np.testing.assert_allclose(before[one.id], only(wanted.table, 2), rtol=1e-10, atol=0)
    assert told == alone


def test_nothing_found_leaves_the_priors():
    for seed in SOME:
        knowledge = random_knowledge(random.Random(seed))
        reading = read(Piece(), knowledge)
        wanted = enumerate_joint(Piece(), knowledge)
        np.testing.assert_allclose(reading.states, only(wanted.table, 2), **TIGHT)
        assert reading.package is None
        assert reading.housing is None
        assert reading.exchanged == ()
        assert reading.joint.copy == pytest.approx(knowledge.weights.copy)
