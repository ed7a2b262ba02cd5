"""What each reader is told, and what must never reach them."""

import json
import re
from dataclasses import replace
from datetime import date

import pytest
from documents.readerkit import (
    DIGEST,
    KEPT,
    KNOWLEDGE,
    PIECE,
    SECRETS,
    WORK,
    demo_piece,
    entry,
    told,
)

from appraise.commands.rows_pieces import READERS as NAMES
from appraise.documents.reports.readers import PARTS, READERS, VERDICT, WHY
from appraise.documents.reports.redaction import SIGHTS
from appraise.documents.words import PURPOSE
from appraise.documents.writers.forms import FORMS, report_json
from appraise.documents.writers.lines import LineLayout, document_lines
from appraise.knowledge import load
from appraise.records.piece_file import parse_piece
from appraise.verdict import judge

MONEY = {"price", "asked", "offered", "postage", "estimate"}
PEOPLE = {
    "person", "place", "receipt", "venue", "note", "picture", "id",
    "shelf", "owner-number", "lender", "conservator", "private", "drawer", "shot",
}  # fmt: skip
HIDDEN = {  # by reader, what must not be in the report whatever form it takes
    "myself": {"estimate", "note", "picture", "bill", "labour"},
    "public": MONEY | PEOPLE | {"bill", "labour"},
    "conservator": MONEY | PEOPLE | {"bill", "labour"},
    "insurer": {"asked", "offered", "estimate", "bill", "labour"},
    "heir": {"asked", "offered", "estimate", "bill", "labour"},
}


def forms(document):
    """The report in every form that it may leave the program in."""
    written = {name: write(document) for name, write in FORMS.items()}
    rows = document_lines(document, LineLayout(40))
    written["lines"] = "".join(words for row in rows for words, _ in row)
    return {**written, "json": json.dumps(report_json(document), ensure_ascii=False)}


@pytest.mark.parametrize("own_work", [False, True])
@pytest.mark.parametrize("reader", READERS)
def test_what_a_reader_must_not_see_is_in_no_form(reader, own_work):
    document = told(reader, logged=entry(own_work=own_work), kept=KEPT, works=(WORK,))
    for form, written in forms(document).items():
        for name in HIDDEN[reader]:
            assert SECRETS[name] not in written, (form, name)


@pytest.mark.parametrize("reader", ["public", "conservator"])
@pytest.mark.parametrize("piece", ["sound", "married", "resin"])
def test_the_public_and_conservators_read_of_no_money_at_all(reader, piece):
    written = FORMS["text"](told(reader, demo_piece(piece)))
    body = written.replace("For buying decisions only", "")
    assert not re.search(r"\b(USD|GBP|EUR)\b|[$£€]", body)
    assert not re.search(r"\b(price|worth|paid|bid|bargain|cost|walk away)", body, re.IGNORECASE)


@pytest.mark.parametrize("reader", READERS)
def test_everybody_gets_the_evidence_its_innocent_side_and_the_cautions(reader):
    document = told(reader, demo_piece("married"))
    written = " ".join(FORMS["text"](document).split())
    assert re.search(r"support \([\d.,]+ to 1\)", written)
    assert "other explanations" in written
    assert "Leave tape where it is" in written
    assert document.purpose.startswith(PURPOSE.removesuffix("."))
    assert document.purpose in written
    assert not re.search(r"\b(authentic|fake|genuine)\b", written, re.IGNORECASE)


def test_the_buyer_reads_worth_bid_and_why():
    written = FORMS["text"](told("myself", demo_piece("sound")))
    for words in ("Worth ", "your limit of", "asked", "similar entries"):
        assert words in written
    assert "Log a few prices" in FORMS["text"](told("myself", demo_piece("sound"), priced=False))


def test_the_public_reads_of_own_work_repairs_and_exchanges():
    own = told("public", logged=entry(own_work=True))
    short, *_ = own.sections
    assert "Made or assembled by the present owner" in short.blocks[1].text
    written = FORMS["text"](own)
    assert "tape on the hinge" in written
    assert "resealed" in written
    assert "views not shown spine" in " ".join(written.split())
    assert "present owner" not in FORMS["text"](told("public", logged=entry()))


def test_a_conservator_reads_first_of_what_is_getting_worse():
    document = told("conservator")
    first = document.sections[0]
    assert first.id == "active"
    text = FORMS["text"](document)
    assert "weeping glass" in text.split("Condition, part by part")[0]
    assert "no: cracked cover glass (seen in hand)" in " ".join(text.split())
    assert "not checked: " in text
    assert "Droplets inside old glass are alkaline" in " ".join(text.split())


def test_an_insurer_reads_the_record_what_was_paid_and_the_digests():
    text = FORMS["text"](told("insurer", logged=entry()))
    for words in ("Object ID; complete", "9137.00 USD", "2025-04-12", DIGEST, "June 7",
                  SECRETS["picture"], "licensed or qualified appraiser"):  # fmt: skip
        assert words in text
    for words in ("Worth", "estimate of"):
        assert words not in text


@pytest.mark.parametrize("record", ["asking", "refused", "unsold", "swap"])
def test_a_price_that_was_not_paid_is_not_told_as_one(record):
    text = FORMS["text"](told("insurer", logged=entry(record=record)))
    assert "What was paid is not recorded." in text
    assert "9137" not in text


def test_a_hammer_price_is_told_as_what_it_is():
    text = FORMS["text"](told("insurer", logged=entry(paid=None, hammer=entry().paid)))
    assert "9137.00 USD, before premium, tax and shipping" in text


def test_an_heir_reads_plain_words_what_never_to_do_and_where_the_record_lies():
    text = " ".join(FORMS["text"](told("heir", logged=entry())).split())
    assert KNOWLEDGE.plain["thermoplastic"].text in text
    assert "opening a sealed package" in text
    assert "Keep pieces in a box in a cool room that is lived in" in text
    assert f"in the log the home directory. Its number there is {SECRETS['id']}." in text
    assert "keep the writing with it" in text
    assert "is in no log" in " ".join(FORMS["text"](told("heir")).split())


def test_a_likely_modern_piece_is_passed_on_as_one():
    text = " ".join(FORMS["text"](told("heir", demo_piece("resin"))).split())
    assert "It may well be modern" in text
    assert "from the start: keep them together" not in text


def test_the_table_of_readers_is_whole():
    assert tuple(READERS) == NAMES
    for reader in READERS.values():
        names = [part for part, _ in reader.parts]
        assert len(names) == len(set(names))
        assert set(names) <= set(PARTS)
        assert {"doubts", "cautions"} <= set(names)
        assert reader.sees <= set(SIGHTS)
        assert reader.sees >= {"estimate"} or not {"worth", "bid"} & set(names)
        assert reader.sees >= {"paid"} or "paid" not in names
        assert reader.sees >= {"people"} or not (
            {"record", "pictures", "owned", "where"} & set(names)
        )
    told = [*READERS.values(), VERDICT, WHY]
    assert {part for one in told for part, _ in one.parts} == set(PARTS)


@pytest.mark.parametrize("reader", READERS)
def test_work_that_was_recorded_is_disclosed_to_everybody(reader):
    text = " ".join(FORMS["text"](told(reader, kept=KEPT, works=(WORK,))).split())
    for words in (
        "made or assembled by the present owner",
        "reseated the plate in a case of another",
        "wheat starch paste (archival)",
        "hard to undo, by a conservator only",
        "a small r inside the lid",
        "The case is not the first one.",
    ):
        assert words in text, words


def test_what_was_recorded_of_keeping_reaches_those_who_keep_and_mend():
    conservator = FORMS["text"](told("conservator", kept=KEPT))
    assert "Earlier condition checks" in conservator
    assert "split hinge" in conservator
    assert "2026-02-03: with conservator" in conservator
    for reader in ("insurer", "heir"):
        text = FORMS["text"](told(reader, kept=KEPT))
        assert SECRETS["shelf"] in text
        assert SECRETS["owner-number"] in text
    public = " ".join(FORMS["text"](told("public", kept=KEPT)).split())
    assert "date on record 1856-06-07" in public
    assert "dated by its owner" not in public


@pytest.mark.parametrize("reader", READERS)
def test_a_range_that_the_reading_filled_in_is_nobodys_date(reader):
    """What stands under 'made' is the program's own range where nobody typed another."""
    reading = judge(parse_piece(PIECE, "p", KNOWLEDGE), KNOWLEDGE, None, date(2026, 11, 25)).reading
    for one in (reading.together, reading.combined):
        text = FORMS["text"](told(reader, kept=replace(KEPT, dated=one.edtf)))
        assert "date on record" not in text
        assert "dated by" not in text


@pytest.mark.parametrize("reader", READERS)
def test_knowledge_of_the_owners_own_is_named_and_its_place_told_to_the_owner_alone(
    reader, tmp_path
):
    (tmp_path / "mine.yaml").write_text(
        "cautions:\n  mine: {text: No cats., materials: [leather-wood], basis: practice}\n",
        encoding="utf-8",
    )
    text = FORMS["text"](told(reader, demo_piece("married"), knowledge=load(overlay=tmp_path)))
    assert "No cats." in text
    assert ("mine.yaml:2" in text) == (reader == "myself")
    assert ("cautions: mine" in text) == (reader != "myself")


@pytest.mark.parametrize("reader", READERS)
def test_an_empty_piece_has_its_report_too(reader):
    document = told(reader, "piece: 1\n")
    assert document.title == "(untitled piece)"
    for written in forms(document).values():
        assert written
    assert all(section.blocks for section in document.sections)
