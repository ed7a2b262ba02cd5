"""The log's files from the command line: in, out, merged, backed up, looked over."""

import json
from pathlib import Path

import pytest

from appraise.cli.main import run

PRICES = Path(__file__).parent.parent.parent / "demo" / "prices.csv"


@pytest.fixture(autouse=True)
def home(tmp_path, monkeypatch):
    monkeypatch.setenv("APPRAISE_HOME", str(tmp_path / "home"))
    return tmp_path / "home"


@pytest.fixture
def say(capsys):
    def said(*words, status=0):
        assert run([str(word) for word in words]) == status
        told = capsys.readouterr()
        assert "Traceback" not in told.err
        return told.out if status == 0 else told.err

    return said


def ids(say):
    return {one["id"] for one in json.loads(say("log", "list", "--json"))["entries"]}


def test_a_file_taken_in_twice_adds_nothing(say):
    first = json.loads(say("log", "import", PRICES, "--json"))
    again = json.loads(say("log", "import", PRICES, "--json"))
    assert len(first["added"]) == 96
    assert again["added"] == []
    assert again["known"] == 96


@pytest.mark.parametrize("form", ["csv", "yaml"])
def test_out_and_in_again_is_the_same(say, tmp_path, monkeypatch, form):
    say("log", "import", PRICES)
    before = json.loads(say("log", "list", "--json"))
    say("log", "export", tmp_path / f"out.{form}")
    monkeypatch.setenv("APPRAISE_HOME", str(tmp_path / "other"))
    say("log", "import", tmp_path / f"out.{form}")
    assert json.loads(say("log", "list", "--json")) == before


def test_a_preview_keeps_nothing(say, home):
    told = json.loads(say("log", "import", PRICES, "--preview", "--json"))
    assert told["good"] == 96
    assert ids(say) == set()


def test_bad_rows_are_named_and_nothing_is_half_taken_in(say, tmp_path):
    path = tmp_path / "years.csv"
    path.write_text("date,paid,what\n2024-05-31,38,vine case\n2024-06-41,12,boat\n")
    told = say("log", "import", path, "--record", "bought", status=1)
    assert "1 of 2 rows cannot be read, first row 3" in told
    assert ids(say) == set()
    say("log", "import", path, "--record", "bought", "--only-good")
    assert len(ids(say)) == 1


def test_what_a_file_leaves_open_is_asked(say, tmp_path):
    path = tmp_path / "years.csv"
    path.write_text("date,paid\n03/04/2024,38\n05/06/2024,12\n")
    told = say("log", "import", path, "--record", "bought", status=1)
    assert "begin with the day or with the month?" in told
    say("log", "import", path, "--record", "bought", "--order", "day")
    dates = {one["date"] for one in json.loads(say("log", "list", "--json"))["entries"]}
    assert dates == {"2024-04-03", "2024-06-05"}


def test_two_machines_merge(say, tmp_path, monkeypatch):
    say("log", "import", PRICES)
    monkeypatch.setenv("APPRAISE_HOME", str(tmp_path / "other"))
    say("log", "add", "sixth ambrotype leather 20")
    merged = json.loads(say("log", "merge", tmp_path / "home" / "log.sqlite", "--json"))
    assert merged["revisions"] == 96
    assert merged["conflicts"] == []
    assert len(ids(say)) == 97


def test_backup_and_restore(say):
    say("log", "import", PRICES)
    (backup,) = json.loads(say("log", "backup", "--json"))["backups"]
    one = next(iter(ids(say)))
    say("log", "remove", one)
    assert len(ids(say)) == 95
    say("log", "restore", backup)
    assert len(ids(say)) == 96


def test_the_day_is_backed_up_without_being_asked(say):
    say("log", "import", PRICES)
    assert json.loads(say("log", "backup", "--list", "--json"))["backups"] == []
    say("log", "list")
    (backup,) = json.loads(say("log", "backup", "--list", "--json"))["backups"]
    assert backup.endswith("-daily.sqlite")


def test_edit_and_history(say):
    say("log", "import", PRICES)
    one = next(iter(ids(say)))
    edited = json.loads(say("log", "edit", one, "paid=44 USD", "note=", "--json"))["entry"]
    assert edited["paid"] == {"amount": "44.00", "currency": "USD"}
    assert "note" not in edited
    kinds = [r["kind"] for r in json.loads(say("log", "history", one, "--json"))["revisions"]]
    assert sorted(kinds) == ["edit", "import"]
    assert "Did you mean 'paid'?" in say("log", "edit", one, "piad=4 USD", status=1)


def test_a_sound_log_is_sound(say):
    say("log", "import", PRICES)
    told = json.loads(say("log", "check", "--json"))
    assert told["problems"] == []
    assert told["entries"] == 96


def test_the_mend_of_a_damaged_file_names_that_file(say, home, tmp_path, capsys):
    say("log", "add", "girl bought 45 USD market")
    other = tmp_path / "elsewhere.sqlite"
    data = bytearray((home / "log.sqlite").read_bytes())
    data[8192:12288] = bytes(4096)
    other.write_bytes(data)
    capsys.readouterr()
    assert run(["log", "check", str(other)]) == 1
    told = capsys.readouterr().out
    assert f"'log check {other} --salvage' saves" in told


def test_a_damaged_log_can_be_salvaged_and_put_in_place(say, home):
    say("log", "import", PRICES)
    path = home / "log.sqlite"
    data = bytearray(path.read_bytes())
    data[4096 * 3 : 4096 * 5] = b"\x00" * 8192
    path.write_bytes(data)
    say("log", "check", status=1)
    told = json.loads(say("log", "check", "--salvage", "--json"))
    assert 0 < told["entries"] <= 96
    say("log", "restore", told["path"])
    assert len(ids(say)) == told["entries"]


def test_a_filter_that_finds_nothing_offers_what_it_may_have_meant(say, capsys):
    say("log", "import", PRICES)
    assert run(["log", "list", "ambrotipe"]) == 0
    assert "did you mean 'ambrotype'?" in capsys.readouterr().err


def test_pictures_are_copied_and_listed(say, tmp_path, home):
    one = json.loads(say("log", "add", "sixth ambrotype leather 20", "--json"))["entry"]["id"]
    shot = tmp_path / "front.jpg"
    shot.write_bytes(b"not really a picture")
    entry = json.loads(say("log", "picture", one, shot, "--json"))["entry"]
    kept = entry["pictures"][0]
    assert kept["name"] == "front.jpg"
    shot.unlink()
    assert any(path.name.startswith(kept["sha256"]) for path in (home / "pictures").rglob("*"))
    entry = json.loads(say("log", "picture", one, kept["sha256"][:8], "--detach", "--json"))[
        "entry"
    ]
    assert "pictures" not in entry


def test_a_conflict_is_listed_and_settled(say, tmp_path, monkeypatch):
    say("log", "import", PRICES)
    one = next(iter(ids(say)))
    monkeypatch.setenv("APPRAISE_HOME", str(tmp_path / "other"))
    say("log", "merge", tmp_path / "home" / "log.sqlite")
    say("log", "edit", one, "note=here")
    monkeypatch.setenv("APPRAISE_HOME", str(tmp_path / "home"))
    say("log", "edit", one, "note=there")
    say("log", "merge", tmp_path / "other" / "log.sqlite")
    (conflict,) = json.loads(say("log", "conflicts", "--json"))["conflicts"]
    assert conflict["entry"] == one
    assert len(conflict["versions"]) == 2
    say("log", "settle", one, conflict["versions"][1]["id"])
    assert json.loads(say("log", "conflicts", "--json"))["conflicts"] == []
