"""The first question of a piece as a buyer types it: the one that a practitioner would ask."""

import pytest

from appraise.inquiry.next_check import ranked
from appraise.knowledge import load
from appraise.listing.first_look import understand
from appraise.reading.reading import read

KNOWLEDGE = load()


@pytest.mark.parametrize(
    ("line", "parts"),
    [
        ("empty thermoplastic case geometric 25", {"case", "hinge"}),  # is it sound
        ("tintype modern reprint 20", {"plate", "image"}),  # is it a tintype at all
        ("quarter plate tintype frame 55 modern", {"plate", "image"}),
        ("two ambrotypes one double case 90", {"case", "plate", "image"}),
        ("sixth plate dag leather case seal whole 120", {"plate", "image"}),
    ],
)
def test_the_first_questions_are_of_what_matters_most(line, parts):
    piece = understand(line, KNOWLEDGE).piece
    first = ranked(read(piece, KNOWLEDGE), KNOWLEDGE)[:2]
    assert {KNOWLEDGE.checks[one.check].part for one in first} <= parts


def test_what_the_case_of_a_modern_picture_is_made_of_can_wait():
    piece = understand("tintype modern reprint 20", KNOWLEDGE).piece
    first = ranked(read(piece, KNOWLEDGE), KNOWLEDGE)[0]
    assert KNOWLEDGE.checks[first.check].table("process") is not None
