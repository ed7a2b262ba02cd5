"""What must hold of copies, modern parts and later additions, on the shipped knowledge.

No museum, journal or standard that describes cast copies of moulded cases was found: how strongly a
sign speaks is a judgement throughout, and what is checked is where it may speak at all. Statements
with a source name it; the others are marked as practice or judgement.
"""

from dataclasses import replace

import pytest
from external.kit import DAY, cautioned, judged, odds, piece, shipped, told, warned

from appraise.records.piece import Finding, Image
from appraise.verdict import judge

MOULDED, LEATHER = "case.material thermoplastic", "case.material leather-wood"
DAGUERREOTYPE, FLIPS = "claim.process daguerreotype", "plate.mirror flips"
SEALED = ("seal.state sound", "plate.outline follows")

OF_THE_CASE = [  # common practice, no source: how casting in resin works
    "case.seam seam", "case.bubbles bubbles", "case.sprue stub", "case.layer-lines lines",
    "case.detail soft", "case.twin-flaw same", "case.well one-piece", "case.moulded-mark marked",
    "case.broken-edge pale", "case.weight light", "case.odour sharp", "case.sheen even",
    "case.label machine", "pad.make plush", "mat.material resin",
]  # fmt: skip
OF_THE_PICTURE = [  # common practice, no source: what today's makers sign and show
    "plate.modern-signature signed", "sitter.anachronism modern", "plate.flat-glass new",
    "plate.condition-against-package fresh",
]  # fmt: skip


def ratio(state, before, after):
    """How far the odds of a state against "together" moved."""
    return odds(after, state) / odds(before, state)


@pytest.mark.parametrize("sign", OF_THE_CASE)
def test_a_sign_of_a_modern_case_leaves_the_picture_alone(sign):
    # "Keep the questions apart": a judgement.
    before, after = told(MOULDED, DAGUERREOTYPE), told(MOULDED, DAGUERREOTYPE, sign)
    assert ratio("modern-case", before, after) > 1.4
    assert ratio("modern-image", before, after) == pytest.approx(1, abs=0.05)
    assert ratio("married", before, after) == pytest.approx(1, abs=0.05)
    assert after.joint.copy == pytest.approx(before.joint.copy, abs=0.01)


@pytest.mark.parametrize("sign", OF_THE_PICTURE)
def test_a_sign_of_a_modern_picture_leaves_the_case_alone(sign):
    # "One bad answer must not leak into the others": a judgement.
    told_so = (MOULDED, "claim.process ambrotype")
    before, after = told(*told_so), told(*told_so, sign)
    assert ratio("modern-image", before, after) > 1.4
    assert ratio("modern-case", before, after) == pytest.approx(1, abs=0.1)
    assert ratio("married", before, after) == pytest.approx(1, abs=0.1)


@pytest.mark.parametrize("signs", [(), ("case.bubbles bubbles", "case.seam seam")])
def test_a_sealed_package_with_its_own_tarnish_does_not_clear_the_case(signs):
    # A seal speaks of the package alone: PMG Cased Photographs, American Institute for
    # Conservation. A sealed package drops into any case of its size: a judgement.
    before = told(MOULDED, DAGUERREOTYPE, FLIPS, *signs)
    after = judged(MOULDED, DAGUERREOTYPE, FLIPS, *signs, *SEALED)
    for state in ("modern-case", "married"):
        assert ratio(state, before, after.reading) == pytest.approx(1, abs=0.05)
    assert after.reading.disturbed < before.disturbed / 4
    assert ("reproduction" in warned(after)) == bool(signs)


@pytest.mark.parametrize("state", ["modern-image", "all-modern"])
def test_tarnish_that_follows_the_mat_speaks_for_the_plate(state):
    # Tarnish at the opening: Lingua Franca, ch. 2, Library and Archives Canada. That it takes
    # decades, so that a modern plate shows it less often, is a judgement.
    before = told(MOULDED, DAGUERREOTYPE, FLIPS)
    after = told(MOULDED, DAGUERREOTYPE, FLIPS, "plate.outline follows")
    assert ratio(state, before, after) < 1 / 3


def test_two_signs_of_one_casting_count_for_more_than_one_and_less_than_both():
    # One fact, one group: a judgement.
    before = told(MOULDED, DAGUERREOTYPE)
    seam, bubbles = (told(MOULDED, DAGUERREOTYPE, one) for one in OF_THE_CASE[:2])
    both = told(MOULDED, DAGUERREOTYPE, *OF_THE_CASE[:2])
    one, other, joint = (ratio("modern-case", before, each) for each in (seam, bubbles, both))
    assert max(one, other) < joint < one * other


@pytest.mark.parametrize(
    ("absent", "process", "source"),
    [
        ("plate.stamp none", "tintype", "only two makers stamped: AIC Conservators Converse"),
        ("plate.hallmark none", "daguerreotype", "Glossary of Terms, Library of Congress"),
        ("case.label none", "ambrotype", "labels are lost, or lie under the package: practice"),
        ("note.ballpoint none", "ambrotype", "common practice"),
    ],
)
def test_what_is_mostly_absent_says_nothing_by_its_absence(absent, process, source):
    before = told(MOULDED, f"claim.process {process}")
    after = told(MOULDED, f"claim.process {process}", absent)
    for state in ("married", "modern-case", "modern-image"):
        assert ratio(state, before, after) < 1.25, source


def test_a_true_process_is_not_therefore_of_its_period():
    # A library took advice from a living daguerreotypist: Preservation of the Daguerreotype
    # Collection, Library of Congress. The mirror speaks against paper and foil alone.
    before, after = told(LEATHER, DAGUERREOTYPE), told(LEATHER, DAGUERREOTYPE, FLIPS)
    assert after.families["photomechanical"] < before.families["photomechanical"] / 3
    assert after.belonging["modern-image"] > 0.003
    assert after.belonging["married"] == pytest.approx(before.belonging["married"], abs=0.02)


def test_a_signed_modern_plate_is_told_strongly():
    # A judgement, and marked decisive.
    seen = judged(LEATHER, "claim.process tintype", "plate.magnet yes", OF_THE_PICTURE[0])
    warning = warned(seen)["reproduction"]
    assert warning.strong
    assert "image may be modern" in warning.says


def test_a_moulded_replica_mark_is_told_strongly():
    # A judgement, and marked decisive.
    warning = warned(judged(MOULDED, "case.moulded-mark marked"))["reproduction"]
    assert warning.strong
    assert "case may be a modern reproduction" in warning.says


def test_a_period_costume_alone_raises_no_warning():
    # Sitters wear borrowed and old clothes: common practice. How much a re-enactor's kit says is a
    # judgement.
    assert judged(LEATHER, DAGUERREOTYPE, FLIPS, "sitter.anachronism costume").warnings == ()


def test_a_paper_print_in_a_case_is_allowed():
    # Salted and albumen prints in cases do exist: common practice.
    seen = judged(LEATHER, "image.paper-edge paper", "print.fibres yes", "image.dots even")
    prints = seen.reading.families["salted-paper"] + seen.reading.families["albumen"]
    assert prints > 0.3
    assert "reproduction" not in warned(seen)


@pytest.mark.parametrize("sign", ["image.foil foil", "image.film film", "image.dots pattern"])
def test_foil_film_and_dots_take_the_daguerreotype_away(sign):
    # Letterpress/Half-tone (2012), American Institute for Conservation, for the dots; foil and film
    # are judgements.
    seen = judged(LEATHER, "claim.process daguerreotype seller", "plate.mirror stays", sign)
    assert seen.reading.family == "photomechanical"
    assert "looks like printed reproduction" in warned(seen)["claim-doubted"].says
    assert seen.reading.modern > 0.4
    assert "mercury" not in cautioned(seen)


# --- copies and later additions -------------------------------------------------------------------


def test_a_copy_of_its_time_is_no_reproduction():
    # Double Take (2014), Virginia Historical Society: two daguerreotypes, the one of the other.
    before = told(LEATHER, DAGUERREOTYPE, FLIPS)
    seen = judged(LEATHER, DAGUERREOTYPE, FLIPS, "image.copy-signs frame", "image.reversal right")
    assert "copy" in warned(seen)
    assert seen.reading.modern == pytest.approx(before.modern, rel=0.1)
    assert "reproduction" not in warned(seen)


def test_gilt_buttons_of_the_period_are_no_alteration():
    # Hand colour lies under the varnish: Tintype, American Institute for Conservation. Gilding of
    # buttons and jewels was usual: common practice.
    before = told(LEATHER, "claim.process tintype")
    for period in ("image.insignia gilded", "image.fresh-colour period", "image.tint yes"):
        after = told(LEATHER, "claim.process tintype", period)
        assert after.joint.altered <= before.joint.altered * 1.05


@pytest.mark.parametrize(
    "note", ["note.ballpoint modern", "note.over-dirt over", "note.glow glows"]
)
def test_a_modern_note_is_an_addition_and_no_modern_piece(note):
    # Notes are read, kept and photographed: Conservation Treatment Procedures, Bancroft Library.
    # Paper brighteners from about 1950: PMG Connoisseurship, American Institute for Conservation.
    before, after = told(LEATHER, DAGUERREOTYPE), told(LEATHER, DAGUERREOTYPE, note)
    assert after.joint.altered > before.joint.altered * 4
    assert after.states == pytest.approx(before.states, abs=1e-9)


def test_two_processes_in_one_double_case_are_left_in_peace():
    # Two sitters in a double case can carry different processes: common practice.
    def side(name, *findings):
        split = (one.split() for one in findings)
        return Image(name, {check: Finding(check, answer, "in-hand") for check, answer in split})

    double = replace(
        piece(LEATHER),
        images=(
            side("left", DAGUERREOTYPE, FLIPS),
            side(
                "right", "claim.process ambrotype", "plate.mirror stays", "plate.dark-backing yes"
            ),
        ),
    )
    seen = judge(double, shipped(), None, DAY)
    assert [one.family for _, one in seen.reading.images] == ["daguerreotype", "ambrotype"]
    assert seen.warnings == ()


HARD = [
    (MOULDED, DAGUERREOTYPE, *OF_THE_CASE[:3], "pad.make plush", "mat.material resin"),
    (LEATHER, "claim.process tintype", *OF_THE_PICTURE[:2]),
    (LEATHER, DAGUERREOTYPE, "package.fit loose", "case.halves differ", "note.ballpoint modern"),
    (LEATHER, "image.foil foil", "image.dots pattern", "claim.process daguerreotype seller"),
]


@pytest.mark.parametrize("findings", HARD)
def test_no_warning_passes_sentence(findings):
    # Fakes claim to be what they are not, forgeries copy one work: PMG Connoisseurship, History,
    # Fakes and Forgeries, American Institute for Conservation. Intent cannot be seen on a piece.
    seen = judged(*findings)
    assert seen.warnings
    for one in seen.warnings:
        text = " ".join((one.says, *one.because, *one.innocent)).lower()
        assert not any(word in text for word in ("fake", "forge", "authentic", "genuine", "fraud"))
