"""Sizes in print against the shipped formats: a thing of the size is told to be of the format.

Each row names where the size is printed; an inch is 25.4 mm.
"""

import pytest
from external.kit import shipped, told

CENTURY = "The Century Dictionary and Cyclopedia, quarter-plate, as quoted by a dictionary site"
FORMATS = "Photographic Formats, Harry Ransom Center, University of Texas at Austin"
PLATES = "The Photographic Process (2011), Library of Congress"
GERNSHEIM = "H. and A. Gernsheim, The History of Photography, page 303, as scanned"

PRINTED = [
    ("loose-plate", "3 1/4 x 4 1/4 in", "quarter", CENTURY),
    ("loose-plate", "4 1/4 x 5 1/2 in", "half", CENTURY),
    ("loose-plate", "4 3/4 x 6 1/2 in", "half-uk", CENTURY),
    ("loose-plate", "6 1/2 x 8 1/2 in", "whole", PLATES),
    ("loose-plate", "2 3/4 x 3 1/4 in", "sixth", PLATES),
    ("loose-plate", "2 x 2 1/2 in", "ninth", PLATES),
    ("card", "4 1/4 x 6 1/2 in", "cabinet", FORMATS),
    ("card", "2 1/2 x 4 in", "carte-de-visite", FORMATS),
    ("card", "3 3/4 x 7 1/2 in", "promenade", GERNSHEIM),
    ("card", "5 x 8 1/4 in", "boudoir", GERNSHEIM),
    ("lantern-slide", "3 1/4 x 3 1/4 in", "lantern-british", FORMATS),
    ("lantern-slide", "3 1/4 x 4 in", "lantern-american", FORMATS),
]


@pytest.mark.parametrize(("kind", "size", "name", "printed"), PRINTED)
def test_a_thing_of_the_printed_size_is_of_the_format(kind, size, name, printed):
    measured = {"mount" if kind == "card" else "plate": size}
    formats = told(kind=kind, measured=measured).formats
    assert formats.best == name, printed
    assert formats.probabilities[name] > 0.5, printed


def test_a_round_print_of_the_second_roll_film_camera():
    # No. 2 Kodak of 1890, inv. 95835, History of Science Museum, Oxford: 89 mm across.
    assert (88.9, 88.9) in [tuple(size) for size in shipped().formats["circular"].sizes]


# The French law of 1799 makes the metre 443.296 lines, 12 lines to the inch. That plates are
# fractions of 6 by 8 such inches is from memory; this checks the arithmetic of the rows.
INCH = 12 * 1000 / 443.296
FRACTIONS = [
    ("paris-full", 6, 8, 1),
    ("paris-two-thirds", 16 / 3, 6, 2 / 3),
    ("paris-half", 4, 6, 1 / 2),
    ("paris-quarter", 3, 4, 1 / 4),
    ("paris-sixth", 8 / 3, 3, 1 / 6),
    ("paris-eighth", 2, 3, 1 / 8),
    ("paris-ninth", 2, 8 / 3, 1 / 9),
    ("paris-twelfth", 1.5, 8 / 3, 1 / 12),
]


@pytest.mark.parametrize(("name", "width", "height", "part"), FRACTIONS)
def test_continental_plates_are_their_fraction_of_the_full_plate(name, width, height, part):
    (size,) = shipped().formats[name].sizes
    assert tuple(size) == pytest.approx((INCH * width, INCH * height), abs=0.06)
    assert width * height == pytest.approx(part * 6 * 8)


def test_a_full_plate_of_paris_is_as_a_museum_measures_it():
    # La collection de daguerreotypes du Musee, Musee suisse de l'appareil photographique, Vevey:
    # full plates of Paris of the early 1840s, 16 x 21 cm.
    width, height = shipped().formats["paris-full"].sizes[0]
    assert (round(width / 10), int(height / 10)) == (16, 21)
