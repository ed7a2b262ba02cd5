"""The stacked bar: its cells in proportion, its parts named whole."""

from hypothesis import given
from hypothesis import strategies as st

from appraise.app.lines import length, words_of
from appraise.app.marks import FINE, PLAIN
from appraise.app.widgets.stacked import TOLD, BarPart, shared_out, stacked

SHARES = st.lists(st.floats(0.001, 1), min_size=1, max_size=4).map(
    lambda found: [one / sum(found) for one in found]
)


@given(SHARES, st.integers(4, 200))
def test_cells_are_shared_out_whole_and_in_proportion(shares, cells):
    out = shared_out(shares, cells)
    assert sum(out) == cells
    for share, many in zip(shares, out, strict=True):
        assert many >= 0
        assert many >= 1 or share < TOLD
        assert abs(many - share * cells) <= len(shares)


def test_a_share_twice_as_large_takes_twice_the_cells():
    assert shared_out([2 / 3, 1 / 3], 30) == [20, 10]


def test_parts_are_told_apart_without_colours_and_named_in_their_order():
    parts = [BarPart("together", 0.83, "good"), BarPart("married", 0.15, "doubt")]
    for marks in (FINE, PLAIN):
        bar, names = map(words_of, stacked(parts, 40, marks))
        assert len(bar) == 40
        assert len(bar.split(" ")) == 2
        assert names == "together 83%  married 15%"


def test_a_narrow_bar_names_its_parts_in_more_lines_and_cuts_none():
    parts = [
        BarPart("together", 0.68, "good"),
        BarPart("married", 0.29, "doubt"),
        BarPart("modern", 0.03, "stop"),
    ]
    rows = stacked(parts, 20, FINE, rows=4)
    assert all(length(row) <= 20 for row in rows)
    told = " ".join(map(words_of, rows[1:]))
    assert told == "together 68% married 29% modern 3%"


def test_what_cannot_be_told_is_not_drawn():
    bar = words_of(stacked([BarPart("a", 1.0, ""), BarPart("b", 0.0, "")], 20, FINE)[0])
    assert bar == FINE.fills[0] * 20
