"""Lines typed on the command line: what was understood is shown before anything is saved."""

import pytest

from appraise.cli.main import run


@pytest.fixture(autouse=True)
def home(tmp_path, monkeypatch):
    monkeypatch.setenv("APPRAISE_HOME", str(tmp_path / "home"))
    return tmp_path / "home"


@pytest.fixture
def say(capsys):
    def said(*words, status=0):
        assert run([str(word) for word in words]) == status
        return capsys.readouterr()

    return said


def test_a_look_shows_the_motif_and_what_was_not_understood(say):
    told = say("look", "sixth ambro 40 no sparkle vine 77").out
    assert "motif: vine" in told
    assert "not understood: no sparkle?, 77?" in told


def test_an_entry_shows_them_and_keeps_what_was_not_understood(say):
    told = say("log", "add", "--yes", "--json", "two sixth ambros 30 the pair, 1858, vine")
    assert "motif: vine" in told.err
    assert "not understood: 1858?" in told.err
    assert "30.00 USD is read as the price of the two pieces together" in told.err
    assert "1858?" in told.out
    assert '"kind": "lot"' in told.out


@pytest.mark.parametrize(("region", "day"), [("us", "2025-12-05"), ("gb", "2025-05-12")])
def test_days_in_figures_follow_the_settings_region(say, home, region, day):
    home.mkdir(parents=True)
    (home / "settings.yaml").write_text(f"region: {region}\n", encoding="utf-8")
    assert day in say("log", "add", "--yes", "sixth ambro 40, 12/5/2025").out


@pytest.mark.parametrize(
    "day", ["12.5.2025", "12/5/2025", "3 Okt 2025", "2025-05-12", "12 May 2025", "12 mai 2025"]
)
def test_of_a_day_no_figure_is_a_price_and_none_is_lost(say, day):
    for line in (f"sixth tintype {day} 38", f"sixth tintype 38 {day}"):
        told = say("look", line).out
        assert "asked 38.00 USD" in told
        assert "day 2025-" in told
        assert "not understood" not in told
        assert line in told


def test_a_day_that_cannot_be_is_not_understood(say):
    assert "not understood: 31.6.2025?" in say("look", "sixth tintype 31.6.2025 38").out


def test_a_region_that_is_none_is_said_in_one_line(say, home):
    home.mkdir(parents=True)
    (home / "settings.yaml").write_text("region: usa\n", encoding="utf-8")
    told = say("log", "add", "--yes", "sixth ambro 40", status=1).err
    assert len(told.strip().splitlines()) == 1
    assert "usa" in told


@pytest.mark.parametrize("words", [("look",), ("log", "add", "--yes")])
@pytest.mark.parametrize("line", ["", "   ", "\t"])
def test_an_empty_line_is_refused_in_one_line_and_saves_nothing(say, words, line):
    told = say(*words, line, status=1)
    assert told.err.count("\n") == 1
    assert "Example: sixth ambro" in told.err
    assert "0 entries" in say("log", "list").out or not say("log", "list").out.strip()


FIRED = (
    "enamel photograph 20", "portrait on porcelain 20", "photo ceramic plaque", "photo on china 8",
    "ceramic portrait brooch",
)  # fmt: skip


@pytest.mark.parametrize("line", FIRED)
def test_a_picture_fired_on_enamel_or_china_is_not_judged(say, line):
    told = say("look", line).out
    assert "Not a photograph of a kind that this tool knows" in told
    assert "No estimate." in told


def test_what_says_nothing_is_not_taken_for_a_cased_photograph(say):
    for line in ("hello", "asdf qwer", "5", "\N{CAMERA}"):
        told = say("look", line).out
        assert "kind not recorded" in told
        assert "cased photograph" not in told
        assert "Nothing recorded yet says what it is. No estimate." in told


@pytest.mark.parametrize(
    "line",
    ["empty case sixth leather 20", "miniature painting in case 38", "two tintypes in case 38"],
)
def test_no_two_words_of_a_line_are_taken_for_two_kinds(say, line):
    told = [row for row in say("look", line).out.split("\n\n")[0].splitlines() if " kind " in row]
    assert told
    assert len({row.partition(" kind ")[2] for row in told}) == 1
