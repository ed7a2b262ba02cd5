"""A machine signs by an id of its own, that tells nothing of it; former names stay its own."""

import re
import stat

import pytest
from store.logkit import bought, ticking

from appraise.commands.workspace import open_at
from appraise.store.log import open_log
from appraise.store.machines import FILE, Machine, machine_at
from appraise.store.merge import merge

HOST = "ledger-desk"


@pytest.fixture(autouse=True)
def _host(monkeypatch):
    monkeypatch.setattr("appraise.store.machines.host_name", lambda: HOST)


@pytest.fixture
def home(tmp_path):
    place = tmp_path / "home"
    place.mkdir()
    return place


def test_the_id_is_drawn_once_kept_privately_and_names_no_host(home):
    mine = machine_at(home)
    assert re.fullmatch(r"[0-9a-f]{16}", mine.name)
    assert machine_at(home) == mine
    assert HOST not in (home / FILE).read_text()
    assert stat.S_IMODE((home / FILE).stat().st_mode) == 0o600
    (home / FILE).unlink()
    assert machine_at(home).name != mine.name


def test_a_home_that_is_not_there_yet_keeps_it_from_the_first(tmp_path):
    place = tmp_path / "not" / "yet"
    assert machine_at(place) == machine_at(place)
    assert stat.S_IMODE(place.stat().st_mode) == 0o700


def test_a_home_that_was_copied_draws_another(home, monkeypatch):
    mine = machine_at(home)
    monkeypatch.setattr("appraise.store.machines.host_name", lambda: "elsewhere")
    other = machine_at(home)
    assert other.name != mine.name
    assert other.formerly == ()
    assert machine_at(home) == other


@pytest.mark.parametrize("damage", [b"", b"\xff\xfe", b"one\ntwo\n", b"\x1b[2J\n"])
def test_a_damaged_file_is_made_anew(home, damage):
    (home / FILE).write_bytes(damage)
    mine = machine_at(home)
    assert re.fullmatch(r"[0-9a-f]{16}", mine.name)
    assert machine_at(home) == mine


@pytest.mark.parametrize(
    ("signed", "kept"),
    [(f"{HOST}-0a1b2c3d", f"{HOST}-0a1b2c3d\n"), (HOST, f"{HOST}-0a1b2c3d\n"), (HOST, None)],
)
def test_what_it_signed_by_its_host_is_undone_and_done_again(home, signed, kept):
    clock = ticking()
    with open_log(home / "log.sqlite", clock, signed) as log:
        old = log.add(bought("before"))
    if kept:
        (home / FILE).write_text(kept)
    mine = machine_at(home)
    with open_log(home / "log.sqlite", clock, mine) as log:
        log.add(bought("now"))
        assert log.history(log.entries("now")[0].id)[0].machine == mine.name
        log.undo()
        assert log.undo().entries == (old.id,)
        assert log.entries() == ()
        log.redo()
        assert [one.title for one in log.entries()] == ["before"]


def test_what_another_machine_of_the_old_form_signed_is_not_its_own(home):
    clock = ticking()
    with open_log(home / "log.sqlite", clock, f"{HOST}-99999999") as log:
        log.add(bought("theirs"))
    (home / FILE).write_text(f"{HOST}-0a1b2c3d\n")
    with open_log(home / "log.sqlite", clock, machine_at(home)) as log:
        assert log.coming("undo") is None


def test_logs_of_both_forms_merge(home, tmp_path):
    other = tmp_path / "other.sqlite"
    with open_log(other, ticking(), f"{HOST}-0a1b2c3d") as log:
        log.add(bought("old form"))
    with open_log(home / "log.sqlite", ticking(), machine_at(home)) as log:
        log.add(bought("new form"))
        merged = merge(log, other)
        assert (merged.revisions, len(log.entries())) == (1, 2)
        log.undo()
        assert [one.title for one in log.entries()] == ["old form"]


def test_names_are_those_of_now_and_before():
    assert Machine("a", ("b", "c")).names == ("a", "b", "c")


def test_a_machine_is_told_in_words_and_not_by_its_whole_id():
    mine = Machine("00ff00ff00ff00ff", ("ledger-desk",))
    assert mine.calls("00ff00ff00ff00ff") == mine.calls("ledger-desk") == "this computer"
    assert mine.calls("abcdef0123456789") == "computer abcdef"
    assert mine.calls("laptop") == "laptop"


def test_who_only_reads_does_not_ask_by_what_name_the_machine_signs(home):
    asked = []

    def signs():
        asked.append(1)
        return Machine("desk", ("old",))

    with open_log(home / "log.sqlite", ticking(), signs) as log:
        assert log.entries() == ()
        assert log.summary().count == 0
        assert asked == []
        log.add(bought("one"))
        log.add(bought("two"))
        assert asked == [1]
        assert {one.machine for each in log.entries() for one in log.history(each.id)} == {"desk"}
        assert log.signs.names == ("desk", "old")


def test_a_log_begun_without_a_file_of_its_own_keeps_no_former_name(home):
    with open_at(home / "log.sqlite") as log:
        assert log.signs.formerly == ()
    assert HOST not in (home / FILE).read_text()
