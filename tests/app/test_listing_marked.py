"""The text with its places marked: folding, positions, and every text that can come in."""

from unicodedata import category

import pytest
from hypothesis import given
from hypothesis import strategies as st

from appraise.app.lines import length, words_of
from appraise.app.listing.marked import CHUNK, Marked, Place
from appraise.app.listing.text import KEY, LONGEST, cleaned, kept_line, text_from
from appraise.app.marks import FINE, PLAIN
from appraise.base.errors import InputError
from appraise.base.yamls import compose


def lines(marked, width=40, here=-1, marks=FINE):
    return [words_of(row) for row in marked.window((0, 0), 10_000, width, here, marks)]


def roles(marked, role, here=-1):
    rows = marked.window((0, 0), 100, 60, here, FINE)
    return [words for row in rows for words, name in row if name == role]


def test_places_stand_in_brackets_with_their_numbers():
    text = "sixth plate ambrotype, hinge taped"
    marked = Marked(text, [Place(0, 11, False, ""), Place(23, 34, True, "!")])
    assert lines(marked, 60) == ["[sixth plate]¹ ambrotype, {hinge taped}!²"]
    assert lines(marked, 60, marks=PLAIN) == ["[sixth plate]1 ambrotype, {hinge taped}!2"]
    assert roles(marked, "said") == ["sixth plate"]
    assert roles(marked, "flagged") == ["hinge taped"]


def test_the_place_one_is_at_is_told_by_marks_and_moves_nothing():
    text = "a sixth plate ambrotype " * 9
    marked = Marked(text, [Place(2, 13, False, ""), Place(26, 37, True, "?")])
    for here in (0, 1):
        for marks in (FINE, PLAIN):
            before, after = (
                [len(row) for row in lines(marked, 31, at, marks)] for at in (-1, here)
            )
            assert before == after
    assert roles(marked, "here", 1) == ["›sixth plate‹?²"]


def test_nested_and_touching_places_close_from_the_inside_out():
    marked = Marked(
        "Hinge has been taped",
        [Place(0, 20, False, ""), Place(0, 5, True, ""), Place(15, 20, True, "?")],
    )
    assert lines(marked, 60) == ["[{Hinge}² has been {taped}?³]¹"]


def test_the_sellers_lines_stay_and_long_ones_are_folded():
    assert lines(Marked("one two three\n\nfour", ()), 7) == ["one two", "three", "", "four"]
    assert lines(Marked("x" * 10, ()), 4) == ["xxxx", "xxxx", "xx"]
    assert lines(Marked("鏡鏡鏡", ()), 4) == ["鏡鏡", "鏡"]
    assert lines(Marked("", ()), 4) == [""]


@st.composite
def marked_texts(draw):
    pieces = st.one_of(
        st.text(alphabet="ab ,.\n鏡é", max_size=80), st.just("word " * 400), st.just("x" * 2000)
    )
    text = "".join(draw(st.lists(pieces, max_size=4)))
    ends = st.tuples(*[st.integers(0, max(0, len(text)))] * 2).map(sorted)
    spans = {tuple(one) for one in draw(st.lists(ends, max_size=6)) if one[0] < one[1]}
    ordered = sorted(spans, key=lambda one: (one[0], -one[1]))
    return Marked(text, [Place(*one, n % 2 == 0, "?") for n, one in enumerate(ordered)])


@given(marked_texts(), st.integers(2, 50), st.integers(-1, 5))
def test_nothing_of_the_text_is_lost_and_every_line_fits(marked, width, here):
    rows = marked.window((0, 0), 10**6, width, here, FINE)
    assert all(length(row) <= width for row in rows)
    kept = [sign for sign in "".join(map(words_of, rows)) if sign in "abx,.鏡éword"]
    assert kept == [sign for sign in marked.text if sign in "abx,.鏡éword"]


@given(marked_texts(), st.integers(2, 50), st.data())
def test_positions_and_characters_lead_to_each_other(marked, width, data):
    rows = [
        (block, row)
        for block in range(marked.blocks)
        for row in range(len(marked.rows(block, width, -1, FINE)))
    ]
    place = data.draw(st.integers(0, len(rows) - 1))
    by = data.draw(st.integers(-len(rows) - 2, len(rows) + 2))
    expected = rows[max(0, min(len(rows) - 1, place + by))]
    assert marked.moved(rows[place], by, width, FINE) == expected
    height = data.draw(st.integers(1, 20))
    other = data.draw(st.integers(0, len(rows) - 1))
    in_sight = place <= other < place + height
    assert marked.shows(rows[place], height, width, rows[other], FINE) == in_sight
    last = rows[max(0, len(rows) - height)]
    assert marked.filled(rows[place], height, width, FINE) == min(rows[place], last)
    for number, one in enumerate(marked.places):
        block, row = marked.position(one.start, width, FINE)
        starts = [sign[2] for sign in marked.rows(block, width, number, FINE)[row]]
        assert not starts or starts[0] <= one.start


def test_a_long_text_is_folded_where_it_is_looked_at():
    text = ("sixth plate ambrotype, hinge taped. " * 30_000).strip()
    marked = Marked(text, [Place(900_000, 900_020, False, "")])
    at = marked.position(900_000, 40, FINE)
    assert len(marked.window(at, 20, 40, 0, FINE)) == 20
    assert len(marked._folded) <= 3
    assert marked.blocks >= len(text) // CHUNK


@given(st.text())
def test_any_text_is_safe_once_cleaned_and_a_draft_keeps_it(text):
    clean = cleaned(text)
    assert cleaned(clean) == clean
    # Control signs and halves of characters, by the general categories of the Unicode Standard.
    assert all(sign == "\n" or category(sign) not in ("Cc", "Cs") for sign in clean)
    assert compose(f"piece: 1\n{kept_line(clean, clean)}", "draft").text(KEY) == clean


@pytest.mark.parametrize(
    ("given_text", "clean"),
    [
        ("a\r\nb\rc\x85d\u2028e", "a\nb\nc\nd\ne"),
        ("  a\tb \x1b[2J ", "a b  [2J"),
        ("\ud800\ufeff\u202e", ""),
        ("½ plate – «ambrotype» 😀", "½ plate – «ambrotype» 😀"),
    ],
)
def test_signs_that_act_on_a_terminal_become_blanks(given_text, clean):
    assert cleaned(given_text) == clean


def test_what_is_longer_than_is_read_is_cut():
    assert len(cleaned("x" * (LONGEST + 5))) == LONGEST


@pytest.mark.parametrize(
    ("data", "text"),
    [
        ("½ plate".encode(), "½ plate"),
        (b"\xef\xbb\xbfplate", "plate"),
        (b"\xbd plate \x96 taped", "½ plate – taped"),
        (b"\x81 plate", "\ufffd plate"),
    ],
)
def test_files_of_older_programs_are_read_too(tmp_path, data, text):
    file = tmp_path / "listing.txt"
    file.write_bytes(data)
    assert text_from(str(file)) == text


def test_what_is_no_text_file_is_told_in_a_line(tmp_path):
    (tmp_path / "empty.txt").write_bytes(b" \n")
    with (tmp_path / "huge.txt").open("wb") as out:
        out.truncate(4 * LONGEST + 1)
    for name, what in (("", "no such"), ("empty.txt", "is empty"), ("huge.txt", "too long")):
        with pytest.raises(InputError, match=what):
            text_from(str(tmp_path / name))
