"""Counts in a typed line: of pieces, which make a lot, and of people, who are the subject."""

import datetime as dt

import pytest
from listing.listingkit import knowledge

from appraise.base.money import Money
from appraise.listing.first_look import Look, understand
from appraise.listing.quick import understand_entry

PEOPLE = [
    ("sixth ambro couple 45", "couple"),
    ("sixth ambro married couple leather 45", "couple"),
    ("sixth ambro old couple, leather, 45", "couple"),
    ("sixth ambro man and wife 45", "couple"),
    ("sixth ambro two children 45", "group"),
    ("ninth tintype two women 45", "group"),
    ("sixth ambro two seated ladies leather 45", "group"),
    ("sixth tintype pair of brothers 45", "group"),
    ("two men standing sixth tintype 45", "group"),
    ("sixth ambro two cousins 45", "group"),
    ("sixth ambro two brothers 45", "group"),
    ("quarter dag pair of soldiers 45", "soldier"),
    ("sixth tintype 2 girls 45", "group"),
    ("sixth ambro two dogs 45", "animal"),
    ("sixth ambro both parents 45", "group"),
]
PIECES = [
    "two ambrotypes 45",
    "pair of tintypes 45",
    "two cases 45",
    "couple of tintypes 45",
    "two boys tintypes 45",
    "two sixth ambros of children 45",
    "sixth ambro pair 45",
    "12 cdvs of soldiers 45",
]
CHANNELS = {"market": "market", "flea market": "market", "fair": "fair", "antique fair": "fair",
            "shop": "shop", "online": "online", "auction": "auction"}  # fmt: skip


def look(line: str) -> Look:
    return understand(line, knowledge())


@pytest.mark.parametrize(("line", "subject"), PEOPLE)
def test_people_are_the_subject_of_one_piece(line: str, subject: str) -> None:
    got = look(line)
    assert (got.piece.kind, got.piece.subjects) == ("cased", (subject,))
    assert got.piece.asking == Money.parse("45 USD")
    assert got.notes == got.not_understood == ()
    entry = understand_entry(line, knowledge(), "USD", dt.date(2026, 11, 30)).entry
    assert (entry.kind, entry.subjects, entry.note) == ("cased", (subject,), "")


@pytest.mark.parametrize("line", PIECES)
def test_a_lot_needs_pieces(line: str) -> None:
    got = look(line)
    assert got.piece.kind == "lot"
    assert got.piece.asking == Money.parse("45 USD")
    assert any("pieces together" in note for note in got.notes)


def test_a_price_before_people_stays_a_price() -> None:
    got = look("tintype 45 soldiers")
    assert (got.piece.asking, got.piece.subjects) == (Money.parse("45 USD"), ("soldier",))


@pytest.mark.parametrize(("words", "channel"), CHANNELS.items())
@pytest.mark.parametrize("line", ["sixth ambro couple leather 45 {}", "{} sixth ambro couple 45"])
def test_a_word_of_the_channel_is_no_motif(line: str, words: str, channel: str) -> None:
    text = line.format(words)
    entry = understand_entry(text, knowledge(), "USD", dt.date(2026, 11, 30)).entry
    assert (entry.channel, entry.subjects, entry.motif) == (channel, ("couple",), "")
    assert look(text).piece.subjects == ("couple",)


def test_a_market_square_is_a_view() -> None:
    got = look("sixth ambro market square 45, online")
    assert (got.piece.channel, got.piece.subjects) == ("online", ("outdoor",))
