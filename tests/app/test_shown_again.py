"""Lists with one row, keys of an arrival, and prices that another program writes meanwhile."""

from dataclasses import replace

import pytest
from app.kit import app_on, begin, session, settled, shown
from textual import events

from appraise.app.kept.arrivalpage import ArrivalPage
from appraise.app.lines import words_of
from appraise.app.lists.spec import spec_of
from appraise.app.pane import keys_line
from appraise.records.owned import OwnedPiece
from appraise.store.records import change, held

LISTS = {"h": "kept", "o": "lot", "i": "stock", "v": "venue", "p": "price"}


@pytest.mark.parametrize("size", [(80, 24), (110, 30)])
@pytest.mark.parametrize("key", LISTS)
async def test_what_stands_in_an_empty_list_goes_with_its_first_row(tmp_path, key, size):
    says = " ".join(spec_of(LISTS[key]).empty.split())
    bare = app_on(tmp_path / "bare")
    async with bare.run_test(size=size) as pilot:
        await settled(pilot)
        await pilot.press(key)
        await settled(pilot)
        assert says in " ".join(shown(bare).split())  # whole, however wide the table is
    full = app_on(tmp_path / "full", demo=True)
    async with full.run_test(size=size) as pilot:
        await settled(pilot)
        await pilot.press(key)
        await settled(pilot)
        assert says.split(".")[0] not in " ".join(shown(full).split())


async def test_an_arrival_without_a_deadline_takes_one_by_the_key_it_names(tmp_path):
    app = app_on(tmp_path, demo=True)
    log = app.session.log
    one = next(one for one in held(log, OwnedPiece) if one.thing.entry)
    change(log, replace(one, thing=replace(one.thing, return_by=None)))
    async with app.run_test(size=(110, 30)) as pilot:
        await settled(pilot)
        await pilot.press("h")
        await settled(pilot)
        app.screen.read(one.id)
        assert "a arrival" in shown(app)
        await pilot.press("a")
        await settled(pilot)
        assert isinstance(app.screen, ArrivalPage)
        assert "Press e to add one" in shown(app)
        await pilot.press("e")
        await settled(pilot)
        app.screen.query_one("#field-return_by").value = "2026-11-20"
        await pilot.press("enter")
        await settled(pilot)
        assert "Return it by 2026-11-20" in shown(app)


def test_the_page_of_a_piece_names_the_key_of_its_arrival():
    assert "a arrival" in words_of(keys_line("owned", 110))


@pytest.mark.parametrize("how", ["again", "focus"])
async def test_prices_of_another_program_count_when_a_screen_is_shown_again(tmp_path, how):
    source = session(tmp_path / "demo", demo=True)
    entries = source.log.entries(limit=40)
    app = app_on(tmp_path / "mine")
    app.session.shows = True
    async with app.run_test(size=(110, 30)) as pilot:
        await begin(pilot, "sixth ambro thermoplastic vine 45 market")
        await pilot.press("m")  # a piece at a stall opens with its amounts hidden
        await settled(pilot)
        assert "Log a few prices" in shown(app)
        other = session(tmp_path / "mine")
        for one in entries:
            other.log.add(one)
        if how == "again":
            await pilot.press("f1")
            await settled(pilot)
            await pilot.press("q")
        else:
            app.post_message(events.AppFocus())
        await settled(pilot)
        assert "Log a few prices" not in shown(app)
