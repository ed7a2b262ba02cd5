"""Condition: steps to grades, the worst part named, what was not seen, and what is left of value.

Grade words are those of Condition (Wellcome Collection documentation) and of Condition Terms and
Treatment Priority (Blanton Museum of Art); how steps become words is the makers' judgement.
"""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from reading.smallworld import damage_check, knowledge_of

from appraise.knowledge.records import Check
from appraise.reading.condition import GRADES, NOT_SEEN, Condition, value_factor
from appraise.reading.reading import read
from appraise.records.piece import Piece

RATES = {"any": (0.7, 0.1, 0.1, 0.1)}
WORTH = (1.0, 0.9, 0.7, 0.4)


def fault(name: str, **defect) -> Check:
    check = damage_check(name, RATES, WORTH)
    return replace(check, defect=replace(check.defect, **defect))


def condition(checks: list[Check], known: str = "in-hand", **steps: str) -> Condition:
    piece = Piece()
    for name, step in steps.items():
        piece = piece.with_finding(name.replace("__", "."), step, known)
    return read(piece, knowledge_of(checks)).condition


class TestGrades:
    @pytest.mark.parametrize(
        ("step", "more", "grade"),
        [
            ("0", {}, "Excellent"),
            ("1", {}, "Good"),
            ("2", {}, "Fair"),
            ("3", {}, "Poor"),
            ("3", {"structural": False}, "Fair"),
            ("1", {"stability": ("stable", "active", "active", "active")}, "Fair"),
            ("2", {"stability": ("stable", "active", "active", "active")}, "Poor"),
            ("3", {"stability": ("stable", "active", "active", "active")}, "Unacceptable"),
            ("3", {"stability": ("stable", "active", "active", "active"),
                   "reversible": "replaceable"}, "Poor"),
            ("2", {"stability": ("stable", "conditional", "conditional", "conditional")}, "Fair"),
            ("2", {"unacceptable": 2}, "Unacceptable"),
            ("3", {"recorded": True}, "Excellent"),
        ],
    )  # fmt: skip
    def test_one_fault(self, step, more, grade):
        told = condition([fault("plate.spots", **more)], plate__spots=step)
        assert told.sides["image"].grade == grade
        assert told.sides["package"].grade == NOT_SEEN

    def test_from_a_picture_nothing_is_better_than_good(self):
        told = condition([fault("plate.spots")], known="photo", plate__spots="0")
        assert told.sides["image"].grade == "Good"

    def test_sides_are_never_blended(self):
        checks = [fault("plate.spots"), fault("mat.bend"), fault("case.chip")]
        told = condition(checks, plate__spots="0", mat__bend="1", case__chip="3")
        grades = {side: one.grade for side, one in told.sides.items()}
        assert grades == {"image": "Excellent", "package": "Good", "housing": "Poor"}
        assert told.sides["housing"].worst.check.id == "case.chip"
        assert told.sides["housing"].says == "Poor: case.chip"

    def test_the_worst_fault_is_named_first(self):
        checks = [fault("case.chip"), fault("case.crack")]
        told = condition(checks, case__chip="1", case__crack="2")
        assert [one.check.id for one in told.faults] == ["case.crack", "case.chip"]
        assert told.sides["housing"].worst.check.id == "case.crack"

    def test_not_seen_is_never_good(self):
        checks = [fault(f"case.part-{place}") for place in range(5)]
        told = condition(checks)
        assert told.sides["housing"].grade == NOT_SEEN
        assert len(told.not_seen) == 5
        piece = Piece().with_finding("case.part-0", "0").with_finding("case.part-1", "0")
        some = read(piece, knowledge_of(checks)).condition.sides["housing"]
        assert (some.grade, some.done, some.of) == (NOT_SEEN, 2, 5)
        assert some.says == "no damage found"
        piece = piece.with_finding("case.part-2", "0")
        assert read(piece, knowledge_of(checks)).condition.sides["housing"].grade == "Excellent"

    def test_a_bad_fault_is_told_however_little_was_seen(self):
        checks = [fault(f"case.part-{place}") for place in range(9)]
        piece = Piece().with_finding("case.part-0", "3")
        assert read(piece, knowledge_of(checks)).condition.sides["housing"].grade == "Poor"
        piece = Piece().with_finding("case.part-0", "1")
        some = read(piece, knowledge_of(checks)).condition.sides["housing"]
        assert (some.grade, some.says) == (NOT_SEEN, "case.part-0")

    def test_stability_and_completeness_stand_beside_the_grade(self):
        checks = [fault("case.chip"), fault("clasp.missing", structural=False)]
        told = condition(checks, case__chip="1", clasp__missing="3").sides["housing"]
        assert (told.stability, told.completeness) == ("stable", "incomplete")
        growing = fault("glass.weep", stability=("stable", "conditional", "active", "active"))
        told = condition([growing], glass__weep="2")
        assert told.sides["package"].stability == "active"
        assert told.faults[0].active
        assert told.sides["image"].stability == NOT_SEEN
        assert told.sides["package"].completeness == "complete"

    @given(st.integers(0, 3), st.integers(0, 3))
    def test_a_worse_step_never_grades_better(self, first, second):
        checks = [fault("case.chip"), fault("case.crack")]
        grades = [
            condition(checks, case__chip=str(step), case__crack=str(second)).sides["housing"].grade
            for step in (min(first, second), max(first, second))
        ]
        assert GRADES.index(grades[0]) <= GRADES.index(grades[1])


class TestValueLeft:
    def test_the_worst_of_a_part_counts_in_full_and_others_by_their_root(self):
        checks = [fault("case.chip"), fault("case.crack"), fault("plate.spots")]
        told = condition(checks, case__chip="2", case__crack="1", plate__spots="1")
        assert told.factor == pytest.approx(0.7 * 0.9**0.5 * 0.9)

    def test_nothing_found_leaves_all(self):
        assert condition([fault("case.chip")]).factor == 1
        assert condition([fault("case.chip")], case__chip="0").factor == 1
        assert value_factor(()) == 1

    @given(st.lists(st.integers(0, 3), min_size=4, max_size=4), st.integers(0, 3))
    def test_more_damage_never_leaves_more(self, steps, place):
        checks = [fault("case.a"), fault("case.b"), fault("plate.a"), fault("mat.a")]
        piece = Piece()
        for check, step in zip(checks, steps, strict=True):
            piece = piece.with_finding(check.id, str(step))
        left = [
            read(piece.with_finding(checks[place].id, str(step)), knowledge_of(checks)).condition
            for step in range(4)
        ]
        assert all(worse.factor <= better.factor for better, worse in pairwise(left))
        assert all(0 < one.factor <= 1 for one in left)
