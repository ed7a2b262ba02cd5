"""A piece that was examined and logged: one act with its draft, in both directions."""

import pytest
from store.logkit import bought, opened

from appraise.store.check import check
from appraise.store.drafts import settle

PIECE = "piece: 1\ntitle: girl with a basket\nfindings: {mat.shape: oval}\n"


@pytest.fixture
def log(tmp_path):
    with opened(tmp_path / "log.sqlite") as log:
        log.save_draft("piece one", PIECE)
        log.save_draft("piece two", "piece: 1\n")
        yield log


def texts(log):
    return {one.id: one.text for one in log.drafts()}


def test_the_draft_leaves_the_table_with_the_act_and_comes_back_with_undo(log):
    kept = settle(log, bought(piece=PIECE), "piece one")
    assert log.entry(kept.id) == kept
    assert texts(log) == {"piece two": "piece: 1\n"}
    step = log.undo()
    assert (step.of, step.named, step.record, step.draft) == (
        "add", "girl with a basket", "bought", "piece one",
    )  # fmt: skip
    assert log.entries() == ()
    assert texts(log)["piece one"] == PIECE
    again = log.redo()
    assert again.draft == "piece one"
    assert log.entries() == (kept,)
    assert "piece one" not in texts(log)
    assert log.undo().draft == "piece one"


def test_answers_given_after_an_undo_are_not_lost_by_a_redo(log):
    settle(log, bought(piece=PIECE), "piece one")
    log.undo()
    later = PIECE.replace("oval", "octagon")
    log.save_draft("piece one", later)
    assert log.redo().draft == ""
    assert len(log.entries()) == 1
    assert texts(log)["piece one"] == later


def test_an_edit_is_taken_back_before_the_piece_comes_back(log):
    kept = settle(log, bought(piece=PIECE), "piece one")
    log.edit(bought(price="50.00", piece=PIECE).named(kept.id))
    assert log.undo().draft == ""
    assert "piece one" not in texts(log)
    assert log.undo().draft == "piece one"
    assert texts(log)["piece one"] == PIECE


def test_another_entry_brings_no_draft(log):
    log.add(bought(piece=PIECE))
    before = texts(log)
    assert log.undo().draft == ""
    assert texts(log) == before


def test_a_log_in_which_a_piece_was_settled_is_whole(log, tmp_path):
    settle(log, bought(piece=PIECE), "piece one")
    log.undo()
    log.redo()
    assert check(tmp_path / "log.sqlite").problems == ()


def test_it_comes_back_after_the_program_was_closed(tmp_path):
    path = tmp_path / "other.sqlite"
    with opened(path) as log:
        log.save_draft("piece one", PIECE)
        settle(log, bought(piece=PIECE), "piece one")
    with opened(path) as log:
        assert log.undo().draft == "piece one"
        assert texts(log) == {"piece one": PIECE}
