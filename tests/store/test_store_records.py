"""Records beside the prices: kept, changed, undone and merged like any price."""

import datetime as dt
from dataclasses import replace

import pytest
from logkit import bought, opened, usd

from appraise.base.errors import InputError
from appraise.records.owned import OwnedPiece
from appraise.records.stored import ChangeSet, Stored
from appraise.records.values import Author
from appraise.records.want import Want
from appraise.store.changes import changes, disagreement
from appraise.store.check import check, mend
from appraise.store.merge import conflicts, merge, settle
from appraise.store.records import change, commit, held, keep, one
from appraise.store.salvage import salvage

DAY = dt.date(2024, 5, 30)
BY = Author("USD", DAY)
VINE = Want("ninth with the vine motif", DAY, formats=("ninth",), motif="vine", most=usd("65"))


def test_records_are_kept_found_changed_and_dropped(tmp_path):
    with opened(tmp_path / "log.sqlite") as log:
        first, second = keep(log, VINE), keep(log, Want("an empty case", DAY))
        assert held(log, Want) == (first, second)
        assert one(log, Want, second.id[:6]) == one(log, Want, "An empty case") == second
        assert log.entries() == ()
        change(log, Stored(first.id, Want("any vine", DAY)), was=VINE)
        assert one(log, Want, first.id).thing.title == "any vine"
        with pytest.raises(InputError, match="changed by another program"):
            change(log, first, was=VINE)
        log.commit(drop=[first.id])
        assert held(log, Want) == (second,)
        with pytest.raises(InputError, match="no want 'any vine'"):
            one(log, Want, "any vine")
        assert [each.kind for each in log.history(first.id)] == ["delete", "edit", "add"]


def test_one_undo_takes_back_a_price_and_a_record_written_together(tmp_path):
    with opened(tmp_path / "log.sqlite") as log:
        want = keep(log, VINE)
        commit(log, ChangeSet(add=(bought(),), drop=(want.id,)))
        assert len(log.entries()) == 1
        assert not held(log, Want)
        log.undo()
        assert log.entries() == ()
        assert held(log, Want) == (want,)
        log.redo()
        assert len(log.entries()) == 1
        assert not held(log, Want)


def test_an_act_that_changes_nothing_leaves_no_trace(tmp_path):
    with opened(tmp_path / "log.sqlite") as log:
        want = keep(log, VINE)
        commit(log, ChangeSet(change=(want,)))
        assert len(log.history(want.id)) == 1


def test_a_record_changed_on_two_machines_is_told_and_settled(tmp_path):
    here, there = tmp_path / "here.sqlite", tmp_path / "there" / "log.sqlite"
    with opened(here, "here") as log:
        want = keep(log, VINE)
    with opened(there, "there") as log:
        merge(log, here)
        change(log, Stored(want.id, Want("any vine", DAY)))
    with opened(here, "here") as log:
        change(log, Stored(want.id, Want("a vine in a ninth", DAY)))
        (found,) = merge(log, there).conflicts
        said = disagreement(found.versions)
        assert {"title any vine", "title a vine in a ninth"} == set(said)
        settle(log, want.id, found.versions[1].id)
        assert conflicts(log) == ()
        assert len(held(log, Want)) == 1


def test_an_edit_is_told_field_by_field():
    after = Want("ninth with the vine motif", DAY, formats=("ninth",), motif="vine", most=usd("75"))
    assert changes(VINE, after) == ("most 65.00 USD to 75.00 USD",)


def test_a_check_sees_a_drawer_that_is_wrong_and_mends_it(tmp_path):
    path = tmp_path / "log.sqlite"
    with opened(path) as log:
        want = keep(log, VINE)
        log.add(bought())
        assert check(path).problems == ()
        log.connection.execute("DELETE FROM drawer")
    looked = check(path)
    assert looked.mendable
    assert want.id in looked.problems[0]
    mend(path)
    assert check(path).problems == ()
    with opened(path) as log:
        assert held(log, Want) == (want,)


def test_records_are_salvaged_with_the_prices(tmp_path):
    path = tmp_path / "log.sqlite"
    with opened(path) as log:
        want = keep(log, VINE)
        log.add(bought())
    found = salvage(path, "2024-06-01T12:00:00.000000Z")
    with opened(found.path) as log:
        assert held(log, Want) == (want,)
        assert len(log.entries()) == 1


def test_a_record_is_read_once_however_often_it_is_asked_for(tmp_path):
    with opened(tmp_path / "log.sqlite") as log:
        keep(log, VINE)
        first, again = held(log, Want), held(log, Want)
        assert first[0].thing is again[0].thing


def test_a_change_from_nothing_and_to_nothing_is_said_as_such():
    kept = OwnedPiece(title="girl with a basket", piece="piece: 1\ntitle: girl\n")
    assert changes(kept, replace(kept, place="box 3")) == ("place set to box 3",)
    placed = replace(kept, place="box 3")
    assert changes(placed, kept) == ("place box 3 removed",)
    (told,) = changes(kept, replace(kept, piece="piece: 1\ntitle: another\n"))
    assert told == "piece file changed"
