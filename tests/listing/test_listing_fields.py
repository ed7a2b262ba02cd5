"""Sizes, amounts, dates, writing and lots, one by one."""

import pytest
from every import every
from listing.listingkit import flags, listing, said

from appraise.base.measures import Measure

PLATES = {
    "whole": ["whole plate", "full plate", "1/1 plate", "Whole-Plate", "wholeplate"],
    "half": ["half plate", "half-plate", "1/2 plate", "½ plate"],
    "quarter": ["quarter plate", "1/4 plate", "¼ plate", "1/4th plate", "qtr plate"],
    "sixth": ["sixth plate", "1/6 plate", "⅙ plate", "1/6th plate", "6th plate", "sixth size"],
    "ninth": ["ninth plate", "1/9 plate", "⅑ plate", "1/9th-plate", "9th plate"],
    "sixteenth": ["sixteenth plate", "1/16 plate", "16th plate"],
    "carte-de-visite": ["CDV", "carte de visite", "carte-de-viste", "cart de visite"],
    "cabinet": ["cabinet card", "cabinet photo"],
    "stereo": ["stereoview", "stereo card", "stereograph"],
}


@every(("words", "name"), [(words, name) for name, forms in PLATES.items() for words in forms])
def test_formats_in_every_form(words: str, name: str) -> None:
    """Trade names as in Ambrotypes and Tintypes, and Daguerreotypes, Library of Congress."""
    assert said(f"An old portrait photograph, {words}, of a man.", "format") == (name,)


@pytest.mark.parametrize(
    ("written", "size"),
    [
        ("2 3/4 x 3 1/4 in", "2 3/4 x 3 1/4 in"),
        ("2¾ × 3¼ inches", "2 3/4 x 3 1/4 in"),
        ('2.75" by 3.25"', "2.75 x 3.25 in"),
        ("7 x 8,3 cm", "7 x 8.3 cm"),
        ("70mm x 83mm", "70 x 83 mm"),
        ("70 X 83 mm", "70 x 83 mm"),
        ("2-3/4 x 3-1/4 inches", "2 3/4 x 3 1/4 in"),
        ("2.75 x 3.25", "2.75 x 3.25 in"),
    ],
)
def test_sizes_in_every_form(written: str, size: str) -> None:
    found = said(f"Sixth plate ambrotype, the plate measures {written}.", "measured")
    what, measure = found[0].split(" ", 1)
    assert what == "plate"
    assert Measure.parse(measure).lengths == Measure.parse(size).lengths


# Catalogue records and trade sizes: see the sources of `formats` and `offsets`.
FITS = [
    ("Cased sixth plate ambrotype, 70 x 83 mm", "plate", "nominal, Library of Congress"),
    ("Cased sixth plate ambrotype, 57 x 70 mm", "opening", "visible image of a sixth plate"),
    ("Cased quarter plate ambrotype, 71 x 92 mm", "opening", "visible image of a quarter plate"),
    ("Cased sixth plate ambrotype, 83 x 96 mm", "case", "closed leather cases of sixth plates"),
    ("Cased ambrotype, 95 x 82 x 20 mm", "case", "three lengths: a closed case"),
    ("CDV portrait, 63 x 102 mm", "mount", "carte-de-visite mounts"),
    ("Magic lantern slide, 82 x 82 mm", "plate", "square lantern slides"),
]


@pytest.mark.parametrize(("text", "what", "source"), FITS)
def test_without_words_a_size_is_of_what_it_fits(text: str, what: str, source: str) -> None:
    assert said(text, "measured")[0].split()[0] == what, source


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("ambrotype, the case measures 3 x 3.5 in", "case"),
        ("ambrotype, 75 x 83 mm closed", "case"),
        ("ambrotype, mat opening 57 x 70 mm", "opening"),
        ("ambrotype, the visible image is 57 x 70 mm", "opening"),
        ("cased ambrotype, plate size 57 x 70 mm", "plate"),
    ],
)
def test_words_beside_a_size_say_what_was_measured(text: str, what: str) -> None:
    assert said(text, "measured")[0].split()[0] == what


def test_a_size_that_fits_its_name_as_opening_is_no_contradiction() -> None:
    """A sixth plate's opening is nearer to a ninth plate than to its own."""
    assert "size-disagrees" not in flags("Cased sixth plate ambrotype, 57 x 70 mm, leather case")
    assert "size-disagrees" in flags("Cased quarter plate ambrotype, 51 x 64 mm, leather case")
    assert "size-disagrees" in flags("Cased ninth plate ambrotype, 4 x 5 inches, leather case")


@pytest.mark.parametrize(
    ("text", "currency", "asking", "postage"),
    [
        ("$45 plus $6 shipping", "USD", "45.00 USD", "6.00 USD"),
        ("£1,250.50, postage £8", "GBP", "1250.50 GBP", "8.00 GBP"),
        ("Preis 1.250,00 EUR, shipping 12,50 EUR", "EUR", "1250.00 EUR", "12.50 EUR"),
        ("CHF 85.- / shipping CHF 11.-", "CHF", "85.00 CHF", "11.00 CHF"),
        ("70,- Euro", "EUR", "70.00 EUR", ""),
        ("$45", "CAD", "45.00 CAD", ""),
        ("US$45", "CAD", "45.00 USD", ""),
        ("1 800 kr, freight 70 kr", "NOK", "1800.00 NOK", "70.00 NOK"),
        ("asking 45", "GBP", "45.00 GBP", ""),
        ("45 obo", "USD", "45.00 USD", ""),
        ("Buy it now 89.99, opening bid 49.99", "USD", "89.99 USD", ""),
        ("opening bid 49.99", "USD", "49.99 USD", ""),
        ("worth $400, my price $225", "USD", "225.00 USD", ""),
        ("was $75, now only $55", "USD", "55.00 USD", ""),
        ("£55 (about $70)", "GBP", "55.00 GBP", ""),
        ("$90, free shipping", "USD", "90.00 USD", "0.00 USD"),
        ("Postage UK £4, Europe £8, USA £14. Price £55", "GBP", "55.00 GBP", "4.00 GBP"),
        ("¥45000", "JPY", "45000 JPY", ""),
    ],
)
def test_prices_and_postage_are_told_apart(
    text: str, currency: str, asking: str, postage: str
) -> None:
    found = listing(f"Sixth plate ambrotype, lady. {text}.", currency)
    assert found.said("asking") == ((asking,) if asking else ())
    assert found.said("postage") == ((postage,) if postage else ())


@pytest.mark.parametrize(
    ("words", "edtf"),
    [
        ("c. 1855", "1855~"),
        ("circa 1850s", "185X~"),
        ("1850's", "185X"),
        ("early 1860s", "[1860..1864]"),
        ("late 1850s", "[1855..1859]"),
        ("between 1845 and 1855", "[1845..1855]"),
        ("1850-1855", "[1850..1855]"),
        ("1850-55", "[1850..1855]"),
        ("1850s-60s", "[1850..1869]"),
        ("before 1865", "[..1864]"),
        ("dated June 1859", "1859-06"),
        ("dated April 19, 1862", "1862-04-19"),
        ("23rd of July 1851", "1851-07-23"),
        ("Civil War era", "[1861..1865]"),
        ("in 1857", "1857"),
    ],
)
def test_dates_in_every_form(words: str, edtf: str) -> None:
    assert said(f"Sixth plate ambrotype of a lady, {words}.", "date") == (edtf,)


@pytest.mark.parametrize(
    "text",
    [
        "Patented in 1854.",
        "Pat. Oct. 3 1854.",
        "The sitter was born in 1831.",
        "In business since 1958.",
        "Ambrotypes were popular from 1855 to 1865.",
        "Lot no. 1855-B of the sale",
        "Price $1855",
        "A Victorian, 19th century, antique piece.",
    ],
)
def test_other_years_are_no_date_of_the_piece(text: str) -> None:
    assert said(f"Sixth plate ambrotype of a lady. {text}", "date") == ()


@pytest.mark.parametrize(
    ("text", "field", "words"),
    [
        ('A note reads "Ellen, June 1859".', "inscription", "Ellen, June 1859"),
        ("Inscribed “Aunt Clara” on the mat.", "inscription", "Aunt Clara"),
        ('Back stamp "Marlow & Fenn, Bridge Street".', "mark", "Marlow & Fenn, Bridge Street"),
        ("Maker's label of S. Peck & Co inside.", "mark", "S. Peck & Co"),
        ('Plate hallmark "Scovills".', "mark", "Scovills"),
    ],
)
def test_writing_and_marks(text: str, field: str, words: str) -> None:
    assert said(f"Sixth plate ambrotype. {text}", field) == (words,)


def test_inches_open_no_quotation() -> None:
    text = 'Sixth plate ambrotype 2 3/4" by 3 1/4" stamped on the "case".'
    assert said(text, "measured")[0].startswith("plate")


@pytest.mark.parametrize(
    ("text", "pieces"),
    [
        ("Sixth plate ambrotype", 1),
        ("Two tintypes", 2),
        ("A pair of ninth plate ambrotypes", 2),
        ("Lot of 12 CDVs", 12),
        ("A dozen gem tintypes", 12),
        ("2 ambrotypes, 1 daguerreotype and 2 cartes de visite", 5),
        ("One of about forty ambrotypes that I shall list", 1),
        ("1) Sixth plate ambrotype\n2) Ninth plate tintype\n3) CDV", 3),
        ("- Sixth plate ambrotype, man\n- Ninth plate tintype, boy", 2),
        ("Sixth plate ambrotype of two men with 3 books", 1),
    ],
)
def test_pieces_are_counted(text: str, pieces: int) -> None:
    assert listing(text).pieces == pieces


def test_a_listed_lot_is_split() -> None:
    found = listing(
        "Lot:\n1) Sixth plate daguerreotype, leather case, hinge split\n"
        "2) Ninth plate tintype, union case, hinge broken\n$90 both"
    )
    one, two = found.parts
    assert (one.named_format, one.found("claim.process")) == ("sixth", "daguerreotype")
    assert (two.named_format, two.found("claim.process")) == ("ninth", "tintype")
    assert one.found("hinge.split") == "1"
    assert two.found("hinge.torn") == "2"
    assert "claims-disagree" not in {flag.id for flag in found.flags}
