"""What was done to a piece: repairs and exchanges that show, and work that was recorded."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from appraise.base.percents import percent
from appraise.documents.document import Block, Bullets, Facts, Paragraph
from appraise.documents.reports.answers import part_name, told
from appraise.documents.reports.redaction import TREATED
from appraise.documents.reports.report_input import ReportInput
from appraise.documents.words import SEVEREST

if TYPE_CHECKING:
    from appraise.records.owned import ConditionCheck, Event
    from appraise.records.repair import Repair, Stuff

CHANGED = frozenset({"treated", "exchanged", "opened"})
"""Tags of damage that tell of something done to a piece."""

UNCHANGED = "No repair, exchange or opening is recorded; that does not prove there was none."
OWN_WORK = "The piece was made or assembled by the present owner."
HANDS = {"self": "the present owner", "conservator": "a conservator", "other": "someone else"}
UNDONE = {
    "yes": "can be undone",
    "slow": "hard to undo, by a conservator only",
    "no": "cannot be undone",
}
ARCHIVAL = {
    "yes": "archival",
    "no": "not archival",
    "depends": ("archival or not, depending on make"),
}


def treatments(matter: ReportInput) -> Iterator[Block]:
    """Repairs, exchanges, openings and own work: what shows, and what was recorded."""
    found = (*_recorded(matter), *_showing(matter))
    yield Bullets(found) if found else Paragraph(UNCHANGED)
    for work in matter.works:
        yield Facts.of(_work(work))


def _recorded(matter: ReportInput) -> Iterator[str]:
    if matter.own_work:
        yield OWN_WORK
    if matter.piece.conserved:
        yield "A conservator has reseated or resealed it."
    for event in matter.kept.events if matter.kept else ():
        if event.sort in TREATED:
            yield _event(event)


def _event(event: Event) -> str:
    says = f"{event.day}: {event.sort.replace('-', ' ')}"
    return ", ".join(one for one in (says, event.to, event.note) if one)


def _showing(matter: ReportInput) -> Iterator[str]:
    """What can be seen of repairs and exchanges."""
    reading = matter.verdict.reading
    for one in told(matter):
        if one.check.answers[one.place].undates:
            yield f"{part_name(matter, one.check.id)}: {one.says}"
    for fault in reading.condition.faults:
        if CHANGED & set(fault.defect.history):
            bad = "; not an archival repair" if fault.defect.non_archival else ""
            yield f"{part_name(matter, fault.check.id)}: {fault.defect.name}, {fault.says}{bad}"
    odd = reading.odd_one_out
    if odd is not None:
        name = matter.knowledge.parts[odd.part].name
        yield (
            f"{name}: by its years it may be an exchange ({percent(odd.probability)}), or it was "
            "renewed at the time, when the first one broke"
        )


def _work(work: Repair) -> Iterator[tuple[str, str | tuple[str, ...]]]:
    """One work, as it was recorded."""
    until = f"{work.done or 'in progress'}"
    when = until if work.done == work.begun else f"{work.begun} to {until}"
    yield from (
        ("job", work.title),
        ("when", when),
        ("by", ", ".join(one for one in (HANDS.get(work.by, ""), work.who) if one)),
        ("did", work.did),
        ("with", tuple(map(_stuff, work.materials))),
        ("removed", tuple(", ".join(filter(None, (o.what, o.where))) for o in work.taken_out)),
        ("reversible", UNDONE.get(work.reversible, "")),
        ("mark on the piece", work.mark),
        ("disclosure", work.disclosure),
        ("note", work.note),
    )


def _stuff(stuff: Stuff) -> str:
    return (
        f"{stuff.what} ({ARCHIVAL[stuff.archival]})" if stuff.archival in ARCHIVAL else stuff.what
    )


def looks(matter: ReportInput) -> Iterator[Block]:
    """How its condition was seen, from time to time."""
    found = matter.kept.looks if matter.kept else ()
    yield Facts.of((str(one.day), _look(matter, one)) for one in found)


def _look(matter: ReportInput, look: ConditionCheck) -> Iterator[str]:
    if look.says or look.by:
        yield ", ".join(one for one in (look.says, f"by {look.by}" if look.by else "") if one)
    for name, step in look.steps.items():
        check = matter.knowledge.checks.get(name)
        if step and check is not None and check.defect is not None:
            yield f"{check.defect.name}: {check.answers[step].says} (severity {step} of {SEVEREST})"
    if look.note:
        yield look.note
    if not (look.says or look.by or look.note or any(look.steps.values())):
        yield "checked, nothing recorded"
