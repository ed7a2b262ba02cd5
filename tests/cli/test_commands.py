"""The commands: what they print, what they return, and that bad input is one clear line."""

import ctypes
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from appraise.base.places import Home
from appraise.cli.demo import furnish
from appraise.cli.main import run

ROOT = Path(__file__).parent.parent.parent
PIECES = ROOT / "demo" / "pieces"
DAY = ("--as-of", "2026-11-07")
BELONGING = {"together", "married", "modern-case", "modern-image", "all-modern"}


@pytest.fixture
def home(tmp_path, monkeypatch):
    monkeypatch.setenv("APPRAISE_HOME", str(tmp_path / "home"))
    return tmp_path / "home"


@pytest.fixture
def furnished(home):
    furnish(Home(home))
    return home


def spoken(capsys, *words, status=0):
    """What a command prints, after checking its status."""
    assert run(words) == status
    told = capsys.readouterr()
    assert "Traceback" not in told.out + told.err
    return told.out if status == 0 else told.err


def test_verdict_tells_what_is_behind_each_figure_when_asked(furnished, capsys):
    path = str(PIECES / "married.yaml")
    plain = json.loads(spoken(capsys, "verdict", path, "--json", *DAY))
    told = json.loads(spoken(capsys, "verdict", path, "--why", "--json", *DAY))
    assert "behind" not in plain
    figures = {one["figure"]: one for one in told["behind"]}
    assert figures["married"]["chance"] == pytest.approx(told["belonging"]["married"], abs=1e-4)
    assert figures["married"]["moved"]
    assert figures["married"]["would_change"]
    text = spoken(capsys, "verdict", path, "--why", *DAY)
    assert "behind each figure, and what would change it" in text
    assert "without this finding" in text
    assert "% likely): then" in text


def test_verdict_json_keeps_the_contract(furnished, capsys):
    told = json.loads(spoken(capsys, "verdict", str(PIECES / "sound.yaml"), "--json", *DAY))
    assert told["schema"] == "appraise.verdict/1"
    assert told["as_of"] == "2026-11-07"
    assert set(told["belonging"]) == BELONGING
    assert sum(told["belonging"].values()) == pytest.approx(1, abs=1e-3)
    assert set(told["condition"]) >= {"image", "package", "housing", "factor", "not_seen"}
    assert set(told["dates"]) == {"image", "package", "housing", "joint"}
    assert told["dates"]["joint"]["edtf"].startswith("[18")
    assert told["price"]["like"] >= 5
    assert set(told["price"]["median"]) == {"amount", "currency"}
    assert told["advice"]["walk_away"]["currency"] == "USD"
    for row in told["explanation"]:
        assert set(row) == {"check", "answer", "known", "lr", "towards", "word"}


def test_an_empty_log_gives_no_opinion_and_no_number(home, capsys):
    told = json.loads(spoken(capsys, "verdict", str(PIECES / "sound.yaml"), "--json", *DAY))
    assert told["price"] is None
    assert told["worth"] is None
    assert told["advice"]["ceiling"] is None
    text = spoken(capsys, "verdict", str(PIECES / "sound.yaml"), *DAY)
    assert "Log a few prices to get a limit." in text
    assert not home.exists(), "a verdict makes no files"


def test_the_married_piece_is_warned_about(furnished, capsys):
    text = spoken(capsys, "verdict", str(PIECES / "married.yaml"), *DAY)
    assert "Image and case may not have started out together" in text
    assert "not an archival repair" in text
    assert "Do not peel" in text
    assert "For buying decisions only" in text


def test_the_resin_case_is_warned_about(furnished, capsys):
    told = json.loads(spoken(capsys, "verdict", str(PIECES / "resin.yaml"), "--json", *DAY))
    warning = next(one for one in told["warnings"] if one["id"] == "reproduction")
    assert warning["strong"]
    assert warning["innocent"]


def test_checks_list_every_check_with_its_ground(home, capsys):
    told = json.loads(spoken(capsys, "checks", "--kind", "cased", "--json"))
    assert told["schema"] == "appraise.checks/1"
    assert len(told["checks"]) > 50
    for row in told["checks"]:
        assert row["how"]
        assert row["seconds"] > 0
        assert row["basis"] in {"source", "practice", "judgement", "memory"}


def test_knowledge_check_is_content_with_what_ships(home, capsys):
    told = json.loads(spoken(capsys, "knowledge", "check", "--json"))
    assert told["problems"] == []


def test_knowledge_check_names_a_bad_row(home, capsys, tmp_path):
    (tmp_path / "mine.yaml").write_text("checks:\n  mat.border: {ask: x}\n")
    assert run(("knowledge", "check", str(tmp_path))) == 1
    assert "mine.yaml:2 checks.mat.border" in capsys.readouterr().out


def test_log_add_list_show_undo(home, capsys):
    line = "sixth ambrotype thermoplastic vine 38 + 6 post, quay market, yesterday"
    added = json.loads(spoken(capsys, "log", "add", line, "--json", *DAY))["entry"]
    assert added["paid"] == {"amount": "38.00", "currency": "USD"}
    assert added["postage"] == {"amount": "6.00", "currency": "USD"}
    assert added["date"] == "2026-11-06"
    listed = json.loads(spoken(capsys, "log", "list", "--json"))
    assert [one["id"] for one in listed["entries"]] == [added["id"]]
    shown = json.loads(spoken(capsys, "log", "show", added["id"][:6], "--json"))
    assert shown["entry"] == added
    spoken(capsys, "log", "undo")
    assert json.loads(spoken(capsys, "log", "list", "--json"))["entries"] == []
    spoken(capsys, "log", "redo")
    assert len(json.loads(spoken(capsys, "log", "list", "--json"))["entries"]) == 1


def test_look_reads_a_line_and_writes_the_piece(furnished, capsys, tmp_path):
    out = tmp_path / "piece.yaml"
    words = ["sixth", "ambro", "thermoplastic", "vine", "45", "hinge", "taped"]
    told = json.loads(spoken(capsys, "look", *words, "--piece", str(out), "--json", *DAY))
    assert told["process"]["family"] == "ambrotype"
    assert any(one["id"] == "repair-not-archival" for one in told["warnings"])
    again = json.loads(spoken(capsys, "verdict", str(out), "--json", *DAY))
    assert again["belonging"] == told["belonging"]


@pytest.mark.parametrize(
    ("words", "line"),
    [
        (("verdict", "none.yaml"), "appraise: none.yaml: cannot be read: No such file"),
        (("verdict", "BAD"), "findings.plate.magnit: 'plate.magnit' is not a check. Did you mean"),
        (("verdict", "HALF"), "not readable as YAML"),
        (("verdict", "BYTES"), "the file is not UTF-8 text"),
        (("verdict", "PIECE", "--as-of", "yesterday"), "--as-of: 'yesterday' is not a day"),
        (("verdict", "PIECE", "--log", "none.sqlite"), "none.sqlite: there is no log"),
        (("log", "show", "abc"), "abc"),
        (("log", "list", "price:>>"), "price"),
        (("knowledge", "check", "nowhere"), "nowhere: there is no such directory"),
    ],
)
def test_bad_input_is_one_line_and_exit_1(home, capsys, tmp_path, words, line):
    (tmp_path / "bad.yaml").write_text("findings:\n  plate.magnit: yes\n")
    (tmp_path / "half.yaml").write_text("findings: {plate.magnet: [")
    (tmp_path / "bytes.yaml").write_bytes(bytes(range(128, 256)))
    places = {
        "BAD": str(tmp_path / "bad.yaml"),
        "HALF": str(tmp_path / "half.yaml"),
        "BYTES": str(tmp_path / "bytes.yaml"),
        "PIECE": str(PIECES / "sound.yaml"),
    }
    told = spoken(capsys, *(places.get(word, word) for word in words), status=1)
    assert told.startswith("appraise: ")
    assert told.count("\n") == 1
    assert line in told


def test_usage_is_2(home, capsys):
    assert run(("verdict",)) == 2
    assert run(("nonsense",)) == 2


def test_bad_settings_are_one_line(home, capsys):
    home.mkdir()
    (home / "settings.yaml").write_text("theme: sunny\n")
    told = spoken(capsys, "verdict", str(PIECES / "sound.yaml"), status=1)
    assert "settings.yaml:1 theme: 'sunny' is not known here" in told


def program(home, *words, **more):
    return subprocess.run(
        [sys.executable, "-m", "appraise", "--home", str(home), *words],
        capture_output=True,
        text=True,
        cwd=ROOT,
        check=False,
        **more,
    )


def test_without_a_terminal_the_app_says_so(tmp_path):
    done = program(tmp_path)
    assert done.returncode == 1
    assert done.stderr.startswith("appraise: the app needs a terminal.")
    assert done.stderr.count("\n") == 1


@pytest.mark.skipif(not hasattr(os, "openpty"), reason="this system has no pseudo-terminals")
def test_a_terminal_that_cannot_draw_is_told_what_works_there(tmp_path):
    ours, theirs = os.openpty()
    words = [sys.executable, "-m", "appraise", "--home", str(tmp_path)]
    done = subprocess.run(
        words,
        stdin=theirs,
        stdout=theirs,
        stderr=subprocess.PIPE,
        text=True,
        cwd=ROOT,
        env={**os.environ, "TERM": "dumb"},
        check=False,
    )
    os.close(ours)
    os.close(theirs)
    assert done.returncode == 1
    assert "appraise ask" in done.stderr
    assert "appraise log list" in done.stderr
    assert done.stderr.count("\n") == 1


@pytest.mark.skipif(not Path("/proc/self/task").exists(), reason="counts threads in Linux's /proc")
def test_arrays_are_computed_on_one_thread(tmp_path):
    furnish(Home(tmp_path))
    words = ("--home", str(tmp_path), "verdict", str(PIECES / "sound.yaml"))
    code = f"from appraise.cli.main import run; run({words!r}); import os, sys"
    code += "; print(len(os.listdir('/proc/self/task')), 'numpy' in sys.modules, file=sys.stderr)"
    env = {name: value for name, value in os.environ.items() if "THREADS" not in name}
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, cwd=ROOT, env=env, check=True
    )
    assert done.stderr == "1 True\n"


def drop_rights():
    """Give up root's right to write anywhere, which the permissions of a directory cannot take."""
    drop_from_bounding_set, dac_override = 24, 1  # linux/prctl.h, linux/capability.h
    ctypes.CDLL(None).prctl(drop_from_bounding_set, dac_override, 0, 0, 0)


def test_a_home_that_cannot_be_written_is_one_line(tmp_path):
    closed = tmp_path / "closed"
    closed.mkdir(mode=0o555)
    done = program(closed / "home", "log", "list", preexec_fn=drop_rights)
    assert done.returncode == 1, done.stdout
    assert done.stderr.startswith("appraise: ")
    assert done.stderr.count("\n") == 1


def test_a_log_that_is_none_is_one_line_and_stays(tmp_path):
    (tmp_path / "log.sqlite").write_bytes(b"not a log" * 500)
    done = program(tmp_path, "log", "list")
    assert done.returncode == 1
    assert done.stderr.count("\n") == 1
    assert (tmp_path / "log.sqlite").read_bytes() == b"not a log" * 500


def test_a_reader_that_has_seen_enough_is_no_error(tmp_path):
    command = f"{sys.executable} -m appraise --home {tmp_path} checks | head -n 1"
    done = subprocess.run(
        ["bash", "-o", "pipefail", "-c", command],
        capture_output=True,
        text=True,
        cwd=ROOT,
        check=False,
    )
    assert done.returncode == 0
    assert done.stderr == ""
