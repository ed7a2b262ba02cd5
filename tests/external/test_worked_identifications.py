"""Published identifications of processes, told as findings and read on the shipped knowledge.

These are consistency checks: the tables were set knowing the statements. D01 to D39 are their
numbers in the notes on formats and processes, where some numbers are not in use; D07 and D33 are
described there without a row. Where a statement names the support, the answers that such a support
compels are told too: a picture on leather has no glass edge and pulls no magnet. Pieces that show
an edge or a back are loose plates, paper prints are cards, all others are cased.
"""

import pytest
from every import every
from external.kit import best, judged, told, warned

NEDCC = "Types of Photographs, Northeast Document Conservation Center"
PADUA = "Aid to identification of historical photographic process and supports, University of Padua"
WAM = "Appendix 7: Photographic Processes (2017), Western Australian Museum"
SWARTHMORE = "Cased photographs collection PA-107, Friends Historical Library, Swarthmore College"
AIC = "PMG Cased Photographs (1998, revised 2021), American Institute for Conservation"
CONNECTICUT = "Tiny precious objects (2013), Connecticut Historical Society"
NPR = "Photo Mystery Solved, Then Doubted, Then Deciphered (2012), NPR"
LAC = "Treasures Revealed ep. 2: Pannotype Puzzle, Library and Archives Canada"
DENVER = "Historic photographic processes in a nutshell, Denver Public Library"
IPI = "Graphics Atlas, Albumen (magnification), Image Permanence Institute"
VHS = "Double Take (2014), Virginia Historical Society"
CAROLINA = "Your Photographs: How to Help Them Survive Over Time, State Archives of North Carolina"
PRACTICE = "common practice, no source"

FLIPS, STAYS = "plate.mirror flips", "plate.mirror stays"
PULLS, DOES_NOT = "plate.magnet yes", "plate.magnet no"
BACKED, UNBACKED = "plate.dark-backing yes", "plate.dark-backing no"
GLASS, IRON = "plate.glass-edge yes", "plate.metal-edge dark"
MILKY, BROWN = "image.whites yes", "image.warm-brown yes"
FIBRES, CRACKED = "print.fibres yes", "print.crackle yes"
UNCRACKED, UNCOATED = "print.crackle no", "print.smooth no"
YELLOWED, CLEAN = "print.yellow-whites yes", "print.yellow-whites no"
EVEN, WEAVE = "image.dots even", "plate.cloth-base yes"

IDENTIFIED = [  # number, kind, findings, process or family as published, source
    ("D01", "cased", (FLIPS, "plate.outline follows"), "daguerreotype", NEDCC),
    ("D03", "cased", (FLIPS,), "daguerreotype", PADUA),
    ("D04", "cased", (FLIPS,), "daguerreotype", SWARTHMORE),
    ("D04 loose", "loose-plate", (FLIPS,), "daguerreotype", SWARTHMORE),
    ("D05", "loose-plate", (FLIPS, DOES_NOT), "daguerreotype", WAM),
    ("D06", "loose-plate", (IRON, MILKY, STAYS), "tintype-plain", WAM),
    (
        "D08",
        "loose-plate",
        (IRON, "image.tint yes", "mount.printed-name yes", STAYS),
        "tintype",
        CONNECTICUT,
    ),
    ("D09", "cased", (PULLS, "image.reversal reversed", STAYS), "tintype-plain", NPR),
    ("D10", "loose-plate", (BACKED, GLASS, MILKY, STAYS), "ambrotype", WAM),
    ("D12", "loose-plate", (BACKED, GLASS, "plate.coloured-glass no"), "ambrotype", AIC),
    ("D13", "cased", ("plate.coloured-glass yes", UNBACKED), "ambrotype-ruby", AIC),
    ("D16", "loose-plate", ("plate.white-glass white-glass", GLASS), "opalotype", WAM),
    ("D18", "loose-plate", (WEAVE, STAYS, DOES_NOT, "plate.glass-edge no"), "pannotype", WAM),
    (
        "D19",
        "cased",
        (WEAVE, STAYS, DOES_NOT, UNBACKED, "plate.depth no", "plate.heavy no"),
        "pannotype",
        LAC,
    ),
    ("D23", "card", (CRACKED, BROWN, YELLOWED), "albumen", WAM),
    ("D25", "card", (FIBRES, CRACKED), "albumen", IPI),
    (
        "D26",
        "card",
        (FIBRES, "print.neutral yes", "image.warm-brown no", CLEAN, EVEN),
        "platinum",
        WAM,
    ),
    ("D28", "cyanotype", ("image.blue yes", FIBRES), "cyanotype", WAM),
    ("D29", "cyanotype", ("image.blue yes", FIBRES, UNCOATED), "cyanotype", PADUA),
    ("D30", "card", ("image.dots pattern",), "photomechanical", WAM),
    ("D30 cased", "cased", ("image.dots pattern",), "photomechanical", WAM),
    ("D31", "card", ("print.smooth yes", BROWN, EVEN), "printing-out", f"{PADUA}; {NEDCC}"),
    ("D32", "card", ("print.relief yes", BROWN, CLEAN, EVEN), "carbon", PRACTICE),
    ("D34", "cased", (FLIPS, "image.reversal right"), "daguerreotype", VHS),
    ("D39", "cased", (STAYS, BACKED), "ambrotype", CAROLINA),
]


@every(
    ("number", "kind", "findings", "expected", "source"), IDENTIFIED, ids=[r[0] for r in IDENTIFIED]
)
def test_published_identification_is_read_as_published(number, kind, findings, expected, source):
    reading = told(*findings, kind=kind)
    assert expected in (best(reading.processes), reading.family), f"{number}: {source}"


def test_a_tiny_coloured_plate_on_a_card_is_a_gem():
    # D08. Tiny precious objects (2013), Connecticut Historical Society: about 1 x 3/4 in.
    reading = told(
        IRON, "image.tint yes", "mount.printed-name yes", STAYS,
        kind="loose-plate", measured={"plate": "3/4 x 1 in"},
    )  # fmt: skip
    assert reading.formats.best == "gem"
    assert reading.family == "tintype"


UNCOATED_PAPER = [  # number, findings, source
    ("D21", (FIBRES, BROWN, YELLOWED, UNCRACKED, UNCOATED, "mount.printed-name no"), WAM),
    ("D22", (FIBRES, BROWN, UNCRACKED, UNCOATED, EVEN), DENVER),
]


@pytest.mark.parametrize(
    ("number", "findings", "source"), UNCOATED_PAPER, ids=[r[0] for r in UNCOATED_PAPER]
)
def test_uncoated_fibrous_paper_speaks_for_salted_paper_more_than_for_any_other(
    number, findings, source
):
    # Cards are nearly all albumen (a judged share), so what the published key tells of a single
    # sheet is asked here of the evidence: which process it favours most.
    before, after = told(kind="card").processes, told(*findings, kind="card").processes
    gains = {name: after[name] / before[name] for name in before if before[name] > 0}
    assert best(gains) == "salted-paper", f"{number}: {source}"
    assert gains["salted-paper"] > 2 * gains["albumen"], f"{number}: {source}"


# --- what fits no row, and what speaks against itself, stays open or warns ------------------------


def test_a_picture_on_white_enamelled_copper_stays_open_and_is_no_opalotype():
    # D36. Appendix 7, Western Australian Museum: a photo-ceramic.
    reading = told(
        "plate.white-glass enamel", DOES_NOT, STAYS, "plate.metal-edge copper", kind="loose-plate"
    )
    assert best(reading.processes) == "other"
    named = (chance for family, chance in reading.families.items() if family != "other")
    assert max(named) < 0.5
    assert reading.families["opalotype"] < 0.05


def test_a_pigment_print_with_a_slight_relief_stays_open_near_carbon():
    # D37. Aid to identification, University of Padua: gum bichromate, glossier in the darks, a
    # slight relief, grains of pigment. Gum prints have no row of their own.
    reading = told("print.relief yes", "image.dots texture", UNCOATED, kind="card")
    assert reading.family in ("carbon", "other")
    assert max(reading.families.values()) < 0.7


@pytest.mark.parametrize("material", ["leather-wood", "thermoplastic"])
def test_a_fine_case_is_a_weak_argument_against_a_tintype(material):
    # D38. A page of the Deutsches Kameramuseum argues that a sixth plate cannot be a tintype since
    # its case of 85 x 95 x 15 mm is too good; 2019.26.2, Smithsonian NMAAHC, is a tintype in a fine
    # moulded case.
    size = {"case": "85 x 95 x 15 mm"}
    plain = told(PULLS, STAYS, f"case.material {material}", measured=size)
    fine = told(
        PULLS, STAYS, f"case.material {material}", "pad.pile embossed", "clasp.kind two-hooks",
        measured=size,
    )  # fmt: skip
    assert fine.formats.case_format == "sixth"
    assert fine.family == plain.family == "tintype"
    ratio = fine.families["tintype"] / plain.families["tintype"]
    assert 0.8 < ratio < 1.25


def test_the_magnet_leads_but_does_not_decide():
    # D07 and D15. Aid to identification, University of Padua: hold the magnet over the cover glass;
    # PMG Cased Photographs, American Institute for Conservation: some ambrotypes have metal
    # backings. How many is a judgement: few, so that the magnet leads beside what is seen of glass.
    pulls = told(PULLS, STAYS)
    assert pulls.family == "tintype"
    assert 0.03 < pulls.families["ambrotype"] < 0.3
    glass = told(PULLS, "plate.depth yes", BACKED, STAYS)
    assert glass.families["ambrotype"] > 5 * pulls.families["ambrotype"]
    assert glass.families["ambrotype"] > 0.25
    assert glass.families["tintype"] < 0.75
    assert told("plate.depth yes", BACKED, STAYS).family == "ambrotype"


def test_a_record_that_contradicts_itself_is_doubted_aloud():
    # D33. 1960.22.19, Connecticut Museum of Culture and History: an ambrotype by its medium, a
    # daguerreotype by its description.
    seen = judged("claim.process daguerreotype seller", STAYS, BACKED)
    assert seen.reading.family == "ambrotype"
    assert "looks like ambrotype" in warned(seen)["claim-doubted"].says
    words_alone = judged("claim.process daguerreotype seller")
    assert "claim-doubted" not in warned(words_alone)


def test_sources_that_disagree_decide_nothing():
    # A weak negative on ambrotypes: denied by the University of Padua, told in Name that photograph
    # (Cincinnati Museum Center internship), Syracuse University.
    before, after = told(STAYS, BACKED), told(STAYS, BACKED, "plate.negative-glint yes")
    assert after.family == before.family == "ambrotype"
    assert abs(after.families["daguerreotype"] - before.families["daguerreotype"]) < 0.02


def test_a_picture_that_is_not_reversed_may_still_be_a_direct_plate():
    # Double Take (2014), Virginia Historical Society: the copy of a daguerreotype reads right;
    # Ambrotype, American Institute for Conservation: a turned plate reads right too.
    for cue, family in ((FLIPS, "daguerreotype"), (BACKED, "ambrotype")):
        reading = told(cue, "image.reversal right")
        assert reading.family == family
        assert reading.joint.copy < 0.1


def test_a_bound_transparency_is_a_lantern_slide():
    # Standard glass slide (2019), Lucerna Magic Lantern Web Resource, University of Exeter.
    reading = told("slide.bound yes", "plate.light-through yes", kind="lantern-slide")
    assert reading.family == "lantern-slide"
    assert reading.families["lantern-slide"] > 0.95
