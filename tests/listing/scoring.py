"""Claims and flags of listings against their labels: precision and recall, field by field."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from appraise.base.dates import Dating
from appraise.base.measures import Measure
from appraise.knowledge import Knowledge
from appraise.listing.reader import read
from appraise.listing.records import Listing

LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
CORPUS = Path(__file__).parent / "corpus"
SETS = {
    "A": "written beside the reader",
    "B": "written without sight of the reader",
    "C": "written without sight of the reader after it was fitted to A and B",
}
FOLDERS = {"A": CORPUS, "B": CORPUS / "blind", "C": CORPUS / "unseen"}
FIELD, FLAG_RECALL, FLAG_PRECISION = 0.95, 0.92, 0.95  # bars that each set keeps by itself
FEWEST = 5  # labels under which a field of a set is judged with the other sparse ones
SPARSE = "sparse fields"
SCORED = (
    "process", "format", "case.material", "kind", "asking", "postage", "measured", "date",
    "defect", "subject", "region", "inscription", "mark",
)  # fmt: skip
# In an unrelated listing these are still what they are; nothing else may be claimed.
ANYWHERE = ("asking", "postage")


def labelled(paths: Iterable[Path]) -> list[dict[str, Any]]:
    """Rows of label files, in their order."""
    rows: list[dict[str, Any]] = []
    for path in sorted(paths):
        rows += yaml.load(path.read_text(encoding="utf-8"), LOADER)["listings"]
    return rows


@cache
def listings_of(name: str) -> list[dict[str, Any]]:
    """The labelled listings of one set of the corpus, a key of `SETS`."""
    return labelled(FOLDERS[name].glob("*.yaml"))


@dataclass
class Score:
    """What was found, what was wanted and what of it was both, by field."""

    right: Counter[str] = field(default_factory=Counter)
    said: Counter[str] = field(default_factory=Counter)
    wanted: Counter[str] = field(default_factory=Counter)
    errors: list[str] = field(default_factory=list)

    def add(self, name: str, row: str, said: list[str], wanted: list[str]) -> None:
        """Count one field of one listing; each wanted value is met once at most."""
        open_ones = list(wanted)
        for value in said:
            met = next((one for one in open_ones if same(name, value, one)), None)
            if met is None:
                self.errors.append(f"{row} {name}: {value!r} is too much")
            else:
                open_ones.remove(met)
                self.right[name] += 1
        self.errors += [f"{row} {name}: {value!r} is missing" for value in open_ones]
        self.said[name] += len(said)
        self.wanted[name] += len(wanted)

    def precision(self, name: str) -> float:
        """Share of what was said that was wanted."""
        return self.right[name] / self.said[name] if self.said[name] else 1.0

    def recall(self, name: str) -> float:
        """Share of what was wanted that was said."""
        return self.right[name] / self.wanted[name] if self.wanted[name] else 1.0

    def pooled(self) -> list[str]:
        """The fields to be judged; those with few labels are counted together as one."""
        sparse = [name for name in SCORED if self.wanted[name] < FEWEST]
        for counter in (self.right, self.said, self.wanted):
            counter[SPARSE] = sum(counter[name] for name in sparse)
        return [name for name in SCORED if name not in sparse] + ([SPARSE] if sparse else [])

    def table(self) -> str:
        """Precision and recall as a table."""
        lines = [f"{'field':<16}{'wanted':>8}{'said':>8}{'precision':>11}{'recall':>9}"]
        for name in (*SCORED, "flags", "pieces", "admitted"):
            lines.append(
                f"{name:<16}{self.wanted[name]:>8}{self.said[name]:>8}"
                f"{self.precision(name):>11.3f}{self.recall(name):>9.3f}"
            )
        return "\n".join(lines)


def score(rows: Iterable[dict[str, Any]], knowledge: Knowledge) -> Score:
    """Read every listing and count."""
    total = Score()
    for row in rows:
        listing = read(row["text"], knowledge, row.get("currency", "USD"))
        claims = row.get("claims") or {}
        for name in SCORED:
            total.add(name, row["id"], said(listing, name, knowledge), wanted(claims, name))
        total.add("flags", row["id"], [one.id for one in listing.flags], all_flags(row))
        total.add("pieces", row["id"], [str(listing.pieces)], [str(row.get("pieces", 1))])
        admitted = {one.value for one in listing.claims if one.against_interest}
        bad = [value for value in wanted(claims, "defect") if not value.endswith(" 0")]
        found = [value.split()[0] for value in admitted]
        total.add("admitted", row["id"], [one for one in found if one in bad], bad)
    return total


def shortfalls(found: Score) -> list[str]:
    """The bars that a set misses, one line each."""
    bars = [(name, FIELD, FIELD) for name in found.pooled()]
    bars.append(("flags", FLAG_PRECISION, FLAG_RECALL))
    missed = []
    for name, precision, recall in bars:
        if found.precision(name) < precision:
            missed.append(f"{name}: precision {found.precision(name):.3f}, bar {precision}")
        if found.recall(name) < recall:
            missed.append(f"{name}: recall {found.recall(name):.3f}, bar {recall}")
    return missed


def all_flags(row: dict[str, Any]) -> list[str]:
    """The labelled flags, with those that follow from sort or claims where they are left out."""
    flags = list(row.get("flags") or [])
    claims = row.get("claims") or {}
    if row.get("sort") == "unrelated":
        flags += [] if "no-photograph" in flags else ["no-photograph"]
    elif not set(claims.get("kind") or []) & {"empty-case", "part", "other"}:
        if not claims.get("process") and "no-process" not in flags:
            flags.append("no-process")
        if not claims.get("format") and not claims.get("measured") and "no-size" not in flags:
            flags.append("no-size")
    return flags


def said(listing: Listing, name: str, knowledge: Knowledge) -> list[str]:
    """What the reader found of a field, in the labels' form."""
    values = listing.said(name)
    if name == "defect":
        values = tuple(v if v.endswith(" 0") else v.split()[0] for v in values)
    if name == "process":
        values = tuple(family(value, knowledge) for value in values)
    return list(dict.fromkeys(values))


def wanted(claims: dict[str, Any], name: str) -> list[str]:
    """What a label wants of a field."""
    values = [str(value) for value in claims.get(name) or []]
    return list(dict.fromkeys(v.split("-")[0] if v.startswith("ambrotype") else v for v in values))


def family(process: str, knowledge: Knowledge) -> str:
    """The family of a process."""
    known = knowledge.processes.get(process)
    return known.family if known else process


def same(name: str, one: str, two: str) -> bool:
    """Whether a value says what a label says."""
    if name == "measured":
        return _same_measure(one, two)
    if name == "date":
        return Dating.parse(one).bounds(0) == Dating.parse(two).bounds(0)
    if name in ("inscription", "mark"):
        first, second = (" ".join(text.lower().split()) for text in (one, two))
        return first in second or second in first
    return one == two


def _same_measure(one: str, two: str) -> bool:
    (what, first), (other, second) = one.split(" ", 1), two.split(" ", 1)
    lengths = [sorted(Measure.parse(text).lengths) for text in (first, second)]
    near = all(abs(a - b) <= 1 for a, b in zip(*lengths, strict=False))
    return what == other and len(lengths[0]) == len(lengths[1]) and near
