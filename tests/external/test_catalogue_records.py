"""Sizes as museums record them, read as a user would type them.

Each row names the object's number and its holder; sizes are in mm as recorded. Good records must
agree with themselves, doubtful ones must warn, openings recorded as sizes must be taken for
openings. Rehoused and separated objects stand at the end.
"""

import pytest
from external.kit import fault, judged, odds, shipped, told, warned

from appraise.listing.reader import read as read_listing

MOULDED, LEATHER = "case.material thermoplastic", "case.material leather-wood"

# Object and holder, findings, plate named in the record or '', sizes, the format they agree on.
GOOD = [
    (
        "1960.22.19, Connecticut Museum of Culture and History",
        (MOULDED, "claim.process ambrotype"),
        "",
        {"plate": "70 x 83 mm", "case": "89 x 98 x 22 mm"},
        "sixth",
    ),
    (
        "the same in inches, Connecticut Museum of Culture and History",
        (MOULDED, "claim.process ambrotype"),
        "",
        {"plate": "2 3/4 x 3 1/4 in", "case": "3 1/2 x 3 7/8 x 7/8 in"},
        "sixth",
    ),
    (
        "1966.96.3.3, Connecticut Museum of Culture and History",
        (MOULDED, "claim.process daguerreotype"),
        "",
        {"plate": "70 x 83 mm", "case": "86 x 95 x 22 mm"},
        "sixth",
    ),
    (
        "82.80.2, The Henry Ford",
        ("case.material papier-mache", "claim.process daguerreotype"),
        "sixth",
        {"case": "3.25 x 3.75 x 0.75 in"},
        "sixth",
    ),
    (
        "case with red velvet, Deutsches Kameramuseum",
        (LEATHER, "claim.process ambrotype"),
        "",
        {"opening": "50 x 65 mm", "case": "85 x 95 x 15 mm"},
        "sixth",
    ),
    (
        "84.XT.182, J. Paul Getty Museum",
        (LEATHER, "claim.process daguerreotype"),
        "half",
        {"opening": "89 x 121 mm", "case": "120.5 x 149 mm"},
        "half",
    ),
    (
        "object 5786, Historical Society of Pennsylvania",
        (MOULDED,),
        "sixth",
        {"package": "70 x 82 mm", "case": "83 x 94 x 23 mm"},
        "sixth",
    ),
]


# An opening is now and then the whole plate of a smaller size, which leaves a little doubt: 50 x
# 65 mm is a ninth plate too.
@pytest.mark.parametrize(
    ("record", "findings", "named", "sizes", "plate"), GOOD, ids=[r[0][:16] for r in GOOD]
)
def test_a_record_that_agrees_with_itself_is_left_in_peace(record, findings, named, sizes, plate):
    seen = judged(*findings, named_format=named, measured=sizes)
    assert seen.reading.formats.best == plate, record
    assert seen.reading.formats.case_format == plate, record
    assert seen.warnings == (), record
    room = 1.3 if "opening" in sizes else 1.0
    assert odds(seen.reading) <= room * odds(told(*findings)) + 1e-9, record


# The plate is not named: the case alone tells which it takes.
INFERRED = [
    ("2019.26.2, Smithsonian NMAAHC", MOULDED, "3 7/8 x 4 7/8 x 1 in", "quarter"),
    ("2019.26.2 on its side, Smithsonian NMAAHC", MOULDED, "124 x 99 x 25 mm", "quarter"),
    ("1984.0138.19, Smithsonian NMAH", MOULDED, "127 x 155.6 x 28.6 mm", "half"),
    ("case 1858-66, Rijksmuseum", MOULDED, "64 x 75 mm", "ninth"),
    ("AIBDC:009282, Museum of Design in Plastics", MOULDED, "85 x 95 x 20 mm", "sixth"),
    ("1998-1-0460, Harvard CHSI", LEATHER, "84 x 96 x 15 mm", "sixth"),
    ("2006.016.80.1-4, Old State House Museum", LEATHER, "82.5 x 95 mm", "sixth"),
    ("NPG.72.119, National Portrait Gallery, Smithsonian", LEATHER, "64 x 76 x 17 mm", "ninth"),
]


@pytest.mark.parametrize(("record", "material", "case", "plate"), INFERRED)
def test_a_case_alone_tells_which_plate_it_takes(record, material, case, plate):
    formats = told(material, measured={"case": case}).formats
    assert formats.case_format == plate, record
    assert formats.case[plate] > 0.9, record
    assert formats.best == "", record


# Openings recorded as if they were the size of the plate.
OPENINGS = [
    ("2009.19, Carnegie Museum of Art", "2.25 x 2.75 in", "sixth"),
    ("2009.18.1, Carnegie Museum of Art", "57 x 68 mm", "sixth"),
    ("95.85.4, Carnegie Museum of Art", "67 x 92 mm", "quarter"),
]


@pytest.mark.parametrize(("record", "size", "plate"), OPENINGS)
def test_an_opening_given_as_the_plate_is_recognised(record, size, plate):
    seen = judged("claim.process daguerreotype", measured={"plate": size})
    assert "opening" in warned(seen)["measured-opening"].says, record
    again = told("claim.process daguerreotype", measured={"opening": size}).formats
    assert again.best == plate, record
    assert again.maybe_measured == "", record


# The visible picture in a frame.
FRAMED = [
    ("1999.23, Cleveland Museum of Art", "71 x 92 mm", "quarter"),
    ("2002.30, Cleveland Museum of Art", "150 x 200 mm", "whole"),
]


@pytest.mark.parametrize(("record", "opening", "plate"), FRAMED)
def test_a_framed_plate_is_read_through_its_mat(record, opening, plate):
    reading = told("case.material frame", measured={"opening": opening}, region="us")
    assert reading.formats.best == plate, record


@pytest.mark.parametrize(
    ("record", "opening", "frame"),
    [
        ("1999.23, Cleveland Museum of Art", "71 x 92 mm", "127 x 154 mm"),
        ("2002.30, Cleveland Museum of Art", "150 x 200 mm", "273 x 325 mm"),
    ],
)
def test_a_frame_says_little_of_the_plate_in_it(record, opening, frame):
    before = told("case.material frame", measured={"opening": opening})
    after = told("case.material frame", measured={"opening": opening, "case": frame})
    assert 0.5 < odds(after) / odds(before) < 2, record


def test_a_sixteenth_in_the_case_of_a_ninth_is_doubted():
    # 74.166.2, The Henry Ford: "sixteenth plate" in a leather case of 60.3 x 73 x 19 mm.
    seen = judged(
        LEATHER, "claim.process ambrotype",
        named_format="sixteenth", measured={"case": "60.3 x 73 x 19 mm"},
    )  # fmt: skip
    assert seen.reading.formats.case_format == "ninth"
    assert "size-disagrees" in warned(seen)
    assert seen.piece.named_format == "sixteenth"


def test_a_quarter_plate_of_49_by_60_is_doubted_as_listed():
    # 1996.22.2, Carnegie Museum of Art: "quarter-plate" of 49 x 60 x 19 mm in a union case.
    text = "Ambrotype, quarter-plate, in a union case, 49 x 60 x 19 mm"
    assert "size-disagrees" in {flag.id for flag in read_listing(text, shipped()).flags}


def test_a_quarter_plate_in_a_case_of_its_own_height_is_doubted():
    # 93.34.5, The Henry Ford: quarter plate, case of 3.75 x 4.25 x 0.75 in; 3 1/4 x 4 1/4 in is the
    # plate alone.
    seen = judged(
        "case.material papier-mache", "claim.process daguerreotype",
        named_format="quarter", measured={"case": "3.75 x 4.25 x 0.75 in"},
    )  # fmt: skip
    assert "does not fit a quarter plate" in warned(seen)["size-fits-nothing"].says
    assert seen.piece.named_format == "quarter"


def test_a_package_of_no_size_of_the_trade_is_doubted():
    # 117879.4, Grand Rapids Public Museum: tintype in brass, glass and composite, 2.5 x 3.75 in.
    seen = judged("claim.process tintype", measured={"package": "2.5 x 3.75 in"})
    assert "any size of the trade" in warned(seen)["size-fits-nothing"].says


def test_a_bound_package_without_a_case():
    # 2015.0.20.12, The Henry Ford: sixteenth-plate tintype in brass and glass, 38 x 44.5 mm.
    reading = told("claim.process tintype", measured={"package": "1.5 x 1.75 in"})
    assert reading.formats.best == "sixteenth"
    assert reading.family == "tintype"


def test_loose_plates_from_a_suppliers_tin():
    # Inv. 29300, History of Science Museum, Oxford: a dozen plates of about 83 x 108 mm.
    assert told(kind="loose-plate", measured={"plate": "83 x 108 mm"}).formats.best == "quarter"


def test_a_slide_and_a_stereo_card_of_museums():
    # Inv. 13194, History of Science Museum, Oxford; HF.70.2163.14, PEI Museum.
    slide = told(kind="lantern-slide", measured={"plate": "84 x 82 mm"}).formats
    assert (slide.best, slide.probabilities["lantern-british"] > 0.9) == ("lantern-british", True)
    card = told(kind="card", measured={"mount": "178 x 88 x 1 mm"}).formats
    assert (card.best, card.probabilities["stereo"] > 0.9) == ("stereo", True)


# --- separated, rehoused and doubtful objects -----------------------------------------------------


def test_a_true_pair_that_no_longer_fits():
    # Inv. 30015 and 11962, History of Science Museum, Oxford: a package of 100 x 126 mm, repackaged
    # in 1988, no longer fits its own case of 115 x 137 x 18 mm.
    sizes = {"package": "100 x 126 mm", "case": "115 x 137 x 18 mm"}
    told_so = ("claim.process daguerreotype", LEATHER, "package.fit loose")
    rehoused = judged(*told_so, measured=sizes, region="gb", conserved=True)
    assert "married" not in warned(rehoused)
    assert odds(rehoused.reading) == pytest.approx(
        odds(told("claim.process daguerreotype", LEATHER, region="gb"))
    )
    unsaid = judged(*told_so, measured=sizes, region="gb")
    assert unsaid.reading.married > rehoused.reading.married


DATED = ("claim.process daguerreotype", LEATHER)


@pytest.mark.parametrize(
    ("findings", "source"),
    [
        (
            ("seal.state conservator", "seal.paper modern", "seal.archival 1"),
            "DLC/PP-1997:105, Library of Congress: a note on the seal of 9 December 1941",
        ),
        (
            ("glass.make new", "glass.replaced 1", "seal.paper newspaper", "hinge.reback 1"),
            "A Case for Preservation, Topics in Photographic Preservation 13, 2009: 36 plates",
        ),
        (
            ("seal.state none", "backing.material modern", "backing.renewed 1"),
            "Conservation Treatment Procedures, Bancroft Library: about 440 cased photographs",
        ),
    ],
)
def test_what_conservators_renewed_is_no_sign_of_a_marriage(findings, source):
    before, after = told(*DATED, region="us"), judged(*DATED, *findings, region="us")
    assert odds(after.reading) / odds(before) < 1.1, source
    assert not {"married", "reproduction", "odd-one-out"} & set(warned(after)), source


def test_repairs_of_a_conservator_are_not_called_amateur():
    # A Case for Preservation, Topics in Photographic Preservation 13, 2009: cases repaired.
    seen = judged(*DATED, "hinge.reback 1")
    assert not fault(seen.reading, "hinge.reback").active
    assert "repair-not-archival" not in warned(seen)


@pytest.mark.parametrize("material", ["leather-wood", "thermoplastic"])
def test_reused_cases_are_allowed_for_beforehand(material):
    # Cased Photographs: reflections on a process (2022), Moruya and District Historical Society:
    # pictures taken out, cases possibly used again. The rates themselves are judgements.
    reading = told(f"case.material {material}")
    low, high = reading.before
    assert 0.05 < low < reading.married < high < 0.5


def test_a_plate_that_lost_its_case_is_not_suspected_for_it():
    # Preservation of the Daguerreotype Collection, Library of Congress: studio plates that came in
    # 1920 without cases, and often without glass.
    seen = judged(
        "claim.process daguerreotype", "plate.mirror flips", "case.material none",
        "glass.make none", "glass.missing 3", channel="private", region="us",
    )  # fmt: skip
    assert not {"married", "reproduction", "odd-one-out"} & set(warned(seen))
    assert seen.reading.condition.sides["package"].grade in ("Poor", "Unacceptable")
