"""Condition of image, package and housing by steps, graded apart and never blended.

Grade words are Good, Fair, Poor, Unacceptable (Condition, Wellcome Collection documentation), with
Excellent above them (Condition Terms and Treatment Priority, Blanton Museum of Art), given only to
what was seen in hand. How steps become words is the makers' judgement.
"""

from collections.abc import Iterable, Mapping, Sequence

from appraise.base.dataclass import dataclass
from appraise.knowledge.records import Check, Defect, Knowledge
from appraise.reading.evidence import Evidence

GRADES = ("Excellent", "Good", "Fair", "Poor", "Unacceptable")
SIDES = ("image", "package", "housing")
STABILITY = ("stable", "conditional", "active")
NOT_SEEN = "not seen"  # the grade as it is stored
UNCHECKED = "not checked"  # and as it is told


@dataclass(frozen=True, slots=True)
class Fault:
    """A defect that was found.

    Attributes:
        check: The defect's check.
        step: 1 to 3.
        says: What was seen.
        stability: 'stable', 'conditional' or 'active' at that step.
    """

    check: Check
    step: int
    says: str
    stability: str

    @property
    def defect(self) -> Defect:
        """What the knowledge says about it."""
        assert self.check.defect is not None
        return self.check.defect

    @property
    def active(self) -> bool:
        """Whether it worsens on its own in the present set-up."""
        return self.stability == "active"


@dataclass(frozen=True, slots=True)
class Side:
    """The condition of image, package or housing.

    Attributes:
        grade: A word of `GRADES`, or 'not seen'.
        worst: The worst fault, or None.
        stability: The worst stability among its faults.
        completeness: 'complete', 'incomplete' or 'not seen'.
        done, of: Checks looked at, of those that apply.
    """

    grade: str
    worst: Fault | None
    stability: str
    completeness: str
    done: int
    of: int

    @property
    def says(self) -> str:
        """The grade with its worst fault, or what there is to say without one."""
        if self.worst is not None:
            found = self.worst.defect.name
            return found if self.grade == NOT_SEEN else f"{self.grade}: {found}"
        if self.grade == NOT_SEEN:
            return "no damage found" if self.done else UNCHECKED
        return self.grade


@dataclass(frozen=True, slots=True)
class Condition:
    """The condition of a piece.

    Attributes:
        sides: By 'image', 'package', 'housing'.
        faults: Every fault found, worst first.
        factor: Share of value left, 0 to 1, from the faults found alone.
        not_seen: Ids of defect checks that were not looked at.
    """

    sides: Mapping[str, Side]
    faults: tuple[Fault, ...]
    factor: float
    not_seen: tuple[str, ...]


def read_condition(
    evidence: Sequence[Evidence], applying: Iterable[Check], knowledge: Knowledge
) -> Condition:
    """The condition from the findings on damage.

    Args:
        evidence: The findings that count.
        applying: The defect checks that make sense for this piece.
        knowledge: For the side on which each part counts, and how much of it must be seen.
    """
    found = {one.id: one for one in evidence if one.check.defect is not None}
    checks = {check.id: check for check in applying if check.defect is not None}
    checks.update({one.id: one.check for one in found.values()})
    faults = sorted(
        (_fault(one) for one in found.values() if one.answer > 0),
        key=lambda fault: (-fault.step, -STABILITY.index(fault.stability)),
    )
    mine: dict[str, list[str]] = {side: [] for side in SIDES}
    parts, half = knowledge.parts, knowledge.weights.half_seen
    for name, check in checks.items():
        mine[parts[check.part].side].append(name)
    return Condition(
        sides={
            side: _side(
                mine[side],
                found,
                [one for one in faults if parts[one.check.part].side == side],
                half,
            )
            for side in SIDES
        },
        faults=tuple(faults),
        factor=value_factor(faults),
        not_seen=tuple(name for name in checks if name not in found),
    )


def _fault(one: Evidence) -> Fault:
    assert one.check.defect is not None
    return Fault(one.check, one.answer, one.says, one.check.defect.stability[one.answer])


def _side(
    checks: Sequence[str],
    found: Mapping[str, Evidence],
    faults: Sequence[Fault],
    half_seen: float,
) -> Side:
    graded = [fault for fault in faults if not fault.defect.recorded]
    seen = [found[name] for name in checks if name in found]
    enough = len(seen) >= half_seen * len(checks)
    stability = max((one.stability for one in faults), key=STABILITY.index, default="stable")
    return Side(
        grade=grade_of(graded, seen, enough),
        worst=graded[0] if graded else None,
        stability=stability if seen else NOT_SEEN,
        completeness=_completeness(faults, bool(seen)),
        done=len(seen),
        of=len(checks),
    )


def grade_of(faults: Sequence[Fault], seen: Sequence[Evidence], enough: bool) -> str:
    """The grade word for one side's faults.

    With no fault above step 1 the word needs enough of the side to have been looked at: what was
    not seen is 'not seen', never good. From photographs alone nothing is better than Good.
    """
    if any(fault.step >= _ruinous(fault) for fault in faults):
        return "Unacceptable"
    if any(fault.step == 3 and (fault.defect.structural or fault.active) for fault in faults):
        return "Poor"
    if any(fault.step == 2 and fault.active for fault in faults):
        return "Poor"
    if any(fault.step >= 2 or fault.active for fault in faults):
        return "Fair"
    if not seen or not enough:
        return NOT_SEEN
    in_hand = all(one.finding.known == "in-hand" for one in seen)
    return "Good" if faults or not in_hand else "Excellent"


def _ruinous(fault: Fault) -> int:
    """The step from which a fault makes a side Unacceptable.

    A fault that is active at step 3 does, unless its part can simply be replaced.
    """
    defect = fault.defect
    if fault.stability == "active" and defect.reversible != "replaceable":
        return min(3, defect.unacceptable)
    return defect.unacceptable


def _completeness(faults: Sequence[Fault], seen: bool) -> str:
    if any(fault.step == 3 and not fault.defect.structural for fault in faults):
        return "incomplete"
    return "complete" if seen else NOT_SEEN


def value_factor(faults: Iterable[Fault]) -> float:
    """Share of value left: each part's worst fault in full, its others by their square root."""
    parts: dict[str, list[float]] = {}
    for fault in faults:
        parts.setdefault(fault.check.part, []).append(fault.defect.worth[fault.step])
    factor = 1.0
    for worths in parts.values():
        worst, *others = sorted(worths)
        factor *= worst
        for worth in others:
            factor *= worth**0.5
    return factor
