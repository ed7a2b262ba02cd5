"""One registry of actions: every key does something, and the palette and help are made from it."""

import pytest
from app.kit import app_on, settled, shown
from every import every

from appraise.app.actions import ACTIONS, AREAS, actions_of, bindings_of, foot_of
from appraise.app.app import AppraiseApp
from appraise.app.bid.view import BidPage
from appraise.app.desk import Desk
from appraise.app.examine.view import Examine
from appraise.app.firstlook import FirstLook
from appraise.app.form import Form
from appraise.app.help import help_lines
from appraise.app.importing.screen import ImportScreen
from appraise.app.kept.arrivalpage import ArrivalPage
from appraise.app.lines import length, words_of
from appraise.app.listing.sides import Sides
from appraise.app.listing.slip import Slip
from appraise.app.listing.view import ListingScreen
from appraise.app.lists.page import RecordPage
from appraise.app.lists.screen import FilterLine, RecordScreen
from appraise.app.lists.spec import spec_of
from appraise.app.marks import FINE, PLAIN
from appraise.app.page import Page
from appraise.app.palette import offered
from appraise.app.pane import keys_line
from appraise.app.picker import Picker
from appraise.app.prices.editor import Cell
from appraise.app.prices.quickline import QuickLine
from appraise.app.prices.screen import PricesScreen
from appraise.app.sheet import Question
from appraise.app.track.view import TrackRecord

SCREENS = {
    "any": AppraiseApp,
    "desk": Desk,
    "look": FirstLook,
    "piece": Examine,
    "slip": Slip,
    "listing": ListingScreen,
    "sides": Sides,
    "bid": BidPage,
    "filter": FilterLine,
    "cell": Cell,
    "line": QuickLine,
    "import": ImportScreen,
    "track": TrackRecord,
    "arrival": ArrivalPage,
    "page": Page,
    "list": Picker,
    "form": Form,
    "ask": Question,
}
MADE = ("price", "kept", "lot", "stock", "work", "want", "venue")
SPECS = {area: spec for spec in map(spec_of, MADE) for area in (spec.area, spec.page_area)}
SCREENS |= {spec.page_area: RecordPage for spec in SPECS.values()}
SCREENS |= {spec.area: RecordScreen for spec in SPECS.values()} | {"prices": PricesScreen}


@every("action", ACTIONS, ids=lambda one: one.id)
def test_every_action_is_done_by_its_screen(action):
    name, _, what = action.do.partition("(")
    if name == "act":
        assert what.strip("')") in SPECS[action.area].acts
    place, _, done = name.rpartition(".")
    owner = {"app": AppraiseApp, "screen": PricesScreen}.get(place) or SCREENS[action.area]
    assert callable(getattr(owner, f"action_{done}"))


@every("area", AREAS)
def test_no_key_does_two_things_in_one_place(area):
    own = actions_of(area) if area != "any" else ()
    keys = [key for one in (*own, *actions_of("any")) for key in one.keys.split()]
    assert len(keys) == len(set(keys))
    if area not in SPECS:  # those of a list of records are its spec's
        assert bindings_of(area) == SCREENS[area].BINDINGS


@every("area", [area for area in AREAS if area not in ("any", "ask")])
@every("width", [80, 60, 40, 20])
def test_the_line_of_keys_is_short_and_fits(area, width):
    assert len(foot_of(area)) <= 9
    for hides in (False, True):
        assert length(keys_line(area, width, hides)) <= width
    row = keys_line(area, width)
    text = words_of(row)
    assert "keys" in text
    assert foot_of(area)[-1].verb in text


@every("area", [area for area in AREAS if area != "any"])
@every("width", [100, 30])
def test_help_is_made_from_the_registry(area, width):
    text = " ".join(" ".join(words_of(row) for row in help_lines(area, width)).split())
    for one in (*actions_of(area), *actions_of("any")):
        assert one.display.split()[0] in text
        assert one.says.split()[0] in text


@pytest.mark.parametrize("marks", [FINE, PLAIN])
def test_help_names_the_signs_that_are_drawn(marks):
    text = "\n".join(words_of(row) for row in help_lines("desk", 100, marks))
    order, doubt, warn, unseen = marks.signs
    assert f"{warn} serious or odd, {doubt} doubtful, {order} in order, {unseen} not" in text
    assert f"{marks.bar} the combined date" in text


def test_the_palette_offers_what_works_here_and_then_everywhere():
    areas = [one.area for one in offered("piece")]
    assert set(areas) == {"piece", "any"}
    assert areas == sorted(areas, key=lambda area: area == "any")


async def test_the_palette_has_two_groups(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(80, 40)) as pilot:
        await settled(pilot)
        await pilot.press("p", "ctrl+p")
        await settled(pilot)
        rows = [row.strip() for row in shown(app).split("\n")]
        assert rows.index("here") < rows.index("everywhere")
        assert not any(row.startswith("prices:") for row in rows)
    app.session.close()


async def test_the_palette_does_what_was_found(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        theme = app.theme
        await pilot.press("ctrl+p")
        await pilot.pause()
        app.screen.query_one("Input").value = "day night"
        await pilot.pause()
        assert "1 of" in shown(app)
        await pilot.press("enter")
        await settled(pilot)
        assert app.theme != theme
        await pilot.press("ctrl+p")
        await pilot.pause()
        app.screen.query_one("Input").value = "zzz"
        await pilot.pause()
        assert "no match" in shown(app)
        await pilot.press("enter", "escape")
        await pilot.pause()
        assert isinstance(app.screen, Desk)
    app.session.close()


async def test_ctrl_c_twice_leaves(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        await pilot.press("ctrl+c")
        assert "ctrl+c again" in shown(app)
        await pilot.press("down", "ctrl+c")
        assert app.is_running
        assert "ctrl+c again" in shown(app)
        await pilot.press("ctrl+c")
    app.session.close()
    assert app.return_code == 0
