"""An examination of a kept piece starts from what its record knows, and counts it once."""

import datetime as dt
from dataclasses import replace

import pytest

from appraise.collection.examinations import examined, piece_in
from appraise.collection.upkeep import due
from appraise.knowledge import load
from appraise.reading.reading import read
from appraise.records.owned import OwnedPiece
from appraise.records.piece_file import parse_piece, write_piece

DAY = dt.date(2026, 12, 1)
KEPT = OwnedPiece(
    "man with a watch", kind="cased", process="ambrotype", housing="leather-wood", format="sixth"
)


@pytest.fixture(scope="module")
def trade():
    return load()


def test_the_record_of_a_piece_never_examined_is_where_one_begins(trade):
    piece = piece_in(KEPT, trade)
    assert piece.named_format == "sixth"
    assert piece.found("case.material") == "leather-wood"
    bare = read(piece_in(OwnedPiece("man with a watch"), trade), trade)
    assert read(piece, trade).families["ambrotype"] > 2 * bare.families["ambrotype"]


def test_what_the_record_told_stays_in_the_piece_file_of_the_examination(trade):
    seen = piece_in(KEPT, trade).with_finding("mat.shape", "oval")
    now = examined(KEPT, seen, trade, DAY)
    again = piece_in(now, trade)
    assert again.findings == parse_piece(write_piece(seen), "it", trade).findings
    assert again.named_format == "sixth"
    assert (now.process, now.housing, now.format) == ("ambrotype", "leather-wood", "sixth")


def test_what_follows_from_findings_is_no_evidence_of_its_own(trade):
    seen = piece_in(OwnedPiece("x"), trade).with_finding("plate.magnet", "no")
    now = replace(examined(OwnedPiece("x"), seen, trade, DAY), process="ambrotype")
    assert piece_in(now, trade).findings == seen.findings


def test_a_first_look_is_due_now_and_not_since_it_came(trade):
    for came in ("1998", "2026-11", ""):
        (look,) = [
            one for one in due(replace(KEPT, acquired=came), trade, DAY) if one.sort == "look"
        ]
        assert (look.on, look.left, look.now) == (None, 0, True)
