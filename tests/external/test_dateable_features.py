"""Shipped years of dateable features against statutes, patents and published records.

Each check names its source beside it. Worked figures (the heights at which two features meet)
follow from straight flanks between the four years; the sources of the years
themselves stand in the data.
"""

import re
from datetime import date, datetime
from functools import cache

import pytest

from appraise.knowledge import Knowledge, load
from appraise.knowledge.records import Answer, Years

UNITED_STATES_MARKS = (
    "case.mark", "case.stamp", "mat.mark", "plate.stamp-mark", "print.process-mark",
)  # fmt: skip
NUMBERED = re.compile(r"([0-9]{1,2},[0-9]{3}), ([0-9]{1,2} [A-Z][a-z]+ [0-9]{4})")
DAY = re.compile(r"\b[0-9]{1,2} [A-Z][a-z]+ [0-9]{4}\b")

CASES = "Encyclopedia of Nineteenth-Century Photography (2008), Cases, p. 277-279"
UNION = "Encyclopedia of Nineteenth-Century Photography (2008), Union cases, p. 1420-1422"
GLOSSARY = "Daguerreotypes: Glossary of Terms, Library of Congress"
HSP = "Object 5786, Historical Society of Pennsylvania: inward points after 1858, mat late 1850s"
MAAS = "Object 248688, Museum of Applied Arts and Sciences, Sydney: 1865 to 1870"
DAGUERREOBASE = "Record 202bb083, Daguerreobase: dedicated on 29 August 1853"
FIT = "Fashion History Timeline 1850-1859, Fashion Institute of Technology"
MIPHS = "Dating the Carte de Visite, Michigan Photographic Historical Society (patent of 1854)"

# First patent of each year. Table of Issue Years and Patent Numbers, United States Patent and
# Trademark Office, as reprinted by the Mid-West Tool Collectors Association (First Patents).
FIRST_OF_YEAR = {
    1850: 6_981, 1851: 7_865, 1853: 9_512, 1854: 10_358, 1855: 12_117, 1856: 14_009,
    1857: 16_324, 1858: 19_010, 1859: 22_477,
}  # fmt: skip


@cache
def shipped() -> Knowledge:
    """The shipped knowledge without anybody's overlay."""
    return load()


def answer(check: str, name: str) -> Answer:
    """One answer of a shipped check."""
    found = shipped().checks[check]
    return found.answers[found.index(name)]


def years(words: str, region: str = "us") -> Years:
    """The four years of 'check answer', or of a process or housing."""
    knowledge = shipped()
    if " " in words:
        rows = answer(*words.split()).years
    else:
        rows = {**knowledge.processes, **knowledge.housings}[words].years
    return rows[region] if region in rows else rows[""]


def height(one: Years, other: Years) -> float:
    """The most that a point in time can belong to both trapezoids, 0 to 1.

    Membership falls in a straight line from the common years to the outer ones.
    """
    early, late = sorted((one, other), key=lambda each: each.end)
    if early.end >= late.start:
        return 1.0
    flanks = (early.last - early.end) + (late.start - late.first)
    return max(0.0, min(1.0, (early.last - late.first) / flanks)) if flanks else 0.0


@pytest.mark.parametrize(
    ("one", "other", "meets_at"),
    [
        # worked by hand from the four years; the years' sources stand in the data
        ("daguerreotype", "thermoplastic", 1.000),
        ("daguerreotype", "preserver.form points", 0.636),
        ("daguerreotype", "mat.shape patriotic", 0.400),
        ("ambrotype-clear", "mat.shape octagon", 0.444),
        ("ambrotype-clear", "preserver.state none", 0.125),
        ("ambrotype-clear", "case.covering plain", 0.000),
        ("ambrotype-clear", "pad.pile silk", 0.000),
        ("tintype-plain", "mat.shape octagon", 0.100),
        ("thermoplastic", "mat.shape octagon", 0.500),
        ("preserver.form points", "mat.shape octagon", 0.000),
        ("mat.shape nonpareil", "preserver.form points", 0.750),
        ("preserver.state none", "thermoplastic", 0.222),
        ("daguerreotype", "tintype-chocolate", 0.000),
    ],
)
def test_two_features_meet_at_the_worked_height(one: str, other: str, meets_at: float) -> None:
    assert height(years(one), years(other)) == pytest.approx(meets_at, abs=0.01)


@pytest.mark.parametrize(
    ("words", "region", "core", "outer"),
    [
        # text of record DLC/PP-1996:087.7, Library of Congress: 23 July 1849
        ("daguerreotype|pad.pile embossed|pad.imprint named", "us", (1846, 1855), 1849),
        # record MIN 157, State Library of New South Wales: May 1845
        ("daguerreotype|mat.make pan", "au", (1845, 1853), 1845),
        # record of object 5786, Historical Society of Pennsylvania: about 1860
        (
            "preserver.form points|mat.shape oval-ornate|thermoplastic|pad.pile embossed",
            "us", (1859, 1866), 1860,
        ),
        # record of object 248688, Museum of Applied Arts and Sciences: 1865 to 1870. The pad's
        # years are American.
        ("ambrotype-clear|mat.shape oval-ornate|clasp.kind two-hooks", "au", (1856, 1867), 1865),
    ],
)  # fmt: skip
def test_the_common_years_of_documented_pieces(
    words: str, region: str, core: tuple[int, int], outer: int
) -> None:
    rows = [years(word, region) for word in words.split("|")]
    assert (max(row.start for row in rows), min(row.end for row in rows)) == core
    assert core[0] <= outer <= core[1]


@pytest.mark.parametrize(
    ("words", "region", "when", "source"),
    [
        ("preserver.form plain", "us", "1850 1856", GLOSSARY),
        ("preserver.state none", "us", "1840 1848", "Austin American-Statesman, 6 December 2014"),
        ("case.covering embossed-leather", "us", "1845 1855", CASES),
        ("thermoplastic", "us", "1855 1865", UNION),
        ("case.colour coloured", "us", "1858 1860", UNION),
        ("mat.shape oval-ornate", "us", "1856 1860", HSP),
        ("clasp.kind two-hooks", "au", "1865 1868", MAAS),
        (
            "clasp.kind spring",
            "us",
            "1858 1858",
            "Inventory 25494, History of Science Museum, Oxford",
        ),
        (
            "pad.pile velvet",
            "gb",
            "1845 1849",
            "Inventory 11962, History of Science Museum, Oxford",
        ),
        ("pad.pile silk", "eu", "1853 1853", DAGUERREOBASE),
        ("case.covering plain", "eu", "1853 1853", DAGUERREOBASE),
        (
            "plate.hallmark-mark lamb-40",
            "us",
            "1850 1855",
            "Lingua Franca, provenance, Library and Archives Canada",
        ),
        ("sitter.womens-waist round", "us", "1853 1859", FIT),
        ("sitter.womens-skirt cage", "us", "1858 1862", FIT),
        ("mount.form carte", "us", "1860 1872", MIPHS),
    ],
)
def test_what_a_source_calls_common_is_common(
    words: str, region: str, when: str, source: str
) -> None:
    first, last = map(int, when.split())
    row = years(words, region)
    assert row.weight(first) == row.weight(last) == 1.0, source


@pytest.mark.parametrize(
    ("words", "region", "not_before", "source"),
    [
        ("mat.make pan", "gb", 1841, "Design 791 of 23 August 1841, note at midley.co.uk"),
        ("case.outline stereo", "us", 1853, "US patent 9,611, 8 March 1853, stereoskopie.com"),
        ("thermoplastic", "us", 1852, UNION),
        ("case.colour coloured", "us", 1856, UNION),
        ("preserver.form points", "us", 1857, HSP),
        ("mount.form carte", "eu", 1854, MIPHS),
        ("mount.form cabinet", "gb", 1866, "Year-Book of Photography for 1867"),
        ("sitter.womens-skirt cage", "us", 1856, FIT),
        ("case.stamp sgdg", "eu", 1844, "French law of 5 July 1844, art. 33 (from memory)"),
    ],
)
def test_nothing_is_possible_before_its_source_allows(
    words: str, region: str, not_before: int, source: str
) -> None:
    assert years(words, region).first >= not_before, source
    assert years(words, region).weight(not_before - 1) == 0.0


def marks() -> list[tuple[str, Answer]]:
    """American marks that carry years."""
    return [
        (check, one)
        for check in UNITED_STATES_MARKS
        for one in shipped().checks[check].answers
        if "us" in one.years
    ]


def note(one: Answer) -> str:
    return one.basis.note if one.basis else ""


def day(text: str) -> date:
    return datetime.strptime(text, "%d %B %Y").date()


@pytest.mark.parametrize(("check", "one"), marks(), ids=lambda each: getattr(each, "id", each))
def test_every_day_on_an_american_mark_was_a_tuesday(check: str, one: Answer) -> None:
    # Patents were issued on Tuesdays from 1848: "173 Years of (Almost) Uninterrupted Tuesdays",
    # Patently-O, 2021. The weekday is the calendar's (datetime of the standard library).
    days = [day(text) for text in DAY.findall(note(one))]
    assert all(each.weekday() == 1 for each in days), (check, days)


def numbers() -> list[tuple[int, date]]:
    """Number and day of every American patent that the marks name."""
    return sorted(
        (int(number.replace(",", "")), day(text))
        for _, one in marks()
        for number, text in NUMBERED.findall(note(one))
    )


def test_patent_numbers_rise_with_their_days() -> None:
    found = numbers()
    assert len(found) >= 14
    assert [each for _, each in found] == sorted(each for _, each in found)


@pytest.mark.parametrize(("number", "when"), numbers(), ids=str)
def test_patent_numbers_lie_where_their_year_puts_them(number: int, when: date) -> None:
    # Numbers of one year spread evenly over it, plus or minus six weeks.
    first = FIRST_OF_YEAR[when.year]
    after = FIRST_OF_YEAR[when.year + 1]
    assert first <= number < after
    expected = 365 * (number - first) / (after - first)
    assert abs(expected - (when - date(when.year, 1, 1)).days) <= 42


def cliffs() -> list[tuple[str, int, Years]]:
    """Marks that name a patent, with the year of the latest day they name."""
    return [
        (one.id, max(day(text).year for text in DAY.findall(note(one))), one.years["us"])
        for _, one in marks()
        if DAY.search(note(one)) and one.id != "applied"  # "applied" lies before a patent
    ]


@pytest.mark.parametrize(("name", "legal", "row"), cliffs(), ids=str)
def test_a_patent_mark_is_a_cliff_at_its_legal_year(name: str, legal: int, row: Years) -> None:
    # A patent date on an object means "not before"; the patents are named in the data.
    assert row.first == row.start == legal, name
    assert row.weight(legal - 1) == 0.0
    assert row.weight(legal) == 1.0


def test_revenue_stamps_follow_the_statutes() -> None:
    # Statutes at Large: 13 Stat. 223 (30 June 1864), 13 Stat. 469 (3 March 1865), 14 Stat. 98,
    # at 145 (13 July 1866). A stamp dates the sale; the sitting may be a year before, a judgement.
    law = date(1864, 6, 30).year
    several, single = years("piece.revenue-stamp any"), years("piece.revenue-stamp one-cent")
    assert (several.first, several.start, several.end, several.last) == (
        law - 1,
        law - 1,
        1866,
        1866,
    )
    assert (single.first, single.start, single.end, single.last) == (1865, 1865, 1866, 1866)
    assert [several.weight(year) for year in (1862, law, 1866, 1867)] == [0, 1, 1, 0]
