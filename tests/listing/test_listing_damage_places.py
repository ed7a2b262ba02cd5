"""Damage at a place, and damage mended with tape, in the tongues of sellers."""

import pytest

from appraise.knowledge import load
from appraise.listing.damage import DamageSubject, damage
from appraise.listing.passage import Passage

KNOWLEDGE = load()


def said(text, housing="leather-wood"):
    passage = Passage(text, KNOWLEDGE)
    subject = DamageSubject("cased", housing, "ambrotype")
    return {one.check for one in damage(passage, lambda _: subject)}


@pytest.mark.parametrize(
    ("text", "checks"),
    [
        (
            "Two small chips at the clasp and a hairline crack on the back cover of the case.",
            {"case.chip", "case.crack"},
        ),
        ("A hairline crack on the back of the case.", {"case.crack"}),
    ],
)
def test_an_edge_is_of_what_follows_it(text, checks):
    assert said(text, "thermoplastic") == checks


@pytest.mark.parametrize(
    "text",
    [
        "The hinge was repaired with tape.",
        "Das Scharnier wurde mit Klebeband repariert.",
        "Scharnier mit Tesafilm geklebt.",
        "Charnière réparée avec du scotch.",
        "Cerniera riparata con nastro adesivo.",
        "Bisagra reparada con cinta.",
        "Scharnier met plakband gemaakt.",
    ],
)
def test_tape_is_no_new_leather(text):
    assert said(text) == {"hinge.tape"}
