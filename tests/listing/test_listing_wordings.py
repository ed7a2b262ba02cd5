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
        ("Tintype, gem, $7 postpaid", "7.00 USD", "0.00 USD"),
        ("Ambrotype. $70, the postage is on me", "70.00 USD", "0.00 USD"),
        (
            "Daguerreotype. I want 210,00\nEuro, the sending costs 11,00\nEuro",
            "210.00 EUR",
            "11.00 EUR",
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
    assert said("Ambrotype, $65. The new frame cost me $25.", "asking") == ("65.00 USD",)


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
    assert found.said("kind") == ("lot",)
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


@pytest.mark.parametrize(
    "text",
    [
        "Sixth plate ambrotype, it never mirrors, whereas a daguerreotype always does.",
        "Sixth plate ambrotype. The other tintype on the table is listed separately.",
        "Sixth plate ambrotype. There are more things from him, a tintype of a soldier among them.",
        "Sixth plate ambrotype. I had long believed it a daguerreotype, before I knew better.",
        "Sixth plate ambrotype. A fellow at the fair told me it was a daguerreotype.",
        "Sixth plate ambrotype. The last piece I sold was a tintype of a sergeant.",
        "Sixth plate ambrotype. I kept another, a tintype of a corporal.",
        "Sixth plate ambrotype. If you collect tintypes of soldiers you will know him.",
        "Sixth plate ambrotype. A tintype of his brother stays with us.",
        "Sixth plate ambrotype. The saleroom had it down as a tintype.",
        "Sixth plate ambrotype. It hung beside a daguerreotype for years.",
        "Sixth plate ambrotype. At the same fair there was a tintype of a cadet.",
        "Sixth plate ambrotype. My uncle, who was a sergeant, found it.",
    ],
)
def test_what_is_told_of_other_pieces_is_no_claim(text: str) -> None:
    assert said(text, "process") == ("ambrotype",)
    raised = flags(text)
    assert "claims-disagree" not in raised
    assert "military-claim" not in raised


def test_the_own_conclusion_after_hearsay_is_a_claim() -> None:
    text = "A dealer said it was a daguerreotype, but it never mirrors, so an ambrotype it must be."
    assert said(text, "process") == ("ambrotype",)


def test_a_price_of_something_else_is_not_asked() -> None:
    text = "Sixth plate ambrotype. I sold another in May, it made $140. This one is $38."
    assert said(text, "asking") == ("38.00 USD",)


def test_years_of_other_things_are_no_dates() -> None:
    text = "Cabinet card of 1888. Bustles came in about 1870, then they went."
    assert said(text, "date") == ("1888",)
    wedded = (
        "Cabinet card from the 1880s, albumen print; the two of them were married in\n1879. Clean."
    )
    assert said(wedded, "date") == ("188X",)
    assert said("Tintype taken during the Civil War", "date") == ("[1861..1865]",)


@pytest.mark.parametrize(
    ("text", "flag"),
    [
        ("Union case; gutta percha is the wrong word for it.", "misnamed-material"),
        ("Ambrotype with a loose mat. I never opened it.", "untouched-words"),
        ("Tintype. The previous one I had was identified as a colonel.", "identity-claim"),
    ],
)
def test_words_that_look_like_a_warning_and_are_none(text: str, flag: str) -> None:
    assert flag not in flags(text)


@pytest.mark.parametrize(
    ("text", "flag"),
    [
        ("Ambrotype. The frame isn't the one it came in.", "swapped-words"),
        ("Daguerreotype. He dipped the image years ago.", "cleaned-words"),
        ("Ambrotype. The story is that she was the miller's bride.", "identity-claim"),
    ],
)
def test_warnings_in_plain_words(text: str, flag: str) -> None:
    assert flag in flags(text)


@pytest.mark.parametrize(
    ("text", "post"),
    [
        ("Tintype, $20. I'll pay the carriage.", "0.00 USD"),
        ("Tintype, $20, sending included", "0.00 USD"),
        ("Tintype. Mine for years, yours for $40, plus $7.", "7.00 USD"),
        ("Tintype, $40. Posting it costs $6.", "6.00 USD"),
        ("Tintype, $40. Stamps are $3.", "3.00 USD"),
        ("Ambrotype, 55 \u20ac, costs of sending 8 \u20ac", "8.00 EUR"),
    ],
)
def test_carriage_in_plain_words(text: str, post: str) -> None:
    assert said(text, "postage") == (post,)


@pytest.mark.parametrize(
    ("text", "size"),
    [
        ("Loose tintype, two and a half by three and a half inches", "plate 2 1/2 x 3 1/2 in"),
        ("Loose tintype, 2 and three quarters by 3 and a quarter inches", "plate 2 3/4 x 3 1/4 in"),
        ("Ambrotype, the case is 12 cm by 9 cm, or so, and 2 cm thick", "case 12 x 9 x 2 cm"),
    ],
)
def test_sizes_in_words(text: str, size: str) -> None:
    found = said(text, "measured")
    assert len(found) == 1
    assert same("measured", found[0], size)


def test_words_without_a_unit_are_no_size() -> None:
    assert said("Loose tintype, shown two by two on the page", "measured") == ()


@pytest.mark.parametrize(
    ("text", "defects"),
    [
        ("Ambrotype in a case. Grime on the inside of the cover glass.", {"glass.inside 1"}),
        ("Lantern slide, the tints have not faded.", {"slide.colour 0"}),
        ("Lantern slide, the binding is coming away. I won't split the set.", {"slide.tape 1"}),
        ("Ambrotype in a leather case, velvet worn through in places.", {"pad.worn 1"}),
        ("Ambrotype in a leather case, the spine has been relaid.", {"hinge.reback 2"}),
        ("Ambrotype in a leather case, its dust rubs off on the hands.", {"case.redrot 1"}),
        ("Ambrotype. Somebody stuck the image down with brown tape.", {"seal.bad-tape 1"}),
        ("Ambrotype in a case. The old glass was broken.", {"glass.replaced 1"}),
        ("Tintype. One corner of the image was trimmed, which the mat covers.", {"plate.corner 1"}),
        ("Tintype. The paint at the top shows some blistering.", {"plate.blister 1"}),
        ("Ambrotype. The dark paint came off.", {"backing.loss 1"}),
        ("Albumen cabinet card. The shadows have turned silvery.", {"print.mirror 1"}),
        ("Opalotype, the tints have faded.", {"plate.colour 2"}),
        ("Daguerreotype, sixth plate. It came out of a drawer. Front has tarnish specks.",
         {"plate.spots 1"}),
    ],
)  # fmt: skip
def test_damage_in_plain_words(text: str, defects: set[str]) -> None:
    assert set(said(text, "defect")) == defects


def test_pieces_for_one_price_and_things_in_pieces() -> None:
    both = listing("Three for the price of one: a carte de visite, a cabinet card and a tintype.")
    assert both.pieces == 3
    assert listing("Tintype of a lady. The frame came in three pieces.").pieces == 1


def test_what_a_piece_lies_in() -> None:
    assert said("Ninth plate ambrotype, case absent.", "kind") == ("loose-plate",)
    assert said("Ambrotype. A sheet of paper in the case says it all.", "case.material") == ()
    assert said("Ambrotype in a case moulded from resin", "case.material") == ("resin",)
    assert said("Ambrotype, cased; I had a morocco one to spare", "case.material") == (
        "leather-wood",
    )


def test_marks_and_writing_in_plain_words() -> None:
    assert said('Cabinet card. Scrawled below: "Poor Hettie"', "inscription") == ("Poor Hettie",)
    told = "Cabinet card. The backmark reads Orme & Tull, Quay Street. A small stain."
    assert said(told, "mark") == ("Orme & Tull, Quay Street",)
    assert said(told, "inscription") == ()


@pytest.mark.parametrize(
    ("text", "subject"),
    [
        ("Ambrotype of a lady in a low chair with, I would guess, a girl at her side.", "group"),
        ("Carte de visite of a shearer.", "occupational"),
        ("Cabinet card of a bride. The photographer in those days charged much.", "single"),
        ("Lantern slide of a market square.", "outdoor"),
    ],
)
def test_who_is_shown(text: str, subject: str) -> None:
    assert said(text, "subject") == (subject,)


def test_towns_tell_the_region() -> None:
    assert said("Ambrotype. Origin Prague.", "region") == ("eu",)
    assert said("Carte de visite, made in Amsterdam.", "region") == ("eu",)
    assert said("Ambrotype, quarter of plate", "format") == ("quarter",)
