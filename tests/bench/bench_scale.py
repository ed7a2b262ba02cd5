"""Commands on a long log, each in a process of its own: seconds and peak memory, beside a floor.

    PYTHONPATH=.:tests:tests/bench python tests/bench/bench_scale.py --entries 100000 /tmp/long

The floor of a list is a bare select of what it shows, printed. A log is built where there is none.
"""

import argparse
import os
import subprocess
import sys
import time
from pathlib import Path

from bench_log import invented
from store.logkit import opened

FLOOR = """
import sqlite3, sys
sql = "SELECT entry, date, record, price, currency, title, venue FROM shelf ORDER BY date DESC"
for row in sqlite3.connect(sys.argv[1]).execute(sql):
    print(row[0][:8], *row[1:])
"""
ONE = ("log", "add", "girl with a hoop", "paid=45 USD", "record=bought", "channel=market")
PIECE = """piece: 1
kind: cased
motif: girl seated vine
channel: market
format: sixth
findings:
  own.process: ambrotype
asking: 40 USD
"""


def ran(name: str, home: Path, words: list[str]) -> float:
    """Run one process, print what it took, and say how long."""
    start = time.perf_counter()
    env = {**os.environ, "APPRAISE_HOME": str(home)}
    with subprocess.Popen(words, env=env, stdout=subprocess.DEVNULL) as process:
        _, status, used = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
    took = time.perf_counter() - start
    peak = used.ru_maxrss / 1024
    busy = used.ru_utime + used.ru_stime
    print(
        f"{name:28} {took:8.2f} s {busy:8.2f} s busy {peak:8.0f} MB  status {process.returncode}",
        flush=True,
    )
    return took


def long_log(says: str | None) -> Path:
    """The home that the command line names, with a log of as many invented entries."""
    parser = argparse.ArgumentParser(description=says)
    parser.add_argument("home", type=Path)
    parser.add_argument("--entries", type=int, default=100_000)
    chosen = parser.parse_args()
    home: Path = chosen.home
    home.mkdir(parents=True, exist_ok=True)
    if not (home / "log.sqlite").exists():
        with opened(home / "log.sqlite") as log:
            log.set_base_currency("USD")
            for part in range(20):
                log.add_all(invented(chosen.entries // 20, seed=part))
    return home


def main() -> None:
    """Run the benchmark."""
    home = long_log(__doc__)
    program = [sys.executable, "-m", "appraise"]
    floor = ran("bare select, printed", home, [sys.executable, "-c", FLOOR, f"{home}/log.sqlite"])
    listed = ran("list of all", home, [*program, "log", "list"])
    print(f"{'':28} {listed / floor:8.1f} x bare")
    ran("list of all, JSON", home, [*program, "log", "list", "--json"])
    out, piece = home / "out.csv", home / "piece.yaml"
    out.unlink(missing_ok=True)
    ran("export as CSV", home, [*program, "log", "export", str(out)])
    piece.write_text(PIECE, encoding="utf-8")
    (home / "learnt-prices.msgpack").unlink(missing_ok=True)
    ran("verdict, log learnt", home, [*program, "verdict", str(piece)])
    ran("verdict, log as kept", home, [*program, "verdict", str(piece)])
    ran("one price logged", home, [*program, *ONE])
    ran("verdict after that change", home, [*program, "verdict", str(piece)])
    ran("check", home, [*program, "log", "check"])


if __name__ == "__main__":
    main()
