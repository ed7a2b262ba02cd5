"""Lots in the app: the desk's column, the table, a lot's page, and how one comes to follow one."""

import datetime as dt
import subprocess
import sys
from datetime import UTC, date

import pytest
from app.kit import app_on, begin, session, settled, shown
from collection.lotkit import closing, lot, usd
from store.logkit import terms
from textual import events

from appraise.app.bid.view import BidPage
from appraise.app.desk import Desk
from appraise.app.desklines import Desktop, closing_lines, desk_lines
from appraise.app.form import Form
from appraise.app.glances import LotGlance, Purse, glances
from appraise.app.lines import length, words_of
from appraise.app.listing.view import ListingScreen
from appraise.app.lists.screen import RecordScreen
from appraise.app.lots.page import LotPage
from appraise.app.marks import FINE, PLAIN
from appraise.app.picker import Picker
from appraise.app.session import Session
from appraise.base.moments import Closing
from appraise.base.places import Home
from appraise.base.settings import Settings
from appraise.collection.lotsteps import ended
from appraise.documents.lots import Now
from appraise.records.budget import Budget
from appraise.records.lot import Lot, LotItem
from appraise.records.stored import Stored
from appraise.records.venue import Venue
from appraise.records.venuebook import VenueBook
from appraise.store.records import change, held, keep
from appraise.store.venue_book import keep_book, keep_budget, read_budget

DAY = date(2026, 11, 7)
NOW = Now(dt.datetime(2026, 11, 7, 12, tzinfo=UTC), UTC, DAY)
PURSE = Purse("7.50 USD left this month", 0.6, 0.2)
SMALL, LARGE = (80, 24), (120, 40)
ROOMS = terms(
    Venue("Quay rooms", "USD"), {"channel": "auction", "premium": "25", "carriage": "12.50"}
)
TWO = lot(
    closes=closing("2026-11-08T20:00"),
    venue="Quay rooms",
    items=(LotItem("girl", worth=usd(40)), LotItem("case", plan="parts", parts=usd(8))),
)


def holding(place, *lots, budget=None):
    """An app on a home whose log follows these lots."""
    app = app_on(place)
    keep_book(app.session.log, VenueBook().with_venue(ROOMS))
    for one in lots:
        keep(app.session.log, one)
    if budget is not None:
        keep_budget(app.session.log, Budget(usd(budget), "month", DAY))
    return app


def kept(app):
    return [one.thing for one in held(app.session.log, Lot)]


async def press(pilot, *keys):
    await pilot.press(*keys)
    await settled(pilot)


async def fill(pilot, **values):
    """Write into the fields of the form and keep it."""
    assert isinstance(pilot.app.screen, Form)
    for name, text in values.items():
        pilot.app.screen.query_one(f"#field-{name}").value = text
    await press(pilot, "enter")


class TestColumn:
    def told(self, *lots):
        return glances([Stored("", one) for one in lots], NOW)

    def test_what_closes_first_is_first_and_what_ended_is_gone(self):
        later = lot("later", closes=closing("2026-12-24T20:00"), bid=usd(30), state="bid")
        over = lot("over", closes=closing("2026-11-06T20:00"))
        gone = ended(lot("gone"), "passed", DAY)
        assert self.told(later, TWO, gone, over, lot("unknown")) == (
            LotGlance("over", "closed; no result recorded", "no bid", True),
            LotGlance("two cased pieces", "closes in 1 day 8 h", "no bid", False),
            LotGlance("later", "closes in 6 weeks", "my bid 30.00 USD", False),
            LotGlance("unknown", "closing time not known", "no bid", False),
        )

    @pytest.mark.parametrize(
        ("closes", "more", "stands", "urgent"),
        [
            ("2026-11-08T12:00", {}, "closes in 1 day", True),
            ("2026-11-07T15:20", {}, "closes in 3 h 20 min", True),
            ("2026-11-07T15:20", {"bid": usd(3), "state": "bid"}, "closes in 3 h 20 min", False),
            (
                "2026-11-07T12:00",
                {"bid": usd(3), "state": "bid"},
                "closed; no result recorded",
                True,
            ),
        ],
    )
    def test_a_sign_points_at_what_needs_a_hand(self, closes, more, stands, urgent):
        (told,) = self.told(lot(closes=closing(closes), **more))
        assert (told.stands, told.urgent) == (stands, urgent)
        rows = closing_lines([told], "", 24, 20, FINE)
        assert any(words_of(row).startswith("! two cased") for row in rows) == urgent

    @pytest.mark.parametrize(
        ("on", "stands"),
        [
            (DAY, "closes today"),
            (date(2026, 11, 8), "closes tomorrow"),
            (date(2026, 11, 12), "closes in 5 days"),
            (date(2026, 11, 6), "closed; no result recorded"),
        ],
    )
    def test_a_day_without_an_hour_is_told_in_days(self, on, stands):
        assert self.told(lot(closes=Closing(on=on)))[0].stands == stands

    def test_it_fits_every_size_and_says_how_many_more_there_are(self):
        many = [LotGlance(f"lot {n} " * 9, "closes in 1 day 2 h", "no bid", True) for n in range(9)]
        purse = "108.60 USD left this month"
        for width in (1, 8, 20, 24, 40):
            for rows in (4, 8, 18, 60):
                for marks in (FINE, PLAIN):
                    told = closing_lines(many, purse, width, rows, marks)
                    assert all(length(row) <= width for row in told)
        told = [words_of(row) for row in closing_lines(many, purse, 24, 18, FINE)]
        assert len(told) <= 18
        assert "  and 7 more: o" in told
        assert told[-2:] == ["108.60 USD left this", "month"]

    def test_the_desk_shows_them_in_every_size(self):
        many = [LotGlance(f"lot {n} " * 9, "closes in 1 day 2 h", "no bid", True) for n in range(9)]
        for width in (10, 45, 72, 80, 120):
            for height in (3, 8, 23, 60):
                desk = Desktop("USD", purse=PURSE, today=DAY, lots=many)
                rows = desk_lines(desk, width, height)
                assert all(length(row) <= width for row in rows)
                assert len(rows) <= height


async def test_the_desk_points_at_lots_and_opens_them(tmp_path):
    app = holding(tmp_path, TWO, lot("over", closes=closing("2026-11-01T20:00")), budget=100)
    async with app.run_test(size=SMALL) as pilot:
        await settled(pilot)
        text = shown(app)
        assert "! over" in text
        assert "closed; no result" in text
        assert "100.00 USD left this" in text
        await press(pilot, "o")
        assert isinstance(app.screen, RecordScreen)
        text = shown(app)
        assert "two cased pieces" in text
        assert "2 lots" in text
        await press(pilot, "q")
        assert isinstance(app.screen, Desk)
    app.session.close()


async def test_an_empty_desk_says_how_to_follow_one(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=SMALL) as pilot:
        await settled(pilot)
        assert "No marked lots." in shown(app)
        await press(pilot, "o")
        assert "Press n" in shown(app)
        await press(pilot, "n")
        await fill(pilot, title="girl", closes="2026-11-31")
        assert "is not a date or time" in shown(app)
        await fill(pilot, closes="2026-11-09 20:00 Europe/Berlin", ceiling="45")
        assert isinstance(app.screen, RecordScreen)
        assert "girl" in shown(app)
        assert "most 45.00" in shown(app)
    (one,) = kept(app)
    assert one.closes.at == dt.datetime(2026, 11, 9, 19, tzinfo=UTC)
    assert one.ceiling_on == DAY
    app.session.close()


async def test_the_page_has_pieces_bill_and_maximum(tmp_path):
    app = holding(tmp_path, TWO)
    async with app.run_test(size=LARGE) as pilot:
        await settled(pilot)
        await press(pilot, "o", "enter")
        assert isinstance(app.screen, LotPage)
        text = shown(app)
        # Worth 48, nothing off for a worth that is stated: 28 + 7 + 12.50 = 47.50 of 48.00.
        assert "Maximum bid: 28.00 USD, 47.50 USD in total" in text
        assert "keep, worth 40.00 stated; its share 39.58" in text
        assert "parts, parts worth 8.00; its share 7.92" in text
        assert "premium 7.00" in " ".join(text.split())
        assert "Terms change" in text
    app.session.close()


async def test_a_bid_is_noted_warned_about_and_taken_back(tmp_path):
    app = holding(tmp_path, TWO, budget=50)
    async with app.run_test(size=LARGE) as pilot:
        await settled(pilot)
        await press(pilot, "o", "enter", "b")
        await fill(pilot, bid="40", chance="40")
        assert "40.00 USD is above the maximum bid of 28.00 USD" in shown(app)
        assert kept(app)[0].bid is None
        await press(pilot, "enter")
        assert "12.50 USD over this month's budget" in shown(app)
        await press(pilot, "q")
        # 40 + 10 + 12.50 = 62.50; 40 in 100 of it is 25.00
        assert "bids 62.50 if all win, 25.00 expected" in shown(app)
        assert "12.50 USD over this month's budget" in shown(app)
        await press(pilot, "enter")
        assert kept(app)[0].bid == usd(40)
        await press(pilot, "b")
        await fill(pilot, bid="")
        assert kept(app)[0].state == "followed"
        await press(pilot, "u")
        assert "Undone: an edit of" in shown(app)
        assert kept(app)[0].bid == usd(40)
        await press(pilot, "ctrl+r")
        assert kept(app)[0].bid is None
    app.session.close()


async def test_won_logs_the_pieces_and_one_undo_takes_them_back(tmp_path):
    app = holding(tmp_path, TWO)
    async with app.run_test(size=SMALL) as pilot:
        await settled(pilot)
        await press(pilot, "o", "enter", "w")
        await fill(pilot)
        assert "enter the hammer price" in shown(app)
        await fill(pilot, hammer="40", share="1")
        assert "is not 2 shares" in shown(app)
        await fill(pilot, share="", date="")  # no day: today
        assert isinstance(app.screen, LotPage)
        assert "won, hammer 40.00 USD" in shown(app)
        # 62.50 x 40 / 48 = 52.083...
        assert {one.title: one.paid.plain for one in app.session.log.entries()} == {
            "girl": "52.08", "case": "10.42",
        }  # fmt: skip
        await press(pilot, "w")
        assert "It was won on 2026-11-07" in shown(app)
        await press(pilot, "u")
        assert app.session.log.entries() == ()
        assert "closes in" in shown(app)
    app.session.close()


async def test_lost_and_passed(tmp_path):
    single = lot("girl", items=(LotItem("girl", worth=usd(40)),))
    app = holding(tmp_path, TWO, single)
    async with app.run_test(size=SMALL) as pilot:
        await settled(pilot)
        await press(pilot, "o", "enter", "l")
        await fill(pilot, hammer="70")
        assert "says little about each" in shown(app)
        assert app.session.log.entries() == ()
        await press(pilot, "q")
        assert "1 ended: a shows them" in shown(app)
        await press(pilot, "enter", "x")
        assert "Recorded as not bid on. u: undo." in shown(app)
        await press(pilot, "u", "l")
        await fill(pilot, hammer="44")
        assert [one.hammer.plain for one in app.session.log.entries()] == ["44.00"]
        await press(pilot, "q", "a")
        assert "lost, hammer 70.00" in shown(app)
    app.session.close()


async def test_pieces_and_fields_are_edited(tmp_path):
    app = holding(tmp_path, TWO)
    async with app.run_test(size=SMALL) as pilot:
        await settled(pilot)
        await press(pilot, "o", "enter", "p")
        assert isinstance(app.screen, Picker)
        await press(pilot, "down", "enter")
        await fill(pilot, plan="resell", worth="much")
        assert "'much' is not an amount" in shown(app)
        await fill(pilot, plan="resell", worth="12")
        assert kept(app)[0].items[1] == LotItem("case", plan="resell", worth=usd(12), parts=usd(8))
        await press(pilot, "e")
        await fill(pilot, number="118", venue="")
        assert "lot 118" in " ".join(shown(app).split())
        assert "No venue chosen" in shown(app)
        await press(pilot, "delete", "y")
        assert isinstance(app.screen, RecordScreen)
        assert kept(app) == []
        await press(pilot, "u")
        assert len(kept(app)) == 1
    app.session.close()


async def test_a_piece_is_added_in_a_line_and_taken_out_by_its_title(tmp_path):
    app = holding(tmp_path, lot("box lot"))
    async with app.run_test(size=SMALL) as pilot:
        await settled(pilot)
        await press(pilot, "o", "enter", "p")
        assert "No pieces recorded. a adds one." in shown(app)
        await press(pilot, "a")
        app.screen.query_one("Input").value = "sixth ambro vine hinge taped 45"
        await pilot.pause()
        await press(pilot, "enter")
        assert isinstance(app.screen, LotPage)
        (item,) = kept(app)[0].items
        assert "channel: auction" in item.piece
        assert item.piece.count("known:") == 1  # the process is said; else by photo, as usual there
        await press(pilot, "p")
        await fill(pilot, title="")
        assert kept(app)[0].items == ()
        await press(pilot, "u")
        assert kept(app)[0].items == (item,)
    app.session.close()


async def test_a_budget_is_set_and_dropped(tmp_path):
    app = holding(tmp_path)
    async with app.run_test(size=SMALL) as pilot:
        await settled(pilot)
        await press(pilot, "o", "b")
        await fill(pilot, amount="150", per="year")
        assert "150.00 USD left this year" in shown(app)
        await press(pilot, "b")
        await fill(pilot, amount="")
        assert read_budget(app.session.log) is None
    app.session.close()


async def test_pieces_are_judged_by_the_log(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=LARGE) as pilot:
        await settled(pilot)
        assert "three cased pieces" in shown(app)
        assert "108.60 USD left this month" in shown(app)
        await press(pilot, "o", "enter")
        await settled(pilot)
        text = shown(app)
        assert "by your log" in text
        assert "less 12% selling costs" in text
        assert "aximum bid: " in text
        await press(pilot, "w")
        await fill(pilot, hammer="70")
        girl = next(one for one in app.session.log.entries("boy dog"))
        assert girl.estimate is not None
        assert girl.belonging
        assert girl.extra["lot number"] == "118"
    app.session.close()


async def test_a_bid_page_is_followed(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=SMALL) as pilot:
        await begin(pilot, "sixth ambro thermoplastic vine 45 auction")
        await press(pilot, "p")
        assert isinstance(app.screen, BidPage)
        await press(pilot, "f")
        await fill(pilot, closes="2026-11-09 20:00", number="7")
        assert isinstance(app.screen, BidPage)
        assert "Lot marked" in shown(app)
    one = kept(app)[-1]
    assert (one.number, one.asking, one.channel) == ("7", usd(45), "auction")
    assert "thermoplastic" in one.items[0].piece
    app.session.close()


LISTED = "Sixth plate ambrotype of a girl, union case, hinge taped. $65 plus $8 shipping."
SEVERAL = """Lot of three old photographs
1) ninth plate tintype in leather case, hinge split
2) 1/6 daguerreotype, full case, tarnish
3) cdv of a soldier
120 USD the lot"""


@pytest.mark.parametrize(
    ("text", "pieces", "asked"), [(LISTED, 1, usd(65)), (SEVERAL, 3, usd(120))]
)
async def test_a_listing_is_followed_with_its_pieces(tmp_path, text, pieces, asked):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=SMALL) as pilot:
        await settled(pilot)
        app.post_message(events.Paste(text))
        await settled(pilot)
        await settled(pilot)
        assert isinstance(app.screen, ListingScreen)
        await press(pilot, "f")
        await fill(pilot, closes="2026-11-09")
        assert "Lot marked" in shown(app)
    one = kept(app)[-1]
    assert len(one.items) == pieces
    assert one.asking == asked
    assert all(item.piece for item in one.items)
    assert one.closes == Closing(on=date(2026, 11, 9))
    app.session.close()


@pytest.mark.parametrize("size", [(30, 8), (40, 15), (60, 20), (200, 60)])
async def test_it_fits_every_size(tmp_path, size):
    app = holding(tmp_path, TWO, lot("over " * 20, closes=closing("2026-11-01T20:00")), budget=9)
    async with app.run_test(size=size) as pilot:
        await settled(pilot)
        await press(pilot, "o")
        rows = shown(app).split("\n")
        assert all(len(row) <= size[0] for row in rows)
        assert len(rows) == size[1]
        await press(pilot, "down", "down", "up", "enter")
        assert isinstance(app.screen, LotPage)
        assert all(length(row) <= size[0] - 2 for row in app.screen.lines(size[0] - 2))
    app.session.close()


async def test_a_lot_that_another_program_changed_is_not_overwritten(tmp_path):
    app = holding(tmp_path, TWO)
    async with app.run_test(size=LARGE) as pilot:
        await settled(pilot)
        await press(pilot, "o", "enter", "e")
        (one,) = held(app.session.log, Lot)
        change(app.session.log, Stored(one.id, lot("changed elsewhere")))
        await fill(pilot, number="3")
        assert "was changed by another program meanwhile" in shown(app)
    app.session.close()


def test_time_goes_on_from_the_day_the_app_was_begun_for(tmp_path):
    times = [dt.datetime(2027, 3, 1, 23, 50, tzinfo=UTC)]
    one = Session(Home(tmp_path), Settings(), DAY, lambda: times[0], "test")
    before = one.moment()
    assert abs((before.date() - DAY).days) <= 1
    times[0] += dt.timedelta(minutes=20)  # over midnight: the time goes on
    assert one.moment() - before == dt.timedelta(minutes=20)
    one.close()


def test_a_desk_without_lots_loads_nothing_for_them(tmp_path):
    session(tmp_path).close()
    code = (
        "import sys, datetime as dt\nfrom pathlib import Path\n"
        "from appraise.app.glances import followed\n"
        "from appraise.store.log import open_log\n"
        "log = open_log(Path(sys.argv[1]), lambda: dt.datetime.now(dt.UTC), 'desk')\n"
        "assert followed(log, 'USD', dt.date(2026, 11, 7)) == ((), None)\n"
        "assert 'appraise.records.lot' not in sys.modules\nassert 'msgspec' not in sys.modules"
    )
    done = subprocess.run([sys.executable, "-c", code, str(tmp_path / "log.sqlite")], check=False)
    assert done.returncode == 0
