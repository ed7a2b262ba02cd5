"""`appraise report`: a piece file or an entry, to stdout or a file, in every form."""

import json
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from appraise.base.money import Money
from appraise.base.places import Home
from appraise.cli.demo import furnish
from appraise.cli.main import run
from appraise.commands.workspace import open_at
from appraise.knowledge import load
from appraise.records.entry import Entry
from appraise.records.piece_file import read_piece, write_piece

PIECE = str(Path(__file__).parents[2] / "demo" / "pieces" / "sound.yaml")


@pytest.fixture(autouse=True)
def home(tmp_path, monkeypatch):
    place = tmp_path / "home"
    monkeypatch.setenv("APPRAISE_HOME", str(place))
    return place


def said(capsys, *words):
    assert run(("report", *words)) == 0
    return capsys.readouterr().out


def refused(capsys, *words):
    assert run(("report", *words)) == 1
    out, error = capsys.readouterr()
    assert out == ""
    (line,) = error.splitlines()
    return line


def logged(capsys, *words):
    assert run(("log", "add", *words, "--yes", "--json")) == 0
    made = json.loads(capsys.readouterr().out)
    return made.get("entry", made)["id"]


@pytest.mark.parametrize(
    ("options", "begins"),
    [
        ((), "girl with a basket, vine case\nFull report for myself"),
        (("--for", "public"), "girl with a basket, vine case\nDescription"),
        (("--as", "markdown"), "# girl with a basket, vine case\n"),
        (("--as", "html"), "<!DOCTYPE html>\n"),
    ],
)
def test_a_piece_file_is_told_on_stdout(capsys, options, begins, home):
    assert said(capsys, PIECE, *options).startswith(begins)
    assert not home.exists()


def test_the_older_word_for_oneself_is_understood_and_warned_about(capsys):
    assert run(("report", PIECE, "--for", "buyer", "--json")) == 0
    out, error = capsys.readouterr()
    assert json.loads(out)["for"] == "myself"
    assert "--for public" in error


def test_json_is_one_object_with_its_schema_day_and_reader(capsys):
    words = ("--for", "heir", "--as-of", "2026-11-07", "--json")
    document = json.loads(said(capsys, PIECE, *words))
    assert document["schema"] == "appraise.report/1"
    assert document["as_of"] == "2026-11-07"
    assert document["for"] == "heir"
    assert {block["block"] for one in document["sections"] for block in one["blocks"]} >= {
        "paragraph", "bullets", "facts",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("name", "begins"),
    [("a.html", "<!DOCTYPE"), ("a.md", "# girl"), ("a.txt", "girl"), ("a", "girl")],
)
def test_a_file_is_written_in_the_form_of_its_name(capsys, tmp_path, name, begins):
    path = tmp_path / name
    assert said(capsys, PIECE, "--out", str(path)) == ""
    assert path.read_text(encoding="utf-8").startswith(begins)
    assert [one.name for one in tmp_path.iterdir()] == [name]


def test_a_file_that_is_there_is_written_over_only_by_force(capsys, tmp_path):
    path = tmp_path / "a.html"
    path.write_text("mine", encoding="utf-8")
    line = refused(capsys, PIECE, "--out", str(path))
    assert "is there already" in line
    assert "--force" in line
    assert path.read_text(encoding="utf-8") == "mine"
    document = json.loads(said(capsys, PIECE, "--out", str(path), "--force", "--json"))
    assert document["file"] == str(path)
    assert path.read_text(encoding="utf-8").startswith("<!DOCTYPE")


def test_an_entry_of_the_log_is_told_by_its_id(capsys, home):
    number = logged(capsys, "sixth ambrotype vine 317, market")
    text = said(capsys, number[:8], "--for", "insurer")
    assert "317.00 USD" in text
    assert number in text
    assert "317" not in said(capsys, number[:8], "--for", "public")
    assert str(home / "log.sqlite") in said(capsys, number, "--for", "heir", "--json")


def test_what_was_paid_for_the_piece_is_no_price_to_judge_it_by(capsys, home):
    furnish(Home(home))
    number = logged(capsys, "sixth ambrotype vine 9999, market")
    before = json.loads(said(capsys, PIECE, "--json"))
    own = json.loads(said(capsys, number, "--json"))

    def entries(document):
        return [
            row[0]
            for one in document["sections"]
            for block in one["blocks"]
            if block["block"] == "picture" and block["chart"]["scale"] == "amounts"
            for row in block["table"]["rows"]
        ]

    assert entries(own)
    assert "9,999" not in json.dumps(own)
    assert entries(before)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("none.yaml",), "none.yaml"),
        (("ffffffff",), "ffffffff"),
        ((PIECE, "--force"), "--out"),
        ((PIECE, "--out", "/nowhere/at/all.html"), "cannot be written"),
        ((PIECE, "--as-of", "soon"), "is not a day"),
    ],
)
def test_what_is_wrong_is_one_line(capsys, words, told):
    assert told in refused(capsys, *words)


@pytest.mark.parametrize("words", [(), (PIECE, "--for", "nobody"), (PIECE, "--as", "pdf")])
def test_what_is_no_command_is_usage(capsys, words):
    assert run(("report", *words)) == 2
    assert capsys.readouterr().out == ""


def test_a_piece_that_was_bought_is_judged_by_the_other_entries(capsys, home):
    """Its own purchase moves neither its estimate nor is it a similar one that one owns."""
    furnish(Home(home))

    def verdict():
        assert run(("verdict", PIECE, "--json")) == 0
        return json.loads(capsys.readouterr().out)

    before = verdict()
    piece = read_piece(Path(PIECE), load())
    entry = Entry(
        "bought", date(2026, 11, 2), channel="market", title=piece.title, motif=piece.motif,
        format="sixth", process="ambrotype", housing=piece.found("case.material"),
        paid=Money.parse("9999 USD"), piece=write_piece(replace(piece, pictures=())),
    )  # fmt: skip
    with open_at(Home(home).log) as log:
        kept = log.add(entry).id
    after = verdict()
    assert after["worth"] == before["worth"]
    assert kept not in json.dumps(after)
    with open_at(Home(home).log) as log:  # a sale of it is its own as well
        log.add(replace(entry, record="sold", piece="", paid=Money.parse("8888 USD")))
    again = verdict()
    assert again["worth"] == before["worth"]
    with open_at(Home(home).log) as log:  # that of another piece is not
        log.add(replace(entry, title="another", piece="", paid=Money.parse("9999 USD")))
    assert verdict()["worth"] != before["worth"]
