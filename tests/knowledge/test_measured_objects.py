"""What measuring adds to a plate, and objects measured by their holders.

Each row names the object's number and its holder; sizes are in mm as recorded.
"""

from statistics import mean, stdev

import pytest
from sizekit import allowance, knowledge, nearest, ships

# Object and holder, plate named in the record, closed case in mm as recorded, material.
NAMED_PLATE_AND_CASE = [
    ("1960.22.19, Connecticut Museum of Culture and History", "sixth", (89, 98), "thermoplastic"),
    ("1966.96.3.3, Connecticut Museum of Culture and History", "sixth", (86, 95), "thermoplastic"),
    ("82.80.2, The Henry Ford", "sixth", (82.6, 95.3), "leather-wood"),
    ("84.XT.182, J. Paul Getty Museum", "half", (120.5, 149), "leather-wood"),
]
# The same, the plate inferred from the case.
INFERRED_PLATE = [
    ("2019.26.2, Smithsonian NMAAHC", "quarter", (99, 124), "thermoplastic"),
    ("1984.0138.19, Smithsonian NMAH", "half", (127, 155.6), "thermoplastic"),
    ("case 1858-66, Rijksmuseum", "ninth", (64, 75), "thermoplastic"),
    ("1998-1-0460, Harvard CHSI", "sixth", (84, 96), "leather-wood"),
    ("case with red velvet, Deutsches Kameramuseum", "sixth", (85, 95), "leather-wood"),
    ("2006.016.80.1-4, Old State House Museum", "sixth", (82.5, 95), "leather-wood"),
]


@pytest.mark.parametrize(("record", "plate", "outside", "material"), NAMED_PLATE_AND_CASE)
def test_recorded_case_leads_to_its_plate(
    record: str, plate: str, outside: tuple[float, float], material: str
) -> None:
    assert nearest(outside, f"case-{material}") == plate, record


@pytest.mark.parametrize("material", ["thermoplastic", "leather-wood"])
def test_case_offset_lies_within_the_records(material: str) -> None:
    rows = [row for row in NAMED_PLATE_AND_CASE + INFERRED_PLATE if row[3] == material]
    assert len(rows) == 5
    offset = knowledge().offsets[f"case-{material}"]
    for axis in (0, 1):
        found = [allowance(plate, outside)[axis] for _, plate, outside, _ in rows]
        assert abs(mean(found) - offset.add[axis]) <= 1
        assert stdev(found) / 1.7 <= offset.spread <= stdev(found) * 1.7
        assert min(found) - 0.1 <= offset.add[axis] <= max(found)


# Object and holder, its plate, the visible picture in mm as recorded.
OPENINGS = [
    ("2002.30, Cleveland Museum of Art", "whole", (150, 200)),
    ("84.XT.182, J. Paul Getty Museum", "half", (89, 121)),
    ("1999.23, Cleveland Museum of Art", "quarter", (71, 92)),
    ("2009.19, Carnegie Museum of Art", "sixth", (57, 70)),
    ("2009.18.1, Carnegie Museum of Art", "sixth", (57, 68)),
    ("oval in red velvet, Deutsches Kameramuseum", "sixth", (50, 65)),
    ("95.85.4, Carnegie Museum of Art", "quarter", (67, 92)),
]


@pytest.mark.parametrize(("record", "plate", "visible"), OPENINGS)
def test_recorded_opening_leads_to_its_plate(
    record: str, plate: str, visible: tuple[float, float]
) -> None:
    assert nearest(visible, "opening") == plate, record


def test_opening_offset_lies_within_the_records() -> None:
    offset = knowledge().offsets["opening"]
    for axis in (0, 1):
        found = [allowance(plate, visible)[axis] for _, plate, visible in OPENINGS]
        assert abs(mean(found) - offset.add[axis]) <= 1.5
        assert all(abs(one - offset.add[axis]) <= 2 * offset.spread for one in found)


def test_recorded_package_is_hardly_larger_than_its_plate() -> None:
    # Object 5786, Historical Society of Pennsylvania: a sixth-plate package of 70 x 82 mm.
    offset = knowledge().offsets["package"]
    for found, added in zip(allowance("sixth", (70, 82)), offset.add, strict=True):
        assert abs(found - added) <= 2 * offset.spread


def test_every_measurable_thing_has_an_offset() -> None:
    offsets = knowledge().offsets.values()
    plain = {offset.what for offset in offsets if not offset.material}
    # `cut` and `trimmed` are what a plate or a mount may have been measured as, never asked for.
    assert plain == {"plate", "package", "opening", "case", "recess", "mount", "cut", "trimmed"}
    assert {offset.material for offset in offsets} - {""} <= set(knowledge().housings)


def test_a_museum_slide_is_a_british_one() -> None:
    # Lantern slide of 1890, inv. 13194, History of Science Museum, Oxford: 84 x 82 mm.
    assert ships("lantern-british", (82, 84), within=2)


def test_the_rounded_american_slide_is_within_tolerance() -> None:
    # Standard glass slide (2019), Lucerna Magic Lantern Web Resource, University of Exeter.
    assert ships("lantern-american", (83, 100), within=2)


def test_a_museum_stereo_card_is_a_standard_one() -> None:
    # HF.70.2163.14, Prince Edward Island Museum: 178 x 88 mm.
    assert ships("stereo", (88, 178), within=1)


def test_a_suppliers_tin_for_a_dozen_quarter_plates() -> None:
    # Supplier's tin, c. 1845, inv. 29300, History of Science Museum, Oxford: a box of 88 x 115 mm
    # for plates of about 83 x 108 mm, which leaves 5 x 7 mm.
    width, height = allowance("quarter", (88, 115))
    assert 4 < width < 8
    assert 4 < height < 8


def test_conflicting_record_fits_no_case_of_the_named_plate() -> None:
    # 74.166.2, The Henry Ford: "sixteenth plate" in a leather case of 60.3 x 73 mm, which is the
    # case of a ninth plate.
    assert nearest((60.3, 73), "case-leather-wood") == "ninth"
