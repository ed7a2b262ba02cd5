"""The open log: adding, editing, removing, undoing, and finding things again."""

import datetime as dt
import sqlite3
from contextlib import closing

import pytest
from hypothesis import given
from hypothesis import strategies as st
from store import logkit
from store.logkit import bought, opened, ticking, usd
from thorough import tries

from appraise.base.errors import InputError, StoreError
from appraise.records.record_types import from_text
from appraise.store.log import open_log


@pytest.fixture
def path(tmp_path):
    return tmp_path / "log.sqlite"


@pytest.fixture
def log(path):
    with opened(path) as log:
        yield log


def test_an_entry_comes_back_with_its_id(log):
    kept = log.add(bought())
    assert len(kept.id) == 16
    assert log.entry(kept.id) == kept == bought().named(kept.id)
    assert log.entries() == (kept,)


def test_any_unique_beginning_of_an_id_will_do(log):
    first = log.add(bought().named("aaaa000000000000"))
    log.add(bought().named("aaab000000000000"))
    assert log.entry("aaaa") == first
    assert log.entry(" AAAA0 ") == first
    with pytest.raises(InputError, match=r"'aaa' begins more than one id \(aaaa0+, aaab0+\)"):
        log.entry("aaa")
    for missing in ("b", "", "%", "aaaa' OR 1", "z"):
        with pytest.raises(InputError, match="no entry"):
            log.entry(missing)


def test_an_id_is_not_given_twice(log):
    kept = log.add(bought())
    with pytest.raises(InputError, match="is in the log already"):
        log.add(kept)
    twin = bought().named("aaaa000000000000")
    with pytest.raises(InputError, match="is in the log already"):
        log.add_all([twin, twin])
    log.commit(drop=[kept.id])
    with pytest.raises(InputError, match="is in the log already"):
        log.add(kept)
    assert log.entries() == ()


def test_equal_entries_of_one_act_are_two(log):
    one, two = log.add_all([bought(), bought()])
    assert one.id != two.id
    assert len(log.entries()) == 2


def test_edit_keeps_the_old_one_in_the_history(log):
    kept = log.add(bought())
    dearer = bought(price="50.00").named(kept.id)
    assert log.edit(dearer) == dearer
    assert log.entry(kept.id) == dearer
    new, old = log.history(kept.id)
    assert (new.kind, old.kind) == ("edit", "add")
    assert from_text(old.body, kept.id) == kept
    assert new.parents == old.id
    assert (new.machine, old.time) == ("desk", "2024-05-31T12:00:01.000000Z")


def test_an_edit_that_changes_nothing_is_none(log):
    kept = log.add(bought())
    log.edit(kept)
    assert len(log.history(kept.id)) == 1


def test_an_edit_does_not_overwrite_what_was_not_seen(path, log):
    seen = log.add(bought())
    with opened(path) as other:
        other.edit(bought(price="50.00").named(seen.id))
    with pytest.raises(InputError, match="was changed by another program meanwhile"):
        log.edit(bought(price="55.00").named(seen.id), was=seen)
    assert log.entry(seen.id).paid == usd("50.00")


def test_a_removed_entry_is_gone_but_not_forgotten(log):
    kept = log.add(bought())
    log.commit(drop=[kept.id])
    assert log.entries() == ()
    for attempt in (lambda: log.entry(kept.id), lambda: log.commit(drop=[kept.id])):
        with pytest.raises(InputError, match="no entry"):
            attempt()
    with pytest.raises(InputError, match="no entry"):
        log.edit(kept)
    assert [each.kind for each in log.history(kept.id)] == ["delete", "add"]


def test_undo_and_redo_walk_back_and_forth(log):
    kept = log.add(bought())
    log.edit(bought(price="50.00").named(kept.id))
    log.commit(drop=[kept.id])
    assert log.undo().of == "delete"
    assert log.entry(kept.id).paid == usd("50.00")
    assert log.undo().of == "edit"
    assert log.entry(kept.id) == kept
    assert log.undo().entries == (kept.id,)
    assert log.entries() == ()
    with pytest.raises(InputError, match="nothing to undo"):
        log.undo()
    assert not log.coming("undo")
    assert [log.redo().of for _ in range(2)] == ["add", "edit"]
    assert log.entry(kept.id).paid == usd("50.00")
    assert log.coming("redo")
    log.add(bought("another"))
    assert not log.coming("redo")
    with pytest.raises(InputError, match="nothing to redo"):
        log.redo()


def test_undo_takes_an_act_back_whole(log):
    log.add_all([bought(f"plate {n}") for n in range(20)])
    log.commit(drop=[entry.id for entry in log.entries(limit=5)])
    assert len(log.entries()) == 15
    log.undo()
    assert len(log.entries()) == 20
    log.undo()
    assert log.entries() == ()


def test_undo_outlives_the_program(path):
    with opened(path) as log:
        kept = log.add(bought())
        log.edit(bought(price="50.00").named(kept.id))
        log.undo()
    with opened(path) as log:
        assert log.redo().of == "edit"
        assert log.entry(kept.id).paid == usd("50.00")
        log.undo()
        log.undo()
    with opened(path) as log:
        assert log.entries() == ()
        log.redo()
        assert log.entries() == (kept,)


def test_a_clock_that_runs_backwards_changes_no_order(path):
    with open_log(path, ticking(seconds=-3600), "desk") as log:
        kept = log.add(bought(price="1.00"))
        for price in ("2.00", "3.00", "4.00"):
            log.edit(bought(price=price).named(kept.id))
        assert log.entry(kept.id).paid == usd("4.00")
        log.undo()
        assert log.entry(kept.id).paid == usd("3.00")
        stamps = [each.stamp for each in log.history(kept.id)]
        assert stamps == sorted(set(stamps), reverse=True)


def kept_then(log, error):
    with log.transaction():
        log.add(bought("dropped"))
        log.save_draft("d2", "piece: 1")
        raise error


def test_a_transaction_is_all_or_nothing(path, log):
    log.save_draft("d1", "piece: 1")
    with log.transaction():
        log.add(bought("kept"))
        with pytest.raises(ZeroDivisionError):
            kept_then(log, ZeroDivisionError)
        log.drop_draft("d1")
    assert [each.title for each in log.entries()] == ["kept"]
    assert log.drafts() == ()
    with pytest.raises(KeyboardInterrupt):
        kept_then(log, KeyboardInterrupt)
    with opened(path) as other:
        assert [each.title for each in other.entries()] == ["kept"]
        assert other.drafts() == ()


def test_the_draft_kept_last_is_the_first_under_any_clock(path):
    with open_log(path, ticking(seconds=-3600), "desk") as log:
        for name in ("a", "b", "a", "c", "b"):
            log.save_draft(name, "piece: 1")
        assert [each.id for each in log.drafts()] == ["b", "c", "a"]


def test_drafts_are_kept_at_each_answer(path, log):
    log.save_draft("a", "one")
    log.save_draft("b", "two")
    log.save_draft("a", "three")
    with opened(path) as other:
        assert [(each.id, each.text) for each in other.drafts()] == [("a", "three"), ("b", "two")]
    assert log.drop_draft("a")
    assert not log.drop_draft("a")
    assert [each.id for each in log.drafts()] == ["b"]


def test_a_draft_that_cannot_be_written_is_refused(log):
    log.save_draft("a", "as it was")
    with pytest.raises(InputError, match="a character that cannot be saved"):
        log.save_draft("a", "\udcff")
    log.save_draft("b", "nul \x00 and all")
    assert [each.text for each in log.drafts()] == ["nul \x00 and all", "as it was"]


def test_the_base_currency_is_kept(path, log):
    assert (log.base_currency, log.currency_chosen) == ("USD", False)
    log.set_base_currency("GBP")
    with opened(path) as other:
        assert (other.base_currency, other.currency_chosen) == ("GBP", True)
    with pytest.raises(InputError, match="currency 'GPB' is not known"):
        log.set_base_currency("GPB")


def test_a_machine_has_a_name(path):
    for name in ("", "  ", "a\nb"):
        with pytest.raises(InputError, match="this computer has no name"):
            open_log(path, ticking(), name)
    assert not path.exists()


def test_revisions_can_only_be_appended(path, log):
    log.add(bought())
    log.close()
    with closing(sqlite3.connect(path)) as bare:
        for statement in ("DELETE FROM revision", "UPDATE revision SET body = NULL"):
            with pytest.raises(sqlite3.IntegrityError, match="a revision is never"):
                bare.execute(statement)


def test_each_commit_is_synced_to_the_disk(log):
    # sqlite.org/pragma.html: synchronous 2 is FULL; in WAL mode it syncs the log per commit.
    pragma = {
        name: log.connection.execute(f"PRAGMA {name}").fetchone()[0]
        for name in ("synchronous", "journal_mode", "foreign_keys")
    }
    assert pragma == {"synchronous": 2, "journal_mode": "wal", "foreign_keys": 1}


def test_another_thread_is_refused_in_one_line(log):
    from concurrent.futures import ThreadPoolExecutor

    with ThreadPoolExecutor(1) as pool, pytest.raises(StoreError, match="thread"):
        pool.submit(log.entries).result()


acts = st.lists(
    st.tuples(
        st.sampled_from(["add", "edit", "remove", "undo", "redo", "reopen"]),
        st.integers(0, 5),
        st.integers(1, 9),
    ),
    max_size=25,
)


@tries(25)
@given(acts)
def test_random_histories_agree_with_a_list_of_states(tmp_path_factory, history):
    """A log against the plainest model there is: a list of whole states and a place in it."""
    path = tmp_path_factory.mktemp("history") / "log.sqlite"
    states, place = [{}], 0
    log = opened(path)
    for act, which, price in history:
        now = dict(states[place])
        if act == "reopen":
            log.close()
            log = opened(path)
            continue
        if act in ("undo", "redo"):
            step = -1 if act == "undo" else 1
            possible = 0 <= place + step < len(states)
            assert bool(log.coming(act)) is possible
            if possible:
                getattr(log, act)()
                place += step
        else:
            before = dict(now)
            ids = sorted(now)
            chosen = ids[which % len(ids)] if ids else None
            if act == "add":
                entry = log.add(bought(price=f"{price}.00"))
                now[entry.id] = entry
            elif chosen and act == "edit":
                now[chosen] = log.edit(bought(price=f"{price}.00").named(chosen))
            elif chosen:
                log.commit(drop=[chosen])
                del now[chosen]
            if now != before:
                states, place = [*states[: place + 1], now], place + 1
        assert {entry.id: entry for entry in log.entries()} == states[place]
    log.close()


@tries(25)
@given(st.lists(logkit.entries, max_size=8))
def test_whatever_is_kept_comes_back(tmp_path_factory, entries):
    path = tmp_path_factory.mktemp("kept") / "log.sqlite"
    with opened(path) as log:
        kept = log.add_all(entries)
    with opened(path) as log:
        assert set(log.entries()) == set(kept)
        assert [entry.named("") for entry in kept] == entries


def test_days_before_common_calendars_are_kept(log):
    kept = log.add(bought(date=dt.date(1, 1, 1)))
    assert log.entry(kept.id).date == dt.date(1, 1, 1)
