"""Who is told what: one table of readers, and one of the parts of a report."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from appraise.report.as_text import PURPOSE
from appraise.report.reader import deeds, doubts, identity, keeping, money, state
from appraise.report.reader.document import Block, Document, Section
from appraise.report.reader.matter import Matter
from appraise.report.reader.sight import Sight

Write = Callable[[Matter], Iterator[Block]]
UNTITLED = "(untitled piece)"


@dataclass(frozen=True, slots=True)
class Reader:
    """One sort of reader.

    Attributes:
        says: What sort of report it is, under its title.
        sees: What this reader sees beside the piece itself, words of `SIGHTS`.
        looks_on: Whether this reader has the piece at hand and decides what to look at next.
        purpose: What the report is for and what it is not; begins as `PURPOSE` does.
        parts: What is told, in order: (key of `PARTS`, heading).
    """

    says: str
    sees: Sight
    looks_on: bool
    purpose: str
    parts: tuple[tuple[str, str], ...]


PARTS: Mapping[str, Write] = {
    "short": identity.in_short,
    "what": identity.what,
    "materials": identity.materials,
    "plain": identity.plain,
    "dates": identity.dates,
    "belonging": identity.belonging,
    "doubts": doubts.doubts,
    "reasons": doubts.reasons,
    "condition": state.condition,
    "active": state.active,
    "by-part": state.by_part,
    "treatments": deeds.treatments,
    "looks": deeds.looks,
    "unseen": state.unseen,
    "conservators": state.for_conservators,
    "worth": money.worth,
    "bid": money.bid,
    "paid": money.paid,
    "record": keeping.record,
    "pictures": keeping.pictures,
    "matters": keeping.matters,
    "keep": keeping.keep,
    "never": keeping.never,
    "ask": keeping.ask,
    "owned": keeping.owned,
    "where": keeping.where,
    "next": doubts.next_looks,
    "cautions": doubts.cautions,
    "own": doubts.own_rows,
}
"""Every part of a report, and what writes it; one that has nothing to say is left out."""

_STEM = PURPOSE.removesuffix(".")

READERS: Mapping[str, Reader] = {
    "buyer": Reader(
        "Everything that can be said of it, for its buyer",
        frozenset({"estimate", "paid", "people"}),
        True,
        PURPOSE,
        (
            ("short", "In short"),
            ("worth", "What it is worth"),
            ("bid", "What to bid"),
            ("doubts", "What speaks against it"),
            ("what", "What it is"),
            ("dates", "How old it is"),
            ("belonging", "Is it old, and of one piece?"),
            ("reasons", "What moved this most"),
            ("condition", "Condition"),
            ("treatments", "Repairs and exchanges"),
            ("next", "What to look at next"),
            ("cautions", "Take care"),
            ("own", "Your own knowledge in this"),
        ),
    ),
    "public": Reader(
        "An honest description",
        frozenset(),
        False,
        f"{_STEM}, and no certificate: it tells what was seen, and how surely.",
        (
            ("short", "In short"),
            ("what", "What it is"),
            ("dates", "How old it is"),
            ("belonging", "Is it old, and of one piece?"),
            ("doubts", "What speaks against it"),
            ("condition", "Condition"),
            ("treatments", "Repairs, exchanges and own work"),
            ("unseen", "What was not looked at"),
            ("cautions", "Take care"),
            ("own", "The owner's own knowledge in this"),
        ),
    ),
    "conservator": Reader(
        "Materials, construction and condition, for a conservator",
        frozenset(),
        False,
        f"{_STEM}, and no conservator's examination: it was seen from outside, by a collector.",
        (
            ("active", "Active deterioration"),
            ("by-part", "Condition, part by part"),
            ("materials", "Materials and construction"),
            ("treatments", "Earlier treatments and exchanges"),
            ("looks", "How it was seen before"),
            ("unseen", "What was never looked at"),
            ("conservators", "Left to you"),
            ("dates", "How old it is"),
            ("belonging", "Is it old, and of one piece?"),
            ("doubts", "What speaks against it"),
            ("cautions", "Hazards and cautions"),
            ("own", "The owner's own knowledge in this"),
        ),
    ),
    "insurer": Reader(
        "Record of identification and purchase",
        frozenset({"paid", "people"}),
        False,
        f"{_STEM}: a licensed or qualified appraiser gives one.",
        (
            ("record", "How to know it again"),
            ("pictures", "Pictures"),
            ("paid", "What was paid"),
            ("owned", "Where it is, and was"),
            ("condition", "Condition"),
            ("treatments", "Repairs and exchanges"),
            ("doubts", "What speaks against it"),
            ("cautions", "Take care"),
            ("own", "The owner's own knowledge in this"),
        ),
    ),
    "heir": Reader(
        "For whoever has it after me",
        frozenset({"paid", "people"}),
        False,
        f"{_STEM}: ask a licensed or qualified appraiser for one.",
        (
            ("plain", "What it is"),
            ("matters", "Why it may matter"),
            ("keep", "How to keep it safe"),
            ("never", "What never to do to it"),
            ("cautions", "Take care"),
            ("treatments", "What was done to it"),
            ("doubts", "The honest doubt"),
            ("ask", "Whom to ask"),
            ("paid", "What was paid"),
            ("owned", "Where it is, and was"),
            ("where", "Where its record lies"),
            ("own", "The owner's own knowledge in this"),
        ),
    ),
}
"""What each reader is told. Everybody is told the evidence's strength, the innocent explanations
(`doubts`) and the usual cautions (`cautions`)."""


def report(matter: Matter, reader: str) -> Document:
    """One piece told to one reader.

    Args:
        matter: The piece, judged as that reader may see it (`piece_for`, `entry_for`).
        reader: A key of `READERS`.
    """
    meant = READERS[reader]
    sections = tuple(
        Section(part, heading, blocks)
        for part, heading in meant.parts
        if (blocks := tuple(PARTS[part](matter)))
    )
    return Document(
        reader,
        _title(matter),
        meant.says,
        matter.verdict.as_of.isoformat(),
        sections,
        meant.purpose,
    )


def _title(matter: Matter) -> str:
    """What the piece is called, by its file or by the log."""
    called = (matter.piece, matter.kept, matter.entry)
    return next((one.title for one in called if one is not None and one.title), UNTITLED)
