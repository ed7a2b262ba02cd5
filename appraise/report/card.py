"""The pocket card: the most telling checks of a kind on one printable page."""

import textwrap
from collections.abc import Sequence
from itertools import groupby

from appraise.knowledge.records import Check, Knowledge
from appraise.reading.frame import frame_of
from appraise.reading.telling import Told, loss, spread, worth
from appraise.report.own_rows import mark

ROOM = 62  # lines of a printed page that the checks and their headings may take
DAMAGE_ROOM = 12  # lines of them that damage may take
WIDTH = 78
IDLE = ("claim", "own")  # parts that are not the thing itself: what was said, what one recognises
CLOSED = "Leave it closed: nothing here needs a package opened, wiped, wetted or heated."
DAMAGE = "DAMAGE that costs most"


def card_checks(knowledge: Knowledge, kind: str) -> tuple[Check, ...]:
    """The checks that fit on the page, in the order in which they stand on it.

    First those that tell most of what the piece is, then the damage that costs most, each for the
    seconds it takes: the part with the most telling check leads. A check that only a conservator
    should make is never among them.
    """
    telling, damage = _sections(knowledge, kind)
    return (*telling, *damage)


def card_text(knowledge: Knowledge, kind: str) -> str:
    """The card as text for a printer: one page, no more than 66 lines."""
    telling, damage = _sections(knowledge, kind)
    lines = [f"{kind}: what to look at", CLOSED, "", *_written(telling, knowledge)]
    if damage:
        lines += [DAMAGE, *_written(damage, knowledge)]
    return "\n".join(lines) + "\n"


def _sections(knowledge: Knowledge, kind: str) -> tuple[tuple[Check, ...], tuple[Check, ...]]:
    frame = frame_of(knowledge, kind, "unknown")
    able = [check for check in knowledge.checks.values() if _fits(check, kind)]
    telling = spread(
        [Told(one, worth(one, frame)) for one in able if not one.defect],
        knowledge.weights.group_rest,
    )
    damage = spread([Told(one, loss(one, frame)) for one in able if one.defect], 1.0)
    worst = _chosen(damage, knowledge, DAMAGE_ROOM)
    best = _chosen(telling, knowledge, ROOM - 1 - len(_written(worst, knowledge)))
    return best, worst


def _fits(check: Check, kind: str) -> bool:
    """Whether a check belongs on the card: safe, of the kind, and about the thing itself."""
    return kind in check.kinds and check.risk != "conservator" and check.part not in IDLE


def _chosen(ranked: Sequence[Told], knowledge: Knowledge, room: int) -> tuple[Check, ...]:
    """The first of the checks that fit into so many lines, the part of the first first."""
    chosen: list[Check] = []
    for told in ranked:
        if told.worth > 0 and len(_written(_by_part([*chosen, told.check]), knowledge)) <= room:
            chosen.append(told.check)
    return _by_part(chosen)


def _by_part(checks: Sequence[Check]) -> tuple[Check, ...]:
    parts = list(dict.fromkeys(check.part for check in checks))
    return tuple(sorted(checks, key=lambda check: parts.index(check.part)))


def _written(checks: Sequence[Check], knowledge: Knowledge) -> list[str]:
    lines = []
    for part, those in groupby(checks, key=lambda check: check.part):
        lines.append(knowledge.parts[part].name)
        for check in those:
            lines += _row(check, knowledge)
    return lines


def _row(check: Check, knowledge: Knowledge) -> list[str]:
    """A check on the card; a row of the user's own says so."""
    lead = "  [!] " if check.safety else "  [ ] "
    told = check.ask + mark(knowledge, check.id)
    return textwrap.wrap(told, WIDTH, initial_indent=lead, subsequent_indent=" " * 6)
