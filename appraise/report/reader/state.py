"""The condition of a piece: by sides, part by part, what is getting worse, what was done to it."""

from collections.abc import Iterator

from appraise.knowledge.records import Check
from appraise.reading.condition import NOT_SEEN, Fault, Side
from appraise.report.reader.document import Block, Bullets, Facts, Paragraph
from appraise.report.reader.matter import Matter
from appraise.report.reader.say import KNOWN, Told, part_name, side_name
from appraise.report.reader.say import told as answers

STEP = "Steps of damage run from 1, slight, to 3, heavy. Active damage gets worse by itself."
UNSEEN = "not looked at"


def condition(matter: Matter) -> Iterator[Block]:
    """The condition of picture, package and housing, and every fault."""
    found = matter.verdict.reading.condition
    yield Facts(
        tuple(
            (side_name(matter, name), (_side(side),))
            for name, side in found.sides.items()
            if side.of
        )
    )
    if found.faults:
        yield Bullets(
            tuple(f"{part_name(matter, one.check.id)}: {_fault(one)}" for one in found.faults)
        )
        yield Paragraph(STEP, "quiet")


def _side(side: Side) -> str:
    """Its grade, and how much of it was looked at where the grade does not say so."""
    counted = side.grade == NOT_SEEN and side.worst is None and side.done
    return side.says if counted else f"{side.says} ({side.done} of {side.of} places looked at)"


def _fault(one: Fault) -> str:
    return f"{one.defect.name}, {one.says} (step {one.step}, {one.stability})"


def active(matter: Matter) -> Iterator[Block]:
    """What is getting worse by itself, with what to do and what never."""
    found = matter.verdict.reading.condition
    faults = [one for one in found.faults if one.active]
    for one in faults:
        part = part_name(matter, one.check.id)
        yield Paragraph(f"{part[0].upper()}{part[1:]}: {_fault(one)}.", "warn")
        yield Facts((("do", (one.defect.do,)), ("never", (one.defect.never,))))
    if not faults:
        done, of = (sum(getattr(side, n) for side in found.sides.values()) for n in ("done", "of"))
        seen = f"None was found in the {done} of {of} places looked at."
        yield Paragraph(seen if done else "Nobody has looked for damage yet.")


def by_part(matter: Matter) -> Iterator[Block]:
    """Every part with its faults, where no damage was found, and where nobody looked."""
    found: dict[str, list[str]] = {}
    looked: dict[str, list[str]] = {}
    for one in answers(matter):
        if one.check.defect is not None:
            book = found if one.place else looked
            book.setdefault(one.check.part, []).append(_answer(one))
    missed: dict[str, list[str]] = {}
    for name in matter.verdict.reading.condition.not_seen:
        check = matter.knowledge.checks[name]
        missed.setdefault(check.part, []).append(_defect(check))
    rows = []
    for part, row in matter.knowledge.parts.items():
        says = list(found.get(part, []))
        for lead, names in (("none of", looked.get(part)), (UNSEEN, missed.get(part))):
            says += [f"{lead}: {', '.join(names)}"] if names else []
        if says:
            rows.append((row.name, tuple(says)))
    if rows:
        yield Facts(tuple(rows))
        yield Paragraph(STEP, "quiet")


def _defect(check: Check) -> str:
    return check.defect.name if check.defect else check.ask


def _answer(one: Told) -> str:
    known = KNOWN[one.finding.known]
    if not one.place:
        return f"{_defect(one.check)} ({known})"
    defect = one.check.defect
    stability = f", {defect.stability[one.place]}" if defect else ""
    says = one.check.answers[one.place].says
    return f"{_defect(one.check)}: {says} (step {one.place}{stability}, {known})"


_NO_PART = ("claim", "own")
"""What is asked about beside the piece itself: what the seller says, and the owner's own eye."""


def unseen(matter: Matter) -> Iterator[Block]:
    """What was never looked at or shown."""
    reading = matter.verdict.reading
    parts = matter.knowledge.parts
    looked = [(parts[n].name, *row) for n, row in reading.progress.items() if n not in _NO_PART]
    never = [name for name, done, of in looked if of and not done]
    some = [f"{name} {done} of {of}" for name, done, of in looked if 0 < done < of]
    rows = (
        ("parts never looked at", tuple(never)),
        ("looked at in part", tuple(some)),
        ("sides never shown", matter.piece.not_shown),
    )
    told = tuple((name, (", ".join(says),)) for name, says in rows if says)
    if told:
        yield Facts(told)
    yield Paragraph("What was not looked at is not known to be sound.", "quiet")


def for_conservators(matter: Matter) -> Iterator[Block]:
    """Questions that only a conservator should answer, since they need the package opened."""
    piece = matter.piece
    asks = tuple(
        check.ask
        for check in matter.knowledge.checks.values()
        if check.risk == "conservator" and piece.kind in check.kinds and not piece.found(check.id)
    )
    if asks:
        yield Bullets(asks)
