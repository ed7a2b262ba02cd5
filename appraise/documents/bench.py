"""Parts in stock, works, wishes and what fits what, as text and JSON."""

from collections.abc import Iterable
from typing import Any

from appraise.base.dates import years as edtf_years
from appraise.base.jsonvalues import picked
from appraise.collection.fits import Fit
from appraise.collection.repairs import (
    checked_mark,
    doubtful,
    names_of,
    proposed_disclosure,
    refused,
)
from appraise.collection.sizing import UNKNOWN, Sizing
from appraise.knowledge.records import Knowledge
from appraise.reading.spans import Span
from appraise.records import record_types
from appraise.records.part import Part
from appraise.records.repair import Repair
from appraise.records.stored import Stored
from appraise.records.want import Want

NARROW = 0.05  # mm that nobody measures
SIZE_SAYS = {
    "too small": "too small",
    "tight": "tight, perhaps too small",
    "fits": "fits by size",
    "loose": "loose, needs packing",
    "too large": "too large",
    UNKNOWN: "size not known: measure both",
}
YEARS_SAY = {
    "fits": "the years go together",
    "early": "early for the image",
    "late": "late for the image",
    "undated": "nothing dates it",
    "dates nothing": "not of the period: it dates nothing and must be disclosed",
}


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


def size_says(size: Sizing) -> str:
    """How a part and a plate go together by size, in a sentence with the mm."""
    if size.room is None:
        return SIZE_SAYS[size.word]
    told = f"{SIZE_SAYS[size.word]}: made for a plate {_room(size.room)}"
    by = "by format names only, so measure both"
    if size.by != ("format", "format"):
        by = f"{size.by[0]} against {size.by[1]}"
    return f"{told}, plus or minus {size.spread:.1f} mm ({by})"


def _room(room: tuple[float, float]) -> str:
    across, along = room
    if max(abs(across), abs(along)) < NARROW:
        return "of the same size"
    parts = [
        f"{abs(gap):.1f} mm {more if gap > 0 else less}"
        for gap, more, less in ((across, "wider", "narrower"), (along, "taller", "shorter"))
        if abs(gap) >= NARROW
    ]
    return " and ".join(parts)


def years_say(fit: Fit) -> str:
    """How their years go together, in a sentence with the years and the region."""
    years = fit.years
    told = YEARS_SAY[years.word]
    if years.part is not None:
        told += f": part {_span(years.part)}, image {_span(years.picture)}"
    region = {"same": "; the same region", "other": "; another region"}.get(years.region, "")
    return told + region


def _span(span: Span) -> str:
    return f"{span.first}-{span.last}"


def fit_lines(fits: Iterable[Fit], *, plates: bool) -> list[str]:
    """Three lines for each: what it is, its size, its years.

    `plates`: whether the plates are named, else the parts.
    """
    out = []
    for one in fits:
        name, record = (one.plate, one.plate_id) if plates else (one.part.title, one.part_id)
        out.append(f"{record[:8] or 'the file':<8}  {name}")
        out.append(f"          {size_says(one.size)}")
        out.append(f"          {years_say(one)}")
    return out


def fit_json(fit: Fit) -> dict[str, Any]:
    """One fit as JSON values; mm, and years as EDTF."""
    size, years = fit.size, fit.years
    return {
        "part": fit.part_id,
        "plate": fit.plate_id,
        "title": fit.part.title,
        "plate_title": fit.plate,
        "size": {
            **picked(size, "word by", chance=round(size.chance, 3), spread=round(size.spread, 1)),
            "room": [round(gap, 1) for gap in size.room] if size.room else None,
        },
        "years": {
            **picked(years, "word region", ratio=round(years.ratio, 2)),
            "part": edtf_years(years.part.first, years.part.last) if years.part else None,
            "picture": edtf_years(years.picture.first, years.picture.last),
        },
        "score": round(fit.score, 3),
    }


def held_json(held: Stored[Any]) -> dict[str, Any]:
    """A record as JSON values, its id first."""
    return {"id": held.id, **record_types.to_json(held.thing)}
