"""The panes of the Examine screen: at every size, by mouse, without colours, with money hidden."""

import pytest
from app.kit import app_on, ask, begin, pane, resized, settled, shown, until
from hypothesis import given
from hypothesis import strategies as st
from thorough import times
from verdict.verdictkit import KNOWLEDGE, verdicts

from appraise.app.examine.panel import panel
from appraise.app.examine.rooms import NARROW, VAST, WIDE, rooms_for
from appraise.app.examine.shown import Shown, names_in
from appraise.app.lines import length, words_of
from appraise.app.marks import FINE
from appraise.documents.words import amount

LINE = "sixth ambro thermoplastic vine 85"
SIZES = [(20, 6), (31, 9), (40, 12), (60, 20), (72, 24), (80, 24), (110, 30), (160, 45), (300, 80)]
SHOWN = Shown(FINE, tuple(KNOWLEDGE.parts), True, True, {}, names_in(KNOWLEDGE))


@given(st.integers(1, 400), st.integers(1, 120))
def test_the_rooms_fill_the_screen_and_no_more(width, height):
    rooms = rooms_for(width, height)
    assert rooms.rail + rooms.question + rooms.panel + rooms.more == width
    assert rooms.question > 0
    assert rooms.rows >= 1
    assert bool(rooms.panel) == (width >= NARROW)
    assert bool(rooms.rail) == (width >= WIDE)
    assert bool(rooms.more) == (width >= VAST)


@pytest.mark.parametrize("size", SIZES[:: times(2, 1)])
async def test_it_opens_and_answers_at_every_size(tmp_path, painted, size):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=size) as pilot:
        await begin(pilot, LINE)
        for key in ("m", "1", "space", "right", "tab", "pagedown", "u", "m", "backspace"):
            await pilot.press(key)
            await settled(pilot)
        rows = shown(app).split("\n")
        assert len(rows) == size[1]
        assert all(len(row) <= size[0] for row in rows)


async def test_it_keeps_its_place_when_the_terminal_changes_size(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(80, 24)) as pilot:
        await begin(pilot, LINE)
        before = shown(app)
        for size in (*SIZES, (80, 24)):
            await resized(pilot, size)
        await until(pilot, lambda: shown(app) == before)
        assert "Ambrotype or daguerreotype, about" in before


async def test_a_small_screen_shows_question_band_and_what_to_pay(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(60, 20)) as pilot:
        await begin(pilot, LINE)
        await pilot.press("m")
        await ask(pilot, "mat.position")
        text = shown(app)
    first = "Ambrotype or daguerreotype, about"
    assert first in text
    assert "mat" in text
    assert "about" in text.split(first)[1]
    assert "limit" in text


@pytest.mark.parametrize("size", [(80, 24), (110, 30), (160, 45)])
async def test_a_click_gives_an_answer_goes_to_a_part_and_shows_why(tmp_path, size):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=size) as pilot:
        await begin(pilot, LINE)
        await ask(pilot, "plate.magnet")
        await click(pilot, "1  ")
        assert app.screen.exam.piece.found("plate.magnet") == "no"
        await ask(pilot, "plate.mirror")
        await click(pilot, "cannot tell")
        assert "plate.mirror" in app.screen.exam.piece.findings
        await click(pilot, "image" if size[0] < 110 else "preserver")
        assert app.screen.exam.check.part in ("image", "preserver")
        if size[0] >= 160:
            await click(pilot, "plate: it does not pull", "more")
            assert app.screen.exam.at == "plate.magnet"


async def test_a_click_on_hidden_money_shows_it(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(80, 24)) as pilot:
        await begin(pilot, LINE)
        assert app.session.discreet
        await click(pilot, "money hidden", "panel")
        assert not app.session.discreet


async def click(pilot, words, name="ask"):
    """Click on the first place where some words stand."""
    screen = pilot.app.screen
    for each in (f"#{name}", "#rail", "#strip"):
        widget = screen.query_one(each)
        lines = widget.text.split("\n")
        found = [(n, row.index(words)) for n, row in enumerate(lines) if words in row]
        if found and widget.region.width:
            row, column = found[0]
            inner = widget.content_region.offset - widget.region.offset
            assert await pilot.click(widget, offset=(inner.x + column, inner.y + row))
            await settled(pilot)
            return
    raise AssertionError(f"'{words}' is not on the screen")


async def test_the_wheel_scrolls_a_question_longer_than_its_room(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(60, 12)) as pilot:
        await begin(pilot, LINE)
        await ask(pilot, "mat.shape")
        scrolled = app.screen.query_one("#ask")
        assert scrolled.max_scroll_y > 0
        await pilot._post_mouse_events([_wheel()], scrolled, (5, 3))
        await pilot.pause()
        assert scrolled.scroll_y > 0
        scrolled.scroll_home(animate=False)
        await pilot.press("pagedown")
        await pilot.pause()
        assert scrolled.scroll_y > 0


def _wheel():
    from textual.events import MouseScrollDown

    return MouseScrollDown


async def test_the_picture_beside_is_the_answers_that_is_pointed_at(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(160, 45)) as pilot:
        await begin(pilot, LINE)
        await ask(pilot, "mat.shape")
        first = pane(app, "more")
        await pilot.press("right")
        await pilot.pause()
        assert pane(app, "more") != first
        assert "found so far" in first


@pytest.mark.parametrize("size", [(35, 19), (37, 25), (45, 40)])
def test_amounts_and_years_in_the_panel_are_whole_and_those_of_the_verdict(size):
    width, height = size
    seen = 0
    for name, verdict in verdicts():
        rows = panel(verdict, SHOWN, width, height)
        assert len(rows) == height, name
        assert all(length(row) <= width for row in rows), name
        text = "\n".join(map(words_of, rows))
        if verdict.worth is None or "combined" not in text:
            continue
        seen += 1
        first = f"{verdict.reading.combined.first}-"
        assert any(row.startswith("combined") and first in row for row in text.split("\n")), name
        for value in (verdict.worth.low, verdict.worth.median, verdict.worth.high):
            assert amount(value) in text, name
    assert seen > 90


async def test_without_colours_the_screen_says_the_same(tmp_path, monkeypatch):
    told = []
    for name in ("colours", "none"):
        if name == "none":
            monkeypatch.setenv("NO_COLOR", "1")
        app = app_on(tmp_path / name, demo=True)
        async with app.run_test(size=(110, 30)) as pilot:
            await begin(pilot, LINE)
            await ask(pilot, "mat.shape")
            told.append(shown(app))
    assert told[0] == told[1]


async def test_the_band_stands_on_the_ground_of_its_tone_all_along(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(110, 30)) as pilot:
        await begin(pilot, "sixth dag leather case 180")
        band = app.screen.query_one("#band")
        assert band.has_class("order")
        await pilot.press("m")
        await settled(pilot)
        assert "above your limit" in shown(app)
        assert band.has_class("doubtful")
        grounds = {
            style.bgcolor.name
            for strip in app.screen._compositor.render_strips()[1:3]
            for _, style, _ in strip
            if style and style.bgcolor
        }
        assert len(grounds) == 1
