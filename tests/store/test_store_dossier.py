"""All that the log holds on one piece, by the id of its price or of the piece as owned."""

from datetime import UTC, date, datetime

import pytest

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.knowledge import load
from appraise.records.entry import Entry
from appraise.records.owned import OwnedPiece
from appraise.records.repair import Repair
from appraise.records.want import Want
from appraise.store.log import open_log
from appraise.store.piece_record import piece_record
from appraise.store.records import keep

KNOWLEDGE = load()
ENTRY = Entry(
    record="bought",
    date=date(2026, 5, 2),
    kind="cased",
    process="ambrotype",
    housing="leather-wood",
    title="girl with a basket",
    paid=Money.parse("45 USD"),
)
AGAIN = "piece: 1\ntitle: girl, checked again\nkind: cased\nfindings: {hinge.tape: 2}\n"


@pytest.fixture
def log(tmp_path):
    with open_log(tmp_path / "log.sqlite", lambda: datetime.now(UTC), "test") as opened:
        yield opened


def work(title, day, piece):
    return Repair(title=title, begun=day, piece=piece)


def test_an_entry_alone_tells_what_it_can(log):
    made = log.add(ENTRY)
    found = piece_record(log, made.id[:8], KNOWLEDGE)
    assert found.entry == made
    assert found.kept is None
    assert found.works == ()
    assert found.piece.found("case.material") == "leather-wood"


def test_the_piece_is_the_one_that_was_looked_at_last_and_its_works_come_in_order(log):
    made = log.add(ENTRY)
    kept = keep(log, OwnedPiece(title="girl", number="7", entry=made.id, piece=AGAIN))
    keep(log, work("later", date(2026, 7, 1), kept.id))
    keep(log, work("sooner", date(2026, 6, 1), made.id))
    keep(log, work("of another", date(2026, 6, 1), "some other piece"))
    for ref in (made.id, made.id[:6], kept.id, kept.id[:10], "7", "Girl"):
        found = piece_record(log, ref, KNOWLEDGE)
        assert found.entry == made
        assert found.kept == kept.thing
        assert found.piece.title == "girl, checked again"
        assert [one.title for one in found.works] == ["sooner", "later"]


def test_a_piece_that_was_never_bought_is_known_by_its_own_id(log):
    kept = keep(log, OwnedPiece(title="from my aunt", process="tintype", housing="thermoplastic"))
    found = piece_record(log, kept.id, KNOWLEDGE)
    assert found.entry is None
    assert found.piece.title == "from my aunt"
    assert found.piece.found("claim.process") == "tintype"
    assert found.piece.found("case.material") == "thermoplastic"


def test_what_is_no_piece_and_what_is_not_there_is_told(log):
    want = keep(log, Want(title="a whole plate", since=date(2026, 1, 1)))
    for ref in (want.id, "ffffffff", "", "7", "from my aunt"):
        with pytest.raises(InputError):
            piece_record(log, ref, KNOWLEDGE)
