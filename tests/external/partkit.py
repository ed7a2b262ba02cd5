"""Which part of a piece a size is of, scored against records that measure each part by name.

A record holds the text as a catalogue prints it and the sides in mm of each part that it names. The
reader is right of a part when every size of the text with those sides is claimed of that part. What
no field of a piece is for (an image on a card, an open case, a modern window mat) must not be
claimed of one that is.
"""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from appraise.base.errors import InputError
from appraise.base.measures import Measure
from appraise.knowledge import Knowledge
from appraise.listing.reader import read
from appraise.listing.records import Listing
from appraise.records.piece import MEASURED

NOTHING = "nothing of a piece"
APART = 1.6  # mm by which an inch in sixteenths and its centimetres may differ
NOT_SCORED = ("unspecified", "other", "ivory", "glass", "mat", "frame")
PLATES = ("cased", "loose-plate")
# What a catalogue calls a part, by the kind of piece, as a piece's own field.
PARTS: Mapping[str, Mapping[str, str]] = {
    "cased": {
        "image": "opening",
        "opening": "opening",
        "plate": "plate",
        "case": "case",
        "case_open": NOTHING,
        "exhibition_mat": NOTHING,
    },
    "loose-plate": {
        "image": "plate",
        "plate": "plate",
        "overall": "plate",
        "exhibition_mat": NOTHING,
    },
    "card": {
        "image": NOTHING,
        "sheet": NOTHING,
        "opening": NOTHING,
        "mount": "mount",
        "overall": "mount",
        "exhibition_mat": NOTHING,
    },
    "print": {"image": NOTHING, "opening": NOTHING, "mount": "mount", "exhibition_mat": NOTHING},
    "lantern-slide": {"image": NOTHING, "plate": "plate", "overall": "plate"},
    "cyanotype": {"image": NOTHING, "mount": "mount", "exhibition_mat": NOTHING},
}


@dataclass
class Parts:
    """What was right of how many, by the catalogue's word for the part and the kind of piece."""

    right: Counter[tuple[str, str]] = field(default_factory=Counter)
    all: Counter[tuple[str, str]] = field(default_factory=Counter)
    errors: list[str] = field(default_factory=list)
    named: int = 0
    flagged: list[str] = field(default_factory=list)

    @property
    def share(self) -> float:
        """Share of all parts that were read right."""
        return sum(self.right.values()) / max(1, sum(self.all.values()))

    @property
    def flags(self) -> float:
        """Share of records with a named format on which the sizes are said to disagree."""
        return len(self.flagged) / max(1, self.named)

    def table(self) -> str:
        """A line for each part, then the two shares."""
        rows = [
            f"{kind:14} {part:15} {self.right[kind, part]:5} of {self.all[kind, part]:5}"
            for kind, part in sorted(self.all)
        ]
        right, of = sum(self.right.values()), sum(self.all.values())
        rows.append(f"all parts       {right} of {of}: {100 * self.share:.1f} %")
        rows.append(
            f"size-disagrees  {len(self.flagged)} of {self.named}: {100 * self.flags:.1f} %"
        )
        return "\n".join(rows)


def scored(records: Iterable[Mapping[str, Any]], knowledge: Knowledge) -> Parts:
    """Read the text of each record and score every part that it measures."""
    found = Parts()
    for record in records:
        _score(record, read(record["listing_text"], knowledge), found)
    return found


def _score(record: Mapping[str, Any], listing: Listing, found: Parts) -> None:
    kind = record["kind"]
    sizes = [(what, _sides(size)) for what, size in map(_claimed, listing.said("measured"))]
    wanted = {
        name: PARTS[kind][name]
        for name in record["dims_mm"]
        if name in PARTS.get(kind, {}) and name not in NOT_SCORED
    }
    if "plate" in wanted and wanted.get("image") == "plate":
        wanted["image"] = NOTHING  # a loose plate that is measured apart from its image
    for name, part in wanted.items():
        own = _of(record["dims_mm"][name])
        alike = {p for n, p in wanted.items() if _near(own, _of(record["dims_mm"][n]))}
        said = [what if what in MEASURED else NOTHING for what, sides in sizes if _near(own, sides)]
        right = all(what in alike for what in said) and (said or part == NOTHING)
        found.all[kind, name] += 1
        found.right[kind, name] += bool(right)
        if not right:
            found.errors.append(f"{record['id']} {name}: {said} not {part}: {_told(record)}")
    if listing.said("format"):
        found.named += 1
        if any(flag.id == "size-disagrees" for flag in listing.flags):
            found.flagged.append(f"{record['id']}: {_told(record)}")


def _told(record: Mapping[str, Any]) -> str:
    return " ".join(record["listing_text"].split())


def _claimed(value: str) -> tuple[str, Measure | None]:
    what, _, size = value.partition(" ")
    try:
        return what, Measure.parse(size)
    except InputError:
        return what, None


def _sides(measure: Measure | None) -> tuple[float, ...]:
    return tuple(float(side) for side in measure.sides) if measure else ()


def _of(lengths: Iterable[float]) -> tuple[float, ...]:
    """The face of a thing: its two longest sides, the shorter one first."""
    return tuple(sorted(lengths)[-2:])


def _near(one: tuple[float, ...], other: tuple[float, ...]) -> bool:
    return len(one) == len(other) and all(
        abs(a - b) <= APART for a, b in zip(one, other, strict=True)
    )
