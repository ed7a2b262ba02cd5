"""A kept piece as a page: everything that its owner, an heir or an insurer would ask."""

import datetime as dt
from collections.abc import Iterator, Sequence
from itertools import chain
from typing import Any

from appraise.base.ages import birth_years
from appraise.base.dataclass import dataclass
from appraise.base.dates import year_range
from appraise.base.errors import InputError
from appraise.base.jsonvalues import picked
from appraise.base.logday import day_in_words
from appraise.base.money import Money, as_json
from appraise.base.oneline import counted
from appraise.collection.air import Exposure, exposure
from appraise.collection.upkeep import (
    Due,
    Patient,
    drift,
    due,
    essentials,
    not_looked_for_again,
    patients,
    stops,
    unfit,
    unfit_words,
)
from appraise.documents.document import Document, Fact, Facts, asked, fact, section
from appraise.documents.entry import entry_json, held_json
from appraise.documents.reports.redaction import TREATED
from appraise.knowledge.records import Basis, Knowledge
from appraise.records.entry import Entry
from appraise.records.owned import MISSING, ConditionCheck, Event, OwnedPiece
from appraise.records.piece import Piece
from appraise.records.stored import Stored

TOPICS = (
    "storage", "enclosure", "handling", "light", "photographing", "marking", "conservator",
)  # fmt: skip
"""What the owner of a piece should know of its care, in this order."""
MARKS = {
    "practice": "common practice",
    "judgement": "this tool's judgement",
    "memory": "from memory, not checked",
}
PIECE = "appraise.kept/1"
REPORTS = "appraise report {} --for insurer (or heir, conservator, public)"


@dataclass(frozen=True, slots=True)
class PageInput:
    """What the page is made of.

    Attributes:
        entry: Its purchase in the log, or None.
        cost: What it cost in all, base currency; None where that is not known.
    """

    id: str
    kept: OwnedPiece
    entry: Entry | None
    cost: Money | None
    knowledge: Knowledge
    as_of: dt.date


def owned_document(matter: PageInput) -> Document:
    """The whole page."""
    kept, knowledge = matter.kept, matter.knowledge
    parts = (
        ("piece", "The piece", _piece(kept, knowledge)),
        ("due", "What is due", _due(matter)),
        ("came", "Purchase and provenance", _came(matter)),
        ("condition", "Condition", _condition(matter)),
        ("conservator", "For a conservator", map(patient_fact, patients(kept, knowledge))),
        ("history", "History", map(event_fact, reversed(kept.events))),
        ("light", "Light", _light(matter)),
        ("care", "Care", _care(kept, knowledge)),
        ("others", "For others", _others(matter)),
    )
    found = (section(name, heading, Facts(tuple(rows))) for name, heading, rows in parts)
    return Document(kept.title, tuple(chain(*found)))


def _piece(kept: OwnedPiece, knowledge: Knowledge) -> Iterator[Fact]:
    """What the piece is and where; what is not noted is asked for."""
    yield asked("number", kept.number, "none")
    what = " ".join(one for one in (kept.format, kept.process, kept.housing, kept.kind) if one)
    yield asked("what it is", what)
    yield asked("made", kept.dated, "not dated")
    yield from _from_piece(kept, knowledge)
    yield asked("place", kept.place)
    for row in unfit(kept.place, knowledge):
        yield fact("caution", unfit_words(row), "warn")
    yield fact("status", kept.status, "warn" if kept.status in MISSING else "plain")
    for label, text in (("box and frame", kept.climate), ("note", kept.note)):
        for line in filter(str.strip, text.splitlines()):
            yield fact(label, line)
            label = ""


def _from_piece(kept: OwnedPiece, knowledge: Knowledge) -> Iterator[Fact]:
    """What its piece file tells."""
    if not kept.piece:
        return
    from appraise.records.piece_file import parse_piece  # 10 ms with yaml

    try:
        piece = parse_piece(kept.piece, kept.title, knowledge)
    except InputError as error:
        yield fact("piece file", f"cannot be read: {error}", "doubt")
        return
    for what, measure in piece.measured.items():
        yield fact(f"size of the {what}", measure.as_both())
    for label, text in (
        ("subject", ", ".join(piece.subjects)),
        ("motif", piece.motif),
        ("maker", piece.maker),
        ("written", _written(piece)),
        ("sitter", _sitter(piece, kept.dated)),
    ):
        if text:
            yield fact(label, text)


def _written(piece: Piece) -> str:
    """What is written on or with it, and the date that it names."""
    if piece.inscription is None:
        return ""
    text = piece.inscription.quoted
    dated = f"dated {piece.inscription.date}" if piece.inscription.date else ""
    return ", ".join(one for one in (text, dated) if one)


def _sitter(piece: Piece, dated: str) -> str:
    """The sitter's apparent age, and the years of birth that follow from the date."""
    if piece.sitter_age is None:
        return ""
    young, old = piece.sitter_age
    age = f"aged {young}" if young == old else f"aged {young} to {old}"
    first, last = year_range(dated, 0) if dated else (None, None)
    if first is None or last is None:
        return age
    born = birth_years((first, last), piece.sitter_age)
    return f"{age}, so born {born[0]} to {born[1]}"


def _due(matter: PageInput) -> Iterator[Fact]:
    for one in due(matter.kept, matter.knowledge, matter.as_of):
        yield fact(when(one), one.says, "warn" if one.now else "plain")


def when(one: Due) -> str:
    """When something is due, as '2026-11-10, in 3 days'."""
    if one.on is None:
        return "now"
    many = counted(abs(one.left), "day")
    left = "today" if one.left == 0 else f"in {many}" if one.left > 0 else f"{many} ago"
    return f"{one.on}, {left}"


def _came(matter: PageInput) -> Iterator[Fact]:
    kept, entry = matter.kept, matter.entry
    if kept.acquired:
        yield fact("acquired", day_in_words(kept.acquired))
    if entry is not None:
        paid = str(entry.price) if entry.price else "no price recorded"
        said = (day_in_words(str(entry.date)), paid, entry.venue or entry.channel)
        yield fact("purchase", ", ".join(one for one in said if one))
        if matter.cost is not None and matter.cost != entry.price:
            yield fact("total cost", str(matter.cost))
    elif kept.entry:
        yield fact("purchase", f"entry {kept.entry[:8]} is not in the log", "doubt")
    yield asked("receipt", kept.receipt)
    known = [line for line in kept.provenance.splitlines() if line.strip()]
    for place, line in enumerate(known):
        yield fact("" if place else "provenance", line)
    if not known:
        yield fact("provenance", "not recorded", "doubt")
    for caution in stops(kept, matter.knowledge):
        yield fact("stop", caution.text, "warn" if not known else "doubt")


def _condition(matter: PageInput) -> Iterator[Fact]:
    looks = matter.kept.looks
    if not looks:
        yield fact("", "no condition check since it arrived", "doubt")
        return
    for event in matter.kept.events:
        if event.sort in TREATED and event.day > looks[-1].day:
            told = f"{event.sort.replace('-', ' ')} since the last look: look again"
            yield fact(event.day.isoformat(), told, "doubt")
    for place, look in enumerate(reversed(looks)):
        yield fact(look.day.isoformat(), _look(look, matter.knowledge))
        if place == 0 and len(looks) > 1:
            yield from _drift(looks[-2], look, matter.knowledge)


def _look(look: ConditionCheck, knowledge: Knowledge) -> str:
    """A look in a line: the condition in words, or the damage found; who looked, and the note."""
    damage = ", ".join(
        f"{_fault(name, knowledge)} ({_step(name, step, knowledge)})"
        for name, step in look.steps.items()
        if step
    )
    says = look.says or damage or ("no damage found" if look.found else "checked")
    by = f", by {look.by}" if look.by else ""
    note = f". {' '.join(look.note.split())}" if look.note.strip() else ""
    return f"{says}{by}{note}"


def _drift(before: ConditionCheck, after: ConditionCheck, knowledge: Knowledge) -> Iterator[Fact]:
    """What became worse between two looks, and what was not looked for again."""
    for one in drift(before, after):
        was = "not checked" if one.before is None else _step(one.check, one.before, knowledge)
        now = _step(one.check, one.after or 0, knowledge)
        yield fact("worse", f"{_fault(one.check, knowledge)}: {was}, now {now}", "warn")
    for one in not_looked_for_again(before, after):
        yield fact("not checked", f"{_fault(one.check, knowledge)}, found earlier", "doubt")


def _fault(check: str, knowledge: Knowledge) -> str:
    """What a fault is called."""
    known = knowledge.checks.get(check)
    return known.defect.name if known and known.defect and known.defect.name else check


def _step(check: str, step: int, knowledge: Knowledge) -> str:
    """A step of a fault in words."""
    known = knowledge.checks.get(check)
    return known.answers[step].says if known and step < len(known.answers) else f"step {step}"


def patient_fact(one: Patient) -> Fact:
    """Damage for a conservator: what it is, why it comes there, what not to do."""
    defect = one.defect
    never = f" {defect.never}" if defect.never else ""
    label = defect.name or one.check.id
    says = f"{one.check.answers[one.step].says}. {one.why}{never}"
    return fact(label, says, "warn" if one.active else "plain")


def event_fact(event: Event) -> Fact:
    """An event in a line."""
    to = {"lent": "to ", "moved": "to ", "sold": "to ", "given": "to "}.get(event.sort, "")
    told = [
        f"{event.sort} {to}{event.to}".strip() if event.to else event.sort,
        f"until {event.until}" if event.until else "",
        f"cost {event.cost}" if event.cost else "",
        " ".join(event.note.split()),
    ]
    return fact(event.day.isoformat(), ", ".join(one for one in told if one))


def _light(matter: PageInput) -> Iterator[Fact]:
    if matter.kept.showings:
        found = exposure(matter.kept, matter.knowledge, matter.as_of)
        yield fact(
            "twelve months", light_words(found), "warn" if (found.left or 0) < 0 else "plain"
        )
        if found.rest_until is not None:
            yield fact("rest", f"in the dark until {found.rest_until}", "warn")
        for one in reversed(matter.kept.showings):
            where = f", {one.where}" if one.where else ""
            yield fact(one.day.isoformat(), f"{one.hours} hours at {one.lux} lux{where}")


def light_words(found: Exposure) -> str:
    """Light summed, beside the figure for such a piece."""
    told = f"{found.year:,} lux-hours, {found.ever:,} in total"
    if found.row is None or found.row.lux_hours is None:
        return f"{told}; no recommended limit for such a piece"
    return f"{told}; at most {found.row.lux_hours:,.0f} in a year"


def _care(kept: OwnedPiece, knowledge: Knowledge) -> Iterator[Fact]:
    """The care of such a piece in short, and where all of it stands with its sources."""
    for topic in TOPICS:
        label = topic
        for row in essentials(kept, knowledge, topic):
            rests = MARKS.get(row.basis.mark, "")
            yield fact(label, f"{row.text} [{rests}]" if rests else row.text)
            label = ""
    words = " ".join(one for one in (kept.process, kept.housing) if one) or kept.kind
    yield fact("sources, and more", f"appraise care {words}".rstrip())


def basis_words(basis: Basis, knowledge: Knowledge) -> str:
    """Sources by title, then the weakest thing under them."""
    titles = [knowledge.sources[key].title for key in basis.sources if key in knowledge.sources]
    return "; ".join([*titles, *([MARKS[basis.mark]] if basis.mark in MARKS else [])])


def _others(matter: PageInput) -> Iterator[Fact]:
    yield fact("reports", REPORTS.format((matter.entry.id if matter.entry else matter.id)[:8]))
    if matter.entry is not None:
        names: Sequence[str] = [one.name for one in matter.entry.pictures]
        none = "none yet; 'appraise log picture' adds one"
        yield asked("photos", ", ".join(names), none)
    if matter.kept.status in ("lost", "stolen"):
        for row in matter.knowledge.care.values():
            if row.topic == "loss":
                yield fact("missing", row.text, "warn")


def kept_json(one: Stored[OwnedPiece], as_of: dt.date) -> dict[str, Any]:
    """A kept piece as a JSON document."""
    kept = held_json(one.id, one.thing)
    return {"schema": PIECE, "as_of": as_of.isoformat(), "kept": kept}


def owned_json(matter: PageInput) -> dict[str, Any]:
    """A kept piece with its purchase and all that is due, as a JSON document."""
    kept, entry, knowledge = matter.kept, matter.entry, matter.knowledge
    worse = drift(*kept.looks[-2:]) if len(kept.looks) > 1 else ()
    return {
        **kept_json(Stored(matter.id, kept), matter.as_of),
        "purchase": entry_json(entry) if entry else None,
        "cost": as_json(matter.cost),
        "due": [due_json(one) for one in due(kept, knowledge, matter.as_of)],
        "worse": [picked(one, "check before after") for one in worse],
        "conservator": [patient_json(one) for one in patients(kept, knowledge)],
        "light": light_json(kept, knowledge, matter.as_of),
    }


def due_json(one: Due) -> dict[str, Any]:
    """Something due, as JSON values."""
    return picked(one, "sort on says", days_left=one.left)


def patient_json(one: Patient) -> dict[str, Any]:
    """Damage for a conservator, as JSON values."""
    return picked(one, "step active why", id=one.check.id) | picked(one.defect, "do never")


def light_json(kept: OwnedPiece, knowledge: Knowledge, as_of: dt.date) -> dict[str, Any]:
    """Light summed, as JSON values; lux-hours throughout."""
    found = exposure(kept, knowledge, as_of)
    row = found.row
    most, name = (row.lux_hours, row.id) if row else (None, None)
    return picked(found, "year ever left rest_until", most=most, row=name)
