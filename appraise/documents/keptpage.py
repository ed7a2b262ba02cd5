"""A kept piece as a page: everything that its owner, an heir or an insurer would ask."""

import datetime as dt
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from appraise.base.money import Money
from appraise.collection.air import Exposure, exposure
from appraise.collection.upkeep import (
    Due,
    Patient,
    Worse,
    drift,
    due,
    fits,
    not_looked_for_again,
    patients,
    stops,
    words_of,
)
from appraise.documents.keptfacts import FactRow, fact_rows
from appraise.knowledge.records import Basis, Care, Knowledge
from appraise.records.entry import Entry
from appraise.records.owned import ConditionCheck, Event, OwnedPiece

TOPICS = (
    "storage", "enclosure", "handling", "light", "photographing", "marking", "conservator",
)  # fmt: skip
"""What the owner of a piece should know of its care, in this order."""
MARKS = {
    "practice": "common practice",
    "judgement": "this tool's judgement",
    "memory": "from memory, not checked",
}
REPORTS = "appraise report {} --for insurer (or heir, conservator, public)"


@dataclass(frozen=True, slots=True)
class PageInput:
    """What the page is made of.

    Attributes:
        id: The kept piece's id.
        kept: The piece.
        entry: Its purchase in the log, or None.
        cost: What it cost in all, base currency; None where that is not known.
        knowledge: What the trade knows.
        as_of: The day for which it is told.
    """

    id: str
    kept: OwnedPiece
    entry: Entry | None
    cost: Money | None
    knowledge: Knowledge
    as_of: dt.date


@dataclass(frozen=True, slots=True)
class PageSection:
    """A part of the page; sections without rows are left out."""

    title: str
    rows: tuple[FactRow, ...]


def sections(matter: PageInput) -> tuple[PageSection, ...]:
    """The whole page."""
    made = (
        PageSection("the piece", tuple(fact_rows(matter.kept, matter.knowledge))),
        PageSection("what is due", tuple(_due(matter))),
        PageSection("purchase and provenance", tuple(_came(matter))),
        PageSection("condition", tuple(_condition(matter))),
        PageSection("for a conservator", tuple(_patients(matter))),
        PageSection("history", tuple(map(event_row, reversed(matter.kept.events)))),
        PageSection("light", tuple(_light(matter))),
        PageSection("care", tuple(care_rows(matter.kept, matter.knowledge))),
        PageSection("for others", tuple(_others(matter))),
    )
    return tuple(one for one in made if one.rows)


def _due(matter: PageInput) -> Iterator[FactRow]:
    for one in due(matter.kept, matter.knowledge, matter.as_of):
        yield FactRow(when(one), one.says, "!" if one.now else "")


def when(one: Due) -> str:
    """When something is due, as '2026-11-10, in 3 days'."""
    if one.on is None:
        return "now"
    many = "1 day" if abs(one.left) == 1 else f"{abs(one.left)} days"
    left = "today" if one.left == 0 else f"in {many}" if one.left > 0 else f"{many} ago"
    return f"{one.on}, {left}"


def _came(matter: PageInput) -> Iterator[FactRow]:
    kept, entry = matter.kept, matter.entry
    if kept.acquired:
        yield FactRow("acquired", kept.acquired)
    if entry is not None:
        paid = str(entry.price) if entry.price else "no price recorded"
        where = entry.venue or entry.channel
        yield FactRow("purchase", f"{entry.date}, {paid}{f', {where}' if where else ''}")
        if matter.cost is not None and matter.cost != entry.price:
            yield FactRow("total cost", str(matter.cost))
    elif kept.entry:
        yield FactRow("purchase", f"entry {kept.entry[:8]} is not in the log", "?")
    yield FactRow("receipt", kept.receipt or "not recorded", "" if kept.receipt else "?")
    known = [line for line in kept.provenance.splitlines() if line.strip()]
    for place, line in enumerate(known):
        yield FactRow("" if place else "provenance", line)
    if not known:
        yield FactRow("provenance", "not recorded", "?")
    for caution in stops(kept, matter.knowledge):
        yield FactRow("stop", caution.text, "!" if not known else "?")


def _condition(matter: PageInput) -> Iterator[FactRow]:
    looks = matter.kept.looks
    if not looks:
        yield FactRow("", "no condition check since it arrived", "?")
        return
    for place, look in enumerate(reversed(looks)):
        yield FactRow(look.day.isoformat(), look_words(look, matter.knowledge))
        if place == 0 and len(looks) > 1:
            yield from drift_rows(looks[-2], look, matter.knowledge)


def look_words(look: ConditionCheck, knowledge: Knowledge) -> str:
    """A look in a line: the condition in words, or the damage found; who looked, and the note."""
    damage = ", ".join(
        f"{name_of(name, knowledge)} ({step_words(name, step, knowledge)})"
        for name, step in look.steps.items()
        if step
    )
    says = look.says or damage or ("no damage found" if look.found else "checked")
    by = f", by {look.by}" if look.by else ""
    note = f". {' '.join(look.note.split())}" if look.note.strip() else ""
    return f"{says}{by}{note}"


def drift_rows(
    before: ConditionCheck, after: ConditionCheck, knowledge: Knowledge
) -> Iterator[FactRow]:
    """What became worse between two looks, and what was not looked for again."""
    for one in drift(before, after):
        was = "not checked" if one.before is None else step_words(one.check, one.before, knowledge)
        now = step_words(one.check, one.after or 0, knowledge)
        yield FactRow("worse", f"{name_of(one.check, knowledge)}: {was}, now {now}", "!")
    for one in not_looked_for_again(before, after):
        yield FactRow("not checked", f"{name_of(one.check, knowledge)}, found earlier", "?")


def name_of(check: str, knowledge: Knowledge) -> str:
    """What a fault is called."""
    known = knowledge.checks.get(check)
    return known.defect.name if known and known.defect and known.defect.name else check


def step_words(check: str, step: int, knowledge: Knowledge) -> str:
    """A step of a fault in words."""
    known = knowledge.checks.get(check)
    return known.answers[step].says if known and step < len(known.answers) else f"step {step}"


def worse_json(one: Worse) -> dict[str, object]:
    """A fault that changed, as JSON values."""
    return {"check": one.check, "before": one.before, "after": one.after}


def _patients(matter: PageInput) -> Iterator[FactRow]:
    for one in patients(matter.kept, matter.knowledge):
        yield patient_row(one)


def patient_row(one: Patient) -> FactRow:
    """Damage for a conservator: what it is, why it comes there, what not to do."""
    defect = one.check.defect
    assert defect is not None
    never = f" {defect.never}" if defect.never else ""
    label = defect.name or one.check.id
    return FactRow(label, f"{one.check.answers[one.step].says}. {one.why}{never}", "!" * one.active)


def event_row(event: Event) -> FactRow:
    """An event in a line."""
    to = {"lent": "to ", "moved": "to ", "sold": "to ", "given": "to "}.get(event.sort, "")
    told = [
        f"{event.sort} {to}{event.to}".strip() if event.to else event.sort,
        f"until {event.until}" if event.until else "",
        f"cost {event.cost}" if event.cost else "",
        " ".join(event.note.split()),
    ]
    return FactRow(event.day.isoformat(), ", ".join(one for one in told if one))


def _light(matter: PageInput) -> Iterator[FactRow]:
    if matter.kept.showings:
        found = exposure(matter.kept, matter.knowledge, matter.as_of)
        yield FactRow("twelve months", light_words(found), "!" if (found.left or 0) < 0 else "")
        if found.rest_until is not None:
            yield FactRow("rest", f"in the dark until {found.rest_until}", "!")
        for one in reversed(matter.kept.showings):
            where = f", {one.where}" if one.where else ""
            yield FactRow(one.day.isoformat(), f"{one.hours} hours at {one.lux} lux{where}")


def light_words(found: Exposure) -> str:
    """Light summed, beside the figure for such a piece."""
    told = f"{found.year:,} lux-hours, {found.ever:,} in total"
    if found.row is None or found.row.lux_hours is None:
        return f"{told}; no recommended limit for such a piece"
    return f"{told}; at most {found.row.lux_hours:,.0f} in a year"


def care_rows(kept: OwnedPiece, knowledge: Knowledge) -> Iterator[FactRow]:
    """The care of such a piece, each row with what it rests on."""
    words = words_of(kept, knowledge)
    for topic in TOPICS:
        label = topic
        for row in knowledge.care.values():
            if row.topic == topic and fits(row, words, kept.last_look):
                yield FactRow(label, f"{row.text} [{rests_on(row, knowledge)}]")
                label = ""


def rests_on(row: Care, knowledge: Knowledge) -> str:
    """What a row of care rests on: its sources by title, and how much of it is ours."""
    return basis_words(row.basis, knowledge)


def basis_words(basis: Basis, knowledge: Knowledge) -> str:
    """Sources by title, then the weakest thing under them."""
    titles = [knowledge.sources[key].title for key in basis.sources if key in knowledge.sources]
    return "; ".join([*titles, *([MARKS[basis.mark]] if basis.mark in MARKS else [])])


def _others(matter: PageInput) -> Iterator[FactRow]:
    yield FactRow("reports", REPORTS.format((matter.entry.id if matter.entry else matter.id)[:8]))
    if matter.entry is not None:
        names: Sequence[str] = [one.name for one in matter.entry.pictures]
        none = "none yet; 'appraise log picture' adds one"
        yield FactRow("pictures", ", ".join(names) or none, "" if names else "?")
    if matter.kept.status in ("lost", "stolen"):
        for row in matter.knowledge.care.values():
            if row.topic == "loss":
                yield FactRow("missing", row.text, "!")
