"""Pieces without a case, pieces with several images, and what else is asked of a picture."""

import random
from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from every import every
from reading.bruteforce import enumerate_joint
from reading.smallworld import (
    EMPTY,
    damage_check,
    dated_check,
    knowledge_of,
    random_knowledge,
    random_piece,
    table_check,
)

from appraise.inquiry.enough import Enough, enough
from appraise.inquiry.next_check import Order
from appraise.knowledge import load
from appraise.knowledge.records import BELONGING, KINDS, UNJUDGED, YEARS, Answer, Knowledge, Years
from appraise.reading.reading import existed_by, looks_right, read
from appraise.records.piece import Finding, Image, Piece
from appraise.verdict.warnings import piece_warnings

CASES = ("cased", "empty-case")
OTHERS = tuple(kind for kind in KINDS if kind not in CASES)
PICTURED = tuple(kind for kind in OTHERS if kind not in EMPTY)
MODERN = {"together": (0.02, 0.98), "married": (0.02, 0.98), "modern-case": (0.02, 0.98),
          "modern-image": (0.6, 0.4), "all-modern": (0.6, 0.4)}  # fmt: skip
STRANGE = {"together": (0.1, 0.9), "married": (0.6, 0.4), "modern-case": (0.1, 0.9),
           "modern-image": (0.1, 0.9), "all-modern": (0.1, 0.9)}  # fmt: skip
EARLY, LATE = Years(1858, 1860, 1866, 1870, "high"), Years(1880, 1884, 1895, 1900, "high")


@cache
def shipped() -> Knowledge:
    return load()


def of_all_kinds(seed: int) -> tuple[Knowledge, random.Random]:
    rng = random.Random(seed)
    knowledge = random_knowledge(rng)
    checks = {name: replace(check, kinds=KINDS) for name, check in knowledge.checks.items()}
    return replace(knowledge, checks=checks), rng


class TestWithoutACase:
    @every("seed", range(40))
    def test_read_outs_equal_the_enumeration(self, seed):
        """Also of kinds without a picture of their own, which have one nameless process."""
        knowledge, rng = of_all_kinds(seed)
        piece = replace(random_piece(rng, knowledge), kind=OTHERS[seed % len(OTHERS)])
        wanted = enumerate_joint(piece, knowledge)
        told = read(piece, knowledge)
        belonging = wanted.table.sum(axis=(0, 1, 3, 4, 5))
        assert told.belonging == pytest.approx(
            {"period": belonging[0], "modern": belonging[1:].sum()}, rel=1e-12
        )
        assert belonging[1] == belonging[2] == 0
        assert told.modern == pytest.approx(belonging[1:].sum(), rel=1e-12)
        np.testing.assert_allclose(
            list(told.processes.values()), wanted.table.sum(axis=(0, 2, 3, 4, 5)), rtol=1e-12
        )
        np.testing.assert_allclose(told.year_weights, wanted.year, rtol=1e-10, atol=1e-15)
        assert told.joint.altered == pytest.approx(wanted.table[..., 1].sum(), rel=1e-12)

    @pytest.mark.parametrize("kind", OTHERS)
    def test_there_is_no_housing_and_no_marriage(self, kind):
        knowledge, _ = of_all_kinds(1)
        told = read(Piece(kind=kind), knowledge)
        assert told.housings == {}
        assert told.material == ""
        assert told.before == (0.0, 0.0)
        assert list(told.belonging) == ["period", "modern"]
        assert told.married == 0
        rng = random.Random(3)
        for _ in range(10):
            piece = replace(random_piece(rng, knowledge), kind=kind)
            reading = read(piece, knowledge)
            found = piece_warnings(reading, knowledge)
            assert all(one.id != "married" for one in found)

    def test_the_mount_dates_the_print_and_a_younger_print_is_possible(self):
        style = dated_check(
            "mount.style",
            [Answer("early", "early", {"": EARLY}, 0.4), Answer("late", "late", {"": LATE}, 0.4),
             Answer("other", "other")],
            kinds=("card",),
        )  # fmt: skip
        knowledge = knowledge_of([style])
        spans = {}
        for answer in ("early", "late"):
            told = read(Piece(kind="card").with_finding("mount.style", answer), knowledge)
            spans[answer] = told
            assert told.package is None
            assert told.housing is not None
        assert spans["early"].together.median < spans["late"].together.median
        early = spans["early"].housing
        assert EARLY.first - 1 <= early.first <= early.last <= EARLY.last + 1
        # A photographer's old stock of mounts: the print may be some years younger, never older.
        assert spans["early"].together.median >= early.median

    def test_a_modern_sign_warns_in_its_own_words(self):
        check = table_check("plate.signature", {"belonging": MODERN}, kinds=OTHERS)
        knowledge = knowledge_of([check])
        reading = read(Piece(kind="loose-plate").with_finding("plate.signature", "a0"), knowledge)
        assert reading.modern > read(Piece(kind="loose-plate"), knowledge).modern
        (told,) = piece_warnings(reading, knowledge)
        assert told.id == "reproduction"
        assert told.says.startswith("the image may be modern (")
        assert told.because

    @pytest.mark.parametrize("kind", PICTURED)
    def test_shipped_pieces_of_every_kind_are_mostly_of_their_period_before_looking(self, kind):
        told = read(Piece(kind=kind), shipped())
        # Old postcards are printed anew more often than other pictures.
        assert told.belonging["period"] > (0.7 if kind == "postcard" else 0.85)
        assert told.checks
        assert sum(told.belonging.values()) == pytest.approx(1)


class TestWithoutAPicture:
    @pytest.mark.parametrize("kind", UNJUDGED)
    def test_what_the_tool_does_not_judge_has_one_nameless_process_and_no_checks(self, kind):
        told = read(Piece(kind=kind), shipped())
        assert told.processes == {"": 1.0}
        assert told.families == {"": 1.0}
        assert told.housings == {}
        assert told.checks == ()
        assert told.belonging == {"period": 1.0, "modern": 0.0}
        assert piece_warnings(told, shipped()) == ()
        order = Order(told, shipped())
        assert order.proposals() == ()
        assert enough(order) == Enough(True, (), 0.0)

    def test_an_empty_case_has_housings_and_no_process(self):
        told = read(Piece(kind="empty-case"), shipped())
        assert told.processes == pytest.approx({"": 1.0})
        assert set(told.housings) == set(shipped().housings)
        assert told.checks
        assert all(check.part != "plate" for check in told.checks)
        assert not any(check.table("process") for check in told.checks)
        # There is no picture to be a stranger, or modern by itself.
        assert told.married == 0
        assert told.belonging["modern-image"] == told.belonging["all-modern"] == 0
        looks = Piece(kind="empty-case").with_finding("case.material", "thermoplastic")
        assert read(looks, shipped()).material == "thermoplastic"

    @pytest.mark.parametrize("seed", range(12))
    def test_an_empty_case_equals_the_enumeration(self, seed):
        knowledge, rng = of_all_kinds(seed)
        piece = replace(random_piece(rng, knowledge), kind="empty-case")
        wanted = enumerate_joint(piece, knowledge)
        told = read(piece, knowledge)
        np.testing.assert_allclose(told.states, wanted.table.sum(axis=(0, 1, 3, 4, 5)), rtol=1e-12)
        np.testing.assert_allclose(
            list(told.housings.values()), wanted.table.sum(axis=(1, 2, 3, 4, 5)), rtol=1e-12
        )
        np.testing.assert_allclose(told.year_weights, wanted.year, rtol=1e-10, atol=1e-15)


class TestSeveralImages:
    def knowledge(self) -> Knowledge:
        return knowledge_of(
            [
                table_check("plate.sign", {"belonging": STRANGE}),
                table_check("case.sign", {"belonging": STRANGE}),
                damage_check("plate.scratch", {"any": (1, 0, 0, 0)}, (1, 0.9, 0.6, 0.3)),
                damage_check("case.chip", {"any": (1, 0, 0, 0)}, (1, 0.9, 0.6, 0.3)),
            ]
        )

    def piece(self) -> Piece:
        def found(check: str, answer: str) -> Finding:
            return Finding(check, answer, "in-hand")

        return Piece(
            findings={"case.sign": found("case.sign", "a0"), "case.chip": found("case.chip", "1")},
            images=(
                Image("left", {"plate.sign": found("plate.sign", "a0"),
                               "plate.scratch": found("plate.scratch", "1")}),
                Image("right", {"plate.sign": found("plate.sign", "a1"),
                                "plate.scratch": found("plate.scratch", "3")}),
            ),
        )  # fmt: skip

    def test_each_image_has_its_table_and_they_share_the_case(self):
        knowledge, piece = self.knowledge(), self.piece()
        whole = read(piece, knowledge)
        assert [side for side, _ in whole.images] == ["left", "right"]
        for image, (_, told) in zip(piece.images, whole.images, strict=True):
            alone = replace(piece, findings={**piece.findings, **image.findings}, images=())
            assert told.belonging == read(alone, knowledge).belonging
            assert {"case.sign", "case.chip"} <= {one.id for one in told.evidence}
        left, right = (told.belonging["married"] for _, told in whole.images)
        assert left > right
        assert whole.belonging == whole.images[0][1].belonging
        assert whole.piece is piece

    def test_condition_is_of_the_whole(self):
        whole = read(self.piece(), self.knowledge())
        assert whole.condition.factor == pytest.approx(0.9 * 0.3)
        assert {fault.check.id: fault.step for fault in whole.condition.faults} == {
            "plate.scratch": 3, "case.chip": 1
        }  # fmt: skip
        assert [one.condition.factor for _, one in whole.images] == pytest.approx([0.81, 0.27])

    def test_warnings_name_the_side_unless_they_hold_of_all(self):
        knowledge = self.knowledge()
        piece = self.piece().without_finding("case.sign")
        whole = read(piece, knowledge)
        (told,) = (one for one in piece_warnings(whole, knowledge) if one.id == "married")
        assert told.says.startswith("left: image and case")
        same = replace(piece, images=(piece.images[0], replace(piece.images[0], side="right")))
        (told,) = (
            one for one in piece_warnings(read(same, knowledge), knowledge) if one.id == "married"
        )
        assert told.says.startswith("image and case")

    def test_a_single_image_reads_as_the_piece_alone(self):
        knowledge, piece = self.knowledge(), self.piece()
        one = replace(piece, images=piece.images[:1])
        alone = replace(piece, findings={**piece.findings, **piece.images[0].findings}, images=())
        assert read(one, knowledge).belonging == read(alone, knowledge).belonging
        assert read(alone, knowledge).images == ()


class TestCopiesAndAdditions:
    COPY = table_check("plate.copy", {"copy": {"no": (0.02, 0.98), "yes": (0.4, 0.6)}})
    PAINT = table_check("plate.paint", {"altered": {"no": (0.02, 0.98), "yes": (0.3, 0.7)}})

    def test_a_sign_of_a_copy_says_nothing_of_belonging(self):
        knowledge = knowledge_of([self.COPY])
        bare = read(Piece(), knowledge)
        told = read(Piece().with_finding("plate.copy", "a0"), knowledge)
        assert told.joint.copy > 10 * bare.joint.copy / 2
        assert told.belonging == pytest.approx(bare.belonging, rel=1e-12)
        assert told.joint.altered == pytest.approx(bare.joint.altered)
        warned = piece_warnings(told, knowledge)
        (copy,) = (one for one in warned if one.id == "copy")
        assert "perhaps a period copy of an older image" in copy.says

    def test_additions_in_bayes_form(self):
        knowledge = knowledge_of([self.PAINT])
        told = read(Piece().with_finding("plate.paint", "a0"), knowledge)
        # r = .97 of the tests' settings; prior .04; Pbar = .96 * .02 + .04 * .3
        mean = 0.96 * 0.02 + 0.04 * 0.3
        seen = [0.97 * p + 0.03 * mean for p in (0.02, 0.3)]
        wanted = 0.04 * seen[1] / (0.96 * seen[0] + 0.04 * seen[1])
        assert told.joint.altered == pytest.approx(wanted, rel=1e-12)

    def test_a_sign_of_both_ties_them_together(self):
        both = table_check(
            "case.covering",
            {"belonging": MODERN, "altered": {"no": (0.1, 0.9), "yes": (0.5, 0.5)}},
        )
        knowledge = knowledge_of([both, self.PAINT])
        piece = Piece().with_finding("case.covering", "a0")
        told = read(piece, knowledge)
        bare = read(Piece(), knowledge)
        assert told.modern > bare.modern
        assert told.joint.altered > bare.joint.altered
        # Paint explains the sign as an addition, so it speaks less for a modern picture.
        painted = read(piece.with_finding("plate.paint", "a0"), knowledge)
        assert painted.modern < told.modern
        unpainted = read(Piece().with_finding("plate.paint", "a0"), knowledge)
        assert unpainted.modern == pytest.approx(bare.modern)


ROWS = {"mirror-one": (0.8, 0.2), "mirror-two": (0.8, 0.2), "glassy": (0.2, 0.8),
        "plain": (0.2, 0.8)}  # fmt: skip


class TestClaims:
    def test_a_claim_moves_less_from_the_seller_than_as_recognised(self):
        knowledge = knowledge_of([table_check("piece.claim", {"process": ROWS})])
        bare = read(Piece(), knowledge).families["mirror"]
        moved = [
            read(Piece().with_finding("piece.claim", "a0", known), knowledge).families["mirror"]
            for known in ("seller", "in-hand")
        ]
        assert bare < moved[0] < moved[1]

    def test_an_admission_of_a_marriage_weighs_nearly_as_seen(self):
        knowledge = knowledge_of([table_check("piece.swap", {"belonging": STRANGE})])

        def married(known: str, admitted: bool = False) -> float:
            piece = Piece().with_finding("piece.swap", "a0", known, admitted)
            return read(piece, knowledge).belonging["married"]

        assert married("seller") < married("seller", admitted=True) <= married("in-hand")
        assert married("in-hand") - married("seller", admitted=True) < 0.03

    def test_what_it_is_called_is_doubted_when_it_looks_otherwise(self):
        piece = Piece()
        for check, answer in (("plate.mirror", "flips"), ("plate.magnet", "no")):
            piece = piece.with_finding(check, answer)
        reading = read(piece.with_finding("claim.process", "tintype", "seller"), shipped())
        warned = piece_warnings(reading, shipped())
        (told,) = (one for one in warned if one.id == "claim-doubted")
        assert told.says == "called tintype, looks like daguerreotype"
        assert told.innocent


def test_states_of_the_model_are_the_five_whatever_the_kind():
    knowledge, _ = of_all_kinds(2)
    for kind in KINDS:
        told = read(Piece(kind=kind), knowledge)
        assert len(told.states) == len(BELONGING)
        assert sum(told.states) == pytest.approx(1)


def test_a_year_to_portray_by_the_years_of_the_picture():
    knowledge = load()
    reading = read(Piece(region="us").with_finding("plate.magnet", "yes"), knowledge)
    weights = dict(zip(YEARS, reading.year_weights, strict=True))
    for year in (1845, 1863, 1900):
        assert existed_by(reading, year) == pytest.approx(
            sum(weight for at, weight in weights.items() if at <= year)
        )
        assert looks_right(reading, year) == pytest.approx(
            sum(
                weight
                for at, weight in weights.items()
                if year - knowledge.weights.looks_right <= at <= year
            )
        )
