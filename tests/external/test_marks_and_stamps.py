"""Marks with a legal date, revenue stamps and sitters' ages, carried through whole pieces.

A patent or registration date means "not before", never "made in". The rows of the marks and the
calendar of patent days are checked beside this; here it is what a piece is dated to.
"""

import json
from pathlib import Path

import pytest
from external.kit import judged, shipped, told, warned

from appraise.base.ages import birth_years
from appraise.cli.main import run
from appraise.reading.reading import existed_by, read
from appraise.records.piece_file import parse_piece

PIECES = Path(__file__).parent / "pieces"
MOULDED, LEATHER = "case.material thermoplastic", "case.material leather-wood"

CASES = [  # findings on the case, region, year of the mark, source
    ((MOULDED, "case.mark peck"), "us", 1854, "US patent 11,758, 3 October 1854"),
    ((MOULDED, "case.mark halvorson"), "us", 1855, "US patent 13,410, 7 August 1855"),
    ((MOULDED, "case.mark peck-hinge"), "us", 1856, "hinge of 5 February 1856, from memory"),
    (
        (MOULDED, "case.mark critchlow"),
        "us",
        1856,
        "14 October 1856: 1984.0138.19, National Museum of American History",
    ),
    (
        (MOULDED, "case.mark critchlow-two"),
        "us",
        1857,
        "21 April 1857: 1984.0138.19, National Museum of American History",
    ),
    ((MOULDED, "case.mark kinsley-parker"), "us", 1858, "hinge of 1 June 1858, from memory"),
    (
        (MOULDED, "case.mark littlefield"),
        "us",
        1858,
        "firm from 1858: object 5786, Historical Society of Pennsylvania",
    ),
    (
        (LEATHER, "case.stamp wharton"),
        "gb",
        1841,
        "note on registered design 791 (R. D. Wood): 23 August 1841",
    ),
    (("case.stamp sgdg",), "eu", 1844, "French law of 5 July 1844, article 33, from memory"),
    (
        (LEATHER, "case.outline stereo", "case.stamp stull"),
        "us",
        1855,
        "US patent 12,451, 27 February 1855: Patent Office Report for 1855",
    ),
    (
        ("case.material sleeve", "claim.process tintype", "case.stamp potter"),
        "us",
        1865,
        "7 March 1865: wording common on objects, common practice",
    ),
]


@pytest.mark.parametrize(("findings", "region", "year", "source"), CASES, ids=[c[3] for c in CASES])
def test_a_marked_case_is_not_dated_before_its_mark(findings, region, year, source):
    assert told(*findings, region=region).housing.first >= year, source


PICTURES = [  # findings on the picture, region, year of the mark, source
    ("plate.stamp-mark neff-first", 1856, "US patent 14,300, 19 February 1856"),
    ("plate.stamp-mark neff-later", 1857, "wording from March 1857: PHSC, The Iron Plate"),
    ("plate.stamp-mark griswold", 1856, "October 1856: PHSC, The Iron Plate"),
]


@pytest.mark.parametrize(("mark", "year", "source"), PICTURES)
def test_a_stamped_plate_is_not_dated_before_its_stamp(mark, year, source):
    # The Iron Plate in American Photography, Photographic Historical Society of Canada; only two
    # makers stamped plates: Analysis of Historical Tintype Plates, AIC Conservators Converse.
    reading = told("claim.process tintype", "plate.stamp stamped", mark, region="us")
    assert reading.image.first >= year, source
    assert existed_by(reading, year - 1) < 0.02, source
    assert reading.modern < told("claim.process tintype", region="us").modern


@pytest.mark.parametrize(
    ("mark", "region", "year", "source"),
    [
        ("mat.mark cutting", "us", 1854, "patents of 4 and 11 July 1854, days from memory"),
        ("mat.mark sphereotype", "us", 1856, "patent of 27 May 1856, from memory"),
        ("mat.mark beard", "gb", 1841, "rights of 23 June 1841: Beard's lawsuits (R. D. Wood)"),
    ],
)
def test_a_marked_mat_draws_the_piece_after_its_mark(mark, region, year, source):
    before = told(LEATHER, region=region)
    after = told(LEATHER, mark, region=region)
    assert after.together.first >= year, source
    assert existed_by(after, year - 1) < existed_by(before, year - 1), source


def test_a_later_label_on_an_early_plate_dates_the_case_and_not_the_plate():
    # "Not before" holds for the part that carries the mark: 14 October 1856 on the hinge
    # (1984.0138.19, National Museum of American History).
    early = ("claim.process daguerreotype", "plate.mirror flips", "mat.shape octagon",
             "mat.surface pebbled")  # fmt: skip
    plain = told(MOULDED, *early, region="us")
    marked = told(MOULDED, *early, "case.mark critchlow", region="us")
    assert marked.housing.first >= 1856
    assert marked.image == plain.image
    assert marked.image.first < 1850
    assert marked.married > plain.married


def test_applied_for_lies_before_the_grant():
    # "Patent applied for" and no grant date: before 14 October 1856, a judgement.
    assert told(MOULDED, "case.mark applied", region="us").housing.median <= 1856


def test_a_missing_label_is_no_mark():
    before = told(MOULDED, region="us").housing
    after = told(MOULDED, "case.mark none", region="us").housing
    assert abs(after.median - before.median) <= 1


# --- revenue stamps -------------------------------------------------------------------------------
# Statutes at Large: 13 Stat. 223 (30 June 1864), 14 Stat. 98, at 145 (13 July 1866). The stamp
# dates the sale, so the picture is of the same years or, a judgement, of the year before.


@pytest.mark.parametrize("stamp", ["any", "one-cent"])
@pytest.mark.parametrize("kind", ["card", "loose-plate"])
def test_a_stamped_picture_is_of_1863_to_1866(stamp, kind):
    told_so = {"card": "mount.form carte", "loose-plate": "claim.process tintype"}[kind]
    before = told(told_so, kind=kind, region="us")
    after = told(told_so, f"piece.revenue-stamp {stamp}", kind=kind, region="us")
    assert after.together.first in (1863, 1864, 1865)
    assert after.together.median in (1864, 1865, 1866)
    assert existed_by(after, 1862) < 0.05
    width, was = (one.together.last - one.together.first for one in (after, before))
    assert width < was / 2


def test_a_lone_one_cent_stamp_is_later_than_the_first_stamps():
    # 13 Stat. 469 (3 March 1865); the rate itself from second-hand accounts.
    one_cent = told("mount.form carte", "piece.revenue-stamp one-cent", kind="card", region="us")
    assert one_cent.together.first >= 1865


def test_square_corners_and_a_stamp_agree():
    # Square thin cartes of about 1858 to 1871 (note on mount styles, J. Shrimpton, c. 2012).
    reading = told(
        "mount.form carte", "mount.corners square", "piece.revenue-stamp any",
        kind="card", region="us",
    )  # fmt: skip
    assert (reading.together.first, reading.together.last) == (1863, 1866)


def test_a_stamp_under_which_the_mount_is_a_later_one_does_not_decide_alone():
    # Stamps move (Survey: how photographers cancelled revenue stamps, Military Images, 2022): round
    # corners and a dark gilt card, both common practice, hold the mount later than its stamp.
    reading = told(
        "mount.form carte", "mount.corners round", "mount.colour dark", "mount.edge bevelled",
        "piece.revenue-stamp any", kind="card", region="us",
    )  # fmt: skip
    assert reading.together.last > 1875


# --- sitters --------------------------------------------------------------------------------------
# Piece, age last birthday, year of birth, year of the picture. National Portrait Gallery,
# Smithsonian, NPG.72.119, birth in the record; Metropolitan Museum Journal 12 (1977); the Dickinson
# plate, dated from her age; Library of Congress, attributed to Shepherd: births from memory.
SITTERS = [
    ("npg-72-119.yaml", 38, 1817, 1856),
    ("met-37-14-32.yaml", 75, 1767, 1843),
    ("hampshire-gazette-2012.yaml", 16, 1830, 1847),
    ("loc-shepherd.yaml", 37, 1809, 1846),
]


@pytest.mark.parametrize(("name", "age", "born", "taken"), SITTERS)
def test_a_sitters_birth_follows_from_the_span_of_the_piece(name, age, born, taken):
    text = (PIECES / name).read_text(encoding="utf-8") + f"sitter: {{age: {age}}}\n"
    reading = read(parse_piece(text, name, shipped()), shipped())
    span = (reading.together.first, reading.together.last)
    assert reading.born == birth_years(span, (age, age)) == (span[0] - age - 1, span[1] - age)
    outside = not span[0] <= taken <= span[1]  # one span in five may miss, and with it the birth
    assert reading.born[0] <= born <= reading.born[1] or outside


def test_a_range_of_ages_as_the_command_line_tells_it(tmp_path, monkeypatch, capsys):
    # By hand from the rule: first year less oldest less one, to last year less youngest.
    monkeypatch.setenv("APPRAISE_HOME", str(tmp_path / "home"))
    path = tmp_path / "piece.yaml"
    text = (PIECES / "loc-shepherd.yaml").read_text(encoding="utf-8")
    path.write_text(f"{text}sitter: {{age: 30..40}}\n", encoding="utf-8")
    assert run(("verdict", str(path), "--json")) == 0
    document = json.loads(capsys.readouterr().out)
    span = document["dates"]["joint"]
    assert document["sitter"] == {"born_from": span["from"] - 41, "born_to": span["to"] - 30}


def test_a_copy_may_show_a_sitter_who_was_dead():
    # DLC/PP-1997:105, Library of Congress: a copy daguerreotype. Copies are of their time and no
    # reproduction.
    seen = judged("claim.process daguerreotype", "plate.mirror flips", "image.copy-signs frame")
    assert "copy" in warned(seen)
    assert "a period copy" in warned(seen)["copy"].says
    assert "reproduction" not in warned(seen)
