"""Who is told what: one table of readers, and one of the parts of a report."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import chain

from appraise.documents.document import (
    Block,
    Document,
    Paragraph,
    Photos,
    Picture,
    Section,
    section,
)
from appraise.documents.reports import condition, doubts, identity, keeping, money, treatments
from appraise.documents.reports.redaction import Sight
from appraise.documents.reports.report_input import ReportInput
from appraise.documents.words import PURPOSE
from appraise.reading.matter import judged
from appraise.reading.reading import Reading

Write = Callable[[ReportInput], Iterator[Block]]
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
    "portrayal": identity.portrayal,
    "materials": identity.materials,
    "plain": identity.plain,
    "dates": identity.dates,
    "belonging": identity.belonging,
    "doubts": doubts.doubts,
    "reasons": doubts.reasons,
    "findings": doubts.findings,
    "condition": condition.condition,
    "active": condition.active,
    "by-part": condition.by_part,
    "treatments": treatments.treatments,
    "looks": treatments.looks,
    "unseen": condition.unseen,
    "conservators": condition.for_conservators,
    "worth": money.worth,
    "bid": money.bid,
    "paid": money.paid,
    "record": keeping.record,
    "photos": keeping.photos,
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

EACH = ("dates", "belonging")
"""Parts that are told of each of several images."""

PRICED = ("worth", "bid")
"""Parts that tell nothing but amounts."""

READ = frozenset(
    ("plain", "dates", "belonging", "reasons", "findings", "condition", "by-part", "active",
     "unseen", "worth", "bid", "matters")
)  # fmt: skip
"""Parts that tell what findings mean; of what is not judged as one piece they say nothing."""

_STEM = PURPOSE.removesuffix(".")

READERS: Mapping[str, Reader] = {
    "myself": Reader(
        "Full report for myself",
        frozenset({"estimate", "paid", "people"}),
        True,
        PURPOSE,
        (
            ("short", "In short"),
            ("photos", "Photos"),
            ("worth", "What it is worth"),
            ("bid", "What to pay"),
            ("doubts", "Doubts and warnings"),
            ("what", "What it is"),
            ("dates", "How old it is"),
            ("belonging", "Is it old, and do the parts belong together?"),
            ("reasons", "Strongest evidence"),
            ("condition", "Condition"),
            ("treatments", "Repairs and exchanges"),
            ("next", "Check next"),
            ("cautions", "Cautions"),
            ("own", "Your own knowledge files"),
        ),
    ),
    "public": Reader(
        "Description",
        frozenset(),
        False,
        f"{_STEM}, and not a certificate. It reports what was seen and how certain it is.",
        (
            ("short", "In short"),
            ("photos", "Photos"),
            ("what", "What it is"),
            ("dates", "How old it is"),
            ("belonging", "Is it old, and do the parts belong together?"),
            ("doubts", "Doubts and warnings"),
            ("condition", "Condition"),
            ("treatments", "Repairs, exchanges and own work"),
            ("unseen", "What is not checked"),
            ("cautions", "Cautions"),
            ("own", "The owner's own knowledge files"),
        ),
    ),
    "conservator": Reader(
        "Materials, construction and condition, for a conservator",
        frozenset(),
        False,
        f"{_STEM}, and not a conservator's examination: a collector saw it from outside.",
        (
            ("photos", "Photos"),
            ("active", "Active deterioration"),
            ("by-part", "Condition, part by part"),
            ("materials", "Materials and construction"),
            ("treatments", "Earlier treatments and exchanges"),
            ("looks", "Earlier condition checks"),
            ("unseen", "What is not checked"),
            ("conservators", "For your judgement"),
            ("dates", "How old it is"),
            ("belonging", "Is it old, and do the parts belong together?"),
            ("doubts", "Doubts and warnings"),
            ("cautions", "Hazards and cautions"),
            ("own", "The owner's own knowledge files"),
        ),
    ),
    "insurer": Reader(
        "Record of identification and purchase",
        frozenset({"paid", "people"}),
        False,
        f"{_STEM}: a licensed or qualified appraiser gives one.",
        (
            ("record", "Identification (Object ID)"),
            ("pictures", "Photos"),
            ("paid", "What was paid"),
            ("owned", "Location history"),
            ("condition", "Condition"),
            ("treatments", "Repairs and exchanges"),
            ("doubts", "Doubts and warnings"),
            ("cautions", "Cautions"),
            ("own", "The owner's own knowledge files"),
        ),
    ),
    "heir": Reader(
        "For whoever owns it next",
        frozenset({"paid", "people"}),
        False,
        f"{_STEM}: ask a licensed or qualified appraiser for one.",
        (
            ("plain", "What it is"),
            ("photos", "Photos"),
            ("matters", "Why it may matter"),
            ("keep", "How to keep it safe"),
            ("never", "What never to do to it"),
            ("cautions", "Cautions"),
            ("treatments", "What was done to it"),
            ("doubts", "Doubts and warnings"),
            ("ask", "Whom to ask"),
            ("paid", "What was paid"),
            ("owned", "Location history"),
            ("where", "Where the record is"),
            ("own", "The owner's own knowledge files"),
        ),
    ),
}
"""What each reader is told. Everybody is told the evidence's strength, the innocent explanations
(`doubts`) and the usual cautions (`cautions`)."""


VERDICT = Reader(
    "",
    READERS["myself"].sees,
    True,
    PURPOSE,
    (
        ("short", ""),
        ("doubts", "Doubts and warnings"),
        ("what", "What it is"),
        ("dates", "How old it is: date ranges (80%)"),
        ("belonging", "Is it old, and do the parts belong together?"),
        ("reasons", "Strongest evidence"),
        ("condition", "Condition"),
        ("worth", "What it is worth"),
        ("bid", "What to pay"),
        ("next", "Check next"),
        ("cautions", "Cautions"),
        ("own", "Your own knowledge files"),
    ),
)
"""What is told of a piece on the user's own screen."""

WHY = Reader(
    "",
    VERDICT.sees,
    True,
    PURPOSE,
    (
        ("short", ""),
        ("portrayal", ""),
        ("reasons", "Strongest evidence"),
        ("doubts", "Doubts and warnings"),
        ("belonging", "Is it old, and do the parts belong together?"),
        ("findings", "Belonging: the findings"),
        ("worth", "What it is worth"),
        ("bid", "What to pay"),
        ("cautions", "Cautions"),
        ("own", "Your own knowledge files"),
    ),
)
"""What is behind a verdict."""


def report(matter: ReportInput, reader: str) -> Document:
    """One piece told to one reader.

    `matter`: the piece, judged as that reader may see it (`piece_for`, `entry_for`).
    """
    meant = READERS[reader]
    as_of = matter.verdict.as_of.isoformat()
    parts = sections_for(matter, meant)
    return Document(title_of(matter), parts, meant.says, as_of, meant.purpose, reader)


def sections_for(matter: ReportInput, meant: Reader) -> tuple[Section, ...]:
    """The parts that a reader is told; those that have nothing to say are left out."""
    whole = judged(matter.piece)
    told = (
        _part(part, heading, matter)
        for part, heading in meant.parts
        if (whole or part not in READ) and (matter.priced or part not in PRICED)
    )
    return tuple(chain(*told))


def _part(part: str, heading: str, matter: ReportInput) -> tuple[Section, ...]:
    """One part; what differs between several images is told of each."""
    images = matter.verdict.reading.images if part in EACH else ()
    if not images:
        return _section(part, heading, matter)
    return tuple(
        chain(*(
            _section(f"{part}-{n}", f"{heading} ({side} image)", _of_image(matter, one))
            for n, (side, one) in enumerate(images, start=1)
        ))
    )  # fmt: skip


def _of_image(matter: ReportInput, reading: Reading) -> ReportInput:
    return replace(matter, verdict=replace(matter.verdict, reading=reading))


def _section(name: str, heading: str, matter: ReportInput) -> tuple[Section, ...]:
    blocks = PARTS[name.partition("-")[0] if name not in PARTS else name](matter)
    told = (one for one in blocks if not (matter.brief and _aside(one)))
    return section(name, heading, *told, airy=not matter.brief)


def _aside(block: Block) -> bool:
    """Whether a block is left out where a piece is told in short."""
    return isinstance(block, Picture | Photos) or (
        isinstance(block, Paragraph) and block.tone == "quiet"
    )


def title_of(matter: ReportInput) -> str:
    """What the piece is called, by its file or by the log."""
    called = (matter.piece, matter.kept, matter.entry)
    return next((one.title for one in called if one is not None and one.title), UNTITLED)
