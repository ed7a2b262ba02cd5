"""Formats from measures: Bayes over nominal sizes, checked with scipy's normal densities."""

from dataclasses import replace

import numpy as np
import pytest
from reading.smallworld import INVENTED, knowledge_of
from scipy import stats

from appraise.base.measures import Measure
from appraise.knowledge import load
from appraise.knowledge.records import BELONGING, KINDS, Format, Knowledge, Offset
from appraise.piece.records import Piece
from appraise.reading.formats import read_formats
from appraise.reading.reading import read

SIZES = {"sixth": (70.0, 83.0), "quarter": (83.0, 108.0), "ninth": (51.0, 64.0)}
SHARES = {"sixth": 0.6, "quarter": 0.25, "ninth": 0.15}
OFFSETS = {"opening": (-13.0, -14.0, 4.0), "case": (14.0, 14.0, 2.5), "plate": (0.0, 0.0, 1.0)}


def world() -> Knowledge:
    formats = {
        name: Format(name, name, (size,), 1.0, KINDS, SHARES[name], INVENTED)
        for name, size in SIZES.items()
    }
    offsets = {what: Offset(what, (w, h), s, INVENTED) for what, (w, h, s) in OFFSETS.items()}
    offsets["case-moulded"] = Offset("case", (19.0, 20.0), 2.0, INVENTED, "moulded")
    return replace(knowledge_of([]), formats=formats, offsets=offsets)


def piece(**measured: tuple[float, float]) -> Piece:
    found = {what: Measure.of_mm(*sides) for what, sides in measured.items()}
    return Piece(measured=found)


def density(name: str, what: str, sides: tuple[float, float]) -> float:
    """Of both sides, independent normals around the nominal size and the offset, over a floor."""
    width, height, spread = OFFSETS[what]
    sd = (1.0 + spread**2) ** 0.5
    wanted = (SIZES[name][0] + width, SIZES[name][1] + height)
    return float(np.prod(stats.norm.pdf(sorted(sides), wanted, sd))) + 1e-9


def posterior(what: str, sides: tuple[float, float]) -> dict[str, float]:
    weights = {name: SHARES[name] * density(name, what, sides) for name in SIZES}
    return {name: weight / sum(weights.values()) for name, weight in weights.items()}


@pytest.mark.parametrize("what", ["plate", "opening"])
@pytest.mark.parametrize("sides", [(70, 83), (83, 70), (60, 72), (75, 95), (140, 200)])
def test_the_picture_by_bayes_whichever_way_up(what, sides):
    told = read_formats(piece(**{what: sides}), world())
    assert told.probabilities == pytest.approx(posterior(what, sides), rel=1e-9)
    assert told.best == max(told.probabilities, key=told.probabilities.get)


def test_nothing_measured_leaves_the_prior_and_no_best():
    told = read_formats(Piece(), world())
    assert told.probabilities == pytest.approx(SHARES)
    assert (told.best, told.case_format, told.maybe_measured) == ("", "", "")
    assert told.belonging == (1.0,) * len(BELONGING)


def test_a_material_with_an_offset_of_its_own():
    knowledge = world()
    sides = (93.0, 109.0)
    moulded = piece(case=sides).with_finding("case.material", "moulded")
    told, plain = (read_formats(one, knowledge) for one in (moulded, piece(case=sides)))
    assert told.case["sixth"] > plain.case["sixth"] + 0.3
    assert (told.case_format, plain.case_format) == ("sixth", "quarter")


def test_an_opening_taken_for_the_plate_is_noticed():
    opening = (70 - 13.0, 83 - 14.0)
    assert read_formats(piece(plate=opening), world()).maybe_measured == "opening"
    assert read_formats(piece(plate=(70, 83)), world()).maybe_measured == ""
    assert read_formats(piece(opening=opening), world()).maybe_measured == ""


def test_a_named_format_counts_ninety_in_a_hundred():
    named = replace(Piece(), named_format="ninth")
    told = read_formats(named, world())
    weights = {name: share * (0.9 if name == "ninth" else 0.1) for name, share in SHARES.items()}
    wanted = {name: weight / sum(weights.values()) for name, weight in weights.items()}
    assert told.probabilities == pytest.approx(wanted)
    assert told.best == "ninth"


class TestAgreement:
    def enumerated(self, plate, case) -> np.ndarray:
        """P(both measures | state): over every pair of formats, the same or two different ones."""
        rates = world().weights.same_format
        joint = {
            (a, b): density(a, "plate", plate) * density(b, "case", case)
            for a in SIZES
            for b in SIZES
        }
        same = sum(SHARES[a] * joint[a, a] for a in SIZES)
        pairs = {(a, b): SHARES[a] * SHARES[b] for a in SIZES for b in SIZES if a != b}
        apart = sum(share * joint[pair] for pair, share in pairs.items()) / sum(pairs.values())
        return np.array([rates[h] * same + (1 - rates[h]) * apart for h in BELONGING])

    @pytest.mark.parametrize("case", [(84, 97), (97, 122), (65, 78), (90, 110)])
    def test_both_measures_by_enumeration(self, case):
        told = read_formats(piece(plate=(70, 83), case=case), world()).belonging
        wanted = self.enumerated((70, 83), case)
        np.testing.assert_allclose(told, wanted / wanted.max(), rtol=1e-9)

    def test_one_size_proves_nothing_and_two_sizes_are_telling(self):
        knowledge = world()
        bare = read(Piece(), knowledge).belonging["married"]
        same = read(piece(plate=(70, 83), case=(84, 97)), knowledge).belonging["married"]
        other = read(piece(plate=(70, 83), case=(97, 122)), knowledge).belonging["married"]
        assert abs(same - bare) < 0.05
        assert other > bare + 0.2

    @pytest.mark.parametrize("answer", ["same", "other"])
    def test_measures_of_both_stand_in_for_a_comparison_by_eye(self, answer):
        knowledge = load()
        measured = piece(plate=(70, 83), case=(97, 122))
        seen = measured.with_finding("package.size-match", answer)
        assert read(seen, knowledge).states == read(measured, knowledge).states
        asked = {check.id for check in read(measured, knowledge).checks}
        assert "package.size-match" not in asked
        by_eye = Piece().with_finding("package.size-match", answer)
        assert read(by_eye, knowledge).states != read(Piece(), knowledge).states

    def test_a_conserved_package_says_nothing(self):
        measured = replace(piece(plate=(70, 83), case=(97, 122)), conserved=True)
        assert read_formats(measured, world()).belonging == (1.0,) * len(BELONGING)


def test_a_kind_without_formats():
    knowledge = replace(world(), formats={})
    told = read_formats(piece(plate=(70, 83)), knowledge)
    assert (told.probabilities, told.best) == ({}, "")
