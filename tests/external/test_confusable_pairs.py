"""Sizes and looks that are taken for others, and what tells them apart, on the shipped knowledge.

Published sizes stand with their source; that people confuse them is common practice.
"""

import pytest
from external.kit import best, judged, told, warned

# Measured through the mat, taken for, and the plate behind it.
# Ambrotypes and Tintypes, Library of Congress, for the plates; 2009.19 and 2009.18.1, Carnegie
# Museum of Art, and 1999.23, Cleveland Museum of Art, for the openings.
THROUGH_THE_MAT = [("57 x 70 mm", "sixth"), ("57 x 68 mm", "sixth"), ("71 x 92 mm", "quarter")]


@pytest.mark.parametrize(("size", "plate"), THROUGH_THE_MAT)
def test_plate_or_opening_is_asked_back(size, plate):
    seen = judged(measured={"plate": size})
    assert "you may have measured the opening" in warned(seen)["measured-opening"].says
    formats = told(measured={"opening": size}).formats
    assert formats.best == plate
    assert formats.probabilities[plate] > 0.9


@pytest.mark.parametrize("plate", ["2 3/4 x 3 1/4 in", "3 1/4 x 4 1/4 in", "2 x 2 1/2 in"])
def test_a_plate_of_the_trade_is_not_asked_back(plate):
    # Ambrotypes and Tintypes, Library of Congress.
    assert judged(measured={"plate": plate}).warnings == ()


@pytest.mark.parametrize(
    ("size", "plate", "not_this"),
    [
        ("108 x 162 mm", "paris-half", "half"),
        ("4 1/4 x 5 1/2 in", "half", "paris-half"),
        ("4 3/4 x 6 1/2 in", "half-uk", "paris-half"),
    ],
)
def test_three_half_plates_are_told_apart(size, plate, not_this):
    # 4 1/4 x 5 1/2 in: The Photographic Process (2011), Library of Congress; half of 6 x 8 Paris
    # inches by arithmetic; 4 3/4 x 6 1/2 in: The Century Dictionary and Cyclopedia.
    probabilities = told(measured={"plate": size}).formats.probabilities
    assert best(probabilities) == plate
    assert probabilities[not_this] < 0.01


def test_the_sixteenth_by_arithmetic_is_no_cut_ninth():
    # 1 5/8 x 2 1/8 in, a sixteenth of 6 1/2 x 8 1/2 in, is nearly what a ninth plate's mat leaves
    # to be seen: alone it is the sixteenth, and in a ninth plate's case perhaps the mat's opening.
    formats = told(measured={"plate": "41 x 54 mm"}).formats
    assert formats.best == "sixteenth"
    assert formats.probabilities["ninth"] < 0.2
    in_ninth = judged(
        "case.material leather-wood", measured={"plate": "41 x 54 mm", "case": "64 x 76 mm"}
    )
    assert in_ninth.reading.formats.best == "ninth"
    assert "measured-opening" in warned(in_ninth)


@pytest.mark.parametrize("size", ["1 3/8 x 1 5/8 in", "1 1/2 x 1 3/4 in"])
def test_both_sixteenths_of_one_library_are_sixteenths(size):
    # Daguerreotypes; Ambrotypes and Tintypes, Library of Congress.
    assert told(measured={"plate": size}).formats.best == "sixteenth"


def test_a_magnet_finds_the_tintype_behind_a_window_of_card():
    # Tiny precious objects (2013), Connecticut Historical Society: gems in carte-size mounts.
    size = {"mount": "64 x 102 mm"}
    before = told(kind="card", measured=size)
    assert before.formats.best == "carte-de-visite"
    pulls = told("plate.magnet yes", "image.tint yes", kind="card", measured=size)
    assert pulls.family == "tintype"
    still = told("plate.magnet no", kind="card", measured=size)
    assert still.families["tintype"] < before.families["tintype"] / 5


def test_a_square_slide_is_told_by_tape_and_light():
    # Optic Projection, ch. VIII: 3 1/4 in square in Britain; Standard glass slide (2019), Lucerna
    # Magic Lantern Web Resource: transparency, cover glass and tape.
    size = {"plate": "83 x 83 mm"}
    slide = told("slide.bound yes", "plate.light-through yes", kind="lantern-slide", measured=size)
    assert slide.formats.best == "lantern-british"
    assert slide.family == "lantern-slide"
    other = told("slide.bound no", "plate.light-through no", kind="lantern-slide", measured=size)
    assert other.families["lantern-slide"] < 0.3


def test_a_round_moulded_case_is_no_locket():
    # Encyclopedia of Nineteenth-Century Photography, p. 1422: round cases of about 45 mm, coloured
    # and small ones from the late 1850s; 2025.93.9, Windham Textile and History Museum, 1.75 in.
    size = {"case": "1.75 in"}
    moulded = told(
        "case.material thermoplastic", "case.outline round", region="us", measured=size
    ).housing
    jewel = told("case.material locket", region="us", measured=size).housing
    assert moulded.first >= 1855
    assert jewel.first < moulded.first
    assert jewel.last > moulded.last


def test_cabinet_boudoir_and_carte_are_told_apart():
    # Cabinet photographs, Getty AAT; card photographs, Oregon State University Libraries.
    for size, mount in (
        ("4 1/4 x 6 1/2 in", "cabinet"),
        ("4 1/2 x 6 1/2 in", "cabinet"),
        ("5 1/4 x 8 1/2 in", "boudoir"),
        ("2 1/2 x 4 1/2 in", "carte-de-visite"),
    ):
        assert told(kind="card", measured={"mount": size}).formats.best == mount


@pytest.mark.parametrize(
    ("size", "slide"),
    [
        ("82.5 x 82.5 mm", "lantern-british"),
        ("4 x 3 1/4 in", "lantern-american"),
        ("100 x 83 mm", "lantern-american"),
        ("120 x 90 mm", "lantern-continental"),
        ("107 x 45 mm", "stereo-glass"),
    ],
)
def test_slides_of_several_countries(size, slide):
    # Optic Projection, ch. VIII, sections 312-314; Lucerna Magic Lantern Web Resource, University
    # of Exeter, for the rounded American size; Stereo formats, a stereoscopy history site.
    assert told(kind="lantern-slide", measured={"plate": size}).formats.best == slide
