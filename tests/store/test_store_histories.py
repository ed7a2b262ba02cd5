"""Random histories: out and in again is the same log, undone and done again is the same log."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from store import logkit
from store.logkit import bought, opened
from thorough import tries

from appraise.exchange.csv_file import to_csv
from appraise.exchange.intake import take_in
from appraise.exchange.sheets import import_csv, read_csv
from appraise.exchange.yaml_file import from_yaml, to_yaml

acts = st.lists(
    st.tuples(
        st.sampled_from(["add", "many", "edit", "remove", "undo", "redo"]),
        st.integers(0, 9),
        logkit.entries,
    ),
    min_size=1,
    max_size=12,
)


def play(log, history):
    """Do what a history says, as far as it can be done."""
    for act, which, entry in history:
        ids = sorted(each.id for each in log.entries())
        chosen = ids[which % len(ids)] if ids else ""
        if act == "add":
            log.add(entry)
        elif act == "many":
            log.add_all([entry, entry, bought()])
        elif act in ("undo", "redo"):
            if log.coming(act):
                getattr(log, act)()
        elif chosen and act == "edit":
            log.edit(entry.named(chosen))
        elif chosen:
            log.commit(drop=[chosen])


def through_csv(log, entries):
    if entries:
        import_csv(log, read_csv(to_csv(entries), "out.csv"))


def through_yaml(log, entries):
    take_in(log, from_yaml(to_yaml(entries), "out.yaml"))


@pytest.mark.parametrize("through", [through_csv, through_yaml])
@tries(25)
@given(acts)
def test_out_and_in_again_is_the_same_log(tmp_path_factory, through, history):
    place = tmp_path_factory.mktemp("out")
    with opened(place / "a" / "log.sqlite") as log:
        play(log, history)
        wanted = log.entries()
    with opened(place / "b" / "log.sqlite", "laptop") as log:
        through(log, wanted)
        assert set(log.entries()) == set(wanted)
        revisions = log.connection.execute("SELECT count(*) FROM revision").fetchone()
        through(log, wanted)
        assert log.connection.execute("SELECT count(*) FROM revision").fetchone() == revisions
    with opened(place / "a" / "log.sqlite") as log:
        through(log, wanted)
        assert log.entries() == wanted, "and imported where it came from it changes nothing"


@tries(25)
@given(acts, st.integers(1, 4))
def test_undone_and_done_again_is_the_same_log(tmp_path_factory, history, steps):
    path = tmp_path_factory.mktemp("undo") / "log.sqlite"
    with opened(path) as log:
        play(log, history)
        wanted, summary = log.entries(), log.summary()
        undone = 0
        while undone < steps and log.coming("undo"):
            log.undo()
            undone += 1
    with opened(path) as log:
        for _ in range(undone):
            log.redo()
        assert log.entries() == wanted
        assert log.summary() == summary
