"""The pocket card: the most telling checks of a kind on one printable page."""

import textwrap
from collections import Counter
from collections.abc import Sequence
from itertools import groupby

from appraise.documents.own_rows import mark
from appraise.inquiry.telling import CheckValue, loss, spread, worth
from appraise.knowledge.records import Check, Knowledge
from appraise.reading.frame import frame_of

ROOM = 62  # lines of a printed page that the checks and their headings may take
DAMAGE_ROOM = 12  # lines of them that damage may take
WIDTH = 78
IDLE = ("claim", "own")  # parts that are not the thing itself: what was said, what one recognises
CLOSED = "Keep it closed. Nothing here needs opening, wiping, wetting or heating."
DAMAGE = "MOST COSTLY DAMAGE"
PRICE = "PRICES follow these most"
ALONE = "one look each"


def card_checks(knowledge: Knowledge, kind: str) -> tuple[Check, ...]:
    """The checks that fit on the page, in the order in which they stand on it.

    First those that tell most of what the piece is, then the damage that costs most, each for the
    seconds it takes: the part with the most telling check leads. Last stand image quality and how
    well the sitter is identified, which tell nothing of the piece and much of its price. A check
    that only a conservator should make is never among them.
    """
    telling, damage, priced = sections(knowledge, kind)
    return (*telling, *damage, *priced)


def card_text(knowledge: Knowledge, kind: str) -> str:
    """The card as text for a printer: one page, no more than 66 lines."""
    telling, damage, priced = sections(knowledge, kind)
    lines = [f"{kind}: checks", CLOSED, "", *_written(telling, knowledge)]
    if damage:
        lines += [DAMAGE, *_written(damage, knowledge)]
    if priced:
        lines += [PRICE, *_listed(priced, knowledge)]
    return "\n".join(lines) + "\n"


def sections(knowledge: Knowledge, kind: str) -> tuple[tuple[Check, ...], ...]:
    """The checks that tell most, the damage that costs most, and what prices follow."""
    frame = frame_of(knowledge, kind, "unknown")
    able = [check for check in knowledge.checks.values() if _fits(check, kind)]
    priced = tuple(one for one in able if one.feature)
    telling = spread(
        [CheckValue(one, worth(one, frame)) for one in able if not one.defect and not one.feature],
        knowledge.weights.group_rest,
    )
    damage = spread([CheckValue(one, loss(one, frame)) for one in able if one.defect], 1.0)
    worst = _chosen(damage, knowledge, DAMAGE_ROOM)
    taken = len(_written(worst, knowledge)) + len(_listed(priced, knowledge))
    best = _chosen(telling, knowledge, ROOM - 1 - bool(priced) - taken)
    return best, worst, priced


def _fits(check: Check, kind: str) -> bool:
    """Whether a check belongs on the card: safe, of the kind, and about the thing itself."""
    return kind in check.kinds and check.risk != "conservator" and check.part not in IDLE


def _chosen(ranked: Sequence[CheckValue], knowledge: Knowledge, room: int) -> tuple[Check, ...]:
    """The first of the checks that fit into so many lines, the part of the first first."""
    chosen: list[Check] = []
    for told in ranked:
        if told.worth > 0 and len(_written(_by_part([*chosen, told.check]), knowledge)) <= room:
            chosen.append(told.check)
    return _by_part(chosen)


def _by_part(checks: Sequence[Check]) -> tuple[Check, ...]:
    """The checks part by part, the part of the first first, parts with a single one last."""
    parts = list(dict.fromkeys(check.part for check in checks))
    asked = Counter(check.part for check in checks)
    single = [part for part in parts[1:] if asked[part] == 1]
    order = [part for part in parts if part not in single] + single
    return tuple(sorted(checks, key=lambda check: order.index(check.part)))


def _written(checks: Sequence[Check], knowledge: Knowledge) -> list[str]:
    """The checks under the names of their parts; those that stand alone share one heading."""
    asked = Counter(check.part for check in checks)
    first = checks[0].part if checks else ""

    def heading(check: Check) -> str:
        alone = asked[check.part] == 1 and check.part != first
        return ALONE if alone else knowledge.parts[check.part].name

    lines = []
    for name, those in groupby(checks, key=heading):
        lines.append(name)
        for check in those:
            lines += _row(check, knowledge)
    return lines


def _listed(checks: Sequence[Check], knowledge: Knowledge) -> list[str]:
    """Checks without headings for their parts."""
    return [line for check in checks for line in _row(check, knowledge)]


def _row(check: Check, knowledge: Knowledge) -> list[str]:
    """A check on the card; a row of the user's own says so."""
    lead = "  [!] " if check.safety else "  [ ] "
    told = check.ask + mark(knowledge, check.id)
    return textwrap.wrap(told, WIDTH, initial_indent=lead, subsequent_indent=" " * 6)
