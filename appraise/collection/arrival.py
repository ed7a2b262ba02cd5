"""What arrived against what was claimed: words and pictures first, then the piece in hand."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import field, replace

from appraise.base.dataclass import dataclass
from appraise.knowledge.records import Check, Knowledge
from appraise.reading.condition import GRADES, Fault
from appraise.reading.evidence import Evidence
from appraise.reading.reading import Reading, read
from appraise.records.piece import CLAIMED, IN_HAND, OWN, SELLER, UNTOLD, Finding, Piece

MUCH, SOME, LITTLE = "much", "some", "little"
WEIGHTS = (MUCH, SOME, LITTLE)
LIKELY = 0.5  # from which a process or a format counts as found
BEYOND = 3  # standard deviations of a plate's size, beyond which two measures are of two things
OTHER = "other"
NOT_TOLD = "not mentioned"
MENTIONED = "mentioned, without saying how bad"  # a seller's own words are not our degrees
CHANGED = ("mat", "glass", "image")
"""Parts of which another answer than a photo or the listing gave may mean an exchange."""
MOST_SEEN = 3  # findings that are told of a process
CLAIM, SIZE = "claim.", "measured."  # how ids begin of what was claimed, and of stated sizes
SETTLED_BY = {"claim.material": "case", "claim.opened": "seal"}
"""The part that, seen in hand, settles a claim."""


@dataclass(frozen=True, slots=True)
class Difference:
    """Something that is not as it was described.

    Attributes:
        what: What it is about, as 'hinge: tape on the hinge' or 'size of the plate'.
        claimed: What was said or shown; `NOT_TOLD` where damage was not mentioned.
        weight: How much it matters, one of `WEIGHTS`.
        about: The check or the stated size by which the seller said so; '' where nobody did.
    """

    what: str
    claimed: str
    found: str
    weight: str
    why: str
    about: str = ""


@dataclass(frozen=True, slots=True)
class Arrival:
    """A piece in hand beside what was claimed of it.

    Attributes:
        differences: What is not as described, what matters most first.
        agreed: Questions whose answer in hand is the one that was claimed.
        open: What was claimed or shown and is not yet checked in hand: ids of questions, of
            claims, and of stated sizes.
        claims: How many findings and sizes were claimed.
        stated: What was stated of each open claim and size, in words.
    """

    differences: tuple[Difference, ...]
    agreed: tuple[str, ...]
    open: tuple[str, ...]
    claims: int = 0
    stated: Mapping[str, str] = field(default_factory=dict)

    @property
    def matters(self) -> bool:
        """Whether anything matters much or somewhat."""
        return any(one.weight != LITTLE for one in self.differences)


def compare(claimed: Piece, found: Piece, knowledge: Knowledge) -> Arrival:
    """Compare a piece as it was described with the piece in hand.

    What was claimed is every finding of the first that is not known in hand, its sizes and named
    format; what is found is every finding of the second that is. Neither says whose fault it is.
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
    unseen = [n for n in said.findings if n not in seen.findings and not n.startswith(CLAIM)]
    stated = dict(_unsettled(said, after, knowledge))
    return Arrival(
        tuple(sorted(out, key=lambda one: WEIGHTS.index(one.weight))),
        tuple(agreed),
        (*stated, *unseen),
        len(said.findings) + len(said.measured),
        stated,
    )


def _unsettled(said: Piece, after: Reading, knowledge: Knowledge) -> Iterator[tuple[str, str]]:
    """(id, what was stated) for each claim and size that nothing seen in hand settles yet."""
    parts = {one.check.part for one in after.evidence}
    for name in (CLAIMED, *SETTLED_BY):
        answer, check = said.found(name), knowledge.checks.get(name)
        settled = bool(_telling(after)) if name == CLAIMED else SETTLED_BY[name] in parts
        if check is not None and check.index(answer) >= 0 and not settled:
            yield name, check.answers[check.index(answer)].says
    for what, stated in said.measured.items():
        if what not in after.piece.measured:
            yield f"{SIZE}{what}", stated.as_mm()
    named = knowledge.formats.get(said.named_format)
    if named is not None and not said.measured and not after.piece.measured:
        yield f"{SIZE}format", named.name


def _telling(after: Reading) -> list[Evidence]:
    """What was seen in hand of the process, one's own recognition with it."""
    return [one for one in after.evidence if one.check.table("process") and one.id != CLAIMED]


def _only(piece: Piece, wanted: Callable[[Finding], bool]) -> Piece:
    def chosen(findings: Mapping[str, Finding]) -> dict[str, Finding]:
        told = {name: one for name, one in findings.items() if one.answer != UNTOLD}
        return {name: one for name, one in told.items() if wanted(one)}

    images = tuple(replace(one, findings=chosen(one.findings)) for one in piece.images)
    return replace(piece, findings=chosen(piece.findings), images=images)


def _identity(said: Piece, after: Reading, knowledge: Knowledge) -> Iterator[Difference]:
    """The process, and what the case is made of."""
    claim = said.found("claim.process")
    seen = _telling(after)
    chance = after.families[after.family]
    known = claim in after.families and OTHER not in (claim, after.family)
    if seen and known and claim != after.family and chance >= LIKELY:
        called = {name: process.name for name, process in knowledge.processes.items()}
        names = [called.get(one, one) for one in (claim, after.family)]
        shown = _shown(seen, claim, after, knowledge)
        found = f"{names[1]} ({'; '.join(shown)})" if shown else names[1]
        yield Difference("process", names[0], found, MUCH, "The process differs.", CLAIMED)
    yield from _material(said, after, knowledge)


def _shown(
    seen: list[Evidence], claim: str, after: Reading, knowledge: Knowledge
) -> tuple[str, ...]:
    """What was seen that speaks for the process found against the one claimed, most first."""
    families = {one.id: one.family for one in after.joint.frame.processes}

    def usual(one: Evidence, family: str) -> float:
        table = one.check.table("process")
        rows = table.rows if table is not None else {}
        return max(
            (row[one.answer] for name, row in rows.items() if families.get(name) == family),
            default=0.0,
        )

    ratios = [
        (usual(one, after.family) / max(usual(one, claim), 1e-9), one)
        for one in seen
        if one.id != OWN
    ]
    telling = [pair for pair in ratios if pair[0] >= knowledge.weights.raise_ratio]
    best = sorted(telling, key=lambda pair: -pair[0])[:MOST_SEEN]
    return tuple(one.says[:1].lower() + one.says[1:] for _, one in best) or ("by eye, in hand",)


def _material(said: Piece, after: Reading, knowledge: Knowledge) -> Iterator[Difference]:
    found = after.piece.found("case.material")
    about = "claim.material" if said.found("claim.material") else "case.material"
    claim = said.found(about)
    if claim == found or claim not in knowledge.housings or found not in knowledge.housings:
        return
    names = knowledge.housings[claim].name, knowledge.housings[found].name
    if knowledge.housings[found].modern_case >= LIKELY:
        weight, why = MUCH, "The material is modern."
    else:
        weight, why = _mixed_up(claim, found, knowledge)
    yield Difference("case", *names, weight, why, _by_seller(said, about))


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
            sizes = stated.as_mm(), now.as_mm()
            yield Difference(f"size of the {what}", *sizes, SOME, why, f"{SIZE}{what}")
    best = after.formats.best
    stated_format = said.named_format or said.found("claim.format")
    other = stated_format in knowledge.formats and best not in ("", stated_format)
    if other and after.formats.probabilities[best] >= LIKELY:
        names = knowledge.formats[stated_format].name, knowledge.formats[best].name
        why = "The size of plate or card differs."
        yield Difference("format", *names, MUCH, why, f"{SIZE}format")


def _by_seller(said: Piece, name: str) -> str:
    """The id of a check where the seller gave its answer, '' where a photo showed it."""
    finding = said.findings.get(name)
    return name if finding is not None and finding.known == SELLER else ""


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
        about = _by_seller(before.piece, fault.check.id)
        claimed = told.check.answers[told.answer].says if told else NOT_TOLD
        if told and about and told.answer:
            claimed = MENTIONED
        found = fault.check.answers[fault.step].says
        part = knowledge.parts[fault.check.part].name
        yield Difference(f"{part}: {fault.defect.name}", claimed, found, weight, why, about)


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
        told = _other_answer(check, finding.answer, found, knowledge)
        yield replace(told, about=_by_seller(said, name))


def _other_answer(check: Check, claimed: str, found: str, knowledge: Knowledge) -> Difference:
    weights, part = knowledge.weights, knowledge.parts[check.part].name
    texts = [check.told(check.index(answer)) for answer in (claimed, found)]
    if check.part in CHANGED:
        weight, why = MUCH, "The part may not be the one that was shown or described."
    elif check.strength >= weights.strong_ratio:
        weight, why = MUCH, "The answer matters much for what the piece is."
    elif check.strength >= weights.raise_ratio:
        weight, why = SOME, "The answer matters for what the piece is."
    else:
        weight, why = LITTLE, "The answer matters little by itself."
    return Difference(f"{part}: {check.ask}", texts[0], texts[1], weight, why)
