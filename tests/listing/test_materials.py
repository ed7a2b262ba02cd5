"""Names of materials as people type them."""

import pytest
from every import every

from appraise.base.errors import InputError
from appraise.knowledge import load
from appraise.listing.materials import materials_named

KNOWLEDGE = load()


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("platinum", {"platinum"}),
        ("thermoplastic", {"thermoplastic", "cased"}),
        ("Union case", {"thermoplastic", "cased"}),
        ("tintype", {"tintype"}),
        ("ferrotype", {"tintype"}),
        ("gem tintype", {"tintype-gem", "tintype"}),
        ("tintype-gem", {"tintype-gem", "tintype"}),
        ("salted paper print", {"salted-paper"}),
        ("leather-wood", {"leather-wood", "cased"}),
        ("mother-of-pearl or tortoiseshell veneer", {"shell", "cased"}),
        ("cased daguerreotype", {"cased", "daguerreotype"}),
        ("lantern slide", {"lantern-slide"}),
        ("none", {"none", "loose-plate"}),
        ("", set()),
    ],
)
def test_plain_words_name_materials(typed, meant):
    assert materials_named(typed.split(), KNOWLEDGE) == meant


@every(
    "word",
    sorted(
        {*KNOWLEDGE.processes, *KNOWLEDGE.housings}
        | {one.family for one in KNOWLEDGE.processes.values()}
    ),
)
def test_every_id_and_family_names_itself(word):
    assert word in materials_named([word], KNOWLEDGE)


@every("process", KNOWLEDGE.processes)
def test_every_name_of_a_process_names_it(process):
    name = KNOWLEDGE.processes[process].name
    assert {process, KNOWLEDGE.processes[process].family} & materials_named([name], KNOWLEDGE)


def test_a_word_that_names_nothing_is_one_line_with_the_nearest():
    with pytest.raises(InputError, match="'platnum' is not a material") as caught:
        materials_named(["platnum"], KNOWLEDGE)
    assert "platinum" in caught.value.mend
