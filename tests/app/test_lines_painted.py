"""What is painted anew: the lines that changed and no others; a record below a short table."""

import pytest
from app.kit import app_on, settled
from textual.app import App
from textual.geometry import Region

from appraise.app.lines import line, words_of
from appraise.app.listing.marked import Marked
from appraise.app.marks import FINE
from appraise.app.pane import Pane
from appraise.app.themes import theme
from appraise.app.widgets.columns import SIGN, Column, laid_out
from appraise.app.widgets.drawn import Told

WIDE = 20


class Noted(Pane):
    """A pane that notes which parts of it are to be painted."""

    def __init__(self, draw):
        self.noted = []
        super().__init__(draw)

    def refresh(self, *regions, **how):
        self.noted.append(regions)
        return super().refresh(*regions, **how)


class OnePane(App):
    """A pane by itself."""

    CSS = "Pane { height: 1fr; width: 1fr; } Screen { scrollbar-size: 0 0; }"

    def __init__(self, words):
        super().__init__()
        self.register_theme(theme("daylight"))
        self.theme = "daylight"
        self.words = words

    def compose(self):
        yield Noted(lambda width, height: [line((each, "quiet")) for each in self.words])


async def test_only_lines_that_changed_are_painted():
    app = OnePane(["plate", "mat", "glass"])
    async with app.run_test(size=(WIDE, 5)) as pilot:
        pane = app.query_one(Noted)
        pane.renew()
        await pilot.pause()
        pane.noted.clear()
        pane.renew()
        assert pane.noted == []
        app.words[1] = "preserver"
        pane.renew()
        assert pane.noted == [(Region(0, 1, WIDE, 1),)]
        pane.noted.clear()
        del app.words[1:]
        pane.renew()
        assert pane.noted == [(Region(0, 1, WIDE, 1), Region(0, 2, WIDE, 1))]
        assert pane.text == "plate"


async def test_words_that_look_like_markup_stay_words():
    app = OnePane(["[bold]x[/bold] $ink"])
    async with app.run_test(size=(WIDE, 5)):
        pane = app.query_one(Noted)
        assert pane.render_line(0).text.rstrip() == "[bold]x[/bold] $ink"
        assert pane.render_line(1).text.strip() == ""


@pytest.mark.parametrize(
    ("size", "where"), [((80, 24), "below"), ((80, 12), ""), ((110, 30), "wide"), ((20, 6), "")]
)
async def test_a_record_stands_where_there_is_room(tmp_path, size, where):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=size) as pilot:
        await settled(pilot)
        await pilot.press("h")
        await settled(pilot)
        screen = app.screen
        for name in ("below", "wide"):
            assert screen.has_class(name) == (name == where)
        side = screen.query_one("#side")
        assert bool(side.region) == bool(where)
        if where:
            assert "what it is" in side.text
            first = screen.here.id
            await pilot.press("down")
            await settled(pilot)
            assert screen.here.id != first


COLUMNS = (
    Column("title", "title"),
    Column("place", "place", 12),
    Column("price", "price", 8, right=True, whole=True),
)


@pytest.mark.parametrize("width", range(30, 120, 7))
def test_a_column_is_no_wider_than_its_texts_and_cut_only_where_nothing_is_left(width):
    told = {"title": 24, "place": 20, "price": 9}
    places = {one.column.name: one for one in laid_out(COLUMNS, width, told)}
    assert places["price"].width == 9
    assert all(one.width <= told[name] for name, one in places.items())
    last = places["price"]
    if any(one.width < told[name] for name, one in places.items()):
        assert last.start + last.width == width  # all of the room is taken
    assert last.start + last.width <= width
    assert places["title"].start == SIGN


def test_a_line_break_within_a_sentence_is_folded_and_one_between_lines_stays():
    text = (
        "Found in an old farmhouse, a clear image of a\nwoman with her work.\nSize: sixth\nmat gilt"
    )
    rows = [words_of(row) for row in Marked(text, ()).window((0, 0), 9, 70, -1, FINE)]
    assert rows == [
        "Found in an old farmhouse, a clear image of a woman with her work.",
        "Size: sixth",
        "mat gilt",
    ]


async def test_the_group_of_a_check_stands_in_the_title(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        await pilot.press("1", "slash")
        await settled(pilot)
        head = app.screen.query_one("#head")
        assert "plate   " in head.text
        await pilot.press(*"hinge")
        await settled(pilot)
        assert f"{app.screen._found[0].group}   " in head.text


async def test_another_question_leaves_the_verdict_as_it_is_painted(tmp_path, monkeypatch):
    app, written = app_on(tmp_path, demo=True), []
    async with app.run_test(size=(110, 30)) as pilot:
        await settled(pilot)
        await pilot.press("3")
        await settled(pilot)
        renew = Told.renew
        monkeypatch.setattr(Told, "renew", lambda one: (written.append(one.id), renew(one)))
        await pilot.press("tab")
        await settled(pilot)
        assert written == ["rail", "ask", "more", "strip"]


async def test_a_list_to_choose_from_scrolls_no_further_than_needed(tmp_path):
    """The line one is at moves; the others stay until it would leave the screen."""
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(80, 12)) as pilot:
        await settled(pilot)
        await pilot.press("3", "slash")
        await settled(pilot)
        list_, rows = app.screen, app.screen.query_one("#body").size.height
        list_.action_step(-len(list_._found))
        for end in ("pagedown", "down", "down", "pageup", "down", "up"):
            before = list_.query_one("#body").told
            await pilot.press(end)
            after = list_.query_one("#body").told
            marked = [words_of(row).startswith(" \u203a") for row in after]
            assert sum(marked) == 1
            if end in ("down", "up"):
                assert sum(a != b for a, b in zip(before, after, strict=True)) in (2, rows)
        await pilot.press("pageup")
        assert words_of(list_.query_one("#body").told[0]).strip() == list_._found[0].group
