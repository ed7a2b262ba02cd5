"""Pieces drawn from the joint table come as the table has it, and answers as the model has it."""

import random
from collections import Counter
from dataclasses import replace

import numpy as np
import pytest
from reading.bruteforce import enumerate_joint
from reading.smallworld import damage_check, knowledge_of, random_knowledge, random_piece
from scipy import stats

from appraise.piece.records import Piece
from appraise.reading.completions import Answers, Draws
from appraise.reading.factors import axes_of, believed_line, believed_table
from appraise.reading.forecast import Forecast
from appraise.reading.quick import Quick
from appraise.reading.reading import read
from appraise.reading.rest import Rest, parents_first

DRAWN = 4000
SURE = 1e-6  # a right draw fails a test once in a million seeds


def table_of(seed: int):
    rng = random.Random(seed)
    knowledge = random_knowledge(rng)
    piece = random_piece(rng, knowledge)
    reading = read(piece, knowledge)
    return knowledge, piece, reading, Draws(reading.joint, reading.factors, knowledge)


def chi_square(counts: np.ndarray, expected: np.ndarray) -> float:
    """p value; cells expected less than five times are put together."""
    rare = expected < 5
    seen = np.append(counts[~rare], counts[rare].sum())
    wanted = np.append(expected[~rare], expected[rare].sum())
    keep = wanted > 0
    seen, wanted = seen[keep], wanted[keep]
    return float(stats.chisquare(seen, wanted * seen.sum() / wanted.sum()).pvalue)


@pytest.mark.parametrize("seed", range(6))
def test_states_and_years_come_as_the_enumeration_has_them(seed):
    knowledge, piece, _, draws = table_of(seed)
    wanted = enumerate_joint(piece, knowledge)
    rng = random.Random(seed)
    drawn = [draws.truth(rng) for _ in range(DRAWN)]
    axes = ("housing", "process", "belonging", "package", "copy", "altered")
    counts = np.zeros(wanted.table.shape)
    for one in drawn:
        counts[tuple(one.states[axis] for axis in axes)] += 1
    assert chi_square(counts, wanted.table * DRAWN) > SURE
    years = [one.years["image"] for one in drawn if one.states["belonging"] < 3]
    counted = np.bincount(years, minlength=len(wanted.year))
    assert chi_square(counted, wanted.year * len(years)) > SURE


@pytest.mark.parametrize("seed", range(6))
def test_exchanged_parts_come_as_often_as_the_enumeration_has_them(seed):
    knowledge, piece, _, draws = table_of(seed)
    wanted = enumerate_joint(piece, knowledge).exchanged
    rng = random.Random(seed)
    drawn = [draws.truth(rng) for _ in range(DRAWN)]
    for part, chance in wanted.items():
        side = "housing" if part in ("pad", "clasp") else "image"
        mine = drawn if side == "housing" else [t for t in drawn if t.states["belonging"] < 3]
        # An exchange may by chance be of the very year, so it is at least as often apart.
        apart = sum(one.years[part] != one.years[side] for one in mine)
        assert apart <= chance * len(mine) + 5 * (chance * len(mine)) ** 0.5 + 5
        assert apart >= 0.5 * chance * len(mine) - 5 * (chance * len(mine)) ** 0.5 - 5


@pytest.mark.parametrize("seed", range(4))
def test_answers_come_as_the_forecast_has_them(seed):
    knowledge, _, reading, draws = table_of(seed)
    forecast = Forecast(reading, knowledge)
    answers = Answers(knowledge, reading.joint, forecast.known)
    rng = random.Random(seed)
    drawn = [draws.truth(rng) for _ in range(DRAWN)]
    alone = [check for check in forecast.open if not check.group]
    assert alone
    for check in alone:
        counts = Counter(answers.draw(check, truth, True, rng.random()) for truth in drawn)
        chances = forecast.prospect(check).chances
        seen = np.array([counts[place] for place in range(len(chances))])
        assert chi_square(seen, np.array(chances) * DRAWN) > SURE, check.id


def test_damage_comes_by_its_rates():
    rates = {"moulded": (0.1, 0.2, 0.3, 0.4), "any": (0.7, 0.1, 0.1, 0.1)}
    check = damage_check("case.chip", rates, (1, 1, 1, 1))
    knowledge = knowledge_of([check])
    reading = read(Piece(), knowledge)
    draws = Draws(reading.joint, reading.factors, knowledge)
    answers = Answers(knowledge, reading.joint, lambda _: "in-hand")
    rng = random.Random(1)
    counts = {True: np.zeros(4), False: np.zeros(4)}
    for _ in range(DRAWN):
        truth = draws.truth(rng)
        moulded = truth.states["housing"] == list(reading.housings).index("moulded")
        counts[moulded][answers.draw(check, truth, True, rng.random())] += 1
    for moulded, word in ((True, "moulded"), (False, "any")):
        assert chi_square(counts[moulded], np.array(rates[word]) * counts[moulded].sum()) > SURE


@pytest.mark.parametrize("seed", range(20))
def test_many_answers_at_once_read_as_one_by_one(seed):
    knowledge, piece, reading, _ = table_of(seed)
    forecast = Forecast(reading, knowledge)
    frame = reading.joint.frame
    quick = Quick(reading.joint, reading.factors, knowledge)
    np.testing.assert_allclose(quick.states((), ()), reading.states, atol=1e-3)
    rng = random.Random(seed)
    tables, dated = [], []
    grown = piece
    for check in forecast.open:
        axes = axes_of(check, frame)
        if check.group or set(axes) & {"copy", "altered"}:
            continue
        place = rng.randrange(len(check.answers))
        grown = grown.with_finding(check.id, check.answers[place].id, "in-hand")
        found = read(grown, knowledge).evidence
        mine = next(one for one in found if one.id == check.id)
        if axes:
            tables.append(believed_table(frame, check.id, place, mine.belief))
        else:
            dated.append((check, believed_line(frame, check.id, place, mine.belief)))
    again = read(grown, knowledge)
    np.testing.assert_allclose(quick.states(tables, dated), again.states, atol=4e-3)


@pytest.mark.parametrize("seed", range(3))
def test_the_mean_of_the_completed_is_what_is_believed_before(seed):
    knowledge, _, reading, _ = table_of(seed)
    rest = Rest(Forecast(reading, knowledge))
    rng = random.Random(seed)
    drawn = np.array([rest.complete(rng)[0] for _ in range(800)])
    error = drawn.std(axis=0) / len(drawn) ** 0.5
    assert (abs(drawn.mean(axis=0) - rest.now) < 5 * error + 2e-3).all()


def test_checks_that_may_lose_their_sense_are_answered_last():
    rates = {"any": (1, 0, 0, 0)}
    made = [
        damage_check("case.c", rates, (1, 1, 1, 1)),
        damage_check("case.a", rates, (1, 1, 1, 1)),
        damage_check("case.b", rates, (1, 1, 1, 1)),
    ]
    checks = (
        replace(made[0], when={"case.b": ("0",)}),
        made[1],
        replace(made[2], when={"case.a": ("0",)}),
    )
    assert [check.id for check in parents_first(checks)] == ["case.a", "case.b", "case.c"]
    circle = (replace(made[0], when={"case.c": ("0",)}),)
    assert parents_first(circle) == circle
