"""The log at size: its filter beside bare SQL, its import beside bare executemany.

    python tests/bench/bench_log.py              100,000 entries, then 1,000,000
    python tests/bench/bench_log.py --kills N    N writers killed at random instants

Figures are medians of several runs on an invented log; ratios travel between machines.
"""

import argparse
import datetime as dt
import random
import sqlite3
import statistics
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import closing
from functools import partial
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent))
sys.path.insert(0, str(Path(__file__).parent.parent.parent))

from store import killkit
from store.logkit import bought, opened

from appraise.app.widgets.rows import PAGE
from appraise.exchange.csv_file import to_csv
from appraise.exchange.sheets import import_csv, read_csv
from appraise.records.entry import Entry
from appraise.store.log import Log
from appraise.store.search import where
from appraise.store.suggestions import guess

WORDS = tuple(
    f"{thing} {look}"
    for thing in ("girl", "soldier", "cousins", "couple", "baby", "dog", "basket", "ring", "books")
    for look in ("seated", "tinted", "vine", "lace", "velvet", "octagon", "scroll", "thistle")
)
QUERIES = (
    "",
    "girl",
    "girl vine process:amb",
    "process:tin,dag",
    "price:20..50",
    "date:2012..2013 soldier",
    "-girl",
    "nothing-such",
)


def invented(count: int, seed: int = 1) -> Iterator[Entry]:
    """Entries of an invented collector."""
    chance = random.Random(seed)
    start = dt.date(2010, 1, 1)
    for _ in range(count):
        yield bought(
            " ".join(chance.sample(WORDS, 3)),
            f"{chance.randint(5, 300)}.00",
            date=start + dt.timedelta(days=chance.randrange(5_000)),
            motif=chance.choice(WORDS),
            note=" ".join(chance.choices(WORDS, k=4)),
            process=chance.choice(("ambrotype", "tintype", "daguerreotype")),
        )


def seconds(run: Callable[[], object], times: int = 7) -> float:
    """The median time of some runs."""
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        run()
        taken.append(time.perf_counter() - start)
    return statistics.median(taken)


def filters(log: Log) -> None:
    """Each filter as the Prices screen asks, beside its own SQL fetched bare."""
    print("filter, one page of rows        entries   bare SQL  ratio   summary   count(*)  ratio")
    for query in QUERIES:
        condition = where(query)
        rows = (
            f"SELECT shelf.*, body FROM shelf JOIN revision USING (number) WHERE {condition.sql} "
            f"ORDER BY shelf.date DESC, added DESC, shelf.entry DESC LIMIT {PAGE}"
        )
        count = f"SELECT count(*) FROM shelf WHERE {condition.sql}"
        one = seconds(partial(log.entries, query, limit=PAGE))
        two = seconds(partial(_bare, log, rows, condition.values))
        three = seconds(partial(log.summary, query))
        four = seconds(partial(_bare, log, count, condition.values))
        print(
            f"{query!r:30} {one * 1e3:7.1f} ms {two * 1e3:7.1f} ms {one / two:5.1f} "
            f"{three * 1e3:7.1f} ms {four * 1e3:7.1f} ms {three / four:5.1f}"
        )
    took = seconds(partial(guess, log, "solider"), 3)
    print(f"guess after a typo             {took * 1e3:7.0f} ms")


def _bare(log: Log, sql: str, values: tuple[object, ...]) -> list[object]:
    return log.connection.execute(sql, values).fetchall()


def intake(directory: Path, count: int) -> None:
    """A CSV taken in, beside the same cells put bare into one table with the same durability."""
    data = to_csv(invented(count))
    start = time.perf_counter()
    preview = read_csv(data, "bench.csv")
    looked = time.perf_counter() - start
    with opened(directory / "import" / "log.sqlite") as log:
        start = time.perf_counter()
        import_csv(log, preview)
        kept = time.perf_counter() - start
    rows = [tuple(line.split(",")[:20]) for line in data.decode("utf-8-sig").splitlines()[1:]]
    with closing(sqlite3.connect(directory / "bare.sqlite")) as bare:
        bare.execute("PRAGMA journal_mode = WAL")
        bare.execute("PRAGMA synchronous = FULL")
        bare.execute(f"CREATE TABLE t ({', '.join(f'c{n}' for n in range(20))})")
        start = time.perf_counter()
        bare.executemany(f"INSERT INTO t VALUES ({', '.join('?' * 20)})", rows)
        bare.commit()
        plain = time.perf_counter() - start
    for what, took in (("CSV checked", looked), ("CSV kept", kept), ("bare executemany", plain)):
        print(f"{what:20} {took:6.2f} s  {count / took:9,.0f} rows/s  {took / plain:5.1f} x bare")


def million(directory: Path, count: int) -> None:
    """A log of a million entries opens, filters and takes one more."""
    path = directory / "million" / "log.sqlite"
    with opened(path) as log:
        for part in range(10):
            log.add_all(invented(count // 10, seed=part))
    print(f"{count:,} entries, {path.stat().st_size / 1e6:,.0f} MB")
    print(f"open and close       {seconds(lambda: opened(path).close()) * 1e3:7.1f} ms")
    with opened(path) as log:
        for query in ("", "girl vine", "nothing-such"):
            took = seconds(lambda text=query: log.entries(text, limit=PAGE), 3)
            print(f"filter {query!r:14} {took * 1e3:7.1f} ms")
        print(f"add one              {seconds(lambda: log.add(bought())) * 1e3:7.1f} ms")
        print(f"undo                 {seconds(log.undo, 3) * 1e3:7.1f} ms")


def kills(directory: Path, count: int) -> None:
    """Writers killed at random instants, each proven."""
    acts = list(killkit.rounds(directory, count, seed=count))
    print(f"{count:,} writers killed after {sum(acts):,} acknowledged acts: nothing lost")


def main() -> None:
    """Run the benchmark."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--kills", type=int, default=0)
    parser.add_argument("--entries", type=int, default=100_000)
    chosen = parser.parse_args()
    with tempfile.TemporaryDirectory() as name:
        directory = Path(name)
        if chosen.kills:
            kills(directory, chosen.kills)
            return
        with opened(directory / "log.sqlite") as log:
            log.add_all(invented(chosen.entries))
            print(f"{chosen.entries:,} entries")
            filters(log)
            print(f"all entries read     {seconds(log.entries, 1):6.2f} s")
        intake(directory, chosen.entries)
        million(directory, 10 * chosen.entries)


if __name__ == "__main__":
    main()
