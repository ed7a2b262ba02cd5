"""Image quality, identification, further subjects and a maker, from a listing and a typed line.

How sellers word it is common practice; every name is invented.
"""

import datetime as dt

import pytest
from listing.listingkit import knowledge, listing, said

from appraise.listing.first_look import understand
from appraise.listing.quick import understand_entry

SAID = [  # a listing, the finding
    ("Sixth plate ambrotype of a man, tack sharp, leather case", "image.sharpness sharp"),
    ("Sixth plate daguerreotype of a lady. Crisp image with rich tones.", "image.tones full"),
    ("Ninth plate tintype of a boy, out of focus", "image.sharpness soft"),
    ("Cabinet card of a man, image is a bit dark, albumen print", "image.exposure dark"),
    ("Sixth plate ambrotype of a man, low contrast", "image.tones flat"),
    ("CDV of a lady, overexposed, albumen print", "image.exposure pale"),
    ("Sixth plate ambrotype of an unidentified man in a leather case", "sitter.identified no"),
    ("Carte de visite of an identified soldier", "sitter.identified name"),
    ("Cabinet card of a girl, initials on the back", "sitter.identified initials"),
    (
        "Quarter plate tintype of a soldier, name and regiment written inside",
        "sitter.identified full",
    ),
    ("CDV of a soldier, sold with letters and papers", "sitter.identified proven"),
]


@pytest.mark.parametrize(("text", "finding"), SAID)
def test_a_listing_answers_the_check(text: str, finding: str) -> None:
    check, answer = finding.split()
    assert listing(text).piece.found(check) == answer


SHOWN = [
    ("Sixth plate tintype of a soldier holding a banjo", ("soldier", "music")),
    ("Carte de visite of a man with baseball bat", ("single", "sport")),
    ("Tintype of a soldier, double armed with revolver and Bowie knife", ("soldier", "arms")),
    ("Cabinet card of a man in Masonic regalia", ("single", "insignia")),
    ("Cabinet card of a young African American woman", ("single", "of-colour")),
    ("Cabinet card, school group of children with their teacher", ("occupational", "school")),
    ("Cabinet card, group portrait at the orphanage", ("group", "institution")),
    ("Sixth plate ambrotype of a lady in a black dress", ("single",)),
    ("Sixth plate ambrotype of a soldier and his horse", ("soldier", "animal")),
]


@pytest.mark.parametrize(("text", "subjects"), SHOWN)
def test_further_subjects_stand_beside_the_leading_one(
    text: str, subjects: tuple[str, ...]
) -> None:
    found = listing(text).piece.subjects
    assert found[0] == subjects[0]
    assert set(subjects) <= set(found)
    assert len(found) <= len(subjects) + 1


MADE = [
    ("CDV of a lady, albumen print. Photographed by J. Marsh, Hull", "J. Marsh"),
    ("Cabinet card of a man, backmark of R. Quill, Dover", "R. Quill"),
    ("CDV of a boy. Photographer: Tulley, Bath", "Tulley"),
    ("CDV of a boy by the same photographer", ""),
    ("Sixth plate daguerreotype of a man, photographer unknown", ""),
]


@pytest.mark.parametrize(("text", "maker"), MADE)
def test_who_took_it(text: str, maker: str) -> None:
    assert listing(text).piece.maker == (f"{maker} (seller says)" if maker else "")
    assert said(text, "maker") == ((maker,) if maker else ())


def test_a_typed_line_says_all_of_them() -> None:
    look = understand("sixth ambro soldier banjo sharp identified 85", knowledge())
    assert look.piece.subjects == ("soldier", "music")
    assert look.piece.found("image.sharpness") == "sharp"
    assert look.piece.found("sitter.identified") == "name"
    assert look.not_understood == ()


def test_a_line_of_the_log_keeps_them_as_fields() -> None:
    line = "sixth ambro soldier banjo sharp identified, by R. Quill, 38, quay market"
    entry = understand_entry(line, knowledge(), "USD", dt.date(2024, 5, 31)).entry
    assert entry.subjects == ("soldier", "music")
    assert entry.identified == "name"
    assert entry.quality is not None
    assert entry.quality > 3
    assert entry.maker == "R. Quill"
