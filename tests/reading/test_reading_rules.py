"""Rules of the reading by hand: what is named, graded, thought likely, and told as a reason."""

import random
from dataclasses import replace
from functools import cache
from itertools import product
from math import sqrt
from types import SimpleNamespace

import numpy as np
import pytest
from every import every
from reading.bruteforce import Enumeration
from reading.smallworld import (
    HOUSINGS,
    PROCESSES,
    dated_check,
    knowledge_of,
    random_knowledge,
    random_piece,
    table_check,
    weights,
)
from scipy import stats

from appraise.base.measures import Measure
from appraise.knowledge import load
from appraise.knowledge.records import (
    BELONGING,
    UNJUDGED,
    YEARS,
    Answer,
    Knowledge,
    Offset,
    Years,
)
from appraise.reading.applying import applying, likely, progress
from appraise.reading.factors import dated_rows, state_rows
from appraise.reading.fits import offset_of
from appraise.reading.formats import read_formats, sizes_known
from appraise.reading.frame import belonging_rates, frame_of
from appraise.reading.influence import families_without, influences, prior_belonging, reasons
from appraise.reading.joint import UNLIKELY, may_be_odd
from appraise.reading.matter import as_it_lies, judged
from appraise.reading.named import (
    family_name,
    image_modern,
    made_in,
    modern_part,
    named_families,
)
from appraise.reading.reading import read
from appraise.reading.spans import PartExchange, span_of
from appraise.reading.words import word_for
from appraise.records.piece import Image, Piece

BARE = Piece()


@cache
def shipped() -> Knowledge:
    return load()


@every(
    ("families", "named"),
    [({"a": 0.8, "b": 0.2}, ("a",)), ({"a": 0.79, "b": 0.21}, ("a", "b")),
     ({"b": 0.21, "a": 0.79}, ("a", "b")), ({"a": 0.7, "b": 0.05, "c": 0.04}, ("a", "b")),
     ({"a": 0.7, "b": 0.049, "c": 0.048}, ("a",)), ({"a": 0.3}, ("a",)),
     ({"a": 0.3, "b": 0.36, "c": 0.34}, ("b", "c"))],
)  # fmt: skip
def test_one_process_is_named_from_eight_tenths_on_and_else_the_two_likeliest(families, named):
    assert named_families(families) == named


def test_a_family_is_called_as_the_trade_calls_it():
    assert family_name("photomechanical", shipped()) == "printed reproduction"
    assert family_name("salted-paper", shipped()) == "salted paper print"
    assert family_name("no-such", shipped()) == "no-such"


def modern(case: float, image: float, both: float, kind: str = "cased") -> SimpleNamespace:
    """As much of a reading as tells which part may be modern."""
    told = {"modern-case": case, "modern-image": image, "all-modern": both}
    return SimpleNamespace(
        piece=Piece(kind=kind), modern=case + image + both, belonging=told,
        joint=SimpleNamespace(frame=SimpleNamespace(cased=kind in ("cased", "empty-case"))),
    )  # fmt: skip


@every(
    ("reading", "part"),
    [(modern(0.85, 0.15, 0.0), "case"), (modern(0.84, 0.16, 0.0), "either"),
     (modern(0.15, 0.85, 0.0), "image"), (modern(0.16, 0.84, 0.0), "either"),
     (modern(0.15, 0.0, 0.85), "both"), (modern(0.16, 0.0, 0.84), "case"),
     (modern(0.0, 0.16, 0.84), "image"), (modern(0.1, 0.1, 0.6), "both"),
     (modern(0.4, 0.4, 0.0), "either"), (modern(0.1, 0.8, 0.0, "empty-case"), "case"),
     (modern(0.8, 0.1, 0.0, "card"), "image")],
)  # fmt: skip
def test_a_part_is_named_where_it_is_nearly_all_of_what_may_be_modern(reading, part):
    """Nearly all are seventeen in twenty; a case, an image, both, or it cannot be said which."""
    assert modern_part(reading) == part
    image = reading.belonging["modern-image"] + reading.belonging["all-modern"]
    assert image_modern(reading) == (reading.modern if reading.piece.kind == "card" else image)


# ENFSI Guideline for Evaluative Reporting in Forensic Science, 2015: the printed bands.
@every(
    ("ratio", "word"),
    [(1, "no"), (1.99, "no"), (2, "weak"), (9.99, "weak"), (10, "moderate"), (99.9, "moderate"),
     (100, "moderately strong"), (999, "moderately strong"), (1000, "strong"), (9999, "strong"),
     (10_000, "very strong"), (999_999, "very strong"), (1_000_000, "extremely strong")],
)  # fmt: skip
def test_the_bands_of_a_likelihood_ratio(ratio, word):
    assert word_for(ratio) == word_for(1 / ratio) == word
    for none in (0, -1, float("nan")):
        with pytest.raises(ValueError, match="above 0"):
            word_for(none)


@every(
    ("words", "chance"),
    [(("a",), 0.2), (("a", "b"), 0.5), (("a", "b", "c"), 1.0), (("a", "zzz"), 0.2), ((), 1.0),
     (("zzz",), 1.0)],
)  # fmt: skip
def test_a_piece_is_as_likely_of_some_sorts_as_they_are_together(words, chance):
    assert likely(words, {"a": 0.2, "b": 0.3, "c": 0.6}) == pytest.approx(chance)


def test_a_check_of_some_sorts_is_asked_from_one_in_twenty_on():
    rows = dict.fromkeys(BELONGING, (0.5, 0.5))
    some = table_check("plate.some", {"belonging": rows}, only=("mirror",))
    risky = table_check("plate.risk", {"belonging": rows}, risk="conservator")
    knowledge = knowledge_of([some, risky, table_check("mat.any", {"belonging": rows})])

    def asked(chance: float, piece: Piece = BARE, everything: bool = False) -> list[str]:
        return [one.id for one in applying(piece, knowledge, {"mirror": chance}, everything)]

    assert asked(0.05) == ["plate.some", "mat.any"]
    assert asked(0.049) == ["mat.any"]
    answered = Piece().with_finding("plate.some", "a0")
    assert asked(0.049, answered) == ["plate.some", "mat.any"]
    assert asked(1.0, everything=True) == ["plate.some", "plate.risk", "mat.any"]
    done = progress(answered, applying(answered, knowledge, {"mirror": 1.0}))
    assert done == {"plate": (1, 1), "mat": (0, 1)}


def test_what_lies_in_a_case_makes_it_another_kind():
    image = (Image("left", {}),)
    told = {
        content: as_it_lies(Piece(images=image).with_finding("piece.content", content))
        for content in ("nothing", "package", "painting", "keepsake", "fired", "photograph")
    }
    assert [one.kind for one in told.values()] == ["empty-case"] * 2 + ["other"] * 3 + ["cased"]
    assert [one.images for one in told.values()] == [()] * 5 + [image]
    card = Piece(kind="card").with_finding("piece.content", "nothing")
    assert as_it_lies(card) is card
    assert judged(Piece(kind="card"))
    assert not judged(Piece())
    assert judged(Piece(named_format="sixth"))
    assert not any(judged(Piece(kind=kind, named_format="sixth")) for kind in UNJUDGED)


@every("seed", range(0, 90, 3))
def test_families_without_a_finding_are_as_if_it_had_not_been_made(seed):
    """Of findings that share no fact with others, also those that date; whatever they bear on."""
    rng = random.Random(seed)
    knowledge = random_knowledge(rng)
    piece = random_piece(rng, knowledge)
    told = read(piece, knowledge)
    rest, states = families_without(told, knowledge), influences(told, knowledge)
    assert set(rest) == set(states)
    for one in told.evidence:
        if not one.check.group:
            wanted = read(piece.without_finding(one.id), knowledge)
            assert rest[one.id] == pytest.approx(wanted.families, rel=1e-8)
            assert states[one.id] == pytest.approx(wanted.states, rel=1e-8)


@every("seed", range(6))
def test_the_look_of_the_housing_before_all_else_by_enumeration(seed):
    rng = random.Random(seed)
    knowledge = random_knowledge(rng)
    look = table_check("case.material", {"housing": {n: (0.1 * k + 0.1, 0.9 - 0.1 * k)
                                                     for k, n in enumerate(HOUSINGS)}})  # fmt: skip
    knowledge = replace(knowledge, checks={**knowledge.checks, look.id: look})
    piece = random_piece(rng, knowledge).with_finding(look.id, "a0", "in-hand")
    plain = Enumeration(piece, knowledge)
    weight = plain.m * plain.table_of(look, piece.findings[look.id], False).ravel()
    wanted = sum(
        weight[m] * plain.p[p] * plain.rates()[m, p]
        for m in range(len(plain.m))
        for p in range(len(plain.p))
    )
    assert prior_belonging(read(piece, knowledge)) == pytest.approx(wanted / wanted.sum())
    bare = piece.without_finding(look.id)
    wanted = np.einsum("m,p,mph->h", plain.m, plain.p, plain.rates())
    assert prior_belonging(read(bare, knowledge)) == pytest.approx(wanted / wanted.sum())


def test_reasons_are_the_odds_with_over_those_without():
    rng = random.Random(5)
    knowledge = random_knowledge(rng)
    told = read(random_piece(rng, knowledge, 12), knowledge)
    before = influences(told, knowledge)
    case, together = BELONGING.index("modern-case"), BELONGING.index("together")
    last = BELONGING.index("all-modern")

    def odds(states: tuple[float, ...]) -> float:
        return (states[case] + states[last]) / states[together]

    wanted = {name: odds(told.states) / odds(states) for name, states in before.items()}
    found = reasons(told, before, ("modern-case", "all-modern"))
    assert len(found) == len(wanted) > 3
    for one in found:
        ratio = wanted[one.check]
        assert one.ratio == pytest.approx(max(ratio, 1 / ratio))
        assert one.towards == ("modern" if ratio >= 1 else "together")
        assert one.word == word_for(one.ratio)
    assert [one.ratio for one in found] == sorted((one.ratio for one in found), reverse=True)
    above = reasons(told, before, ("modern-case", "all-modern"), least=1.0)
    assert {one.check for one in above} == {name for name, ratio in wanted.items() if ratio > 1}
    single = reasons(told, before, ("married",))
    assert {one.towards for one in single} <= {"married", "together"}


@every("seed", range(0, 60, 4))
def test_how_much_the_evidence_says_that_a_part_is_an_exchange(seed):
    """Posterior over prior odds; the likeliest first."""
    rng = random.Random(seed)
    knowledge = random_knowledge(rng)
    told, w = read(random_piece(rng, knowledge), knowledge), knowledge.weights
    usual = (1 - w.disturbed) * w.exchange[0] + w.disturbed * w.exchange[1]
    rates = {"pad": w.pad, "clasp": w.clasp}
    for one in told.exchanged:
        prior = rates.get(one.part, usual)
        odds = one.probability / (1 - one.probability)
        assert one.ratio == pytest.approx(odds / (prior / (1 - prior)))
    chances = [one.probability for one in told.exchanged]
    assert chances == sorted(chances, reverse=True)


@every(
    ("chance", "ratio", "told"),
    [(0.3, 2.0, True), (0.29, 2.0, False), (0.3, 1.9, False), (0.9, 9.0, True)],
)
def test_a_part_is_told_as_the_odd_one_where_the_evidence_says_so(chance, ratio, told):
    part = PartExchange("mat", chance, ratio)
    other = PartExchange("pad", 0.2, 99.0)
    reading = replace(read(Piece(), knowledge_of([])), exchanged=(part, other))
    assert (reading.odd_one_out is part) is told
    assert replace(reading, exchanged=()).odd_one_out is None


def test_of_several_subjects_the_one_that_is_copied_most_counts():
    knowledge = replace(knowledge_of([]), weights=weights(famous={"soldier": 4, "child": 2}))
    frame = frame_of(knowledge, "cased", "us")
    for subjects, factor in (((), 1), (("child",), 2), (("child", "soldier"), 4), (("dog",), 1)):
        assert frame.modern("market", subjects) == (1, factor)
    channel = knowledge.weights.modern["online"]
    assert frame.modern("online", ("child",)) == pytest.approx((channel, 2 * channel))


def test_a_modern_part_by_its_odds_and_what_both_share():
    """Odds of 1 in 9 four times over are 4 in 9; a card's picture is modern with or without."""
    knowledge = knowledge_of([])
    rows = {
        name: replace(one, modern_image=0.1, shares={"cased": 1.0, "card": 1.0})
        for name, one in knowledge.processes.items()
    }
    cases = {name: replace(one, modern_case=0.2) for name, one in knowledge.housings.items()}
    knowledge = replace(knowledge, processes=rows, housings=cases)
    card = belonging_rates(frame_of(knowledge, "card", "us"), (1.0, 4.0))[0, 0]
    image = 4 / 13
    both = weights().all_modern * image
    assert card == pytest.approx([1 - image, 0, 0, image - both, both])
    cased = belonging_rates(frame_of(knowledge, "cased", "us"), (1.0, 4.0))[0, 0]
    both = max(0.2 * image, weights().all_modern * 0.2)
    assert cased[2:] == pytest.approx([0.2 - both, image - both, both])
    assert sum(cased) == pytest.approx(1.0)


def test_a_piece_that_is_odd_all_over_is_weighed_where_it_could_tell():
    assert pytest.approx(np.log(1e-4)) == UNLIKELY
    for most, told in ((UNLIKELY - np.log(0.01) + 1e-9, True), (UNLIKELY - np.log(0.01), False)):
        factors = SimpleNamespace(tables={"a": SimpleNamespace(most=most - 1.0),
                                          "b": SimpleNamespace(most=1.0)})  # fmt: skip
        assert bool(may_be_odd(factors, 0.01)) is told


def test_a_name_counts_from_the_first_year_of_its_process_and_one_without_years_says_nothing():
    frame = frame_of(knowledge_of([], random.Random(2)), "cased", "us")
    years = np.array(YEARS)
    first = {
        one.id: min((row.first for row in one.years.values()), default=None)
        for one in frame.processes
    }
    assert first["plain"] is None
    for named in (("plain",), ("mirror",), ("plain", "glassy"), ("glassy", "mirror")):
        mine = [one for one in frame.processes if one.family in named]
        dated = [first[one.id] for one in mine if first[one.id]]
        for one, line in zip(frame.processes, made_in(frame, named), strict=True):
            if one in mine:
                start = first[one.id] or (None if dated else YEARS[0])
            else:
                start = min(dated, default=YEARS[0])
            assert [*line] == [float(start is not None and year >= start) for year in years]


@every("level", [0.5, 0.8, 0.95])
def test_a_span_is_the_central_part_as_scipy_has_it(level):
    line = np.random.default_rng(4).random(len(YEARS)) ** 6
    known = stats.rv_discrete(values=(YEARS, line / line.sum()))
    found = span_of(line, level)
    tail = (1 - level) / 2
    wanted = [int(known.ppf(q)) for q in (tail, 0.5, 1 - tail)]
    assert [found.first, found.median, found.last] == wanted
    assert found.level == level


@every(
    ("more", "known"),
    [({}, False), ({"measured": ("plate", "case")}, True), ({"measured": ("plate",)}, False),
     ({"measured": ("opening", "recess")}, True), ({"measured": ("case", "recess")}, False),
     ({"measured": ("case",), "named_format": "sixth"}, True), ({"named_format": "sixth"}, False)],
)  # fmt: skip
def test_the_sizes_are_known_where_picture_and_case_are(more, known):
    sizes = {what: Measure.parse("70 x 83 mm") for what in more.pop("measured", ())}
    assert sizes_known(Piece(measured=sizes, **more)) is known


@every(
    ("away", "spread", "fits"),
    [(sqrt(11.7 * 5), None, True), (sqrt(11.9 * 5), None, False), (sqrt(11.7 * 10), 3.0, True),
     (sqrt(11.9 * 10), 3.0, False)],
)  # fmt: skip
def test_a_measure_fits_within_what_one_in_370_passes_by_chance(away, spread, fits):
    """Two sides, scipy's chi-squared; measuring adds 2 mm where no row says it, both ways none."""
    assert stats.chi2.sf(11.8, 2) == pytest.approx(1 / 370, rel=0.02)
    knowledge = knowledge_of([])
    if spread:
        offset = Offset("package", (0.0, 0.0), spread, knowledge.formats["only"].basis)
        knowledge = replace(knowledge, offsets={"package": offset})
    piece = Piece(measured={"package": Measure.of_mm(70.0, 83.0 + away)})
    assert read_formats(piece, knowledge).best == ("only" if fits else "")


@every(
    ("region", "years"),
    [("us", (1851, 1852, 1853, 1854)), ("gb", (1841, 1842, 1843, 1844))],
)
def test_the_timeline_tells_the_years_of_the_region_else_those_of_none(region, years):
    told = {"": Years(1841, 1842, 1843, 1844, "high"), "us": Years(1851, 1852, 1853, 1854, "high")}
    style = dated_check("mat.shape", [Answer("a", "a style", told, 0.4), Answer("b", "other")])
    piece = Piece(region=region).with_finding("mat.shape", "a")
    reading = read(piece, knowledge_of([style]))
    assert [(one.part, one.check, one.answer, one.years) for one in reading.timeline] == [
        ("mat", "mat.shape", "a style", years)
    ]
    assert reading.timeline[0].exchanged == reading.exchanged[0].probability
    other = read(Piece().with_finding("mat.shape", "b"), knowledge_of([style]))
    assert other.timeline == ()


@every("seed", range(12))
def test_the_answers_of_every_check_share_what_there_is_in_every_state_and_year(seed):
    """However they are known, whoever leads; also where an answer takes the years away."""
    knowledge = random_knowledge(random.Random(seed))
    frame = frame_of(knowledge, "cased", "us")
    for check, known, leads in product(knowledge.checks.values(), weights().reliability, (0, 1)):
        told = (frame, check.id, known, False, bool(leads))
        for rows in [state_rows(*told)] if check.tables else [dated_rows(*told)]:
            assert rows.min() >= 0.0
            assert rows.sum(axis=0) == pytest.approx(np.ones(rows.shape[1:]))


def test_what_measuring_adds_is_that_of_the_material_else_of_none_else_any():
    basis = knowledge_of([]).formats["only"].basis
    rows = {
        "moulded": Offset("case", (1.0, 1.0), 1.0, basis, "moulded"),
        "plain": Offset("case", (2.0, 2.0), 1.0, basis),
        "recess": Offset("recess", (3.0, 3.0), 1.0, basis, "moulded"),
    }
    knowledge = replace(knowledge_of([]), offsets=rows)
    assert offset_of(knowledge, "case", "moulded") is rows["moulded"]
    assert offset_of(knowledge, "case", "wooden") is rows["plain"]
    assert offset_of(knowledge, "case", "") is rows["plain"]
    assert offset_of(knowledge, "recess", "wooden") is rows["recess"]
    assert offset_of(knowledge, "plate", "") is None


def test_a_comparison_by_eye_is_asked_until_both_were_measured():
    sizes = {what: Measure.of_mm(70.0, 83.0) for what in ("plate", "case")}
    for measured in ({}, {"plate": sizes["plate"]}, {"case": sizes["case"]}, sizes):
        asked = {check.id for check in read(Piece(measured=measured), shipped()).checks}
        assert ("package.size-match" in asked) is (len(measured) < 2)


def test_a_finding_that_says_nothing_is_no_reason():
    colour = table_check("plate.colour", {"process": dict.fromkeys(PROCESSES, (0.7, 0.3))})
    told = read(Piece().with_finding(colour.id, "a0"), knowledge_of([colour]))
    before = {colour.id: told.states}
    assert reasons(told, before, ("married",), least=1.0) == ()
    (one,) = reasons(told, before, ("married",))
    assert (one.ratio, one.towards, one.word) == (1.0, "married", "no")
