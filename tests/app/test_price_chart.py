"""Prices over time: every dot is in the picture at its year and amount, in any size."""

import pytest
from app.kit import app_on, settled, shown
from hypothesis import given
from hypothesis import strategies as st

from appraise.app.lines import length, words_of
from appraise.app.marks import FINE, PLAIN
from appraise.app.widgets.pricechart import Dot, price_chart

dots = st.lists(
    st.builds(Dot, st.floats(1990, 2030), st.floats(0.5, 9e6), st.booleans()), max_size=40
)


@given(dots, st.integers(0, 160), st.integers(0, 40), st.sampled_from([FINE, PLAIN]))
def test_it_fits_any_room(points, width, height, marks):
    rows = price_chart(points, width, height, marks)
    assert len(rows) <= height
    assert all(length(row) <= width for row in rows)
    if rows and marks is PLAIN:
        assert all(words_of(row).isascii() for row in rows)


def test_the_dearest_is_on_top_the_latest_at_the_right_and_the_marked_one_marked():
    points = [Dot(2020.0, 20), Dot(2022.0, 90), Dot(2025.9, 50, True)]
    rows = [words_of(row) for row in price_chart(points, 49, 12, PLAIN)]
    places = {
        (y, x) for y, row in enumerate(rows[:-2]) for x, sign in enumerate(row) if sign in "o8"
    }
    (high, _), (middle, last), (low, first) = sorted(places)
    assert high < middle < low
    assert first < last
    assert rows[middle][last] == PLAIN.dots
    assert "2020" in rows[-1]
    assert [row.split()[0] for row in rows[:-2] if row.split()[0] != "|"] == ["50", "20"]


async def test_g_shows_it_and_discretion_hides_it(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(120, 40)) as pilot:
        await settled(pilot)
        await pilot.press("p")
        await settled(pilot)
        assert "prices over time, this filter" in shown(app)
        await pilot.press("g")
        await settled(pilot)
        assert "Prices over time: all" in shown(app)
        assert "2026" in shown(app)
        await pilot.press("q", "m", "g")
        await settled(pilot)
        assert "Amounts are hidden" in shown(app)
        assert "prices over time" not in shown(app)
    app.session.close()


@pytest.mark.parametrize("count", [0, 1, 2])
def test_too_few_make_no_picture(count):
    assert price_chart([Dot(2020.0 + n, 20) for n in range(count)], 80, 20, FINE) == []
