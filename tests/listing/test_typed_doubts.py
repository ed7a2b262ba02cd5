"""What a buyer types of modern work, marriages and several pictures is never passed over.

The lines are invented; that such words are used at a stall is common practice.
"""

import pytest
from listing.listingkit import knowledge

from appraise.listing.first_look import understand


def found(line: str) -> set[str]:
    piece = understand(line, knowledge()).piece
    return {f"{name} {one.answer}" for name, one in piece.findings.items()}


@pytest.mark.parametrize(
    "line",
    [
        "sixth tintype modern 40",
        "modern tintype",
        "sixth tintype repro 40",
        "reproduction sixth dag",
        "sixth tintype fake",
        "contemporary tintype by me",
        "sixth tintype soldier, modern by me 40",
        "tintype taken 2015",
        "tintype on aluminium",
        "aluminum tintype soldier",
        "photocopy in case",
        "reprint in dag case",
    ],
)
def test_a_modern_picture_is_called_one(line):
    assert "claim.age modern" in found(line)
    assert "modern" not in understand(line, knowledge()).piece.motif


@pytest.mark.parametrize(
    "line", ["sixth dag wrong case", "married sixth ambro", "ambro, image not original to case"]
)
def test_a_marriage_is_called_one(line):
    assert "claim.belonging exchanged" in found(line)


@pytest.mark.parametrize(
    ("line", "signs"),
    [
        ("resin union case seam bubbles ambro 45", {"case.seam seam", "case.bubbles bubbles"}),
        ("sixth ambro union case bubbles seam", {"case.seam seam", "case.bubbles bubbles"}),
        ("ambro union case pinholes", {"case.bubbles bubbles"}),
        ("ambro union case seam", {"case.seam seam"}),
        ("sixth photo on metal printed dots 30", {"image.dots pattern"}),
        ("sixth ambro modern case", {"case.state modern"}),
    ],
)
def test_signs_of_modern_work_are_answers(line, signs):
    assert signs <= found(line)


@pytest.mark.parametrize(
    "line",
    [
        "sixth ambro",
        "not a modern tintype",
        "tintype no modern glass",
        "new glass dag",
        "quarter dag modern mat",
    ],
)
def test_what_is_not_said_of_the_picture_makes_it_no_modern_one(line):
    assert "claim.age modern" not in found(line)


@pytest.mark.parametrize(
    ("line", "images"),
    [
        ("two ambros in one leather case", 2),
        ("two ambrotypes in a case", 2),
        ("two ambrotypes in an old union case sixth 90", 2),
        ("pair of dags in one case", 2),
        ("ambro in a leather case", 0),
    ],
)
def test_several_pictures_in_one_case_are_one_piece(line, images):
    piece = understand(line, knowledge()).piece
    assert (piece.kind, len(piece.images)) == ("cased", images)


def test_several_cases_are_a_lot():
    assert understand("two ambros leather cases 90", knowledge()).piece.kind == "lot"


@pytest.mark.parametrize(("channel", "known"), [("market", "in-hand"), ("online", "seller")])
def test_who_says_so_depends_on_where_it_is_met(channel, known):
    finding = understand(f"modern tintype {channel}", knowledge()).piece.findings["claim.age"]
    assert (finding.known, finding.admitted) == (known, known == "seller")


@pytest.mark.parametrize(
    ("line", "asked"),
    [
        ("modern tintype 2019 20", "20.00 USD"),
        ("tintype 1990", "1990.00 USD"),
        ("sixth ambro 1858 85", "85.00 USD"),
    ],
)
def test_a_later_year_is_no_price_where_another_number_may_be(line, asked):
    assert str(understand(line, knowledge()).piece.asking) == asked


@pytest.mark.parametrize(
    ("line", "cast"),
    [("tintype pinholes in the image 20", False), ("union case pinholes 60", True)],
)
def test_holes_are_of_the_casting_only_where_something_is_cast(line, cast):
    assert ("case.bubbles bubbles" in found(line)) == cast


def test_one_word_has_one_meaning():
    assert found("pinholes resin case 30") == {"case.bubbles bubbles", "case.material resin"}
