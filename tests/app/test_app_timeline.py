"""The drawn timeline against the trapezoids that it draws."""

import pytest

from appraise.documents.timeline import Axis, axis_for, between, labels, row_of
from appraise.knowledge.records import Years

YEARLY = Axis(1840, 1, 40)


def test_the_common_years_are_solid_and_the_flanks_thin_out():
    """Flanks as in the model: (y - E + 1) / (F - E + 1) rising, its mirror falling."""
    drawn = row_of([Years(1843, 1847, 1851, 1853, "medium")], YEARLY)
    # 1843..1846 weigh .2 .4 .6 .8, then 1, then 1852 and 1853 weigh 2/3 and 1/3.
    assert drawn[3:14] == "..::|||||:."
    assert drawn.strip() == "..::|||||:."


def test_two_findings_of_a_part_leave_what_both_allow():
    drawn = row_of(
        [Years(1843, 1843, 1850, 1850, "low"), Years(1848, 1848, 1860, 1860, "low")], YEARLY
    )
    assert drawn == " " * 8 + "|||" + " " * 29


def test_findings_that_contradict_each_other_are_drawn_faintly():
    drawn = row_of(
        [Years(1843, 1843, 1845, 1845, "low"), Years(1848, 1848, 1849, 1849, "low")], YEARLY
    )
    assert drawn[3:10] == "...  .."
    assert set(drawn) == {" ", "."}


@pytest.mark.parametrize("cells", [8, 20, 36, 120])
def test_the_axis_holds_every_year_it_was_given(cells):
    for years in ([], [1845, 1851], [1835, 1960], [1898]):
        axis = axis_for(years, cells)
        for year in (*years, 1840, 1879):
            assert year in axis.years(axis.cell(year))


def test_the_usual_axis_stays_where_it_is():
    assert axis_for([1845], 20) == axis_for([1851, 1862], 20) == Axis(1840, 2, 20)


@pytest.mark.parametrize("axis", [Axis(1840, 2, 20), Axis(1830, 7, 20), Axis(1840, 1, 60)])
def test_labels_stand_over_their_years_and_apart(axis):
    drawn = labels(axis)
    assert len(drawn) == axis.cells
    years = drawn.split()
    assert len(years) >= 2
    for word in years:
        assert drawn.index(word) == axis.cell(int(word))


def test_spans_are_short_within_a_century():
    assert between(1856, 1862) == "1856-62"
    assert between(1898, 1903) == "1898-1903"
