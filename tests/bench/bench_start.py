"""How soon a command answers and the app paints, as ratios to floors measured in the same run.

    python tests/bench/bench_start.py

A command beside an interpreter that loads SQLite and nothing else, the first paint of the app
beside that of an app of the screen library with one line in it. All of it is compiled first.
All are told in seconds of the processor, which other load does not lengthen much; where the
system does not tell those of a running program, the app in seconds until it has painted. Each
round runs every program once; the least of the rounds counts, and a second figure gives the median
of the ratios within a round.
"""

import os
import pty
import resource
import select
import statistics
import subprocess
import sys
import sysconfig
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).parent.parent.parent
ROUNDS = 15
BARE = """
from textual.app import App
from textual.widgets import Static
class Bare(App):
    def compose(self):
        yield Static("painted")
Bare().run(mouse=False)
"""
LOOK = "sixth ambro thermoplastic vine 45"
BARS = {"log list": 4.0, "look": 16.0, "first paint": 1.35}


def environment():
    """Ours, with bytecode written and read, and this tree first."""
    kept = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    return kept | {"PYTHONPATH": str(ROOT), "TERM": "xterm-256color", "OPENBLAS_NUM_THREADS": "1"}


def ran(*words):
    """Seconds of the processor that a program takes; it runs on one thread and waits for nobody."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run(
        [sys.executable, *words], env=environment(), capture_output=True, check=True, cwd=ROOT
    )
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def on_processor(child):
    """Seconds of the processor that a running program has had; 0 where the system tells none."""
    tasks = Path(f"/proc/{child}/task").glob("*/schedstat")
    return sum(int(one.read_text().split()[0]) for one in tasks) / 1e9


def painted(words, awaited):
    """Seconds until a program on a terminal of 80 by 24 has painted a text; then it is ended."""
    start = time.perf_counter()
    child, terminal = pty.fork()
    if child == 0:
        os.environ.clear()
        os.environ.update(environment() | {"COLUMNS": "80", "LINES": "24"})
        os.chdir(ROOT)
        os.execv(sys.executable, [sys.executable, *words])
    seen = b""
    while awaited not in seen and time.perf_counter() - start < 30:
        if select.select([terminal], [], [], 0.1)[0]:
            seen += os.read(terminal, 65_536)
    took = on_processor(child) or time.perf_counter() - start
    os.write(terminal, b"\x11")
    os.kill(child, 9)
    os.waitpid(child, 0)
    os.close(terminal)
    if awaited not in seen:
        raise SystemExit(f"never painted: {awaited!r}")
    return took


def main():
    for place in (ROOT / "appraise", sysconfig.get_paths()["purelib"]):
        subprocess.run(
            [sys.executable, "-m", "compileall", "-q", str(place)], env=environment(), check=False
        )
    with tempfile.TemporaryDirectory() as name:
        furnish = "import sys; from pathlib import Path; from appraise.base.places import Home; "
        code = f"{furnish}from appraise.cli.demo import furnish; furnish(Home(Path(sys.argv[1])))"
        ran("-c", code, name)
        app = ["-m", "appraise", "--home", name]
        jobs = {
            "sqlite3": lambda: ran("-c", "import sqlite3"),
            "numpy": lambda: ran("-c", "import numpy"),
            "log list": lambda: ran(*app, "log", "list"),
            "look": lambda: ran(*app, "look", LOOK),
            "bare app": lambda: painted(["-c", BARE], b"painted"),
            "first paint": lambda: painted(app, b"quit"),
        }
        took = {job: [] for job in jobs}
        for number in range(ROUNDS + 1):
            for job, do in jobs.items():
                seconds = do()
                if number:  # the first round fills what is kept from run to run
                    took[job].append(seconds)
    for job, rows in took.items():
        floor = took["bare app" if job == "first paint" else "sqlite3"]
        ratio = min(rows) / min(floor)
        middle = statistics.median(a / b for a, b in zip(rows, floor, strict=True))
        bar = BARS.get(job)
        told = f"   bar {bar:g}: {'within' if ratio <= bar else 'MISSED'}" if bar else ""
        ms = min(rows) * 1e3
        print(f"{job:<12} {ms:7.1f} ms   {ratio:5.2f} times (in rounds {middle:5.2f}){told}")


if __name__ == "__main__":
    main()
