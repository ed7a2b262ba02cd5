"""The table's first paint over 100,000 rows beside that over 100, in one run.

    python tests/bench/bench_table.py

Each round starts an app with nothing but a table, over either number of rows, and waits for the
first painted row. Rows are made when they are asked for, as a log's are. The medians count; the
screen of prices over a log of either size is timed by `bench_log_screen.py`.
"""

import asyncio
import statistics
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent))
sys.path.insert(0, str(Path(__file__).parent.parent.parent))

from app.test_table import Shown, row, text

FEW, MANY = 100, 100_000
ROUNDS = 25
BAR = 1.1


class Made:
    """So many rows, each made when it is asked for."""

    def __init__(self, count):
        self.count = self.least = count

    def at(self, place):
        return row(place) if 0 <= place < self.count else None


async def painted(count):
    """Seconds from the start of the app to its first painted row."""
    app = Shown(Made(count))
    start = time.perf_counter()
    async with app.run_test(size=(110, 30)) as pilot:
        while "plate 0" not in "".join(text(app)):
            await pilot.pause(0.001)
        return time.perf_counter() - start


def main():
    took = {FEW: [], MANY: []}
    for number in range(ROUNDS + 1):
        for count, times in took.items():
            seconds = asyncio.run(painted(count))
            if number:
                times.append(seconds)
    few, many = (statistics.median(took[count]) for count in (FEW, MANY))
    ratio = many / few
    print(
        f"first paint of {FEW:,} rows {few * 1e3:.1f} ms, of {MANY:,} rows {many * 1e3:.1f} ms: "
        f"{ratio:.2f} times, bar {BAR}: {'within' if ratio <= BAR else 'MISSED'}"
    )


if __name__ == "__main__":
    main()
