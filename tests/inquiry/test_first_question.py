"""The first question of a piece as a buyer types it: the one that a practitioner would ask."""

from datetime import date

import pytest

from appraise.base.settings import Settings
from appraise.inquiry.next_check import ranked
from appraise.knowledge import load
from appraise.listing.first_look import understand
from appraise.pricing.estimate import learn
from appraise.reading.reading import read
from appraise.verdict import judge, next_steps

KNOWLEDGE = load()
DAY = date(2026, 12, 1)


@pytest.mark.parametrize(
    ("line", "parts"),
    [
        ("empty thermoplastic case geometric 25", {"case", "hinge"}),  # is it sound
        ("tintype modern reprint 20", {"plate", "image", "piece"}),  # is it a tintype at all
        ("quarter plate tintype frame 55 modern", {"plate", "image", "piece"}),
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


def test_how_far_the_tarnish_reaches_is_asked_with_the_state_of_the_plate():
    piece = understand("sixth plate dag leather case seal whole 120", KNOWLEDGE).piece
    for check, answer in (("own.process", "daguerreotype"), ("plate.mirror", "flips")):
        piece = piece.with_finding(check, answer)
    order = [one.check for one in ranked(read(piece, KNOWLEDGE), KNOWLEDGE)]
    part = [KNOWLEDGE.checks[check].part for check in order]
    assert order.index("plate.outline") < part.index("hinge")


def test_once_the_rest_promises_too_little_only_what_must_be_seen_is_asked():
    piece = understand("cabinet card albumen 12", KNOWLEDGE).piece
    prices, knowledge = learn(()), KNOWLEDGE
    for _ in range(30):
        steps = next_steps(judge(piece, knowledge, prices, DAY, Settings()), knowledge)
        if steps.enough.enough:
            break
        first = steps.proposals[0].check
        assert not steps.enough.still or first in steps.enough.still
        piece = piece.with_finding(first, "cannot-tell")
    assert steps.enough.enough
    assert not steps.enough.still


@pytest.mark.parametrize("line", ["empty thermoplastic case scrolls 25", "empty leather case 12"])
def test_of_an_empty_case_whether_it_is_sound_is_asked_before_its_pad(line):
    piece = understand(line, KNOWLEDGE).piece
    verdict = judge(piece, KNOWLEDGE, learn(()), DAY, Settings())
    first = next_steps(verdict, KNOWLEDGE).proposals[0].check
    assert KNOWLEDGE.checks[first].part in ("case", "hinge")
