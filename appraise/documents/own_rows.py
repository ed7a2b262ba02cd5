"""Rows of the user's own knowledge files, and which of them took part in a verdict.

A number that rests on a row of one's own must say so, wherever it is shown.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from appraise.base.jsonvalues import picked
from appraise.knowledge.records import Knowledge, Own

if TYPE_CHECKING:
    from appraise.verdict import Verdict

MARK = "[own row]"
ALWAYS = ("weights", "parts")  # topics of which every row enters every verdict


def took_part(verdict: Verdict, knowledge: Knowledge) -> tuple[Own, ...]:
    """The user's own rows that entered a verdict, in the order of the files.

    A check takes part when it was answered; a process or a housing when it is a thing that such a
    piece can be; a format or an offset when something was measured; a caution when it is shown.
    """
    if not knowledge.own:
        return ()
    entered = set(_entered(verdict, knowledge))
    return tuple(
        one for one in knowledge.own if one.topic in ALWAYS or (one.topic, one.id) in entered
    )


def _entered(verdict: Verdict, knowledge: Knowledge) -> Iterator[tuple[str, str]]:
    """Topic and id of every row that entered."""
    reading = verdict.reading
    for check in answered(verdict):
        for topic in ("checks", "defects", "answers"):
            yield topic, check
    for name in reading.processes:
        yield "processes", name
    for name in reading.housings:
        yield "housings", name
    if reading.formats.measured:
        for name, form in knowledge.formats.items():
            if reading.piece.kind in form.kinds:
                yield "formats", name
        for name, offset in knowledge.offsets.items():
            if offset.what in reading.piece.measured:
                yield "offsets", name
    if verdict.estimate is not None:
        yield "ratios", "ratios"
    for caution in verdict.cautions:
        yield "cautions", caution.id


def answered(verdict: Verdict) -> frozenset[str]:
    """The checks that were answered of the piece, or of one of its pictures."""
    piece = verdict.piece
    return frozenset([*piece.findings, *(name for one in piece.images for name in one.findings)])


def mark(knowledge: Knowledge, check: str) -> str:
    """A short mark for a check that is the user's own row; empty for a shipped one."""
    return f" {MARK}" if knowledge.own_row("checks", check) else ""


def own_flag(knowledge: Knowledge, flag: str) -> Own | None:
    """The user's own phrase that may raise a listing's flag, or None."""
    return next(
        (
            one
            for one in knowledge.own
            if one.topic == "phrases" and knowledge.phrases[one.id].flag == flag
        ),
        None,
    )


def own_line(one: Own) -> str:
    """One of the user's rows in a line."""
    over = f", over {one.over}" if one.over else ", added"
    return f"your own row: {one.where}{over}"


def own_json(one: Own) -> dict[str, Any]:
    """One of the user's rows as JSON."""
    return picked(one, "topic id where", over=one.over or None)
