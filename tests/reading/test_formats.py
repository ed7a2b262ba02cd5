"""Formats from measures: Bayes over nominal sizes, checked with scipy's normal densities."""

from dataclasses import replace

import numpy as np
import pytest
from reading.smallworld import INVENTED, knowledge_of
from scipy import stats

from appraise.base.measures import Measure
from appraise.knowledge import load
from appraise.knowledge.records import BELONGING, KINDS, Format, Knowledge, Offset
from appraise.reading.fits import meant
from appraise.reading.formats import read_formats
from appraise.reading.reading import read
from appraise.records.piece import Piece

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


@pytest.mark.parametrize(
    ("what", "sides"),
    [
        ("plate", (70, 83)),
        ("plate", (83, 70)),
        ("plate", (72, 85)),
        ("opening", (60, 72)),
        ("opening", (75, 62)),
        ("opening", (45, 57)),
    ],
)
def test_the_picture_by_bayes_whichever_way_up(what, sides):
    told = read_formats(piece(**{what: sides}), world())
    assert told.probabilities == pytest.approx(posterior(what, sides), rel=1e-9)
    assert told.best == max(told.probabilities, key=told.probabilities.get)
    assert (told.nearest, told.remark(world().formats)) == ("", "")


def distance(name: str, what: str, sides: tuple[float, float]) -> float:
    """Squared standard deviations, which scipy's chi-squared with two degrees judges."""
    width, height, spread = OFFSETS[what]
    wanted = (SIZES[name][0] + width, SIZES[name][1] + height)
    gaps = np.subtract(sorted(sides), wanted)
    return float(gaps @ gaps) / (1.0 + spread**2)


@pytest.mark.parametrize(
    ("what", "sides", "nearest"),
    [
        ("plate", (60, 72), "ninth"),
        ("plate", (75, 95), "sixth"),
        ("plate", (140, 200), "quarter"),
        ("opening", (140, 200), "quarter"),
    ],
)
def test_what_lies_far_from_every_size_tells_none_but_the_nearest(what, sides, nearest):
    assert all(stats.chi2.sf(distance(name, what, sides), 2) < 1 / 370 for name in SIZES)
    told = read_formats(piece(**{what: sides}), world())
    assert (told.best, told.nearest) == ("", nearest)
    assert told.probabilities == pytest.approx(SHARES)
    assert told.remark(world().formats) == f"fits no size (nearest: {nearest})"
    assert told.belonging == (1.0,) * len(BELONGING)


MIXED = {"opening": {"plate": 0.25}, "plate": {"opening": 0.1}}


class TestSomethingElseMeasured:
    """Now and then the whole plate is measured for the opening, or the opening for the plate."""

    def mixed(self, usual: float = 0.0) -> Knowledge:
        knowledge = world()
        offsets = {
            name: replace(one, instead=MIXED.get(name, {}), usual=usual)
            for name, one in knowledge.offsets.items()
        }
        return replace(knowledge, offsets=offsets)

    def wanted(self, what: str, sides: tuple[float, float]) -> dict[str, float]:
        (other, share), *_ = MIXED[what].items()
        weights = {
            name: SHARES[name]
            * (
                (1 - share) * (density(name, what, sides) - 1e-9)
                + share * (density(name, other, sides) - 1e-9)
                + 1e-9
            )
            for name in SIZES
        }
        return {name: weight / sum(weights.values()) for name, weight in weights.items()}

    @pytest.mark.parametrize("what", ["plate", "opening"])
    @pytest.mark.parametrize("sides", [(70, 83), (57, 69), (52, 65), (45, 56)])
    def test_a_mixture_of_both(self, what, sides):
        told = read_formats(piece(**{what: sides}), self.mixed())
        assert told.probabilities == pytest.approx(self.wanted(what, sides), rel=1e-9)

    def test_an_opening_taken_for_the_plate_is_noticed(self):
        opening = (70 - 13.0, 83 - 14.0)
        told = read_formats(piece(plate=opening), self.mixed())
        assert (told.maybe_measured, told.best) == ("opening", "sixth")
        assert read_formats(piece(plate=(70, 83)), self.mixed()).maybe_measured == ""
        assert read_formats(piece(opening=opening), self.mixed()).maybe_measured == ""

    def test_it_is_thought_of_for_usual_formats_only(self):
        opening = (70 - 13.0, 83 - 14.0)
        told = read_formats(piece(plate=opening), self.mixed(usual=0.61))
        assert (told.maybe_measured, told.best, told.nearest) == ("", "", "ninth")

    def test_a_loose_plate_has_no_opening(self):
        loose = replace(piece(plate=(70 - 13.0, 83 - 14.0)), kind="loose-plate")
        assert read_formats(loose, self.mixed()).maybe_measured == ""


def test_an_offset_may_differ_by_format():
    knowledge = world()
    opening = replace(knowledge.offsets["opening"], formats={"quarter": (-20.0, -30.0, 2.0)})
    knowledge = replace(knowledge, offsets={**knowledge.offsets, "opening": opening})
    sides = (83 - 20.0, 108 - 30.0)
    told = read_formats(piece(opening=sides), knowledge).probabilities
    wanted = {name: SHARES[name] * density(name, "opening", sides) for name in SIZES}
    peak = float(np.prod(stats.norm.pdf([0.0, 0.0], 0, (1 + 2.0**2) ** 0.5)))
    wanted["quarter"] = SHARES["quarter"] * (peak + 1e-9)
    total = sum(wanted.values())
    assert told == pytest.approx({name: one / total for name, one in wanted.items()}, rel=1e-9)


def test_a_share_may_differ_by_region():
    knowledge = world()
    ninth = replace(knowledge.formats["ninth"], regions={"eu": 0.9})
    knowledge = replace(knowledge, formats={**knowledge.formats, "ninth": ninth})
    there = read_formats(Piece(region="eu"), knowledge).probabilities
    assert there == pytest.approx(
        {"sixth": 0.6 / 1.75, "quarter": 0.25 / 1.75, "ninth": 0.9 / 1.75}
    )
    assert read_formats(Piece(region="us"), knowledge).probabilities == pytest.approx(SHARES)


def test_nothing_measured_leaves_the_prior_and_no_best():
    told = read_formats(Piece(), world())
    assert told.probabilities == pytest.approx(SHARES)
    assert (told.best, told.case_format, told.maybe_measured) == ("", "", "")
    assert told.belonging == (1.0,) * len(BELONGING)


def test_a_material_with_an_offset_of_its_own():
    knowledge = world()
    sides = (91.0, 105.0)
    moulded = piece(case=sides).with_finding("case.material", "moulded")
    told, plain = (read_formats(one, knowledge) for one in (moulded, piece(case=sides)))
    assert told.case["sixth"] > 0.9
    assert (told.case_format, plain.case_format) == ("sixth", "")


def test_a_format_that_is_hardly_named_wrongly_counts_for_more():
    stereo = Piece(kind="card", named_format="stereo")
    cabinet = Piece(kind="card", named_format="cabinet")
    told = [read_formats(piece, load()).probabilities for piece in (stereo, cabinet)]
    assert told[0]["stereo"] > 0.98 > told[1]["cabinet"]


def test_a_named_format_counts_ninety_in_a_hundred():
    named = replace(Piece(), named_format="ninth")
    told = read_formats(named, world())
    # A wrong word is as common as its format is among the others: P(named ninth | another).
    wrong = {name: 0.1 * SHARES["ninth"] / (1 - SHARES[name]) for name in SIZES}
    weights = {name: SHARES[name] * (0.9 if name == "ninth" else wrong[name]) for name in SIZES}
    wanted = {name: weight / sum(weights.values()) for name, weight in weights.items()}
    assert told.probabilities == pytest.approx(wanted)
    assert told.best == "ninth"
    assert told.remark(world().formats) == ""


def test_a_rare_format_that_is_named_is_not_dropped():
    rare = replace(world().formats["ninth"], share=0.0005)
    knowledge = replace(world(), formats={**world().formats, "ninth": rare})
    told = read_formats(replace(Piece(), named_format="ninth"), knowledge)
    assert told.best == "ninth"
    assert told.probabilities["ninth"] > 0.75


def test_a_measure_goes_before_the_name_which_is_told_beside():
    named = replace(piece(plate=(83, 108)), named_format="ninth")
    told = read_formats(named, world())
    assert (told.best, told.called) == ("quarter", "ninth")
    assert told.probabilities["quarter"] > 0.99
    assert told.remark(world().formats) == "called ninth"
    lost = read_formats(replace(piece(plate=(140, 200)), named_format="ninth"), world())
    assert lost.best == ""
    assert lost.remark(world().formats) == "fits no size (nearest: quarter), called ninth"


def test_the_case_speaks_where_the_opening_fits_two_formats():
    between, case = (46.0, 59.0), (84.0, 97.0)
    alone = read_formats(piece(opening=between), world()).probabilities
    both = read_formats(piece(opening=between, case=case), world()).probabilities
    weights = world().weights
    same = sum(weights.reference[h] * weights.same_format[h] for h in BELONGING)
    cases = {name: density(name, "case", case) for name in SIZES}
    wanted = {}
    for name, share in SHARES.items():
        rest = sum(SHARES[g] * cases[g] for g in SIZES if g != name) / (1 - share)
        told = same * cases[name] + (1 - same) * rest
        wanted[name] = share * density(name, "opening", between) * told
    total = sum(wanted.values())
    assert both == pytest.approx({name: one / total for name, one in wanted.items()}, rel=1e-6)
    assert both["sixth"] > alone["sixth"]


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

    @pytest.mark.parametrize("case", [(84, 97), (97, 122), (65, 78), (88, 103)])
    def test_both_measures_by_enumeration(self, case):
        told = read_formats(piece(plate=(70, 83), case=case), world()).belonging
        wanted = self.enumerated((70, 83), case)
        np.testing.assert_allclose(told, wanted / wanted.max(), rtol=1e-9)

    def test_a_case_of_no_size_proves_nothing(self):
        told = read_formats(piece(plate=(70, 83), case=(90, 110)), world())
        assert (told.best, told.case, told.case_format) == ("sixth", {}, "")
        assert told.belonging == (1.0,) * len(BELONGING)

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


def test_the_least_usual_format_of_which_something_else_is_thought():
    """`usual` is the least share for which that is thought of, and belongs to it."""
    known = load()
    sixth = known.formats["sixth"]
    (plate,) = (one for one in known.offsets.values() if one.what == "plate")
    share = sixth.share_in("us")

    def shares(usual: float, **about: str) -> dict[str, float]:
        rows = {name: replace(one, usual=usual) if one is plate else one
                for name, one in known.offsets.items()}  # fmt: skip
        asked = Piece(region="us", **about)  # type: ignore[arg-type]
        found = list(meant(sixth, "plate", asked, replace(known, offsets=rows)))
        assert sum(one.share for one in found) == pytest.approx(1.0)
        return {one.what: one.share for one in found}

    rest = 1.0 - sum(plate.instead.values())
    assert shares(share) == pytest.approx({"plate": rest, **plate.instead})
    assert shares(share * 1.001) == {"plate": 1.0}
    loose = shares(share, kind="loose-plate")  # no mat whose opening could be meant
    assert loose == pytest.approx(
        {"plate": 1.0 - plate.instead["cut"], "cut": plate.instead["cut"]}
    )
