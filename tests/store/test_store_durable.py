"""Power cuts and crowds: what was acknowledged is there, and nothing is half done."""

import os
import random
import shutil

from store import killkit
from store.logkit import bought, opened
from thorough import times

from appraise.store.check import check
from appraise.store.files import workshop

KILLS = times(40, 2000)
ENTRIES = times(250, 1000)  # by each of two programs at once


def test_a_writer_that_is_killed_again_and_again_loses_nothing(tmp_path):
    """SIGKILL at random instants while adding, editing, importing, merging and undoing."""
    acts = list(killkit.rounds(tmp_path, KILLS, seed=1))
    assert len(acts) == KILLS
    # the instants fall between and inside acts: some writers did little, some much
    assert min(acts) < 5 < max(acts)


def test_a_log_that_was_killed_often_is_sound(tmp_path):
    chance = random.Random(2)
    path, other = tmp_path / "home" / "log.sqlite", killkit.other_log(tmp_path)
    before = set()
    for _ in range(15):
        before = killkit.proven(path, killkit.killed(path, other, chance, 0.01), before)
    checked = check(path)
    assert checked.problems == ()
    assert checked.revisions == len(before)


def test_two_programs_write_many_entries_each_at_once(tmp_path):
    path = tmp_path / "log.sqlite"
    opened(path).close()
    children = []
    for machine in ("desk", "laptop"):
        child = os.fork()
        if child == 0:
            status = 1
            try:
                with opened(path, machine, wait_seconds=60) as log:
                    for n in range(ENTRIES):
                        log.add(bought(f"{machine} {n}"))
                status = 0
            finally:
                os._exit(status)
        children.append(child)
    assert [os.waitpid(child, 0)[1] for child in children] == [0, 0]
    with opened(path) as log:
        titles = {entry.title for entry in log.entries()}
        stamps = log.connection.execute(
            "SELECT count(DISTINCT stamp), count(*) FROM revision"
        ).fetchone()
    assert titles == {f"{machine} {n}" for machine in ("desk", "laptop") for n in range(ENTRIES)}
    assert stamps == (2 * ENTRIES, 2 * ENTRIES)
    assert check(path).problems == ()


def test_what_a_killed_program_left_lying_is_cleared_after_a_day(tmp_path):
    path = tmp_path / "log.sqlite"
    for name, age in ((".log.sqlite.old", 90_000), (".log.sqlite.new", 60), (".other.old", 90_000)):
        left = tmp_path / name
        left.mkdir()
        (left / "copy.sqlite").write_bytes(b"half a copy")
        then = left.stat().st_mtime - age
        os.utime(left, (then, then))
    with workshop(path):
        pass
    assert sorted(each.name for each in tmp_path.iterdir()) == [".log.sqlite.new", ".other.old"]
    shutil.rmtree(tmp_path / ".log.sqlite.new")
