"""Lines of words and roles: cutting, filling and folding to a width."""

from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from appraise.app.lines import (
    beside,
    clip,
    cut,
    ends,
    fill,
    fold,
    fold_to,
    length,
    line,
    words_of,
)
from appraise.app.marks import FINE, PLAIN
from appraise.base.oneline import visible

texts = st.text(st.characters(blacklist_categories=("Cc", "Cs")), max_size=60).map(visible)
rooms = st.integers(1, 40)


@given(texts, rooms)
def test_a_clipped_text_fits(text, room):
    assert cell_len(clip(text, room)) <= room
    assert cell_len(clip(text, room, PLAIN)) <= room


@given(texts, rooms)
def test_what_fits_is_left_alone(text, room):
    plain = " ".join(text.split())
    if cell_len(plain) <= room:
        assert clip(text, room) == plain


@given(texts, rooms)
def test_folding_loses_no_word_and_passes_no_edge(text, room):
    rows = fold(text, room + 4, "How: "[: min(5, room)])
    assert all(length(row) <= max(room + 4, 7) for row in rows)
    folded = "".join(words_of(row)[min(5, room) :] for row in rows)
    assert folded.replace(" ", "") == "".join(text.split())


@given(texts, rooms, st.integers(1, 4))
def test_folding_to_so_many_lines(text, room, most):
    rows = fold_to(text, room + 2, most)
    assert len(rows) <= most


@given(st.lists(texts, max_size=4), rooms)
def test_a_filled_line_is_exactly_as_wide_as_asked(words, room):
    assert length(fill(line(*words), room)) == room
    assert length(cut(line(*words), room)) <= room


@given(texts, texts, rooms)
def test_ends_fill_the_line_and_keep_the_right_one(left, right, room):
    row = ends(line(left), line(right), room)
    assert length(row) <= room
    if length(line(right)) < room:
        assert words_of(row).endswith(right)


def test_columns_stand_beside_each_other():
    rows = beside([line("a")], [line("b"), line("c")], (3, 4), 2, FINE.wall)
    assert [words_of(row) for row in rows] == ["a  │b", "   │c"]
