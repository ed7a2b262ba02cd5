"""The Kept screen: reached by its key, filtered, and every deed kept and undone."""

import datetime as dt
from dataclasses import replace

import pytest
from app.kit import app_on, session, settled, shown

from appraise.app.app import AppraiseApp
from appraise.app.desk import Desk
from appraise.app.kept.actions import SAYS, able, damage_in
from appraise.app.kept.arrivalpage import ArrivalPage
from appraise.app.kept.reexamine import InHand, afresh
from appraise.app.lines import length, words_of
from appraise.app.lists.kept import due_word, years
from appraise.app.lists.page import RecordPage
from appraise.app.lists.screen import RecordScreen
from appraise.app.marks import FINE, PLAIN
from appraise.app.page import document_rows
from appraise.base.money import Money
from appraise.collection.examinations import kept_from_entry
from appraise.collection.upkeep import Due
from appraise.documents.owned_page import PageInput, owned_document
from appraise.records.entry import Entry
from appraise.records.owned import STATUSES
from appraise.records.owned import OwnedPiece as Owned
from appraise.records.piece_file import parse_piece
from appraise.records.stored import Stored
from appraise.store.owned_pieces import every, take
from appraise.store.piece_record import find

DAY = dt.date(2026, 11, 7)
ONLINE = """piece: 1
title: woman with a lace collar
channel: online
findings:
  claim.process: {answer: ambrotype, known: seller}
  case.material: {answer: thermoplastic, known: photo}
  hinge.tape: {answer: "0", known: seller}
"""


@pytest.fixture
async def kept(tmp_path):
    """The Kept screen over the demo."""
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        await pilot.press("h")
        await settled(pilot)
        yield pilot
    app.session.close()


async def press(pilot, *keys):
    for key in keys:
        await pilot.press(key)
    await settled(pilot)
    return shown(pilot.app)


def things(pilot):
    """The kept pieces by number."""
    return {one.thing.number: one.thing for one in every(pilot.app.session.log)}


# ------------------------------------------------------------------------------- lines


@pytest.mark.parametrize("marks", [FINE, PLAIN])
@pytest.mark.parametrize("width", [18, 30, 44, 56, 72, 80, 120, 200])
def test_every_line_fits(width, marks, knowledge):
    pieces = [
        Stored(
            f"{n:016x}",
            Owned(
                "a long title of a piece " * 3,
                number=str(n),
                place="cupboard " * 4,
                status=status,
                dated="[1855..1862]",
                process="ambrotype",
                kind="cased",
            ),
        )
        for n, status in enumerate(STATUSES)
    ]
    rows = []
    for one in pieces:
        matter = PageInput(one.id, one.thing, None, None, knowledge, DAY)
        rows += document_rows(owned_document(matter), width, marks)
    for row in rows:
        assert length(row) <= width, words_of(row)


@pytest.mark.parametrize(
    ("dated", "says"),
    [
        ("", ""),
        ("1858", "1858"),
        ("[1855..1862]", "1855-62"),
        ("[1898..1902]", "1898-1902"),
        ("[1855..]", "1855-"),
        ("[..1866-07-31]", "-1866"),
        ("1858-03", "1858"),
    ],
)
def test_years_in_few_cells(dated, says):
    assert years(dated) == says


@pytest.mark.parametrize(
    ("one", "says"),
    [
        (Due("look", DAY, "x", -3), "look now"),
        (Due("loan", DAY, "x", 13), "back in 13 d"),
        (Due("return", DAY, "x", 1), "return in 1 d"),
        (Due("origin", None, "x", 0), "origin now"),
        (Due("look", DAY, "x", 200), ""),
    ],
)
def test_what_is_due_in_few_cells(one, says):
    assert due_word([one]) == says


@pytest.mark.parametrize("status", STATUSES)
def test_something_can_happen_in_every_status(status):
    for sort in able(Owned("a girl", status=status)):
        assert SAYS[sort]


def test_damage_is_typed_as_one_thinks():
    assert damage_in("hinge.tape 2, glass.weep=0,") == {"hinge.tape": "2", "glass.weep": "0"}
    assert damage_in(" ") == {}


def test_of_what_has_just_come_only_the_claims_stand(knowledge):
    piece = parse_piece(ONLINE, "x", knowledge)
    assert list(afresh(piece, "ordered").findings) == ["claim.process"]
    assert afresh(piece, "kept") == piece


# ------------------------------------------------------------------------------- the screen


@pytest.mark.parametrize("size", [(80, 24), (120, 40), (40, 16), (20, 8)])
async def test_the_key_opens_it_and_q_goes_back(tmp_path, size):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=size) as pilot:
        await settled(pilot)
        text = await press(pilot, "h")
        assert isinstance(app.screen, RecordScreen)
        assert "Kept" in text
        text = await press(pilot, "enter")
        assert isinstance(app.screen, RecordPage)
        assert "The piece" in text
        await press(pilot, "q", "q")
        assert isinstance(app.screen, Desk)
    app.session.close()


async def test_the_desk_says_that_something_is_due(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        assert "1 of your pieces needs attention: press h, then d." in shown(app)
        await press(pilot, "h", "delete", "y", "q")
        assert "wants something" not in shown(app)
    app.session.close()


async def test_an_empty_home_says_how_to_begin(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        text = await press(pilot, "h")
        assert "Nothing here yet" in text
        text = await press(pilot, "n")
        assert "N adds a piece that is not" in text
        for key in ("e", "v", "c", "x", "a", "s", "r", "delete", "o", "end"):
            text = await press(pilot, key)
            assert isinstance(app.screen, RecordScreen)
        assert "Undo the new entry currency USD?" in await press(pilot, "u")
        await press(pilot, "n")
        await press(pilot, "N")
        text = await press(pilot, "enter")
        assert "needs a title" in text
        await press(pilot, *"a girl", "enter")
        assert things(pilot)["1"].title == "a girl"
    app.session.close()


async def test_the_table_shows_the_demo_and_the_filter_narrows(kept):
    text = shown(kept.app)
    for words in ("soldier with a cap", "lent", "1857-66", "look now", "1 with something due"):
        assert words in text
    text = await press(kept, "slash", *"due:yes")
    assert "1 piece of 3" in text
    text = await press(kept, "ctrl+u", *"plase:2")
    assert "Did you mean 'place'" in text
    text = await press(kept, "escape")
    assert "3 pieces" in text
    text = await press(kept, "slash", *"zzz", "enter")
    assert "Nothing matches the filter" in text
    text = await press(kept, "escape")
    assert "3 pieces" in text
    assert "by due" in await press(kept, "o")
    assert "by place" in await press(kept, "o")


async def test_the_page_has_everything(kept):
    await press(kept, "down", "enter")
    page = kept.app.screen
    text = " ".join(" ".join(words_of(row) for row in page.lines(78)).split())
    for words in (
        "lent to the harbour museum, until 2026-11-20",
        "chipped moulding (under 3 mm",
        "2026-03-23, 70.00 USD",
        "provenance not recorded",
        "--for insurer",
        "this tool's judgement",
    ):
        assert words in text, text


async def test_what_happens_is_noted_and_undone(kept):
    await press(kept, "v")
    await press(kept, "enter")
    await press(kept, *"box 9", "enter")
    assert things(kept)["1"].place == "box 9"
    await press(kept, "u")
    assert things(kept)["1"].place == "cupboard, box 1"
    await press(kept, "v", *"lent", "enter")
    text = await press(kept, *"a club", "tab", *"2026-11-01", "enter")
    assert "lies before" in text
    await press(kept, "ctrl+u", *"2027-01-31", "enter")
    assert things(kept)["1"].status == "lent"
    await press(kept, "v", "enter", "enter")
    assert things(kept)["1"].status == "kept"
    await press(kept, "v", *"light", "enter")
    text = await press(kept, *"ten", "enter")
    assert "is not a whole number" in text
    await press(kept, "ctrl+u", *"100", "tab", *"50", "enter")
    assert things(kept)["1"].showings[0].lux_hours == 5000
    await press(kept, "v", *"exhibited", "enter")
    assert "50,000 lux-hours" in shown(kept.app)
    await press(kept, "escape", "v", *"cleaned", "enter")
    assert "a conservator's work" in shown(kept.app)
    await press(kept, "escape", "v", *"stolen", "enter")
    assert "Tell the police" in shown(kept.app)
    await press(kept, "enter")
    assert things(kept)["1"].status == "stolen"
    text = await press(kept, "v")
    assert "found again" in text


async def test_edit_check_and_remove(kept):
    await press(kept, "e")
    text = await press(kept, "ctrl+u", "enter")
    assert "needs a title" in text
    await press(kept, *"soldier", "tab", "ctrl+u", *"2", "enter")
    assert "number 2 is" in shown(kept.app)
    await press(kept, "ctrl+u", *"12", "enter")
    assert things(kept)["12"].title == "soldier"
    await press(kept, "home", "c")
    text = await press(kept, "tab", *"glass.wep 1", "enter")
    assert "glass.weep" in text
    await press(kept, "escape", "home", "c")
    await press(kept, "tab", *"glass.weep 1", "enter")
    first = things(kept)["2"]
    assert first.last_look.steps["glass.weep"] == 1
    assert first.last_look.day == DAY
    await press(kept, "delete", "y")
    assert "2" not in things(kept)
    await press(kept, "u")
    assert "2" in things(kept)


async def test_a_sale_is_told_before_it_is_logged(kept):
    entries = kept.app.session.log.summary("").count
    await press(kept, "s")
    assert "enter the price the buyer paid" in await press(kept, "enter")
    text = await press(kept, *"400", "tab", *"10", "enter")
    assert "Net 360.00 USD, gain 80.00 USD" in text  # bought for 280.00
    await press(kept, "n")
    assert things(kept)["1"].status == "kept"
    await press(kept, "s", *"400", "enter")
    await press(kept, "y")
    assert things(kept)["1"].status == "sold"
    assert kept.app.session.log.summary("").count == entries + 1
    assert "1 no longer owned" in await press(kept, "end")
    assert "is sold already" in await press(kept, "s")
    await press(kept, "u")
    assert things(kept)["1"].status == "kept"
    assert kept.app.session.log.summary("").count == entries


async def test_due_and_air_are_pages(kept):
    text = await press(kept, "d")
    assert "condition check due" in text
    assert "weeping glass" in text
    await press(kept, "q", "w")
    assert "no reading given" in await press(kept, "enter")
    assert "is not a number" in await press(kept, *"damp", "enter")
    assert "is not a number from 0 to 100" in await press(kept, "ctrl+u", *"580", "enter")
    text = await press(kept, "ctrl+u", *"58", "enter")
    assert "58 is above 55%" in text
    assert "Deterioration of glass" in text


async def test_a_purchase_is_taken_from_the_log_once(kept):
    text = await press(kept, "n")
    assert "59 of 59" in text
    await press(kept, "enter")
    assert "Added as number 4" in shown(kept.app)
    assert len(things(kept)) == 4
    await press(kept, "q", "p", "slash", *"record:bought", "enter")
    await press(kept, "down", "down")
    here = kept.app.screen.here
    text = await press(kept, "h")
    assert ("on the list already" in text) or find(kept.app.session.log, here.id[:8])
    text = await press(kept, "h")
    assert "on the list already" in text


async def test_what_brought_no_piece_is_not_kept(kept):
    await press(kept, "q", "p", "slash", *"record:asking", "enter")
    assert "is not a purchase" in await press(kept, "h")
    await press(kept, "enter")
    assert "is not a purchase" in await press(kept, "h")


# ------------------------------------------------------------------------------- arrivals


def with_parcel(place):
    """A home with a piece bought online that has just come."""
    made = session(place)
    from appraise.knowledge import load

    entry = made.log.add(
        Entry(
            record="bought",
            date=dt.date(2026, 11, 2),
            channel="online",
            kind="cased",
            title="woman with a lace collar",
            paid=Money.parse("45 USD"),
            piece=ONLINE,
        )
    )
    kept = kept_from_entry(made.log.entry(entry.id), load(), DAY)
    take(made.log, replace(kept, number="1", return_by=dt.date(2026, 11, 20)))
    return made


async def test_an_arrival_is_examined_compared_and_sent_back(tmp_path):
    app = AppraiseApp(with_parcel(tmp_path))
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        text = await press(pilot, "h")
        assert "ordered" in text
        text = await press(pilot, "a")
        assert isinstance(app.screen, ArrivalPage)
        assert "13 days left" in text
        assert "nothing to compare" in text
        assert "no letter needed" in await press(pilot, "y")
        await press(pilot, "x")
        assert isinstance(app.screen, InHand)
        assert len(app.screen.own) == 1  # its purchase is no price to judge it by
        assert "You own this piece" in await press(pilot, "b")
        await press(pilot, "slash", *"tape on the hinge", "enter")
        await press(pilot, "3", "q")
        assert isinstance(app.screen, ArrivalPage)
        text = shown(app)
        assert "hinge or spine: tape on the hinge (less important)" in text
        assert things(pilot)["1"].status == "kept"
        assert things(pilot)["1"].last_look.steps == {"hinge.tape": 2}
        assert app.session.log.drafts() == ()
        assert "clipboard" in await press(pilot, "y")
        assert "Not as described" in app.clipboard
        await press(pilot, "b", "y")
        assert things(pilot)["1"].status == "returned"
        await press(pilot, "q", "u", "u")
        assert things(pilot)["1"].status == "ordered"
    app.session.close()


async def test_a_look_that_was_broken_off_is_taken_up_at_the_desk(tmp_path):
    app = AppraiseApp(with_parcel(tmp_path))
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        await press(pilot, "h", "x")
        await press(pilot, "slash", *"tape on the hinge", "enter")
        await press(pilot, "3")
        assert len(app.session.log.drafts()) == 1
    app.session.close()
    again = AppraiseApp(session(tmp_path))
    async with again.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        await press(pilot, "1")
        assert isinstance(again.screen, InHand)
        await press(pilot, "q")
        assert things(pilot)["1"].last_look.steps == {"hinge.tape": 2}
        assert again.session.log.drafts() == ()
    again.session.close()


async def test_what_was_bought_is_offered_in_the_closing_line(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        await press(pilot, "1", "b")
        await press(pilot, "ctrl+u", *"40", "enter")
        assert "To add it to the pieces you own: h, then n." in shown(app)
        await press(pilot, "h", "n")
        assert "2026-11-07" in shown(app)
        await press(pilot, "enter")
        assert things(pilot)["4"].acquired == "2026-11-07"
    app.session.close()
