"""What a listing does not tell, and the polite questions that follow, most useful first."""

from collections.abc import Sequence

from appraise.knowledge.wordings import Gap
from appraise.listing.nature import Nature
from appraise.listing.passage import Passage
from appraise.listing.records import Claim, Flag

MOST = 8  # questions that a seller will answer
_FLAG_WEIGHT = {"warn": 0.9, "ask": 0.68, "note": 0.31}


def gaps_of(
    claims: Sequence[Claim], flags: Sequence[Flag], nature: Nature, passage: Passage
) -> list[Gap]:
    """The gaps of a listing, most useful first."""
    told = {claim.field for claim in claims} | {flag.id for flag in flags}
    told |= {claim.value.split()[0] for claim in claims if claim.field in ("defect", "check")}
    missing = [
        gap
        for gap in passage.knowledge.gaps.values()
        if gap.id not in told and told.isdisjoint(gap.told) and _asked_of(gap, nature, passage)
    ]
    return sorted(missing, key=lambda gap: -gap.weight)


def _asked_of(gap: Gap, nature: Nature, passage: Passage) -> bool:
    """Whether the gap matters for such a piece."""
    if nature.kind and nature.kind not in gap.kinds:
        return False
    if not nature.kind and "cased" not in gap.kinds:
        return False
    if not gap.only:
        return True
    housed = any(word in passage.knowledge.housings for word in gap.only)
    return (nature.material if housed else nature.process) in gap.only


def questions_of(gaps: Sequence[Gap], flags: Sequence[Flag]) -> tuple[str, ...]:
    """Questions of flags and gaps in one order, at most eight, none twice."""
    weighed = [(_FLAG_WEIGHT[flag.severity], flag.question) for flag in flags if flag.question]
    weighed += [(gap.weight, gap.question) for gap in gaps]
    ordered = [question for _, question in sorted(weighed, key=lambda pair: -pair[0])]
    return tuple(dict.fromkeys(ordered))[:MOST]
