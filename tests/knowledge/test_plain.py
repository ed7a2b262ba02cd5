"""Plain words for every thing that a piece may be, and for somebody who does not know the field."""

import re

import pytest
from every import every

from appraise.knowledge import load

KNOWLEDGE = load()
NAMELESS = {"other", "none"}
THINGS = sorted(
    {*KNOWLEDGE.housings, *(one.family for one in KNOWLEDGE.processes.values())} - NAMELESS
)


def test_everything_that_has_a_name_is_told_in_plain_words():
    assert sorted(KNOWLEDGE.plain) == THINGS


@every("name", THINGS)
def test_plain_words_are_few_and_name_no_price(name):
    text = KNOWLEDGE.plain[name].text
    sentences = re.split(r"(?<=[.!?])\s", text)
    assert 1 <= len(sentences) <= 4
    assert max(len(one.split()) for one in sentences) <= 28
    assert not re.search(r"worth|valuable|rare|pric", text)


# Daguerreotypes are on highly polished silver, ambrotypes on glass, tintypes on lacquered iron:
# Conservation and Care of Collections, Appendix 7 (2017), Western Australian Museum.
@pytest.mark.parametrize(
    ("name", "word"), [("daguerreotype", "silver"), ("ambrotype", "glass"), ("tintype", "iron")]
)
def test_the_support_is_the_published_one(name, word):
    assert word in KNOWLEDGE.plain[name].text


def test_a_row_for_a_thing_that_is_not_known_is_told_with_its_place(tmp_path):
    (tmp_path / "own.yaml").write_text(
        "plain:\n  tintyp: {text: A picture on iron., basis: practice}\n", encoding="utf-8"
    )
    (problem,) = load(overlay=tmp_path).problems
    assert "own.yaml:2" in str(problem)
    assert "neither a process family nor a housing" in str(problem)
