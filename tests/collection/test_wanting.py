"""Whether a piece is on the list, and whether one has its twin: invented pieces throughout."""

import datetime as dt
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rapidfuzz.fuzz import ratio

from appraise.base.money import Money
from appraise.collection import wanting
from appraise.collection.wanting import (
    SHOWN,
    Matches,
    Sight,
    holds,
    match_of,
    matching,
    owned,
    sight_of,
    twins,
)
from appraise.knowledge import load
from appraise.listing.first_look import understand
from appraise.pricing.outcomes import Outcome, with_outcome
from appraise.reading.reading import read
from appraise.records.entry import Entry
from appraise.records.want import Want

KNOWLEDGE = load()
DAY = dt.date(2026, 11, 7)
SIGHT = Sight(
    "cased",
    {"ambrotype": 0.8, "thermoplastic": 0.9},
    "sixth",
    "scrolling vine",
    "girl in a union case",
    "child",
    (1856, 1862),
    Money.parse("45 USD"),
)


def wish(**more):
    return Want("a wish", DAY, **more)


@pytest.mark.parametrize(
    ("want", "reasons"),
    [
        (wish(formats=("sixth",)), ("sixth plate",)),
        (wish(formats=("ninth", "sixth"), motif="vine"), ("sixth plate", "vine")),
        (wish(motif="Vines"), ("Vines",)),
        (wish(motif="scroling vine"), ("scroling vine",)),
        (wish(process="ambrotype", housing="thermoplastic"), ("ambrotype", "thermoplastic")),
        (wish(subject="child"), ("child",)),
        (wish(first=1855, last=1860), ("1855 to 1860",)),
        (wish(formats=("ninth",)), None),
        (wish(motif="oak leaves"), None),
        (wish(process="tintype"), None),
        (wish(kind="card"), None),
        (wish(subject="soldier"), None),
        (wish(first=1862), None),
        (wish(), None),
        (wish(most=Money.parse("70 USD")), None),
    ],
)
def test_all_that_a_wish_names_must_be_met(want, reasons):
    found = match_of("a" * 16, want, SIGHT, KNOWLEDGE)
    assert (found.reasons if found else None) == reasons


@pytest.mark.parametrize(
    ("most", "above"),
    [("40 USD", True), ("45 USD", False), ("50 USD", False), ("1 EUR", False)],
)
def test_what_is_asked_above_the_most_is_told(most, above):
    want = wish(motif="vine", most=Money.parse(most))
    found = match_of("a" * 16, want, SIGHT, KNOWLEDGE)
    assert ("asked above your" in found.says) == above


@given(st.floats(0, 1))
def test_a_likelier_process_never_takes_a_wish_back(chance):
    want = wish(process="tintype")
    met = [
        match_of("", want, replace(SIGHT, chances={"tintype": one}), KNOWLEDGE) is not None
        for one in (chance, (1 + chance) / 2)
    ]
    assert met[0] <= met[1]


def test_words_hold_by_likeness_and_small_ones_do_not_count():
    assert holds("the vine", "a vine pattern case")
    assert not holds("the case", "the case")
    assert not holds("", "vine")
    assert not holds("vine", "wine barrel")


@given(st.text("abeilnrstv", max_size=9), st.text("abeilnrstv", max_size=9))
def test_whether_words_are_near_is_as_the_string_library_has_it(one, other):
    assert wanting._near(one, other) == (ratio(one, other) >= wanting.NEAR)


def test_a_piece_as_it_was_read_meets_a_wish():
    piece = understand("sixth ambro thermoplastic vine 45", KNOWLEDGE).piece
    found = match_of("", wish(motif="vine", formats=("sixth",)), sight_of(read(piece, KNOWLEDGE)),
                     KNOWLEDGE)  # fmt: skip
    assert found is not None


def bought(day, motif="vine", **more):
    values = {
        "record": "bought",
        "process": "ambrotype",
        "housing": "thermoplastic",
        "format": "sixth",
        "title": f"{motif} case",
        "motif": motif,
        "paid": Money.parse("40 USD"),
    }
    return Entry(date=day, id=f"{day:%Y%m%d}00000000", **{**values, **more})


SORT = next(
    one.id
    for one in KNOWLEDGE.processes.values()
    if one.family == "ambrotype" and one.id != one.family
)
MARCH, MAY, JUNE = dt.date(2026, 3, 1), dt.date(2026, 5, 1), dt.date(2026, 6, 1)


@pytest.mark.parametrize(
    ("entries", "days"),
    [
        ([bought(MARCH)], ["2026-03-01"]),
        ([bought(MARCH), bought(MAY, "oak leaves")], ["2026-03-01"]),
        ([bought(MARCH), bought(MAY), bought(JUNE, record="sold")], ["2026-05-01"]),
        ([bought(MARCH), bought(JUNE, record="returned")], []),
        ([bought(MARCH, record="asking")], []),
        ([bought(MARCH, format="ninth")], []),
        ([bought(MARCH, process="tintype")], []),
        ([with_outcome(bought(MARCH), Outcome(MAY, price=Money.parse("50 USD")))], []),
        ([bought(MARCH, process=SORT)], ["2026-03-01"]),
    ],
)
def test_twins_are_what_one_owns_of_the_same_and_has_not_sold(entries, days):
    kept = owned(entries, KNOWLEDGE)
    sight = replace(SIGHT, motif="vine")
    assert [one.day for one in twins(kept, sight, KNOWLEDGE)] == days
    assert twins(kept, replace(sight, motif=""), KNOWLEDGE) == ()


def test_of_many_wishes_and_twins_the_first_few_are_told_and_all_are_in_json():
    wants = [
        *((str(n), Want(f"vine {n}", DAY, motif="vine")) for n in range(5)),
        ("x", wish(motif="oak")),
    ]
    wanted = matching(wants, SIGHT, KNOWLEDGE)
    kept = owned([bought(MARCH), bought(MAY)], KNOWLEDGE)
    both = Matches(wanted, twins(kept, replace(SIGHT, motif="vine"), KNOWLEDGE))
    assert [one.id for one in wanted] == ["0", "1", "2", "3", "4"]
    assert len(both.lines) == SHOWN + 2
    assert both.lines[SHOWN:] == tuple(one.says for one in both.twins)
    told = both.as_json()
    assert [one["id"] for one in told["wanted"]] == [one.id for one in wanted]
    assert {one["since"] for one in told["twins"]} == {"2026-03-01", "2026-05-01"}
    assert Matches().lines == ()


@pytest.mark.parametrize(
    ("years", "met"),
    [((1856, 1862), True), ((1850, 1861), True), ((1850, 1870), False), (None, False)],
)
def test_half_of_the_years_of_a_picture_lie_within_those_of_a_wish(years, met):
    want = wish(first=1856, last=1863)
    assert (match_of("", want, replace(SIGHT, years=years), KNOWLEDGE) is not None) == met
