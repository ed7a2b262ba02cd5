"""Drawings as strokes and as cells, against shapes whose places are known."""

import math
from itertools import pairwise

import pytest

from appraise.base.cells import ASCII, BLOCKS, BRAILLE, cells, dots, fitting
from appraise.base.drawing import HEIGHT, ROOT, WIDTH, strokes
from appraise.base.errors import InputError

WIDE, HIGH = 48, 32  # dots: 2.5 units of a drawing each, across and down


def svg(body, **changed):
    told = " ".join(f'{key}="{value}"' for key, value in {**ROOT, **changed}.items())
    return f'<svg xmlns="http://www.w3.org/2000/svg" {told}>{body}</svg>'


def drawn(body):
    return strokes(svg(body))


def lit(body, wide=WIDE, high=HIGH):
    return dots(drawn(body), wide, high)


def points(body):
    return [point for stroke in drawn(body) for point in stroke]


def middle(dot):
    return (dot[0] + 0.5) * WIDTH / WIDE, (dot[1] + 0.5) * HEIGHT / HIGH


def test_the_dots_of_a_circle_lie_on_it_all_round():
    found = [middle(dot) for dot in lit('<circle cx="60" cy="40" r="30"/>')]
    for x, y in found:
        assert abs(math.hypot(x - 60, y - 40) - 30) < 2.5  # a dot is 2.5 units wide
    turns = {round(math.degrees(math.atan2(y - 40, x - 60)) / 10) % 36 for x, y in found}
    assert turns == set(range(36))


@pytest.mark.parametrize(("rx", "ry"), [(50, 20), (16, 36), (24, 31)])
def test_an_ellipse_is_where_its_equation_says_and_mirrors(rx, ry):
    body = f'<ellipse cx="60" cy="40" rx="{rx}" ry="{ry}"/>'
    for x, y in points(body):
        assert math.isclose(((x - 60) / rx) ** 2 + ((y - 40) / ry) ** 2, 1, rel_tol=1e-9)
    found = lit(body)
    assert {(WIDE - 1 - x, y) for x, y in found} == found
    assert {(x, HIGH - 1 - y) for x, y in found} == found


def test_the_dots_of_a_rectangle_are_its_sides_and_nothing_else():
    # Sides at 11 and 109, 6 and 74 units: dots 4 and 43, 2 and 29.
    expected = {(x, y) for x in range(4, 44) for y in (2, 29)}
    expected |= {(x, y) for x in (4, 43) for y in range(2, 30)}
    assert lit('<rect x="11" y="6" width="98" height="68"/>') == expected
    assert lit('<path d="M11 6H109V74H11Z"/>') == expected
    assert lit('<path d="m11 6h98v68h-98z"/>') == expected
    assert lit('<polyline points="11,6 109,6 109,74 11,74 11,6"/>') == expected


def test_a_slanting_line_has_no_corner_in_it():
    # Bresenham (1965): as many dots as its longer side, each beside the last.
    found = lit('<line x1="1" y1="1" x2="119" y2="79"/>')
    assert len(found) == WIDE
    assert len({x for x, _ in found}) == WIDE


def test_a_curve_touches_its_ends_and_its_middle():
    # A quadratic curve is a quarter of each end and a half of the point between at its middle, a
    # cubic one an eighth and three eighths.
    quadratic = points('<path d="M10 70Q60 -50 110 70"/>')
    assert quadratic[0] == (10, 70)
    assert quadratic[-1] == (110, 70)
    assert (60, 10) in quadratic
    cubic = points('<path d="M10 70C10 -10 110 -10 110 70"/>')
    assert (60, 10) in cubic
    assert points('<path d="m10 70c0 -80 100 -80 100 0"/>') == cubic


@pytest.mark.parametrize(
    ("flags", "centre", "turn"),
    [
        ("0 0 1", (60, 40), 90), ("0 0 0", (40, 20), 90),
        ("0 1 1", (40, 20), 270), ("0 1 0", (60, 40), 270), ("45 0 1", (60, 40), 90),
    ],
)  # fmt: skip
def test_an_arc_is_on_its_circle_and_takes_the_way_that_its_flags_say(flags, centre, turn):
    # From (40,40) to (60,20) with radius 20: the circles about (60,40) and (40,20) fit, and a sweep
    # of 1 goes the way of the clock on the screen (W3C SVG 1.1, 8.3.8).
    found = points(f'<path d="M40 40A20 20 {flags} 60 20"/>')
    for x, y in found:
        assert math.isclose(math.hypot(x - centre[0], y - centre[1]), 20, rel_tol=1e-9)
    swept = sum(math.dist(a, b) for a, b in pairwise(found))
    assert math.isclose(swept, math.radians(turn) * 20, rel_tol=2e-3)


def test_an_arc_that_is_too_small_is_grown_to_reach():
    # W3C SVG 1.1, F.6.6: radii are scaled up until there is exactly one solution.
    found = points('<path d="M20 40A1 1 0 0 1 100 40"/>')
    assert all(math.isclose(math.hypot(x - 60, y - 40), 40, rel_tol=1e-9) for x, y in found)


def test_a_letter_is_repeated_by_further_numbers():
    assert drawn('<path d="M10 10 20 10 20 20"/>') == drawn('<path d="M10 10L20 10L20 20"/>')
    assert drawn('<path d="m10 10 10 0 0 10"/>') == drawn('<path d="M10 10H20V20"/>')
    assert drawn('<path d="M10,10L-5.5.5"/>') == drawn('<path d="M10 10L-5.5 0.5"/>')


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("no svg", "not readable"),
        (svg("", viewBox="0 0 10 10"), "first line"),
        (svg("<text>A</text>"), "'text' is not drawn"),
        (svg("<g><line/></g>"), "'g' is not drawn"),
        (svg('<line x1="1" y1="1" x2="2" y2="2" fill="red"/>'), "'fill' is not understood"),
        (svg('<line x1="1" y1="1" x2="2"/>'), "'line' is not whole"),
        (svg('<circle cx="a" cy="1" r="2"/>'), "'circle' is not whole"),
        (svg('<path d="M1 1S2 2 3 3"/>'), "'S' stands where it cannot"),
        (svg('<path d="M1 1L2"/>'), "a number is missing"),
        (svg('<path d="1 1"/>'), "'1' stands where it cannot"),
        (svg('<polyline points="1,1 2"/>'), "'polyline' is not whole"),
    ],
)
def test_whatever_is_not_drawn_is_refused(text, told):
    with pytest.raises(InputError, match=told):
        strokes(text, "name")


def test_braille_cells_have_the_dots_of_the_code_chart():
    # Unicode, Braille Patterns: dots 1 2 3 7 down the left, 4 5 6 8 down the right, bits in order.
    left = drawn('<line x1="1" y1="0" x2="1" y2="80"/>')
    right = drawn('<line x1="119" y1="0" x2="119" y2="80"/>')
    assert cells(left, 1, 1) == ["⡇"]
    assert cells(right, 1, 1) == ["⢸"]
    assert cells((*left, *right), 1, 1) == ["⣿"]
    assert cells(drawn(""), 3, 2) == ["⠀⠀⠀"] * 2


def test_blocks_and_ascii_stand_in_where_braille_is_not_to_be_used():
    box = drawn('<rect x="11" y="6" width="98" height="68"/>')
    for grain, upright in ((BLOCKS, "▌"), (ASCII, "|")):
        rows = cells(box, 24, 8, grain)
        assert [len(row) for row in rows] == [24] * 8
        assert all(row[2] == upright for row in rows[1:7])
        assert all(row[3:21].strip() == "" for row in rows[1:7])
    assert all(sign.isascii() for row in cells(box, 24, 8, ASCII) for sign in row)
    upright = cells(drawn('<line x1="1" y1="0" x2="1" y2="80"/>'), 1, 1, ASCII)
    slant = cells(drawn('<line x1="1" y1="79" x2="119" y2="1"/>'), 1, 1, ASCII)
    assert (upright, slant) == (["|"], ["/"])


def test_a_size_that_fits_keeps_the_proportions():
    assert fitting(24, 8) == (24, 8)
    assert fitting(24, 40) == (24, 8)
    assert fitting(90, 8) == (24, 8)
    assert fitting(12, 40) == (12, 4)


@pytest.mark.parametrize("grain", [BRAILLE, BLOCKS, ASCII])
@pytest.mark.parametrize("size", [(1, 1), (12, 4), (24, 8), (60, 20)])
def test_what_lies_beyond_the_box_or_on_its_edge_breaks_nothing(grain, size):
    out = drawn('<rect x="-20" y="-20" width="400" height="400"/><circle cx="120" cy="80" r="9"/>')
    rows = cells(out, *size, grain)
    assert [len(row) for row in rows] == [size[0]] * size[1]
