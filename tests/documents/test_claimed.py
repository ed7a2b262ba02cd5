"""What words were taken for is told by names: of damage always the damage itself."""

import re

import pytest
from verdict.verdictkit import KNOWLEDGE

from appraise.documents.claimed import claim_words, finding_words, meaning_words
from appraise.documents.words import KINDS
from appraise.listing.records import Claim

DEFECTS = [one for one in KNOWLEDGE.checks.values() if one.defect is not None]


def said(field, value, text="the words"):
    return claim_words(Claim(field, value, text, 0, len(text), 1.0), KNOWLEDGE)


def test_a_claim_of_damage_names_the_damage():
    assert said("defect", "hinge.tape 1") == "tape on the hinge"
    assert len(DEFECTS) > 50
    for check in DEFECTS:
        assert check.defect is not None
        for answer in check.answers:
            whole = f"{check.defect.name}: {answer.says}"
            bad = answer is not check.answers[0]  # a seller's degree is not ours
            told = said("defect", f"{check.id} {answer.id}")
            assert told == (check.defect.name if bad else whole)
            assert meaning_words(f"{check.id} {answer.id}: anything", KNOWLEDGE) == whole


def test_no_answer_stands_without_what_it_answers():
    for check in KNOWLEDGE.checks.values():
        for answer in check.answers:
            told = finding_words(check.id, answer.id, KNOWLEDGE)
            assert told.endswith(answer.says)
            assert len(told) > len(answer.says) + 2 or check.part == "claim"
            assert not re.match(r"[^?:]*: (?:yes|no|not|none|it)\b", told) or check.defect, told


@pytest.mark.parametrize(
    ("field", "value", "told"),
    [
        ("format", "sixth", "format: sixth plate"),
        ("case.material", "leather-wood", "case: leather over wood"),
        ("subject", "single", "shows: one person"),
        ("postage", "6.00 USD", "shipping: 6.00 USD"),
        ("kind", "loose-plate", "kind: photographic plate"),
    ],
)
def test_a_field_is_told_by_its_name(field, value, told):
    assert said(field, value) == told
    assert meaning_words(f"{field} {value}", KNOWLEDGE) == told.replace(":", "", 1)


def test_a_date_is_told_as_the_seller_writes_it():
    assert said("date", "185X", "1850s") == "date: 1850s"


def test_no_id_of_the_data_is_left():
    ids = {*KNOWLEDGE.processes, *KNOWLEDGE.formats, *KNOWLEDGE.housings, *KINDS}
    rows = {"process": KNOWLEDGE.processes, "format": KNOWLEDGE.formats, "kind": KINDS}
    for field, values in rows.items():
        for value in values:
            told = said(field, value).partition(": ")[2]
            assert told not in ids or "-" not in told, told
