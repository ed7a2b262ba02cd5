"""The Prices screen: a long log in a window, filtered, edited, removed and undone."""

import re
from datetime import date

import pytest
from app.kit import app_on, session, settled, shown

from appraise.app.form import fields_of
from appraise.app.lines import words_of
from appraise.app.lists.page import history_lines
from appraise.app.prices.actions import entry_with
from appraise.app.widgets.rows import KEPT, PAGE, Paged
from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.records.entry import Entry
from appraise.records.values import Author
from appraise.store.machines import Machine

BY = Author("USD", date(2026, 11, 7))
ENTRY = Entry(
    record="bought",
    date=date(2026, 5, 2),
    channel="market",
    kind="cased",
    process="ambrotype",
    housing="thermoplastic",
    format="sixth",
    title="girl with a basket",
    motif="vine",
    appeal=4,
    asked=Money.parse("58 USD"),
    paid=Money.parse("45 USD"),
    note="two\nlines",
)


def written(entry):
    """What stands in the form before anything is typed."""
    return {field.name: field.value for field in fields_of(entry, BY)}


def test_pages_are_fetched_when_they_are_looked_at_and_then_remembered():
    asked = []

    def fetch(limit, offset):
        asked.append(offset)
        return [ENTRY] * min(limit, 100_000 - offset)

    rows = Paged(fetch, lambda: 100_000)
    assert all(rows.at(place) for place in range(20))
    assert all(rows.at(place) for place in range(20))
    assert asked == [0]
    assert rows.at(rows.count - 1)
    assert asked == [0, 100_000 - PAGE]
    for n in range(2 * KEPT):
        rows.at(n * PAGE)
    assert len(rows._pages) <= KEPT


def test_an_empty_list_has_no_entry():
    rows = Paged(lambda limit, offset: [], lambda: 0)
    assert rows.at(0) is None
    assert (rows.least, rows.count) == (0, 0)


def test_a_form_left_as_it_is_changes_nothing():
    assert entry_with(ENTRY, written(ENTRY), BY) == ENTRY


def test_a_form_changes_what_was_typed():
    typed = {**written(ENTRY), "paid": "40", "appeal": "", "record": "sold", "own_work": "yes"}
    entry = entry_with(ENTRY, typed, BY)
    assert (entry.paid, entry.appeal) == (Money.parse("40 USD"), None)
    assert (entry.record, entry.own_work) == ("sold", True)
    assert entry.note == "two\nlines"


@pytest.mark.parametrize(
    ("field", "text"),
    [
        ("paid", "much"),
        ("paid", "-4"),
        ("paid", "0"),
        ("paid", "4 XXX"),
        ("date", "yesterday"),
        ("appeal", "6"),
        ("record", "bougt"),
        ("channel", "stall"),
        ("own_work", "maybe"),
    ],
)
def test_a_mistake_names_its_field(field, text):
    with pytest.raises(InputError) as caught:
        entry_with(ENTRY, {**written(ENTRY), field: text}, BY)
    assert caught.value.where == field
    assert "\n" not in str(caught.value)


def test_an_entry_keeps_an_amount():
    bare = {**written(ENTRY), "paid": "", "asked": ""}
    with pytest.raises(InputError, match="an entry needs an amount"):
        entry_with(ENTRY, bare, BY)


async def test_filter_edit_remove_undo(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        await pilot.press("p")
        await settled(pilot)
        assert "96 entries" in shown(app)
        await pilot.press("slash")
        app.screen.query_one("Input").value = "proces:amb"
        await pilot.pause()
        assert "process" in shown(app).split("\n")[-1]
        assert "96 entries" in shown(app)
        app.screen.query_one("Input").value = "girl process:amb"
        await settled(pilot)
        await pilot.press("enter")
        assert "3 entries  paid 193.00  median 70.00 USD" in shown(app)

        await pilot.press("E")
        await settled(pilot)
        paid = app.screen.query_one("#field-paid")
        paid.value = "much"
        await pilot.press("enter")
        await settled(pilot)
        assert "not an amount of money" in shown(app)
        assert app.focused is paid
        paid.value = "71"
        await pilot.press("enter")
        await settled(pilot)
        assert "paid 194.00" in shown(app)

        await pilot.press("delete", "n")
        await settled(pilot)
        assert "3 entries" in shown(app)
        await pilot.press("delete", "y")
        await settled(pilot)
        assert "2 entries" in shown(app)
        await pilot.press("u")
        await settled(pilot)
        assert "Undone: the removal of" in shown(app)
        assert "3 entries" in shown(app)
        await pilot.press("u")
        await settled(pilot)
        assert "paid 193.00" in shown(app)
        await pilot.press("ctrl+r")
        await settled(pilot)
        assert "paid 194.00" in shown(app)
        await pilot.press("escape")
        await settled(pilot)
        assert "96 entries" in shown(app)
        changes = app.session.changes
    app.session.close()
    assert changes == 5


async def test_an_entry_is_shown_with_its_history(tmp_path):
    first = session(tmp_path)
    entry = first.log.add(ENTRY)
    first.log.edit(entry_with(entry, {**written(entry), "paid": "40"}, BY))
    first.close()
    app = app_on(tmp_path)
    async with app.run_test(size=(80, 40)) as pilot:
        await settled(pilot)
        await pilot.press("p", "enter")
        await settled(pilot)
        text = shown(app)
        await pilot.press("delete", "y")
        await settled(pilot)
        after = shown(app)
    app.session.close()
    assert re.search(r"^ paid +40\.00 USD$", text, re.MULTILINE)
    assert "edited: paid 45.00 USD to 40.00 USD" in text
    assert "added" in text
    assert "The log is empty" in after


def test_history_tells_what_changed(tmp_path):
    with session(tmp_path).log as log:
        entry = log.add(ENTRY)
        log.commit(drop=[entry.id])
        log.undo()
        past = log.history(entry.id)
    rows = [words_of(row) for row in history_lines(past, 78, log.signs)]
    assert [row.rpartition(", ")[2] for row in rows[1:]] == ["undone", "removed", "added"]
    assert not [row for row in rows if " on " in row]
    others = [words_of(row) for row in history_lines(past, 78, Machine("other"))]
    assert all(" on test, " in row for row in others[1:])


async def test_keys_walk_the_table(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        await pilot.press("p")
        await settled(pilot)
        places = []
        for key in ("down", "down", "up", "end", "home", "pagedown", "end", "up"):
            await pilot.press(key)
            places.append(app.screen.table.at)
        rows = app.screen.table.page
        await pilot.press("s")
        await settled(pilot)
        dearest = app.screen.here.thing
        top = max(one.price.amount for one in app.session.log.entries() if one.price)
    app.session.close()
    assert places == [1, 2, 1, 95, 0, rows, 95, 94]
    assert dearest.price.amount == top
