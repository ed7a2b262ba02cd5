"""What a piece is by what is claimed of it: its kind, process, format and housing."""

from collections.abc import Sequence
from functools import lru_cache

from appraise.base.dataclass import dataclass
from appraise.knowledge.records import Knowledge
from appraise.listing.records import Claim


@dataclass(frozen=True, slots=True)
class Nature:
    """What the piece is said to be: the first claim of each, '' where nothing is said."""

    kind: str = ""
    process: str = ""
    format: str = ""
    material: str = ""


def family(process: str, knowledge: Knowledge) -> str:
    """The family of a process, or the word itself where it is one."""
    known = knowledge.processes.get(process)
    return known.family if known else process


@lru_cache(maxsize=256)
def usual_kind(process: str, knowledge: Knowledge) -> str:
    """The kind in which a process family is met most; plates are looked at as cased ones."""
    shares: dict[str, float] = {}
    for one in knowledge.processes.values():
        if one.family == process:
            for kind, share in one.shares.items():
                shares[kind] = shares.get(kind, 0.0) + share
    best = max(shares, key=lambda kind: shares[kind], default="cased")
    return "cased" if best == "loose-plate" and shares.get("cased") else best


def nature_of(claims: Sequence[Claim], knowledge: Knowledge) -> Nature:
    """What the claims say the piece is."""
    first: dict[str, str] = {}
    for claim in claims:
        first.setdefault(claim.field, claim.value)
    process = first.get("process", "")
    return Nature(
        kind=first.get("kind", ""),
        process=family(process, knowledge) if process else "",
        format=first.get("format", ""),
        material=first.get("case.material", ""),
    )
