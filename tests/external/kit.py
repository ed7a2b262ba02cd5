"""What these checks share: pieces told in a line, read and judged on the shipped knowledge.

Sources are named beside each check by title and body.
"""

from collections.abc import Mapping
from datetime import date
from functools import cache
from typing import Any

from appraise.base.measures import Measure
from appraise.knowledge import Knowledge, load
from appraise.reading.condition import Fault
from appraise.reading.reading import Reading, read
from appraise.records.piece import Piece
from appraise.verdict import Verdict, judge
from appraise.verdict.warning import Warning

DAY = date(2026, 11, 25)


@cache
def shipped() -> Knowledge:
    """The knowledge as shipped, without anyone's own rows."""
    return load()


def piece(*told: str, measured: Mapping[str, str] | None = None, **fields: Any) -> Piece:
    """A piece of which so much is told: 'check answer', or 'check answer known'.

    What the knowledge does not ask of such a piece is refused: `read` would pass over a slip.
    """
    sizes = {what: Measure.parse(size) for what, size in (measured or {}).items()}
    found = Piece(measured=sizes, **fields)
    for one in told:
        name, answer, *known = one.split()
        check = shipped().checks[name]
        assert found.kind in check.kinds, one
        assert answer in [each.id for each in check.answers], one
        found = found.with_finding(name, answer, *known)
    return found


def told(*findings: str, **fields: Any) -> Reading:
    """Such a piece, read."""
    return read(piece(*findings, **fields), shipped())


def judged(*findings: str, **fields: Any) -> Verdict:
    """Such a piece, judged without a log of prices."""
    return judge(piece(*findings, **fields), shipped(), None, DAY)


def warned(verdict: Verdict) -> dict[str, Warning]:
    """Its warnings by id; of several alike the strongest."""
    return {one.id: one for one in reversed(verdict.warnings)}


def only_opened(verdict: Verdict) -> bool:
    """Whether nothing is warned of but that the package was opened, and that not strongly."""
    return all(one.id == "opened" and not one.strong for one in verdict.warnings)


def cautioned(verdict: Verdict) -> set[str]:
    """The ids of its cautions."""
    return {one.id for one in verdict.cautions}


def fault(reading: Reading, check: str) -> Fault:
    """The fault found by a check."""
    return next(one for one in reading.condition.faults if one.check.id == check)


def best(chances: Mapping[str, float]) -> str:
    """The likeliest word."""
    return max(chances, key=lambda word: chances[word])


def odds(reading: Reading, state: str = "married") -> float:
    """Odds of a state of belonging against "together"."""
    return reading.belonging[state] / reading.belonging["together"]
