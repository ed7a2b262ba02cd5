"""Slides, sheets and what dates a plate or a body of wood, on the shipped knowledge.

Most of these rows are common practice without a source, and said so; what has a source names it.
"""

import pytest
from external.kit import judged, odds, only_opened, told

from appraise.reading.reading import existed_by


def test_a_cold_black_slide_is_later_than_a_warm_one():
    # Early Photographic Formats: lantern slides, University of Texas Rio Grande Valley Library:
    # albumen about 1850, collodion about 1850 to 1860, gelatin from about 1870.
    cold = told("slide.bound yes", "slide.tone cold", kind="lantern-slide")
    warm = told("slide.bound yes", "slide.tone warm", kind="lantern-slide")
    assert existed_by(cold, 1870) < existed_by(warm, 1870) / 2


def test_a_wooden_frame_is_earlier_than_paper_tape():
    # Common practice, no source: mahogany frames before about 1890.
    wood = told("slide.frame wood", kind="lantern-slide")
    tape = told("slide.frame tape", kind="lantern-slide")
    assert existed_by(wood, 1890) > existed_by(tape, 1890)


def test_a_cold_grey_daguerreotype_is_early():
    # Toning with gold was routine from 1842: Daguerreotype, American Institute for Conservation.
    # Old glass colours what is behind it, so the row is of low confidence and rules nothing out.
    told_so = ("claim.process daguerreotype", "plate.mirror flips")
    plain = told(*told_so, region="us")
    cold = told(*told_so, "plate.tone cold", region="us")
    assert existed_by(cold, 1845) > 1.5 * existed_by(plain, 1845)
    assert cold.together.last > 1845
    moulded = (*told_so, "case.material thermoplastic")
    later = judged(*moulded, "plate.tone cold")
    assert odds(later.reading) / odds(told(*moulded)) < 2
    assert not any(one.strong for one in later.warnings)


def test_a_joined_rail_is_later_than_a_mitred_one():
    # Common practice, no source: the turn is put at about 1849.
    early, late = (
        told("case.material leather-wood", f"case.build {one}", region="us").housing
        for one in ("one-piece", "jointed")
    )
    assert early.median < late.median


@pytest.mark.parametrize(
    ("size", "sheet"),
    [
        # from memory: sheets follow the negative
        ("3 1/4 x 4 1/4 in", "sheet-quarter"),
        ("5 x 7 in", "sheet-five-seven"),
        ("3 1/2 x 5 1/2 in", "sheet-postcard"),
        ("6 1/2 x 8 1/2 in", "sheet-whole"),
    ],
)
def test_a_blueprint_sheet_is_told_by_its_negative(size, sheet):
    assert told(kind="cyanotype", measured={"mount": size}).formats.best == sheet


def test_a_plate_larger_than_a_whole_one_is_mammoth():
    # Ambrotypes and Tintypes, Library of Congress: "imperial or mammoth" beyond 6 1/2 x 8 1/2 in;
    # 11 x 14 in from memory.
    assert told(measured={"plate": "11 x 14 in"}).formats.best == "mammoth"
    assert told(measured={"plate": "6 1/2 x 8 1/2 in"}).formats.best == "whole"


@pytest.mark.parametrize("word", ["report", "said"])
def test_word_of_treatment_says_opened_and_nothing_else(word):
    # A report names materials and shows before and after: How to choose a conservator, American
    # Institute for Conservation.
    told_so = ("case.material leather-wood", "claim.process daguerreotype")
    before, after = told(*told_so), judged(*told_so, f"piece.treatment {word}")
    assert after.reading.disturbed > before.disturbed
    assert after.reading.married == pytest.approx(before.married, abs=0.02)
    assert only_opened(after)


def test_a_note_is_kept_and_believed_with_care():
    # Notes travel between cases: Conservation Treatment Procedures, Bancroft Library.
    told_so = ("case.material leather-wood", "claim.process daguerreotype")
    before, after = told(*told_so), judged(*told_so, "note.loose loose")
    assert "loose-note" in {one.id for one in after.cautions}
    assert after.reading.belonging == before.belonging
