"""Which part of a piece a size is of, against what museums say they measured.

A random sample of records of open collections, each with its holder, number and licence; see the
head of measured_parts.yaml.
"""

from functools import cache
from pathlib import Path
from typing import Any

import yaml
from external.kit import shipped
from external.partkit import Parts, scored

SAMPLE = Path(__file__).with_name("measured_parts.yaml")
MOST = 60  # records that are taken over
RIGHT, WRONGLY_FLAGGED = 0.95, 0.03


@cache
def records() -> list[dict[str, Any]]:
    return yaml.safe_load(SAMPLE.read_text(encoding="utf-8"))["records"]


@cache
def score() -> Parts:
    return scored(records(), shipped())


def test_each_record_names_its_holder_number_and_licence():
    assert 50 <= len(records()) <= MOST
    for record in records():
        assert record["holder"]
        assert record["number"]
        assert record["licence"].startswith("CC")


def test_the_part_that_was_measured_is_read_right():
    found = score()
    assert sum(found.all.values()) >= 90
    assert found.share >= RIGHT, "\n".join([found.table(), *found.errors])


def test_sizes_that_go_with_their_format_are_not_said_to_disagree():
    found = scored([one for one in records() if "doubtful" not in one], shipped())
    assert found.named >= 35
    assert found.flags <= WRONGLY_FLAGGED, "\n".join(found.flagged)


def test_sizes_that_cannot_be_of_their_format_are_said_to_disagree():
    found = scored([one for one in records() if "doubtful" in one], shipped())
    assert (len(found.flagged), found.named) == (2, 2)


def test_the_score_can_fail():
    record = {
        "id": "x",
        "kind": "cased",
        "listing_text": "Sixth plate daguerreotype. Case: 8.4 x 9.5 cm",
        "dims_mm": {"plate": [84.0, 95.0]},
    }
    assert scored([record], shipped()).share == 0.0
