"""Kept pieces in the log: taken over, found, filtered, sold in one act."""

import datetime as dt
from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from logkit import bought, lines, moneys, opened, pages, slugs, usd

from appraise.base.errors import InputError
from appraise.collection import examinations
from appraise.collection import sale as sales
from appraise.collection.owned_filter import filtered
from appraise.collection.sale import Sale
from appraise.collection.transitions import happened
from appraise.knowledge import load
from appraise.knowledge.records import KINDS
from appraise.pricing.outcomes import outcome_of
from appraise.records import record_types
from appraise.records.owned import EVENTS, STATUSES, ConditionCheck, Event, OwnedPiece, Showing
from appraise.records.piece_file import parse_piece
from appraise.records.repair import Repair
from appraise.records.stored import Stored
from appraise.records.venuebook import VenueBook
from appraise.store import owned_pieces
from appraise.store.piece_record import find
from appraise.store.records import held, keep

KNOWLEDGE = load()
DAY = dt.date(2026, 11, 7)
IN_HAND = """piece: 1
title: girl
findings: {claim.process: ambrotype, hinge.tape: "2", glass.weep: "0"}
"""
FROM_PHOTOS = "piece: 1\ntitle: girl\nchannel: online\nfindings: {hinge.tape: '0'}\n"

days = st.dates()
titles = lines.filter(str.strip)
looks = st.builds(
    ConditionCheck,
    day=days,
    says=lines,
    by=lines,
    found=st.lists(
        st.tuples(st.sampled_from(["hinge.tape", "glass.weep", "case.crack"]), st.integers(0, 3)),
        unique_by=lambda pair: pair[0],
    ).map(lambda pairs: tuple(f"{name} {step}" for name, step in pairs)),
    note=pages,
)
events = st.builds(
    Event,
    day=days.filter(lambda day: day.year < 9000),
    sort=st.sampled_from(EVENTS),
    to=lines,
    cost=st.none() | moneys,
    note=pages,
).flatmap(
    lambda event: st.integers(0, 900).map(
        lambda more: replace(event, until=event.day + dt.timedelta(days=more))
    )
)
showings = st.builds(Showing, days, st.integers(1, 9_000), st.integers(0, 9_000), lines)


def in_order(things):
    return st.lists(things, max_size=3).map(
        lambda many: tuple(sorted(many, key=lambda one: one.day))
    )


kepts = st.builds(
    OwnedPiece,
    title=titles,
    entry=st.sampled_from(["", "0123456789abcdef"]),
    piece=pages,
    number=lines,
    kind=st.sampled_from(["", *KINDS]),
    process=slugs,
    housing=slugs,
    format=slugs,
    dated=st.sampled_from(["", "[1855..1862]", "1858", "1850~", "185X"]),
    place=lines,
    status=st.sampled_from(STATUSES),
    acquired=st.sampled_from(["", "2024-02-29", "2019", "[2001..2003]"]),
    provenance=pages,
    receipt=lines,
    return_by=st.none() | days,
    looks=in_order(looks),
    events=in_order(events),
    showings=in_order(showings),
    climate=pages,
    note=pages,
)


@given(kepts)
def test_a_kept_piece_comes_back_as_it_was_kept(kept):
    text = record_types.to_text(kept)
    assert record_types.type_of(text) == "kept"
    assert record_types.from_text(text) == kept
    assert record_types.to_text(record_types.from_text(text)) == text


@pytest.mark.parametrize(
    ("field", "value", "says"),
    [
        ("title", " ", "needs a title"),
        ("status", "keept", "Did you mean 'kept'"),
        ("status", "", "is missing"),
        ("entry", "12", "16 hexadecimal"),
        ("acquired", "2023-02-29", "acquired"),
        ("dated", "c1850", "1850~"),
        ("place", "two\nlines", "line break"),
        ("return_by", "2026-01-01", "is not a day"),
    ],
)
def test_what_no_record_can_hold_is_refused(field, value, says):
    with pytest.raises(InputError) as told:
        OwnedPiece(**{"title": "a girl", field: value})
    assert says in str(told.value)


def test_days_out_of_order_and_twice_answered_are_refused():
    late, early = ConditionCheck(dt.date(2026, 2, 1)), ConditionCheck(dt.date(2026, 1, 1))
    with pytest.raises(InputError, match="not in the order"):
        OwnedPiece("a girl", looks=(late, early))
    with pytest.raises(InputError, match="twice"):
        ConditionCheck(DAY, found=("hinge.tape 1", "hinge.tape 2"))
    with pytest.raises(InputError, match="lies before"):
        Event(DAY, "lent", "a museum", dt.date(2026, 11, 6))


def test_a_purchase_seen_in_hand_is_looked_at_and_kept():
    entry = bought(piece=IN_HAND, id="0123456789abcdef", date=dt.date(2026, 5, 2))
    kept = examinations.kept_from_entry(entry, KNOWLEDGE, DAY)
    assert (kept.title, kept.entry) == (entry.title, entry.id)
    assert kept.piece == IN_HAND
    assert kept.acquired == "2026-05-02"
    assert kept.status == "kept"
    assert kept.last_look.day == dt.date(2026, 5, 2)
    assert kept.last_look.steps == {"hinge.tape": 2, "glass.weep": 0}
    assert (kept.process, kept.housing, kept.format) == ("ambrotype", "thermoplastic", "sixth")
    assert kept.dated.startswith("[18")
    assert "45" not in record_types.to_text(kept).replace(
        entry.id, ""
    )  # the price stays in the log


def test_a_purchase_from_photographs_is_on_its_way():
    entry = bought(piece=FROM_PHOTOS, channel="online", date=dt.date(2026, 11, 1))
    kept = examinations.kept_from_entry(entry, KNOWLEDGE, DAY)
    assert kept.status == "ordered"
    assert kept.looks == ()
    old = replace(entry, date=dt.date(2024, 11, 1))
    assert examinations.kept_from_entry(old, KNOWLEDGE, DAY).status == "kept"
    stall = replace(entry, channel="market")
    assert examinations.kept_from_entry(stall, KNOWLEDGE, DAY).status == "kept"


def test_an_arrival_is_examined_and_at_home(tmp_path):
    with opened(tmp_path / "log.sqlite") as log:
        seen = "piece: 1\nchannel: online\nfindings: {case.material: {answer: %s, known: %s}}\n"
        entry = log.add(bought(piece=seen % ("thermoplastic", "photo"), date=DAY, channel="online"))
        kept = examinations.kept_from_entry(log.entry(entry.id), KNOWLEDGE, DAY)
        assert kept.housing == "thermoplastic"
        with pytest.raises(InputError, match="no answer in it was given in hand"):
            examinations.arrived(kept, examinations.piece_in(kept, KNOWLEDGE), KNOWLEDGE, DAY)
        piece = parse_piece(seen % ("leather-wood", "in-hand"), "hand", KNOWLEDGE)
        there = examinations.arrived(kept, piece, KNOWLEDGE, DAY)
        assert (there.status, there.housing) == ("kept", "leather-wood")
        assert there.events[-1].sort == "arrived"
        _, arrival = owned_pieces.parcel_of(log, there, KNOWLEDGE)
        assert [one.weight for one in arrival.differences] == ["some"]
        named = replace(kept, housing="other")
        assert examinations.arrived(named, piece, KNOWLEDGE, DAY).housing == "other"
        with pytest.raises(InputError, match="no purchase in the log"):
            owned_pieces.parcel_of(log, OwnedPiece("a girl"), KNOWLEDGE)


def test_a_check_notes_what_was_found_and_keeps_it_in_the_piece():
    kept = OwnedPiece("a girl", piece=IN_HAND, kind="cased")
    now = examinations.checked(kept, {"hinge.tape": "3"}, KNOWLEDGE, DAY, ("me", "by a window", ""))
    assert now.last_look.steps == {"hinge.tape": 3, "glass.weep": 0}
    assert now.last_look.by == "me"
    assert "housing" in now.last_look.says
    assert examinations.piece_in(now, KNOWLEDGE).found("hinge.tape") == "3"
    said = examinations.checked(kept, {}, KNOWLEDGE, DAY, ("", "", "as last year"))
    assert (said.last_look.says, said.piece) == ("as last year", kept.piece)
    for wrong, says in (({"hinge.tap": "1"}, "Did you mean"), ({"hinge.tape": "7"}, "Steps: 0")):
        with pytest.raises(InputError) as told:
            examinations.checked(kept, wrong, KNOWLEDGE, DAY)
        assert says in str(told.value)


@pytest.mark.parametrize("record", ["asking", "sold", "refused", "unsold", "hammer"])
def test_what_brought_no_piece_is_not_kept(record):
    with pytest.raises(InputError, match="is not a purchase"):
        examinations.kept_from_entry(replace(bought(), record=record), KNOWLEDGE, DAY)


def test_a_number_and_a_purchase_belong_to_one_piece(tmp_path):
    with opened(tmp_path / "log.sqlite") as log:
        entry = log.add(bought())
        first = owned_pieces.take(log, OwnedPiece("a girl", entry=entry.id, number="7"))
        with pytest.raises(InputError, match=r"number 7 is 'a girl'\. 8 is free"):
            owned_pieces.take(log, OwnedPiece("a boy", number="7"))
        with pytest.raises(InputError, match="on the list already"):
            owned_pieces.take(log, OwnedPiece("a boy", entry=entry.id))
        second = owned_pieces.take(log, OwnedPiece("a boy", number="B10"))
        owned_pieces.store(log, Stored(first.id, replace(first.thing, place="box 2")), first.thing)
        first = find(log, "7")
        changed = Stored(first.id, replace(first.thing, number="b10"))
        with pytest.raises(InputError, match="number b10"):
            owned_pieces.store(log, changed, first.thing)
        assert find(log, "7").thing.place == "box 2"
        assert find(log, "b10") == second
        assert find(log, entry.id[:8]).id == first.id
        assert find(log, "A Boy") == second
        with pytest.raises(InputError, match="no owned piece 'x'"):
            find(log, "x")
        assert owned_pieces.to_take(log) == ()


def test_numbers_are_in_the_order_in_which_a_person_counts(tmp_path):
    with opened(tmp_path / "log.sqlite") as log:
        for number in ("10", "", "2", "A10", "A9", "1"):
            keep(log, OwnedPiece(f"piece {number}", number=number))
        told = [one.thing.number for one in owned_pieces.every(log)]
    assert told == ["1", "2", "10", "A9", "A10", ""]
    with opened(tmp_path / "log.sqlite") as log:
        keep(log, OwnedPiece("sold long ago", number="0", status="sold"))
        assert owned_pieces.every(log)[-1].thing.number == "0"
    numbered = [Stored("x", OwnedPiece("a", number=number)) for number in ("9", "10", "B2", "")]
    assert owned_pieces.next_number(numbered) == "11"


def test_a_sale_is_one_act(tmp_path):
    with opened(tmp_path / "log.sqlite") as log:
        entry = log.add(bought(piece=IN_HAND))
        kept = examinations.kept_from_entry(log.entry(entry.id), KNOWLEDGE, DAY)
        piece = owned_pieces.take(log, kept)
        sale = Sale(DAY, usd("80"), Decimal("12.5"), to="a friend", channel="private")
        sold, now = owned_pieces.sell(log, piece, sale)
        assert now.thing.status == "sold"
        assert [one.record for one in log.entries()] == ["sold", "bought"]
        assert log.entry(sold.id).paid == usd("80")
        assert log.entry(sold.id).piece == ""
        assert outcome_of(log.entry(entry.id)).price == usd("80")
        with pytest.raises(InputError, match="is sold"):
            owned_pieces.sell(log, now, sale)
        log.undo()
        assert held(log, OwnedPiece) == (piece,)
        assert [one.record for one in log.entries()] == ["bought"]
        assert outcome_of(log.entry(entry.id)) is None


def test_gain_is_net_proceeds_less_all_that_was_spent():
    """Worked by hand, dollars: bought for 45.00 and 6.00 carriage; a conservator took 20.00.

    Sold for 121.90; the site keeps 12.5 per cent, 15.2375, rounded half up 15.24, and 0.40;
    sending cost 7.10 beyond what the buyer paid, the box 2.00. Net 121.90 - 15.24 - 0.40 - 7.10 -
    2.00 = 97.16. Gain 97.16 - 51.00 - 20.00 = 26.16.
    """
    entry = bought(price="45.00", postage=usd("6"))
    spent = (usd("20"),)
    sale = Sale(DAY, usd("121.90"), Decimal("12.5"), usd("0.40"), usd("7.10"), usd("2"))
    assert [str(money) for _, money in sale.taken] == [
        "15.24 USD",
        "0.40 USD",
        "7.10 USD",
        "2.00 USD",
    ]
    gain = sales.gain_of(spent, entry, sale, "USD", VenueBook())
    assert (gain.net, gain.cost, gain.mending) == (usd("97.16"), usd("51.00"), usd("20.00"))
    assert gain.gain == usd("26.16")
    assert sales.gain_of(spent, None, sale, "USD", VenueBook()).gain is None
    assert sales.gain_of(spent, entry, sale, "EUR", VenueBook()).gain is None  # no rate


def test_what_was_spent_counts_events_and_works(tmp_path):
    with opened(tmp_path / "log.sqlite") as log:
        kept = OwnedPiece("a girl", entry="0123456789abcdef")
        mended = happened(kept, Event(DAY, "mended", "a conservator", cost=usd("20")))
        piece = owned_pieces.take(log, mended)
        assert owned_pieces.spent_since(log, piece) == (usd("20"),)
        keep(log, Repair("new hinge", DAY, piece=piece.id, cost=usd("3")))
        keep(log, Repair("new seal", DAY, piece="0123456789abcdef", cost=usd("1.50")))
        keep(log, Repair("another's", DAY, piece="f" * 16, cost=usd("8")))
        keep(log, Repair("for nothing", DAY, piece=piece.id))
        assert sorted(map(str, owned_pieces.spent_since(log, piece))) == [
            "1.50 USD",
            "20.00 USD",
            "3.00 USD",
        ]


def test_a_loss_is_below_nothing():
    sale = Sale(DAY, usd("10"), Decimal(100), usd("1"))
    assert sale.net == usd("-1")


SHELF = (
    Stored(
        "a" * 16, OwnedPiece("girl with a basket", number="1", place="Box 2", dated="[1855..1862]")
    ),
    Stored("b" * 16, OwnedPiece("Früher Garten", number="12", status="lent", dated="1870~")),
    Stored("c" * 16, OwnedPiece("empty case", process="", looks=(ConditionCheck(DAY),))),
)


@pytest.mark.parametrize(
    ("query", "found"),
    [
        ("", "abc"),
        ("girl basket", "a"),
        ("box", "a"),
        ("fruher", "b"),
        ("number:1", "a"),
        ("number:", "abc"),
        ("status:lent", "b"),
        ("-status:lent", "ac"),
        ("place=2", "a"),
        ("dated:1858", "a"),
        ("dated=1850-1860", "a"),
        ("status=lent place=?", "b"),
        ("dated:1863", ""),
        ("dated:1866", "b"),  # about 1870 reaches five years
        ("dated:1860..", "ab"),
        ("dated:..1854", ""),
        ("due:no", "c"),
        ("due:yes girl", "a"),
        ("zzz", ""),
    ],
)
def test_the_filter_finds(query, found):
    assert "".join(one.id[0] for one in filtered(SHELF, query, KNOWLEDGE, DAY)) == found


@pytest.mark.parametrize(
    ("query", "says"),
    [
        ("plase:2", "Did you mean 'place'"),
        ("dated:old", "is not a year"),
        ("due:maybe", "neither yes nor no"),
    ],
)
def test_a_filter_that_cannot_be_meant_says_so(query, says):
    with pytest.raises(InputError) as told:
        filtered(SHELF, query, KNOWLEDGE, DAY)
    assert says in str(told.value)
