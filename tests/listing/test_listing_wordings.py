"""Rules of wording: sums in words, sizes over line ends, kinds in general, lots, places of damage.

The sentences are invented, and none stands in the labelled listings.
"""

import pytest
from listing.listingkit import flags, listing, said
from listing.scoring import same

from appraise.listing.spoken import count_of


@pytest.mark.parametrize(
    ("words", "count"),
    [
        ("one", 1),
        ("nineteen", 19),
        ("forty-two", 42),
        ("a hundred", 100),
        ("two hundred and five", 205),
        ("three thousand one hundred and sixty", 3160),
    ],
)
def test_numbers_in_words_are_counted(words: str, count: int) -> None:
    assert count_of(words) == count


@pytest.mark.parametrize(
    ("text", "asking", "postage"),
    [
        ("Tintype, forty-two dollars, postage six dollars", "42.00 USD", "6.00 USD"),
        ("Cabinet card. Eighteen pounds. Post is three pounds twenty.", "18.00 GBP", "3.20 GBP"),
        ("Small tintype, a fiver, 80p postage", "5.00 GBP", "0.80 GBP"),
        ("Carte de visite, euro 14, shipping euro 3", "14.00 EUR", "3.00 EUR"),
        ("Ambrotype, the price is Fr. 95.- and porto Fr. 8.50", "95.00 CHF", "8.50 CHF"),
        ("Tintype, gem, $9 postpaid", "9.00 USD", "0.00 USD"),
        ("Ambrotype. $70, the postage is on me", "70.00 USD", "0.00 USD"),
        (
            "Daguerreotype. I want 210,00\nEuro, the sending costs 9,00\nEuro",
            "210.00 EUR",
            "9.00 EUR",
        ),
    ],
)
def test_sums_in_every_way_of_writing(text: str, asking: str, postage: str) -> None:
    assert said(text, "asking") == (asking,)
    assert said(text, "postage") == (postage,)


@pytest.mark.parametrize(
    "text",
    [
        "Tintype, $30, no postage, collection only",
        "Tintype, $30 + calculated shipping",
        "Tintype, $30, will be shipped in a stiff card",
    ],
)
def test_words_of_carriage_without_a_sum_take_none(text: str) -> None:
    assert said(text, "asking") == ("30.00 USD",)
    assert said(text, "postage") == ()


def test_what_something_cost_somebody_is_no_price() -> None:
    assert said("Ambrotype, $60. The new frame cost me $25.", "asking") == ("60.00 USD",)


@pytest.mark.parametrize(
    ("text", "size"),
    [
        ("Cabinet card, 4 1/4 x\n6 1/2 inches", "mount 4 1/4 x 6 1/2 in"),
        ("Cabinet card, 10.8 by\n16.5 cm", "mount 10.8 x 16.5 cm"),
        ("Loose tintype, 2 and a half by 3", ""),
        ("Loose tintype, 2 and 1/2 by 3 and a 1/2 inches", "plate 2 1/2 x 3 1/2 in"),
        ("Loose tintype, cm 6,5 x 9", "plate 6.5 x 9 cm"),
        ("Lantern slide, 8.2 cm square", "plate 8.2 x 8.2 cm"),
        ("Union case 95 mm wide by 82 mm tall and 20 mm thick", "case 95 x 82 x 20 mm"),
        ("Cyanotype of a fern, the mount measures 8 x 10 in", "mount 8 x 10 in"),
        ("Cyanotype of a fern, on card, 8 x 10 in", "plate 8 x 10 in"),
    ],
)
def test_sizes_in_every_way_of_writing(text: str, size: str) -> None:
    found = said(text, "measured")
    if not size:
        assert found == ()
        return
    what, _, lengths = size.partition(" ")

    assert len(found) == 1
    assert same("measured", found[0], f"{what} {lengths}")


@pytest.mark.parametrize(
    "text",
    [
        "Sixth plate ambrotype. A daguerreotype is on silvered copper and mirrors you.",
        "Sixth plate ambrotype. A tintype was cheaper to make; an ambrotype needs a case.",
        "Sixth plate ambrotype. It would rust if it were a tintype.",
        "It shines like a daguerreotype, but this is an ambrotype. Sixth plate.",
        "It looks like a tintype at first, but it is on glass: an ambrotype, sixth plate.",
        "Sixth plate ambrotype. My ninth plate tintypes are listed as well.",
        "Sixth plate ambrotype. For comparison, a tintype beside it.",
    ],
)
def test_other_processes_named_in_passing_are_no_claims(text: str) -> None:
    assert said(text, "process") == ("ambrotype",)
    assert "claims-disagree" not in flags(text)


def test_a_kind_told_as_the_piece_for_sale_is_a_claim() -> None:
    assert said("A tintype is offered here, sixth plate.", "process") == ("tintype",)
    assert said("Looks like a tintype to me.", "process") == ("tintype",)


def test_an_empty_case_makes_no_claim_of_a_process() -> None:
    text = "Leather case for a sixth plate daguerreotype, empty."
    assert said(text, "process") == ()
    assert said(text, "format") == ("sixth",)


def test_a_dash_and_a_new_denial_end_a_denial() -> None:
    assert said("Not a tintype - ambrotype, sixth plate", "process") == ("ambrotype",)
    assert said("Gem tintype of a boy, no sleeve and no case", "kind") == ("loose-plate",)


@pytest.mark.parametrize(
    ("text", "defects"),
    [
        ("Ambrotype in a union case, a crack near the hinge.", {"case.crack"}),
        ("Ambrotype in a leather case. The pad opposite the image is worn.", {"pad.worn"}),
        ("Lantern slide, one coloured, the colours rather faded.", {"slide.colour"}),
        ("Daguerreotype, sixth plate, a ring of tarnish along the opening.", {"plate.halo"}),
        ("Tintype, the japanning shows blisters.", {"plate.blister"}),
        (
            "Ambrotype, sixth plate, the package was closed with clear packing tape.",
            {"seal.bad-tape"},
        ),
        ("Cabinet card with a yellowish cast.", {"print.yellow"}),
        ("Ambrotype in a leather case which leaves red dust.", {"case.redrot"}),
        ("Albumen carte de visite. The sitter wears a bonnet.", set()),
        ("Tintype of a lady, kept in a box of buttons.", set()),
        ("Cabinet card, coffee stained by hand by me.", set()),
        ("Daguerreotype, sixth plate. I would not lift the plate out.", set()),
    ],
)
def test_damage_and_what_is_none(text: str, defects: set[str]) -> None:
    assert {value.split()[0] for value in said(text, "defect")} == defects


def test_in_a_lot_damage_is_of_the_process_named_before_it() -> None:
    text = "Two lantern slides and a cyanotype. The cyanotype shows a mill, it has a water stain."
    assert "print.water" in {value.split()[0] for value in said(text, "defect")}


def test_a_lot_by_headings() -> None:
    text = (
        "Three things from one attic, sold together.\n\n"
        "Item one. A tintype, sixth plate, of two boys. No case. Bent at a corner.\n\n"
        "Item two. An ambrotype, ninth plate, of three ladies, in a leather case. The hinge is\n"
        "split and the cover glass is cracked.\n\n"
        "Item three. A daguerreotype, sixth plate, of a father with his sons, in a union case\n"
        "with a chip at the rim.\n\n"
        "I ask $300 for all, postage $12."
    )
    found = listing(text)
    assert found.pieces == 3
    assert [part.found("claim.process") for part in found.parts] == [
        "tintype",
        "ambrotype",
        "daguerreotype",
    ]
    assert found.said("subject") == ("group",)
    assert found.said("kind") == ()
    assert {value.split()[0] for value in found.said("defect")} == {
        "plate.bend",
        "hinge.split",
        "glass.crack",
        "case.chip",
    }


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("Job lot of 6, all tintypes, $40", 6),
        ("Two empty cases, one of leather, one of paper over wood, for ninth plates", 2),
        ("A pair of tintypes and one ambrotype", 3),
    ],
)
def test_pieces_are_counted(text: str, count: int) -> None:
    assert listing(text).pieces == count


def test_a_patent_or_a_studio_is_a_mark_wherever_it_is_read() -> None:
    patent = 'Union case. A slip inside reads "Patented 7 May, 1857".'
    assert said(patent, "mark") == ("Patented 7 May, 1857",)
    assert said(patent, "inscription") == ()
    studio = 'Cabinet card. On the back is printed "Atelier Brandl, Neugasse".'
    assert said(studio, "mark") == ("Atelier Brandl, Neugasse",)
    name = 'Cabinet card. On the back somebody has written "Tante Emma".'
    assert said(name, "inscription") == ("Tante Emma",)


@pytest.mark.parametrize(
    ("text", "region"),
    [
        ("Sixth plate ambrotype. It is English.", ("gb",)),
        ("Sixth plate ambrotype. This is a French piece.", ("eu",)),
        ("Cabinet card. It comes from Austria.", ("eu",)),
        ("Old tintype, made in the USA.", ("us",)),
        ("Tintype. American buyers please ask for postage.", ()),
    ],
)
def test_where_it_comes_from(text: str, region: tuple[str, ...]) -> None:
    assert said(text, "region") == region


def test_not_having_opened_it_is_no_praise() -> None:
    assert "untouched-words" in flags("Ambrotype, never opened.")
    assert "untouched-words" not in flags("Ambrotype. I have not opened it.")


def test_nobody_and_do_not_let_anybody_deny() -> None:
    assert "tape-words" not in flags("Ambrotype. Nobody has put tape on the hinge.")
    told = "Ambrotype. Do not let anyone tell you that this is a modern reproduction."
    assert "reproduction-words" not in flags(told)


def test_a_long_text_stays_about_photographs() -> None:
    text = "Sixth plate ambrotype of a lady with a ring. " * 50
    assert listing(text).pieces >= 1
    assert listing(text).said("process") == ("ambrotype",)
