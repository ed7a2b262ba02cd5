"""From a key to painted panes on Examine, beside a key that repaints one line of a bare app.

    python tests/bench/bench_key.py

Both in one process, in turns; painted means handed to the terminal. The library paints at most 60
times a second, so that a part of a frame of 16.7 ms is in every figure, the floor's too. `walked`:
a key that goes to another part; `answered`: an answer, till the next question is known to be open
or blank; `judged`: an answer, till the verdict on the piece with it stands in the panel; `chosen`:
a line further in a list to choose from; `stepped`: a row further in the table of prices.
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
from textual.widgets import Static

import appraise.app
from appraise.app.app import AppraiseApp

ROUNDS, TIMES = 6, 8
JOBS = ("walked", "answered", "judged", "chosen", "stepped")
BAR = 1.5


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


class Bare(Watched, App):
    """A line that a key changes."""

    BINDINGS = (Binding("x", "change"),)

    def compose(self):
        self.number = 0
        yield Static("0")

    def action_change(self):
        self.number += 1
        self.query_one(Static).update(str(self.number))


class Ours(Watched, AppraiseApp):
    """The app."""

    CSS_PATH = Path(appraise.app.__file__).parent / "app.tcss"


async def bare():
    found, app = [], Bare()
    async with app.run_test(size=(80, 24)) as pilot:
        for number in range(1, TIMES + 1):
            found.append(await app.took("x", lambda number=number: app.number == number))
            await pilot.pause(0.02)
    return found


async def ours(place):
    found, app = {job: [] for job in JOBS}, Ours(session(place, demo=True))
    async with app.run_test(size=(110, 30)) as pilot:
        await settled(pilot)
        await pilot.press("3")
        await settled(pilot)
        exam = app.screen.exam
        for _ in range(TIMES):
            at = exam.at
            found["walked"].append(await app.took("tab", lambda at=at: exam.at != at))
            await settled(pilot)
        for name in ("answered", "judged"):
            for _ in range(TIMES):
                await pilot.press("n")
                await settled(pilot)
                turn = exam.turn
                wanted = {
                    "answered": lambda turn=turn: exam.turn != turn,
                    "judged": lambda turn=turn: exam.turn != turn and exam.current,
                }[name]
                found[name].append(await app.took("space", wanted))
                await settled(pilot)
        await pilot.press("slash")
        await settled(pilot)
        chooser = app.screen
        for _ in range(TIMES):
            at = chooser._at
            found["chosen"].append(await app.took("down", lambda at=at: chooser._at != at))
            await settled(pilot)
        await pilot.press("escape", "q", "p")
        await settled(pilot)
        table = app.screen.table
        for _ in range(TIMES):
            at = table.at
            found["stepped"].append(await app.took("down", lambda at=at: table.at != at))
            await settled(pilot)
    app.session.close()
    return found


async def main():
    took = {job: [] for job in ("bare", *JOBS)}
    with tempfile.TemporaryDirectory() as name:
        for number in range(ROUNDS):
            took["bare"] += await bare()
            for job, rows in (await ours(Path(name) / str(number))).items():
                took[job] += rows
    floor = statistics.median(took["bare"])
    for job, rows in took.items():
        middle = statistics.median(rows)
        within = "within" if middle <= BAR * floor else "MISSED"
        told = f"   bar {BAR:g}: {within}" if job in JOBS else ""
        print(f"{job:<9} {middle * 1e3:7.1f} ms   {middle / floor:5.2f} times{told}")


if __name__ == "__main__":
    asyncio.run(main())
