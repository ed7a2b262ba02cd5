"""The table's first paint at 100,000 rows beside that at 100, in one run.

    python tests/bench/bench_table.py

Each round opens the screen of prices over a log of either size, from the key to the first paint
with rows in it, and the bare table over either number of rows. The medians of the rounds count.
"""

import asyncio
import statistics
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
sys.path.insert(0, str(Path(__file__).parent.parent))
sys.path.insert(0, str(Path(__file__).parent.parent.parent))

from app.kit import session, shown
from app.test_table import Shown, row
from bench_log import invented

from appraise.app.app import AppraiseApp

FEW, MANY = 100, 100_000
ROUNDS = 15
BAR = 1.1


async def prices(home):
    """Seconds from the key to a painted list of prices."""
    app = AppraiseApp(session(home))
    async with app.run_test(size=(110, 30)) as pilot:
        for _ in range(3):
            await app.workers.wait_for_complete()
            await pilot.pause()
        start = time.perf_counter()
        app.simulate_key("p")
        while "filter" not in (text := shown(app)) or "20" not in text.split("\n")[4]:
            await asyncio.sleep(0.001)
        took = time.perf_counter() - start
    app.session.close()
    return took


async def bare(count):
    """Seconds from the start of an app with nothing but a table to its first painted row."""
    app = Shown([row(n) for n in range(count)])
    start = time.perf_counter()
    async with app.run_test(size=(110, 30)) as pilot:
        while "plate 0" not in shown(app):
            await pilot.pause(0.001)
        return time.perf_counter() - start


def main():
    with tempfile.TemporaryDirectory() as place:
        homes = {count: Path(place) / str(count) for count in (FEW, MANY)}
        for count, home in homes.items():
            made = session(home)
            made.log.add_all(invented(count))
            made.close()
        for name, job in (("bare table", bare), ("prices", lambda n: prices(homes[n]))):
            took = {FEW: [], MANY: []}
            for number in range(ROUNDS + 1):
                for count in took:
                    seconds = asyncio.run(job(count))
                    if number:
                        took[count].append(seconds)
            few, many = (statistics.median(took[count]) for count in (FEW, MANY))
            told = "within" if many / few <= BAR else "MISSED"
            print(
                f"{name:<12} {FEW:,} rows {few * 1e3:6.1f} ms, {MANY:,} rows {many * 1e3:6.1f} ms: "
                f"{many / few:5.2f} times, bar {BAR}: {told}"
            )


if __name__ == "__main__":
    main()
