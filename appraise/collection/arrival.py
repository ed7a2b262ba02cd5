"""What arrived against what was claimed: words and pictures first, then the piece in hand."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace

from appraise.base.percents import percent
from appraise.knowledge.records import Check, Knowledge
from appraise.reading.condition import GRADES, Fault
from appraise.reading.reading import Reading, read
from appraise.records.piece import UNTOLD, Finding, Piece

MUCH, SOME, LITTLE = "much", "some", "little"
WEIGHTS = (MUCH, SOME, LITTLE)
IN_HAND = "in-hand"
LIKELY = 0.5  # from which a process or a format counts as found
BEYOND = 3  # standard deviations of a plate's size, beyond which two measures are of two things
OTHER = "other"
NOT_TOLD = "not mentioned"


@dataclass(frozen=True, slots=True)
class Difference:
    """Something that is not as it was described.

    Attributes:
        what: What it is about, as 'hinge: tape on the hinge' or 'size of the plate'.
        claimed: What was said or shown; `NOT_TOLD` where damage was not mentioned.
        found: What is there.
        weight: How much it matters, one of `WEIGHTS`.
        why: Why it matters so much.
    """

    what: str
    claimed: str
    found: str
    weight: str
    why: str


@dataclass(frozen=True, slots=True)
class Arrival:
    """A piece in hand beside what was claimed of it.

    Attributes:
        differences: What is not as described, what matters most first.
        agreed: Questions whose answer in hand is the one that was claimed.
        open: Questions answered before and not yet in hand.
        claims: How many findings and sizes were claimed.
    """

    differences: tuple[Difference, ...]
    agreed: tuple[str, ...]
    open: tuple[str, ...]
    claims: int = 0

    @property
    def matters(self) -> bool:
        """Whether anything matters much or somewhat."""
        return any(one.weight != LITTLE for one in self.differences)


def compare(claimed: Piece, found: Piece, knowledge: Knowledge) -> Arrival:
    """Compare a piece as it was described with the piece in hand.

    What was claimed is every finding of the first that is not known in hand, its sizes and named
    format; what is found is every finding of the second that is. Neither says whose fault it is.

    Args:
        claimed: As bought from words and pictures.
        found: As examined after it came.
        knowledge: What the trade knows.
    """
    said = _only(claimed, lambda one: one.known != IN_HAND)
    seen = _only(found, lambda one: one.known == IN_HAND)
    before, after = read(said, knowledge), read(seen, knowledge)
    out = [
        *_identity(said, after, knowledge),
        *_sizes(said, before, after, knowledge),
        *_damage(before, after, knowledge),
        *_answers(said, seen, knowledge),
    ]
    agreed = [n for n, one in said.findings.items() if seen.found(n) == one.answer]
    unseen = [n for n in said.findings if n not in seen.findings and not n.startswith("claim.")]
    return Arrival(
        tuple(sorted(out, key=lambda one: WEIGHTS.index(one.weight))),
        tuple(agreed),
        tuple(unseen),
        len(said.findings) + len(said.measured),
    )


def _only(piece: Piece, wanted: Callable[[Finding], bool]) -> Piece:
    def chosen(findings: Mapping[str, Finding]) -> dict[str, Finding]:
        told = {name: one for name, one in findings.items() if one.answer != UNTOLD}
        return {name: one for name, one in told.items() if wanted(one)}

    images = tuple(replace(one, findings=chosen(one.findings)) for one in piece.images)
    return replace(piece, findings=chosen(piece.findings), images=images)


def _identity(said: Piece, after: Reading, knowledge: Knowledge) -> Iterator[Difference]:
    """The process, and what the case is made of."""
    claim = said.found("claim.process")
    seen = any(one.check.table("process") for one in after.evidence)
    chance = after.families[after.family]
    known = claim in after.families and OTHER not in (claim, after.family)
    if seen and known and claim != after.family and chance >= LIKELY:
        found = f"{after.family}, {percent(chance)} by what was seen in hand"
        yield Difference("process", claim, found, MUCH, "The process differs.")
    yield from _material(said, after, knowledge)


def _material(said: Piece, after: Reading, knowledge: Knowledge) -> Iterator[Difference]:
    found = after.piece.found("case.material")
    claim = said.found("claim.material") or said.found("case.material")
    if claim == found or claim not in knowledge.housings or found not in knowledge.housings:
        return
    names = knowledge.housings[claim].name, knowledge.housings[found].name
    if knowledge.housings[found].modern_case >= LIKELY:
        weight, why = MUCH, "The material is modern."
    else:
        weight, why = _mixed_up(claim, found, knowledge)
    yield Difference("case", *names, weight, why)


def _mixed_up(claim: str, found: str, knowledge: Knowledge) -> tuple[str, str]:
    """How much a wrong word for the case matters: little where the words are often mixed up."""
    check = knowledge.checks.get("claim.material")
    table = check.table("housing") if check else None
    if check is None or table is None:
        return SOME, "The material differs."
    place = check.index(claim)
    ratio = table.rows[claim][place] / table.rows[found][place]
    if ratio < knowledge.weights.raise_ratio:
        return LITTLE, "The two are often mixed up."
    much = ratio >= knowledge.weights.strong_ratio
    return (MUCH if much else SOME), "The material differs."


def _sizes(
    said: Piece, before: Reading, after: Reading, knowledge: Knowledge
) -> Iterator[Difference]:
    """Sizes that are further from those stated than measuring errs, and another format."""
    named = knowledge.formats.get(said.named_format or before.formats.best)
    room = BEYOND * (named.tolerance if named else 0.0)
    for what, stated in said.measured.items():
        now = after.piece.measured.get(what)
        if now is None or now == stated:
            continue
        gaps = [abs(float(a - b)) for a, b in zip(now.sides, stated.sides, strict=False)]
        if gaps and max(gaps) > room:
            why = (
                f"The difference is {max(gaps):.0f} mm; measuring errors are less than {room:.0f}."
            )
            yield Difference(f"size of the {what}", stated.as_mm(), now.as_mm(), SOME, why)
    best = after.formats.best
    stated_format = said.named_format or said.found("claim.format")
    other = stated_format in knowledge.formats and best not in ("", stated_format)
    if other and after.formats.probabilities[best] >= LIKELY:
        names = knowledge.formats[stated_format].name, knowledge.formats[best].name
        yield Difference("format", *names, MUCH, "The size of plate or card differs.")


def _damage(before: Reading, after: Reading, knowledge: Knowledge) -> Iterator[Difference]:
    """Damage that is worse than was described, or was not mentioned."""
    readings = (before, *(reading for _, reading in before.images))
    told_of = [one for reading in readings for one in reading.evidence if one.check.defect]
    described = {one.id: one for one in sorted(told_of, key=lambda one: one.answer)}
    for fault in after.condition.faults:
        told = described.get(fault.check.id)
        if told is not None and told.answer >= fault.step:
            continue
        weight, why = _gravity(fault, before, after, knowledge)
        claimed = told.check.answers[told.answer].says if told else NOT_TOLD
        found = fault.check.answers[fault.step].says
        part = knowledge.parts[fault.check.part].name
        yield Difference(f"{part}: {fault.defect.name}", claimed, found, weight, why)


def _gravity(
    fault: Fault, before: Reading, after: Reading, knowledge: Knowledge
) -> tuple[str, str]:
    """How much damage that was not described matters, and why."""
    name = knowledge.parts[fault.check.part].side
    was, now = (one.condition.sides.get(name) for one in (before, after))
    if fault.active:
        return MUCH, "Active: it will get worse."
    if fault.step == 3 or fault.step >= fault.defect.unacceptable:
        return MUCH, "The damage is severe."
    graded = was and now and now.worst == fault and was.grade in GRADES and now.grade in GRADES
    if graded and was and now and GRADES.index(now.grade) > GRADES.index(was.grade):
        return MUCH, f"The {name} was {was.grade} as described and is {now.grade}."
    return (
        (SOME, "The damage is visible.") if fault.step == 2 else (LITTLE, "The damage is slight.")
    )


def _answers(said: Piece, seen: Piece, knowledge: Knowledge) -> Iterator[Difference]:
    """Other questions to which the piece in hand gives another answer."""
    for name, finding in said.findings.items():
        check, found = knowledge.checks.get(name), seen.found(name)
        if check is None or not found or found == finding.answer:
            continue
        if check.defect is not None or name == "case.material" or name.startswith("claim."):
            continue
        yield _other_answer(check, finding.answer, found, knowledge)


def _other_answer(check: Check, claimed: str, found: str, knowledge: Knowledge) -> Difference:
    weights, part = knowledge.weights, knowledge.parts[check.part].name
    texts = [check.told(check.index(answer)) for answer in (claimed, found)]
    if check.strength >= weights.strong_ratio:
        weight, why = MUCH, "The answer matters much for what the piece is."
    elif check.strength >= weights.raise_ratio:
        weight, why = SOME, "The answer matters for what the piece is."
    else:
        weight, why = LITTLE, "The answer matters little by itself."
    return Difference(f"{part}: {check.ask}", texts[0], texts[1], weight, why)
