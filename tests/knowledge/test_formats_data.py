"""Shipped formats and offsets against published sizes and measured objects.

Each table names the title and body of its source beside it. Sizes marked "from memory" or "by
arithmetic" check only that the data say what they mean to say.
"""

from functools import cache
from statistics import mean, stdev

import pytest

from appraise.base.measures import Measure
from appraise.knowledge import Knowledge, load
from appraise.knowledge.records import KINDS

TENTH = 0.06  # mm: figures in the data are rounded to a tenth
PARIS_INCH = 27.07  # mm, from memory

LOC = "Ambrotypes and Tintypes; The Photographic Process (2011), Library of Congress"
LOC_DAG = "Popular Photographic Print Processes: Daguerreotypes, Library of Congress"
BPL = "Cased Photographs, Boston Public Library"
NELSON = "In the Looking Glass (2014), captions, Nelson-Atkins Museum of Art"
CONNECTICUT = "Tiny precious objects (2013), Connecticut Historical Society"
OREGON = "Early Photographic Formats and Processes: card photographs, Oregon State University"
AAT = "Art and Architecture Thesaurus: cabinet photographs, Getty Research Institute"
PRESS = "Photographic News, 11 March 1881"
GAGE = "Optic Projection, ch. VIII, sections 312-314"
LUCERNA = "Standard glass slide (2019), Lucerna Magic Lantern Web Resource, University of Exeter"
STEREO = "Stereo formats, Stereoscopy History"
MEMORY = "from memory"
ARITHMETIC = "by arithmetic from the whole plate"


@cache
def knowledge() -> Knowledge:
    return load()


def mm(text: str) -> tuple[float, float]:
    """Width and height in mm, the smaller first."""
    width, height = Measure.parse(text).sides
    return float(width), float(height)


def ships(name: str, size: tuple[float, float], within: float = TENTH) -> bool:
    return any(
        abs(width - size[0]) <= within and abs(height - size[1]) <= within
        for width, height in knowledge().formats[name].sizes
    )


@pytest.mark.parametrize(
    ("name", "size", "source"),
    [
        ("whole", "6 1/2 x 8 1/2 in", LOC),
        ("whole", "6 1/2 x 8 1/2 in", BPL),
        ("half", "4 1/4 x 5 1/2 in", LOC),
        ("half", "4 1/2 x 5 1/2 in", NELSON),
        ("quarter", "3 1/4 x 4 1/4 in", LOC),
        ("sixth", "2 3/4 x 3 1/4 in", LOC),
        ("ninth", "2 x 2 1/2 in", LOC),
        ("ninth", "2 x 2 1/2 in", "Ambrotype Army, New-York Historical Society"),
        ("sixteenth", "1 3/8 x 1 5/8 in", LOC_DAG),
        ("sixteenth", "1 1/2 x 1 3/4 in", LOC),
        ("sixteenth", "1 5/8 x 2 1/8 in", ARITHMETIC),
        ("gem", "3/4 x 1 in", CONNECTICUT),
        ("eighth", "2 1/8 x 3 1/4 in", ARITHMETIC),
        ("double-whole", "8 1/2 x 13 in", ARITHMETIC),
        ("three-quarter", "6 1/2 x 7.1 in", MEMORY),
        ("half-uk", "4 3/4 x 6 1/2 in", MEMORY),
        ("carte-de-visite", "2 1/2 x 4 in", MEMORY),
        ("cabinet", "4 1/4 x 6 1/2 in", AAT),
        ("cabinet", "4 1/2 x 6 1/2 in", OREGON),
        ("boudoir", "5 1/4 x 8 1/2 in", OREGON),
        ("victoria", "3 1/4 x 5 in", MEMORY),
        ("promenade", "4 x 7 in", MEMORY),
        ("imperial", "6 7/8 x 9 7/8 in", MEMORY),
        ("panel", "4 x 8 1/4 in", MEMORY),
        ("mammoth-card", "12 x 16 in", PRESS),
        ("circular", "2 1/2 x 2 1/2 in", "What's with the round photograph? (2010), AAS"),
        ("lantern-british", "82.5 x 82.5 mm", GAGE),
        ("lantern-british", "80 x 80 mm", GAGE),
        ("lantern-american", "101.6 x 82.5 mm", GAGE),
        ("lantern-continental", "100 x 85 mm", GAGE),
        ("lantern-continental", "120 x 90 mm", GAGE),
        ("lantern-continental", "85 x 85 mm", GAGE),
        ("lantern-continental", "180 x 130 mm", GAGE),
        ("stereo", "170 x 85 mm", STEREO),
        ("stereo", "7 x 3 1/2 in", "common practice"),
        ("stereo-glass", "107 x 45 mm", STEREO),
        ("stereo-glass", "130 x 60 mm", STEREO),
    ],
)
def test_size_as_published(name: str, size: str, source: str) -> None:
    assert ships(name, mm(size)), source


@pytest.mark.parametrize(
    ("name", "wide", "high", "printed"),
    [
        ("paris-full", 6, 8, (162, 216)),
        ("paris-two-thirds", 8 * 2 / 3, 6, (144, 162)),
        ("paris-half", 8 / 2, 6, (108, 162)),
        ("third", 8 / 3, 6, (72, 162)),
        ("paris-quarter", 6 / 2, 8 / 2, (81, 108)),
        ("paris-sixth", 8 / 3, 6 / 2, (72, 81)),
        ("paris-eighth", 8 / 4, 6 / 2, (54, 81)),
        ("paris-ninth", 6 / 3, 8 / 3, (54, 72)),
        ("paris-twelfth", 6 / 4, 8 / 3, (40.5, 72)),
    ],
)
def test_continental_plate_is_its_fraction_of_six_by_eight_paris_inches(
    name: str, wide: float, high: float, printed: tuple[float, float]
) -> None:
    assert ships(name, (wide * PARIS_INCH, high * PARIS_INCH))
    assert ships(name, printed, within=0.7)


def test_continental_full_plate_near_the_museum_figure() -> None:
    # Daguerreotypes, Swiss Camera Museum, Vevey: Parisian full plates of about 16 x 21 cm.
    width, height = knowledge().formats["paris-full"].sizes[0]
    assert (width // 10, height // 10) == (16, 21)


@pytest.mark.parametrize(("name", "parts"), [("quarter", 4), ("eighth", 8)])
def test_exact_fractions_of_the_whole_plate(name: str, parts: int) -> None:
    assert area(name) == pytest.approx(area("whole") / parts, rel=0.002)


@pytest.mark.parametrize(("name", "parts"), [("half", 2.35), ("sixth", 6.2), ("ninth", 11.05)])
def test_traded_sizes_are_not_the_fractions_of_their_names(name: str, parts: float) -> None:
    assert area("whole") / area(name) == pytest.approx(parts, rel=0.01)


def area(name: str) -> float:
    width, height = knowledge().formats[name].sizes[0]
    return width * height


def test_every_sixteenth_lies_in_the_band_of_the_three_sources() -> None:
    sizes = knowledge().formats["sixteenth"].sizes
    assert len(sizes) == 3
    assert all(34 <= width <= 42 and 41 <= height <= 55 for width, height in sizes)


def test_sixth_plate_is_the_most_common_cased_size() -> None:
    # Library of Congress, Ambrotypes and Tintypes: the sixth plate is the most common size.
    cased = [form for form in knowledge().formats.values() if "cased" in form.kinds]
    assert max(cased, key=lambda form: form.share).id == "sixth"


@pytest.mark.parametrize("kind", ["cased", "card", "lantern-slide"])
def test_shares_sum_to_one(kind: str) -> None:
    shares = [form.share for form in knowledge().formats.values() if kind in form.kinds]
    assert sum(shares) == pytest.approx(1)


def test_words_of_formats() -> None:
    # mammoth, cut and other are classes without a size and carry no row.
    words = """double-whole whole half half-uk third quarter sixth eighth ninth sixteenth gem
        carte-de-visite cabinet stereo boudoir imperial promenade victoria panel
        lantern-british lantern-american lantern-continental""".split()
    shipped = knowledge().formats
    assert not [word for word in words if word not in shipped]
    assert not {"mammoth", "cut", "other"} & set(shipped)
    assert all(set(form.kinds) <= set(KINDS) for form in shipped.values())


# --- what measuring adds -------------------------------------------------------------------------

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


def allowance(plate: str, outside: tuple[float, float]) -> tuple[float, float]:
    width, height = knowledge().formats[plate].sizes[0]
    return outside[0] - width, outside[1] - height


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
    assert plain == {"plate", "package", "opening", "case", "recess", "mount"}
    assert {offset.material for offset in offsets} - {""} <= set(knowledge().housings)


# --- sizes that are easily taken for others -------------------------------------------------------

AMERICAN = ("whole", "half", "quarter", "sixth", "eighth", "ninth", "sixteenth", "gem")


def nearest(
    size: tuple[float, float], offset: str = "plate", among: tuple[str, ...] = AMERICAN
) -> str:
    """The format whose size, with the offset added, lies nearest."""
    add = knowledge().offsets[offset].add

    def gap(name: str) -> float:
        return min(
            abs(min(size) - width - add[0]) + abs(max(size) - height - add[1])
            for width, height in knowledge().formats[name].sizes
        )

    return min(among, key=gap)


@pytest.mark.parametrize(
    ("size", "as_plate", "as_opening"),
    [
        ((57, 70), "ninth", "sixth"),
        ((57, 68), "ninth", "sixth"),
        ((71, 92), "sixth", "quarter"),
        ((67, 92), "sixth", "quarter"),
    ],
)
def test_an_opening_taken_for_the_plate_calls_it_one_size_too_small(
    size: tuple[float, float], as_plate: str, as_opening: str
) -> None:
    assert nearest(size) == as_plate
    assert nearest(size, "opening") == as_opening


@pytest.mark.parametrize(
    ("size", "looks", "may_be", "among"),
    [
        ((108, 162), "half-uk", "paris-half", ("half", "half-uk", "paris-half")),
        ((41, 54), "ninth", "sixteenth", AMERICAN),
        ((64, 102), "bon-ton", "carte-de-visite", ("bon-ton", "carte-de-visite", "gem")),
        (
            (83, 83),
            "lantern-continental",
            "lantern-british",
            ("lantern-british", "lantern-continental"),
        ),
    ],
)
def test_confusable_sizes_differ_by_more_than_their_tolerance(
    size: tuple[float, float], looks: str, may_be: str, among: tuple[str, ...]
) -> None:
    assert nearest(size, among=among) == may_be
    form = knowledge().formats[may_be]
    assert ships(may_be, size, within=2 * form.tolerance)
    assert not ships(looks, size, within=1.5 * knowledge().formats[looks].tolerance)


@pytest.mark.parametrize(
    ("name", "twin"),
    [("paris-quarter", "quarter"), ("paris-sixth", "sixth"), ("paris-eighth", "eighth")],
)
def test_continental_twins_lie_within_tolerance(name: str, twin: str) -> None:
    forms = knowledge().formats
    assert ships(name, forms[twin].sizes[0], within=2 * forms[name].tolerance)


def test_continental_ninth_does_not_fit_an_american_ninth() -> None:
    continental, american = (
        knowledge().formats[name].sizes[0] for name in ("paris-ninth", "ninth")
    )
    assert continental[1] - american[1] > 8


def test_a_museum_slide_is_a_british_one() -> None:
    # Lantern slide of 1890, inv. 13194, History of Science Museum, Oxford: 84 x 82 mm.
    assert ships("lantern-british", (82, 84), within=2)


def test_the_rounded_american_slide_is_within_tolerance() -> None:
    assert ships("lantern-american", (83, 100), within=2), LUCERNA


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
