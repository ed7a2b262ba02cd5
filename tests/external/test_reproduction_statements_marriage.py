"""Misreadings that must not make a piece look put together from others, on the shipped knowledge.

Sources stand beside each check; how strongly a sign speaks is a judgement throughout.
"""

import pytest
from every import every
from external.kit import cautioned, fault, judged, odds, only_opened, shipped, told, warned

from appraise.reading.reading import existed_by

MOULDED, LEATHER = "case.material thermoplastic", "case.material leather-wood"
DAGUERREOTYPE, FLIPS = "claim.process daguerreotype", "plate.mirror flips"
AMBROTYPE, TINTYPE = "claim.process ambrotype", "claim.process tintype"


def spans(reading):
    """What image, package, housing and the whole are dated to."""
    return (reading.image, reading.package, reading.housing, reading.together)


NO_EVIDENCE = [  # findings, source
    (("hinge.detached 2",), "Through the looking glass (2017), National Portrait Gallery blog"),
    (("hinge.split 3",), "Through the looking glass (2017), National Portrait Gallery blog"),
    (("seal.state torn", "seal.broken 2"), "Conservation Treatment Procedures, Bancroft Library"),
    (
        ("seal.state household", "seal.bad-tape 1"),
        "Sticky tape is evil (2017), Texas State Library",
    ),
    (("seal.paper modern",), "DLC/PP-1997:105, Library of Congress: a note of 1941 on the seal"),
    (("glass.make new",), "Preservation of the Daguerreotype Collection, Library of Congress"),
    (("backing.material newspaper",), "Conservation Treatment Procedures, Bancroft Library"),
    (("pad.make missing", "pad.missing 3"), "Pads are lost: common practice"),
    (("preserver.state lost", "preserver.missing 2"), "Glossary of Terms, Library of Congress"),
    (("plate.corner 2",), "Loose tintypes come with snipped corners: common practice"),
]


@pytest.mark.parametrize(("findings", "source"), NO_EVIDENCE, ids=[r[0][0] for r in NO_EVIDENCE])
@pytest.mark.parametrize("material", [LEATHER, MOULDED])
def test_what_is_no_evidence_of_a_marriage_by_itself(material, findings, source):
    process = TINTYPE if findings == ("plate.corner 2",) else DAGUERREOTYPE
    before, after = told(material, process), judged(material, process, *findings)
    assert odds(after.reading) / odds(before) < 1.3, source
    assert not {"married", "reproduction", "odd-one-out"} & set(warned(after)), source


@pytest.mark.parametrize(
    "findings",
    [
        ("package.fit loose",),
        ("package.fit shimmed",),
        ("package.size-match other",),
        ("seal.state household",),
        ("backing.material modern",),
        ("package.size-match other", "package.fit shimmed", "seal.state none"),
    ],
)
def test_once_conserved_fit_and_seal_say_nothing(findings):
    # Inv. 30015 and 11962, History of Science Museum, Oxford: a true pair, repackaged, no longer
    # fits. Conservators reseal and back anew: Conservation Treatment Procedures, Bancroft Library.
    before = told(LEATHER, DAGUERREOTYPE, conserved=True)
    after = told(LEATHER, DAGUERREOTYPE, *findings, conserved=True)
    assert after.states == pytest.approx(before.states, abs=1e-9)
    assert after.disturbed == pytest.approx(before.disturbed, abs=1e-9)
    unsaid = told(LEATHER, DAGUERREOTYPE, *findings)
    assert (unsaid.states, unsaid.disturbed) != (before.states, before.disturbed)


UNDATED = [  # a dated look, and what says that the part is not the first one
    ("mat.shape octagon", "mat.material resin"),
    ("preserver.form points", "preserver.state renewed"),
    ("preserver.form points", "preserver.state lost"),
    ("pad.pile silk", "pad.make plush"),
    ("pad.pile silk", "pad.make missing"),
]


@pytest.mark.parametrize(("look", "renewed"), UNDATED)
def test_a_renewed_part_takes_its_date_away(look, renewed):
    # Only what was there from the start dates a piece: common practice; new mats, pads and
    # preservers are recorded as exchanges.
    plain = told(LEATHER, DAGUERREOTYPE, region="us")
    dated = told(LEATHER, DAGUERREOTYPE, look, region="us")
    undated = told(LEATHER, DAGUERREOTYPE, look, renewed, region="us")
    assert spans(dated) != spans(plain)
    assert spans(undated) == spans(plain)


@pytest.mark.parametrize(
    "missing",
    [
        "preserver.state lost",
        "preserver.state renewed",
        "glass.make none",
        "glass.make new",
        "pad.make missing",
        "seal.state none",
        "seal.state conservator",
        "seal.paper modern",
        "mat.material none",
        "mat.material resin",
        "clasp.missing 3",
        "clasp.replaced 2",
        "backing.material modern",
        "hinge.detached 3",
    ],
)
def test_a_missing_or_renewed_part_dates_nothing(missing):
    # A modern seal dates the sealing: DLC/PP-1997:105, Library of Congress. New glass dates the
    # glazing: A Case for Preservation, Topics in Photographic Preservation 13, 2009. Else practice.
    plain = told(LEATHER, DAGUERREOTYPE, region="us")
    assert spans(told(LEATHER, DAGUERREOTYPE, missing, region="us")) == spans(plain)


def low_rows():
    """Every dated answer that rests on practice alone, as a finding on a cased piece."""
    return sorted(
        f"{check.id} {answer.id}"
        for check in shipped().checks.values()
        for answer in check.answers
        if "cased" in check.kinds
        and any(years.confidence == "low" for years in answer.years.values())
        and not any(years.confidence != "low" for years in answer.years.values())
    )


@every("row", low_rows())
def test_one_row_of_practice_alone_never_makes_a_marriage(row):
    # A single row without an institution behind it must never yield "married": a judgement, after
    # the lack of any institution's chronology of mats and preservers.
    for process in (DAGUERREOTYPE, AMBROTYPE):
        for region in ("us", "gb", "unknown"):
            before = told(LEATHER, process, region=region)
            after = judged(LEATHER, process, row, region=region)
            assert before.married < 0.24
            assert after.reading.married < 0.35
            assert "married" not in warned(after)


def test_there_are_such_rows():
    assert len(low_rows()) >= 20


# --- tape -----------------------------------------------------------------------------------------


@pytest.mark.parametrize("step", ["1", "2", "3"])
def test_household_tape_on_the_package_is_named_and_left(step):
    # Sticky tape is evil (2017), Texas State Library and Archives; Tape Troubles and Treatments
    # (2014), New York University Libraries.
    seen = judged(LEATHER, DAGUERREOTYPE, "seal.state household", f"seal.bad-tape {step}")
    warning = warned(seen)["repair-not-archival"]
    assert "not an archival repair" in warning.says
    assert "Never peel" in warning.says
    assert warning.strong == (step == "3")
    assert not fault(seen.reading, "seal.bad-tape").active
    assert "tape" in cautioned(seen)


def test_yellow_tape_of_a_conservator_is_not_called_amateur():
    # The paper carrier of an archival tape was found distinctly yellow: note on two gelatin silver
    # photographs, Journal of the American Institute for Conservation 27(1), 1988.
    seen = judged(LEATHER, DAGUERREOTYPE, "seal.state conservator", "seal.archival 2")
    assert fault(seen.reading, "seal.archival").says == "neat, gone yellow"
    assert seen.reading.condition.factor == 1.0
    assert only_opened(seen)
    assert any("yellow" in text for text in shipped().checks["seal.archival"].innocent)


# --- standing traps -------------------------------------------------------------------------------


def test_a_magnet_caught_by_hinge_and_clasp_makes_no_tintype():
    # Steel pins and hooks in a moulded case: common practice; hinges with riveted metal:
    # 1984.0138.19, National Museum of American History.
    before, after = told(MOULDED), told(MOULDED, "plate.magnet edge-only")
    assert after.families["tintype"] < before.families["tintype"]


def test_a_magnet_that_finds_nothing_leaves_the_tintype_possible():
    # Thick cover glass, a weak magnet: common practice.
    after = told(LEATHER, TINTYPE, "plate.magnet no")
    assert after.families["tintype"] > 0.15


def test_a_mat_over_the_glass_speaks_against_a_daguerreotype():
    # The mat lies under the cover glass; a single-plate ambrotype needs none: PMG Cased
    # Photographs, American Institute for Conservation.
    before, after = told(LEATHER), told(LEATHER, "mat.position over")
    assert after.families["daguerreotype"] < before.families["daguerreotype"] / 5
    assert after.family == "ambrotype"


@pytest.mark.parametrize(
    ("findings", "year", "source"),
    [
        ((TINTYPE, "plate.magnet yes"), 1855, "US patent 14,300, 19 February 1856"),
        (
            (AMBROTYPE, "plate.mirror stays", "plate.dark-backing yes"),
            1852,
            "Cutting's patents of July 1854; Archer and Fry 1852 in Britain (Hannavy, p. 56)",
        ),
        ((DAGUERREOTYPE, FLIPS), 1838, "announced 19 August 1839: New-York Historical Society"),
    ],
)
def test_a_process_gives_a_floor(findings, year, source):
    assert existed_by(told(*findings, region="us"), year) < 0.03, source


def test_a_warning_of_marriage_names_the_owners_own_refit():
    # Families re-case, studios refit, conservators rehouse: Cased Photographs (2022), Moruya and
    # District Historical Society; inv. 30015, History of Science Museum, Oxford.
    warning = warned(judged(LEATHER, DAGUERREOTYPE, "case.halves differ"))["married"]
    assert any("re-cased by an early owner" in text for text in warning.innocent)
    assert not warning.strong
    assert warning.look_next


def test_detached_halves_that_may_not_belong_together_are_doubtful_and_no_more():
    # Cased photographs, list page 6, Library Company of Philadelphia: the portrait with a nonpareil
    # mat; the same with a family's own history, which speaks for it (a judgement).
    findings = (LEATHER, DAGUERREOTYPE, "mat.shape nonpareil", "case.halves differ")
    alone = judged(*findings, region="us")
    assert 0.35 < alone.reading.married < 0.6
    family = told(*findings, "piece.provenance family", region="us")
    assert family.married < alone.reading.married / 1.5
