"""Work on the Prices screen: in place, in a line, typos, pictures, two machines."""

import re
import shutil
import threading
from dataclasses import replace
from datetime import date

import pytest
from app.kit import app_on, session, settled, shown

from appraise.app import photos
from appraise.app.desk import Desk
from appraise.app.lists.price import SPEC
from appraise.app.prices import lookups
from appraise.app.prices.actions import like
from appraise.app.prices.editor import field_behind, text_of, with_cell
from appraise.app.widgets.rows import PAGE, Paged
from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.records.entry import Entry
from appraise.store.backup import backups
from appraise.store.log import Log
from appraise.store.merge import merge
from appraise.store.search import SORTS

ENTRY = Entry(
    record="bought",
    date=date(2026, 5, 2),
    channel="market",
    kind="cased",
    process="ambrotype",
    housing="thermoplastic",
    format="sixth",
    title="girl with a basket",
    paid=Money.parse("45 USD"),
)
LINE = "sixth ambrotype thermoplastic vine 38 + 6 post, quay market, yesterday"
SIZE = (80, 24)


async def press(pilot, *keys):
    for key in keys:
        await pilot.press(key)
    await settled(pilot)


async def prices_of(pilot):
    await settled(pilot)
    await press(pilot, "p")


async def write(pilot, text):
    """Write over what stands in the line one is in."""
    pilot.app.focused.value = text
    await settled(pilot)


# Cells


@pytest.mark.parametrize(
    ("column", "text", "field", "value"),
    [
        ("date", "2026-04-01", "date", date(2026, 4, 1)),
        ("date", "", "date", ENTRY.date),
        ("record", "Sold", "record", "sold"),
        ("title", "  two   girls ", "title", "two girls"),
        ("process", "Ruby Glass", "process", "ruby-glass"),
        ("process", "", "process", ""),
        ("price", "50", "paid", Money.parse("50 USD")),
        ("price", "50 GBP", "paid", Money.parse("50 GBP")),
    ],
)
def test_a_cell_changes_its_field_alone(column, text, field, value):
    changed = with_cell(ENTRY, column, text, "USD")
    assert getattr(changed, field) == value
    assert replace(changed, **{field: getattr(ENTRY, field)}) == ENTRY


@pytest.mark.parametrize("column", [one.name for one in SPEC.columns])
def test_a_cell_left_as_it_is_changes_nothing(column):
    assert with_cell(ENTRY, column, text_of(ENTRY, column), "GBP") == ENTRY


@pytest.mark.parametrize(
    ("column", "text"),
    [("date", "soon"), ("record", "bougt"), ("price", "much"), ("price", "0"), ("price", "")],
)
def test_a_mistake_in_a_cell_is_one_line(column, text):
    with pytest.raises(InputError) as caught:
        with_cell(ENTRY, column, text, "USD")
    assert "\n" not in str(caught.value)


def test_the_price_cell_is_the_amount_that_says_most():
    asked = replace(ENTRY, paid=None, asked=Money.parse("65 USD"))
    assert field_behind(asked, "price") == "asked"
    assert field_behind(replace(ENTRY, paid=None), "price") == "paid"


async def test_an_entry_is_edited_where_it_stands(tmp_path):
    first = session(tmp_path)
    entry = first.log.add(ENTRY)
    first.close()
    app = app_on(tmp_path)
    async with app.run_test(size=SIZE) as pilot:
        await prices_of(pilot)
        await press(pilot, "e")
        assert app.focused.value == "45.00 USD"
        assert "tab next cell" in shown(app)
        await write(pilot, "much")
        await press(pilot, "tab")
        assert "'much' is not an amount of money" in shown(app)
        assert app.focused.value == "much"
        await write(pilot, "40")
        await press(pilot, "tab")
        assert app.focused.value == "2026-05-02"
        await press(pilot, "shift+tab", "shift+tab")
        assert app.focused.value == "ambrotype"
        await write(pilot, "ruby ambro")
        await press(pilot, "enter")
        after = shown(app)
        kept = app.session.log.entry(entry.id)
        history = len(app.session.log.history(entry.id))
        await press(pilot, "e")
        await write(pilot, "1")
        await press(pilot, "escape")
        untouched = app.session.log.entry(entry.id)
    app.session.close()
    assert kept == replace(entry, paid=Money.parse("40 USD"), process="ambrotype-ruby")
    assert history == 2, "all cells are one edit, undone as one"
    assert "40.00" in after
    assert "/ filter" in after
    assert untouched == kept


async def test_another_screen_ends_editing_in_place(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=SIZE) as pilot:
        await prices_of(pilot)
        await press(pilot, "e")
        await write(pilot, "1")
        await press(pilot, "f1")
        await press(pilot, "escape")
        assert app.focused is None
        assert "/ filter" in shown(app)
        assert not app.session.log.coming("redo")
        assert app.session.changes == 0
    app.session.close()


# A line, another like it


async def test_a_price_is_logged_in_a_line_and_shown_before_it_is_kept(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=SIZE) as pilot:
        await prices_of(pilot)
        await press(pilot, "s", "n")
        await press(pilot, "enter")
        assert "Nothing typed yet" in shown(app)
        await write(pilot, "sixth ambro")
        await press(pilot, "enter")
        assert "No amount: write one" in shown(app)
        await write(pilot, LINE)
        text = shown(app)
        before = app.session.log.summary().count
        await press(pilot, "enter")
        after = app.session.log.summary().count
        here = app.screen.here.thing
        assert "Logged. u: undo." in shown(app)
        await press(pilot, "u")
        undone = app.session.log.summary().count
    app.session.close()
    for words in (
        "process ambrotype",
        "shipping 6.00 USD",
        "saved as bought 38.00 USD on 2026-11-06",
    ):
        assert words in text
    assert (before, after, undone) == (96, 97, 96)
    assert (here.paid, here.venue) == (Money.parse("38 USD"), "quay market")


def test_another_has_nothing_that_belongs_to_the_one():
    entry = replace(
        ENTRY, id="0" * 16, piece="piece: 1", note="found", belonging=(("together", 0.9),)
    )
    assert like(entry) == ENTRY


async def test_another_like_it_is_of_today(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=SIZE) as pilot:
        await prices_of(pilot)
        await press(pilot, "end")
        old = app.screen.here.thing
        await press(pilot, "d")
        await press(pilot, "enter")
        new = app.screen.here.thing
    app.session.close()
    assert new.id != old.id
    assert new == replace(like(old), id=new.id, date=app.session.as_of)


# The currency


async def test_the_currency_is_asked_once(tmp_path):
    first = session(tmp_path, asked=False)
    first.log.save_draft(
        "piece", "piece: 1\ntitle: begun\nchannel: online\n"
    )  # no new home any more
    first.close()
    app = app_on(tmp_path, asked=False)
    async with app.run_test(size=SIZE) as pilot:
        await prices_of(pilot)
        await press(pilot, "n")
        assert "Which currency are your prices in?" in shown(app)
        await write(pilot, "gpb")
        await press(pilot, "enter")
        assert "no match" in shown(app)
        await write(pilot, "gbp")
        await press(pilot, "enter")
        await write(pilot, "sixth ambro 45")
        assert "paid 45.00 GBP" in shown(app)
        await press(pilot, "enter")
        await press(pilot, "n")
        assert "Log a price" in shown(app)
    app.session.close()
    with session(tmp_path).log as log:
        assert (log.base_currency, log.currency_chosen) == ("GBP", True)


async def test_esc_keeps_the_currency_as_it_stands(tmp_path):
    app = app_on(tmp_path, asked=False, currency="EUR", region="eu")
    async with app.run_test(size=SIZE) as pilot:
        await settled(pilot)
        assert "Which currency are your prices in?" in shown(app)
        await press(pilot, "escape")
        assert isinstance(app.screen, Desk)
        assert app.session.log.base_currency == "EUR"
        await press(pilot, "n")
        assert "First look" in shown(app)
    app.session.close()


# Filters, orders and long lists


async def test_a_typo_is_offered_and_looked_up_off_the_key_path(tmp_path, monkeypatch):
    threads = []

    def spied(log, query):
        threads.append(threading.get_ident())
        return real(log, query)

    real = lookups.guess
    monkeypatch.setattr(lookups, "guess", spied)
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=SIZE) as pilot:
        await prices_of(pilot)
        await press(pilot, "slash")
        await write(pilot, "soldeir")
        assert "Did you mean soldier? enter accepts it." in shown(app)
        await press(pilot, "enter")
        assert app.screen.query_one("#filter").value == "soldier"
        assert "5 entries" in shown(app)
        await press(pilot, "slash")
        await write(pilot, "xqzv")
        assert "Did you mean" not in shown(app)
        assert "0 entries" in shown(app)
        await press(pilot, "escape")
        assert "96 entries" in shown(app)
    app.session.close()
    assert threads
    assert threading.get_ident() not in threads


def test_orders_are_known_to_the_log_and_told():
    for column in SPEC.columns:
        assert column.name in SORTS
    assert set(SPEC.turns) <= {column.name for column in SPEC.columns}


async def test_the_order_is_turned_round(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=SIZE) as pilot:
        await prices_of(pilot)
        await press(pilot, "s", "S")
        cheapest = app.screen.here.thing
        assert "sorted by price, reversed" in shown(app)
        least = min(one.price.amount for one in app.session.log.entries() if one.price)
    app.session.close()
    assert cheapest.price.amount == least


def test_how_many_there_are_is_asked_only_where_it_matters():
    asked = []

    def ask():
        asked.append(1)
        return 130

    rows = Paged(lambda limit, offset: [ENTRY] * max(0, min(limit, 130 - offset)), ask)
    assert rows.at(0)
    assert rows.least == PAGE + 1
    assert rows.at(60)
    assert asked == []
    assert rows.at(120)
    assert (rows.least, rows.count, asked) == (130, 130, [])
    far = Paged(lambda limit, offset: [ENTRY] * max(0, min(limit, 150 - offset)), ask)
    assert far.at(500) is None
    assert far.count == 130
    assert asked == [1]


async def test_only_what_is_on_the_screen_is_read_and_drawn(tmp_path, monkeypatch):
    first = session(tmp_path)
    first.log.add_all([replace(ENTRY, title=f"plate {n}") for n in range(3_000)])
    first.close()
    fetched = []

    def spied(self, query="", **more):
        fetched.extend([PAGE] * (more["limit"] == PAGE))  # the price model reads by larger pages
        return real(self, query, **more)

    real = Log.entries
    app = app_on(tmp_path)
    async with app.run_test(size=SIZE) as pilot:
        await settled(pilot)
        monkeypatch.setattr(Log, "entries", spied)
        await press(pilot, "p")
        opened = sum(fetched)
        text = shown(app)
        await press(pilot, "end")
        last = shown(app)
    app.session.close()
    assert opened == PAGE
    assert text.count("plate") == 19
    assert "3,000 of 3,000" in last
    assert sum(fetched) <= 3 * PAGE


# Pictures


async def test_pictures_are_added_shown_and_dropped(tmp_path, monkeypatch):
    started = []
    monkeypatch.setattr(photos, "show", lambda path, picture: started.append(picture.name))
    files = [tmp_path / name for name in ("front.jpg", "back.jpg")]
    for file in files:
        file.write_bytes(file.name.encode())
    home = tmp_path / "home"
    first = session(home)
    entry = first.log.add(ENTRY)
    first.close()
    app = app_on(home)
    async with app.run_test(size=SIZE) as pilot:
        await prices_of(pilot)
        await press(pilot, "enter", "o")
        assert "No photos yet. a adds one." in shown(app)
        await press(pilot, "a")
        await write(pilot, str(tmp_path / "none.jpg"))
        await press(pilot, "enter")
        assert "cannot be read" in shown(app)
        await write(pilot, str(files[0]))
        await press(pilot, "enter")
        assert re.search(r"^ photos +front\.jpg", shown(app), re.MULTILINE)
        await press(pilot, "o")
        assert started == ["front.jpg"]
        await press(pilot, "a")
        await write(pilot, str(files[1]))
        await press(pilot, "enter")
        await press(pilot, "o")
        assert "Open which photo?" in shown(app)
        await press(pilot, "down", "enter")
        assert started == ["front.jpg", "back.jpg"]
        await press(pilot, "x", "enter")
        assert re.search(r"^ photos +back\.jpg", shown(app), re.MULTILINE)
        kept = app.session.log.entry(entry.id).pictures
    app.session.close()
    assert [one.name for one in kept] == ["back.jpg"]


# Two machines


@pytest.fixture
def merged(tmp_path):
    """A home whose log and a laptop's changed two entries each their way."""
    desk = session(tmp_path / "desk")
    entries = desk.log.add_all([ENTRY, replace(ENTRY, title="two millers")])
    desk.log.connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    (tmp_path / "laptop").mkdir()
    shutil.copy(desk.log.path, tmp_path / "laptop" / "log.sqlite")
    laptop = session(tmp_path / "laptop", machine="laptop")
    laptop.log.edit(replace(entries[0], paid=Money.parse("40 USD")))
    laptop.log.commit(drop=[entries[1].id])
    laptop.close()
    desk.log.edit(replace(entries[0], paid=Money.parse("41 USD")))
    desk.log.edit(replace(entries[1], note="tinted"))
    merge(desk.log, tmp_path / "laptop" / "log.sqlite")
    desk.close()
    return tmp_path / "desk", entries


async def test_what_two_machines_left_is_told_and_settled(merged):
    home, entries = merged
    app = app_on(home)
    async with app.run_test(size=SIZE) as pilot:
        await prices_of(pilot)
        assert "2 changed on two computers, c resolves" in shown(app)
        await press(pilot, "c")
        assert "girl with a basket" in shown(app)
        assert "two millers" in shown(app)
        await write(pilot, "girl")
        await press(pilot, "enter")
        text = shown(app)
        await write(pilot, "laptop")
        await press(pilot, "enter")
        assert "Resolved. u: undo." in shown(app)
        assert "1 changed on two computers" in shown(app)
        settled_on = app.session.log.entry(entries[0].id)
        await press(pilot, "c")
        last = shown(app)
        await write(pilot, "left as it is")
        await press(pilot, "enter")
        await press(pilot, "c")
        assert "No disagreements" in shown(app)
    app.session.close()
    assert "paid 40.00 USD" in text
    assert "paid 41.00 USD" in text
    assert "shows now" in text
    assert settled_on.paid == Money.parse("40 USD")
    assert "removed" in last


# Backups


async def test_the_app_backs_the_log_up_once_a_day(tmp_path):
    first = session(tmp_path)
    first.log.add(ENTRY)
    first.close()
    for _ in range(2):
        app = app_on(tmp_path)
        async with app.run_test(size=SIZE) as pilot:
            await settled(pilot)
        app.session.close()
    (backup,) = backups(app.session.log.path)
    assert backup.reason == "daily"


async def test_a_backup_that_cannot_be_made_is_told_and_stands_in_nobodys_way(tmp_path):
    first = session(tmp_path)
    first.log.add(ENTRY)
    first.close()
    (tmp_path / "backups").write_text("in the way")
    app = app_on(tmp_path)
    async with app.run_test(size=SIZE) as pilot:
        await settled(pilot)
        assert "no backup today" in shown(app)
        await press(pilot, "p")
        assert "girl with a basket" in shown(app)
    app.session.close()
