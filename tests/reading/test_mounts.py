"""A card's size as evidence of its years: against the sum over formats done anew with numpy."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from appraise.base.measures import Measure
from appraise.knowledge import load
from appraise.knowledge.crossing import MOUNT_FORM
from appraise.knowledge.records import YEARS, Knowledge, Years
from appraise.reading.formats import read_formats
from appraise.reading.frame import prior_years
from appraise.reading.mounts import mount_form
from appraise.reading.reading import read
from appraise.records.piece import Piece
from appraise.verdict import judge, next_steps

CARTE, CABINET = "61 x 100 mm", "108 x 165 mm"


def mount_years(piece: Piece, knowledge: Knowledge) -> np.ndarray | None:
    """What the size says of the years; None where it says nothing."""
    told = mount_form(piece, knowledge, read_formats(piece, knowledge))
    return told.line if told is not None else None


def card(size: str = "", **fields: object) -> Piece:
    measured = {"mount": Measure.parse(size)} if size else {}
    return Piece(kind="card", region="us", measured=measured, **fields)  # type: ignore[arg-type]


def heights(years: Years | None, floors: dict[str, float]) -> np.ndarray:
    """A floored trapezoid by interpolation between its corners; flat where there are none."""
    if years is None:
        return np.ones(len(YEARS))
    corners = (years.first - 1, years.start, years.end, years.last + 1)
    shape = np.interp(YEARS, corners, (0, 1, 1, 0), left=0, right=0)
    floor = floors[years.confidence]
    return floor + (1 - floor) * shape


@pytest.mark.parametrize("size", [CARTE, CABINET, "64 x 104 mm", "133 x 216 mm", "90 x 178 mm"])
def test_the_sum_over_formats_of_chance_times_years(size):
    knowledge = load()
    check, floors = knowledge.checks[MOUNT_FORM], knowledge.weights.floors
    prior = np.array(prior_years(knowledge.weights, "card", "us"))
    wanted = np.zeros(len(YEARS))
    for name, chance in read_formats(card(size), knowledge).probabilities.items():
        form = knowledge.formats[name]
        told = check.answers[check.index(form.form)].years if form.form else form.years
        line = heights(told.get("us") or told.get(""), floors)
        wanted += chance * line / (line @ prior)
    belief = knowledge.weights.reliability["in-hand"]["form"]
    wanted = belief * wanted + 1 - belief
    found = mount_years(card(size), knowledge)
    np.testing.assert_allclose(found, wanted, rtol=2e-3)
    assert np.array(found) @ prior == pytest.approx(1, abs=2e-3)


@pytest.mark.parametrize(
    ("size", "answer"), [(CARTE, "carte"), ("63 x 103 mm", "carte"), (CABINET, "cabinet")]
)
def test_a_measure_dates_as_the_answer_does(size, answer):
    knowledge = load()
    measured = read(card(size), knowledge)
    answered = read(card().with_finding(MOUNT_FORM, answer, "in-hand"), knowledge)
    bare = read(card(), knowledge)
    np.testing.assert_allclose(measured.year_weights, answered.year_weights, atol=2e-4)
    assert measured.together != bare.together


@pytest.mark.parametrize("answer", ["carte", "cabinet"])
def test_the_answer_leads_where_there_are_both(answer):
    knowledge = load()
    both = card(CABINET).with_finding(MOUNT_FORM, answer, "in-hand")
    alone = card().with_finding(MOUNT_FORM, answer, "in-hand")
    assert mount_years(both, knowledge) is None
    assert read(both, knowledge).year_weights == read(alone, knowledge).year_weights


def test_cannot_tell_leaves_the_measure():
    knowledge = load()
    untold = card(CARTE).with_finding(MOUNT_FORM, "cannot-tell")
    np.testing.assert_array_equal(
        mount_years(untold, knowledge), mount_years(card(CARTE), knowledge)
    )


def test_a_named_form_dates_too():
    knowledge = load()
    named = read(card(named_format="carte-de-visite"), knowledge).together
    measured = read(card(CARTE), knowledge).together
    assert measured.first <= named.first + 3
    assert named.last - named.first < 45


@pytest.mark.parametrize(
    "piece",
    [
        card(),
        card("3 1/2 x 5 1/2 in"),  # a postcard, whose size no mount has
        replace(card(CARTE), kind="cased"),
        replace(card(CARTE), kind="lantern-slide"),
    ],
)
def test_nothing_where_no_card_was_measured(piece):
    assert mount_years(piece, load()) is None


def test_a_round_snapshot_is_no_carte():
    # Camera of 1888, sold from 1889: What's with the round photograph? (2010), American
    # Antiquarian Society.
    knowledge = load()
    snapshot = read(card("2 1/2 in dia"), knowledge)
    assert snapshot.formats.best == "circular"
    assert snapshot.together.first >= 1886


def test_the_timeline_names_the_form_and_says_how_it_is_known():
    knowledge = load()
    rows = [one for one in read(card(CARTE), knowledge).timeline if one.check == MOUNT_FORM]
    assert [(one.part, one.answer) for one in rows] == [
        (knowledge.checks[MOUNT_FORM].part, "carte-de-visite mount, by its size")
    ]
    years = knowledge.checks[MOUNT_FORM].answers[0].years["us"]
    assert rows[0].years == (years.first, years.start, years.end, years.last)
    answered = card(CARTE).with_finding(MOUNT_FORM, "carte", "in-hand")
    rows = [one for one in read(answered, knowledge).timeline if one.check == MOUNT_FORM]
    assert [one.answer for one in rows] != ["carte-de-visite mount, by its size"]


def test_a_measured_card_is_judged_with_what_to_look_at_next():
    verdict = judge(card(CARTE), load(), None, date(2026, 11, 25))
    steps = next_steps(verdict, load())
    assert steps.proposals
    assert all(one.check != MOUNT_FORM for one in steps.proposals[:1])


@pytest.mark.parametrize("size", [CARTE, CABINET, "133 x 216 mm", "90 x 178 mm"])
@pytest.mark.parametrize("region", ["us", "gb", "eu", "unknown"])
def test_the_four_years_told_are_those_of_the_region(size, region):
    """Its own where the row has them, else those of no region, else those of another."""
    knowledge = load()
    check = knowledge.checks[MOUNT_FORM]
    piece = replace(card(size), region=region)
    told = mount_form(piece, knowledge, read_formats(piece, knowledge))
    form = knowledge.formats[told.form]
    known = check.answers[check.index(form.form)].years if form.form else form.years
    usual = known.get("", next(iter(known.values())))
    assert told.years == known.get(region, usual)


def test_years_of_a_region_come_before_those_of_none():
    knowledge = load()
    check = knowledge.checks[MOUNT_FORM]
    carte = check.answers[check.index("carte")]
    own = carte.years["gb"]
    both = replace(carte, years={"": replace(own, first=own.first - 1), "gb": own})
    answers = tuple(both if one is carte else one for one in check.answers)
    other = replace(
        knowledge, checks={**knowledge.checks, MOUNT_FORM: replace(check, answers=answers)}
    )
    for region, years in (("gb", own), ("us", both.years[""])):
        piece = replace(card(CARTE), region=region)
        assert mount_form(piece, other, read_formats(piece, other)).years == years
