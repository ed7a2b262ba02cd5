"""The year chart against the shares that it draws."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from appraise.app.lines import length, words_of
from appraise.app.marks import FINE, PLAIN
from appraise.app.widgets.years import NAME, YearRow, bars, scale_for, year_lines


def dated(name, first, last, sums=False):
    def within(year):
        return float(first <= year <= last)

    return YearRow(name, within, first, last, f"{first}-{last}", sums=sums)


@given(st.integers(1800, 1990), st.integers(0, 60), st.integers(8, 200))
def test_every_year_has_a_cell_and_every_cell_its_years(first, many, cells):
    scale = scale_for([first, first + many], cells)
    years = range(scale.first, scale.after)
    assert first in years
    assert first + many in years
    for year in years:
        assert 0 <= scale.cell(year) < cells
    covered = {year for cell in range(cells) for year in scale.years(cell)}
    assert covered >= set(years)
    for cell in range(cells):
        assert len(scale.years(cell)) >= 1


@pytest.mark.parametrize("marks", [FINE, PLAIN])
@pytest.mark.parametrize("width", [30, 35, 45, 100])
def test_a_bar_stands_under_its_years_and_its_ends_beside_it(marks, width):
    rows = year_lines(
        [dated("image", 1850, 1859), dated("combined", 1852, 1855, True)], width, marks
    )
    assert all(length(row) <= width for row in rows)
    axis, image, combined = map(words_of, rows)
    start = axis.index("1840")
    scale = scale_for([1850, 1859, 1852, 1855], width - NAME - 9 - 2)
    drawn = [place for place, sign in enumerate(image[:-9]) if place >= NAME and sign != " "]
    assert drawn[0] - start == scale.cell(1850)
    assert drawn[-1] - start in range(scale.cell(1859), max(scale.cell(1860), scale.cell(1859) + 1))
    assert image.endswith("1850-1859")
    assert combined.endswith("1852-1855")
    assert marks.bar in combined


def test_room_is_kept_for_rows_that_are_not_there():
    one = year_lines([dated("image", 1850, 1859)], 40, FINE, keep=4)
    two = year_lines([dated("image", 1850, 1859), dated("case", 1850, 1859)], 40, FINE, keep=4)
    assert len(one) == len(two) == 5


def test_bars_grow_with_their_shares_and_little_is_not_nothing():
    drawn = bars([0, 0.1, 0.3, 0.6, 1], FINE)
    assert drawn[0] == " "
    assert list(drawn) == sorted(drawn)
    assert drawn[1] != " "
    assert bars([0, 0.2, 1], PLAIN) == " .|"


def test_the_row_that_stands_against_the_others_is_marked():
    odd = YearRow("mat", lambda _: 1.0, 1850, 1860, "1850-60", odd=True)
    assert words_of(year_lines([odd], 40, FINE)[1]).endswith("1850-60 ?")
