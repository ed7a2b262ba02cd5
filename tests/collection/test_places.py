"""What speaks against the place where a piece stands."""

import pytest

from appraise.collection.upkeep import unfit, unfit_words
from appraise.knowledge import load

KNOWLEDGE = load()


# Not in an attic or basement, but in an interior closet: "Caring for Your Photographic
# Collections", Library of Congress. No collodion below 5 C: fact sheet of the Museums and Galleries
# Commission, 1999, quoted on the Conservation DistList, 2002. Light fades: "Guidelines for
# Exhibition Light Levels", American Institute for Conservation, 2001.
@pytest.mark.parametrize(
    ("place", "row"),
    [
        ("attic", "bad-room"),
        ("loft, box 3", "bad-room"),
        ("Cellar", "bad-room"),
        ("basement shelf", "bad-room"),
        ("the garage", "bad-room"),
        ("window sill", "bad-light"),
        ("windowsill, study", "bad-light"),
        ("above the fire", "bad-light"),
        ("cold store", "freezing"),
        ("cold-storage", "freezing"),
        ("fridge", "freezing"),
    ],
)
def test_an_unfit_place_is_told_with_a_better_one(place, row):
    (found,) = unfit(place, KNOWLEDGE)
    assert found.id == row
    assert " Instead: " in unfit_words(found)


@pytest.mark.parametrize("place", ["", "box 2", "study, drawer 4", "inner closet", "bank vault"])
def test_a_fit_place_says_nothing(place):
    assert unfit(place, KNOWLEDGE) == ()
