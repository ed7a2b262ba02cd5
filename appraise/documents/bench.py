"""Parts in stock, works and wishes, a line each, and what has to be said of a work."""

from __future__ import annotations

from typing import TYPE_CHECKING

from appraise.collection.repairs import (
    checked_mark,
    doubtful,
    names_of,
    proposed_disclosure,
    refused,
)
from appraise.records.part import Part
from appraise.records.repair import Repair
from appraise.records.stored import Stored
from appraise.records.want import Want

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge


def part_line(held: Stored[Part], knowledge: Knowledge) -> str:
    """A part as one line: id, how many, what it is, its title, where it lies."""
    part = held.thing
    spare = knowledge.spares.get(part.part)
    count = "used up" if not part.count else f"{part.count} x"
    told = [part.title, part.made if part.made != "period" else "", part.place]
    name = spare.name if spare else part.part
    return f"{held.id[:8]}  {count:>7}  {name:<22} {', '.join(filter(None, told))}"


def work_line(held: Stored[Repair]) -> str:
    """A work as one line: id, since when or when done, its title, whether it can be undone."""
    work = held.thing
    when = f"in progress since {work.begun}" if work.in_hand else f"done {work.done}"
    undone = {"yes": "can be undone", "slow": "hard to undo", "no": "cannot be undone"}
    told = [work.title, undone.get(work.reversible, ""), "by me" if work.made_by_me else ""]
    return f"{held.id[:8]}  {when:<24} {', '.join(filter(None, told))}"


def want_line(held: Stored[Want]) -> str:
    """A wish as one line: id, title, the most."""
    want = held.thing
    most = f", at most {want.most}" if want.most else ""
    return f"{held.id[:8]}  {want.title}{most}"


def work_notes(work: Repair, knowledge: Knowledge) -> list[str]:
    """What has to be said of a work: what nobody should do, what does not keep, what is missing."""
    notes = [f"No: {row.says}. {row.why} {row.instead}" for row in refused(work, knowledge)]
    notes += doubtful(work, knowledge)
    missing = checked_mark(work)
    if missing and not work.disclosure:
        missing += f" For instance: {proposed_disclosure(work)}"
    return [*notes, *([missing] if missing else [])]


def work_stuff(work: Repair, knowledge: Knowledge) -> list[str]:
    """Each material of a work with whether it is archival."""
    says = {"yes": "archival", "no": "not archival", "depends": "archival only in part"}
    names = names_of(work, knowledge)
    return [
        f"{name}: {says.get(one.archival, 'not known whether archival')}"
        for name, one in zip(names, work.materials, strict=True)
    ]
