"""What breaks is written down: privately, in a file that does not grow without end."""

from datetime import UTC, datetime

from appraise.base.faultlog import LARGEST, record_fault
from appraise.cli.main import run

NOW = datetime(2026, 11, 7, 12, tzinfo=UTC)


def broken():
    try:
        raise KeyError("vine")
    except KeyError as error:
        return error


def test_the_traceback_stands_in_a_private_file(tmp_path):
    path = tmp_path / "home" / "faults.log"
    record_fault(path, broken(), "learning", NOW)
    record_fault(path, broken(), "planning", NOW)
    told = path.read_text(encoding="utf-8")
    assert told.count("Traceback") == 2
    assert "2026-11-07T12:00:00+00:00 learning" in told
    assert "in broken" in told
    assert path.stat().st_mode & 0o777 == 0o600


def test_a_full_file_is_put_aside_and_one_is_kept(tmp_path):
    path = tmp_path / "faults.log"
    for mark in "ab":
        path.write_text(mark * (LARGEST + 1), encoding="utf-8")
        record_fault(path, broken(), "learning", NOW)
    assert (tmp_path / "faults.1.log").read_text(encoding="utf-8")[0] == "b"
    assert path.stat().st_size < LARGEST


def test_where_nothing_can_be_written_nothing_more_breaks(tmp_path):
    record_fault(tmp_path, broken(), "learning", NOW)
    assert not any(tmp_path.iterdir())


def test_a_command_that_breaks_says_so_in_one_line(tmp_path, monkeypatch, capsys):
    def breaks(args, context):
        raise broken()

    monkeypatch.setattr("appraise.cli.places.run_paths", breaks)
    assert run(["--home", str(tmp_path), "paths"]) == 1
    told = capsys.readouterr().err
    assert told.count("\n") == 1
    assert "KeyError: 'vine'" in told
    assert "faults.log" in told
    assert "in broken" in (tmp_path / "faults.log").read_text(encoding="utf-8")
