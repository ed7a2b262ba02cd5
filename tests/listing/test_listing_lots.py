"""How many pieces a text offers, what each of them is, and the shipping that it asks."""

import datetime as dt

import pytest
from listing.listingkit import knowledge, listing

from appraise.base.money import Money
from appraise.listing.offered import lot_of, offers
from appraise.records.lot_file import parse_lot, write_lot
from appraise.records.values import Author


@pytest.mark.parametrize(
    ("text", "pieces"),
    [
        ("11 tintypes for 45", 11),
        ("album of 44 cartes de visite, $120", 44),
        ("CDV album of 44, 90", 44),
        ("set of four tintypes $62", 4),
        ("set of four, tintypes", 4),
        ("stereo view set of 12", 12),
        ("Victorian photo album with 44 cdvs", 1),  # as the guide of the corpus has it
        ("Sixth plate ambrotype of a man, and a spare case, $45", 2),
        ("ambrotype plus an extra case", 2),
        ("Ambrotype, with two spare cases. 45", 3),
        ("two tintypes and a spare case, 45", 3),
        ("a pair of ambrotypes in one case", 1),
        ("ambrotype, no spare case", 1),
        ("Sixth plate tintype, see 3 pictures. $30", 1),
        ("Quarter plate ambrotype. 3 photos. 45 USD", 1),
        ("ambrotype in leather case, see 3 photos", 1),
        ("I took 5 photos of this ambrotype", 1),
        ("daguerreotype (4 pictures)", 1),
        ("tintype of three men, 45", 1),
        ("3 old photographs, tintypes, 45", 3),
        ("3 photographs: a tintype, an ambrotype and a cdv. 62", 3),
        ("lot of 5 photos, tintype", 5),
    ],
)
def test_how_many_pieces(text, pieces):
    told = listing(text)
    assert told.pieces == pieces
    assert len(told.parts) == (pieces if pieces > 1 else 0)
    assert offers(told) == (
        f"this text offers {pieces} pieces: judged as a lot" if pieces > 1 else ""
    )


@pytest.mark.parametrize(
    ("text", "images"),
    [
        ("A pair of ambrotypes in one case, sixth plates, $45", 2),
        ("Two tintypes in a double case, husband and wife. 45 USD", 2),
        ("Two cased tintypes, $45 for both", 0),
        ("Ambrotype in a double case, the other side is empty. $45", 0),
    ],
)
def test_two_images_in_one_case_are_one_piece(text, images):
    told = listing(text)
    assert len(told.piece.images) == images
    assert (told.pieces == 1) == (images == 2 or "other side" in text)
    if images:
        assert told.piece.kind == "cased"


def test_pieces_that_are_counted_are_what_is_said_of_all():
    parts = listing("11 tintypes, one in a thermoplastic case, one is a quarter plate. 45").parts
    assert {one.title for one in parts} == {"tintype, one of 11"}
    assert {one.found("claim.process") for one in parts} == {"tintype"}
    assert {(one.named_format, one.found("claim.material")) for one in parts} == {("", "")}
    assert all(one.asking is None for one in parts)


def test_of_several_processes_none_is_said_of_all():
    parts = listing("Lot of 4: two tintypes and two ambrotypes, 80").parts
    assert {one.found("claim.process") for one in parts} == {""}


def test_a_spare_case_is_none_of_the_piece_and_stands_by_its_name():
    told = listing("Sixth plate ambrotype in leather case, and a spare thermoplastic case, $45")
    first, spare = told.parts
    assert first.found("claim.material") == "leather-wood"
    assert spare.title == "spare thermoplastic case"
    assert not spare.findings


def test_a_count_is_no_price():
    assert listing("stereo view set of 12").said("asking") == ()
    assert listing("stereo view set of 12, 45").said("asking") == ("45.00 USD",)


def test_as_a_lot_file_and_back():
    day, now = dt.date(2026, 11, 7), dt.datetime(2026, 11, 7, tzinfo=dt.UTC)
    lot = lot_of(listing("11 tintypes, price 45 euros, postage 6 euros"), day, "USD")
    assert (len(lot.items), lot.currency) == (11, "EUR")
    assert (lot.asking, lot.shipping) == (Money.parse("45 EUR"), Money.parse("6 EUR"))
    by = Author("USD", day)
    assert parse_lot(write_lot(lot), "lot.yaml", knowledge(), by, now) == lot


@pytest.mark.parametrize(
    ("text", "shipping"),
    [
        ("Sixth plate ambrotype $45 + $18 shipping", "18.00 USD"),
        ("Sixth plate ambrotype $45, free postage", "0.00 USD"),
        ("Sixth plate ambrotype 20 euros, postage 5", "5.00 EUR"),
        ("Sixth plate ambrotype $45", None),
    ],
)
def test_the_piece_carries_the_shipping(text, shipping):
    told = listing(text).piece.shipping
    assert (None if told is None else str(told)) == shipping
