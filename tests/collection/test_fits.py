"""What in stock goes with a loose plate: sizes against published ones, rules that always hold.

An inch is 25.4 mm. Sizes of plates: "Daguerreotypes", "Ambrotypes and Tintypes", Library of
Congress. Case sizes: objects as their holders record them. Continental sizes: from memory, by the
Paris inch of 27.07 mm. What fits what is otherwise a judgement of the knowledge files.
"""

import datetime as dt
from dataclasses import replace

import pytest
from every import every
from hypothesis import given
from hypothesis import strategies as st
from thorough import tries

from appraise.base.measures import Measure
from appraise.collection.fits import conduct, loose, parts_for, plates_for
from appraise.collection.sizing import UNKNOWN, WORDS, plates_of, size_up
from appraise.knowledge import load
from appraise.records.part import Part, Seen, Size
from appraise.records.piece import Piece

KNOWLEDGE = load()
DAY = dt.date(2026, 11, 7)
PLATE = Piece(title="a loose plate", kind="loose-plate")


def plate(size="", form=""):
    measured = {"plate": Measure.parse(size)} if size else {}
    return replace(PLATE, measured=measured, named_format=form)


def case(size="", what="outside", material="leather-wood", form="", **more):
    sizes = (Size(what, size),) if size else ()
    return Part("a case", DAY, "case", material, form, sizes, **more)


def word(part, piece):
    return size_up(part, plates_of(piece, KNOWLEDGE), KNOWLEDGE).word


# Recorded objects, closed: leather cases 12.5 to 15 mm wider and 9.5 to 13.5 mm higher than their
# plates (Harvard, Ford, Getty, Oregon), thermoplastic ones 13 to 19 and 11.5 to 16 mm.
@pytest.mark.parametrize(
    ("size", "material", "form", "told"),
    [
        ("83 x 95 mm", "leather-wood", "sixth", "fits"),
        ("86 x 98 mm", "thermoplastic", "sixth", "fits"),
        ("64 x 75 mm", "thermoplastic", "ninth", "tight"),  # recorded: 64 x 75 mm, ninth plate
        ("64 x 76 mm", "leather-wood", "ninth", "fits"),
        ("96 x 120 mm", "leather-wood", "quarter", "fits"),
        ("120.5 x 149 mm", "leather-wood", "half", "tight"),  # recorded with a half plate
        ("83 x 95 mm", "leather-wood", "ninth", "too large"),
        ("83 x 95 mm", "leather-wood", "quarter", "too small"),
        ("64 x 76 mm", "leather-wood", "sixth", "too small"),
        ("120.5 x 149 mm", "leather-wood", "half-uk", "too small"),  # an inch longer
        ("64 x 76 mm", "leather-wood", "paris-ninth", "too small"),  # 8 mm taller than a ninth
        ("", "leather-wood", "", UNKNOWN),
    ],
)
def test_cases_by_their_outside(size, material, form, told):
    assert word(case(size, material=material), plate(form=form)) == told


@pytest.mark.parametrize(
    ("recess", "size", "told"),
    [
        ("2 7/8 x 3 3/8 in", "2 3/4 x 3 1/4 in", "fits"),  # sixth plate: 2 3/4 x 3 1/4 in
        ("2 1/8 x 2 5/8 in", "2 x 2 1/2 in", "fits"),  # ninth: 2 x 2 1/2 in
        ("3 3/8 x 4 3/8 in", "3 1/4 x 4 1/4 in", "fits"),  # quarter: 3 1/4 x 4 1/4 in
        ("4 3/8 x 5 5/8 in", "4 1/4 x 5 1/2 in", "fits"),  # half: 4 1/4 x 5 1/2 in
        ("6 5/8 x 8 5/8 in", "6 1/2 x 8 1/2 in", "fits"),  # whole: 6 1/2 x 8 1/2 in
        ("2 7/8 x 3 3/8 in", "2 x 2 1/2 in", "too large"),
        ("2 7/8 x 3 3/8 in", "3 1/4 x 4 1/4 in", "too small"),
        ("2 7/8 x 3 3/8 in", "3 1/4 x 2 3/4 in", "fits"),  # whichever way up it was measured
    ],
)
def test_cases_by_their_recess(recess, size, told):
    assert word(case(recess, "recess"), plate(size)) == told


@every("form", ["whole", "half", "quarter", "sixth", "ninth", "sixteenth"])
@every("part", [one for one in KNOWLEDGE.spares if one != "plate"])
def test_parts_of_one_format_fit_and_say_that_nothing_was_measured(part, form):
    found = size_up(
        Part("a part", DAY, part, "", form), plates_of(plate(form=form), KNOWLEDGE), KNOWLEDGE
    )
    assert found.word in ("fits", "tight")  # sixteenth names three sizes
    assert found.by == ("format", "format")


def test_the_mm_are_told_for_either_side():
    found = size_up(
        case("73 x 86 mm", "recess"), plates_of(plate("69 x 83 mm"), KNOWLEDGE), KNOWLEDGE
    )
    assert found.room == pytest.approx((1.5, 0.5))
    assert found.by == ("recess", "plate")


tenths = st.integers(300, 2500).map(lambda n: n / 10)


@tries(100)
@given(tenths, tenths, tenths, tenths, st.floats(0, 60), st.floats(0, 60))
def test_a_larger_recess_never_goes_back_to_a_smaller_word(w, h, pw, ph, more, taller):
    piece = plate(f"{pw} x {ph} mm")
    small, large = (
        WORDS.index(word(case(f"{a:.1f} x {b:.1f} mm", "recess"), piece))
        for a, b in ((w, h), (w + more, h + taller))
    )
    assert small <= large


@tries(50)
@given(tenths, tenths, st.sampled_from([one for one in KNOWLEDGE.spares if one != "plate"]))
def test_chances_are_chances_and_what_is_too_small_or_too_large_hardly_goes(w, h, part):
    made = Part("a part", DAY, part, "leather-wood", sizes=(Size("outside", f"{w} x {h} mm"),))
    found = size_up(made, plates_of(plate(form="sixth"), KNOWLEDGE), KNOWLEDGE)
    assert 0 <= found.chance <= 1
    if found.word in ("too small", "too large"):
        assert found.chance <= 0.067  # 1.5 standard deviations short: 1 in 15


# A preserver with pointed corners is of the late 1850s and after, silk pads are of the 1840s, and
# the cold tone of ungilded plates ends early in the 1840s: the dated rows of the knowledge files.
EARLY = case(form="sixth", seen=(Seen("pad.pile", "silk"), Seen("case.covering", "plain")))
MARKED = case(
    form="sixth", material="thermoplastic", seen=(Seen("case.mark", "littlefield"),)
)  # a maker's mark with the patent of 1856 and 1857, used from 1858
OLD = {
    "plate.mirror": "flips",
    "plate.magnet": "no",
    "plate.tone": "cold",
    "sitter.womens-sleeve": "tight",
}
LATER = Part("points", DAY, "preserver", "brass", "sixth", seen=(Seen("preserver.form", "points"),))


@pytest.mark.parametrize(
    ("part", "findings", "told"),
    [
        (EARLY, {"sitter.uniform": "war", "claim.process": "tintype"}, "early"),
        (EARLY, {"plate.tone": "cold", "claim.process": "daguerreotype"}, "fits"),
        (LATER, {"claim.process": "ambrotype", "sitter.mens-collar": "folded"}, "fits"),
        (MARKED, OLD, "late"),
        (MARKED, {"claim.process": "tintype", "sitter.uniform": "war"}, "fits"),
        (replace(EARLY, seen=(), material=""), {"claim.process": "ambrotype"}, "undated"),
        (replace(EARLY, made="own-work"), {"claim.process": "tintype"}, "dates nothing"),
        (replace(LATER, made="reproduction"), {"claim.process": "tintype"}, "dates nothing"),
    ],
)
def test_the_years_of_part_and_picture(part, findings, told):
    piece = plate(form="sixth")
    for check, answer in findings.items():
        piece = piece.with_finding(check, answer, "in-hand")
    (found,) = parts_for(loose(piece, KNOWLEDGE), [("a" * 16, part)], KNOWLEDGE)
    assert found.years.word == told
    assert (found.years.part is None) == (told in ("undated", "dates nothing"))


def test_regions_are_told_apart_where_both_are_known():
    told = []
    for region in ("", "gb", "us"):
        piece = replace(plate(form="sixth"), region="gb")
        part = case(form="sixth", region=region)
        (found,) = parts_for(loose(piece, KNOWLEDGE), [("a" * 16, part)], KNOWLEDGE)
        told.append(found.years.region)
    assert told == ["", "same", "other"]


def test_the_order_is_by_both_and_used_up_parts_and_plates_are_left_out():
    late = plate(form="sixth").with_finding("claim.process", "tintype", "in-hand")
    late = late.with_finding("sitter.uniform", "war", "in-hand")
    stock = [
        ("1" * 16, case(form="ninth")),
        ("2" * 16, EARLY),
        ("3" * 16, case(form="sixth", material="thermoplastic")),
        ("4" * 16, case()),
        ("5" * 16, case(form="sixth", count=0)),
        ("6" * 16, Part("another plate", DAY, "plate", "", "sixth")),
    ]
    found = parts_for(loose(late, KNOWLEDGE), stock, KNOWLEDGE)
    assert [one.part_id[0] for one in found] == ["3", "2", "1", "4"]


def test_the_other_way_round_gives_the_same():
    pieces = [loose(plate(form=form), KNOWLEDGE, form) for form in ("ninth", "sixth", "quarter")]
    part = case(form="sixth", material="thermoplastic")
    back = plates_for(part, "a" * 16, pieces, KNOWLEDGE)
    assert back[0].plate_id == "sixth"
    for one, piece in (
        (one, piece) for one in back for piece in pieces if piece.id == one.plate_id
    ):
        (forth,) = parts_for(piece, [("a" * 16, part)], KNOWLEDGE)
        assert (forth.size, forth.years) == (one.size, one.years)


def test_it_is_always_said_that_this_marries_and_who_opens_a_package():
    told = " ".join(conduct(KNOWLEDGE))
    for words in (
        "married piece",
        "Say so",
        "undone",
        "stays with that plate",
        "conservator's work",
    ):
        assert words in told


def test_every_sort_of_part_is_asked_of_known_parts():
    for spare in KNOWLEDGE.spares.values():
        assert set(spare.parts) <= set(KNOWLEDGE.parts)
        assert any(one.part in spare.parts for one in KNOWLEDGE.checks.values())
