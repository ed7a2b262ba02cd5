"""Speed of the reading and of the next check, beside the code of an earlier commit in one run."""

import json
import os
import subprocess
import sys
import tempfile
from pathlib import Path
from statistics import median

import numpy as np
from bench_reading_pieces import World

from appraise.knowledge import load

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
BEFORE = "c5b2810"
PIECES, DRAWN = 8, 200
COUNTS = (2, 10, 30, 60)  # findings
FULL = COUNTS[-1]
READ, RANK = 1 / 5, 1 / 3  # of the earlier commit's time
ENOUGH_MS = 50.0
LINES = 3400


def worker(code: Path, task: str, given: str = "") -> list | dict:
    """What the worker prints under the code of a checkout."""
    env = {**os.environ, "PYTHONPATH": str(code), "OMP_NUM_THREADS": "1",
           "OPENBLAS_NUM_THREADS": "1"}  # fmt: skip
    run = subprocess.run(
        [sys.executable, str(HERE / "reading_worker.py"), task],
        env=env, cwd=code, input=given, capture_output=True, text=True, check=True,
    )  # fmt: skip
    return json.loads(run.stdout)


def checked_out(commit: str, into: str) -> Path:
    """The code of a commit, without touching the work tree."""
    archive = subprocess.run(
        ["git", "archive", commit, "appraise", "data", "demo", "pyproject.toml"],
        cwd=ROOT, capture_output=True, check=True,
    )  # fmt: skip
    subprocess.run(["tar", "-x", "-C", into], input=archive.stdout, check=True)
    return Path(into)


def pieces(known: dict[str, list[str]]) -> dict[int, list[list[list[str]]]]:
    """By count, pieces with so many findings that both codes know, as the model draws them."""
    knowledge, rng = load(), np.random.default_rng(1)
    found: dict[int, list[list[list[str]]]] = {count: [] for count in COUNTS}
    while len(found[FULL]) < PIECES:
        for piece in World(knowledge).draw("us", DRAWN, rng, None).pieces("us", knowledge):
            rows = [[one.check, one.answer, one.known] for one in piece.findings.values()
                    if one.answer in known.get(one.check, ())]  # fmt: skip
            rng.shuffle(rows)
            for count in COUNTS:
                if len(rows) >= count and len(found[count]) < PIECES:
                    found[count].append(rows[:count])
    return found


def check_speed() -> bool:
    """Print the times and their ratios; True where the bars hold."""
    good = True
    with tempfile.TemporaryDirectory() as into:
        before = checked_out(BEFORE, into)
        for count, made in pieces(worker(before, "answers")).items():
            then, now = (worker(code, "times", json.dumps(made)) for code in (before, ROOT))
            print(f"{count} findings, median of {len(made)} pieces, milliseconds of the processor")
            for task in now[0]:
                old, new = (median(one[task] for one in rows) for rows in (then, now))
                worst = max(one[task] for one in now)
                print(f"  {task:22} {new:7.2f} (worst {worst:.2f}), {BEFORE} {old:8.2f}: "
                      f"{new / old:.3f} of it")  # fmt: skip
                bar = READ if task.startswith("read") else RANK if task.startswith("rank") else 9
                good &= count != FULL or new / old <= bar
                good &= task != "enough seen" or worst <= ENOUGH_MS
    lines = {
        room: sum(len(one.read_text().splitlines()) for one in ROOT.glob(f"appraise/{room}/*.py"))
        for room in ("reading", "inquiry", "verdict")
    }
    print(f"lines {lines}, of reading at most {LINES}")
    return good and lines["reading"] <= LINES
