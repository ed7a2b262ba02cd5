"""What has to be said of a repair, and which kept pieces a filter finds; all of it invented."""

import datetime as dt

import pytest

from appraise.base.errors import InputError
from appraise.collection.owned_filter import filtered
from appraise.collection.repairs import (
    checked_mark,
    doubtful,
    names_of,
    proposed_disclosure,
    refused,
)
from appraise.knowledge import load
from appraise.records.owned import OwnedPiece
from appraise.records.repair import Repair, Stuff
from appraise.records.stored import Stored

KNOWLEDGE = load()
DAY = dt.date(2026, 11, 7)


def work(**more):
    return Repair("hinge of the vine case", dt.date(2025, 12, 30), **more)


@pytest.mark.parametrize(
    ("repair", "ids"),
    [
        (work(did="washed the plate with dish soap"), {"washing"}),
        (work(did="lay in the freezer, then silica gel"), {"freezing", "desiccant"}),
        (work(materials=(Stuff("dressing"),)), {"leather-dressing"}),
        (work(did="hinged with Japanese paper and wheat starch paste"), set()),
    ],
)
def test_what_nobody_should_try_is_found_in_the_text_and_in_the_materials(repair, ids):
    assert ids <= {row.id for row in refused(repair, KNOWLEDGE)}
    assert bool(refused(repair, KNOWLEDGE)) == bool(ids)


@pytest.mark.parametrize(
    ("repair", "told"),
    [
        (work(materials=(Stuff("hot-glue"),)), ["hot-melt glue: not archival."]),
        (work(materials=(Stuff("hot-glue"),), did="with hot glue"), ["hot-melt glue: not"]),
        (work(did="stuck with superglue"), ["instant glue: not archival."]),
        (work(materials=(Stuff("epoxy"),)), ["epoxy resin: it depends."]),
        (work(did="filled with epoxy"), []),
        (work(materials=(Stuff("starch-paste"), Stuff("my own brew"))), []),
    ],
)
def test_what_is_known_against_a_material_is_told_once(repair, told):
    """Of the text alone only what is not archival counts: a word there may mean anything else."""
    found = doubtful(repair, KNOWLEDGE)
    assert len(found) == len(told)
    assert all(line.startswith(words) for line, words in zip(found, told, strict=True))


def test_materials_are_told_by_their_names_and_ones_own_words_as_they_are():
    repair = work(materials=(Stuff("starch-paste"), Stuff("my own brew")))
    assert names_of(repair, KNOWLEDGE) == ("wheat starch paste", "my own brew")


@pytest.mark.parametrize(
    ("repair", "missing"),
    [
        (work(), ""),
        (work(made_by_me=True), "mark and disclosure"),
        (work(made_by_me=True, mark="pencil, under the pad"), "disclosure"),
        (work(made_by_me=True, disclosure="Assembled by me."), "mark"),
        (work(made_by_me=True, mark="pencil", disclosure="Assembled by me."), ""),
    ],
)
def test_what_one_made_is_to_be_marked_and_told(repair, missing):
    told = checked_mark(repair)
    assert told == (f"Made or assembled by you: still without {missing}." if missing else "")


@pytest.mark.parametrize(
    ("repair", "told"),
    [
        (work(), "by me in 2025: hinge of the vine case."),
        (work(done=dt.date(2026, 1, 2), did="New hinge.\nOf paper."), "by me in 2026: New hinge."),
        (work(by="conservator", did="A hinge"), "by a conservator in 2025: A hinge."),
        (work(by="other"), "by someone else in 2025: hinge of the vine case."),
    ],
)
def test_a_disclosure_says_who_when_and_what(repair, told):
    assert proposed_disclosure(repair) == f"Assembled or altered {told}"


KEPT = (
    Stored("aaaa000000000001", OwnedPiece("girl with a vine", return_by=dt.date(2026, 11, 1))),
    Stored("bbbb000000000002", OwnedPiece("boy with a drum", provenance="a market", dated="1858")),
)


@pytest.mark.parametrize(
    ("query", "found"),
    [
        ("", "ab"), ("vine", "a"), ("-vine", "b"), ("bbbb", "b"), ("-bbbb", "ab"), ("bbb", ""),
        ("dated=1858", "b"), ("-dated=1858", "a"), ("girl drum", ""),
    ],
)  # fmt: skip
def test_every_term_of_a_filter_must_fit(query, found):
    told = filtered(KEPT, query, KNOWLEDGE, DAY)
    assert "".join(one.id[0] for one in told) == found


def test_what_is_due_is_asked_for_once_the_knowledge_is_read():
    for knowledge in (KNOWLEDGE, None):
        due, idle = (filtered(KEPT, f"due={word}", knowledge, DAY) for word in ("yes", "no"))
        assert {*due, *idle} == set(KEPT)
        assert filtered(KEPT, "-due=yes", knowledge, DAY) == idle
        assert (KEPT[0] in due) == (knowledge is not None)


@pytest.mark.parametrize("query", ["colour=red", "dated=long ago", "due=perhaps"])
def test_a_filter_that_cannot_be_read_is_told(query):
    with pytest.raises(InputError):
        filtered(KEPT, query, KNOWLEDGE, DAY)
