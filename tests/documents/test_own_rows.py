"""Rows of the user's own are marked wherever a number that rests on them is shown."""

import json
from datetime import date

import pytest

from appraise.cli.main import run
from appraise.documents.card import card_text
from appraise.documents.own_rows import MARK, took_part
from appraise.documents.verdict import why_document
from appraise.documents.writers.lines import text
from appraise.knowledge import load
from appraise.records.piece import Piece
from appraise.verdict import judge, next_steps

MAGNET = """
checks:
  plate.magnet:
    ask: Does my own magnet pull at the middle?
    how: Hang it on a thread over the middle of the glass; never let it snap.
    seconds: 9
    risk: handling
    sort: test
    kinds: [cased, loose-plate]
    basis: judgement
    answers: {yes: it pulls, no: it does not}
    process:
      yes: {tintype: .90, any: .05}
  mat.rim:
    ask: Has the mat a rim of beads?
    how: Look.
    seconds: 3
    risk: none
    basis: judgement
    answers: {yes: it has, no: it has not}
    belonging: {yes: {married: x3 x0.8, any: x1}}
phrases:
  own-words:
    flag: copy-words
    severity: warn
    says: a word of my own
    why: It has cost me money.
    synonyms: [wonderfabulous]
    basis: practice
"""
DAY = date(2026, 11, 25)
PIECE = "piece: 1\nchannel: market\nfindings:\n  case.material: leather-wood\n"


@pytest.fixture
def own(tmp_path, monkeypatch):
    home = tmp_path / "home"
    (home / "knowledge").mkdir(parents=True)
    (home / "knowledge" / "own.yaml").write_text(MAGNET, encoding="utf-8")
    monkeypatch.setenv("APPRAISE_HOME", str(home))
    return home


def verdict_of(own, *findings):
    knowledge = load(overlay=own / "knowledge")
    piece = Piece().with_finding("case.material", "leather-wood")
    for check, answer in findings:
        piece = piece.with_finding(check, answer)
    return judge(piece, knowledge, None, DAY), knowledge


def told(capsys, *words):
    assert run(words) == 0
    return capsys.readouterr().out


def test_only_rows_that_took_part_are_named(own):
    without, knowledge = verdict_of(own)
    assert took_part(without, knowledge) == ()
    seen, knowledge = verdict_of(own, ("plate.magnet", "yes"))
    (one,) = took_part(seen, knowledge)
    assert (one.topic, one.id) == ("checks", "plate.magnet")
    assert "process-plates.yaml:" in one.over


def test_the_report_names_them_in_text_and_json(own, tmp_path, capsys):
    path = tmp_path / "piece.yaml"
    path.write_text(f"{PIECE}  plate.magnet: yes\n  mat.rim: yes\n", encoding="utf-8")
    text = told(capsys, "verdict", str(path))
    flat = " ".join(text.split())
    assert MARK in flat.split("Your own knowledge files")[0]
    assert "knowledge/own.yaml:3 checks.plate.magnet, over data/checks/process-plates.yaml" in flat
    assert "checks.mat.rim, added" in flat
    rows = json.loads(told(capsys, "verdict", str(path), "--json"))["own_rows"]
    assert [(row["id"], bool(row["over"])) for row in rows] == [
        ("plate.magnet", True), ("mat.rim", False)
    ]  # fmt: skip
    path.write_text(PIECE, encoding="utf-8")
    assert MARK not in told(capsys, "verdict", str(path))
    assert json.loads(told(capsys, "verdict", str(path), "--json"))["own_rows"] == []


def test_the_list_of_checks_and_the_count_name_them(own, capsys):
    text = told(capsys, "checks")
    assert "your own row: knowledge/own.yaml:3 checks.plate.magnet, over data/checks/" in text
    assert "your own row: knowledge/own.yaml:14 checks.mat.rim, added" in text
    rows = {row["id"]: row["own"] for row in json.loads(told(capsys, "checks", "--json"))["checks"]}
    assert rows["plate.magnet"]["over"].startswith("data/checks/process-plates.yaml")
    assert rows["mat.rim"]["over"] is None
    assert rows["mat.shape"] is None
    document = json.loads(told(capsys, "knowledge", "check", "--json"))
    assert document["overridden"] == ["plate.magnet"]
    assert {row["id"] for row in document["own"]} == {"plate.magnet", "mat.rim", "own-words"}


def test_the_pocket_card_marks_them(own):
    text = card_text(load(overlay=own / "knowledge"), "cased")
    assert f"Does my own magnet pull at the middle? {MARK}" in text
    assert MARK not in card_text(load(), "cased")


def test_the_page_behind_a_verdict_marks_them(own):
    seen, knowledge = verdict_of(own, ("plate.magnet", "yes"), ("mat.rim", "yes"))
    page = " ".join(text(why_document(seen, knowledge, next_steps(seen, knowledge))).split())
    assert f"it has (seen in hand) {MARK}" in page
    assert "checks.plate.magnet, over" in page
    assert "Your own knowledge files" in page
    assert "checks.mat.rim, added" in page


def test_a_listing_marks_a_flag_that_ones_own_words_raise(own, tmp_path, capsys):
    path = tmp_path / "listing.txt"
    path.write_text("Sixth plate daguerreotype, wonderfabulous, in leather case", encoding="utf-8")
    assert f"It has cost me money. {MARK}" in " ".join(told(capsys, "listing", str(path)).split())
    document = json.loads(told(capsys, "listing", str(path), "--json"))
    assert [row["id"] for row in document["own_rows"]] == ["own-words"]
