"""A writer that is killed at a random instant, and the proof of what must be left.

The writer says on a pipe what it is about to do and, once the log's method has returned,
which revisions that made. Whatever was said to be done must be in the log afterwards; what
was under way must be there whole or not at all.
"""

import dataclasses
import json
import os
import random
import shutil
import signal
import sqlite3
import time
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path

from store.logkit import bought, opened

from appraise.exchange.intake import take_in
from appraise.store.log import Log
from appraise.store.merge import merge
from appraise.store.revisions import of_act
from appraise.store.undo import next_step

ACTS = ("add", "add", "edit", "remove", "undo", "many", "import", "merge", "draft")


def other_log(directory: Path) -> Path:
    """A log of another machine, to be merged."""
    path = directory / "other" / "log.sqlite"
    with opened(path, "laptop") as log:
        for n in range(12):
            log.add(bought(f"laptop {n}"))
    return path


def killed(path: Path, other: Path, chance: random.Random, longest: float) -> list[dict]:
    """Run a writer on `path` and kill it at a random instant; what it said comes back.

    The instant is up to `longest` seconds after a random number of things said, so that it falls
    between and inside acts of every sort however fast the machine is.
    """
    seed = chance.random()
    pause = chance.uniform(0, longest)
    lines_first = chance.randrange(14)
    read_end, write_end = os.pipe()
    child = os.fork()
    if child == 0:  # only the system call leaves: no clean-up of the test's own may run here
        os.close(read_end)
        try:
            _write(path, other, random.Random(seed), write_end)
        finally:
            os._exit(1)
    os.close(write_end)
    first = os.read(read_end, 1)
    while first.count(b"\n") < lines_first and (more := os.read(read_end, 1)):
        first += more
    time.sleep(pause)
    os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    with os.fdopen(read_end, "rb") as pipe:
        lines = (first + pipe.read()).decode().split("\n")
    said = [json.loads(line) for line in lines[:-1] if line]
    assert os.WIFSIGNALED(status), f"the writer ended by itself: {said[-2:]}"
    return said


def proven(path: Path, said: list[dict], before: set[str]) -> set[str]:
    """Check what a killed writer left behind; the revisions that are now there come back.

    Args:
        path: The log.
        said: What the writer said.
        before: The revisions that were there before it ran.
    """
    with opened(path) as log:
        (integrity,) = log.connection.execute("PRAGMA integrity_check").fetchone()
        present = _revisions(log)
        drafts = {each.id: each.text for each in log.drafts()}
        shown = {entry.id for entry in log.entries()}
        alive = _alive(log)
    assert integrity == "ok"
    done = [each for each in said if "made" in each]
    acknowledged = before.union(*(each["made"] for each in done))
    assert acknowledged <= present, "an acknowledged change is lost"
    under_way = [each for each in said if "will" in each][len(done) :]
    extra = len(present - acknowledged)
    assert extra in ({0} | {each["will"] for each in under_way}), (extra, under_way)
    kept = [each["draft"] for each in done if each["draft"]][-1:]
    possible = kept + [each["draft"] for each in under_way if each["draft"]]
    assert not kept or drafts["piece"] in possible
    assert shown == alive
    return present


def rounds(directory: Path, count: int, seed: int, longest: float = 0.01) -> Iterator[int]:
    """So many killings, each proven, on a new log every twenty; the number of acts each."""
    chance = random.Random(seed)
    other = other_log(directory)
    for place in range(count):
        path = directory / f"home{place // 20}" / "log.sqlite"
        if place % 20 == 0:
            with opened(path) as log:
                log.add(bought("first"))
                before = _revisions(log)
        said = killed(path, other, chance, longest)
        before = proven(path, said, before)
        if place % 20 == 19:
            shutil.rmtree(path.parent)
        yield sum("made" in each for each in said)


def _write(path: Path, other: Path, chance: random.Random, pipe: int) -> None:
    with opened(path, wait_seconds=1) as log:
        os.write(pipe, b"\n")
        while True:
            act = chance.choice(ACTS)
            will, do, draft = _planned(log, act, other, chance)
            _say(pipe, {"will": will, "act": act, "draft": draft})
            before = _last(log)
            do()
            sql = "SELECT id FROM revision WHERE number > ?"
            made = [each for (each,) in log.connection.execute(sql, (before,))]
            _say(pipe, {"made": made, "act": act, "draft": draft})


def _planned(
    log: Log, act: str, other: Path, chance: random.Random
) -> tuple[int, Callable[[], object], str]:
    """How many revisions an act will make, the act, and the draft's text if it is one."""
    entries = log.entries(limit=50)
    title = f"plate {chance.randrange(10**9)}"
    if act == "draft":
        return 0, lambda: log.save_draft("piece", title), title
    if act == "many":
        return 20, lambda: log.add_all([bought(f"{title} {n}") for n in range(20)]), ""
    if act == "import":
        return 15, lambda: take_in(log, [bought(f"{title} {n}") for n in range(15)]), ""
    if act == "merge":
        return _missing(log, other), lambda: merge(log, other), ""
    if act == "undo" and log.coming("undo"):
        return _of_undo(log), log.undo, ""
    if entries and act == "edit":
        chosen = dataclasses.replace(chance.choice(entries), note=title)
        return 1, lambda: log.edit(chosen), ""
    if entries and act == "remove":
        chosen = chance.choice(entries)
        return 1, lambda: log.commit(drop=[chosen.id]), ""
    return 1, lambda: log.add(bought(title)), ""


def _missing(log: Log, other: Path) -> int:
    with closing(sqlite3.connect(other)) as source:
        known = {each for (each,) in source.execute("SELECT id FROM revision")}
    return len(known - _revisions(log))


def _of_undo(log: Log) -> int:
    act = next_step(log.connection, log.signs, "undo")
    return len(list(of_act(log.connection, act.act, act.stamp)))


def _revisions(log: Log) -> set[str]:
    return {each for (each,) in log.connection.execute("SELECT id FROM revision")}


def _alive(log: Log) -> set[str]:
    """Entries whose newest revision is no removal, found without the shelf."""
    newest: dict[str, tuple] = {}
    for entry, stamp, body in log.connection.execute("SELECT entry, stamp, body FROM revision"):
        newest[entry] = max(newest.get(entry, (-1, None)), (stamp, body), key=lambda pair: pair[0])
    return {entry for entry, (_, body) in newest.items() if body is not None}


def _last(log: Log) -> int:
    return log.connection.execute("SELECT coalesce(max(number), 0) FROM revision").fetchone()[0]


def _say(pipe: int, what: dict) -> None:
    os.write(pipe, json.dumps(what).encode() + b"\n")
