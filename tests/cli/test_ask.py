"""The checklist as plain lines: in a pipe, with every answer, undone, stopped and saved."""

import io
import re
import subprocess
import sys

import pytest

from appraise.app.examine.state import Examination
from appraise.cli.ask import question_lines
from appraise.cli.main import run
from appraise.knowledge import load
from appraise.records.piece import UNTOLD, Piece
from appraise.records.piece_file import read_piece

KNOWLEDGE = load()


@pytest.fixture(autouse=True)
def _home(tmp_path, monkeypatch):
    monkeypatch.setenv("APPRAISE_HOME", str(tmp_path / "home"))


@pytest.fixture
def asked(capsys, monkeypatch):
    """Runs the command on typed lines, and gives what it printed."""

    def go(typed, *words):
        monkeypatch.setattr(sys, "stdin", io.StringIO(typed))
        assert run(("ask", *map(str, words))) == 0
        return capsys.readouterr().out

    return go


def questions(out):
    """The questions that were asked, by their numbers."""
    return re.findall(r"^(\d+)\. (.+)$", out, re.MULTILINE)


def test_answers_are_recorded_saved_and_judged(asked, tmp_path):
    place = tmp_path / "piece.yaml"
    out = asked("1\n\n2\nq\n", "--asked", "85", "--piece", place)
    piece = read_piece(place, KNOWLEDGE)
    assert str(piece.asking) == "85.00 USD"
    given = list(piece.findings.values())
    assert [one.answer == UNTOLD for one in given] == [False, True, False]
    assert len(questions(out)) == 4
    for (_, told), name in zip(questions(out), piece.findings, strict=False):
        assert told.endswith(KNOWLEDGE.checks[name].ask)
    assert out.index(questions(out)[-1][1]) < out.index("For buying decisions only; not")


def test_the_verdict_is_that_of_the_command_on_the_saved_file(asked, tmp_path, capsys):
    place = tmp_path / "piece.yaml"
    out = asked("1\n1\n1\n", "--piece", place)
    assert run(("verdict", str(place))) == 0
    assert out.rstrip().endswith(capsys.readouterr().out.strip())


def test_undo_asks_the_same_question_again(asked, tmp_path):
    place = tmp_path / "piece.yaml"
    out = asked("1\n1\nu\n2\nq\n", "--piece", place)
    second, again = questions(out)[1], questions(out)[3]
    assert second == again
    found = read_piece(place, KNOWLEDGE).findings
    name = list(found)[1]
    assert KNOWLEDGE.checks[name].index(found[name].answer) == 1
    assert "Nothing to undo." in asked("u\nq\n")


def test_what_is_no_answer_is_told_and_asked_for_again(asked, tmp_path):
    place = tmp_path / "piece.yaml"
    out = asked("99\nwhat\n0\n1\nq\n", "--piece", place)
    assert out.count("is not an answer. Write 1 to ") == 3
    assert len(read_piece(place, KNOWLEDGE).findings) == 1


def test_every_number_that_is_listed_can_be_given(asked, tmp_path):
    """The first question has more answers than there are digits."""
    listed = re.findall(r"^  (\d+) ", asked("q\n").partition("Enter:")[0], re.MULTILINE)
    assert len(listed) > 9
    place = tmp_path / "piece.yaml"
    asked(f"{listed[-1]}\nq\n", "--piece", place)
    (name, one), *_ = read_piece(place, KNOWLEDGE).findings.items()
    assert one.answer == KNOWLEDGE.checks[name].answers[-1].id


def test_a_file_is_gone_on_with_and_another_never_overwritten(asked, tmp_path):
    place, other = tmp_path / "piece.yaml", tmp_path / "other.yaml"
    asked("1\n", "--piece", place)
    asked("1\n", place, "--piece", place)
    assert len(read_piece(place, KNOWLEDGE).findings) == 2
    other.write_text("kind: cased\n")
    assert run(("ask", "--piece", str(other))) == 1
    assert other.read_text() == "kind: cased\n"


def test_all_there_is_to_ask_comes_to_an_end(asked):
    out = asked("\n" * 400, "--kind", "postcard")
    numbers = [int(number) for number, _ in questions(out)]
    assert numbers == list(range(1, len(numbers) + 1))
    assert 5 < len(numbers) < 400
    assert "There are no checks" in asked("", "--kind", "album")


def test_cautions_stand_in_full_beside_their_question():
    exam = Examination(Piece(), KNOWLEDGE, "")
    exam.go("glass.weep")
    text = "\n".join(question_lines(exam))
    assert "Caution: " in text
    assert "How: " in text
    assert text.index("Caution: ") < text.index("  1 ")


def test_it_works_in_a_pipe_and_draws_nothing(tmp_path):
    done = subprocess.run(
        [sys.executable, "-m", "appraise", "ask"],
        input="1\n",
        capture_output=True,
        text=True,
        check=True,
    )
    assert "\x1b" not in done.stdout
    assert "\r" not in done.stdout
    assert questions(done.stdout)
