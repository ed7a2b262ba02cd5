"""Pieces drawn from the joint table come as the table has it, and answers as the model has it."""

import random
from dataclasses import replace

import numpy as np
import pytest
from every import every
from reading.bruteforce import AXES, enumerate_joint
from reading.smallworld import damage_check, knowledge_of, random_knowledge, random_piece
from scipy import stats

from appraise.inquiry.batch import ALIVE, Batch
from appraise.inquiry.forecast import Forecast
from appraise.inquiry.next_check import Order
from appraise.inquiry.rest import Rest
from appraise.inquiry.simulation import (
    NO_ANSWER,
    Truths,
    answer_chances,
    draw_truths,
    parents_first,
    pick,
)
from appraise.knowledge.records import Check, Knowledge
from appraise.reading.evidence import leader_of
from appraise.reading.factors import axes_of, dated_rows, side_of, state_rows
from appraise.reading.reading import Reading, read
from appraise.records.piece import Finding, Piece

DRAWN = 20_000
SURE = 1e-6  # a right draw fails a test once in a million seeds
ANSWERED = 1000  # so that answers have other seeds than the pieces
SETS = 12  # sets of answers that are read one by one


def world(seed: int) -> tuple[Knowledge, Piece, Reading]:
    rng = random.Random(seed)
    knowledge = random_knowledge(rng)
    piece = random_piece(rng, knowledge)
    return knowledge, piece, read(piece, knowledge)


def drawn_from(seed: int) -> tuple[Knowledge, Piece, Reading, Truths]:
    knowledge, piece, reading = world(seed)
    rng = np.random.default_rng(seed)
    truths = draw_truths(reading.joint, reading.factors, knowledge, DRAWN, rng)
    return knowledge, piece, reading, truths


def chi_square(counts: np.ndarray, expected: np.ndarray) -> float:
    """p value; cells expected less than five times are put together."""
    rare = expected < 5
    seen = np.append(counts[~rare], counts[rare].sum())
    wanted = np.append(expected[~rare], expected[rare].sum())
    keep = wanted > 0
    seen, wanted = seen[keep], wanted[keep]
    return float(stats.chisquare(seen, wanted * seen.sum() / wanted.sum()).pvalue)


class TestTruths:
    @pytest.mark.parametrize("seed", range(6))
    def test_states_and_years_come_as_the_enumeration_has_them(self, seed):
        knowledge, piece, _, truths = drawn_from(seed)
        wanted = enumerate_joint(piece, knowledge)
        counts = np.zeros(wanted.table.shape)
        np.add.at(counts, tuple(truths.states[axis] for axis in AXES), 1)
        assert chi_square(counts, wanted.table * DRAWN) > SURE
        years = truths.years["image"][truths.states["belonging"] < 3]
        counted = np.bincount(years, minlength=len(wanted.year))
        assert chi_square(counted, wanted.year * len(years)) > SURE

    @pytest.mark.parametrize("seed", range(6))
    def test_exchanged_parts_come_as_often_as_the_enumeration_has_them(self, seed):
        knowledge, piece, _, truths = drawn_from(seed)
        wanted = enumerate_joint(piece, knowledge).exchanged
        period = truths.states["belonging"] < 3
        for part, chance in wanted.items():
            side = "housing" if part in ("pad", "clasp") else "image"
            mine = np.full(DRAWN, True) if side == "housing" else period
            # An exchange may by chance be of the very year, so it is at least as often apart.
            apart = (truths.years[part] != truths.years[side])[mine].sum()
            mean = chance * mine.sum()
            assert apart <= mean + 5 * mean**0.5 + 5
            assert apart >= 0.5 * mean - 5 * mean**0.5 - 5

    def test_the_dress_of_a_copy_is_not_of_its_own_year(self):
        _, _, _, truths = drawn_from(1)
        copied = truths.states["copy"] == 1
        same = truths.years["sitter"] == truths.years["image"]
        assert same[~copied].all()
        assert 0 < same[copied].mean() < 0.5


class TestAnswers:
    @pytest.mark.parametrize("seed", range(4))
    def test_answers_come_as_the_forecast_has_them(self, seed):
        knowledge, _, reading, truths = drawn_from(seed)
        forecast, rng = Forecast(reading, knowledge), np.random.default_rng(seed + ANSWERED)
        alone = [check for check in forecast.open if not check.group]
        assert alone
        for check in alone:
            rows = answer_chances(
                check, truths, forecast.frame, knowledge, forecast.known(check), True
            )
            chances = np.array(forecast.prospect(check).chances)
            counts = np.bincount(pick(rows, rng), minlength=len(chances))
            assert chi_square(counts, chances * DRAWN) > SURE, check.id

    @pytest.mark.parametrize("seed", range(4))
    def test_each_piece_answers_by_the_row_of_its_states_or_year(self, seed):
        knowledge, _, reading, truths = drawn_from(seed)
        frame, rng = reading.joint.frame, np.random.default_rng(seed + ANSWERED)
        seen = set()
        for check in knowledge.checks.values():
            axes = axes_of(check, frame)
            side = "" if axes else side_of(check.part, knowledge)
            seen.add(side or axes)
            rows = answer_chances(check, truths, frame, knowledge, "photo", True)
            if axes:
                keys = np.ravel_multi_index(
                    tuple(truths.states[axis] for axis in axes),
                    tuple(max(1, len(frame.states(axis))) for axis in axes),
                )
                wanted = state_rows(frame, check.id, "photo", False, True)
            else:
                own = {"image": "image", "dress": "sitter", "housing": "housing"}
                keys = truths.years[own.get(side, check.part)]
                wanted = dated_rows(frame, check.id, "photo", False, True)
            wanted = wanted.reshape(len(check.answers), -1)
            np.testing.assert_array_equal(rows, wanted.T[keys])
            places = pick(rows, rng)
            common = np.bincount(keys).argmax()
            mine = places[keys == common]
            counts = np.bincount(mine, minlength=len(check.answers))
            assert chi_square(counts, wanted[:, common] * len(mine)) > SURE, check.id
        assert {"image", "dress", "package", "housing", "loose"} <= seen

    def test_damage_comes_by_its_rates(self):
        rates = {"moulded": (0.1, 0.2, 0.3, 0.4), "any": (0.7, 0.1, 0.1, 0.1)}
        check = damage_check("case.chip", rates, (1, 1, 1, 1))
        knowledge = knowledge_of([check])
        reading = read(Piece(), knowledge)
        rng = np.random.default_rng(1)
        truths = draw_truths(reading.joint, reading.factors, knowledge, DRAWN, rng)
        frame = reading.joint.frame
        places = pick(answer_chances(check, truths, frame, knowledge, "in-hand", True), rng)
        moulded = truths.states["housing"] == list(reading.housings).index("moulded")
        for mine, word in ((moulded, "moulded"), (~moulded, "any")):
            counts = np.bincount(places[mine], minlength=4)
            assert chi_square(counts, np.array(rates[word]) * mine.sum()) > SURE

    def test_a_check_that_bears_on_nothing_has_no_chances(self):
        check = replace(damage_check("case.chip", {"any": (1, 0, 0, 0)}, (1, 1, 1, 1)), defect=None)
        knowledge = knowledge_of([check])
        reading = read(Piece(), knowledge)
        truths = draw_truths(reading.joint, reading.factors, knowledge, 3, np.random.default_rng(0))
        frame = reading.joint.frame
        assert answer_chances(check, truths, frame, knowledge, "in-hand", True) is None


def alive(reading: Reading) -> bool:
    """Whether every housing and process is likely enough to be kept in a batch."""
    chances = (*reading.housings.values(), *reading.processes.values())
    return min(chances) >= ALIVE


def added(batch: Batch, check: Check, reading: Reading, leads: bool, places: np.ndarray,
          knowledge: Knowledge) -> None:  # fmt: skip
    frame = reading.joint.frame
    axes = axes_of(check, frame)
    if axes:
        batch.add_table(axes, state_rows(frame, check.id, "in-hand", False, leads), places)
    else:
        rows = dated_rows(frame, check.id, "in-hand", False, leads)
        batch.add_line(side_of(check.part, knowledge), check.part, rows, places)


class TestManyAtOnce:
    @every("seed", range(24))
    def test_sets_of_answers_read_as_one_by_one(self, seed):
        """Tables, dates of every side and signs of copies, and answers that some sets lack."""
        knowledge, piece, reading = world(seed)
        groups = {one.check.group for one in reading.evidence}
        open_checks = [
            check
            for check in Forecast(reading, knowledge).open
            # Who leads a group with findings in it, or parts that lose their dates, change what
            # was in the table before.
            if not (check.group and check.group in groups)
        ]
        assert alive(reading)
        rng = np.random.default_rng(seed)
        batch, grown = Batch(reading.joint, reading.factors, SETS), [piece] * SETS
        for check in open_checks:
            chosen = [
                n
                for n, one in enumerate(check.answers)
                if not one.undates and not (check.group and one.unnamed)
            ]
            places = rng.choice(chosen, SETS)
            if not check.group:
                places[rng.random(SETS) < 0.3] = NO_ANSWER
            mates = [one for one in open_checks if check.group and one.group == check.group]
            leads = not mates or leader_of(check.group, mates) is check
            added(batch, check, reading, leads, places, knowledge)
            for n, place in enumerate(places):
                if place != NO_ANSWER:
                    answer = check.answers[place].id
                    grown[n] = grown[n].with_finding(check.id, answer, "in-hand")
        wanted = [read(one, knowledge).states for one in grown]
        np.testing.assert_allclose(batch.states(), wanted, rtol=1e-9, atol=1e-14)

    def test_every_sort_of_evidence_is_among_those_sets(self):
        met: set[object] = set()
        for seed in range(24):
            knowledge, _, reading = world(seed)
            groups = {one.check.group for one in reading.evidence}
            for check in Forecast(reading, knowledge).open:
                if alive(reading) and not (check.group and check.group in groups):
                    axes = axes_of(check, reading.joint.frame)
                    met.add(axes or side_of(check.part, knowledge))
        assert {"image", "dress", "package", "housing", "loose", ("copy",), ("copy", "process"),
                ("altered", "copy"), ("housing", "belonging")} <= met  # fmt: skip

    def test_nothing_added_is_the_table_itself(self):
        _, _, reading = world(3)
        found = Batch(reading.joint, reading.factors, 2).states()
        np.testing.assert_allclose(found, [reading.states] * 2, rtol=1e-9)


class TestRest:
    @pytest.mark.parametrize("seed", range(8))
    def test_completed_pieces_read_as_one_by_one(self, seed):
        """Where no answer undates its part: that would take away what was in the table before.

        Nor names no style: who leads a group would hang on the answer.
        """
        knowledge, piece, _ = world(seed)
        checks = {
            name: replace(
                check,
                answers=tuple(replace(a, undates=False, unnamed=False) for a in check.answers),
            )
            for name, check in knowledge.checks.items()
        }
        knowledge = replace(knowledge, checks=checks)
        piece = replace(piece, channel="market")
        reading = read(piece, knowledge)
        assert alive(reading)
        rest = Rest(Order(reading, knowledge))
        drawn = rest.drawn(SETS, np.random.default_rng(seed))
        told = rest.complete(SETS, np.random.default_rng(seed))
        for place, (states, _) in enumerate(told):
            found = {
                name: Finding(name, knowledge.checks[name].answers[places[place]].id, "in-hand")
                for name, places in drawn.items()
                if places[place] != NO_ANSWER
            }
            whole = replace(piece, findings={**piece.findings, **found})
            assert len(whole.findings) > 15
            np.testing.assert_allclose(states, read(whole, knowledge).states, rtol=1e-9, atol=1e-14)

    @pytest.mark.parametrize("seed", range(3))
    def test_the_mean_of_the_completed_is_what_is_believed_before(self, seed):
        knowledge, _, reading = world(seed)
        rest = Rest(Order(reading, knowledge))
        told = rest.complete(4000, np.random.default_rng(seed))
        drawn = np.array([states for states, _ in told])
        error = drawn.std(axis=0) / len(drawn) ** 0.5
        assert (abs(drawn.mean(axis=0) - rest.now) < 5 * error + 1e-6).all()


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
