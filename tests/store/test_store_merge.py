"""Merging two machines' logs: a union of revisions, with what does not agree told."""

import itertools
import os
import shutil
import sqlite3
from contextlib import closing

import pytest
from hypothesis import given
from hypothesis import strategies as st
from store.logkit import bought, opened, usd
from thorough import tries

from appraise.base.errors import InputError, StoreError
from appraise.store.backup import backups
from appraise.store.check import check
from appraise.store.merge import conflicts, merge, settle


@pytest.fixture
def paths(tmp_path):
    """The desk's log and the laptop's, which began as a copy of it."""
    desk, laptop = tmp_path / "desk" / "log.sqlite", tmp_path / "laptop" / "log.sqlite"
    with opened(desk) as log:
        log.add_all([bought("shared").named("aaaa000000000000")])
    laptop.parent.mkdir()
    shutil.copy(desk, laptop)
    return desk, laptop


SHARED = "aaaa000000000000"


def price(log, entry=SHARED):
    return log.entry(entry).paid


def test_entries_of_both_are_in_the_union(paths):
    desk, laptop = paths
    with opened(laptop, "laptop") as log:
        log.add(bought("from the laptop"))
    with opened(desk) as log:
        log.add(bought("from the desk"))
        merged = merge(log, laptop)
        assert sorted(entry.title for entry in log.entries()) == [
            "from the desk",
            "from the laptop",
            "shared",
        ]
        assert (merged.revisions, len(merged.entries), merged.conflicts) == (1, 1, ())
        again = merge(log, laptop)
        assert (again.revisions, again.entries) == (0, ())
    assert [each.reason for each in backups(desk)] == ["merge", "merge"]
    assert check(desk).problems == ()


def test_the_other_log_is_only_read(paths):
    desk, laptop = paths
    before = laptop.read_bytes()
    with opened(desk) as log:
        log.add(bought())
        merge(log, laptop)
    assert laptop.read_bytes() == before
    assert [each.name for each in laptop.parent.iterdir()] == ["log.sqlite"]


def test_an_edit_on_one_side_is_no_conflict(paths):
    desk, laptop = paths
    with opened(laptop, "laptop") as log:
        log.edit(bought(price="57.00").named(SHARED))
    with opened(desk) as log:
        assert merge(log, laptop).conflicts == ()
        assert price(log) == usd("57.00")


def test_edits_on_both_sides_are_told_and_the_later_one_shows(paths):
    desk, laptop = paths
    with opened(laptop, "laptop") as log:
        log.edit(bought(price="57.00").named(SHARED))
    with opened(desk) as log:
        log.add(bought("makes the desk's clock later"))
        log.edit(bought(price="70.00").named(SHARED))
        (conflict,) = merge(log, laptop).conflicts
        assert conflict.entry == SHARED
        assert [each.machine for each in conflict.versions] == ["desk", "laptop"]
        assert price(log) == usd("70.00")
        assert conflicts(log) == (conflict,)

        settle(log, SHARED, conflict.versions[1].id[:8])
        assert price(log) == usd("57.00")
        assert conflicts(log) == ()
        assert log.undo().of == "settle"
        assert price(log) == usd("70.00")
    assert check(desk).problems == ()


def test_the_same_edit_on_both_sides_is_no_conflict(paths):
    for path, machine in zip(paths, ("desk", "laptop"), strict=True):
        with opened(path, machine) as log:
            log.edit(bought(price="57.00").named(SHARED))
    with opened(paths[0]) as log:
        assert merge(log, paths[1]).conflicts == ()


def test_a_removal_against_an_edit_is_a_conflict(paths):
    desk, laptop = paths
    with opened(laptop, "laptop") as log:
        log.edit(bought(price="57.00").named(SHARED))
    with opened(desk) as log:
        log.commit(drop=[SHARED])
        (conflict,) = merge(log, laptop).conflicts
        assert {each.kind for each in conflict.versions} == {"edit", "delete"}
        version = next(each for each in conflict.versions if each.kind == "edit")
        settle(log, SHARED, version.id)
        assert price(log) == usd("57.00")


def test_one_beginning_made_twice_is_one(tmp_path):
    """Two machines take in the same file; one of them then edits, the other does not."""
    desk, laptop = tmp_path / "desk" / "log.sqlite", tmp_path / "laptop" / "log.sqlite"
    same = bought("from a file").named(SHARED)
    with opened(desk) as log:
        log.add(same)
        log.edit(bought("from a file", "57.00").named(SHARED))
    with opened(laptop, "laptop") as log:
        for _ in range(5):
            log.add(bought("makes the laptop's clock later"))
        log.add(same)
    for one, other in ((desk, laptop), (laptop, desk)):
        with opened(one) as log:
            assert merge(log, other).conflicts == ()
            assert price(log) == usd("57.00")


def test_only_a_version_can_be_settled_on(paths):
    with opened(paths[0]) as log:
        with pytest.raises(InputError, match="'zz' is not one version of aaaa"):
            settle(log, SHARED, "zz")
        with pytest.raises(InputError, match="is not one version"):
            settle(log, "bbbb000000000000", "")


def test_undo_takes_back_what_this_machine_did(paths):
    desk, laptop = paths
    with opened(laptop, "laptop") as log:
        for _ in range(3):
            log.add(bought("laptop's, later"))
    with opened(desk) as log:
        mine = log.add(bought("mine"))
        merge(log, laptop)
        assert log.undo().entries == (mine.id,)
        assert len(log.entries("laptop")) == 3


def test_undo_leaves_what_another_machine_changed_since(paths):
    desk, laptop = paths
    with opened(desk) as log:
        one, two = log.add_all([bought("one"), bought("two")])
    shutil.copy(desk, laptop)
    edited = bought("one", "57.00").named(one.id)
    with opened(laptop, "laptop") as log:
        log.edit(edited)
    with opened(desk) as log:
        merge(log, laptop)
        step = log.undo()
        assert (step.entries, step.left) == ((two.id,), (one.id,))
        assert log.entry(one.id) == edited
        assert log.entries("two") == ()
        step = log.redo()
        assert (step.entries, step.left) == ((two.id,), (one.id,))
        assert log.entry(one.id) == edited
        assert log.entries("two") == (two,)


@pytest.mark.parametrize("harm", ["foreign", "short", "forged", "newer", "missing"])
def test_a_log_that_cannot_be_trusted_changes_nothing(paths, harm):
    desk, laptop = paths
    with opened(laptop, "laptop") as log:
        log.add(bought("from the laptop"))
    if harm == "foreign":
        laptop.write_text("date;price\n")
    elif harm == "short":
        os.truncate(laptop, laptop.stat().st_size // 2)
    elif harm == "missing":
        laptop.unlink()
    else:
        with closing(sqlite3.connect(laptop)) as bare:
            if harm == "forged":
                bare.execute("DROP TRIGGER revision_stands")
                bare.execute("UPDATE revision SET body = replace(body, '45', '4500')")
                bare.commit()
            else:
                bare.execute("PRAGMA user_version = 99")
    with opened(desk) as log:
        before = log.entries()
        with pytest.raises(StoreError) as caught:
            merge(log, laptop)
        assert str(caught.value).startswith(f"{laptop}: ")
        assert log.entries() == before
        assert backups(desk) == ()


def test_a_log_on_a_medium_that_cannot_be_written_is_merged(paths):
    desk, laptop = paths
    with opened(laptop, "laptop") as log:
        log.add(bought("from the laptop"))
        shutil.copy(laptop, laptop.with_name("copy.sqlite"))
        shutil.copy(f"{laptop}-wal", laptop.with_name("copy.sqlite-wal"))
    laptop.with_name("copy.sqlite").chmod(0o444)
    laptop.parent.chmod(0o555)
    try:
        with opened(desk) as log:
            assert merge(log, laptop.with_name("copy.sqlite")).revisions == 1
    finally:
        laptop.parent.chmod(0o755)


acts = st.lists(
    st.tuples(
        st.sampled_from(["add", "edit", "remove", "undo", "import"]),
        st.integers(0, 3),
        st.integers(1, 9),
    ),
    max_size=6,
)


def played(path, machine, history):
    with opened(path, machine) as log:
        for act, which, number in history:
            entries = sorted(log.entries(), key=lambda entry: entry.id)
            if act == "undo" and log.coming("undo"):
                log.undo()
            elif act == "add":
                log.add(bought(price=f"{number}.00"))
            elif act == "import":
                same = bought("from a file").named(f"cccc00000000000{which}")
                with closing(sqlite3.connect(path)) as bare:
                    sql = "SELECT count(*) FROM revision WHERE entry = ?"
                    met = bare.execute(sql, (same.id,)).fetchone()[0]
                if not met:
                    log.add(same)
            elif entries and act == "edit":
                log.edit(bought(price=f"{number}.00").named(entries[which % len(entries)].id))
            elif entries and act == "remove":
                log.commit(drop=[entries[which % len(entries)].id])


def state(path):
    """All that a union must agree on: revisions, what shows, and what conflicts."""
    with opened(path) as log:
        rows = log.connection.execute("SELECT id FROM revision ORDER BY id").fetchall()
        return rows, log.entries(), conflicts(log)


@tries(15)
@given(acts, acts, acts, acts)
def test_merging_is_idempotent_commutative_and_associative(
    tmp_path_factory, shared, first, second, third
):
    root = tmp_path_factory.mktemp("merge")
    base = root / "base.sqlite"
    played(base, "desk", [("add", 0, 1), *shared])
    logs = []
    for machine, history in (("a", first), ("b", second), ("c", third)):
        path = root / machine / "log.sqlite"
        path.parent.mkdir()
        shutil.copy(base, path)
        played(path, machine, history)
        logs.append(path)

    def together(name, *order):
        path = root / name / "log.sqlite"
        path.parent.mkdir()
        shutil.copy(order[0], path)
        with opened(path) as log:
            for other in order[1:]:
                merge(log, other)
        return path

    a, b, c = logs
    assert state(together("twice", a, b, b)) == state(together("once", a, b))
    assert state(together("self", a, a)) == state(a)
    wanted = state(together("left", together("ab", a, b), c))
    assert state(together("right", a, together("bc", b, c))) == wanted
    for place, order in enumerate(itertools.permutations(logs)):
        assert state(together(f"order{place}", *order)) == wanted
    assert check(root / "left" / "log.sqlite").problems == ()
