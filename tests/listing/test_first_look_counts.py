"""Figures in a typed line that count damage, and figures that part one thing from the next."""

import pytest

from appraise.knowledge import load
from appraise.listing.first_look import understand

KNOWLEDGE = load()


@pytest.mark.parametrize(
    ("line", "asked", "check", "step"),
    [
        ("sixth ambro union case, 2 chips, 30", 30, "case.chip", "2"),
        ("ambro union case missing 2 corners 40", 40, "case.chip", "2"),
        ("sixth dag case missing 2 corners 40", 40, "case.loss", "1"),
        ("2 cracks sixth ambro 20", 20, "plate.crack", "2"),
        ("tintype 2 bends 3", 3, "plate.bend", "1"),
        ("tintype missing two corners 4", 4, "plate.corner", "1"),
        ("sixth ambro 12 hinge broken", 12, "hinge.torn", "2"),
        ("ninth ambro union case chipped corner 35 taped hinge", 35, "hinge.tape", "1"),
    ],
)
def test_what_counts_damage_is_neither_a_price_nor_pieces(line, asked, check, step):
    look = understand(line, KNOWLEDGE)
    assert look.piece.asking.amount == asked
    assert look.piece.found(check) == step
    assert look.piece.kind == "cased"
    assert (look.piece.motif, look.not_understood) == ("", ())


def test_corners_with_no_other_figure_leave_no_price():
    look = understand("cdv 4 corners clipped", KNOWLEDGE)
    assert look.piece.asking is None
    assert look.piece.found("mount.trim") == "1"


@pytest.mark.parametrize(("line", "kind"), [("two cases 45", "lot"), ("12 tintypes 40", "lot")])
def test_pieces_are_still_counted(line, kind):
    assert understand(line, KNOWLEDGE).piece.kind == kind


@pytest.mark.parametrize(
    ("line", "housing"),
    [
        ("quarter plate tintype frame 55", "frame"),
        ("tintype in frame, frame chipped 20", "frame"),
        ("sixth ambro lady gilt brooch 45", ""),
        ("sixth ambro no frame 30", ""),
    ],
)
def test_a_frame_that_is_only_named_is_its_housing(line, housing):
    assert understand(line, KNOWLEDGE).piece.found("case.material") == housing
