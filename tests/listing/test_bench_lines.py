"""A part in stock and a wish, each in one line; the lines are invented."""

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from thorough import tries

from appraise.base.errors import InputError
from appraise.knowledge import load
from appraise.listing.bench_line import understand_part
from appraise.listing.wish_line import understand_want
from appraise.records.fields import filled as written

KNOWLEDGE = load()
DAY = dt.date(2026, 11, 7)


@pytest.mark.parametrize(
    ("line", "told"),
    [
        (
            "sixth thermoplastic case vine, hinge good, 12",
            {"part": "case", "material": "thermoplastic", "format": "sixth", "motif": "vine",
             "cost": "12.00 USD", "note": "hinge good"},
        ),
        (
            "2 x brass mat sixth octagon, pebbled 3",
            {"part": "mat", "material": "brass", "format": "sixth", "count": "2",
             "seen": "mat.surface pebbled; mat.shape octagon; mat.material brass"},
        ),
        (
            "plate without housing, ambrotype sixth",
            {"part": "plate", "format": "sixth", "seen": "claim.process ambrotype"},
        ),
        (
            "loose sixth plate ambrotype",
            {"part": "plate", "format": "sixth", "seen": "claim.process ambrotype"},
        ),
        ("a loose plate", {"part": "plate"}),
        (
            "2 x brass mat sixth octagon, kept in the hatbox, 3",
            {"part": "mat", "format": "sixth", "count": "2", "place": "hatbox", "cost": "3.00 USD"},
        ),
        ("cover glass, sixth, place: box 3", {"part": "glass", "place": "box 3"}),
        (
            "half case leather ninth 4, in my left drawer",
            {"place": "left drawer", "cost": "4.00 USD"},
        ),
        ("half case leather ninth 4", {"part": "half-case", "material": "leather-wood"}),
        ("quarter preserver with points", {"part": "preserver", "seen": "preserver.form points"}),
        ("cover glass, sixth", {"part": "glass", "format": "sixth"}),
        ("sixth pad, red velvet", {"part": "pad", "seen": "pad.pile velvet"}),
        (
            "leather case 83 x 95 mm, recess 73 x 85 mm",
            {"part": "case", "outside": "83 x 95 mm", "recess": "73 x 85 mm"},
        ),
        ("hinge leather, own work", {"part": "hinge", "made": "own-work"}),
        ("sixth leather case, hinge taped", {"part": "case", "seen": "hinge.tape 1"}),
        ("thermoplastic ninth", {"part": "case", "format": "ninth"}),
        ("plate without housing, sixth ambrotype", {"part": "plate", "format": "sixth"}),
        ("sixth oval mat, reproduction, x3", {"made": "reproduction", "count": "3"}),
    ],
)  # fmt: skip
def test_a_part_in_a_line(line, told):
    part = understand_part(line, KNOWLEDGE, "USD", DAY).thing
    assert told.items() <= written(part).items()


def test_the_title_leaves_out_what_fields_tell():
    part = understand_part("2 x brass mat sixth oval, 3", KNOWLEDGE, "USD", DAY).thing
    assert part.title == "brass mat sixth oval"


def test_a_line_that_names_no_part_says_so():
    with pytest.raises(InputError, match="no part named"):
        understand_part("something odd", KNOWLEDGE, "USD", DAY)


@pytest.mark.parametrize(
    ("line", "told"),
    [
        (
            "ninth thermoplastic vine, up to 65",
            {"title": "ninth thermoplastic vine", "housing": "thermoplastic", "formats": "ninth",
             "motif": "vine", "most": "65.00 USD"},
        ),
        (
            "vine ninth or sixth 1855-1860",
            {"formats": "ninth, sixth", "motif": "vine", "years": "1855..1860"},
        ),
        (
            "a sixth or ninth soldier tintype, at most 80",
            {"process": "tintype", "subject": "soldier", "formats": "sixth, ninth",
             "most": "80.00 USD"},
        ),
        ("cdv, fire engine", {"kind": "card", "formats": "carte-de-visite"}),
    ],
)  # fmt: skip
def test_a_wish_in_a_line(line, told):
    want = understand_want(line, KNOWLEDGE, "USD", DAY).thing
    assert told.items() <= written(want).items()


@tries(75)
@given(st.text(max_size=60))
def test_any_line_makes_a_record_or_one_line_of_complaint(text):
    for read in (understand_part, understand_want):
        said = ""
        try:
            read(f"mat {text}", KNOWLEDGE, "USD", DAY)
        except InputError as error:
            said = str(error)
        assert "\n" not in said
