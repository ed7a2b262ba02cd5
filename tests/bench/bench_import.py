"""An import beside a bare insert of the same rows with the same indexes, each in its own process.

    PYTHONPATH=.:tests:tests/bench python tests/bench/bench_import.py --entries 100000 /tmp/long

A log is built and exported where there is none. Then the export is taken into an empty home, taken
back, and merged into a third one; peaks are those of the whole process.
"""

import shutil
import sys

from bench_scale import long_log, ran

BARE = """
import csv, sqlite3, sys
source, path = sys.argv[1:]
old = sqlite3.connect(source)
new = sqlite3.connect(path)
new.execute("PRAGMA journal_mode = WAL")
new.execute("PRAGMA synchronous = FULL")
made = "SELECT sql FROM sqlite_master WHERE sql IS NOT NULL AND name NOT LIKE 'sqlite_%'"
for (sql,) in old.execute(made):
    new.execute(sql)
for table in ("revision", "shelf"):
    rows = old.execute(f"SELECT * FROM {table}")
    marks = ", ".join("?" * len(rows.description))
    names = ", ".join(one[0] for one in rows.description)
    new.executemany(f"INSERT INTO {table} ({names}) VALUES ({marks})", rows)
new.commit()
"""


def main() -> None:
    """Run the benchmark."""
    home = long_log(__doc__)
    program = [sys.executable, "-m", "appraise"]
    out, second, third = home / "out.csv", home / "second", home / "third"
    out.unlink(missing_ok=True)
    for place in (second, third):
        shutil.rmtree(place, ignore_errors=True)
    ran("export as CSV", home, [*program, "log", "export", str(out)])
    bare = home / "bare.sqlite"
    bare.unlink(missing_ok=True)
    floor = ran("bare insert", home, [sys.executable, "-c", BARE, f"{home}/log.sqlite", str(bare)])
    bare.unlink()
    took = ran("import", second, [*program, "log", "import", str(out)])
    print(f"{'':28} {took / floor:8.1f} x bare")
    ran("import once more", second, [*program, "log", "import", str(out)])
    ran("undo of the import", second, [*program, "log", "undo"])
    ran("merge", third, [*program, "log", "merge", f"{home}/log.sqlite"])
    for place in (second, third):
        shutil.rmtree(place, ignore_errors=True)


if __name__ == "__main__":
    main()
