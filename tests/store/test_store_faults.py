"""Everything that can be wrong with the file: one plain line, and nothing overwritten."""

import json
import os
import re
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from store.logkit import bought, opened
from thorough import tries

import appraise
from appraise.base.errors import AppraiseError, StoreError
from appraise.exchange.intake import take_in
from appraise.store.transaction import connect


def said(call, *args, **more) -> str:
    """The one line of the StoreError that a call must raise."""
    with pytest.raises(StoreError) as caught:
        call(*args, **more)
    line = str(caught.value)
    assert line
    assert "\n" not in line
    return line


@pytest.fixture
def path(tmp_path):
    return tmp_path / "log.sqlite"


@pytest.fixture
def whole(path):
    """A log of 200 entries, closed, all in the main file."""
    with opened(path) as log:
        log.add_all([bought(f"plate {n}", note="n" * 200) for n in range(200)])
    return path


def refused_untouched(path: Path) -> str:
    before = path.read_bytes()
    line = said(opened, path)
    assert path.read_bytes() == before
    assert sorted(each.name for each in path.parent.iterdir()) == [path.name]
    return line


DAMAGED = (
    "{path}: the log is damaged. Nothing was changed; 'appraise log check' says more, 'appraise "
    "log restore' restores a backup."
)
FOREIGN = "{path}: is not a price log. Name another file with --log, or move this one aside."


def test_a_text_file_is_no_log(path):
    path.write_text("date,price\n2024-05-01,45\n" * 20)
    assert refused_untouched(path) == FOREIGN.format(path=path)


def test_another_database_is_no_log(path):
    with closing(sqlite3.connect(path)) as other:
        other.execute("CREATE TABLE revision (x)")
        other.commit()
    assert refused_untouched(path) == FOREIGN.format(path=path)


def test_a_directory_is_no_log(path):
    path.mkdir()
    assert said(opened, path) == FOREIGN.format(path=path)


def test_an_empty_file_is_a_log_cut_short(path):
    path.touch()
    assert refused_untouched(path) == (
        f"{path}: the log file is empty. Move it aside, then 'appraise log restore' "
        "restores a backup."
    )


@pytest.mark.parametrize("size", [1, 15, 16, 99])
def test_a_log_cut_short_in_its_header(whole, size):
    os.truncate(whole, size)
    assert refused_untouched(whole) == DAMAGED.format(path=whole)


@pytest.mark.parametrize("share", [0.1, 0.5, 0.99])
def test_a_log_cut_short(whole, share):
    os.truncate(whole, int(whole.stat().st_size * share))
    assert refused_untouched(whole) == DAMAGED.format(path=whole)


def test_a_journal_without_its_log_is_kept(path):
    journal = path.with_name("log.sqlite-wal")
    journal.write_bytes(b"entries may be here")
    assert said(opened, path) == (
        f"{journal}: the log is gone, but its journal is still there and may hold entries. "
        "Put the log back beside it, or move the journal aside."
    )
    assert journal.read_bytes() == b"entries may be here"
    assert not path.exists()


def test_a_log_of_a_newer_program(whole):
    with closing(sqlite3.connect(whole)) as newer:
        newer.execute("INSERT INTO migration (name, time) VALUES ('holograms', '2031')")
        count = newer.execute("SELECT count(*) FROM migration").fetchone()[0]
        newer.execute(f"PRAGMA user_version = {count}")
        newer.commit()
    line = said(opened, whole)
    assert line == (
        f"{whole}: the log is of version {count}, this program reads up to {count - 1}. "
        "Use a newer appraise; nothing was changed."
    )


def test_a_locked_log(whole):
    with opened(whole, wait_seconds=0.05) as log, closing(connect(whole)) as other:
        other.execute("BEGIN IMMEDIATE")
        assert said(log.add, bought()) == (
            f"{whole}: the log is in use by another program. "
            "Nothing was changed; try again when it is done."
        )
        assert len(log.entries()) == 200
        other.execute("ROLLBACK")
        log.add(bought())
        assert len(log.entries()) == 201


def test_a_full_disk_keeps_all_that_was_acknowledged(path):
    full = (
        f"{path}: the disk is full. The last change was not saved; free some space and try again."
    )
    with opened(path) as log:
        pages = log.connection.execute("PRAGMA page_count").fetchone()[0]
        log.connection.execute(f"PRAGMA max_page_count = {pages + 20}")
        kept = []

        def fill():
            for n in range(1000):
                kept.append(log.add(bought(f"plate {n}", note="n" * 300)))

        assert said(fill) == full
        assert len(kept) > 20
        assert said(log.add_all, [bought(note="n" * 3000)] * 50) == full
        assert set(log.entries()) == set(kept)
        log.connection.execute("PRAGMA max_page_count = 100000")
        kept.append(log.add(bought("room again")))
    with opened(path) as log:
        assert set(log.entries()) == set(kept)
        assert log.connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)


def test_a_full_disk_inside_nested_transactions(path):
    with opened(path) as log:
        first = log.add(bought("first"))
        pages = log.connection.execute("PRAGMA page_count").fetchone()[0]
        log.connection.execute(f"PRAGMA max_page_count = {pages + 5}")

        def both():
            with log.transaction():
                log.add(bought("second"))
                log.add_all([bought(note="n" * 3000)] * 50)

        assert "the disk is full" in said(both)
        assert log.entries() == (first,)


def test_a_full_disk_during_an_import_takes_in_nothing(path):
    with opened(path) as log:
        kept = log.add(bought("first"))
        pages = log.connection.execute("PRAGMA page_count").fetchone()[0]
        log.connection.execute(f"PRAGMA max_page_count = {pages + 20}")
        many = [bought(f"plate {n}", note="n" * 300) for n in range(500)]
        assert "the disk is full" in said(take_in, log, many)
        assert log.entries() == (kept,)
        log.connection.execute("PRAGMA max_page_count = 100000")
        assert len(take_in(log, many).added) == 500


def test_no_import_without_its_backup(path):
    path.parent.joinpath("backups").write_text("in the way")
    with opened(path) as log:
        kept = log.add(bought("first"))
        assert "cannot be used" in said(take_in, log, [bought("second")])
        assert log.entries() == (kept,)


AS_NOBODY = """
import glob, hashlib, os, shutil, sys, tempfile, urllib.parse
from store.logkit import bought, opened
from pathlib import Path
from appraise.base.errors import StoreError
if os.geteuid() == 0:  # the interpreter's own files may be out of reach of others: import first
    os.setgroups([]); os.setgid(65534); os.setuid(65534)
try:
    with opened(Path(sys.argv[1])) as log:
        log.add(bought())
    print("done")
except StoreError as error:
    print(error)
"""


def as_nobody(path: Path) -> str:
    """What a user without rights is told; dropping rights matters where tests run as root."""
    roots = [Path(appraise.__file__).parent.parent, Path(__file__).parent.parent]
    ran = subprocess.run(
        [sys.executable, "-c", AS_NOBODY, str(path)],
        capture_output=True,
        text=True,
        env={**os.environ, "PYTHONPATH": os.pathsep.join(map(str, roots))},
    )
    assert ran.stderr == ""
    return ran.stdout.strip()


@pytest.fixture
def open_path():
    """A place that another user can reach, which pytest's own directories are not."""
    import tempfile

    with tempfile.TemporaryDirectory() as name:
        os.chmod(name, 0o777)
        yield Path(name) / "log.sqlite"


def test_a_user_with_rights_is_served(open_path):
    assert as_nobody(open_path) == "done"


def test_a_directory_that_cannot_be_written(open_path):
    os.chmod(open_path.parent, 0o555)
    assert as_nobody(open_path) == (
        f"{open_path}: cannot be used: permission denied. Check the path, its rights and the disk."
    )
    assert list(open_path.parent.iterdir()) == []


def test_a_directory_that_cannot_be_made(open_path):
    os.chmod(open_path.parent, 0o555)
    deeper = open_path.parent / "new" / "log.sqlite"
    assert as_nobody(deeper) == (
        f"{deeper}: cannot be used: permission denied. Check the path, its rights and the disk."
    )


def test_a_log_in_a_directory_that_cannot_be_written(open_path):
    with opened(open_path) as log:
        log.add(bought())
    os.chmod(open_path, 0o644)
    os.chmod(open_path.parent, 0o555)
    before = open_path.read_bytes()
    assert as_nobody(open_path) == (
        f"{open_path}: the log cannot be written to. "
        "Make the file and its directory writable for you."
    )
    assert open_path.read_bytes() == before


def test_a_log_that_cannot_be_read(open_path):
    with opened(open_path) as log:
        log.add(bought())
    os.chmod(open_path, 0o600)
    assert as_nobody(open_path) == (
        f"{open_path}: cannot be used: permission denied. Check the path, its rights and the disk."
    )


def everything(path: Path) -> None:
    with opened(path) as log:
        log.summary("plate")
        for entry in log.entries():
            log.history(entry.id)
        log.add(bought())
        log.undo()


wounds = st.lists(
    st.tuples(st.floats(0, 1, exclude_max=True), st.binary(min_size=1, max_size=600)),
    min_size=1,
    max_size=4,
)


@tries(50)
@given(wounds)
def test_random_bytes_in_a_log_never_end_in_a_traceback(sound, tmp_path_factory, wounds):
    path = tmp_path_factory.mktemp("hurt") / "log.sqlite"
    hurt = bytearray(sound.read_bytes())
    for place, junk in wounds:
        at = int(place * len(hurt))
        hurt[at : at + len(junk)] = junk
    path.write_bytes(hurt)
    line = ""
    try:
        everything(path)
    except AppraiseError as error:  # an index that lies may hide an entry: "no entry"
        line = str(error)
    assert not line or re.fullmatch(r"[^\n\x1b]+", line)


@pytest.fixture(scope="module")
def sound(tmp_path_factory):
    path = tmp_path_factory.mktemp("whole") / "log.sqlite"
    with opened(path) as log:
        log.add_all([bought(f"plate {n}", note="n" * 100) for n in range(60)])
    return path


def test_two_programs_may_begin_one_log_at_once(path):
    script = (
        "import sys; from store.logkit import bought, opened; from pathlib import Path\n"
        "with opened(Path(sys.argv[1]), sys.argv[2]) as log: print(log.add(bought()).id)"
    )
    roots = [Path(appraise.__file__).parent.parent, Path(__file__).parent.parent]
    env = {**os.environ, "PYTHONPATH": os.pathsep.join(map(str, roots))}
    running = [
        subprocess.Popen(
            [sys.executable, "-c", script, str(path), f"m{n}"],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
            env=env,
        )
        for n in range(4)
    ]
    answers = [each.communicate() for each in running]
    assert [errors for _, errors in answers] == [""] * 4
    with opened(path) as log:
        assert {entry.id for entry in log.entries()} == {out.strip() for out, _ in answers}
    assert [each.name for each in path.parent.iterdir()] == [path.name]


def test_what_the_store_cannot_name_is_still_one_line(path):
    with opened(path) as log:
        log.connection.execute("DROP TABLE shelf")
        line = said(log.entries)
    assert line == (
        f"{path}: the log cannot be used (no such table: shelf). Try 'appraise log check'."
    )


def test_golden_lines_are_json_safe(path):
    path.write_text("x")
    assert json.loads(json.dumps(said(opened, path))).startswith(str(path))
