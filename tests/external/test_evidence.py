"""Weighing evidence, against published definitions and examples worked through to many digits.

Digits without another source were computed once by an independent script.
"""

import math
from dataclasses import replace

import numpy as np
import pytest
from reading.smallworld import knowledge_of, table_check, weights
from scipy import stats

from appraise.inquiry.forecast import Forecast, Prospect
from appraise.inquiry.information import gain, information
from appraise.inquiry.next_check import Price, ranked
from appraise.knowledge.records import BELONGING, KNOWN, Knowledge
from appraise.reading.influence import influences, reasons
from appraise.reading.reading import read
from appraise.reading.words import word_for
from appraise.records.piece import Piece

TWO = ("together", "married")
QUESTIONS = {"piece.a": (0.90, 0.50), "piece.b": (0.95, 0.80), "piece.c": (0.70, 0.20)}
COST = 300.0
SIGNS = {"piece.a": (0.1, 0.4), "piece.b": (0.1, 0.5), "piece.c": (0.2, 0.6)}


def certain(checks: dict[str, tuple[float, float]], married: float) -> Knowledge:
    """A world of two states, seen with certainty: P(yes | together), P(yes | married) by check."""
    found = []
    for name, (together, strange) in checks.items():
        rows = dict.fromkeys(BELONGING, (together, 1 - together))
        rows["married"] = (strange, 1 - strange)
        found.append(table_check(name, {"belonging": rows}, seconds=10.0))
    sure = dict.fromkeys(("form", "test", "absence", "interest"), 1.0)
    knowledge = knowledge_of(found, weights=weights(reliability=dict.fromkeys(KNOWN, sure)))
    return replace(
        knowledge,
        processes={k: replace(p, modern_image=0.0) for k, p in knowledge.processes.items()},
        housings={
            k: replace(h, modern_case=0.0, married={"any": married}, years={})
            for k, h in knowledge.housings.items()
        },
    )


class TestWhichQuestionNext:
    """Lindley, "On a Measure of the Information Provided by an Experiment", Annals of
    Mathematical Statistics 27, 1956, for the information; the expected value of sample information
    for the money. Prior .6 against .4; buying pays 100 or loses 120, passing pays nothing.
    """

    def worth(self, belonging, _condition):
        return COST + 100 * belonging["together"] - 120 * belonging["married"]

    def knowledge(self) -> Knowledge:
        return certain(QUESTIONS, 0.4)

    def prospect(self, name: str) -> Prospect:
        knowledge = self.knowledge()
        forecast = Forecast(read(Piece(), knowledge), knowledge)
        return forecast.prospect(knowledge.checks[name])

    def test_before_asking(self):
        told = read(Piece(), self.knowledge()).belonging
        assert told["together"] == pytest.approx(0.6, abs=1e-12)
        assert stats.entropy([told[s] for s in TWO], base=2) == pytest.approx(0.970951, abs=5e-7)
        assert self.worth(told, 1.0) - COST == pytest.approx(12)

    @pytest.mark.parametrize(
        ("name", "yes", "no", "bits", "money"),
        [
            ("piece.a", 0.729730, 0.230769, 0.145349, 18.0),
            ("piece.b", 0.640449, 0.272727, 0.039307, 6.6),
            ("piece.c", 0.840000, 0.360000, 0.182454, 20.4),
        ],
    )
    def test_each_question(self, name, yes, no, bits, money):
        told = self.prospect(name)
        assert told.states[0][0] == pytest.approx(yes, abs=5e-7)
        assert told.states[1][0] == pytest.approx(no, abs=5e-7)
        assert told.bits == pytest.approx(bits, abs=5e-7)
        worths = [100 * states[0] - 120 * states[1] for states in told.states]
        assert gain(told.chances, worths, 12.0, 0.0) == pytest.approx(money, abs=1e-9)
        # As published: SUM P(a) max(0, W(a)) - max(0, W).
        after = sum(max(0, w) * c for c, w in zip(told.chances, worths, strict=True))
        assert after - 12.0 == pytest.approx(money, abs=1e-9)

    def test_perfect_knowledge_is_worth_48(self):
        assert gain((0.6, 0.4), (100.0, -120.0), 12.0, 0.0) == pytest.approx(48)

    def test_the_third_question_comes_first_and_then_the_first(self):
        knowledge = self.knowledge()
        order = ranked(read(Piece(), knowledge), knowledge, Price(self.worth, COST))
        assert [one.check for one in order] == ["piece.c", "piece.a", "piece.b"]
        # Worth after yes and after no lies 52.8 on either side of 12, each as likely.
        spread = 2 * (52.8 / COST) ** 2
        wanted = 20.4 / COST + 0.05 * 0.182454 + spread
        assert order[0].gain == pytest.approx(wanted, abs=1e-7)
        blind = ranked(read(Piece(), knowledge), knowledge)
        assert [one.check for one in blind] == ["piece.c", "piece.a", "piece.b"]

    def test_information_is_what_entropy_loses(self):
        rng = np.random.default_rng(7)
        for _ in range(50):
            joint = rng.gamma(0.5, size=(rng.integers(2, 5), rng.integers(2, 6)))
            share = joint / joint.sum()
            lost = stats.entropy(share.sum(axis=0), base=2) - sum(
                row.sum() * stats.entropy(row, base=2) for row in share
            )
            assert information(joint.tolist()) == pytest.approx(lost, abs=1e-12)


class TestCombiningRatios:
    """Good, "Probability and the Weighing of Evidence", 1950: posterior odds are prior odds times
    the likelihood ratio, and weights of evidence add where cues are independent given each side.
    """

    def test_ratios_of_4_5_and_3_on_odds_of_1_to_9(self):
        knowledge = certain(SIGNS, 0.1)
        piece = Piece()
        for name in SIGNS:
            piece = piece.with_finding(name, "a0")
        told = read(piece, knowledge)
        assert told.belonging["married"] == pytest.approx(0.869565217391, abs=1e-12)
        before = influences(told, knowledge)
        found = {one.check: one.ratio for one in reasons(told, before, TWO[1:])}
        assert found == pytest.approx({"piece.a": 4, "piece.b": 5, "piece.c": 3}, abs=1e-9)

    def test_what_was_not_looked_at_is_no_absence(self):
        # Aitken and Taroni, "Statistics and the Evaluation of Evidence for Forensic Scientists":
        # a cue looked for in vain weighs (1 - p1) / (1 - p0); one not looked for weighs nothing.
        knowledge = certain(SIGNS, 0.5)
        absent = read(Piece().with_finding("piece.a", "a1"), knowledge).belonging
        assert absent["married"] / absent["together"] == pytest.approx(0.6 / 0.9, abs=1e-12)
        unseen = read(Piece(), knowledge).belonging
        assert unseen["married"] / unseen["together"] == pytest.approx(1, abs=1e-12)

    @pytest.mark.parametrize(
        ("rho", "ratio"), [(0, 7.389056), (0.5, 3.793668), (0.8, 3.037732), (0.95, 2.788883)]
    )
    def test_two_views_of_one_fact_in_a_group_stay_between_one_and_two(self, rho, ratio):
        # Two cues, each N(1, 1) against N(0, 1), both read 1.5, correlated by rho: the joint ratio
        # is exp(2 (1.5 - 0.5) / (1 + rho)), while multiplying them always gives 7.389056.
        spread = np.array([[1, rho], [rho, 1]])
        seen = np.array([1.5, 1.5])
        joint = stats.multivariate_normal.pdf(seen, [1, 1], spread) / stats.multivariate_normal.pdf(
            seen, [0, 0], spread
        )
        assert joint == pytest.approx(ratio, abs=5e-7)
        one = stats.norm.pdf(1.5, 1) / stats.norm.pdf(1.5, 0)
        signs = {"piece.a": (0.2, 0.2 * one), "piece.b": (0.2, 0.2 * one)}
        knowledge = certain(signs, 0.5)
        grouped = {k: replace(c, group="fact") for k, c in knowledge.checks.items()}
        piece = Piece().with_finding("piece.a", "a0").with_finding("piece.b", "a0")
        odds = []
        for world in (knowledge, replace(knowledge, checks=grouped)):
            told = read(piece, world).belonging
            odds.append(told["married"] / told["together"])
        assert odds[0] == pytest.approx(one**2) == pytest.approx(7.389056, abs=5e-7)
        assert one < odds[1] < odds[0]
        if rho >= 0.5:
            assert abs(math.log(odds[1] / ratio)) < abs(math.log(odds[0] / ratio))


class TestVerbalBands:
    """ENFSI Guideline for Evaluative Reporting in Forensic Science (European Network of Forensic
    Science Institutes, 2015). The printed ranges touch; the lower edge counts as inside.
    """

    EDGES = (
        (2, "no", "weak"),
        (10, "weak", "moderate"),
        (100, "moderate", "moderately strong"),
        (1_000, "moderately strong", "strong"),
        (10_000, "strong", "very strong"),
        (1_000_000, "very strong", "extremely strong"),
    )

    @pytest.mark.parametrize(("edge", "below", "above"), EDGES)
    def test_every_edge_from_both_sides(self, edge, below, above):
        assert word_for(edge * (1 - 1e-6)) == below
        assert word_for(edge) == above
        assert word_for(edge * (1 + 1e-6)) == above

    @pytest.mark.parametrize(("edge", "below", "above"), EDGES)
    def test_a_ratio_below_one_is_turned_over(self, edge, below, above):
        assert word_for(1 / edge) == above
        assert word_for(1 / (edge * (1 - 1e-6))) == below

    def test_no_evidence_and_what_is_no_ratio(self):
        assert word_for(1) == "no"
        assert word_for(1.999) == "no"
        assert word_for(1e30) == word_for(1e-30) == "extremely strong"
        for ratio in (0.0, -1.0, math.nan):
            with pytest.raises(ValueError, match="above 0"):
                word_for(ratio)
