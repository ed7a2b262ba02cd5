"""The condition of a piece: by sides, part by part, what is getting worse, what was done to it."""

from collections.abc import Iterator

from appraise.documents import words
from appraise.documents.document import Block, Bullets, Facts, Paragraph
from appraise.documents.reports.answers import AnswerTold, part_name, side_name
from appraise.documents.reports.answers import told as answers
from appraise.documents.reports.report_input import ReportInput
from appraise.knowledge.records import Check
from appraise.reading.condition import Fault

STEP = (
    "Severity: 1 slight to 3 severe. Active: getting worse now. May get worse: if badly stored or "
    "handled."
)
UNSEEN = "not checked"


def condition(matter: ReportInput) -> Iterator[Block]:
    """The condition of image, package and case, and every fault."""
    found = matter.verdict.reading.condition
    yield Facts.of(
        (side_name(matter, name), words.condition(side))
        for name, side in found.sides.items()
        if side.of
    )
    if found.faults:
        warned = " ".join(one.says for one in matter.verdict.warnings) if matter.steps else ""
        yield Bullets(tuple(_fault_line(matter, one, warned) for one in found.faults))
        yield Paragraph(STEP, "quiet")
    if matter.priced and any(side.done for side in found.sides.values()):
        kept = matter.verdict.kept
        yield Paragraph(f"Price factor x{kept:.2f} against a typical example (a judgement).")


def _fault_line(matter: ReportInput, one: Fault, warned: str) -> str:
    """A fault, and what never to do to it where no warning above says so."""
    told = f"{part_name(matter, one.check.id)}: {_fault(one)}."
    never = one.defect.never
    return f"{told} {never}" if never and never not in warned else told


def _fault(one: Fault) -> str:
    return f"{one.defect.name}, {one.says} ({words.severity(one)})"


def active(matter: ReportInput) -> Iterator[Block]:
    """What is getting worse by itself, with what to do and what never."""
    found = matter.verdict.reading.condition
    faults = [one for one in found.faults if one.active]
    for one in faults:
        part = part_name(matter, one.check.id)
        yield Paragraph(f"{part[0].upper()}{part[1:]}: {_fault(one)}.", "warn")
        yield Facts.of((("do", one.defect.do), ("never", one.defect.never)))
    if not faults:
        done, of = (sum(getattr(side, n) for side in found.sides.values()) for n in ("done", "of"))
        seen = f"None found in the {done} of {of} places checked."
        yield Paragraph(seen if done else "The condition is not checked yet.")


def by_part(matter: ReportInput) -> Iterator[Block]:
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
        for lead, names in (("no", looked.get(part)), (UNSEEN, missed.get(part))):
            says += [f"{lead}: {', '.join(names)}"] if names else []
        if says:
            rows.append((row.name, tuple(says)))
    if rows:
        yield Facts.of(rows)
        yield Paragraph(STEP, "quiet")


def _defect(check: Check) -> str:
    return check.defect.name if check.defect else check.ask


def _answer(one: AnswerTold) -> str:
    known = words.KNOWN[one.finding.known]
    if not one.place:
        return f"{_defect(one.check)} ({known})"
    defect = one.check.defect
    stability = f", {words.SEVERITY[defect.stability[one.place]]}" if defect else ""
    says = one.check.answers[one.place].says
    how = f"severity {one.place} of {words.SEVEREST}{stability}, {known}"
    return f"{_defect(one.check)}: {says} ({how})"


_NO_PART = ("claim", "own")
"""What is asked about beside the piece itself: what the seller says, and the owner's own eye."""


def unseen(matter: ReportInput) -> Iterator[Block]:
    """What was never checked or shown."""
    reading = matter.verdict.reading
    parts = matter.knowledge.parts
    looked = [(parts[n].name, *row) for n, row in reading.progress.items() if n not in _NO_PART]
    never = [name for name, done, of in looked if of and not done]
    some = [f"{name} {done} of {of}" for name, done, of in looked if 0 < done < of]
    rows = (
        ("parts not checked", tuple(never)),
        ("checked in part", tuple(some)),
        ("views not shown", matter.piece.not_shown),
    )
    yield Facts.of((name, ", ".join(says)) for name, says in rows)
    yield Paragraph("A part that is not checked is not known to be sound.", "quiet")


def for_conservators(matter: ReportInput) -> Iterator[Block]:
    """Questions that only a conservator should answer, since they need the package opened."""
    piece = matter.piece
    asks = tuple(
        check.ask
        for check in matter.knowledge.checks.values()
        if check.risk == "conservator" and piece.kind in check.kinds and not piece.found(check.id)
    )
    if asks:
        yield Bullets(asks)
