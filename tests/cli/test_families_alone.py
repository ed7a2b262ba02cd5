"""A family of commands alone does its usual action: it lists, as all of them do."""

import pytest

from appraise.base.places import Home
from appraise.cli.demo import furnish
from appraise.cli.main import run
from appraise.commands.registry import FAMILIES, commands_of


@pytest.fixture(autouse=True)
def home(tmp_path, monkeypatch):
    monkeypatch.setenv("APPRAISE_HOME", str(tmp_path))
    furnish(Home(tmp_path))
    return tmp_path


@pytest.mark.parametrize("name", [one for one in FAMILIES if len(commands_of(one)) > 1])
def test_alone_it_does_its_usual_action(name, capsys):
    usual = FAMILIES[name].usual
    assert usual in {one.action for one in commands_of(name)}
    assert run((name,)) == 0
    alone = capsys.readouterr().out
    assert alone.strip()
    assert run((name, usual) if usual else (name,)) == 0
    assert capsys.readouterr().out == alone


def test_nothing_is_written_beside_a_file_that_is_no_log(tmp_path, capsys):
    place = tmp_path / "elsewhere"
    place.mkdir()
    other = place / "prices.csv"
    other.write_text("date,paid\n", encoding="utf-8")
    assert run(("verdict", "demo/pieces/sound.yaml", "--log", str(other))) == 1
    assert "prices.csv" in capsys.readouterr().err
    assert list(place.iterdir()) == [other]
