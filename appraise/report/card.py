"""The pocket card: the most telling checks of a kind on one printable page."""

import textwrap
from itertools import groupby

from appraise.knowledge.records import Check, Knowledge
from appraise.reading.factors import answer_rows, answer_years, axes_of, reference
from appraise.reading.frame import Frame, frame_of
from appraise.reading.information import information as bits
from appraise.report.own_rows import mark

ROOM = 58  # lines that a printed page holds beside head and foot
WIDTH = 78
MIDDLING = 0.1  # bits: what looking for damage counts as
HANDLING = 10.0  # seconds that every check costs beside its own
SAFETY = "Closed it stays: nothing here needs a package opened, wiped, wetted or heated."


def card_checks(knowledge: Knowledge, kind: str) -> tuple[Check, ...]:
    """The checks that fit on the page, in the order of the files.

    Those that guard people or the piece come first, then the most telling for the seconds they
    take; a check that only a conservator should make is never among them.
    """
    able = [c for c in knowledge.checks.values() if _fits(c, kind)]
    frame = frame_of(knowledge, kind, "unknown")
    ranked = sorted(able, key=lambda check: (not check.safety, -_worth(check, frame)))
    chosen: list[Check] = []
    for check in ranked:
        if _lines(knowledge, [*chosen, check]) <= ROOM:
            chosen.append(check)
    names = {check.id for check in chosen}
    return tuple(
        sorted((c for c in able if c.id in names), key=lambda check: _order(knowledge, check))
    )


def _fits(check: Check, kind: str) -> bool:
    """Whether a check belongs on the card: safe, of the kind, and about the thing itself."""
    return kind in check.kinds and check.risk != "conservator" and check.part != "claim"


def card_text(knowledge: Knowledge, kind: str) -> str:
    """The card as text for a printer: one page, no more than 66 lines."""
    lines = [f"{kind}: what to look at", SAFETY, ""]
    for part, checks in groupby(card_checks(knowledge, kind), key=lambda check: check.part):
        lines.append(knowledge.parts[part].name)
        for check in checks:
            lines += _row(check, knowledge)
    return "\n".join(lines) + "\n"


def _worth(check: Check, frame: Frame) -> float:
    """Bits that a check tells on average for the seconds it takes; damage counts as a few."""
    told = max(information(check, frame), MIDDLING if check.defect else 0.0)
    return told / (check.seconds + HANDLING)


def information(check: Check, frame: Frame) -> float:
    """Mutual information in bits between a check's answer and what it bears on, before looking.

    The measure of Lindley, "On a Measure of the Information Provided by an Experiment", Annals of
    Mathematical Statistics 27, 1956.
    """
    if check.dates:
        return bits(frame.years * answer_years(frame, check.id))
    axes = axes_of(check, frame)
    return bits(answer_rows(frame, check.id) * reference(frame, axes)) if axes else 0.0


def _order(knowledge: Knowledge, check: Check) -> tuple[int, int]:
    parts, names = list(knowledge.parts), list(knowledge.checks)
    return parts.index(check.part), names.index(check.id)


def _row(check: Check, knowledge: Knowledge) -> list[str]:
    """A check on the card; a row of the user's own says so."""
    lead = "  [ ] " if not check.safety else "  [!] "
    told = check.ask + mark(knowledge, check.id)
    return textwrap.wrap(told, WIDTH, initial_indent=lead, subsequent_indent=" " * 6)


def _lines(knowledge: Knowledge, checks: list[Check]) -> int:
    return sum(len(_row(check, knowledge)) for check in checks) + len(
        {check.part for check in checks}
    )
