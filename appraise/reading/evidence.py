"""Findings as evidence: which count, and how far each is believed."""

from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from typing import NamedTuple

from appraise.knowledge.records import Check, Knowledge, Weights
from appraise.reading.formats import sizes_known
from appraise.records.piece import UNTOLD, Finding, Piece

Kept = tuple[Check, int, Finding]
NOT_ASKED = Finding("", UNTOLD, "in-hand")


class Evidence(NamedTuple):
    """One finding that counts; a tuple, since sixty of them are made at every answer.

    Attributes:
        check: The check.
        answer: The place of the answer among its answers.
        finding: The finding as made.
        leads: Whether it leads its evidence group, or stands alone.
        silent: It is on the record and bears on nothing: what a conservator changed says nothing of
            how the piece came together.
    """

    check: Check
    answer: int
    finding: Finding
    leads: bool = True
    silent: bool = False

    @property
    def id(self) -> str:
        """The check's id."""
        return self.check.id

    @property
    def says(self) -> str:
        """The answer in words that stand alone."""
        return self.check.told(self.answer)


def gather(piece: Piece, knowledge: Knowledge) -> tuple[Evidence, ...]:
    """The findings of a piece that count, in the order of the knowledge files.

    Left out: `cannot-tell`, checks of another kind or that make no sense after another answer, a
    comparison by eye of what was measured, and the dates of parts that are renewed, absent or
    modern. Checks of fit and seal on a conserved piece are on the record and bear on nothing.
    Within an evidence group the check of greatest strength enters in full and the others with the
    group's rest; ties go to the order of the files, never to that of the findings. An answer that
    names no style leads only where no other of the group names one.
    """
    kept = _kept(with_implied(piece, knowledge), piece, knowledge)
    undated = {one.part for one, index, _ in kept if one.answers[index].undates}
    if undated:
        kept = [row for row in kept if not (row[0].dates and row[0].part in undated)]
    conserved = piece.conserved
    leaders = _leaders([row for row in kept if not row[0].fit] if conserved else kept)
    return tuple(
        [
            Evidence(
                check,
                index,
                finding,
                leaders.get(check.group, check.id) == check.id,
                conserved and check.fit,
            )
            for check, index, finding in kept
        ]
    )


def with_implied(piece: Piece, knowledge: Knowledge) -> Mapping[str, Finding]:
    """The findings, and those that follow from them where nobody was asked for these."""
    found, implying = dict(piece.findings), _implying(knowledge)
    for name in [name for name in piece.findings if name in implying]:
        finding = piece.findings[name]
        implied = implying[name].get(finding.answer, {})
        for other, answer in implied.items():
            if found.get(other, NOT_ASKED).answer == UNTOLD:
                found[other] = Finding(other, answer, finding.known, finding.admitted)
    return found


@lru_cache(maxsize=8)
def _implying(knowledge: Knowledge) -> dict[str, dict[str, Mapping[str, str]]]:
    """By check and answer, what follows from it; checks from which nothing follows are left out."""
    rows = {
        name: {one.id: one.implies for one in check.answers if one.implies}
        for name, check in knowledge.checks.items()
    }
    return {name: row for name, row in rows.items() if row}


def belief(check: Check, answer: int, finding: Finding, leads: bool, weights: Weights) -> float:
    """The reliability r with which an answer enters; less where another leads its group.

    An answer that names no style is believed no more than a little. Of a group whose fact is
    weighed once, all but the leader are believed nothing.
    """
    believed = weights.reliability[finding.known][_sort(check, answer, finding)]
    if check.answers[answer].unnamed:
        believed = min(believed, weights.unnamed)
    if leads:
        return believed
    return 0.0 if check.group in weights.once else believed * weights.group_rest


def leader_of(group: str, checks: Iterable[Check]) -> Check | None:
    """The check that leads an evidence group: the strongest, the first in the files for ties."""
    mates = [check for check in checks if check.group == group]
    return max(mates, key=lambda check: check.strength, default=None)


def _kept(findings: Mapping[str, Finding], piece: Piece, knowledge: Knowledge) -> list[Kept]:
    kept, senseless, checks = list[Kept](), without_sense(piece, knowledge), knowledge.checks
    for name in sorted(findings.keys() & checks.keys(), key=order_of(knowledge).__getitem__):
        check, finding = checks[name], findings[name]
        index = check.index(finding.answer)
        if index < 0 or finding.answer == UNTOLD or piece.kind not in check.kinds:
            continue
        if name in senseless or (check.sizes and sizes_known(piece)):
            continue
        kept.append((check, index, finding))
    return kept


@lru_cache(maxsize=8)
def order_of(knowledge: Knowledge) -> Mapping[str, int]:
    """The place of each check in the order of the knowledge files."""
    return {name: place for place, name in enumerate(knowledge.checks)}


def _leaders(kept: Sequence[Kept]) -> dict[str, str]:
    """The check that leads each evidence group, from checks and their answers."""
    groups: dict[str, list[Kept]] = {}
    for one in kept:
        if group := one[0].group:
            groups.setdefault(group, []).append(one)
    return {
        group: (mates[0][0] if len(mates) == 1 else _strongest(mates)).id
        for group, mates in groups.items()
    }


def _strongest(found: Sequence[Kept]) -> Check:
    """The strongest of the checks that tell something, the first of them for ties."""
    told = telling([(check, answer) for check, answer, _ in found])
    return max((check for check, _ in told), key=lambda check: check.strength)


def telling(found: Sequence[tuple[Check, int]]) -> Sequence[tuple[Check, int]]:
    """The checks whose answers name something; all of them where none does."""
    return [one for one in found if not one[0].answers[one[1]].unnamed] or found


def _sort(check: Check, answer: int, finding: Finding) -> str:
    if finding.admitted:
        return "interest"
    return "absence" if check.answers[answer].absence else check.sort


def without_sense(piece: Piece, knowledge: Knowledge) -> frozenset[str]:
    """The checks that the answers given so far leave no sense; an open question leaves it."""
    found = frozenset[str]()
    for other, (rows, hanging) in _hanging(knowledge).items():
        told = piece.found(other)
        if told and told != UNTOLD:
            found |= rows.get(told, hanging)
    return found


@lru_cache(maxsize=8)
def _hanging(
    knowledge: Knowledge,
) -> dict[str, tuple[dict[str, frozenset[str]], frozenset[str]]]:
    """By check on which others hang, those that its answers take the sense from, and them all."""
    hanging: dict[str, list[Check]] = {}
    for check in knowledge.checks.values():
        for other in check.when:
            hanging.setdefault(other, []).append(check)
    return {
        other: (
            {
                answer: frozenset(check.id for check in checks if answer not in check.when[other])
                for answer in {answer for check in checks for answer in check.when[other]}
            },
            frozenset(check.id for check in checks),
        )
        for other, checks in hanging.items()
    }
