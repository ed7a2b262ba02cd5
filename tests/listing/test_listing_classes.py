"""Classes of wording: towns in marks, half cases, carriage in the price, people beside a picture.

The sentences are invented, and none stands in the labelled listings.
"""

import pytest
from listing.listingkit import flags, listing, said


@pytest.mark.parametrize(
    ("text", "region"),
    [
        ('Cabinet card of a boy, back printed "Jas. Orrin Pell, Mill Lane, Skipton".', "gb"),
        ('Kabinettfoto, Herr, Prägestempel "Otto Lindner, Chemnitz". 5 Euro', "eu"),
        ("cdv of a lady, says Hoyt Bros. Zanesville Ohio on the front. 4 bucks", "us"),
        ('Carte de visite, jeune femme, au dos imprimé "Marchal, Épinal". 4 €', "eu"),
        ("Album with cartes de visite, nearly all from studios in Mantova", "eu"),
        ("Sixth plate ambrotype, a couple, Ohio, 1860s by the sleeves", "us"),
        ("Bendigo carte de visite of a digger with his pan", "au"),
        ('Cabinet card of a prize bull, "Crofts, Skipton" on the mount', "gb"),
    ],
)
def test_a_town_in_a_mark_tells_the_region(text: str, region: str) -> None:
    assert said(text, "region") == (region,)


@pytest.mark.parametrize(
    "text",
    [
        "Sixth plate ambrotype of a lady. I live in Hull and post on Fridays.",
        'Carte de visite of a man, back printed "York Street Rooms"',
        'Tintype of a boy. In pencil on the back "Uncle Ned, Ohio, 1871"',
    ],
)
def test_a_town_that_is_no_makers_tells_nothing(text: str) -> None:
    assert said(text, "region") == ()


def test_a_firm_printed_on_a_card_is_a_mark() -> None:
    text = "cabinet card of twins, says Hoyt Bros. Zanesville Ohio at the foot"
    assert said(text, "mark") == ("Hoyt Bros. Zanesville Ohio",)
    assert said(text, "inscription") == ()


def test_a_part_behind_a_comma_begins_something_new() -> None:
    text = "Ambrotype, sixth plate, boy, leather case, mat flecked with green, hook gone"
    assert said(text, "case.material") == ("leather-wood",)
    assert {"mat.green"} == {value.split()[0] for value in said(text, "defect")} - {"clasp.missing"}


@pytest.mark.parametrize(
    "text",
    [
        "Ninth plate ambrotype of a man, in half of a leather case",
        "Sixth plate tintype, a sergeant. Only the lower half of the leather case, lid long gone.",
    ],
)
def test_half_a_case_is_a_cased_picture(text: str) -> None:
    assert said(text, "kind") == ("cased",)
    assert any(value.startswith("hinge.detached") for value in said(text, "defect"))
    assert "no-photograph" not in flags(text)


@pytest.mark.parametrize(
    ("text", "asking", "postage"),
    [
        ("Four tintypes, $28 posted for the lot", "28.00 USD", "0.00 USD"),
        ("Ambrotype, $140. We include postage.", "140.00 USD", "0.00 USD"),
        ("CDV, £6 with post to anywhere in Wales included", "6.00 GBP", "0.00 GBP"),
        ("CDV, £5 and a pound or so, call it £1.40, for stamps", "5.00 GBP", "1.40 GBP"),
        ("CDV $9. Three or more pieces and I pay the mail, otherwise it is $3.50", "9.00 USD",
         "3.50 USD"),
        ("Tintype, was in a box lot. 22.00 plus 5.00 shipping", "22.00 USD", "5.00 USD"),
        ("Tintype. Marked $40 at the fair, my price here is $30. Post $4", "30.00 USD", "4.00 USD"),
        ("Selling two: tintype of a girl and ambrotype of a man. 90 the pair plus 8 post",
         "90.00 USD", "8.00 USD"),
    ],
)  # fmt: skip
def test_carriage_and_price_in_more_words(text: str, asking: str, postage: str) -> None:
    assert said(text, "asking") == (asking,)
    assert said(text, "postage") == (postage,)


@pytest.mark.parametrize(
    ("text", "subject"),
    [
        ("Ambrotype, une mère avec sa fille", "group"),
        ("Ambrotypie, Mutter mit ihrer Tochter, sechstel Platte", "group"),
        ("Tintype of a boy with a puppy in his arms", "child"),
        ("Tintype of a baby, seated on its mother's lap", "group"),
        ("Ambrotype of a champion ram. The case was mended by a bookbinder.", "animal"),
        ("Sixth plate tintype of three soldiers", "soldier"),
        ("Kabinettfoto, Hochzeitspaar", "couple"),
        ("Lichtbild auf Glas, Ambrotypie, Landschaft mit Mühle", "outdoor"),
    ],
)
def test_who_is_shown(text: str, subject: str) -> None:
    assert said(text, "subject") == (subject,)


def test_a_trade_that_mended_the_piece_raises_no_flag() -> None:
    assert "occupational-claim" not in flags(
        "Ambrotype of a dog. The hinge was relaid by a saddler."
    )


@pytest.mark.parametrize(
    ("text", "flag"),
    [
        ("Daguerreotype, sixth plate. No trace of cleaning.", "cleaned-words"),
        ("Loose brass mat, ninth plate, for a restoration drawer", "cleaned-words"),
        ("Opalotype of a girl, framed. Two of the mitres have opened.", "opened-words"),
        ("Sixth plate ambrotype, leather case in two pieces", "swapped-words"),
        ("Old album of cartes, put together by a farming family", "swapped-words"),
        ("Scan of an old photo of a goat, a digital file, nothing is mailed", "copy-words"),
        ("Carte de visite of a small child asleep on a sofa", "no-photograph"),
        ("Lantern slide, steam engine at a station", "no-photograph"),
    ],
)
def test_words_that_only_look_like_a_warning(text: str, flag: str) -> None:
    assert flag not in flags(text)


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("Clearing up:\n* 1 ninth plate tintype, boy\n* 1 CDV, a nun\n* 1 stereo card, a mill\n"
         "$30 for the three", 3),
        ("Two CDVs and a cabinet card, all of one woman. £9 the three", 3),
        ("Album di famiglia con 24 carte de visite", 1),
        ("Half plate tintype, 4 men playing cards", 1),
    ],
)  # fmt: skip
def test_how_many_pieces(text: str, count: int) -> None:
    assert listing(text).pieces == count


@pytest.mark.parametrize(
    ("text", "check"),
    [
        ("Union case, sixth plate ambrotype, lid gone chalky", "case.dull"),
        ("Cased ambrotype, glass clear but there is lint under it", "glass.inside"),
        ("Daguerreotype, sixth plate, an oxidation ring along the opening", "plate.halo"),
        ("Cased ambrotype. The black paper behind the plate is modern.", "backing.renewed"),
        ("Cased ambrotype. The hinge on the case is shot.", "hinge.detached"),
        ("Bare daguerreotype, sixth plate, all four corners clipped", "plate.dag-trim"),
    ],
)
def test_damage_in_more_words(text: str, check: str) -> None:
    assert check in {value.split()[0] for value in said(text, "defect")}


@pytest.mark.parametrize(
    ("text", "told", "silent"),
    [
        ("Cased ambrotype. I washed the glass and it is clear now.", "", "glass.dirt"),
        (
            "Cased ambrotype, hinge split through so the lid is loose",
            "hinge.detached",
            "hinge.split",
        ),
        (
            "Cased ambrotype. I put it back together with masking tape.",
            "seal.bad-tape",
            "hinge.tape",
        ),
        ("Tintype in a paper sleeve, rusty at the foot", "plate.rust", "case.sleeve-stain"),
        ("Framed opalotype, a bit of plaster at the corner is gone", "", "hinge.tape"),
    ],
)
def test_damage_is_told_of_the_right_thing_in_its_gravest_form(
    text: str, told: str, silent: str
) -> None:
    found = {value.split()[0] for value in said(text, "defect")}
    assert silent not in found
    assert not told or told in found
