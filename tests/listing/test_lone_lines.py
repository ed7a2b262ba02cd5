"""Typed lines that name no photograph: a part by itself, two images in one case, nothing known."""

import datetime as dt

import pytest

from appraise.knowledge import load
from appraise.listing.bench_line import understand_part
from appraise.listing.first_look import understand
from appraise.listing.quick import understand_entry

KNOWLEDGE = load()
TODAY = dt.date(2026, 11, 7)
NOTHING = "no word says what it is"


def kinds(line):
    """The kind that a first look and the price log take a line for."""
    entry = understand_entry(line, KNOWLEDGE, "USD", TODAY).entry
    return understand(line, KNOWLEDGE).piece.kind, entry.kind


@pytest.mark.parametrize(
    "line",
    [
        "part brass mat 5",
        "brass mat 5",
        "sixth octagon mat, 8",
        "spare pads 4",
        "mat 2",
        "two clasps 6",
        "velvet pad 2",
    ],
)
def test_a_part_that_is_named_alone_is_a_part(line):
    assert kinds(line) == ("part", "part")
    assert not understand(line, KNOWLEDGE).not_understood


@pytest.mark.parametrize(
    "line",
    [
        "hinge taped 40",
        "no preserver 45",
        "glass cracked 20",
        "sixth ambro oval mat 45",
        "soldier, brass mat 30",
        "union case, brass mat 30",
        "sixth 45",
    ],
)
def test_a_part_beside_an_image_a_case_or_damage_is_not(line):
    assert kinds(line) == ("cased", "cased")


@pytest.mark.parametrize("line", ["asdf qwer 12", "teapot blue 30", "12", "30 the old"])
def test_a_line_of_nothing_known_says_so_and_is_logged_as_no_photograph(line):
    assert NOTHING in understand(line, KNOWLEDGE).notes
    quick = understand_entry(f"{line} 30", KNOWLEDGE, "USD", TODAY)
    assert quick.entry.kind == "other"
    assert any(note.startswith(NOTHING) for note in quick.notes)


@pytest.mark.parametrize("line", ["sixth ambro 45", "brass mat 5", "album 30", "soldier 20"])
def test_a_line_that_says_what_it_is_has_no_such_note(line):
    assert NOTHING not in understand(line, KNOWLEDGE).notes


def test_two_images_in_one_case_are_one_piece():
    look = understand("two ambros in one case 80", KNOWLEDGE)
    assert look.piece.kind == "cased"
    assert [one.side for one in look.piece.images] == ["left", "right"]
    assert not [note for note in look.notes if "pieces together" in note]
    assert understand("two ambros 80", KNOWLEDGE).piece.kind == "lot"


def test_a_part_of_the_stock_is_still_read_with_its_answers():
    part = understand_part("sixth brass mat oval, 3", KNOWLEDGE, "USD", TODAY).thing
    assert ("mat.shape", "oval") in [(one.check, one.answer) for one in part.seen]
