"""What a piece is and holds, as far as anything says so."""

import pytest

from appraise.base.measures import Measure
from appraise.knowledge import load
from appraise.reading.matter import CONTENT, bare, content_of
from appraise.records.piece import Finding, Image, Piece

KNOWLEDGE = load()


@pytest.mark.parametrize("answer", KNOWLEDGE.checks[CONTENT].answers, ids=lambda one: one.id)
def test_what_lies_in_the_case_is_told_in_the_words_of_its_answer(answer):
    piece = Piece().with_finding(CONTENT, answer.id)
    assert content_of(piece, KNOWLEDGE) == answer.says != ""


def test_of_what_nobody_noted_or_the_check_does_not_have_nothing_is_told():
    assert content_of(Piece(), KNOWLEDGE) == ""
    assert content_of(Piece().with_finding(CONTENT, "no-such-answer"), KNOWLEDGE) == ""


@pytest.mark.parametrize(
    ("piece", "nothing"),
    [
        (Piece(), True),
        (Piece().with_finding("mat.shape", "cannot-tell"), True),
        (Piece().with_finding("mat.shape", "oval"), False),
        (Piece(kind="card"), False),
        (Piece(named_format="sixth"), False),
        (Piece(measured={"plate": Measure.parse("70 x 83 mm")}), False),
        (
            Piece(images=(Image("left", {"mat.shape": Finding("mat.shape", "oval", "in-hand")}),)),
            False,
        ),
        (Piece(images=(Image("left", {}),)), True),
    ],
    ids=range(8),
)
def test_whether_nothing_says_what_it_is(piece, nothing):
    assert bare(piece) is nothing
