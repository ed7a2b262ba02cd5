"""The Bid page and the money in the panel: a venue's bill stands behind every figure."""

import re

import pytest
from app.kit import app_on, begin, settled, shown
from store.logkit import terms

from appraise.app.bid.view import BidPage
from appraise.app.examine.view import Examine
from appraise.app.lines import length
from appraise.records.venue import Venue
from appraise.records.venuebook import VenueBook
from appraise.store.venue_book import keep_book, read_book

ROOMS = terms(
    Venue("Quay rooms", "USD"),
    {"channel": "auction", "premium": "25", "carriage": "12.50", "checked": "2026-11-01"},
)
LINE = "sixth ambro thermoplastic vine 45 auction"


async def examined(app, pilot, line=LINE):
    await begin(pilot, line)
    await settled(pilot)
    assert isinstance(app.screen, Examine)


async def test_without_terms_the_bid_is_the_whole_cost(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(80, 24)) as pilot:
        await examined(app, pilot, "sixth ambro thermoplastic vine 45 market")
        await pilot.press("m")
        await pilot.pause()
        assert re.search(r"limit \d", shown(app))
        await pilot.press("p")
        await settled(pilot)
        assert isinstance(app.screen, BidPage)
        text = shown(app)
        assert "No venue chosen" in text
        assert re.search(r"Limit: \d", text)
        assert "guesses" not in text  # no rivals at a stall


async def test_an_auction_goes_by_the_usual_house_and_its_rivals(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(80, 24)) as pilot:
        await examined(app, pilot)
        assert re.search(r"maximum bid \d", shown(app))
        await pilot.press("p")
        await settled(pilot)
        told = " ".join(shown(app).split())
        assert "Thornfield rooms: terms checked on 2025-08-30, more than a year ago." in told
        assert "the winner of 4 bidders" in told


async def test_a_venue_is_chosen_and_the_panel_follows(tmp_path):
    app = app_on(tmp_path, demo=True)
    keep_book(app.session.log, VenueBook().with_venue(ROOMS))
    async with app.run_test(size=(80, 30)) as pilot:
        await examined(app, pilot)
        await pilot.press("p")
        await settled(pilot)
        await pilot.press("v")
        await settled(pilot)
        await pilot.press(*"quay", "enter")
        await settled(pilot)
        text = shown(app)
        assert "Quay rooms: terms checked on 2026-11-01" in text
        assert "Terms change: check the auction house's current conditions." in " ".join(
            text.split()
        )
        assert "premium" in text
        assert "shipping" in text
        assert "chance to win" in text
        await pilot.press("q")
        await settled(pilot)
        assert app.screen.exam.piece.origin.where == "Quay rooms"
        assert re.search(r"maximum bid \d", shown(app))
        assert re.search(r"total \d", shown(app))


async def test_a_new_venue_is_noted_from_the_page(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(80, 40)) as pilot:
        await examined(app, pilot)
        await pilot.press("p")
        await settled(pilot)
        await pilot.press("n")
        await settled(pilot)
        app.screen.query_one("#field-name").value = "Mill rooms"
        app.screen.query_one("#field-premium").value = "20 to 500, 15"
        await pilot.press("enter")
        await settled(pilot)
        assert isinstance(app.screen, BidPage)
        assert "Mill rooms: terms checked on 2026-11-07" in shown(app)
    kept = read_book(app.session.log).named("Mill rooms")
    assert kept.channel == "auction"
    assert len(kept.bands) == 2


async def test_changed_terms_count_as_checked_today(tmp_path):
    app = app_on(tmp_path, demo=True)
    usual = terms(ROOMS, {"usual": "yes"})
    keep_book(app.session.log, VenueBook().with_venue(usual))
    async with app.run_test(size=(80, 40)) as pilot:
        await examined(app, pilot)
        await pilot.press("p")
        await settled(pilot)
        await pilot.press("e")
        await settled(pilot)
        await pilot.press("enter")
        await settled(pilot)
        assert "terms checked on 2026-11-07" in shown(app)


@pytest.mark.parametrize("size", [(30, 10), (60, 20), (200, 60)])
async def test_it_fits_every_size(tmp_path, size):
    app = app_on(tmp_path, demo=True)
    keep_book(app.session.log, VenueBook().with_venue(terms(ROOMS, {"usual": "yes"})))
    async with app.run_test(size=size) as pilot:
        await examined(app, pilot)
        await pilot.press("p")
        await settled(pilot)
        assert isinstance(app.screen, BidPage)
        assert all(length(row) <= size[0] - 2 for row in app.screen.lines(size[0] - 2))


async def test_without_a_worth_it_says_why(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test() as pilot:
        await examined(app, pilot)
        await pilot.press("p")
        await settled(pilot)
        assert isinstance(app.screen, BidPage)
        assert "Log a few prices to get a limit" in shown(app)
        await pilot.press("q")
        await pilot.pause()
        assert isinstance(app.screen, Examine)
