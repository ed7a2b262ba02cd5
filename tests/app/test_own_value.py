"""The bid page: a value of one's own, one bill everywhere, and what is asked beside the maximum."""

import re
from dataclasses import replace
from decimal import Decimal

from app.kit import DAY, app_on, begin, settled, shown
from textual import events

from appraise.app.bid.view import BidPage
from appraise.documents.bid import NO_TERMS, terms_said
from appraise.records.venue import Venue

LISTED = """Antique sixth plate ambrotype of a girl with a basket, union case, vine pattern.
Case 3 3/4 x 3 1/4 in closed. Starting bid $165, shipping $8.50."""


def words(app):
    return " ".join(shown(app).split())


async def give(pilot, value):
    """Give a value of one's own on the bid page."""
    await pilot.press("y")
    await settled(pilot)
    pilot.app.screen.query_one("Input").value = value
    await pilot.press("enter")
    await settled(pilot)


def test_without_a_venue_the_bill_still_says_what_it_holds():
    bare = Venue("online", "USD")
    assert terms_said(None, DAY, bare).endswith("no premium, tax or shipping added.")
    listed = replace(bare, carriage=Decimal("8.50"), listed=True)
    assert terms_said(None, DAY, listed) == NO_TERMS
    assert "shipping of the listing" in NO_TERMS


async def test_without_prices_a_value_of_ones_own_gives_a_bill(tmp_path):
    app = app_on(tmp_path)
    app.session.shows = True
    async with app.run_test(size=(110, 30)) as pilot:
        await begin(pilot, "sixth ambro thermoplastic vine 45 auction")
        assert "p a bid by a value of your own" in shown(app)
        await pilot.press("p")
        await settled(pilot)
        assert isinstance(app.screen, BidPage)
        assert "y: give a value of your own" in words(app)
        await give(pilot, "80")
        told = words(app)
        assert "your value: worth 80.00 USD" in told
        assert re.search(r"Maximum bid: \d+\.\d\d USD", told)
        await give(pilot, "80 GBP")
        assert "80.00 GBP is not in USD" in words(app)
        app.screen.query_one("Input").value = ""
        await pilot.press("enter")
        await settled(pilot)
        assert "your value:" not in words(app)


async def test_a_value_at_a_stall_gives_a_limit_and_hidden_amounts_stay_hidden(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=(110, 30)) as pilot:
        await begin(pilot, "sixth ambro thermoplastic vine 45 market")
        await pilot.press("p")
        await settled(pilot)
        await give(pilot, "80")
        assert "80" not in shown(app)
        await pilot.press("m")
        await settled(pilot)
        assert "Limit: 80.00 USD" in words(app)
        assert "winner" not in words(app)


async def test_listing_bid_and_lot_tell_one_maximum_with_the_shipping_of_the_text(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(110, 34)) as pilot:
        await settled(pilot)
        app.post_message(events.Paste(LISTED))
        await settled(pilot)
        limit, total = re.search(r"maximum bid (\d+).*total ([\d.]+)", words(app)).groups()
        await pilot.press("p")
        await settled(pilot)
        told = words(app)
        assert f"Maximum bid: {limit}.00 USD" in told
        assert f"total {total}" in told
        assert "8.50" in told
        assert "Asked 165.00 USD: that is far above your maximum bid." in told
        await pilot.press("f")
        await settled(pilot)
        await pilot.press("enter")
        await settled(pilot)
        for _ in range(2):
            await pilot.press("q")
            await settled(pilot)
        await pilot.press("o")
        await settled(pilot)
        await pilot.press("end", "enter")
        await settled(pilot)
        told = words(app)
        assert f"Maximum bid: {limit}.00 USD" in told
        assert f"total {total}" in told
        assert "far above your maximum bid" in told


async def test_a_value_of_ones_own_stays_with_the_piece_and_goes_into_its_lot(tmp_path):
    app = app_on(tmp_path)
    app.session.shows = True
    async with app.run_test(size=(110, 34)) as pilot:
        await begin(pilot, "sixth ambro thermoplastic vine 45 auction")
        await pilot.press("p")
        await settled(pilot)
        await give(pilot, "80")
        await pilot.press("q", "p")
        await settled(pilot)
        assert "your value: worth 80.00 USD" in words(app)
        await pilot.press("f")
        await settled(pilot)
        await pilot.press("enter")
        await settled(pilot)
        for _ in range(2):
            await pilot.press("q")
            await settled(pilot)
        await pilot.press("o")
        await settled(pilot)
        await pilot.press("end", "enter")
        await settled(pilot)
        told = words(app)
        assert "80.00" in told
        assert "Do not bid" not in told
        assert "worth 0.00" not in told


async def test_a_lot_of_unknown_worth_says_so_and_what_to_do(tmp_path):
    app = app_on(tmp_path)
    app.session.shows = True
    async with app.run_test(size=(110, 34)) as pilot:
        await begin(pilot, "sixth ambro thermoplastic vine 45 auction")
        await pilot.press("p")
        await settled(pilot)
        await pilot.press("f")
        await settled(pilot)
        await pilot.press("enter")
        await settled(pilot)
        for _ in range(2):
            await pilot.press("q")
            await settled(pilot)
        await pilot.press("o")
        await settled(pilot)
        await pilot.press("end", "enter")
        await settled(pilot)
        told = words(app)
        assert "No limit: the worth of no piece is known. Enter a value" in told
        for wrong in ("Do not bid", "costs exceed", "worth 0.00", "shown instead", "valued at 0"):
            assert wrong not in told
