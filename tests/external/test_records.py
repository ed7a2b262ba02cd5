"""The record of a piece against the standard for it, and written dates against known first years.

Object ID: Checklist, Guide (part 1), The Standard, and Additional Recommended Categories, ICOM
archive of the Getty Object ID project, 1997-99.
"""

import json
from dataclasses import replace
from pathlib import Path

import pytest
from every import every
from external.kit import DAY, judged, piece, shipped, warned

from appraise.base.dates import Dating, year_range
from appraise.base.yamls import read
from appraise.cli.main import run
from appraise.reading.spans import span_of
from appraise.records.piece import Inscription
from appraise.records.piece_file import read_piece
from appraise.verdict import judge

PIECES = Path(__file__).parent / "pieces"
CATEGORIES = [  # Object ID Checklist, in its order
    "Type of object", "Materials and techniques", "Measurements", "Inscriptions and markings",
    "Distinguishing features", "Title", "Subject", "Date or period", "Maker",
]  # fmt: skip
RECOMMENDED = [  # Additional Recommended Categories
    "Inventory number", "Related written material", "Place of origin or discovery",
    "Related objects", "Date documented",
]  # fmt: skip


def named(part):
    return [row.name for row in shipped().record.values() if row.part == part]


def test_the_nine_categories_of_the_standard():
    assert named("category") == CATEGORIES


def test_photographs_and_a_short_description_beside_them():
    assert named("picture") == ["Photographs"]
    assert named("description") == ["Short description"]


def test_the_five_categories_that_are_recommended():
    assert named("recommended") == RECOMMENDED


PURCHASE = """piece: 1
title: man with a book
subject: single
maker: not known, no name on it
inscription: {text: "Father"}
findings: {case.material: leather-wood, claim.process: ambrotype, hinge.split: "1"}
"""


def test_a_purchase_without_measurements_lacks_one_of_nine(tmp_path, monkeypatch, capsys):
    """T32. Nine categories, photographs and a description. Object ID Checklist."""
    monkeypatch.setenv("APPRAISE_HOME", str(tmp_path / "home"))
    path = tmp_path / "purchase.yaml"
    path.write_text(PURCHASE, encoding="utf-8")
    assert run(("record", str(path), "--json")) == 0
    document = json.loads(capsys.readouterr().out)
    assert document["state"] == "incomplete: 8 of 9"
    assert document["missing"] == ["measurements", "photographs"]
    path.write_text(PURCHASE + "measured: {plate: 2 3/4 x 3 1/4 in}\n", encoding="utf-8")
    assert run(("record", str(path))) == 0
    assert "Object ID record, complete" in capsys.readouterr().out


# --- written dates --------------------------------------------------------------------------------

TINTYPE = ("claim.process tintype", "plate.magnet yes", "plate.mirror stays")
DAGUERREOTYPE = ("claim.process daguerreotype", "plate.mirror flips")
AMBROTYPE = ("claim.process ambrotype", "plate.mirror stays", "plate.dark-backing yes")
TOO_EARLY = [
    (TINTYPE, "1849", "not before 1856", "US patent 14,300, 19 February 1856"),
    (AMBROTYPE, "1846~", "not before 1853", "Cutting's patents of July 1854"),
    (
        (*DAGUERREOTYPE, "case.material thermoplastic"), "1849", "not before 1852",
        "Encyclopedia of Nineteenth-Century Photography, p. 1421: moulded from May 1852",
    ),
    (
        (*DAGUERREOTYPE, "preserver.state as-old", "preserver.form points"), "1850",
        "not before 1857", "Object 5786, Historical Society of Pennsylvania: after 1858",
    ),
    (
        (*AMBROTYPE, "mat.mark cutting"), "1853-12", "not before 1854",
        "US patents of 4 and 11 July 1854",
    ),
]  # fmt: skip


@pytest.mark.parametrize(("findings", "written", "says", "source"), TOO_EARLY)
def test_a_written_date_before_its_parts_existed_is_doubted(findings, written, says, source):
    note = Inscription("with love", Dating.parse(written))
    warning = warned(judged(*findings, region="us", inscription=note))["written-date-disagrees"]
    assert any(says in text for text in warning.because), source
    assert any("original of a copy" in text for text in warning.innocent)
    assert "written-date-disagrees" not in warned(judged(*findings, region="us"))


def test_a_daguerreotype_with_a_date_of_1895_is_doubted():
    # Largely 1839 to 1864: Mirrors with Memory (2016), Library and Archives Canada.
    note = Inscription("", Dating.parse("1895"))
    warning = warned(judged(*DAGUERREOTYPE, region="us", inscription=note))
    assert warning["written-date-disagrees"].strong


@every(
    ("name", "documented"),
    [
        (row.text("file"), row.text("documented"))
        for row in read(PIECES / "index.yaml").rows("pieces")
        if "documented" in row and row.text("dates") == "image"
    ],
)
def test_the_documented_date_of_an_object_is_held_against_its_years_alone(name, documented):
    # Records and sources: at the head of each file. No process, case or part speaks against it, and
    # a doubt is told only where the years seen leave it out all but surely, as in one of twenty.
    found = read_piece(PIECES / name, shipped())
    dated = replace(found, inscription=Inscription("as documented", Dating.parse(documented)))
    seen = judge(dated, shipped(), None, DAY)
    first, last = year_range(documented)
    span = span_of(seen.reading.year_weights, 0.95)
    apart = last < span.first or first > span.last
    doubts = [one for one in seen.warnings if one.id == "written-date-disagrees"]
    assert len(doubts) == apart, name
    assert not any(one.strong or one.because for one in doubts), name


def test_writing_moves_no_chance():
    # Notes travel between cases: Conservation Treatment Procedures, Bancroft Library.
    plain, noted = (
        judge(piece(*TINTYPE, region="us", **more), shipped(), None, DAY).reading
        for more in ({}, {"inscription": Inscription("Ann", Dating.parse("1849"))})
    )
    assert plain.belonging == noted.belonging
    assert plain.together == noted.together
