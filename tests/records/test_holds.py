"""A bid is held back while only the seller speaks, and what is said moves the verdict."""

from datetime import date

import pytest

from appraise.knowledge import load
from appraise.knowledge.records import UNJUDGED
from appraise.records.holds import holds_of, no_maximum
from appraise.records.piece import Piece
from appraise.verdict import judge

KNOWLEDGE = load()
DAY = date(2026, 11, 7)
HOLDING = [
    ("claim.age", "modern"),
    ("claim.belonging", "exchanged"),
    ("case.state", "replaced"),
    ("case.state", "modern"),
]


def said(check, answer, known="seller", admitted=True):
    plain = Piece(channel="online").with_finding("claim.process", "ambrotype", "seller")
    return plain.with_finding(check, answer, known, admitted)


def chances(piece):
    return judge(piece, KNOWLEDGE, None, DAY).reading.belonging


PLAIN = chances(Piece(channel="online").with_finding("claim.process", "ambrotype", "seller"))


@pytest.mark.parametrize(("check", "answer"), HOLDING)
def test_a_sellers_word_holds_a_bid_back_until_somebody_has_looked(check, answer):
    (why,) = holds_of(said(check, answer), KNOWLEDGE)
    assert no_maximum([why]) == f"No maximum is given: {why}."
    assert judge(said(check, answer), KNOWLEDGE, None, DAY).holds_back == (why,)
    assert holds_of(said(check, answer, "in-hand", admitted=False), KNOWLEDGE) == ()


@pytest.mark.parametrize(("check", "answer"), [("claim.belonging", "original"),
                                               ("claim.age", "period"),
                                               ("mat.state", "replaced")])  # fmt: skip
def test_praise_and_a_lesser_part_hold_nothing_back(check, answer):
    assert holds_of(said(check, answer), KNOWLEDGE) == ()


@pytest.mark.parametrize("check", sorted({check for check, _ in HOLDING}))
def test_an_answer_that_the_check_does_not_have_holds_nothing_back(check):
    """It may come from a newer version, or from a row of the user's that is gone."""
    assert holds_of(said(check, "no-such-answer"), KNOWLEDGE) == ()
    assert holds_of(said("no.such-check", "modern"), KNOWLEDGE) == ()


@pytest.mark.parametrize("kind", UNJUDGED)
def test_what_has_no_single_reading_has_no_maximum(kind):
    assert len(holds_of(Piece(kind=kind), KNOWLEDGE)) == 1


# The directions are common practice; how far each moves is a judgement of data/checks/firsts.yaml.
def test_praise_moves_little_and_an_admission_much():
    praised = chances(said("claim.belonging", "original", admitted=False))
    owned_up = chances(said("claim.belonging", "exchanged"))
    assert PLAIN["together"] < praised["together"] < PLAIN["together"] + 0.05
    assert owned_up["married"] > 0.75
    assert owned_up["together"] < 0.5 * PLAIN["together"]


def test_a_reprint_that_is_called_one_is_likelier_modern_than_not():
    told = chances(said("claim.age", "modern"))
    assert told["modern-image"] + told["all-modern"] > 0.5
    unadmitted = chances(said("claim.age", "modern", admitted=False))
    assert unadmitted["modern-image"] < told["modern-image"]


@pytest.mark.parametrize("kind", ["card", "loose-plate", "print", "postcard", "lantern-slide"])
def test_modern_is_asked_of_every_kind_that_is_a_photograph(kind):
    piece = Piece(kind=kind, channel="online")
    before = judge(piece, KNOWLEDGE, None, DAY).reading.belonging["modern"]
    modern = piece.with_finding("claim.age", "modern", "seller", admitted=True)
    assert judge(modern, KNOWLEDGE, None, DAY).reading.belonging["modern"] > 5 * before / (
        1 + 4 * before
    )


def test_a_replaced_mat_tells_of_an_opened_package_and_dates_nothing():
    dated = said("mat.shape", "octagon", "in-hand", admitted=False)
    free = dated.with_finding("mat.state", "replaced", "seller", admitted=True)
    before, after = (judge(one, KNOWLEDGE, None, DAY).reading for one in (dated, free))
    assert after.disturbed > before.disturbed
    assert not any(one.check == "mat.shape" for one in after.timeline)
    assert after.belonging["married"] - before.belonging["married"] < 0.2


def test_a_modern_case_is_another_question_than_a_modern_image():
    case = chances(said("case.state", "modern"))
    assert case["modern-case"] > 5 * PLAIN["modern-case"]
    assert case["modern-image"] < 2 * PLAIN["modern-image"]
