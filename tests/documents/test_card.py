"""The pocket card: one page, led by the checks that tell most for their seconds."""

import pytest

from appraise.documents.card import card_checks, card_text
from appraise.inquiry.telling import worth
from appraise.knowledge import load
from appraise.knowledge.records import KINDS, UNJUDGED
from appraise.reading.frame import frame_of

KNOWLEDGE = load()
JUDGED = [kind for kind in KINDS if kind not in UNJUDGED]
PAGE = 66  # lines of a printed page at six to the inch


def chosen(kind):
    return [check.id for check in card_checks(KNOWLEDGE, kind)]


@pytest.mark.parametrize("kind", JUDGED)
def test_it_fits_on_one_page(kind):
    lines = card_text(KNOWLEDGE, kind).splitlines()
    assert 10 < len(lines) <= PAGE
    assert max(map(len, lines)) <= 78


@pytest.mark.parametrize("kind", ["cased", "loose-plate", "card", "lantern-slide"])
def test_the_check_that_tells_most_for_its_seconds_leads(kind):
    frame = frame_of(KNOWLEDGE, kind, "unknown")
    able = [
        check
        for check in KNOWLEDGE.checks.values()
        if kind in check.kinds
        and not check.defect
        and check.risk != "conservator"
        and check.part not in ("claim", "own")
    ]
    best = max(able, key=lambda check: worth(check, frame))
    assert chosen(kind)[0] == best.id


@pytest.mark.parametrize("kind", JUDGED)
def test_a_safety_check_has_no_place_of_its_own(kind):
    safe = [check.id for check in card_checks(KNOWLEDGE, kind) if check.safety]
    every = [c.id for c in KNOWLEDGE.checks.values() if c.safety and kind in c.kinds]
    assert not (safe and safe == chosen(kind)[: len(safe)])
    assert len(safe) <= len(every)


def test_the_cased_card_has_what_an_old_hand_looks_at_and_no_rare_hidden_stamp():
    cased = chosen("cased")
    wanted = {"case.material", "plate.mirror", "plate.magnet", "plate.outline", "mat.shape"}
    assert wanted <= set(cased)
    assert {"image.dots", "image.copy-signs", "hinge.split"} <= set(cased)
    hidden = {"plate.stamp-mark", "plate.stamp", "plate.hallmark-mark"}
    assert not {*hidden, "own.process"} & set(cased)


def test_nothing_that_only_a_conservator_should_do():
    for kind in JUDGED:
        assert all(check.risk != "conservator" for check in card_checks(KNOWLEDGE, kind))
