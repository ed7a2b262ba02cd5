"""Pieces whose signs are odd together: a mixture of two tables, each summed as it stands."""

from dataclasses import replace
from itertools import islice

import numpy as np
import pytest

from appraise.knowledge import load
from appraise.knowledge.records import Knowledge, Odd
from appraise.reading.evidence import gather
from appraise.reading.factors import Factor, factors_of, odd_rows, state_rows
from appraise.reading.frame import frame_for
from appraise.reading.influence import influences
from appraise.reading.joint import solve
from appraise.reading.reading import read
from appraise.records.piece import Piece

SIGNS = {
    "case.material": "thermoplastic",
    "case.bubbles": "bubbles",
    "case.seam": "seam",
    "case.detail": "soft",
    "plate.mirror": "stays",
    "package.fit": "loose",
}
CHANCE = 0.02


def world(chance: float) -> Knowledge:
    known = load()
    return replace(known, weights=replace(known.weights, odd=Odd(chance, 0.4, 0.05)))


def piece() -> Piece:
    found = Piece()
    for check, answer in SIGNS.items():
        found = found.with_finding(check, answer)
    return found


def test_the_table_is_the_mixture_of_both() -> None:
    joints = []
    for chance, oddly in ((CHANCE, False), (0.0, False), (0.0, True)):
        frame = frame_for(piece(), world(chance))
        factors = factors_of(gather(piece(), load()), frame_for(piece(), world(CHANCE)), load())
        if oddly:
            tables = {n: Factor(f.axes, f.odd, f.odd) for n, f in factors.tables.items()}
            factors = replace(factors, tables=tables)
        joints.append(solve(frame, factors, "market", ()))
    mixed, ordinary, odd = joints
    wanted = (1 - CHANCE) * ordinary.cells + CHANCE * odd.cells
    assert mixed.cells == pytest.approx(wanted, rel=1e-9, abs=1e-300)
    assert mixed.total == pytest.approx(wanted.sum())


def test_many_signs_of_modern_work_say_less_where_they_may_have_one_cause() -> None:
    doubtful, sure = (read(piece(), world(chance)).modern for chance in (CHANCE, 0.0))
    assert doubtful < sure - 0.02


def test_without_a_finding_is_as_if_it_had_not_been_made() -> None:
    known = world(CHANCE)
    rest = influences(read(piece(), known), known)
    for check in ("case.material", "package.fit", "plate.mirror"):
        less = replace(piece(), findings={n: f for n, f in piece().findings.items() if n != check})
        assert rest[check] == pytest.approx(read(less, known).states, abs=1e-9)


def test_an_ordinary_piece_reads_as_before() -> None:
    plain = Piece().with_finding("case.bubbles", "none").with_finding("package.fit", "snug")
    assert read(plain, world(CHANCE)).states == pytest.approx(
        read(plain, world(0)).states, abs=0.01
    )


def test_rows_of_an_odd_piece_are_chances_and_its_rare_answers_are_commoner() -> None:
    known = world(CHANCE)
    frame = frame_for(Piece(), known)
    for name in islice((n for n, c in known.checks.items() if c.table("belonging")), 40):
        told = (frame, name, "in-hand", False, True)
        rows, odd = state_rows(*told), odd_rows(*told)
        assert odd.sum(axis=0) == pytest.approx(np.ones(odd.shape[1:]))
        rarest = int(rows.reshape(len(rows), -1).mean(axis=1).argmin())
        assert odd[rarest].mean() >= rows[rarest].mean()
