"""Lot files: what is written is what is read, and every mistake has its place."""

import datetime as dt
from dataclasses import replace
from zoneinfo import ZoneInfo

import pytest
from collection.lotkit import any_money, instants
from every import every
from hypothesis import given
from hypothesis import strategies as st
from records.test_piece_files import pieces as whole_pieces
from store.logkit import pages

from appraise.base.errors import InputError
from appraise.base.moments import Closing
from appraise.base.money import EXPONENTS, Money
from appraise.knowledge import load
from appraise.knowledge.records import CHANNELS
from appraise.records.fields import changed
from appraise.records.lot import Lot
from appraise.records.lot_file import bare, item_of, parse_lot, piece_in, read_lot, write_lot
from appraise.records.piece import PLANS, Piece
from appraise.records.piece_file import parse_piece
from appraise.records.values import Author

KNOWLEDGE = load()
BERLIN = ZoneInfo("Europe/Berlin")
DAY = dt.date(2026, 11, 7)
NOW = dt.datetime(2026, 11, 7, 12, tzinfo=dt.UTC)
BY = Author("USD", DAY, zone=BERLIN)
WHOLE = """
lot: 1
title: three pieces
currency: USD
venue: Quay rooms
channel: online
number: 010
where: quay.example/118
closes: 2026-11-08 20:00
asking: 40
estimate: 65..95
selling: 12
ceiling: 75.00 USD
bid: 46
note: "12:30"
pieces:
  - plan: keep
    extra: 10
    title: girl
    findings: {plate.magnet: no}
  - {plan: resell, file: man.yaml}
  - {plan: parts, parts: 7.00 USD, worth: 4, title: empty case}
"""


@pytest.fixture
def folder(tmp_path):
    (tmp_path / "man.yaml").write_text("title: man\nchannel: market\n", encoding="utf-8")
    return tmp_path


def lot_in(folder, text=WHOLE):
    path = folder / "lot.yaml"
    path.write_text(text, encoding="utf-8")
    return read_lot(path, KNOWLEDGE, BY, NOW)


def test_the_whole_format_is_read(folder):
    lot = lot_in(folder)
    assert lot.number == "010"
    assert lot.note == "12:30"
    assert lot.closes == Closing(dt.datetime(2026, 11, 8, 19, tzinfo=dt.UTC))
    assert (lot.low, lot.high) == (Money.parse("65 USD"), Money.parse("95 USD"))
    assert lot.bid == Money.parse("46 USD")
    assert (lot.state, lot.bid_at, lot.ceiling_on) == ("bid", NOW, DAY)
    girl, man, case = lot.items
    assert [one.plan for one in lot.items] == ["keep", "resell", "parts"]
    piece = piece_in(girl, lot, KNOWLEDGE)
    assert piece.channel == "online"  # met where the lot is
    assert piece.findings["plate.magnet"].known == "photo"
    assert girl.extra == Money.parse("10 USD")
    assert (man.title, man.piece) == ("man", "")
    assert (case.parts, case.worth) == (Money.parse("7 USD"), Money.parse("4 USD"))


def test_what_is_inline_is_read_as_in_a_piece_file(folder):
    text = "title: girl\nchannel: auction\nfindings:\n  case.material: shell\n"
    inline = "lot: 1\npieces:\n  - title: girl\n    findings: {case.material: shell}\n"
    lot = lot_in(folder, inline)
    assert piece_in(lot.items[0], lot, KNOWLEDGE) == parse_piece(text, "p", KNOWLEDGE)


@every(
    ("text", "told"),
    [
        ("title: x\npieces: []", "'lot' is missing"),
        ("lot: 2\npieces: []", "lot.yaml:1 lot: format '2' is not known. This tool writes 1."),
        ("lot: 1", "'pieces' is missing. Write pieces: with a '- ' before each."),
        ("lot: 1\npieces: []", "lot.yaml:2 pieces: a lot needs a piece"),
        ("lot: 1\npieces: girl", "pieces: a list is needed here"),
        ("lot: 1\npieces: [girl]", "each entry of the list needs keys and values"),
        (
            "lot: 1\nvenu: x\npieces: [{title: a}]",
            "'venu' is not a known key. Did you mean 'venue'?",
        ),
        (
            "lot: 1\ncloses: soon\npieces: [{title: a}]",
            "lot.yaml:2 closes: 'soon' is not a date or time",
        ),
        (
            "lot: 1\ncloses: 2026-10-25 02:30\npieces: [{}]",
            "lot.yaml:2 closes: 02:30 on 2026-10-25 c",
        ),
        ("lot: 1\nasking: 40\npieces: [{title: a}]", "lot.yaml:2 asking: '40' has no currency"),
        ("lot: 1\nestimate: 9..8 USD\npieces: [{}]", "estimate: '9..8 USD' is not an estimate"),
        (
            "lot: 1\nselling: 120\npieces: [{}]",
            "lot.yaml:2 selling: '120' is not a whole number of 0 to",
        ),
        ("lot: 1\nselling: 12.5\npieces: [{}]", "lot.yaml:2 selling: '12.5' is not a whole number"),
        ("lot: 1\nchannel: auktion\npieces: [{}]", "Did you mean 'auction'?"),
        (
            "lot: 1\npieces:\n  - {title: a}\n  - plan: sell",
            "lot.yaml:4 pieces.plan: 'sell' is not",
        ),
        ("lot: 1\npieces:\n  - {plan: sell}", "Did you mean 'resell'?"),
        ("lot: 1\npieces:\n  - {titel: a}", "'titel' is not a known key. Did you mean 'title'?"),
        ("lot: 1\npieces:\n  - {wroth: 3 USD}", "Did you mean 'worth'?"),
        ("lot: 1\npieces:\n  - {findings: {plate.magnit: no}}", "'plate.magnit' is not a check"),
        ("lot: 1\npieces:\n  - {file: man.yaml, title: a}", "'title' is not a known key"),
        ("lot: 1\npieces:\n  - {file: men.yaml}", "no file 'men.yaml'. Did you mean 'man.yaml'?"),
        ("lot: 1\npieces:\n  - {file: lot.yaml}", "'lot' is not a known key"),
        ("lot: 1\npieces: &a [{title: a}]", "anchors and aliases are not used here"),
        ("lot: 1\nlot: 1", "'lot' is written twice"),
    ],
)
def test_every_mistake_has_its_place(folder, text, told):
    with pytest.raises(InputError) as caught:
        lot_in(folder, text)
    assert told in str(caught.value)
    assert "lot.yaml" in str(caught.value)


def test_text_without_a_place_on_the_disk_names_no_files():
    with pytest.raises(InputError, match="only be named in a lot file on the disk"):
        parse_lot("lot: 1\npieces: [{file: a.yaml}]", "pasted", KNOWLEDGE, BY, NOW)


def test_a_mistake_in_a_pieces_own_file_names_that_file(folder):
    (folder / "man.yaml").write_text("titel: man", encoding="utf-8")
    with pytest.raises(InputError, match=r"man\.yaml:1 titel"):
        lot_in(folder)


words = st.text(
    st.characters(
        min_codepoint=32, max_codepoint=0x2000, blacklist_categories=("Cc", "Cs", "Zl", "Zp")
    ),
    max_size=20,
)


@st.composite
def lot_files(draw):
    """A lot as a file may tell it, and what it tells beside."""
    code = draw(st.sampled_from(sorted(EXPONENTS)))
    money = st.none() | st.integers(1, 10**9).map(lambda minor: Money.of_minor(minor, code))
    low, bid, ceiling = draw(money), draw(money), draw(st.none() | any_money)
    channel = draw(st.sampled_from(CHANNELS))
    planned = st.builds(
        lambda piece, **told: item_of(replace(piece, channel=channel), **told),
        piece=whole_pieces(),
        plan=st.sampled_from(PLANS),
        worth=st.none() | any_money,
        extra=st.none() | any_money,
        parts=st.none() | any_money,
    )
    at = instants.map(lambda one: one.replace(second=0))
    return Lot(
        title=draw(words.filter(str.strip)).strip(),
        since=DAY,
        currency=code,
        venue=draw(words),
        channel=channel,
        number=draw(words),
        where=draw(words),
        closes=draw(st.none() | st.builds(Closing, at=at, zone=st.just("Europe/Berlin"))),
        asking=draw(money),
        shipping=draw(st.none() | any_money),
        low=low,
        high=low and draw(st.integers(0, 10**6).map(lambda m: low + Money.of_minor(m, code))),
        selling=draw(st.integers(0, 100)),
        ceiling=ceiling,
        ceiling_on=DAY if ceiling else None,
        bid=bid,
        bid_at=NOW if bid else None,
        state="bid" if bid else "followed",
        note=draw(pages),
        items=tuple(draw(st.lists(planned, min_size=1, max_size=3))),
    )


@given(lot_files())
def test_a_lot_is_read_as_it_was_written(lot):
    again = parse_lot(write_lot(lot), "lot", KNOWLEDGE, BY, NOW)
    for one, other in zip(again.items, lot.items, strict=True):
        assert piece_in(one, again, KNOWLEDGE) == piece_in(other, lot, KNOWLEDGE)
        assert replace(one, piece="") == replace(other, piece="")
    if lot.closes is not None and again.closes.zone == "UTC":  # an hour that comes twice
        assert again.closes.at == lot.closes.at
        again = replace(again, closes=lot.closes)
    assert replace(again, items=()) == replace(lot, items=())


def test_a_piece_of_which_nothing_is_known_is_a_title():
    assert bare(Piece(title="empty case", channel="auction"))
    assert item_of(Piece(title="empty case")).piece == ""
    assert item_of(Piece(title="case", motif="vine")).piece != ""


def test_a_lot_without_a_title_is_called_by_its_pieces():
    text = "lot: 1\npieces: [{title: girl}, {}]"
    assert parse_lot(text, "lot", KNOWLEDGE, BY, NOW).title == "girl and 1 more"
    assert parse_lot(text, "lot", KNOWLEDGE, replace(BY, currency="GBP"), NOW).currency == "GBP"


def test_a_title_given_to_a_piece_afterwards_stands_in_the_file():
    lot = parse_lot("lot: 1\npieces: [{title: girl, motif: vine}]", "lot", KNOWLEDGE, BY, NOW)
    lot = changed(lot, {"piece.1.title": "girl with a drum"}, BY)
    assert parse_lot(write_lot(lot), "lot", KNOWLEDGE, BY, NOW).items[0].title == "girl with a drum"
