"""Checking, mending and salvaging."""

import dataclasses
import os
import random
import shutil
import sqlite3
from contextlib import closing

import pytest
from hypothesis import given
from hypothesis import strategies as st
from store.logkit import NOON, bought, entries, opened
from thorough import tries

from appraise.base.errors import StoreError
from appraise.store import check as check_room
from appraise.store.backup import restore
from appraise.store.check import check, mend
from appraise.store.pictures import attach
from appraise.store.revisions import iso
from appraise.store.salvage import salvage
from appraise.store.sqlite_pages import records

NOW = iso(NOON)


@pytest.fixture
def path(tmp_path):
    """A log with edits, a removal, a draft, a currency and long pages."""
    path = tmp_path / "log.sqlite"
    with opened(path) as log:
        kept = log.add_all([bought(f"plate {n}", note="n" * (n % 50) * 30) for n in range(120)])
        log.edit(dataclasses.replace(kept[0], note="long " * 5_000))
        log.commit(drop=[kept[1].id])
        log.save_draft("d1", "piece: 1")
        log.set_base_currency("GBP")
    return path


def bare(path, *statements):
    with closing(sqlite3.connect(path)) as connection:
        for statement in statements:
            connection.execute(statement)
        connection.commit()


def test_a_sound_log_has_no_problems(path):
    before = path.read_bytes()
    checked = check(path)
    assert (checked.problems, checked.entries, checked.revisions) == ((), 119, 123)
    assert path.read_bytes() == before
    assert [each.name for each in path.parent.iterdir()] == ["log.sqlite"]


def test_no_log_is_said_so(path):
    with pytest.raises(StoreError, match="there is no log here"):
        check(path.with_name("other.sqlite"))


def test_a_changed_revision_is_found(path):
    bare(
        path,
        "DROP TRIGGER revision_stands",
        "UPDATE revision SET body = replace(body, '45.00', '95.00') WHERE number = 5",
    )
    (problem,) = check(path).problems
    assert problem.endswith("is not what it was when it was written")
    assert not check(path).mendable


def test_a_lost_revision_is_found(path):
    bare(path, "DROP TRIGGER revision_stays", "DELETE FROM revision WHERE number = 1")
    problems = check(path).problems
    assert [line.split(": ")[1] for line in problems] == ["what it replaces is lost"]


def test_a_wrong_shelf_is_found_and_made_again(path):
    bare(
        path,
        "UPDATE shelf SET price = 1 WHERE title = 'plate 7'",
        "DELETE FROM shelf WHERE title = 'plate 8'",
    )
    checked = check(path)
    assert [line.split(": ")[1] for line in checked.problems] == ["is not shown as it is"] * 2
    assert checked.mendable
    mend(path)
    assert check(path).problems == ()


def test_a_missing_and_an_altered_picture_are_found(path, tmp_path):
    (tmp_path / "one.jpg").write_bytes(b"one")
    (tmp_path / "two.jpg").write_bytes(b"two")
    with opened(path) as log:
        first, second = log.entries(limit=2)
        attach(log, first.id, tmp_path / "one.jpg")
        attach(log, second.id, tmp_path / "two.jpg")
    assert check(path).problems == ()
    one, two = sorted((tmp_path / "pictures").iterdir(), key=lambda file: file.read_bytes())
    one.unlink()
    two.write_bytes(b"2")
    lines = sorted(line.split(": ")[1].split(" (")[0] for line in check(path).problems)
    assert lines == ["the photo one.jpg is missing", "the photo two.jpg was altered"]


@pytest.mark.parametrize("harm", ["short", "scrambled", "foreign"])
def test_a_damaged_file_is_told_and_not_touched(path, harm):
    data = bytearray(path.read_bytes())
    if harm == "short":
        del data[len(data) // 2 :]
    elif harm == "scrambled":
        for at in range(4096, len(data), 8192):
            data[at : at + 500] = b"\xff" * 500
    else:
        data = bytearray(b"date;price\n" * 100)
    path.write_bytes(data)
    problems = check(path).problems
    assert problems
    assert all("\n" not in line for line in problems)
    assert path.read_bytes() == data


def test_what_cannot_be_read_is_named(path):
    sql = "SELECT rootpage FROM sqlite_master WHERE name = 'draft'"
    with closing(sqlite3.connect(path)) as connection:
        (page,) = connection.execute(sql).fetchone()
    data = bytearray(path.read_bytes())
    data[(page - 1) * 4096 : page * 4096] = b"\xa5" * 4096
    path.write_bytes(data)
    told = check(path).problems
    assert any("the pieces under examination" in line for line in told), told
    assert not any("the list of prices" in line for line in told)


def test_a_log_on_a_full_disk_is_looked_over_elsewhere(path, monkeypatch):
    full = shutil.disk_usage(path.parent)._replace(free=0)
    monkeypatch.setattr("appraise.store.check.disk_usage", lambda _: full)
    before = sorted(path.parent.iterdir())
    made = []
    plain = check_room.workshop
    monkeypatch.setattr(check_room, "workshop", lambda at: made.append(at.parent) or plain(at))
    assert check(path).problems == ()
    assert made != [path.parent]
    assert sorted(path.parent.iterdir()) == before


def test_a_log_beside_which_no_journal_finds_room_is_copied_as_a_file(path, monkeypatch):
    def refuse(_):
        error = sqlite3.OperationalError("database or disk is full")
        error.sqlite_errorcode = sqlite3.SQLITE_FULL
        raise error

    monkeypatch.setattr("appraise.store.files.reading", refuse)
    assert check(path).problems == ()


# Salvage


def said(path):
    """All revisions, all entries, drafts and the currency."""
    with opened(path) as log:
        rows = log.connection.execute("SELECT id FROM revision").fetchall()
        drafts = [(each.id, each.text) for each in log.drafts()]
        return set(rows), set(log.entries()), drafts, log.base_currency


def test_everything_is_salvaged_from_a_sound_log(path):
    found = salvage(path, NOW)
    assert found.path == path.with_name("log.salvaged-20240531T120000Z.sqlite")
    assert (found.revisions, found.entries, found.drafts, found.lost) == (123, 119, 1, 0)
    assert said(found.path) == said(path)
    assert check(found.path).problems == ()


def test_what_is_only_in_the_journal_is_salvaged(path):
    log = opened(path)
    log.add(bought("in the journal", note="long " * 3_000))
    found = salvage(path, NOW)
    log.close()
    assert said(found.path) == said(path)


def test_lost_branches_hide_no_leaf(path):
    """All interior pages of tables are wiped, and the header with them."""
    whole = said(path)
    data = bytearray(path.read_bytes())
    wiped = 0
    for at in range(4096, len(data), 4096):
        if data[at] == 0x05:  # sqlite.org/fileformat2.html 1.6: a table's interior page
            data[at : at + 4096] = bytes(4096)
            wiped += 1
    data[:100] = bytes(100)
    path.write_bytes(data)
    assert wiped
    with pytest.raises(StoreError):
        opened(path)
    found = salvage(path, NOW)
    assert said(found.path) == whole
    restore(path, found.path, NOW)
    assert said(path) == whole


@pytest.mark.parametrize("seed", range(8))
def test_only_hurt_pages_are_lost(path, seed):
    whole = said(path)
    chance = random.Random(seed)
    data = bytearray(path.read_bytes())
    pages = len(data) // 4096
    hurt = chance.sample(range(pages), 3)
    for page in hurt:
        data[page * 4096 : page * 4096 + 4096] = chance.randbytes(4096)
    path.write_bytes(data)
    found = salvage(path, NOW)
    assert path.read_bytes() == data
    revisions, _, _, _ = said(found.path)
    assert revisions <= whole[0]
    # a page of 4096 bytes holds at most some twenty of these revisions
    assert len(revisions) >= len(whole[0]) - 20 * len(hurt)
    assert check(found.path).entries == found.entries


def test_a_salvaged_log_that_was_cut_short(path):
    os.truncate(path, path.stat().st_size // 2)
    found = salvage(path, NOW)
    assert 0 < found.revisions < 123
    problems = {line.split(": ")[1] for line in check(found.path).problems}
    assert problems <= {"what it replaces is lost"}


@tries(25)
@given(st.binary(max_size=20_000))
def test_chance_bytes_salvage_to_nothing(tmp_path_factory, junk):
    path = tmp_path_factory.mktemp("junk") / "log.sqlite"
    path.write_bytes(junk)
    found = salvage(path, NOW)
    assert (found.revisions, found.entries) == (0, 0)


@tries(20)
@given(st.lists(entries, max_size=5))
def test_the_page_reader_agrees_with_sqlite(tmp_path_factory, kept):
    """Every row that SQLite reads is found on the pages, value for value."""
    path = tmp_path_factory.mktemp("pages") / "log.sqlite"
    with opened(path) as log:
        log.add_all(kept)
        for place, entry in enumerate(kept):
            log.save_draft(str(place), entry.note * 200)
    found = list(records(path))
    with closing(sqlite3.connect(path)) as connection:
        for table in ("revision", "draft", "migration"):
            for row in connection.execute(f"SELECT * FROM {table}"):
                wanted = (None, *row[1:]) if table != "draft" else row
                assert wanted in found


def test_numbers_of_every_size_are_read_as_sqlite_reads_them(tmp_path):
    path = tmp_path / "numbers.sqlite"
    numbers = [0, 1, -1, 127, -128, 2**15, -(2**23), 2**31, -(2**47), 2**62, -(2**63), 0.5, -1e300]
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("CREATE TABLE t (x, y BLOB)")
        rows = [(each, b"\x00" * place) for place, each in enumerate(numbers)]
        connection.executemany("INSERT INTO t VALUES (?, ?)", rows)
        connection.commit()
    assert [row for row in records(path) if len(row) == 2] == rows
