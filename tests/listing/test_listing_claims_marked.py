"""What only a seller says stays the seller's, and no degree or frame is added. Invented texts."""

from every import every
from listing.listingkit import flags, knowledge, listing, said

from appraise.documents.claimed import claim_words
from appraise.documents.words import written
from appraise.listing.first_look import understand
from appraise.records.piece import BY_SELLER

HEAD = "Sixth plate ambrotype of a young man in a leather case. "


@every(
    "text",
    [
        "Sixth plate daguerreotype, signed by Amos Tarrant, of an officer.",
        HEAD + "The plate bears the signature of A. Colby.",
        HEAD + "Attributed to Colby & Marsh of Hull.",
        "Quarter plate tintype ascribed to the Fairholt studio.",
    ],
)
def test_a_claimed_signature_is_flagged_with_a_question(text):
    flag = next(one for one in listing(text).flags if one.id == "attribution-claim")
    assert "photo of the signature" in flag.question


@every(
    "text",
    [
        HEAD + "Signed for delivery, 8 pounds.",
        HEAD + "It is not signed.",
        "CDV of a lady, backmark of J. Marsh, Hull.",
        HEAD + "Sent by post, signed by recipient.",
    ],
)
def test_what_is_no_attribution_raises_none(text):
    assert "attribution-claim" not in flags(text)


@every(
    "text",
    [
        "Sixth plate daguerreotype, photographed by Amos Tarrant.",
        "CDV of a lady, backmark of J. Marsh, Hull.",
    ],
)
def test_a_maker_whom_a_seller_names_is_marked_and_not_known(text):
    piece = listing(text).piece
    assert piece.maker.endswith(BY_SELLER)
    assert piece.maker_known == ""


def test_a_quoted_inscription_is_marked_behind_the_marks():
    piece = listing(HEAD + 'A slip behind the plate reads "Ann Carrow, Whitby".').piece
    assert written(piece)[0] == '"Ann Carrow, Whitby" (seller says)'


@every(
    "text, name",
    [
        (HEAD + "Some tarnish halo, £40.".replace("Some", "Plate has a"), "halo"),
        ("Daguerreotype, sixth plate, leather case, taped hinge.", "tape on the hinge"),
        ("Daguerreotype, sixth plate, one light wipe mark.", "wipe"),
    ],
)
def test_damage_is_told_without_a_degree_that_the_text_does_not_give(text, name):
    words = [claim_words(c, knowledge()) for c in listing(text).claims if c.field == "defect"]
    assert all(":" not in one for one in words)
    assert any(name in one for one in words) or not words


@every(
    "words, answer",
    [
        ("Brass mat is octagonal.", "mat.shape octagon"),
        ("Octagonal brass mat.", "mat.shape octagon"),
        ("The brass mat has an oval opening.", "mat.shape oval"),
        ("Glass is perfect.", "glass.crack 0"),
        ("The cover glass is intact.", "glass.crack 0"),
    ],
)
def test_shapes_of_mats_and_whole_glass_are_read(words, answer):
    found = listing(HEAD + words)
    assert answer in (*found.said("check"), *found.said("defect"))
    assert answer.split()[0] not in found.missing


@every(
    "words",
    ["Would be worth 600 framed.", "It would look lovely framed.", "Deserves to be framed."],
)
def test_what_might_be_framed_is_not(words):
    assert said(HEAD + words, "case.material") == ("leather-wood",)


@every(
    "text",
    [
        "Daguerreotype, 1840s, of a Civil War soldier.",
        "1840s ambrotype, inscribed and dated July 1863. It is a tintype.",
    ],
)
def test_dates_that_lie_apart_are_told(text):
    assert flags(text) & {"dates-disagree", "claims-disagree"}


@every(
    "words",
    ["Never before on the market.", "From a private estate collection.", "Fresh to the market."],
)
def test_talk_of_where_it_was_is_sales_talk(words):
    assert "puff-words" in flags(HEAD + words)


@every(
    "line",
    [
        "ambrotype sixth plate plain leather case 40",
        "tintype, case plain, quay market 12",
        "sixth plate ambrotype, harbour fair, 30",
        "ambrotype in plain case of a lady 25",
    ],
)
def test_a_plain_case_and_a_market_at_a_quay_show_nothing(line):
    assert "outdoor" not in understand(line, knowledge(), "GBP").piece.subjects


def test_places_are_no_motif():
    for line in ("ambrotype 40 quay market", "tintype 12 from the hatbox"):
        assert understand(line, knowledge(), "GBP").piece.motif == ""


def test_somebody_named_before_a_market_is_shown():
    assert understand("soldier market 12", knowledge(), "GBP").piece.subjects == ("soldier",)


def test_a_quay_that_is_shown_still_is():
    assert (
        "outdoor" in understand("lantern slide quay with boats", knowledge(), "GBP").piece.subjects
    )
