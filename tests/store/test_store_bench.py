"""Works and stock as acts of the log: what was there at first is always somewhere."""

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from store.logkit import bought, opened
from thorough import tries

from appraise.base.errors import InputError
from appraise.records.part import Part
from appraise.records.repair import Repair
from appraise.records.stored import Stored
from appraise.store.bench import change_work, drop_work, keep_work, piece_title, whole_piece
from appraise.store.records import held, keep, one

DAY = dt.date(2024, 5, 30)
COUNT = 4


def uses(log, part):
    return sum(each.thing.used.count(part) for each in held(log, Repair))


steps = st.lists(
    st.tuples(st.sampled_from(("new", "edit", "drop", "undo", "redo")), st.integers(0, 3)),
    max_size=8,
)


@tries(25)
@given(steps)
def test_parts_in_stock_and_in_works_are_always_as_many_as_came_in(tmp_path_factory, plan):
    with opened(tmp_path_factory.mktemp("bench") / "log.sqlite") as log:
        part = keep(log, Part("a mat", DAY, "mat", count=COUNT)).id
        for what, many in plan:
            works = held(log, Repair)
            used = (part,) * many
            try:
                if what == "new":
                    keep_work(log, Repair("a work", DAY, used=used))
                elif what in ("undo", "redo"):
                    log.undo() if what == "undo" and works else log.redo()
                elif works and what == "edit":
                    was = works[-1]
                    after = Repair("a work", DAY, used=used, note=f"edited {many}")
                    change_work(log, Stored(was.id, after), was.thing)
                elif works:
                    drop_work(log, works[0])
            except InputError:
                pass  # none left, or nothing to do again: nothing may have changed
            stock = [each.thing.count for each in held(log, Part) if each.id == part]
            assert sum(stock) + uses(log, part) == (COUNT if stock else 0)


def test_a_work_that_cannot_be_kept_leaves_no_trace(tmp_path):
    with opened(tmp_path / "log.sqlite") as log:
        part = keep(log, Part("a mat", DAY, "mat"))
        with pytest.raises(InputError, match="none is left"):
            keep_work(log, Repair("a work", DAY, used=(part.id, part.id)))
        with pytest.raises(InputError, match="no part"):
            keep_work(log, Repair("a work", DAY, used=("f" * 16,)))
        assert one(log, Part, part.id) == part
        assert held(log, Repair) == ()


def test_an_edit_over_another_programs_is_refused(tmp_path):
    with opened(tmp_path / "log.sqlite") as log:
        work = keep_work(log, Repair("a work", DAY))
        change_work(log, Stored(work.id, Repair("new hinge", DAY)), work.thing)
        with pytest.raises(InputError, match="changed by another program"):
            change_work(log, Stored(work.id, Repair("old hinge", DAY)), work.thing)


def test_a_piece_is_named_by_its_id_or_in_words(tmp_path):
    with opened(tmp_path / "log.sqlite") as log:
        entry = log.add(bought())
        assert whole_piece(log, entry.id[:6]) == entry.id
        assert whole_piece(log, "the vine case") == "the vine case"
        assert whole_piece(log, "") == ""
        assert piece_title(log, entry.id) == entry.title
        assert piece_title(log, "the vine case") == piece_title(log, "f" * 16) == ""
