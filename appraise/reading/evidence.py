"""Findings as evidence: which count, and how far each is believed."""

from collections.abc import Mapping
from dataclasses import dataclass

from appraise.knowledge.records import Check, Knowledge
from appraise.piece.records import UNTOLD, Finding, Piece


@dataclass(frozen=True, slots=True)
class Evidence:
    """One finding that counts.

    Attributes:
        check: The check.
        answer: The place of the answer among its answers.
        finding: The finding as made.
        belief: The reliability r with which it enters, group weight included, 0 to 1.
    """

    check: Check
    answer: int
    finding: Finding
    belief: float

    @property
    def id(self) -> str:
        """The check's id."""
        return self.check.id

    @property
    def says(self) -> str:
        """The answer's words."""
        return self.check.answers[self.answer].says


def gather(piece: Piece, knowledge: Knowledge) -> tuple[Evidence, ...]:
    """The findings of a piece that count, in the order of the knowledge files.

    Left out: `cannot-tell`, checks of another kind or that make no sense after another answer,
    checks of fit and seal on a conserved piece, and the dates of parts that are renewed, absent
    or modern. Within an evidence group the check of greatest strength enters in full and the
    others with the group's rest; ties go to the order of the files, never to that of the findings.
    """
    kept = _kept(piece.findings, piece, knowledge)
    undated = {one.part for one, index, _ in kept if one.answers[index].undates}
    kept = [row for row in kept if not (row[0].dates and row[0].part in undated)]
    leaders = _leaders([check for check, _, _ in kept])
    weights = knowledge.weights
    found = []
    for check, index, finding in kept:
        believed = weights.reliability[finding.known][_sort(check, index, finding)]
        rest = 1.0 if leaders.get(check.group, check.id) == check.id else weights.group_rest
        found.append(Evidence(check, index, finding, believed * rest))
    return tuple(found)


def _kept(
    findings: Mapping[str, Finding], piece: Piece, knowledge: Knowledge
) -> list[tuple[Check, int, Finding]]:
    kept = []
    for name, check in knowledge.checks.items():
        finding = findings.get(name)
        if finding is None or finding.answer == UNTOLD or piece.kind not in check.kinds:
            continue
        if (piece.conserved and check.fit) or not makes_sense(check, piece):
            continue
        index = check.index(finding.answer)
        if index >= 0:
            kept.append((check, index, finding))
    return kept


def _leaders(checks: list[Check]) -> dict[str, str]:
    """The check that leads each evidence group."""
    leaders: dict[str, Check] = {}
    for check in checks:
        if not check.group:
            continue
        leader = leaders.get(check.group)
        if leader is None or check.strength > leader.strength:
            leaders[check.group] = check
    return {group: check.id for group, check in leaders.items()}


def _sort(check: Check, answer: int, finding: Finding) -> str:
    if finding.admitted:
        return "interest"
    return "absence" if check.answers[answer].absence else check.sort


def makes_sense(check: Check, piece: Piece) -> bool:
    """Whether the answers given so far leave a check its sense; an open question leaves it."""
    return all(
        piece.found(other) in ("", UNTOLD, *answers) for other, answers in check.when.items()
    )
