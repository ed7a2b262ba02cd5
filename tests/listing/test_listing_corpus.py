"""The reader against labelled listings: precision and recall of every field, and the flags.

Set A was written beside the reader, sets B and C without sight of it;
each keeps the bars by itself.
"""

from collections import Counter
from functools import cache
from typing import Any

import pytest
from listing.listingkit import knowledge
from listing.scoring import (
    FEWEST,
    FIELD,
    FLAG_PRECISION,
    FLAG_RECALL,
    SETS,
    SPARSE,
    Score,
    listings_of,
    score,
    shortfalls,
)

UNRELATED = 20  # listings at least that have nothing to do with photographs


@cache
def scores(name: str) -> Score:
    return score(listings_of(name), knowledge())


def rows() -> list[dict[str, Any]]:
    return [row for name in SETS for row in listings_of(name)]


def test_the_table_is_printed(capsys: pytest.CaptureFixture[str]) -> None:
    with capsys.disabled():
        for name, told in SETS.items():
            print(f"\nset {name}, {told}: {len(listings_of(name))} listings")
            print(scores(name).table())
    assert len(listings_of("A")) >= 60
    assert len(listings_of("B")) >= 60
    assert len(listings_of("C")) >= 50


@pytest.mark.parametrize("set_name", SETS)
def test_a_field_is_found_and_nothing_else(set_name: str) -> None:
    found = scores(set_name)
    for name in found.pooled():
        assert found.wanted[name] >= FEWEST, f"too few labels of {name}"
        assert found.precision(name) >= FIELD, "\n".join([name, *found.errors])
        assert found.recall(name) >= FIELD, "\n".join([name, *found.errors])


def test_fields_with_few_labels_are_judged_together() -> None:
    found = Score()
    for number in range(FEWEST):
        found.add("process", str(number), ["tintype"], ["tintype"])
    found.add("mark", "x", ["a"], ["a"])
    found.add("region", "x", [], ["us"])
    assert found.pooled() == ["process", SPARSE]
    assert (found.precision(SPARSE), found.recall(SPARSE)) == (1.0, 0.5)


@pytest.mark.parametrize("set_name", SETS)
def test_flags_are_raised_and_no_others(set_name: str) -> None:
    found = scores(set_name)
    assert found.recall("flags") >= FLAG_RECALL, "\n".join(found.errors)
    assert found.precision("flags") >= FLAG_PRECISION, "\n".join(found.errors)


@pytest.mark.parametrize("set_name", SETS)
def test_pieces_are_counted_and_damage_is_an_admission(set_name: str) -> None:
    assert scores(set_name).precision("pieces") >= FIELD
    assert scores(set_name).recall("admitted") >= FIELD


def test_a_miss_is_told_by_field_and_figure() -> None:
    found = Score()
    for number in range(FEWEST):
        found.add("process", str(number), ["tintype"], ["ambrotype"])
    assert shortfalls(found) == [
        "process: precision 0.000, bar 0.95",
        "process: recall 0.000, bar 0.95",
    ]


def test_every_sort_of_listing_is_there() -> None:
    sorts = Counter(row["sort"] for row in rows())
    wanted = [
        "clean",
        "sloppy",
        "deceptive",
        "foreign",
        "long",
        "short",
        "money",
        "kind",
        "lot",
        "unrelated",
    ]
    assert set(sorts) == set(wanted)
    assert sorts["unrelated"] >= UNRELATED
    assert len({row["id"] for row in rows()}) == sum(sorts.values())


def test_each_flag_of_the_labels_is_a_flag_of_the_knowledge() -> None:
    known = {phrase.flag for phrase in knowledge().phrases.values()}
    assert {flag for row in rows() for flag in row.get("flags") or []} <= known


def test_labels_name_checks_that_exist() -> None:
    for row in rows():
        for value in (row.get("claims") or {}).get("defect") or []:
            assert knowledge().checks[value.split()[0]].defect, f"{row['id']}: {value}"
