"""Measures: every way of writing one, what is refused, and the way back to text."""

from fractions import Fraction

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from appraise.base.errors import InputError
from appraise.base.measures import UNITS, Measure

INCH = Fraction(127, 5)
SIXTH = (Fraction(11, 4) * INCH, Fraction(13, 4) * INCH)
LENGTHS = st.fractions(1, 1000, max_denominator=500)
SIXTEENTHS = st.integers(1, 39 * 16).map(lambda n: Fraction(n, 16) * INCH)


@pytest.mark.parametrize(
    "text",
    [
        "2 3/4 x 3 1/4 in",
        "2 3/4 X 3 1/4 inches",
        "2-3/4 x 3-1/4 in.",
        '2¾ × 3¼"',
        "2 ¾ by 3 ¼ in",
        "2 3⁄4 x 3 1⁄4 in",
        '2 3/4" x 3 1/4"',
        "2 3/4” x 3 1/4”",
        "2 3/4″ × 3 1/4″",
        "2 3/4'' x 3 1/4''",
        '2 3/4" x 3 1/4',
        "2.75 x 3.25 in",
        "2,75 x 3,25 in",
        "2.75in x 3.25in",
        "2.75in*3.25in",
        "11/4 x 13/4 in",
        "69.85 x 82.55 mm",
        "69,85 mm x 82,55 mm",
        "6.985 by 8.255 cm",
        "6.985 cm x 82.55 mm",
        "69.85 mm x 3 1/4 in",
        "  69.85x82.55mm ",
        "69.85 millimetres by 82.55 millimeters",
    ],
)
def test_one_plate_written_in_many_ways_is_one_measure(text: str) -> None:
    read = Measure.parse(text)
    assert read == Measure(SIXTH)
    assert read.text == str(read) == text.strip()


@pytest.mark.parametrize(
    ("text", "sides", "depth", "diameter"),
    [
        ("95 x 82 x 20 mm", (82, 95), 20, None),
        ("1.5 x 9.6 x 8.4 cm", (84, 96), 15, None),
        ("7 by 8.2 cm", (70, 82), None, None),
        ("8,2 x 7,0 cm", (70, 82), None, None),
        ("70 mm", (70,), None, None),
        ("44.5 mm dia", (Fraction(89, 2),) * 2, None, Fraction(89, 2)),
        ("Ø 44,5 mm", (Fraction(89, 2),) * 2, None, Fraction(89, 2)),
        ("1 3/4 in. diameter", (Fraction(889, 20),) * 2, None, Fraction(889, 20)),
        ("44.5 mm dia x 12 mm", (Fraction(89, 2),) * 2, 12, Fraction(89, 2)),
        ("round 50 mm", (50, 50), None, 50),
    ],
)
def test_sides_depth_and_diameter(
    text: str,
    sides: tuple[Fraction | int, ...],
    depth: Fraction | int | None,
    diameter: Fraction | int | None,
) -> None:
    read = Measure.parse(text)
    assert (read.sides, read.depth, read.diameter) == (sides, depth, diameter)


@pytest.mark.parametrize(
    ("text", "says", "mend"),
    [
        ("70 x 83", "'70 x 83' has no unit", "Write 70 x 83 mm, or cm or in."),
        ("44.5 dia", "has no unit", "Write 44.5 dia mm, or cm or in."),
        ("", "is not a measure", "Example: 70 x 83 mm"),
        ("sixth plate", "is not a measure", "Example:"),
        ("70 x x 83 mm", "is not a measure", "Example:"),
        ("-5 mm", "is not a measure", "Example:"),
        ("1e3 mm", "is not a measure", "Example:"),
        ("70 mn", "the unit 'mn' is not known", "Known: cm, in, mm"),
        ("5 m", "the unit 'm' is not known", "Did you mean 'mm'?"),
        ("0.9 mm", "0.9 mm is outside 1 mm to 1 m", "Check the unit."),
        ("0 x 20 mm", "0 mm is outside", "Check the unit."),
        ("70 x 83 in", "1778 mm is outside", "Check the unit."),
        ("1 x 2 x 3 x 4 cm", "1 to 3 lengths, not 4", "lengths"),
        ("44 mm dia x 3 x 4 mm", "1 to 2 lengths, not 3", "lengths"),
        ("3/0 in", "3/0 is not a fraction", "fraction"),
        ("2 33/4 in", "33/4 is not a fraction", "fraction"),
        ("1,000 mm", "1,000 mm reads two ways", "Write 1000 mm or 1.000 mm."),
    ],
)
def test_what_is_no_measure_is_refused_in_one_line(text: str, says: str, mend: str) -> None:
    with pytest.raises(InputError) as raised:
        Measure.parse(text)
    assert text.strip() in str(raised.value)
    assert says in raised.value.what
    assert mend in str(raised.value)


@pytest.mark.parametrize(
    ("millimetres", "mm", "inches"),
    [
        ((69.85, 82.55), "69.9 x 82.6 mm", "2 3/4 x 3 1/4 in"),
        ((95, 82, 20), "95 x 82 x 20 mm", "3 3/4 x 3 1/4 x 13/16 in"),
        ((25.4,), "25.4 mm", "1 in"),
        ((1,), "1 mm", "1/16 in"),
        ((1000,), "1000 mm", "39 3/8 in"),
    ],
)
def test_the_way_back_to_text(millimetres: tuple[float, ...], mm: str, inches: str) -> None:
    measure = Measure.of_mm(*millimetres)
    assert measure.as_mm() == measure.text == mm
    assert measure.as_inches() == inches
    assert measure.as_both() == f"{mm} ({inches})"


def test_a_round_thing_is_written_as_one() -> None:
    measure = Measure.of_mm(44.5, 12, round=True)
    assert measure.as_both() == "44.5 mm dia x 12 mm (1 3/4 in dia x 1/2 in)"
    assert Measure.parse(measure.as_mm()) == measure


# Sizes that museum records print in both systems, in inches and in millimetres as published, and
# how far the two may part in millimetres: half a millimetre where the millimetres are rounded, half
# an eighth of an inch where the inches are.
PUBLISHED = [
    # Connecticut Museum of Culture and History, ambrotype 1960.22.19: plate, then case.
    ("2 3/4 x 3 1/4 in", (70, 83), 0.5),
    ("3 1/2 x 3 7/8 x 7/8 in", (89, 98, 22), 0.5),
    # The same museum, daguerreotype 1966.96.3.3: case.
    ("3 3/8 x 3 3/4 x 7/8 in", (86, 95, 22), 0.5),
    # National Museum of African American History and Culture, tintype 2019.26.2: case.
    ("3 7/8 x 4 7/8 x 1 in", (99, 124, 25), 1.6),
    # National Museum of American History, case 1984.0138.19.
    ("5 x 6 1/8 x 1 1/8 in", (127, 155.6, 28.6), 0.05),
    # The Henry Ford, daguerreotype 82.80.2: case.
    ("3.25 x 3.75 x 0.75 in", (82.6, 95.3, 19), 0.1),
    # Windham Textile and History Museum, tintype 2025.93.9: round case.
    ("1.75 in dia", (44.5,), 0.06),
]


@pytest.mark.parametrize(("inches", "millimetres", "apart"), PUBLISHED)
def test_inches_and_millimetres_agree_as_museums_print_them(
    inches: str, millimetres: tuple[float, ...], apart: float
) -> None:
    read = Measure.parse(inches)
    assert [float(length) for length in read.lengths] == pytest.approx(millimetres, abs=apart)


@given(st.lists(LENGTHS, min_size=1, max_size=3))
def test_millimetres_come_back_to_half_a_tenth(lengths: list[Fraction]) -> None:
    measure = Measure.of_mm(*lengths)
    back = Measure.parse(measure.as_mm())
    for here, there in zip(measure.lengths, back.lengths, strict=True):
        assert abs(here - there) <= Fraction(1, 20)


@given(st.lists(LENGTHS, min_size=1, max_size=2), st.booleans())
@example([Fraction(1000)], False)
@example([Fraction(1)], True)
def test_inches_come_back_to_a_thirty_second(lengths: list[Fraction], is_round: bool) -> None:
    measure = Measure.of_mm(*lengths, round=is_round)
    back = Measure.parse(measure.as_inches())
    assert back.round == is_round
    for here, there in zip(measure.lengths, back.lengths, strict=True):
        assert abs(here - there) <= INCH / 32
    assert back.as_inches() == measure.as_inches()


@given(st.lists(SIXTEENTHS, min_size=1, max_size=3))
def test_whole_sixteenths_come_back_exactly(lengths: list[Fraction]) -> None:
    measure = Measure.of_mm(*lengths)
    assert Measure.parse(measure.as_inches()) == measure


@given(st.permutations(["83 mm", "70 mm", "20 mm"]))
def test_the_order_of_the_sides_does_not_matter(order: list[str]) -> None:
    read = Measure.parse(" x ".join(order))
    assert (read.sides, read.depth) == ((70, 83), 20)


@given(st.integers(1, 38), st.sampled_from("¼½¾⅛⅜⅝⅞"), st.sampled_from(sorted(UNITS)))
def test_vulgar_fractions_and_units_multiply(whole: int, mark: str, unit: str) -> None:
    eighths = {"⅛": 1, "¼": 2, "⅜": 3, "½": 4, "⅝": 5, "¾": 6, "⅞": 7}[mark]
    read = Measure.parse(f"{whole}{mark} {unit}")
    assert read.lengths == ((whole + Fraction(eighths, 8)) * UNITS[unit],)


@given(st.one_of(st.text(max_size=30), st.text("0123456789 /.,x×\"'mcindaØ¾-", max_size=20)))
@example("9" * 5000 + " mm")
def test_any_text_is_read_or_refused_in_one_line(text: str) -> None:
    try:
        read = Measure.parse(text)
    except InputError as error:
        refusal = str(error)
    else:
        refusal = ""
        assert all(1 <= length < 1001 for length in read.lengths)
    assert "\n" not in refusal
