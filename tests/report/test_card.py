"""The pocket card: one page, with every check that guards people or the piece."""

import pytest

from appraise.knowledge import load
from appraise.knowledge.records import KINDS
from appraise.report.card import card_checks, card_text

KNOWLEDGE = load()
PAGE = 66  # lines of a printed page at six to the inch


@pytest.mark.parametrize("kind", KINDS)
def test_it_fits_on_one_page(kind):
    lines = card_text(KNOWLEDGE, kind).splitlines()
    assert 10 < len(lines) <= PAGE
    assert max(map(len, lines)) <= 78


@pytest.mark.parametrize("kind", KINDS)
def test_safety_comes_before_everything_else(kind):
    chosen = {check.id for check in card_checks(KNOWLEDGE, kind)}
    for check in KNOWLEDGE.checks.values():
        if check.safety and kind in check.kinds and check.risk != "conservator":
            assert check.id in chosen


def test_the_old_hands_checks_are_on_the_cased_card():
    chosen = {check.id for check in card_checks(KNOWLEDGE, "cased")}
    assert {"plate.magnet", "plate.mirror", "mat.shape", "case.material", "hinge.split"} <= chosen


def test_nothing_that_only_a_conservator_should_do():
    for kind in KINDS:
        assert all(check.risk != "conservator" for check in card_checks(KNOWLEDGE, kind))
