"""The reader against labelled listings: precision and recall of every field, and the flags."""

from collections import Counter
from functools import cache

import pytest
from listing.scoring import CORPUS, SCORED, Score, labelled, score

from appraise.knowledge import Knowledge, load

FIELD, FLAG_RECALL, FLAG_PRECISION = 0.95, 0.92, 0.95


@cache
def knowledge() -> Knowledge:
    return load()


@cache
def scores(half: str) -> Score:
    paths = list(CORPUS.glob("*.yaml")) if half in ("A", "all") else []
    paths += list((CORPUS / "blind").glob("*.yaml")) if half in ("B", "all") else []
    return score(labelled(paths), knowledge())


def rows() -> list[dict]:
    return labelled([*CORPUS.glob("*.yaml"), *(CORPUS / "blind").glob("*.yaml")])


def test_the_table_is_printed(capsys: pytest.CaptureFixture[str]) -> None:
    with capsys.disabled():
        for half in ("A", "B"):
            if scores(half).wanted["pieces"]:
                print(f"\nlistings of half {half}: {scores(half).wanted['pieces']}")
                print(scores(half).table())
    assert scores("all").wanted["pieces"] >= 120


@pytest.mark.parametrize("name", SCORED)
def test_a_field_is_found_and_nothing_else(name: str) -> None:
    found = scores("all")
    assert found.wanted[name] >= 5, f"too few labels of {name}"
    assert found.precision(name) >= FIELD, "\n".join(found.errors)
    assert found.recall(name) >= FIELD, "\n".join(found.errors)


def test_flags_are_raised_and_no_others() -> None:
    found = scores("all")
    assert found.recall("flags") >= FLAG_RECALL, "\n".join(found.errors)
    assert found.precision("flags") >= FLAG_PRECISION, "\n".join(found.errors)


def test_pieces_are_counted_and_damage_is_an_admission() -> None:
    assert scores("all").precision("pieces") >= FIELD
    assert scores("all").recall("admitted") >= FIELD


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
    assert sorts["unrelated"] >= 20
    assert len({row["id"] for row in rows()}) == sum(sorts.values())


def test_each_flag_of_the_labels_is_a_flag_of_the_knowledge() -> None:
    known = {phrase.flag for phrase in knowledge().phrases.values()}
    assert {flag for row in rows() for flag in row.get("flags") or []} <= known


def test_labels_name_checks_that_exist() -> None:
    for row in rows():
        for value in (row.get("claims") or {}).get("defect") or []:
            assert knowledge().checks[value.split()[0]].defect, f"{row['id']}: {value}"
