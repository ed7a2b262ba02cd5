"""Every action of every screen by mouse: the line of keys, the help, rows, tabs, text."""

import pytest
from app.kit import app_on, session, settled, shown
from textual import events

from appraise.app.actions import actions_of, foot_of
from appraise.app.app import AppraiseApp
from appraise.app.desk import Desk
from appraise.app.help import HelpPage
from appraise.app.lines import ACT
from appraise.app.lists.screen import RecordScreen
from appraise.app.pane import Foot
from appraise.app.picker import Picker
from appraise.app.widgets.reading import ReadingPane
from appraise.records.venue import Venue
from appraise.store.venue_book import keep_venue

SIZE = (160, 24)
REACH = {
    "desk": "", "look": "n", "prices": "p", "entry": "p enter", "filter": "p slash",
    "cell": "p e", "line": "p n", "form": "p E", "list": "ctrl+p", "kept": "h",
    "owned": "h enter", "lots": "o", "lot": "o enter", "stock": "i", "part": "i enter",
    "work": "i 2", "job": "i 2 enter", "wants": "i 3", "want": "i 3 enter", "venues": "v",
    "venue": "v enter", "track": "r", "piece": "1", "bid": "1 p", "slip": "l",
    "page": "question_mark",
}  # fmt: skip
"""The keys that lead from the desk of the demo to each place."""
TYPED = ("look", "filter", "cell", "line", "form", "list", "slip")


def pressed(monkeypatch):
    """The keys that clicks press, taken down and not pressed."""
    keys = []
    monkeypatch.setattr(AppraiseApp, "simulate_key", lambda app, key: keys.append(key))
    return keys


def clickable(action):
    """Whether an action has one key to press; answers and pieces are clicked where they stand."""
    return "{key}" not in action.do


async def at(pilot, keys):
    """Go to a place from the desk."""
    for key in keys.split():
        await pilot.press(key)
        await settled(pilot)


@pytest.mark.parametrize("area", REACH)
async def test_a_click_on_every_key_in_the_line_presses_it(tmp_path, monkeypatch, area):
    home = session(tmp_path, demo=True)
    keep_venue(home.log, Venue("quay rooms", "USD"))
    home.close()
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=SIZE) as pilot:
        await settled(pilot)
        app.session.shows = True
        await at(pilot, REACH[area])
        if app.session.discreet:  # a piece at a stall opens with its amounts hidden
            await at(pilot, "m")
        keys = pressed(monkeypatch)
        foot = app.screen.query_one(Foot)
        assert foot.area == area
        expected, x = [], 1
        for action in foot_of(area):
            key = action.display.split()[0]
            key = "F1" if action.area == "any" and area in TYPED else key
            if clickable(action):
                await pilot.click(Foot, offset=(x, 0))
                expected.append("f1" if key == "F1" else action.keys.split()[0])
            x += len(f"{key} {action.verb}") + 2
        await pilot.pause()
    app.session.close()
    assert keys == expected
    assert expected


@pytest.mark.parametrize("area", REACH)
async def test_every_action_of_a_place_is_a_line_of_its_help_to_click(tmp_path, monkeypatch, area):
    """Each line says the key that its click presses; the first, the last and one between do it."""
    app = app_on(tmp_path, demo=True)
    acts = [one for one in (*actions_of(area), *actions_of("any")) if clickable(one)]
    pressing = {one.id: f"{ACT}press('{one.keys.split()[0]}')" for one in acts}
    async with app.run_test(size=SIZE) as pilot:
        await settled(pilot)
        keys = pressed(monkeypatch)
        for action in dict.fromkeys((acts[0], acts[len(acts) // 2], acts[-1])):
            monkeypatch.setattr(app.screen, "AREA", area)
            app.action_help()
            await settled(pilot)
            assert isinstance(app.screen, HelpPage)
            rows = app.screen.query_one(ReadingPane).told
            roles = [[role for _, role in row] for row in rows]
            lines = {
                one: next(n for n, row in enumerate(roles) if any(act in role for role in row))
                for one, act in pressing.items()
            }
            y = lines[action.id]
            app.screen.query_one(ReadingPane).scroll_to(y=y, animate=False, force=True)
            await pilot.pause()
            top = int(app.screen.query_one(ReadingPane).scroll_offset.y)
            await pilot.click(ReadingPane, offset=(3, y - top))
            await settled(pilot)
            assert isinstance(app.screen, Desk), action.id
            assert keys[-1] == action.keys.split()[0], action.id
    app.session.close()


async def test_by_mouse_alone_through_the_lists_and_back(tmp_path):
    """No key is pressed: desk, prices, an entry, its form, cancel, back, another order."""
    app = app_on(tmp_path, demo=True)

    async def click(words, which=-1):
        rows = shown(app).split("\n")
        y = [n for n, row in enumerate(rows) if words in row][which]
        await pilot.click(offset=(rows[y].index(words) + 1, y))
        await settled(pilot)

    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        await click("p prices")
        assert isinstance(app.screen, RecordScreen)
        await click("couple holding hands")
        assert "couple" in app.screen.here.thing.title
        await click("couple holding hands")
        assert "del remove" in shown(app)
        await click("e edit")
        assert "Edit: couple" in shown(app)
        await click("esc cancel")
        await click("q back")
        await click("title", 0)
        assert "by title" in shown(app)
        await click("/ filters")
        await pilot.press(*"girl")
        await settled(pilot)
        await click("enter table")
        assert "girl" in shown(app).split("\n")[1]
        await click("q desk")
        await click("q desk")
        assert isinstance(app.screen, Desk)
        await click("? keys")
        await click("Parts in stock")
        await click("2 work in progress")
        assert app.screen.spec.name == "work"
    app.session.close()


async def test_a_choice_is_clicked_and_the_wheel_moves_through_it(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        theme = app.theme
        await pilot.press("ctrl+p")
        await settled(pilot)
        assert isinstance(app.screen, Picker)
        y = next(n for n, row in enumerate(shown(app).split("\n")) if "day or night" in row)
        await pilot.click(offset=(10, y))
        await settled(pilot)
        assert app.theme != theme
    app.session.close()


async def test_the_wheel_and_the_bar_move_a_page_and_selected_text_is_copied(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(80, 14)) as pilot:
        await settled(pilot)
        await at(pilot, "h enter")
        text = app.screen.query_one(ReadingPane)
        assert text.show_vertical_scrollbar
        pilot.app.screen._forward_event(
            events.MouseScrollDown(text, 4, 4, 0, 1, 0, False, False, False, 4, 4)
        )
        await pilot.pause()
        assert text.scroll_offset.y > 0
        await pilot.press("end")
        assert text.scroll_offset.y == text.max_scroll_y
        await pilot.press("home")
        await pilot.mouse_down(ReadingPane, offset=(1, 1))
        await pilot.hover(ReadingPane, offset=(12, 2))
        await pilot.mouse_up(ReadingPane, offset=(12, 2))
        await settled(pilot)
        assert app.clipboard.strip()
    app.session.close()


LISTED = "Sixth plate ambrotype of a girl, union case with a vine. Cleaned and resealed. 80.00 USD."


async def test_a_line_of_a_listing_is_selected_by_a_click(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(120, 40)) as pilot:
        await settled(pilot)
        app.post_message(events.Paste(LISTED))
        await settled(pilot)
        await settled(pilot)
        assert app.screen.review.at == 0
        rows = shown(app).split("\n")
        y = next(n for n, row in enumerate(rows) if "warnings" in row) + 1
        x = rows[y - 1].index("warnings") + 2
        await pilot.click(offset=(x, y))
        await settled(pilot)
        assert app.screen.review.here.section == "flag"
    app.session.close()
