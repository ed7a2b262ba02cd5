"""Shipped formats against published sizes, and the sizes that are easily confused.

Each table names the title and body of its source beside it. Sizes marked "from memory" or "by
arithmetic" check only that the data say what they mean to say.
"""

import pytest
from every import every
from sizekit import AMERICAN, knowledge, mm, nearest, ships

from appraise.knowledge.records import KINDS

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
STEREO = "Stereo formats, Stereoscopy History"
MEMORY = "from memory"
ARITHMETIC = "by arithmetic from the whole plate"


@every(
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


@pytest.mark.parametrize("kind", ["cased", "card", "lantern-slide", "cyanotype"])
def test_shares_sum_to_one(kind: str) -> None:
    shares = [form.share for form in knowledge().formats.values() if kind in form.kinds]
    assert sum(shares) == pytest.approx(1)


def test_words_of_formats() -> None:
    # cut and other are classes without a size and carry no row.
    plates = "mammoth double-whole whole half half-uk third quarter sixth eighth ninth sixteenth"
    mounts = "carte-de-visite cabinet stereo boudoir imperial promenade victoria panel"
    slides = "lantern-british lantern-american lantern-continental"
    words = f"{plates} gem {mounts} {slides}".split()
    shipped = knowledge().formats
    assert not [word for word in words if word not in shipped]
    assert not {"cut", "other"} & set(shipped)
    assert all(set(form.kinds) <= set(KINDS) for form in shipped.values())


# --- sizes that are easily taken for others -------------------------------------------------------


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
