"""Drawings in the terminal."""

import json

import pytest

from appraise.cli.main import run
from appraise.knowledge.figures import names


@pytest.fixture(autouse=True)
def _home(tmp_path, monkeypatch):
    monkeypatch.setenv("APPRAISE_HOME", str(tmp_path / "home"))


def told(capsys, *words):
    assert run(["knowledge", "figure", *words]) == 0
    return capsys.readouterr().out


def test_a_drawing_is_printed_with_what_it_shows(capsys):
    rows = told(capsys, "mat-octagon").splitlines()
    assert [len(row) for row in rows[:8]] == [24] * 8
    assert rows[8:] == ["mat.shape = octagon"]


def test_it_can_be_larger_and_of_other_signs(capsys):
    rows = told(capsys, "mat-octagon", "--across", "48", "--drawn", "ascii").splitlines()
    assert [len(row) for row in rows[:16]] == [48] * 16
    assert "".join(rows).isascii()


def test_ascii_of_the_settings_is_kept_to(capsys, tmp_path):
    (tmp_path / "home").mkdir()
    (tmp_path / "home" / "settings.yaml").write_text("ascii: yes\n")
    assert told(capsys, "mat-octagon").isascii()


def test_without_a_name_all_are_listed(capsys):
    document = json.loads(told(capsys, "--json"))
    assert list(document["figures"]) == list(names())
    assert all(document["figures"].values())
    assert len(told(capsys).splitlines()) == len(names())


def test_what_can_be_wrong_is_one_line(capsys):
    for words, says in [
        (("mat-octagom",), "Did you mean 'mat-octagon'?"),
        (("mat-octagon", "--across", "0"), "Give 6 to 200."),
    ]:
        assert run(["knowledge", "figure", *words]) == 1
        assert says in capsys.readouterr().err
