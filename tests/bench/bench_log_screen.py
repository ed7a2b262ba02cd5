"""The Prices screen at size: from a key to painted rows.

    python tests/bench/bench_log_screen.py

First paint of 100,000 entries beside that of 100; a word typed into the filter beside the same
SQL fetched bare. Painted means handed to the terminal; the screen library paints at most 60 times
a second, so a frame of 16.7 ms is part of every figure. Medians on an invented log.
"""

import asyncio
import datetime as dt
import sqlite3
import statistics
import sys
import tempfile
import time
from contextlib import asynccontextmanager, closing
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
sys.path.insert(0, str(Path(__file__).parent.parent))
sys.path.insert(0, str(Path(__file__).parent.parent.parent))

from app.kit import session
from bench_log import invented
from textual import events

import appraise.app
from appraise.app.app import AppraiseApp
from appraise.app.prices.screen import PricesScreen
from appraise.store.search import where

FEW, MANY = 100, 100_000
SIZES = ((80, 24), (120, 40))
WORDS = ("girl", "girl vine", "soldier process:amb", "price:20..50 lace", "-girl", "nothing-such")
FRAME = 1 / 60
TIMES, ROUNDS = 20, 4


class Watched(AppraiseApp):
    """The app, saying when it has painted."""

    CSS_PATH = Path(appraise.app.__file__).parent / "app.tcss"

    def __init__(self, shared):
        super().__init__(shared)
        self.painted = asyncio.Event()
        self.at = 0.0
        self.wanted = lambda: False

    def _display(self, screen, renderable):
        super()._display(screen, renderable)
        now = time.perf_counter()
        if not self.painted.is_set() and isinstance(self.screen, PricesScreen) and self.wanted():
            self.at = now
            self.painted.set()


@asynccontextmanager
async def running(home, size):
    app = Watched(session(home))
    async with app.run_test(size=size) as pilot:
        await quiet(app, pilot)
        yield app, pilot
    app.session.close()


async def quiet(app, pilot):
    for _ in range(3):
        await app.workers.wait_for_complete()
        await pilot.pause()


async def until(app, act, wanted):
    """Seconds from an act to the paint at which `wanted` holds."""
    app.wanted = wanted
    app.painted.clear()
    start = time.perf_counter()
    act()
    await asyncio.wait_for(app.painted.wait(), 10)
    return app.at - start


async def first_paint(home, size):
    """Seconds from the key to the first rows, and to the sums at the foot."""
    rows: list[float] = []
    sums: list[float] = []
    async with running(home, size) as (app, pilot):
        for _ in range(TIMES // ROUNDS):
            key = events.Key("p", "p")
            start = time.perf_counter()
            took = await until(app, lambda key=key: app._driver.process_message(key), drawn(app))
            rows.append(took)
            while app.screen._summary is None:
                await asyncio.sleep(0.001)
            sums.append(time.perf_counter() - start)
            await quiet(app, pilot)
            await pilot.press("q")
            await quiet(app, pilot)
    return rows, sums


async def first_paints(homes, size):
    """The medians of both, the two logs taken in turns so that other load falls on both."""
    found = {count: ([], []) for count in homes}
    for _ in range(ROUNDS):
        for count, home in homes.items():
            for kept, more in zip(found[count], await first_paint(home, size), strict=True):
                kept.extend(more)
    return {count: [statistics.median(each) for each in both] for count, both in found.items()}


def on_screen(app):
    """What was handed to the terminal last."""
    strips = app.screen._compositor.render_strips()
    return "\n".join("".join(segment.text for segment in strip) for strip in strips)


def drawn(app):
    return lambda: "paid  " in on_screen(app)


async def filtered(home, size):
    """Seconds from the last letter of a filter to its rows, for each filter."""
    found = {}
    async with running(home, size) as (app, pilot):
        for key in ("p", "slash"):
            await pilot.press(key)
            await quiet(app, pilot)
        line = app.screen.query_one("#filter")
        for text in WORDS:
            took = []
            for _ in range(TIMES):
                line.value = text[:-1]
                line.action_end()
                await quiet(app, pilot)
                key = events.Key(text[-1], text[-1])
                act = lambda key=key: app._driver.process_message(key)  # noqa: E731
                took.append(await until(app, act, lambda: app.screen.seen.query == text))  # noqa: B023
                await quiet(app, pilot)
            found[text] = statistics.median(took)
    return found


def bare(path, text, limit):
    """Seconds for the same rows fetched by SQL alone."""
    condition = where(text)
    sql = (
        f"SELECT shelf.*, body FROM shelf JOIN revision USING (number) WHERE {condition.sql} "
        f"ORDER BY shelf.date DESC, added DESC, shelf.entry DESC LIMIT {limit}"
    )
    took = []
    with closing(sqlite3.connect(path)) as connection:
        for _ in range(TIMES):
            start = time.perf_counter()
            connection.execute(sql, condition.values).fetchall()
            took.append(time.perf_counter() - start)
    return statistics.median(took)


async def main():
    with tempfile.TemporaryDirectory() as name:
        homes = {}
        for count in (FEW, MANY):
            homes[count] = Path(name) / str(count)
            shared = session(homes[count])
            shared.log.add_all(invented(count))
            shared.close()
        print(f"{dt.date.today()}: {FEW:,} and {MANY:,} entries, medians of {TIMES}")
        for size in SIZES:
            found = await first_paints(homes, size)
            few, many = found[FEW], found[MANY]
            print(
                f"{size[0]}x{size[1]} first paint {few[0] * 1e3:.1f} ms and {many[0] * 1e3:.1f} ms:"
                f" {many[0] / few[0]:.2f} times (bar 1.1); sums after {few[1] * 1e3:.1f} and"
                f" {many[1] * 1e3:.1f} ms"
            )
            for text, took in (await filtered(homes[MANY], size)).items():
                floor = bare(homes[MANY] / "log.sqlite", text, size[1] - 7)
                bar = 3 * floor + FRAME
                print(
                    f"  {text!r:24} painted {took * 1e3:6.1f} ms, bare SQL {floor * 1e3:5.1f} ms,"
                    f" bar {bar * 1e3:6.1f} ms: {'within' if took <= bar else 'MISSED'}"
                )


if __name__ == "__main__":
    asyncio.run(main())
