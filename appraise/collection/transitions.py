"""What happens to a kept piece: each step makes a new record, and none loses anything."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

from appraise.base.errors import InputError
from appraise.records.owned import AWAY, GONE, MISSING, ConditionCheck, Event, OwnedPiece, Showing
from appraise.records.piece import Piece

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge
    from appraise.reading.condition import Condition

RESTS = {"found": "kept", "back": "kept", "arrived": "kept"}
"""Events after which a piece is at home again."""
SAME = ("moved", "shown", "cleaned", "mended", "other")
"""Events that leave the status as it is."""


def happened(kept: OwnedPiece, event: Event, place: str | None = None) -> OwnedPiece:
    """The piece after an event, its status as the event says, unless a later one says otherwise.

    `place`: where it is now; None: as before.

    Raises:
        InputError: when that cannot happen to a piece of its status.
    """
    _possible(kept, event)
    events = tuple(sorted((*kept.events, event), key=lambda one: one.day))
    later = any(one.day > event.day and one.sort not in SAME for one in kept.events)
    stays = later or event.sort in SAME
    status = kept.status if stays else RESTS.get(event.sort, event.sort)
    return replace(kept, events=events, status=status, place=kept.place if place is None else place)


def _possible(kept: OwnedPiece, event: Event) -> None:
    if kept.status in GONE and event.sort != "other":
        raise InputError(f"'{kept.title}' is {kept.status}", mend="Undo, or edit its status first.")
    if event.sort == "back" and kept.status not in AWAY:
        raise InputError(f"'{kept.title}' is not away: it is {kept.status}")
    if event.sort == "found" and kept.status not in MISSING:
        raise InputError(f"'{kept.title}' is not missing: it is {kept.status}")
    if event.sort in AWAY and not event.to:
        raise InputError("no name given", "to", "Write a name or a place.")


def moved(kept: OwnedPiece, day: dt.date, place: str) -> OwnedPiece:
    """The piece in another place; the old one stays among the events."""
    if not place.strip():
        raise InputError("no place given", "place", "Write a room, a box, a drawer.")
    note = f"from {kept.place}" if kept.place else ""
    return happened(kept, Event(day, "moved", place, note=note), place)


def looked(kept: OwnedPiece, look: ConditionCheck) -> OwnedPiece:
    """The piece with a condition check, in its place by its day."""
    return replace(kept, looks=tuple(sorted((*kept.looks, look), key=lambda one: one.day)))


def shown(kept: OwnedPiece, showing: Showing) -> OwnedPiece:
    """The piece with light that it was given."""
    every = tuple(sorted((*kept.showings, showing), key=lambda one: one.day))
    return replace(kept, showings=every)


def look_of(
    piece: Piece,
    condition: Condition,
    knowledge: Knowledge,
    day: dt.date,
    by: str = "",
    note: str = "",
    says: str = "",
) -> ConditionCheck:
    """A condition check from a piece as it stands.

    `says`: the condition in the user's words; the grades stand in where it is empty.
    """
    return ConditionCheck(day, says or grades(condition), by, damage_of(piece, knowledge), note)


def grades(condition: Condition) -> str:
    """The grades in one line: 'image Good, housing Poor: tape on the hinge'."""
    from appraise.reading.condition import NOT_SEEN

    told = (
        f"{name} {side.says}"
        for name, side in condition.sides.items()
        if side.grade != NOT_SEEN or side.worst is not None
    )
    return ", ".join(told)


def damage_of(piece: Piece, knowledge: Knowledge) -> tuple[str, ...]:
    """Every question on damage that was answered in hand; of several images the worst step."""
    worst: dict[str, int] = {}
    for findings in (piece.findings, *(image.findings for image in piece.images)):
        for name, finding in findings.items():
            check = knowledge.checks.get(name)
            if check is not None and check.defect is not None and finding.known == "in-hand":
                step = check.index(finding.answer)
                if step >= 0:
                    worst[name] = max(step, worst.get(name, 0))
    return tuple(f"{name} {step}" for name, step in worst.items())


def with_steps(piece: Piece, steps: Mapping[str, str], knowledge: Knowledge) -> Piece:
    """The piece with damage as it was found in hand now.

    Raises:
        InputError: when a word is no question on damage, or an answer is none of its steps.
    """
    from appraise.base.spelling import did_you_mean

    known = [check.id for check in knowledge.checks.values() if check.defect is not None]
    for name, step in steps.items():
        if name not in known:
            raise InputError(f"'{name}' is not a question on damage", "", did_you_mean(name, known))
        check = knowledge.checks[name]
        if piece.kind not in check.kinds:
            raise InputError(f"'{name}' is not asked of a {piece.kind} piece", "")
        if check.index(step) < 0:
            said = ", ".join(f"{place} {one.says}" for place, one in enumerate(check.answers))
            raise InputError(f"'{step}' is not a step of {name}", "", f"Steps: {said}.")
        piece = piece.with_finding(name, step, "in-hand")
    return piece
