"""A price that fits nothing else in the log is marked where it stands, and told in full."""

from dataclasses import replace
from datetime import date, timedelta

from app.kit import app_on, settled, shown
from store.logkit import terms

from appraise.app.lines import words_of
from appraise.app.lists.page import RecordPage
from appraise.app.lists.price import status_lines
from appraise.base.money import Money
from appraise.records.entry import Entry
from appraise.records.venue import Venue
from appraise.records.venuebook import VenueBook
from appraise.store.venue_book import keep_book

BASE = Entry("bought", date(2026, 1, 1), kind="cased", process="ambrotype", format="sixth")


def entries():
    """Forty invented pieces at about 40, and the latest one at 4,000."""
    prices = [36 + n % 9 for n in range(40)] + [4000]
    return [
        replace(
            BASE,
            title=f"piece {n}",
            date=BASE.date + timedelta(n),
            paid=Money.parse(f"{price}.00 USD"),
        )
        for n, price in enumerate(prices)
    ]


async def test_the_odd_price_is_marked_and_explained(tmp_path):
    app = app_on(tmp_path)
    app.session.log.add_all(entries())
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        await pilot.press("p")
        await settled(pilot)
        await settled(pilot)
        marked = [row for row in shown(app).splitlines() if row[1:2] == "?"]
        assert len(marked) == 1
        assert "4000.00" in marked[0]
        await pilot.press("enter")
        await settled(pilot)
        assert isinstance(app.screen, RecordPage)
        told = " ".join(shown(app).split())
        assert "? Check this price: a total of 4,000 USD" in told
        assert "is given little weight" in told


async def test_a_hammer_price_shows_what_it_comes_to(tmp_path):
    app = app_on(tmp_path)
    rooms = terms(Venue("Quay rooms", "USD"), {"premium": "25", "carriage": "5"})
    keep_book(app.session.log, VenueBook().with_venue(rooms))
    app.session.read_book()
    entry = replace(BASE, record="hammer", hammer=Money.parse("40 USD"), venue="quay rooms")
    told = words_of(status_lines(app.session, entry, 78)[0])
    assert told == "total        55.00 USD to you (hammer 40.00, premium 10.00, shipping 5.00)"
    assert status_lines(app.session, replace(entry, venue=""), 78) == []
    app.session.close()


async def test_no_key_learns_the_log_again(tmp_path, monkeypatch):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        await pilot.press("p")
        await settled(pilot)
        await settled(pilot)
        assert app.session.learnt is not None

        def refuse(*args, **more):
            raise AssertionError("the log was learnt again")

        monkeypatch.setattr("appraise.pricing.estimate.fit", refuse)
        await pilot.press("q", "n")
        await pilot.pause()
        app.screen.query_one("Input").value = "sixth ambro vine 45"
        await pilot.press("enter")
        await settled(pilot)
        for key in ("1", "2", "m", "1", "space", "1"):
            await pilot.press(key)
            await settled(pilot)
        assert app.screen.exam.verdict.worth is not None


async def test_one_change_is_learnt_once(tmp_path, monkeypatch):
    app = app_on(tmp_path)
    app.session.log.add_all(entries())
    learnt = []
    plain = type(app.session).learn

    def counted(session, changes):
        learnt.append(changes)
        return plain(session, changes)

    monkeypatch.setattr(type(app.session), "learn", counted)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        before = len(learnt)
        app.session.log.add(replace(BASE, title="one more", paid=Money.parse("41.00 USD")))
        app.session.changes += 1
        for _ in range(3):
            app.learn_prices()
        await pilot.press("p")
        await settled(pilot)
        await settled(pilot)
        assert len(learnt) == before + 1
        assert len(app.session.learnt.titles) == 42
