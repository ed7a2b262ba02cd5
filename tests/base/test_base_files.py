"""Files are written beside and renamed: never over another unasked, never half."""

import os

import pytest

from appraise.base.errors import InputError
from appraise.base.files import write_new


def test_a_file_is_written_whole_and_nothing_is_left_beside_it(tmp_path):
    write_new(tmp_path / "a.txt", b"one")
    assert [one.name for one in tmp_path.iterdir()] == ["a.txt"]
    assert (tmp_path / "a.txt").read_bytes() == b"one"


def test_one_that_is_there_stays_unless_it_may_be_written_over(tmp_path):
    path = tmp_path / "a.txt"
    path.write_bytes(b"one")
    with pytest.raises(InputError, match=r"there already\. --force writes over it"):
        write_new(path, b"two", mend="--force writes over it.")
    assert path.read_bytes() == b"one"
    write_new(path, b"two", over=True)
    assert path.read_bytes() == b"two"
    assert len(list(tmp_path.iterdir())) == 1


@pytest.mark.parametrize("broken", ["link", "fsync"])
def test_a_write_that_fails_leaves_what_was_there(tmp_path, monkeypatch, broken):
    def refuse(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync" if broken == "fsync" else "replace", refuse)
    path = tmp_path / "a.txt"
    path.write_bytes(b"one")
    with pytest.raises(InputError, match="No space left"):
        write_new(path, b"two", over=True)
    assert path.read_bytes() == b"one"
    assert len(list(tmp_path.iterdir())) == 1


def test_a_system_without_hard_links_gets_its_file_too(tmp_path, monkeypatch):
    def refuse(*_):
        raise OSError(95, "not supported")

    monkeypatch.setattr(os, "link", refuse)
    write_new(tmp_path / "a.txt", b"one")
    assert (tmp_path / "a.txt").read_bytes() == b"one"


def test_a_place_that_is_not_there_is_one_line(tmp_path):
    with pytest.raises(InputError, match="cannot be written"):
        write_new(tmp_path / "none" / "a.txt", b"one")


@pytest.mark.parametrize("over", [False, True])
def test_a_directory_is_named_as_one(tmp_path, over):
    with pytest.raises(InputError, match="is a directory"):
        write_new(tmp_path, b"text", over=over)
