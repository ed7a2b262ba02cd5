"""Migrations: in order, once each, whole or not at all."""

import sqlite3
from contextlib import closing

import pytest
from store.logkit import bought, opened

from appraise.base.errors import StoreError
from appraise.store.migrations import (
    APPLICATION_ID,
    MIGRATIONS,
    Migration,
    applied,
    migrate,
    pending,
    statements,
)
from appraise.store.transaction import connect

GOOD = Migration("good", statements("CREATE TABLE good (x)", "INSERT INTO good VALUES (1)"))
BAD = Migration("bad", statements("CREATE TABLE bad (x)", "INSERT INTO nowhere VALUES (1)"))


@pytest.fixture
def path(tmp_path):
    with opened(tmp_path / "log.sqlite") as log:
        log.add(bought())
    return tmp_path / "log.sqlite"


def test_a_new_log_has_been_through_every_step(path):
    with closing(connect(path)) as connection:
        assert applied(connection) == tuple(step.name for step in MIGRATIONS)
        assert pending(connection, path) == ()
        pragma = {
            name: connection.execute(f"PRAGMA {name}").fetchone()[0]
            for name in ("user_version", "application_id")
        }
    assert pragma == {"user_version": len(MIGRATIONS), "application_id": APPLICATION_ID}
    # sqlite.org/fileformat2.html 1.3: user version at byte 60, application id at byte 68.
    head = path.read_bytes()[:100]
    assert int.from_bytes(head[60:64], "big") == len(MIGRATIONS)
    assert head[68:72] == b"Aplg"


def test_a_step_is_taken_once_and_recorded(path):
    steps = (*MIGRATIONS, GOOD)
    with closing(connect(path)) as connection:
        assert [step.name for step in pending(connection, path, steps)] == ["good"]
        assert migrate(connection, path, "2024-05-31", steps) == ("good",)
        assert migrate(connection, path, "2024-06-01", steps) == ()
        assert connection.execute("SELECT count(*) FROM good").fetchone() == (1,)
        last = connection.execute("SELECT name, time FROM migration ORDER BY number DESC")
        assert last.fetchone() == ("good", "2024-05-31")


def test_a_step_that_fails_leaves_nothing(path):
    steps = (*MIGRATIONS, GOOD, BAD)
    with closing(connect(path)) as connection:
        with pytest.raises(sqlite3.OperationalError):
            migrate(connection, path, "2024-05-31", steps)
        assert applied(connection)[-1] == "good"
        assert connection.execute("PRAGMA user_version").fetchone() == (len(MIGRATIONS) + 1,)
        tables = {name for (name,) in connection.execute("SELECT name FROM sqlite_master")}
    assert "good" in tables
    assert "bad" not in tables


def test_steps_that_are_not_known_are_refused(path):
    renamed = (*MIGRATIONS[:-1], GOOD)
    with closing(connect(path)) as connection:
        for steps in (MIGRATIONS[:-1], renamed):
            with pytest.raises(StoreError, match="Use a newer appraise; nothing was changed"):
                migrate(connection, path, "2024-05-31", steps)
        assert applied(connection) == tuple(step.name for step in MIGRATIONS)
