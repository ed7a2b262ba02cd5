"""The record of a piece by the categories of Object ID, and what is still missing from it.

The categories are rows of `record:` in the knowledge; this module says only where in a piece and
its verdict each answer is found. Object ID: ICOM archive of the Getty Object ID project, 1997-99.
"""

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

from appraise.base.dataclass import dataclass
from appraise.base.jsonvalues import picked
from appraise.base.percents import percent
from appraise.documents.document import Document, Fact, Facts, Paragraph, fact, section
from appraise.documents.own_rows import answered
from appraise.documents.words import KINDS, KNOWN, PURPOSE, written
from appraise.knowledge.records import Category, Knowledge
from appraise.reading.named import family_name
from appraise.records.piece import SELLER
from appraise.verdict import Verdict

if TYPE_CHECKING:
    from appraise.records.entry import Entry
    from appraise.records.owned import OwnedPiece

SCHEMA = "appraise.record/1"
LIKELY = 0.5  # from which a process is named
SAFE = "Store a copy of this and of the photos in a different place from the piece."


@dataclass(frozen=True, slots=True)
class RecordedPiece:
    """What is recorded: a judged piece, with what the log knows beside it.

    Attributes:
        pictures: How many pictures are kept of it.
        number: Its number in the log, or empty.
    """

    verdict: Verdict
    knowledge: Knowledge
    pictures: int = 0
    number: str = ""

    @classmethod
    def of(
        cls,
        verdict: Verdict,
        knowledge: Knowledge,
        entry: "Entry | None",
        kept: "OwnedPiece | None",
    ) -> "RecordedPiece":
        """A piece beside its price in the log and its record as owned, as far as there are any."""
        pictures, number = (len(entry.pictures), entry.id) if entry else (0, "")
        return cls(verdict, knowledge, pictures, (kept.number if kept else "") or number)


@dataclass(frozen=True, slots=True)
class CategoryEntry:
    """One category and what the record says under it; nothing: it is still to be answered."""

    category: Category
    says: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ObjectRecord:
    """A piece by the categories of the standard.

    Attributes:
        as_of: The day it holds for, ISO 8601.
        entries: Every category, in the order of the knowledge.
    """

    title: str
    as_of: str
    entries: tuple[CategoryEntry, ...]

    def of(self, part: str) -> tuple[CategoryEntry, ...]:
        """The entries of one part of the standard."""
        return tuple(one for one in self.entries if one.category.part == part)

    @property
    def missing(self) -> tuple[CategoryEntry, ...]:
        """What the standard asks of every object and is not answered."""
        return tuple(
            one for one in self.entries if not one.says and one.category.part != "recommended"
        )

    @property
    def state(self) -> str:
        """'complete', or how many of the categories are answered: 'incomplete: 8 of 9'."""
        asked = self.of("category")
        done = sum(1 for one in asked if one.says)
        return "complete" if done == len(asked) else f"incomplete: {done} of {len(asked)}"


def object_id(subject: RecordedPiece) -> ObjectRecord:
    """The record of a piece."""
    verdict = subject.verdict
    rows = subject.knowledge.record.values()
    entries = tuple(CategoryEntry(row, tuple(_says(row, subject))) for row in rows)
    return ObjectRecord(verdict.piece.title, verdict.as_of.isoformat(), entries)


NAMED = ("maker", "inscriptions")
"""Categories of what is named or written: an answer of yes or no names nothing."""


def _says(row: Category, subject: RecordedPiece) -> list[str]:
    told = [text for name in row.fields for text in FILLS[name](subject) if text]
    return [*told, *_answers(row, subject)]


def _answers(row: Category, subject: RecordedPiece) -> list[str]:
    """Answers to the checks that a category names, and how each is known."""
    found = []
    for name, finding in subject.verdict.piece.findings.items():
        check = subject.knowledge.checks.get(name)
        named = name in row.checks or f"{check.part if check else ''}.*" in row.checks
        place = check.index(finding.answer) if check else -1
        asked = check is not None and check.told(max(0, place)).startswith(check.ask)
        if asked and row.id in NAMED:
            continue
        if check is not None and named and place >= 0:
            part = subject.knowledge.parts[check.part].name
            found.append(f"{part}: {check.told(place)} ({KNOWN[finding.known]})")
    return found


def _process(subject: RecordedPiece) -> list[str]:
    families = subject.verdict.reading.families
    best = max(families, key=lambda word: families[word])
    return (
        [f"{family_name(best, subject.knowledge)}, {percent(families[best])}"]
        if families[best] >= LIKELY
        else []
    )


def _damage(subject: RecordedPiece) -> list[str]:
    """Faults found, or how many looks found none."""
    faults = subject.verdict.reading.condition.faults
    findings = subject.verdict.piece.findings
    if faults:
        return [
            f"{one.defect.name} ({KNOWN[SELLER]})"  # a seller's words are not our degrees
            if one.check.id in findings and findings[one.check.id].known == SELLER
            else f"{one.defect.name}: {one.says}"
            for one in faults
        ]
    checks = subject.knowledge.checks
    looked = [name for name in answered(subject.verdict) if name in checks and checks[name].defect]
    return [f"no damage found in {len(looked)} places checked"] if looked else []


def _date(subject: RecordedPiece) -> list[str]:
    """The span of the reading, where anything beside the kind of piece dates it."""
    reading = subject.verdict.reading
    if not (reading.timeline or _process(subject)):
        return []
    return [f"{reading.combined.edtf} (80% range, from the evidence seen)"]


def _origin(name: str) -> Callable[[RecordedPiece], list[str]]:
    def told(subject: RecordedPiece) -> list[str]:
        origin = subject.verdict.piece.origin
        return [getattr(origin, name)] if origin is not None else []

    return told


def _description(subject: RecordedPiece) -> list[str]:
    """A draft from what was seen, for the owner to better."""
    reading, piece = subject.verdict.reading, subject.verdict.piece
    parts = [KINDS[piece.kind]]
    if process := _process(subject):
        parts.append(process[0].split(",")[0])
    if reading.formats.best:
        parts.append(subject.knowledge.formats[reading.formats.best].name)
    if piece.found("case.material") and reading.material in subject.knowledge.housings:
        parts.append(subject.knowledge.housings[reading.material].name)
    parts += [one for one in (*piece.subjects, piece.motif) if one]
    return ["; ".join(parts)] if len(parts) > 1 else []


FILLS: Mapping[str, Callable[[RecordedPiece], list[str]]] = {
    "title": lambda one: [one.verdict.piece.title],
    "kind": lambda one: [KINDS[one.verdict.piece.kind]],
    "process": _process,
    "measured": lambda one: [f"{what} {size}" for what, size in one.verdict.piece.measured.items()],
    "inscription": lambda one: [*written(one.verdict.piece)],
    "damage": _damage,
    "subject": lambda one: list(one.verdict.piece.subjects),
    "motif": lambda one: [one.verdict.piece.motif],
    "date": _date,
    "maker": lambda one: [one.verdict.piece.maker],
    "pictures": lambda one: [f"{one.pictures} in the log"] if one.pictures else [],
    "description": _description,
    "number": lambda one: [one.number],
    "receipt": _origin("receipt"),
    "region": lambda one: [one.verdict.piece.region.replace("unknown", "")],
    "found": _origin("where"),
    "day": lambda one: [one.verdict.as_of.isoformat()],
}
"""Where each word of `RECORD_FIELDS` is found; an empty list or text answers nothing."""


def record_json(record: ObjectRecord) -> dict[str, Any]:
    """The record as plain JSON values."""
    return {
        "schema": SCHEMA,
        **picked(record, "as_of title state"),
        "missing": [one.category.id for one in record.missing],
        "categories": [
            picked(one.category, "id name part ask", says=one.says) for one in record.entries
        ],
    }


def record_document(record: ObjectRecord) -> Document:
    """The record as a page of its own."""
    parts = section("record", "", record_facts(record), Paragraph(SAFE, "quiet"))
    about = f"Object ID record, {record.state}"
    return Document(record.title or "(untitled piece)", parts, about, purpose=PURPOSE)


def record_facts(record: ObjectRecord) -> Facts:
    """Each category with what is recorded; what is missing is asked for."""
    return Facts(
        tuple(
            Fact(one.category.name, one.says)
            if one.says
            else fact(one.category.name, f"not recorded. {one.category.ask}", "doubt")
            for one in record.entries
        )
    )


def short_facts(record: ObjectRecord) -> Facts:
    """Each category with what is recorded, and in one line the names of those without."""
    said = [Fact(one.category.name, one.says) for one in record.entries if one.says]
    missing = ", ".join(one.category.name.lower() for one in record.missing)
    return Facts((*said, *([fact("Not recorded", missing, "doubt")] if missing else [])))
