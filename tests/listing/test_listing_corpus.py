"""The reader against labelled listings: precision and recall of every field, and the flags.

Half A was written beside the reader, half B without sight of it; each keeps the bars by itself.
"""

from collections import Counter
from functools import cache
from typing import Any

import pytest
from listing.listingkit import knowledge
from listing.scoring import (
    FIELD,
    FLAG_PRECISION,
    FLAG_RECALL,
    HALVES,
    SCORED,
    Score,
    half,
    score,
    shortfalls,
)

UNRELATED = 20  # listings at least that have nothing to do with photographs


@cache
def scores(name: str) -> Score:
    return score(half(name), knowledge())


def rows() -> list[dict[str, Any]]:
    return [row for name in HALVES for row in half(name)]


def test_the_table_is_printed(capsys: pytest.CaptureFixture[str]) -> None:
    with capsys.disabled():
        for name, told in HALVES.items():
            print(f"\nhalf {name}, {told}: {len(half(name))} listings")
            print(scores(name).table())
    assert len(half("A")) >= 60
    assert len(half("B")) >= 60


@pytest.mark.parametrize("half_name", HALVES)
@pytest.mark.parametrize("name", SCORED)
def test_a_field_is_found_and_nothing_else(half_name: str, name: str) -> None:
    found = scores(half_name)
    assert found.wanted[name] >= 5, f"too few labels of {name}"
    assert found.precision(name) >= FIELD, "\n".join(found.errors)
    assert found.recall(name) >= FIELD, "\n".join(found.errors)


@pytest.mark.parametrize("half_name", HALVES)
def test_flags_are_raised_and_no_others(half_name: str) -> None:
    found = scores(half_name)
    assert found.recall("flags") >= FLAG_RECALL, "\n".join(found.errors)
    assert found.precision("flags") >= FLAG_PRECISION, "\n".join(found.errors)


@pytest.mark.parametrize("half_name", HALVES)
def test_pieces_are_counted_and_damage_is_an_admission(half_name: str) -> None:
    assert scores(half_name).precision("pieces") >= FIELD
    assert scores(half_name).recall("admitted") >= FIELD


def test_a_miss_is_told_by_field_and_figure() -> None:
    found = Score()
    found.add("process", "x", ["tintype"], ["ambrotype"])
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
