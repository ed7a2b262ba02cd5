"""Card, care and refusals from the command line."""

import json

import pytest

from appraise.cli.main import run
from appraise.knowledge import load

KNOWLEDGE = load()


@pytest.fixture(autouse=True)
def _home(tmp_path, monkeypatch):
    monkeypatch.setenv("APPRAISE_HOME", str(tmp_path / "home"))


def told(capsys, *words):
    assert run(words) == 0
    return capsys.readouterr().out


# A daguerreotype's image is lost at a touch ("Using digital photography to recover daguerreotypes",
# Powerhouse Museum, 2010); hot points melt or light plastics (a reference-book extract on
# tortoiseshell tests).
@pytest.mark.parametrize(
    "words", ["dust the plate", "a Hot Needle on the rim", "put acetone on it", "open the package"]
)
def test_what_should_never_be_done_is_refused_with_the_reason(capsys, words):
    said = told(capsys, "never", *words.split())
    assert said.startswith("No: ")
    assert len(said) > 60


def test_what_is_not_known_is_not_allowed_either(capsys):
    assert "ask a conservator" in told(capsys, "never", "hug", "it")


# Still air at 55 per cent was enough to start crizzling (Deterioration of glass negatives,
# Conservation DistList, 2000), so glass alarms while mould, from 60 per cent, is still silent.
def test_glass_alarms_before_mould(capsys):
    document = json.loads(told(capsys, "care", "--humidity", "58", "--json"))
    assert document["alarms"] == ["watch-glass"]
    document = json.loads(told(capsys, "care", "--humidity", "61", "--json"))
    assert set(document["alarms"]) == {"watch-glass", "watch-mould"}


def test_care_for_a_material_leaves_out_the_others(capsys):
    rows = json.loads(told(capsys, "care", "cyanotype", "--json"))["care"]
    assert any("yanotype" in row["text"] for row in rows)
    assert not any("lbumen prints" in row["text"] for row in rows)


@pytest.mark.parametrize(
    "word",
    sorted(
        {*KNOWLEDGE.processes, *KNOWLEDGE.housings}
        | {one.family for one in KNOWLEDGE.processes.values()}
    ),
)
def test_every_process_and_every_case_has_an_answer(capsys, word):
    document = json.loads(told(capsys, "care", word, "--json"))
    assert len(document["care"]) > 5


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ("platinum", "A platinum print does not fade"),
        ("thermoplastic", "A moulded (union) case is brittle"),
        ("union case", "A moulded (union) case is brittle"),
        ("tintype", "Collodion on glass or iron: never below 5 C"),
        ("gem tintype", "Collodion on glass or iron: never below 5 C"),
        ("carbon print", "A carbon print hardly fades"),
        ("locket", "Do not prise a locket open"),
        ("mother-of-pearl", "attack mother-of-pearl"),
    ],
)
def test_what_is_for_the_material_comes_first(capsys, words, says):
    lines = told(capsys, "care", *words.split()).splitlines()
    place = next(n for n, line in enumerate(lines) if says in line)
    general = next(n for n, line in enumerate(lines) if "Keep pieces in a box" in line)
    assert place < general


def test_an_unknown_material_is_one_line(capsys):
    assert run(("care", "cyanotpye")) == 1
    assert "Did you mean 'cyanotype'?" in capsys.readouterr().err


def test_card(capsys):
    assert "magnet" in told(capsys, "card")
