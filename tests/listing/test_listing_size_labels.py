"""What a size in a seller's text is of, by its label, and the ways of writing sizes.

The texts are invented. Labels as catalogues print them are measured on records of museums in
tests/external/test_measured_parts.py.
"""

import pytest
from every import every
from listing.listingkit import flags, listing, said

from appraise.base.measures import Measure

CASED = "Sixth plate daguerreotype in a leather case. "
CARD = "Carte de visite, albumen print of a soldier. "
LOOSE = "Loose sixth plate tintype, no case. "
SLIDE = "Glass lantern slide of a bridge. "

# The text and its measures, (part, size) in the order of the text.
LABELS = [
    (CASED + "Image: 5.5 x 6.8 cm. Case: 8.4 x 9.5 cm.", ["opening 5.5x6.8cm", "case 8.4x9.5cm"]),
    (CASED + "Image: 5.5 x 6.8 cm  Case: 8.4 x 9.5 cm", ["opening 5.5x6.8cm", "case 8.4x9.5cm"]),
    (CASED + "Case: 8.4 x 9.5 cm Image: 5.5 x 6.8 cm", ["case 8.4x9.5cm", "opening 5.5x6.8cm"]),
    (CASED + "Image 5.5 x 6.8 cm, case 8.4 x 9.5 cm", ["opening 5.5x6.8cm", "case 8.4x9.5cm"]),
    (CASED + "5.5 x 6.8 cm image, 8.4 x 9.5 cm case", ["opening 5.5x6.8cm", "case 8.4x9.5cm"]),
    (CASED + "5.5 x 6.8 cm (image), 8.4 x 9.5 cm (case)", ["opening 5.5x6.8cm", "case 8.4x9.5cm"]),
    (CASED + "Sight: 5.5 x 6.8 cm", ["opening 5.5x6.8cm"]),
    (CASED + "Sight size 2 1/8 x 2 5/8 in.", ["opening 2 1/8x2 5/8in"]),
    (CASED + "Opening: 2 1/8 x 2 5/8 in.", ["opening 2 1/8x2 5/8in"]),
    (CASED + "Visible image: 2 1/8 x 2 5/8 in.", ["opening 2 1/8x2 5/8in"]),
    (CASED + "Plate: 2 3/4 x 3 1/4 in.", ["plate 2 3/4x3 1/4in"]),
    (CASED + "Plate size: 7 x 8.3 cm; sight: 5.5 x 6.8 cm", ["plate 7x8.3cm", "opening 5.5x6.8cm"]),
    (CASED + "Case closed: 8.4 x 9.5 cm", ["case 8.4x9.5cm"]),
    (CASED + "Case (closed): 8.4 x 9.5 cm", ["case 8.4x9.5cm"]),
    (CASED + "Closed case measures 8.4 x 9.5 cm", ["case 8.4x9.5cm"]),
    (CASED + "Case: 8.4 cm x 9.5 cm x 2 cm", ["case 8.4x9.5x2cm"]),
    (CASED + "Image: 5.5 x 6.8 cm (2 3/16 x 2 11/16 in.)", ["opening 5.5x6.8cm",
                                                             "opening 2 3/16x2 11/16in"]),
    (CASED + "Outside of the case is 8.4 x 9.5 cm", ["case 8.4x9.5cm"]),
    (CASED + "Image area: 55 x 68 mm", ["opening 55x68mm"]),
    (CASED + "Package: 71 x 84 mm", ["package 71x84mm"]),
    (CARD + "Mount: 6.2 x 10.1 cm", ["mount 6.2x10.1cm"]),
    (CARD + "Card measures 2 1/2 x 4 in.", ["mount 2 1/2x4in"]),
    (CARD + "2 1/2 x 4 in.", ["mount 2 1/2x4in"]),
    (LOOSE + "Plate: 2 3/4 x 3 1/4 in.", ["plate 2 3/4x3 1/4in"]),
    (LOOSE + "Image: 2 3/4 x 3 1/4 in.", ["plate 2 3/4x3 1/4in"]),
    (SLIDE + "Size: 3 1/4 x 4 in.", ["plate 3 1/4x4in"]),
]  # fmt: skip


def same(claim: str, wanted: str) -> bool:
    what, size = claim.split(" ", 1)
    part, other = wanted.split(" ", 1)
    one, two = Measure.parse(size), Measure.parse(other.replace("x", " x "))
    return what == part and one.sides == two.sides


@every(("text", "wanted"), LABELS)
def test_each_label_takes_its_own_size(text: str, wanted: list[str]) -> None:
    found = said(text, "measured")
    assert len(found) == len(wanted), found
    assert all(map(same, found, wanted)), found


# A card's image, an open case and a modern mat are no measure of the piece.
NOT_THE_PIECE = [
    (CARD + "Image: 5.5 x 8.6 cm", {}),
    (CARD + "Image: 5.5 x 8.6 cm. Mount: 6.2 x 10.1 cm", {"mount": "6.2 x 10.1 cm"}),
    (CARD + "Image/Sheet: 5.5 x 8.6 cm  Mount: 6.2 x 10.1 cm", {"mount": "6.2 x 10.1 cm"}),
    (CARD + '8.6cm x 5.5cm (3 3/8 x 2 3/16"), Image', {}),
    (CARD + "Mount: 6.2 x 10.1 cm Mat: 35.6 x 45.7 cm", {"mount": "6.2 x 10.1 cm"}),
    (CASED + "Case open: 9.2 x 17 cm", {}),
    (CASED + "Case open 9.2 x 17 cm, image 5.5 x 6.8 cm", {"opening": "5.5 x 6.8 cm"}),
    (CASED + "Open: 9.2 x 17 cm. Closed: 9.2 x 8.2 cm", {"case": "9.2 x 8.2 cm"}),
    (CASED + "Case Open [with clasp extended]: 9.2 x 17.7 cm", {}),
]


@pytest.mark.parametrize(("text", "wanted"), NOT_THE_PIECE)
def test_what_is_no_measure_of_the_piece_is_none(text: str, wanted: dict[str, str]) -> None:
    got = listing(text).piece.measured
    assert {part: m.sides for part, m in got.items()} == {
        part: Measure.parse(size).sides for part, size in wanted.items()
    }


FORMS = [
    ("Plate: 2 3/4 in. x 3 1/4 in.", "2 3/4 x 3 1/4 in"),
    ('Plate: 2 3/4" x 3 1/4"', "2 3/4 x 3 1/4 in"),
    ("Plate: 2 3/4&quot; x 3 1/4&quot;", "2 3/4 x 3 1/4 in"),
    ("Plate: 2&frac34; x 3&frac14; inches", "2 3/4 x 3 1/4 in"),
    ("Plate: 2 &frac34; x 3 &frac14; in.", "2 3/4 x 3 1/4 in"),
    ("Plate: 70 &times; 83 mm", "70 x 83 mm"),
    ("Plate: 2-3/4 x 3-1/4 inches", "2 3/4 x 3 1/4 in"),
    ("Plate: 2.75 in by 3.25 in", "2 3/4 x 3 1/4 in"),
    ("The plate is 8.3cm high and 7cm wide", "7 x 8.3 cm"),
    ("Plate 8.3 cm high by 7 cm wide", "7 x 8.3 cm"),
    ("Plate: H 8.3 cm W 7 cm", "7 x 8.3 cm"),
    ("Plate: H. 8.3 cm, W. 7 cm", "7 x 8.3 cm"),
    ("Plate: H: 8.3 cm, W: 7 cm", "7 x 8.3 cm"),
    ("Plate: height 8.3 cm, width 7 cm", "7 x 8.3 cm"),
    ("Plate: 8.3 cm (h) x 7 cm (w)", "7 x 8.3 cm"),
    ("Plate: 8.3cm H x 7cm W", "7 x 8.3 cm"),
    ("Plate: 83mm tall, 70mm wide", "7 x 8.3 cm"),
    ("Plate 83mm x 70mm", "7 x 8.3 cm"),
    ("Plate 7,0 x 8,3 cm", "7 x 8.3 cm"),
]


@pytest.mark.parametrize(("words", "size"), FORMS)
def test_every_way_of_writing_a_size(words: str, size: str) -> None:
    text = f"{CASED}{words}"
    found = said(text, "measured")
    assert len(found) == 1, found
    part, _, measure = found[0].partition(" ")
    assert part == "plate"
    assert sorted(Measure.parse(measure).sides) == sorted(Measure.parse(size).sides)


def test_places_are_those_of_the_text_as_handed_in() -> None:
    text = (
        "A &quot;sixth plate&quot; ambrotype, 2&frac34; x 3&frac14; in, "
        "&pound;45 plus &pound;3 post."
    )
    for claim in listing(text, "GBP").claims:
        assert text[claim.start : claim.end] == claim.text
    found = listing(text, "GBP")
    assert found.text == text
    assert found.said("asking") == ("45.00 GBP",)
    assert found.said("postage") == ("3.00 GBP",)
    size = next(claim for claim in found.claims if claim.field == "measured")
    assert size.text == "2&frac34; x 3&frac14; in"


def test_places_of_flags_are_those_of_the_text_too() -> None:
    text = "&quot;Sixth plate&quot; ambrotype, cased &amp; never opened, hinge taped. &pound;45"
    for flag in listing(text).flags:
        if flag.start is not None:
            assert 0 <= flag.start < flag.end <= len(text)
            assert not text[flag.start : flag.end].startswith((";", "uot"))
    never = next(f for f in listing(text).flags if "never opened" in text[f.start : f.end])
    assert text[never.start : never.end].endswith("never opened")


def test_what_is_no_entity_stays_as_it_is() -> None:
    assert said("Sixth plate ambrotype, p&p 4 USD, 45 USD", "postage") == ("4.00 USD",)


@pytest.mark.parametrize(
    "text",
    [
        CASED + "Image: 5.5 x 6.8 cm Case: 8.4 x 9.5 cm",
        CARD + "Image: 5.5 x 8.6 cm Mount: 6.2 x 10.1 cm Mat: 35.6 x 45.7 cm",
        CASED + "Case open: 9.2 x 17 cm",
        CASED + "Sight: 2 1/8 x 2 5/8 in. Plate: 2 3/4 x 3 1/4 in.",
        "Cabinet card. Image: 9.8 x 14 cm",
    ],
)
def test_sizes_that_agree_raise_no_flag(text: str) -> None:
    assert "size-disagrees" not in flags(text)


@pytest.mark.parametrize(
    "text",
    [
        CASED + "Plate: 3 1/4 x 4 1/4 in.",
        CASED + "Plate: 8.4 x 9.5 cm",  # the size of its case
        "Quarter plate ambrotype in a case. Plate: 2 3/4 x 3 1/4 in.",
        "Carte de visite. Mount: 10.8 x 16.5 cm",
        CASED + "Case: 12 x 15 cm",
    ],
)
def test_a_plate_is_held_against_the_plate(text: str) -> None:
    assert "size-disagrees" in flags(text)


def test_a_size_by_name_of_which_no_format_is_known_is_none() -> None:
    found = listing("Two-thirds plate daguerreotype in a leather case.")
    assert found.said("format") == ()
    assert found.piece.named_format == ""
    assert found.pieces == 1
    assert listing("Two thirds plate ambrotype, cased.").said("format") == ()
    assert listing("2/3 plate ambrotype, cased.").said("format") == ()
