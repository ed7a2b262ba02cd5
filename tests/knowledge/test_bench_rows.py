"""Rows of the bench: what each may say, faults told with their place, and no brand named.

Whether a material keeps: tape by the Texas State Library and Archives (2017) and New York
University Libraries (2014); starch paste and cellulose ethers by the American Institute for
Conservation (2009, 1997); thin paper tape by the Bancroft Library. Where no source is named it is
common practice.
"""

import re

import pytest

from appraise.knowledge import load
from appraise.knowledge.bench import ARCHIVAL, named

KNOWLEDGE = load()
SOURCED = {
    "sticky-tape": ("no", {"texas-tape", "nyu-tape"}),
    "starch-paste": ("yes", {"pmg-housing", "pmg-cellulose"}),
    "methyl-cellulose": ("yes", {"pmg-cellulose"}),
    "paper-tape": ("depends", {"bancroft-treatment", "jaic-tape"}),
    "dressing": ("no", {"c2c-leather"}),
    "japanese-paper": ("yes", {"smithsonian-tissue"}),
}


@pytest.mark.parametrize("name", SOURCED)
def test_materials_rest_on_their_sources(name):
    row = KNOWLEDGE.materials[name]
    archival, sources = SOURCED[name]
    assert row.archival == archival
    assert sources <= set(row.basis.sources)


def test_every_row_knows_its_own_words_and_says_little():
    for row in KNOWLEDGE.materials.values():
        assert row.archival in ARCHIVAL
        assert all(named(f"with {word.upper()} on it", row.words) for word in row.words)
        assert len(row.says.split()) <= 40
    for spare in KNOWLEDGE.spares.values():
        assert all(named(word, spare.words) for word in spare.words)


def test_no_word_means_two_materials():
    words = [word for row in KNOWLEDGE.materials.values() for word in row.words]
    assert len(words) == len(set(words))


def test_nothing_is_named_by_a_capital_letter_as_brands_are():
    proper = {"Japanese", "Photographic", "Activity", "Test", "ISO", "Conservators", "Libraries"}
    for row in KNOWLEDGE.materials.values():
        for sentence in re.split(r"(?<=[.;:!?])\s+", row.says):
            inner = re.findall(r"(?<!^)\b[A-Z]\w+", sentence)
            assert set(inner) <= proper


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("spares:\n  lid: {name: lid, parts: [lidd], outside: case, room: -1 1, words: lid, "
         "basis: judgement}", "'lidd' is not a part"),
        ("spares:\n  lid: {name: lid, parts: [case], outside: box, room: -1 1, words: lid, "
         "basis: judgement}", "'box' is not known here"),
        ("spares:\n  lid: {name: lid, parts: [case], outside: case, room: 2 1, words: lid, "
         "basis: judgement}", "the least and the most"),
        ("materials:\n  glue: {name: glue, archival: maybe, says: Sticks., words: glue, "
         "basis: practice}", "'maybe' is not known here"),
        ("materials:\n  glue: {name: glue, archival: no, says: Sticks., words: glue}",
         "no 'source' and no 'basis'"),
        ("fitting: {reach: -1, doubtful: .5, basis: judgement}", "outside 0 to 10"),
    ],
)  # fmt: skip
def test_a_faulty_row_is_told_with_its_place(tmp_path, text, told):
    (tmp_path / "own.yaml").write_text(text, encoding="utf-8")
    (problem,) = load(overlay=tmp_path).problems
    assert "own.yaml:" in str(problem)
    assert told in str(problem)


def test_a_row_of_ones_own_stands_for_the_shipped_one(tmp_path):
    (tmp_path / "own.yaml").write_text(
        "materials:\n  my-paste: {name: my paste, archival: 'yes', says: Mine., words: my paste, "
        "basis: practice}\nfitting: {reach: 3, doubtful: .2, basis: judgement}\n",
        encoding="utf-8",
    )
    own = load(overlay=tmp_path)
    assert own.materials["my-paste"].archival == "yes"
    assert own.fitting.reach == 3
    assert own.problems == ()
