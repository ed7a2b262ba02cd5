"""The table: what fits where, nothing cut that matters, and every hand on it."""

import asyncio

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len
from textual.app import App

from appraise.app.marks import FINE, PLAIN
from appraise.app.themes import theme
from appraise.app.widgets.columns import SIGN, Column, laid_out, row_text
from appraise.app.widgets.rows import Listed
from appraise.app.widgets.table import HEAD, RecordTable, TableStyle

COLUMNS = (
    Column("day", "day", 10, whole=True),
    Column("title", "title"),
    Column("place", "place", 12, 60),
    Column("price", "price", 8, right=True, whole=True),
)
LOOK = TableStyle(COLUMNS, lambda row, name: row[name])


def row(n, price="12.00 USD"):
    return {"day": "2026-11-07", "title": f"plate {n} " * 9, "place": "box", "price": price}


class Shown(App):
    """A table by itself."""

    CSS = "RecordTable { height: 1fr; overflow-x: hidden; scrollbar-size-vertical: 1; }"

    def __init__(self, rows):
        super().__init__()
        self.register_theme(theme("daylight"))
        self.theme = "daylight"
        self._rows = rows
        self.said = []
        self.animation_level = "none"

    def compose(self):
        yield RecordTable(LOOK)

    def on_mount(self):
        rows = self._rows
        self.query_one(RecordTable).show(Listed(rows) if isinstance(rows, list) else rows)

    def on_record_table_opened(self):
        self.said.append("opened")

    def on_record_table_sorted(self, message):
        self.said.append(message.column)


def text(app):
    """The lines on the screen, with all that was to be painted."""
    app.screen._on_timer_update()
    strips = app.screen._compositor.render_strips()
    return ["".join(segment.text for segment in strip) for strip in strips]


@given(st.integers(10, 240), st.integers(0, 60))
def test_columns_lie_side_by_side_in_the_width(width, widest):
    places = laid_out(COLUMNS, width, {"price": widest})
    ends = [one.start + one.width for one in places]
    assert places[0].start == SIGN
    assert all(end < one.start for end, one in zip(ends, places[1:], strict=False))
    if any(not one.column.cells for one in places):
        assert ends[-1] <= width


@given(st.text(st.characters(blacklist_categories=("Cc", "Cs")), max_size=60), st.integers(20, 99))
def test_a_row_is_exactly_as_wide_as_asked(title, width):
    places = laid_out(COLUMNS, width)
    for marks in (FINE, PLAIN):
        texts = [title if one.column.name == "title" else "x" for one in places]
        assert cell_len(row_text(texts, places, width, marks)) == width


@pytest.mark.parametrize("width", [40, 60, 80, 100])
async def test_an_amount_and_a_day_are_never_cut_and_a_title_is_with_a_mark(width):
    rows = [row(0), row(1, "1,234,567.00 USD")]
    app = Shown(rows)
    async with app.run_test(size=(width, 10)) as pilot:
        await pilot.pause()
        shown = text(app)
    for line, each in zip(shown[HEAD:], rows, strict=False):
        assert each["price"] in line
        assert each["day"] in line
        assert FINE.more in line


async def test_keys_of_its_screen_move_it_and_the_row_stays_in_sight():
    app = Shown([row(n) for n in range(1000)])
    async with app.run_test(size=(60, 12)) as pilot:
        await pilot.pause()
        table = app.query_one(RecordTable)
        table.move(500)
        await pilot.pause()
        assert table.at == 500
        assert any("plate 500 " in line for line in text(app))
        table.end(1)
        table.move(7)
        await pilot.pause()
        assert table.at == 999
        table.move(-5000)
        await pilot.pause()
        assert (table.at, table.top) == (0, 0)


async def test_mouse_wheel_bar_heading_and_rows():
    app = Shown([row(n) for n in range(1000)])
    async with app.run_test(size=(60, 12)) as pilot:
        await pilot.pause()
        table = app.query_one(RecordTable)
        await pilot.click(RecordTable, offset=(15, 0))
        assert app.said == ["title"]
        await pilot.click(RecordTable, offset=(15, 4))
        await pilot.pause()
        assert table.at == 3
        await pilot.click(RecordTable, offset=(15, 4))
        await pilot.pause()
        assert app.said == ["title", "opened"]
        table.scroll_down(animate=False)
        await pilot.pause()
        assert table.top > 0
        assert table.at == 3, "the wheel shows other rows and selects none"
        assert table.show_vertical_scrollbar
        await pilot.click(RecordTable, offset=(59, 11))  # the bar below its handle
        async with asyncio.timeout(30):
            while table.top <= 5:
                await pilot.pause(0.01)


async def test_only_the_rows_on_the_screen_are_asked_for():
    asked = []

    class Counting(Listed):
        def at(self, place):
            asked.append(place)
            return row(place)

        @property
        def count(self):
            return 100_000

        least = count

    app = Shown([])
    async with app.run_test(size=(60, 12)) as pilot:
        app.query_one(RecordTable).show(Counting())
        await pilot.pause()
        app.query_one(RecordTable).end(1)
        await pilot.pause()
        assert any("plate 99999 " in line for line in text(app))
    assert len(set(asked)) < 60


async def test_an_empty_table_says_what_to_do():
    app = Shown([])
    async with app.run_test(size=(60, 6)) as pilot:
        app.query_one(RecordTable).show(Listed([]), 0, lambda width: [(("  Press n.", ""),)])
        await pilot.pause()
        assert "Press n." in text(app)[HEAD]
        assert app.query_one(RecordTable).here is None
