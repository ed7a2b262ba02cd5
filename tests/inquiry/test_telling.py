"""What a check is worth for the seconds that it takes, before anything is seen."""

import math

import pytest

from appraise.inquiry.telling import SHOWING, CheckValue, information, loss, shows, spread, worth
from appraise.knowledge import load
from appraise.reading.frame import frame_of

KNOWLEDGE = load()
CASED = frame_of(KNOWLEDGE, "cased", "unknown")


def test_information_is_no_more_than_the_answers_can_hold():
    """Mutual information is at most the entropy of the answer: log2 of their number."""
    for check in KNOWLEDGE.checks.values():
        if "cased" in check.kinds and not check.defect:
            told, asked = information(check, CASED)
            assert 0 <= told <= math.log2(len(check.answers)) + 1e-9
            assert 0 <= asked <= 1 + 1e-9


def test_what_is_seldom_asked_is_worth_less_than_the_same_bits_asked_always():
    bubbles = KNOWLEDGE.checks["case.bubbles"]
    told, asked = information(bubbles, CASED)
    assert 0.02 < asked < 0.5  # moulded cases only
    assert worth(bubbles, CASED) < told / (bubbles.seconds + 10)


def test_what_rarely_shows_is_weighed_down():
    signed = KNOWLEDGE.checks["plate.modern-signature"]
    assert "only if it already lies loose" in signed.how  # of the back alone: its edges show
    assert shows(signed) == shows(KNOWLEDGE.checks["mat.shape"]) == 1
    for name in ("plate.stamp-mark", "seal.paper", "case.build"):
        check = KNOWLEDGE.checks[name]
        assert shows(check) == SHOWING
        told, _ = information(check, CASED)
        assert worth(check, CASED) < 0.2 * told / (check.seconds + 10)


def test_of_checks_that_see_one_fact_the_first_counts_in_full():
    same = [KNOWLEDGE.checks[name] for name in ("mat.shape", "mat.surface")]
    assert same[0].group == same[1].group
    found = spread([CheckValue(same[1], 0.9), CheckValue(same[0], 1.0)], 0.3)
    assert [(one.check.id, one.worth) for one in found] == [
        ("mat.shape", 1.0),
        ("mat.surface", pytest.approx(0.27)),
    ]


def test_damage_counts_by_the_price_it_costs():
    """The expected loss is SUM rate (1 - worth); a tarnished mat costs less than a split hinge."""
    split, tarnish = KNOWLEDGE.checks["hinge.split"], KNOWLEDGE.checks["mat.tarnish"]
    assert loss(split, CASED) > 3 * loss(tarnish, CASED) > 0
