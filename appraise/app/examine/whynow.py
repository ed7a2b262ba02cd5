"""Why a check is worth making now, in a few words."""

from collections.abc import Mapping, Sequence

from appraise.knowledge.records import Check
from appraise.reading.reading import Reading
from appraise.verdict import Verdict

FEW = 6  # likely processes that are compared
TELLING = 2.0  # times as often with one as with the other
BEARS = {
    "belonging": "helps show whether the parts belong together.",
    "package": "it shows whether the package was opened.",
    "housing": "it tells what the housing is made of.",
    "copy": "helps show whether this is a copy of an older image.",
    "altered": "it shows whether something was added later.",
}


def why_now(check: Check, verdict: Verdict | None) -> str:
    """What an answer would bear on, in the light of what is open."""
    if check.safety:
        return "safety first: this could harm you or the piece."
    table = check.table("process")
    if table is not None and verdict is not None:
        pair = _told_apart(table.rows, verdict.reading)
        if pair:
            return f"it tells {pair[0]} from {pair[1]}."
    for over, says in BEARS.items():
        if check.table(over) is not None:
            return says
    if check.dates:
        return "it helps to date the piece."
    if check.defect is not None:
        return "it counts for condition and price."
    return "it says what the piece is."


def _told_apart(rows: Mapping[str, Sequence[float]], reading: Reading) -> tuple[str, str] | None:
    """The two likeliest families that the answers of a check tell apart."""
    chances = reading.processes
    family = {one.id: one.family for one in reading.joint.frame.processes}
    likely = sorted((word for word in chances if word in rows), key=lambda word: -chances[word])
    for place, one in enumerate(likely[:FEW]):
        for other in likely[place + 1 : FEW]:
            pairs = zip(rows[one], rows[other], strict=True)
            if family[one] != family[other] and any(max(p) > TELLING * min(p) for p in pairs):
                return family[one], family[other]
    return None
