"""Rail, strip and row of marks: a mark for each part, readable as text alone."""

import pytest

from appraise.app.lines import ACT, length, words_of
from appraise.app.marks import DOUBT, FINE, ORDER, PLAIN, UNSEEN, WARN
from appraise.app.widgets.marked import PartMark, mark_row, rail, strip

PARTS = [
    PartMark(name, state, f"{n}", f"go_to_part('{name}')")
    for n, (name, state) in enumerate(
        [("plate", ORDER), ("preserver", DOUBT), ("glass", WARN), ("hinge", UNSEEN), ("pad", ORDER)]
    )
]


@pytest.mark.parametrize("marks", [FINE, PLAIN])
def test_each_part_has_its_mark_and_its_place_to_click(marks):
    rows = rail(PARTS, 1, 20, 5, marks)
    for part, row in zip(PARTS, rows, strict=True):
        assert length(row) == 20
        assert words_of(row).split()[-2:] == [marks.sign(part.state), part.told]
        assert {role.partition(ACT)[2] for _, role in row} == {part.act}
    assert words_of(rows[1]).startswith(marks.here)
    assert len({marks.sign(one) for one in (ORDER, DOUBT, WARN, UNSEEN)}) == 4


@pytest.mark.parametrize("at", range(5))
@pytest.mark.parametrize("width", [20, 30, 60])
def test_the_part_that_is_looked_at_is_always_there(at, width):
    name = PARTS[at].name
    assert any(name in words_of(row) for row in rail(PARTS, at, 20, 2, FINE))
    told = strip(PARTS, at, width, FINE)
    assert f"›{name}" in words_of(told)
    assert length(told) <= width


def test_a_row_leaves_out_counts_and_then_its_lead_before_a_mark():
    whole = words_of(mark_row("condition", PARTS[:3], 60, FINE))
    assert whole == "condition  plate ✓ 0  preserver ? 1  glass ! 2"
    assert words_of(mark_row("condition", PARTS[:3], 42, FINE)).endswith("preserver ?  glass !")
    assert words_of(mark_row("condition", PARTS[:3], 30, FINE)) == "plate ✓ preserver ? glass !"
