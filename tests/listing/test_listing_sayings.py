"""What the seller says that bears on the verdict, and what is no photograph of its period."""

from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import yaml
from every import every
from listing.listingkit import knowledge, listing

from appraise.listing.nature import family
from appraise.listing.records import Listing

FILES = ("sayings.yaml", "sayings-second.yaml")
FEWEST = 100


@cache
def sayings() -> tuple[dict[str, Any], ...]:
    here = Path(__file__).parent
    texts = ((here / name).read_text(encoding="utf-8") for name in FILES)
    return tuple(row for text in texts for row in yaml.safe_load(text)["sayings"])


def misses(row: dict[str, Any], found: Listing) -> Iterator[str]:
    """What a listing was not read as, one line each."""
    piece = found.piece
    for check, answer in (row.get("finds") or {}).items():
        if piece.found(check) != answer:
            yield f"{check}: {piece.found(check)!r}, wanted {answer!r}"
        elif piece.findings[check].known != "seller":
            yield f"{check} is not known from the seller"
    for check in row.get("admitted") or ():
        if check in piece.findings and not piece.findings[check].admitted:
            yield f"{check} is not admitted"
    for told in row.get("lacks") or ():
        check, _, answer = told.partition(" ")
        if piece.found(check) and answer in ("", piece.found(check)):
            yield f"{check}: {piece.found(check)!r} is too much"
    flags = {one.id for one in found.flags}
    yield from (f"flag {one} is missing" for one in sorted(set(row.get("flags") or ()) - flags))
    yield from (f"flag {one} is too much" for one in sorted(set(row.get("none") or ()) & flags))
    yield from _fields(row, found)


def _fields(row: dict[str, Any], found: Listing) -> Iterator[str]:
    defects = found.said("defect")
    said = {*defects, *(one.split()[0] for one in defects if not one.endswith(" 0"))}
    yield from (f"{one} is missing" for one in row.get("says") or () if one not in said)
    yield from (f"{one} is too much" for one in row.get("quiet") or () if one in said)
    families = [family(one, knowledge()) for one in found.said("process")]
    told: dict[str, Any] = {
        "kind": found.piece.kind,
        "subject": found.piece.subject,
        "pieces": found.pieces,
        "process": list(dict.fromkeys(families)),
        "holds": bool(found.holds_back),
    }
    for name, value in told.items():
        if name in row and row[name] != value:
            yield f"{name}: {value!r}, wanted {row[name]!r}"
    if "language" in row and not any(row["language"] in one.says for one in found.flags):
        yield f"{row['language']} is not named"


@every("row", sayings(), ids=lambda row: row["text"][:60])
def test_a_saying_is_read_as_it_is_meant(row: dict[str, Any]) -> None:
    assert list(misses(row, listing(row["text"], "EUR"))) == []


def test_there_are_enough_of_them() -> None:
    assert len(sayings()) >= FEWEST
    assert len({row["text"] for row in sayings()}) == len(sayings())
