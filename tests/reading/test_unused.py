"""Answers to questions that a kind of piece is not asked: they are told, and count nothing."""

import pytest
from verdict.test_headline import told
from verdict.verdictkit import KNOWLEDGE, judged

from appraise.records.piece import Piece

KINDS = ("empty-case", "card", "lantern-slide", "postcard", "loose-plate")
ASKED = "What shape is the mat opening?"


@pytest.mark.parametrize("kind", KINDS)
def test_an_answer_that_does_not_fit_is_told_and_changes_nothing(kind):
    plain = Piece(kind=kind)
    verdict, without = judged(plain.with_finding("mat.shape", "oval")), judged(plain)
    found = [one for one in verdict.warnings if one.id == "not-used"]
    assert [one.because for one in found] == [(ASKED,)]
    assert verdict.headline == without.headline
    written, document = told(verdict)
    assert "an answer was not used" in " ".join(written.casefold().split())
    assert ASKED in " ".join(written.split())
    assert any(one["id"] == "not-used" for one in document["warnings"])


@pytest.mark.parametrize("content", ["nothing", "painting", "keepsake", "fired"])
def test_what_lies_in_the_case_is_used_though_it_makes_another_kind(content):
    piece = Piece().with_finding("piece.content", content)
    assert all(one.id != "not-used" for one in judged(piece).warnings)
    assert judged(piece).reading.piece.kind != "cased"


def test_what_fits_is_not_told_of():
    for name, check in KNOWLEDGE.checks.items():
        for kind in check.kinds[:1]:
            piece = Piece(kind=kind).with_finding(name, check.answers[0].id)
            assert all(one.id != "not-used" for one in judged(piece).warnings), name
