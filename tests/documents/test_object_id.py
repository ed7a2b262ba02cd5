"""The record by which a piece can be known again, from a file and from the log."""

import json
from datetime import date
from types import SimpleNamespace

import pytest

from appraise.cli.main import run
from appraise.documents.object_id import FILLS, NAMED, RecordedPiece, _answers, object_id
from appraise.knowledge import load
from appraise.knowledge.records import RECORD_FIELDS
from appraise.records.piece import Piece
from appraise.verdict import judge

KNOWLEDGE = load()
DAY = date(2026, 11, 25)
WHOLE = """
piece: 1
title: girl with a basket
kind: cased
region: us
subject: child
motif: basket
maker: not named
measured: {plate: 2 3/4 x 3 1/4 in, case: 95 x 82 x 20 mm}
inscription: {text: "Sept 29", date: 1853-09-29}
from: {who: a family, where: Quay market, receipt: in the box}
findings:
  case.material: leather-wood
  claim.process: ambrotype
  hinge.tape: "2"
"""


@pytest.fixture(autouse=True)
def _home(tmp_path, monkeypatch):
    monkeypatch.setenv("APPRAISE_HOME", str(tmp_path / "home"))


def recorded(text, tmp_path, capsys):
    path = tmp_path / "piece.yaml"
    path.write_text(text, encoding="utf-8")
    assert run(("record", str(path), "--json")) == 0
    document = json.loads(capsys.readouterr().out)
    return document, {one["id"]: one["says"] for one in document["categories"]}


def test_a_whole_record_is_complete_but_for_its_pictures(tmp_path, capsys):
    document, says = recorded(WHOLE, tmp_path, capsys)
    assert document["state"] == "complete"
    assert document["missing"] == ["photographs"]
    assert says["measurements"][0].startswith("plate 2 3/4 x 3 1/4")
    assert says["inscriptions"] == ['"Sept 29"', "1853-09-29"]
    assert says["features"] == ["tape on the hinge: over the design"]
    assert says["written"] == ["in the box"]
    assert "leather over wood" in says["description"][0]
    assert says["documented"] == [document["as_of"]]


# Each line of the file is what answers one category.
@pytest.mark.parametrize(
    ("line", "category"),
    [
        ("title: girl with a basket\n", "title"),
        ("measured: {plate: 2 3/4 x 3 1/4 in, case: 95 x 82 x 20 mm}\n", "measurements"),
        ('inscription: {text: "Sept 29", date: 1853-09-29}\n', "inscriptions"),
        ("subject: child\nmotif: basket\n", "subject"),
        ("maker: not named\n", "maker"),
        ('  hinge.tape: "2"\n', "features"),
    ],
)
def test_what_is_left_out_is_counted_and_asked_for(line, category, tmp_path, capsys):
    assert line in WHOLE
    document, says = recorded(WHOLE.replace(line, ""), tmp_path, capsys)
    assert document["state"] == "incomplete: 8 of 9"
    assert document["missing"] == [category, "photographs"] or document["missing"][:1] == [category]
    assert says[category] == []


def test_an_empty_piece_knows_its_kind_and_little_else():
    record = object_id(RecordedPiece(judge(Piece(), KNOWLEDGE, None, DAY), KNOWLEDGE))
    assert record.state == "incomplete: 1 of 9"
    assert [one.category.id for one in record.missing if one.category.part != "category"] == [
        "photographs", "description",
    ]  # fmt: skip


def test_looks_that_found_no_damage_are_a_feature_too():
    piece = Piece().with_finding("hinge.tape", "0").with_finding("glass.crack", "0")
    record = object_id(RecordedPiece(judge(piece, KNOWLEDGE, None, DAY), KNOWLEDGE))
    (says,) = [one.says for one in record.entries if one.category.id == "features"]
    assert says == ("no damage found in 2 places checked",)


def test_an_entry_of_the_log_has_its_number(capsys):
    words = "sixth ambrotype vine 38, market"
    assert run(("log", "add", *words.split(), "--yes", "--json")) == 0
    made = json.loads(capsys.readouterr().out)
    number = made.get("entry", made)["id"]
    assert run(("record", number[:8], "--json")) == 0
    document = json.loads(capsys.readouterr().out)
    says = {one["id"]: one["says"] for one in document["categories"]}
    assert says["number"] == [number]
    assert "ambrotype" in says["materials"][0]
    assert "measurements" in document["missing"]
    assert run(("record", "ffffffff")) == 1
    assert len(capsys.readouterr().err.splitlines()) == 1


def test_the_page_fits_a_terminal_and_claims_no_appraisal(tmp_path, capsys):
    path = tmp_path / "piece.yaml"
    path.write_text(WHOLE, encoding="utf-8")
    assert run(("record", str(path))) == 0
    text = capsys.readouterr().out
    assert max(map(len, text.splitlines())) <= 78
    assert "not an appraisal" in text
    assert "different place" in text


def test_every_word_of_a_row_has_its_answer():
    assert set(FILLS) == set(RECORD_FIELDS)


def test_a_yes_or_no_names_no_maker_and_no_mark():
    """Every answer to every check: what says nothing without its question names nothing."""
    knowledge = load()
    for check in knowledge.checks.values():
        for place, answer in enumerate(check.answers):
            kind = "cased" if "cased" in check.kinds else check.kinds[0]
            piece = Piece(kind=kind).with_finding(check.id, answer.id, "in-hand")
            rows = _told(piece, knowledge)
            if check.told(place).startswith(check.ask):
                assert not any(check.ask in one for one in rows), check.id


def _told(piece, knowledge):
    subject = SimpleNamespace(verdict=SimpleNamespace(piece=piece), knowledge=knowledge)
    rows = [row for row in knowledge.record.values() if row.id in NAMED]
    return [said for row in rows for said in _answers(row, subject)]
