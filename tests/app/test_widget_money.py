"""The money axis: amounts over their cells, nothing cut, nothing on top of something else."""

import re

from every import every
from hypothesis import given
from hypothesis import strategies as st

from appraise.app.lines import length, words_of
from appraise.app.marks import FINE, PLAIN
from appraise.app.widgets.moneyaxis import LEAST, Mark, money_axis, scale_of, step_of

AMOUNTS = st.floats(0.5, 20_000)


@given(
    st.lists(AMOUNTS, max_size=8),
    st.tuples(AMOUNTS, AMOUNTS, AMOUNTS).map(sorted),
    st.lists(AMOUNTS, max_size=2),
    st.integers(LEAST, 120),
)
def test_it_has_four_lines_within_its_room_whatever_it_holds(dots, span, noted, width):
    marks = [Mark(f"mark {value:,.0f}", f"{value:,.0f}", value, "") for value in noted]
    for signs in (FINE, PLAIN):
        rows = money_axis(dots, tuple(span), marks, width, signs)
        assert len(rows) == 4
        assert all(length(row) <= width for row in rows)
        assert words_of(rows[3]).count(signs.pointer) == len(noted)
        assert bool(words_of(rows[1]).strip()) == bool(dots)


@given(st.lists(AMOUNTS, min_size=2, max_size=6), st.integers(LEAST, 120))
def test_a_greater_amount_never_stands_further_left(values, width):
    scale = scale_of(values, width)
    cells = [scale.cell(value) for value in sorted(values)]
    assert cells == sorted(cells)
    assert scale.low <= min(values) + 1e-9
    assert scale.high >= max(values) - 1e-9


def test_amounts_on_the_axis_stand_over_their_cells():
    ticks = words_of(money_axis([], (50, 80, 130), [], 60, FINE)[0])
    scale = scale_of([50, 80, 130], 60)
    for told in re.finditer(r"\d+", ticks):
        middle = (told.start() + told.end() - 1) / 2
        edge = told.start() == 0 or told.end() == 60
        assert abs(middle - scale.cell(float(told[0]))) <= (3 if edge else 1)


def test_steps_are_round():
    assert [step_of(one) for one in (0.9, 1, 1.1, 3, 7, 30, 101)] == [1, 1, 2, 5, 10, 50, 200]


def test_two_amounts_in_one_place_are_both_told():
    noted = [Mark("limit 85", "85", 85, "head"), Mark("asked 85", "85", 85, "good")]
    assert "limit 85 ▲▲ asked 85" in words_of(money_axis([], (55, 87, 150), noted, 35, FINE)[3])


@every("limit", [20, 50, 80, 110, 140])
@every("asked", [20, 50, 80, 110, 140])
def test_both_amounts_are_whole_and_apart_where_the_panel_is_usual(limit, asked):
    noted = [
        Mark(f"limit {limit}", f"{limit}", limit, ""),
        Mark(f"asked {asked}", f"{asked}", asked, ""),
    ]
    told = words_of(money_axis([], (50, 80, 130), noted, 36, FINE)[3])
    assert sorted(re.findall(r"(?<!\d)\d+(?!\d)", told)) == sorted([str(limit), str(asked)]), told
    assert not re.search(r"▲[a-z\d]|[a-z\d]▲", told), told
