"""Prospects of open checks: exactly what reading the piece again after each answer would say."""

import random
from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from every import every
from reading.bruteforce import enumerate_joint
from reading.smallworld import (
    damage_check,
    dated_check,
    knowledge_of,
    random_knowledge,
    random_piece,
    table_check,
)
from scipy import stats
from thorough import times

from appraise.inquiry.forecast import Forecast, Prospect
from appraise.inquiry.information import gain
from appraise.knowledge.records import BELONGING, Answer, Check, Knowledge, Years
from appraise.reading.factors import scales
from appraise.reading.reading import read
from appraise.records.piece import Finding, Image, Piece

SEEDS = range(30)
SOME = SEEDS[:: times(3, 1)]  # what is enumerated for every answer
SIGNS = {"together": (0.1, 0.9), "married": (0.6, 0.4), "modern-case": (0.3, 0.7),
         "modern-image": (0.2, 0.8), "all-modern": (0.2, 0.8)}  # fmt: skip

RATES = {"moulded": (0.5, 0.3, 0.1, 0.1), "any": (0.9, 0.06, 0.03, 0.01)}


@cache
def world(seed: int) -> tuple[Knowledge, Piece, Forecast]:
    rng = random.Random(seed)
    knowledge = random_knowledge(rng)
    piece = random_piece(rng, knowledge)
    return knowledge, piece, Forecast(read(piece, knowledge), knowledge)


def fresh(knowledge: Knowledge, piece: Piece | None = None) -> Forecast:
    return Forecast(read(piece or Piece(), knowledge), knowledge)


def mean_states(told: Prospect) -> np.ndarray:
    return np.array(told.chances) @ np.array(told.states)


def upsets(check: Check, forecast: Forecast) -> bool:
    """Whether an answer makes other findings count otherwise, so that P(h) moves on average."""
    evidence = [one.check for one in forecast.reading.evidence]
    mates = any(check.group and one.group == check.group for one in evidence)
    dated = any(one.dates and one.part == check.part for one in evidence)
    undates = any(answer.undates for answer in check.answers)
    return (undates and (mates or dated)) or (mates and any(one.unnamed for one in check.answers))


def plain(forecast: Forecast) -> list[Check]:
    """The open checks of which no answer makes other findings count otherwise."""
    found = [check for check in forecast.open if not upsets(check, forecast)]
    assert len(found) > len(forecast.open) / 2
    return found


@every("seed", SEEDS)
def test_states_after_each_answer_are_those_of_a_new_reading(seed):
    knowledge, piece, forecast = world(seed)
    assert forecast.open
    for check in forecast.open:
        told = forecast.prospect(check)
        for answer, states in zip(check.answers, told.states, strict=True):
            found = piece.with_finding(check.id, answer.id, forecast.known(check))
            again = read(found, knowledge)
            np.testing.assert_allclose(states, again.states, rtol=1e-10, atol=1e-14)


@every("seed", SEEDS)
def test_the_mean_over_the_answers_is_what_is_believed_before(seed):
    _, _, forecast = world(seed)
    for check in plain(forecast):
        told = forecast.prospect(check)
        assert sum(told.chances) == pytest.approx(1, abs=1e-12)
        np.testing.assert_allclose(mean_states(told), told.now, rtol=1e-10, atol=1e-14)


@every("seed", SEEDS)
def test_information_is_the_entropy_lost(seed):
    _, _, forecast = world(seed)
    for check in plain(forecast):
        told = forecast.prospect(check)
        after = sum(
            chance * stats.entropy(states, base=2)
            for chance, states in zip(told.chances, told.states, strict=True)
        )
        assert told.bits == pytest.approx(stats.entropy(told.now, base=2) - after, abs=1e-10)
        assert told.whole >= told.bits - 1e-10
        assert told.whole >= told.process - 1e-10


@every("seed", SOME)
def test_chances_of_answers_equal_the_enumeration(seed):
    knowledge, piece, forecast = world(seed)
    before = enumerate_joint(piece, knowledge).evidence
    for check in forecast.open:
        # One group member may demote another, and what undates its part leaves the table.
        if check.group or any(answer.undates for answer in check.answers):
            continue
        told = forecast.prospect(check)
        for answer, chance in zip(check.answers, told.chances, strict=True):
            found = piece.with_finding(check.id, answer.id, forecast.known(check))
            wanted = enumerate_joint(found, knowledge).evidence / before
            assert chance == pytest.approx(wanted, rel=1e-10)


@every("seed", SOME)
def test_information_on_process_and_belonging_equals_enumeration(seed):
    knowledge, piece, forecast = world(seed)

    def spread(one: Piece) -> np.ndarray:
        table = enumerate_joint(one, knowledge).table.sum(axis=(0, 3, 4, 5))
        return np.array([stats.entropy(line.ravel(), base=2)
                         for line in (table, table.sum(axis=1))])  # fmt: skip

    before = spread(piece)
    for check in plain(forecast):
        # One group member may demote another, so only checks that stand alone compare directly.
        if check.group:
            continue
        told = forecast.prospect(check)
        after = sum(
            chance * spread(piece.with_finding(check.id, answer.id, forecast.known(check)))
            for chance, answer in zip(told.chances, check.answers, strict=True)
        )
        np.testing.assert_allclose((told.whole, told.process), before - after, rtol=0, atol=1e-9)


class TestBelief:
    def test_answers_believed_to_different_degrees_stay_a_distribution(self):
        check = table_check("piece.sign", {"belonging": SIGNS})
        sound = replace(check.answers[1], absence=True)
        knowledge = knowledge_of([replace(check, answers=(check.answers[0], sound))])
        forecast = fresh(knowledge, Piece(channel="online"))
        told = forecast.prospect(knowledge.checks["piece.sign"])
        assert sum(told.chances) == pytest.approx(1)
        np.testing.assert_allclose(mean_states(told), told.now, rtol=1e-12)
        for answer, states in zip(("a0", "a1"), told.states, strict=True):
            piece = Piece(channel="online").with_finding("piece.sign", answer)
            assert piece.findings["piece.sign"].known == "photo"
            np.testing.assert_allclose(states, read(piece, knowledge).states, rtol=1e-12)

    @pytest.mark.parametrize("beliefs", [(0.9, 0.9), (0.93, 0.6), (0.97, 0.3), (0.5, 0.0)])
    def test_scales_make_a_distribution_in_every_state(self, beliefs):
        rows = np.array([[0.1, 0.9], [0.7, 0.3], [0.4, 0.6]])
        prior = np.array([0.5, 0.2, 0.3])
        means = prior @ rows
        r = np.array(beliefs)
        mixed = r * rows + (1 - r) * means
        scaled = mixed * scales(beliefs, means)
        np.testing.assert_allclose(scaled.sum(axis=1), 1, atol=1e-5)
        if beliefs[0] == beliefs[1]:
            np.testing.assert_allclose(scales(beliefs, means), 1)

    def test_what_the_seller_says_is_known_from_the_seller(self):
        checks = [
            table_check("claim.material", {"belonging": SIGNS}, part="claim"),
            table_check("piece.sign", {"belonging": SIGNS}),
        ]
        knowledge = knowledge_of(checks)
        parts = dict(knowledge.parts)
        parts["claim"] = replace(parts["piece"], id="claim")
        forecast = fresh(replace(knowledge, parts=parts))
        claimed, seen = (forecast.prospect(check) for check in knowledge.checks.values())
        assert forecast.known(checks[0]) == "seller"
        assert 0 < claimed.bits < seen.bits


class TestSideEffects:
    STYLE = dated_check(
        "mat.shape",
        [
            Answer("early", "early", {"": Years(1840, 1842, 1850, 1857, "medium")}, 0.4),
            Answer("renewed", "renewed", {}, 0.1, undates=True),
            Answer("other", "another"),
        ],
    )

    def test_an_answer_that_undates_its_part_tells_nothing(self):
        forecast = fresh(knowledge_of([self.STYLE]))
        told = forecast.prospect(self.STYLE)
        np.testing.assert_allclose(told.states[1], told.now, rtol=1e-12)
        assert told.chances[1] == pytest.approx(0.1, abs=0.005)

    def test_and_takes_the_dates_of_that_part_away(self):
        other = replace(self.STYLE, id="mat.surface")
        body = replace(self.STYLE, id="case.covering", part="case")
        knowledge = knowledge_of([self.STYLE, other, body])
        piece = Piece().with_finding("mat.surface", "early").with_finding("case.covering", "other")
        told = fresh(knowledge, piece).prospect(self.STYLE)
        after = read(piece.with_finding("mat.shape", "renewed"), knowledge)
        np.testing.assert_allclose(told.states[1], after.states, rtol=1e-12)
        assert abs(told.states[1][1] - told.now[1]) > 1e-5

    def test_nor_does_it_lead_its_group(self):
        grouped = replace(self.STYLE, group="three")
        weaker = dated_check(
            "pad.pile",
            [Answer("early", "early", {"": Years(1840, 1842, 1880, 1890, "low")}, 0.4),
             Answer("other", "another")],
            group="three",
        )  # fmt: skip
        knowledge = knowledge_of([grouped, weaker])
        assert grouped.strength > weaker.strength
        piece = Piece().with_finding("pad.pile", "early")
        told = fresh(knowledge, piece).prospect(grouped)
        for answer, states in zip(grouped.answers, told.states, strict=True):
            after = read(piece.with_finding("mat.shape", answer.id), knowledge)
            np.testing.assert_allclose(states, after.states, rtol=1e-12)
        assert told.states[1] == pytest.approx(read(piece, knowledge).states)

    def test_an_answer_that_takes_the_sense_of_another_away(self):
        leader = table_check("piece.leader", {"belonging": SIGNS})
        follower = table_check(
            "piece.follower", {"belonging": SIGNS}, when={"piece.leader": ("a0",)}
        )
        knowledge = knowledge_of([leader, follower])
        piece = Piece().with_finding("piece.follower", "a0")
        told = fresh(knowledge, piece).prospect(leader)
        for place, answer in enumerate(("a0", "a1")):
            after = read(piece.with_finding("piece.leader", answer), knowledge)
            np.testing.assert_allclose(told.states[place], after.states, rtol=1e-12)


class TestDamage:
    WORTHS = (1, 0.9, 0.7, 0.4)
    CHECK = damage_check("case.chip", RATES, WORTHS)

    def test_steps_come_by_the_base_rates_of_the_likely_housings(self):
        forecast = fresh(knowledge_of([self.CHECK]))
        moulded = forecast.reading.housings["moulded"]
        told = forecast.prospect(self.CHECK)
        rates = [moulded * a + (1 - moulded) * b for a, b in zip(*RATES.values(), strict=True)]
        beliefs = [0.95, 0.97, 0.97, 0.97]
        wanted = [rate * by for rate, by in zip(rates, scales(beliefs, rates), strict=True)]
        assert told.chances == pytest.approx(wanted)
        assert told.conditions == pytest.approx(self.left(rates, beliefs))
        assert all(states == told.now for states in told.states)
        assert told.bits == 0

    def left(self, rates, beliefs):
        """What each step leaves of the usual, by hand: believed with r, else as it usually is."""
        usual = sum(p * worth for p, worth in zip(rates, self.WORTHS, strict=True))
        return [
            (r * worth + (1 - r) * usual) / usual
            for r, worth in zip(beliefs, self.WORTHS, strict=True)
        ]

    def test_by_process_where_the_rates_name_processes(self):
        rates = {"mirror": (0.4, 0.6, 0, 0), "glassy": (0.8, 0.2, 0, 0), "any": (1, 0, 0, 0)}
        check = damage_check("plate.spots", rates, (1, 0.9, 0.7, 0.4))
        forecast = fresh(knowledge_of([check]))
        families = forecast.reading.families
        told = forecast.prospect(check)
        spotted = 0.6 * families["mirror"] + 0.2 * families["glassy"]
        rates = (1 - spotted, spotted, 0, 0)
        scale = scales([0.95, 0.97, 0.97, 0.97], rates)[1]
        assert told.chances[1] == pytest.approx(spotted * scale)

    def test_gain_is_what_changing_the_decision_saves(self):
        # Worth 50 as shown, 45 asked: only a fault that brings it under 45 saves anything.
        chances, worths = (0.6, 0.2, 0.1, 0.1), (50.0, 46.0, 40.0, 25.0)
        assert gain(chances, worths, 50.0, 45.0) == pytest.approx(0.1 * 5 + 0.1 * 20)
        assert gain(chances, worths, 50.0, 20.0) == 0
        assert gain(chances, worths, 44.0, 45.0) == pytest.approx(0.6 * 5 + 0.2 * 1)

    def test_gain_is_the_value_of_sample_information_where_the_mean_is_shown(self):
        rng = np.random.default_rng(3)
        for _ in range(100):
            chances = rng.dirichlet(np.ones(4))
            worths = rng.uniform(0, 100, 4)
            cost = rng.uniform(0, 100)
            mean = float(chances @ worths)
            published = chances @ np.maximum(0, worths - cost) - max(0, mean - cost)
            assert gain(chances, worths, mean, cost) == pytest.approx(published, abs=1e-9)


def test_a_check_that_bears_on_nothing_promises_nothing():
    note = table_check("piece.note", {"belonging": dict.fromkeys(BELONGING, (0.5, 0.5))})
    knowledge = knowledge_of([replace(note, tables=())])
    told = fresh(knowledge).prospect(knowledge.checks["piece.note"])
    assert (told.bits, told.whole) == (0, 0)
    assert told.states == (told.now, told.now)


def test_dress_is_foretold_where_no_dress_was_told_before():
    """A copy's dress is the original's: it dates the sitting and says nothing of the copy."""

    def style(name):
        return dated_check(name, [
            Answer("early", "early", {"": Years(1840, 1842, 1850, 1857, "medium")}, 0.4),
            Answer("late", "late", {"": Years(1866, 1870, 1880, 1890, "medium")}, 0.3),
            Answer("other", "another"),
        ])  # fmt: skip

    copied = table_check("plate.copy", {"copy": {"no": (0.02, 0.98), "yes": (0.6, 0.4)}})
    dress, mat, plate = style("sitter.bonnet"), style("mat.shape"), style("plate.maker")
    knowledge = knowledge_of([copied, dress, mat, plate])
    piece = Piece().with_finding("plate.copy", "a0").with_finding("mat.shape", "late")
    for known in (piece, piece.with_finding("plate.maker", "late")):
        forecast = fresh(knowledge, known)
        assert not forecast.reading.factors.dress
        before = enumerate_joint(known, knowledge)
        told = forecast.prospect(dress)
        for answer, chance, states in zip(dress.answers, told.chances, told.states, strict=True):
            after = enumerate_joint(known.with_finding("sitter.bonnet", answer.id), knowledge)
            np.testing.assert_allclose(states, after.table.sum(axis=(0, 1, 3, 4, 5)), rtol=1e-11)
            assert chance == pytest.approx(after.evidence / before.evidence, rel=1e-11)


def test_of_several_images_the_first_is_asked_about():
    knowledge = knowledge_of([table_check("plate.sign", {"belonging": SIGNS}),
                              table_check("case.sign", {"belonging": SIGNS})])  # fmt: skip
    left = Image("left", {"plate.sign": Finding("plate.sign", "a0", "in-hand")})
    forecast = fresh(knowledge, Piece(images=(left, Image("right"))))
    assert [check.id for check in forecast.open] == ["case.sign"]
