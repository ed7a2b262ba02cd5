"""The order in which checks stand, and which one comes next."""

from collections.abc import Iterable, Mapping, Sequence

from appraise.knowledge.records import Check, Knowledge
from appraise.records.piece import Piece
from appraise.verdict import Verdict


def by_part(checks: Iterable[Check], knowledge: Knowledge) -> tuple[Check, ...]:
    """The checks part by part, within a part as in the files."""
    place = {part: n for n, part in enumerate(knowledge.parts)}
    return tuple(sorted(checks, key=lambda check: place[check.part]))


def of_kind(kind: str, knowledge: Knowledge) -> tuple[Check, ...]:
    """Every check of a kind of piece, also those that make no sense now."""
    return by_part((one for one in knowledge.checks.values() if kind in one.kinds), knowledge)


def parts_of(checks: Sequence[Check]) -> tuple[str, ...]:
    """The parts that the checks are about, in their order."""
    return tuple(dict.fromkeys(check.part for check in checks))


def following(at: str, checks: Sequence[Check], step: int) -> str:
    """The check so many steps on, round and round."""
    names = [check.id for check in checks]
    if not names:
        return at
    if at not in names:
        return names[0]
    return names[(names.index(at) + step) % len(names)]


def next_open(at: str, checks: Sequence[Check], piece: Piece, best: Sequence[str]) -> str:
    """The check to offer next: the best one that is open, else the next open one in order."""
    names = [check.id for check in checks]
    open_ones = [name for name in names if name not in piece.findings]
    for name in best:
        if name in open_ones:
            return name
    start = names.index(at) + 1 if at in names else 0
    later = [name for name in names[start:] if name in open_ones]
    return next(iter((*later, *open_ones)), at)


def chances_of(verdict: Verdict | None) -> Mapping[str, float]:
    """Chances of processes, families and housings as last judged; empty before that."""
    if verdict is None:
        return {}
    reading = verdict.reading
    return {**reading.housings, **reading.processes, **reading.families}
