"""Prints, cards, postcards, dress after 1870 and Japanese cases against published statements.

Each row names the source of the statement beside it: title and body, or "common practice", or
"from memory". What a source calls common must be common in the data; nothing is possible before
the day that a law or an order names; and documented pieces come out in their years.
"""

import json
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest
from every import every
from external.kit import best, shipped, told

from appraise.knowledge.records import FIRST_YEAR, Years
from appraise.reading.frame import frame_of

CATALOGUED = Path(__file__).parent / "museum" / "records.jsonl"


def years(words: str, region: str = "us") -> Years:
    """The four years of 'check answer', or of a process or housing."""
    knowledge = shipped()
    if " " in words:
        name, answer = words.split()
        check = knowledge.checks[name]
        rows = check.answers[check.index(answer)].years
    else:
        rows = {**knowledge.processes, **knowledge.housings}[words].years
    return rows[region] if region in rows else rows[""]


GEORGIA = "Historic Clothing and Textile Collection 1870-1900, University of Georgia"
GUILD = "Fashion timeline 1890 to 1900, Vintage Fashion Guild"
FIT = "Fashion History Timeline 1870-1879, Fashion Institute of Technology"
HEADGEAR = "United States Army Headgear 1855-1902, Smithsonian Studies in History 30"
SURREYS = "Uniforms and equipment 1855-1900, Queen's Royal Surreys: helmet of 1878"
DARRAH = "Cartes de Visite (W. C. Darrah, 1981), thickness of cards, at second hand"
STEREOGRAPHS = "Stereograph Cards: the format, Library of Congress: most popular 1870 to 1920"
POSTCARDS = "Greetings from the Smithsonian: A Postcard History, Smithsonian Institution Archives"
GLOSSARY = "Glossary of the New Zealand Philatelic Federation (divided back), in quotation"
LACE = "French law of 18 November 1903, New Netherland Museum of Lace and Lace Making"
CALGARY = "Glass plates, University of Calgary: dry plates from the 1870s to the 1920s"
URBANA = "Glass Plate Negatives, Urbana Free Library: wet 1855 to the late 1880s, dry to the 1920s"
POTATOES = "Pictures from Potatoes, American Museum of Photography: on sale from June 1907"
CINCINNATI = "Curatorial blog of 17 September 2018, Cincinnati Art Museum"
TRANS_ASIA = "Japanese Ambrotypes, Trans-Asia Photography Review, University of Michigan"
WATERBURY = "The Town and City of Waterbury, vol. II (1896), p. 360-362: organised in 1853"
BERG = "P. K. Berg, History of the Miniature Case (Luminous-Lint): the joints changed by 1849"
SCALES = "Daguerreotype, object view (Image Permanence Institute): scales mean electroplate"
SCOVILL = "Encyclopedia of Nineteenth-Century Photography (2008), p. 1259: Scovill"
PLUMBE = "Encyclopedia of Nineteenth-Century Photography (2008), p. 1138: Plumbe"
PAPERS = "Encyclopedia of Nineteenth-Century Photography (2008), p. 574: printing papers"
MOMA = "Gelatin silver print, Museum of Modern Art: from the 1880s, most popular of the 20th c."
CLUB = "collectors' lists of stamp boxes, at second hand: common practice"
PRACTICE = "common practice"
ESTABROOKE = "county history page on tintypes (0.017 inch, 1856 to 1860); names no source"

COMMON = [  # what, region, common from and to, source
    ("sitter.womens-skirt bustle-soft", "us", 1870, 1876, GEORGIA),
    ("sitter.womens-skirt bustle-soft", "us", 1870, 1875, FIT),
    ("sitter.womens-skirt tied-back", "us", 1878, 1883, GEORGIA),
    ("sitter.womens-skirt bustle-shelf", "us", 1884, 1889, GEORGIA),
    ("sitter.womens-waist cuirass", "us", 1878, 1883, GEORGIA),
    ("sitter.womens-sleeve leg-of-mutton", "us", 1895, 1896, GUILD),
    ("sitter.womens-skirt flared", "us", 1893, 1899, GUILD),
    ("sitter.womens-waist pouched", "us", 1900, 1906, GUILD),
    ("sitter.womens-neck boned", "us", 1897, 1905, GUILD),
    ("sitter.womens-suit shirtwaist", "us", 1895, 1900, PRACTICE),
    ("sitter.helmet helmet", "us", 1881, 1902, HEADGEAR),
    ("sitter.helmet helmet", "gb", 1881, 1900, SURREYS),
    ("mount.thickness thin", "us", 1858, 1869, DARRAH),
    ("mount.thickness middling", "us", 1869, 1887, DARRAH),
    ("mount.thickness thick", "us", 1880, 1900, DARRAH),
    ("mount.thickness very-thick", "us", 1890, 1910, DARRAH),
    ("mount.edge scalloped", "us", 1888, 1895, PRACTICE),
    ("mount.edge bevelled", "us", 1883, 1892, PRACTICE),
    ("mount.colour dark", "us", 1883, 1890, PRACTICE),
    ("mount.decoration frame-pressed", "us", 1897, 1909, PRACTICE),
    ("mount.form stereo", "us", 1870, 1920, STEREOGRAPHS),
    ("mount.stereo-bend curved", "us", 1882, 1915, PRACTICE),
    ("print.postcard-back undivided", "us", 1901, 1907, POSTCARDS),
    ("print.postcard-back divided", "us", 1907, 1930, POSTCARDS),
    ("print.postcard-back divided", "gb", 1902, 1930, GLOSSARY),
    ("print.postcard-back divided", "eu", 1905, 1930, GLOSSARY),
    ("print.postcard-back private-mailing", "us", 1898, 1901, POSTCARDS),
    ("print.postcard-border white", "us", 1915, 1930, POSTCARDS),
    ("print.stamp-box azo-up", "us", 1906, 1918, CLUB),
    ("print.stamp-box azo-mixed", "us", 1918, 1930, CLUB),
    ("print.stamp-box azo-squares", "us", 1927, 1940, CLUB),
    ("print.stamp-box velox", "us", 1907, 1914, CLUB),
    ("print.stamp-box cyko", "us", 1906, 1920, CLUB),
    ("print.stamp-box ekc", "us", 1939, 1950, CLUB),
    ("glass-negative", "us", 1880, 1920, CALGARY),
    ("glass-negative", "us", 1860, 1889, URBANA),
    ("autochrome", "us", 1908, 1930, POTATOES),
    ("ambrotype-japan", "eu", 1880, 1897, TRANS_ASIA),
    ("kiri-wood", "us", 1880, 1897, TRANS_ASIA),
    ("developing-out", "us", 1900, 1950, MOMA),
    ("carbon", "gb", 1868, 1900, "the same: worked by the Autotype Company from 1868"),
    ("case.build one-piece", "us", 1841, 1848, BERG),
    ("case.build jointed", "us", 1851, 1860, BERG),
    ("plate.hallmark-mark christofle", "us", 1853, 1857, SCALES),
    ("plate.hallmark-mark christofle", "eu", 1853, 1857, SCALES),
    ("case.maker holmes-booth", "us", 1857, 1864, WATERBURY),
    ("plate.hallmark-mark scovills", "us", 1842, 1850, SCOVILL),
    ("plate.hallmark-mark scovill-company", "us", 1850, 1857, SCOVILL),
    ("case.maker scovill", "us", 1857, 1865, SCOVILL),
    ("case.stamp plumbe", "us", 1842, 1847, PLUMBE),
    ("plate.thickness heavy", "us", 1856, 1860, ESTABROOKE),
    ("sitter.setting rustic", "us", 1871, 1885, ESTABROOKE),
]  # fmt: skip


@every(("words", "region", "first", "last", "source"), COMMON)
def test_what_a_source_calls_common_is_common(words, region, first, last, source):
    row = years(words, region)
    assert row.weight(first) == row.weight(last) == 1.0, source


NOT_BEFORE = [  # what, region, the year in which it began, source
    ("print.postcard-back private-mailing", "us", 1898, POSTCARDS + ": Act of 19 May 1898"),
    ("print.postcard-back divided", "gb", 1902, GLOSSARY),
    ("print.postcard-back divided", "eu", 1903, LACE),
    ("autochrome", "us", 1907, POTATOES),
    ("glass-negative", "gb", 1851, URBANA),
    ("sitter.helmet helmet", "us", 1872, HEADGEAR),
    ("sitter.helmet helmet", "gb", 1877, SURREYS + ", after trials"),
    ("case.mark peck-halvorson", "us", 1855, "US patent 13,410 of 7 August 1855, the later of two"),
    ("case.stamp eichmeyer", "us", 1855, "the day on the stamp itself, 27 February 1855"),
    ("case.maker wadhams", "us", 1858, "Kinsley and Parker's hinge of 1 June 1858, from memory"),
    ("case.maker holmes-booth", "us", 1853, WATERBURY),
    ("carbon", "gb", 1864, "carbon process, Getty Art and Architecture Thesaurus: Swan's patent"),
    ("plate.hallmark-mark scovill-company", "us", 1850, SCOVILL),
    ("case.stamp plumbe", "us", 1841, PLUMBE + ", galleries from 1840"),
    ("mount.stereo-bend curved", "us", 1879, "history of the stereo card (Darrah), as reported"),
    ("sitter.setting bicycle", "us", 1885, "safety bicycle of 1885, from memory"),
    ("plate.thickness heavy", "us", 1856, "US patent 14,300 of 19 February 1856"),
    ("case.stamp sgdg", "eu", 1844, "Record 0843e826, Daguerreobase: law of 5 July 1844"),
]


@pytest.mark.parametrize(("words", "region", "began", "source"), NOT_BEFORE)
def test_nothing_is_possible_before_it_began(words, region, began, source):
    row = years(words, region)
    assert row.weight(began - 1) == 0.0, source
    assert row.weight(row.start) == 1.0


# --- documented pieces ---------------------------------------------------------------------------
JAPANESE = [  # year, source
    (1883, CINCINNATI + ", 2018.34"),
    (1886, CINCINNATI + ", 2018.35"),
    (1875, CINCINNATI + ", 2018.33, about the 1870s"),
    (1892, TRANS_ASIA + ": dated on the case, 19 December 1892"),
    (1893, "a dealer's record of a case dated Meiji 25, which is 1892 or 1893"),
]


@pytest.mark.parametrize(("year", "source"), JAPANESE)
@pytest.mark.parametrize("region", ["unknown", "us", "eu"])
def test_a_japanese_ambrotype_in_its_box_comes_out_in_its_years(year, source, region):
    reading = told("case.material kiri-wood", "claim.process ambrotype", region=region)
    assert reading.together.first <= year <= reading.together.last, source
    assert best(reading.families) == "ambrotype"
    assert reading.married < 0.25


def test_without_its_box_an_ambrotype_is_not_moved_to_japan():
    # "To the late 1860s": Ambrotypes, Material Culture Review.
    reading = told("case.material leather-wood", "claim.process ambrotype", region="us")
    assert reading.together.last < 1880


@pytest.mark.parametrize(
    ("findings", "kind", "process", "source"),
    [
        (("image.negative negative",), "loose-plate", "glass-negative", CALGARY),
        (("image.colour-grains grains",), "lantern-slide", "autochrome", POTATOES),
        (
            ("image.colour-grains grains", "image.full-colour yes"),
            "loose-plate", "autochrome", POTATOES,
        ),
        (
            ("image.warm-brown no", "print.smooth yes", "print.mirror 2"),
            "card", "developing-out", PAPERS + ": neutral black, baryta; mirroring: practice",
        ),
        (
            ("image.warm-brown no", "print.gloss mirror", "print.fibres no"),
            "print", "developing-out", PAPERS,
        ),
        (
            ("image.warm-brown yes", "print.smooth yes", "print.mirror 0", "print.gloss gloss"),
            "card", "printing-out", PAPERS + ": printed-out silver is brown and glossy",
        ),
        (
            ("print.ghost ghost", "print.fibres yes", "image.warm-brown no"),
            "print", "platinum",
            "Aid to identification, University of Padua: the picture on the facing sheet",
        ),
        (("print.postcard-back divided", "print.smooth yes"), "postcard", "developing-out", MOMA),
    ],
)  # fmt: skip
def test_what_tells_a_process_leads_to_it(findings, kind, process, source):
    assert best(told(*findings, kind=kind).families) == process, source


@pytest.mark.parametrize(
    ("findings", "kind", "region", "first", "last", "source"),
    [
        (("print.postcard-back undivided",), "postcard", "us", 1901, 1907, POSTCARDS),
        (("print.postcard-back divided",), "postcard", "us", 1910, 1940, POSTCARDS),
        (("mount.form carte", "mount.thickness thin"), "card", "us", 1861, 1876, DARRAH),
        (("mount.form cabinet", "mount.edge scalloped"), "card", "us", 1888, 1895, PRACTICE),
        (
            ("claim.process tintype", "sitter.helmet helmet"),
            "loose-plate", "us", 1881, 1899, HEADGEAR,
        ),
    ],
)  # fmt: skip
def test_a_dated_feature_draws_the_piece_to_its_years(findings, kind, region, first, last, source):
    reading = told(*findings, kind=kind, region=region)
    plain = told(*findings[:1], kind=kind, region=region)
    assert reading.together.first <= first + 1, source
    assert last <= reading.together.last + 1, source
    if len(findings) > 1:
        width, was = (one.together.last - one.together.first for one in (reading, plain))
        assert width < was


# --- shares by region, famous sitters ------------------------------------------------------------
def test_cased_glass_is_of_the_1880s_in_britain_as_it_is_not_in_the_states():
    # How to spot a collodion positive, National Media Museum (2013): itinerant photographers made
    # them until the 1880s. Ambrotypes (Maurice), Material Culture Review: until the late 1860s.
    since = 1876 - FIRST_YEAR
    late = {
        region: sum(told("claim.process ambrotype seller", region=region).year_weights[since:])
        for region in ("us", "gb")
    }
    assert late["us"] < 0.06
    assert late["gb"] > 3 * late["us"]


def test_britain_has_far_fewer_daguerreotypes_than_glass():
    # Patent rights to 1853: "Making a Case" (British Art Studies 18); the figures are judgements.
    def share(region: str, process: str) -> float:
        frame = frame_of(shipped(), "cased", region)
        return float(frame.process_share[[one.id for one in frame.processes].index(process)])

    assert share("gb", "daguerreotype") < share("us", "daguerreotype") / 2
    assert share("gb", "ambrotype-clear") > 3 * share("gb", "daguerreotype")
    assert share("eu", "daguerreotype") > share("us", "daguerreotype")


@every("region", ["us", "gb", "eu", "au", "unknown"])
@every("kind", ["cased", "loose-plate", "card", "lantern-slide", "postcard"])
def test_shares_of_every_region_sum_to_one(kind, region):
    assert frame_of(shipped(), kind, region).process_share.sum() == pytest.approx(1)


@pytest.mark.parametrize(
    ("subject", "raised"), [("famous", True), ("soldier", True), ("child", False)]
)
def test_pictures_that_sell_are_copied_more(subject, raised):
    # Soldiers and famous sitters are copied more often: common practice.
    plain = told("claim.process tintype", kind="loose-plate")
    one = told("claim.process tintype", kind="loose-plate", subjects=(subject,))
    assert (one.modern > plain.modern) is raised


# --- records of museums --------------------------------------------------------------------------
@cache
def documented() -> tuple[tuple[str, str, int, int], ...]:
    """Kind, process, and first and last year of every record with documented years."""
    rows = [json.loads(line) for line in CATALOGUED.read_text(encoding="utf-8").splitlines()]
    return tuple(
        (row["kind"], row["process"], row["year_first"], row["year_last"])
        for row in rows
        if row.get("documented") and not row.get("modern") and row.get("process")
    )


def told_years(process: str) -> Iterator[Years]:
    for one in shipped().processes.values():
        if process in (one.id, one.family):
            yield from one.years.values()


@pytest.mark.parametrize(
    ("process", "fewest", "share"),
    [
        ("albumen", 100, 0.97),
        ("platinum", 20, 0.90),
        ("daguerreotype", 8, 1.0),
        ("salted-paper", 8, 1.0),
        ("ambrotype", 4, 1.0),
    ],
)
def test_documented_records_lie_within_the_years_of_their_process(process, fewest, share):
    # Holders and licences: museum/README.md. A few dates there are plainly wrong.
    rows = [(first, last) for _, word, first, last in documented() if word == process]
    rows_of = list(told_years(process))
    first, last = min(one.first for one in rows_of), max(one.last for one in rows_of)
    inside = sum(early >= first and late <= last + 1 for early, late in rows)
    assert len(rows) >= fewest
    assert inside / len(rows) >= share, [one for one in rows if one[0] < first or one[1] > last]
