"""Jewellery: a sitter's is no housing, and a locket that holds the image is one."""

import pytest
from listing.listingkit import knowledge, listing, said

from appraise.listing.first_look import understand

WORN = [
    ("Sixth plate ambrotype of a lady with gilt brooch, in leather case. $45", "leather-wood"),
    ("Ambrotype, gilt brooch highlighted, pink cheeks. Leather case.", "leather-wood"),
    ("Sixth plate daguerreotype, lady wearing a gold brooch and rings, half leather case",
     "leather-wood"),
    ("Ninth plate tintype, gilt brooch on dress, in thermoplastic case", "thermoplastic"),
    ("Sixth plate ambrotype of a woman, her brooch picked out in gold. 40", ""),
    ("Photo of woman with large locket, ambrotype 30", ""),
    ("ambrotype of young woman, gold tinted brooch", ""),
    ("Ambrotype of a lady. Her jewellery: earrings, brooch and ring.", ""),
    ("Ambrotype portrait of a girl, locket round her neck", ""),
]  # fmt: skip
HOLDS = [
    "Daguerreotype brooch, gold, 30",
    "Ambrotype in a gilt brooch, with pin",
    "Tintype locket, brass",
    "Mourning brooch with ambrotype of a man",
    "gold locket with tintype inside",
    "Brooch set with tintype of soldier",
    "Ambrotype of a lady in a small gold locket",
    "Sixth plate ambrotype, a lady, in a brass locket",
    "Ladies gold locket with a tintype",
]
LINES = [
    ("sixth ambro lady gilt brooch 45", ""),
    ("ambro gilt brooch leather case 40", "leather-wood"),
    ("lady with brooch ambro 45", ""),
    ("locket tintype 20", "locket"),
    ("ambro brooch lady 45", "locket"),
]


@pytest.mark.parametrize(("text", "housing"), WORN)
def test_what_a_sitter_wears_is_no_housing(text: str, housing: str) -> None:
    assert said(text, "case.material") == ((housing,) if housing else ())
    assert listing(text).piece.found("claim.material") == housing


@pytest.mark.parametrize("text", HOLDS)
def test_what_holds_the_image_is_one(text: str) -> None:
    assert said(text, "case.material") == ("locket",)


@pytest.mark.parametrize(("line", "housing"), LINES)
def test_so_it_is_in_a_typed_line(line: str, housing: str) -> None:
    got = understand(line, knowledge())
    assert got.piece.found("case.material") == housing
    assert got.not_understood == ()
