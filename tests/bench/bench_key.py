"""From a key to painted panes, beside a bare app of the library that repaints a panel as large.

    python tests/bench/bench_key.py

All in one process, in turns; painted means handed to the terminal. The library paints at most 60
times a second, so that after one paint the next waits for one to two frames of 16.7 ms; before each
key two frames are let go by, in every app.

The floors: `line` repaints one line of one word; `panel` changes every line of a panel of 52 by 26
cells, in three looks, through the library's own `Static`; `worked` does so too, has a thread begun
that does nothing once this was painted, and repaints a second panel from its message.

Ours: `walked`, a key that goes to another part; `answered`, an answer, till the next question is
known to be open or blank; `chosen`, a line further in a list to choose from; `stepped`, a row
further in the table of prices: all beside `panel`. `judged`, an answer, till the verdict on the
piece with it stands in the panel: beside `worked`, and the judging is in it.
"""

import asyncio
import statistics
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent))
sys.path.insert(0, str(Path(__file__).parent.parent.parent))

from app.kit import session, settled
from textual import events
from textual.app import App
from textual.binding import Binding
from textual.containers import Horizontal
from textual.content import Content
from textual.message import Message
from textual.widgets import Static

import appraise.app
from appraise.app.app import AppraiseApp

ROUNDS, TIMES = 6, 8
FLOOR_OF = {
    "walked": "panel",
    "answered": "panel",
    "chosen": "panel",
    "stepped": "panel",
    "judged": "worked",
}
BAR = 1.5
FRAME = 0.04  # seconds: more than two frames of the library
SIZE = (110, 30)
ROWS = 26


class Watched:
    """Says when it has painted what was waited for."""

    painted: asyncio.Event | None = None
    wanted = staticmethod(lambda: False)
    at = 0.0

    def _display(self, screen, renderable):
        super()._display(screen, renderable)
        if self.painted is not None and not self.painted.is_set() and self.wanted():
            self.at = time.perf_counter()
            self.painted.set()

    async def took(self, key, wanted):
        """Seconds from a key to the paint at which `wanted` holds."""
        self.painted, self.wanted = asyncio.Event(), wanted
        start = time.perf_counter()
        self._driver.process_message(events.Key(key, key if len(key) == 1 else None))
        await asyncio.wait_for(self.painted.wait(), 10)
        return self.at - start


class Line(Watched, App):
    """A line that a key changes."""

    BINDINGS = (Binding("x", "change"),)
    number = done = 0

    def compose(self):
        yield Static("0")

    def action_change(self):
        self.number += 1
        self.query_one(Static).update(str(self.number))
        self.done = self.number


class Panel(Line):
    """A panel beside another, all of whose lines a key changes."""

    CSS = "#left {width: 52; height: 1fr} #right {width: 1fr; height: 1fr}"

    def compose(self):
        with Horizontal():
            yield Static(self.told("left"), id="left")
            yield Static(self.told("right"), id="right")

    def told(self, name):
        rows = [
            Content.assemble(
                (f"{row:>2} ", "bold $accent"),
                f"line {row} of the {name} panel, key {self.number}",
                ("  as it is now", "$secondary"),
            )
            for row in range(ROWS)
        ]
        return Content("\n").join(rows)

    def action_change(self):
        self.number += 1
        self.query_one("#left").update(self.told("left"))
        self.done = self.number


class Worked(Panel):
    """The same, and once it is painted a thread has a second panel changed."""

    class Found(Message):
        """The thread has ended."""

    def action_change(self):
        self.number += 1
        self.query_one("#left").update(self.told("left"))
        self.call_after_refresh(self.work)

    def work(self):
        self.run_worker(lambda: self.post_message(self.Found()), thread=True)

    def on_worked_found(self):
        self.query_one("#right").update(self.told("right"))
        self.done = self.number


class Ours(Watched, AppraiseApp):
    """The app."""

    CSS_PATH = Path(appraise.app.__file__).parent / "app.tcss"


async def bare(kind):
    found, app = [], kind()
    async with app.run_test(size=SIZE) as pilot:
        for number in range(1, TIMES + 1):
            await pilot.pause(FRAME)
            found.append(await app.took("x", lambda number=number: app.done == number))
    return found


async def still(pilot):
    """Nothing is under way, and the last paint is a frame ago."""
    await settled(pilot)
    await pilot.pause(FRAME)


async def ours(place):
    found, app = {job: [] for job in FLOOR_OF}, Ours(session(place, demo=True))
    async with app.run_test(size=SIZE) as pilot:
        await still(pilot)
        await pilot.press("3")
        await still(pilot)
        exam = app.screen.exam
        for _ in range(TIMES):
            at = exam.at
            found["walked"].append(await app.took("tab", lambda at=at: exam.at != at))
            await still(pilot)
        for name in ("answered", "judged"):
            for _ in range(TIMES):
                await pilot.press("n")
                await still(pilot)
                turn = exam.turn
                wanted = {
                    "answered": lambda turn=turn: exam.turn != turn,
                    "judged": lambda turn=turn: exam.turn != turn and exam.current,
                }[name]
                found[name].append(await app.took("space", wanted))
                await still(pilot)
        await pilot.press("slash")
        await still(pilot)
        chooser = app.screen
        for _ in range(TIMES):
            at = chooser._at
            found["chosen"].append(await app.took("down", lambda at=at: chooser._at != at))
            await still(pilot)
        await pilot.press("escape", "q", "p")
        await still(pilot)
        table = app.screen.table
        for _ in range(TIMES):
            at = table.at
            found["stepped"].append(await app.took("down", lambda at=at: table.at != at))
            await still(pilot)
    app.session.close()
    return found


async def main():
    floors = {"line": Line, "panel": Panel, "worked": Worked}
    took = {job: [] for job in (*floors, *FLOOR_OF)}
    with tempfile.TemporaryDirectory() as name:
        for number in range(ROUNDS):
            for floor, kind in floors.items():
                took[floor] += await bare(kind)
            for job, rows in (await ours(Path(name) / str(number))).items():
                took[job] += rows
    for job, rows in took.items():
        told = f"{job:<9} {statistics.median(rows) * 1e3:7.1f} ms   least {min(rows) * 1e3:5.1f}"
        if job in FLOOR_OF:
            floor = FLOOR_OF[job]
            times = statistics.median(rows) / statistics.median(took[floor])
            within = "within" if times <= BAR else "MISSED"
            told += f"   {times:5.2f} times {floor:<6}   bar {BAR:g}: {within}"
        print(told)


if __name__ == "__main__":
    asyncio.run(main())
