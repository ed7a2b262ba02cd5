"""One fact in many wordings: damage, flags and fields, in English and five other languages.

The phrases are invented, class by class, and stand in YAML files beside this. Each file keeps a
share of its phrases that must be read exactly: everything that is wanted, and nothing else.
"""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from listing.listingkit import listing
from listing.scoring import same

HERE = Path(__file__).parent
ENOUGH = {"damage": 0.97, "flags": 0.94, "fields": 0.95, "foreign": 0.97}
FEWEST = 80
ENOUGH_COUNTS, SPARE_COUNTS = 40, 2
Misses = Iterator[tuple[bool, str]]


def groups(name: str) -> list[dict[str, Any]]:
    text = (HERE / f"variants-{name}.yaml").read_text(encoding="utf-8")
    found: list[dict[str, Any]] = yaml.safe_load(text)["groups"]
    return found


def damage_in(text: str, currency: str = "USD") -> list[str]:
    said = listing(text, currency).said("defect")
    return sorted({one if one.endswith(" 0") else one.split()[0] for one in said})


def damage(group: dict[str, Any]) -> Misses:
    for phrase in group["phrases"]:
        found = damage_in(f"{group['in']} {phrase}")
        yield found == sorted(group["want"]), f"{phrase} {found}"


def flags(group: dict[str, Any]) -> Misses:
    for phrase in group["phrases"]:
        found = {one.id for one in listing(f"{group['in']} {phrase}").flags} - {"no-size"}
        yield found == set(group["want"]), f"{phrase} {sorted(found)}"


def fields(group: dict[str, Any]) -> Misses:
    if group["field"] == "money":
        for asking, postage, *phrases in group["rows"]:
            for phrase in phrases:
                found = listing(f"{group['in']} {phrase}")
                told = [list(found.said("asking")), list(found.said("postage"))]
                yield told == [asking, postage], f"{phrase} {told}"
        return
    for want, *phrases in group["rows"]:
        for phrase in phrases:
            said = listing(f"{group['in']} {phrase}".strip()).said(group["field"])
            right = len(said) == 1 and same(group["field"], said[0], str(want))
            yield right, f"{phrase} {said}"


def foreign(group: dict[str, Any]) -> Misses:
    for want, *phrases in group["rows"]:
        for phrase in phrases:
            text = f"{group['in']} {phrase}"
            found = damage_in(text, "EUR")
            told = "not-read" in {one.id for one in listing(text, "EUR").flags}
            yield found == [want] and told, f"{phrase} {found}"


def test_pieces_are_counted_in_many_wordings() -> None:
    rows = yaml.safe_load((HERE / "pieces.yaml").read_text(encoding="utf-8"))["rows"]
    missed = [text for count, text in rows if listing(text).pieces != count]
    assert len(rows) >= ENOUGH_COUNTS
    assert len(missed) <= SPARE_COUNTS, "\n".join(missed)


@pytest.mark.parametrize(
    ("name", "read"),
    [("damage", damage), ("flags", flags), ("fields", fields), ("foreign", foreign)],
)
def test_wordings_of_one_class_are_read_alike(name: str, read: Any) -> None:
    told = [one for group in groups(name) for one in read(group)]
    missed = [words for right, words in told if not right]
    assert len(told) >= FEWEST
    assert len(missed) <= (1 - ENOUGH[name]) * len(told), "\n".join(missed)
