"""Who is told what: one table of readers, and one of the parts of a report."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import field, replace
from itertools import chain

from appraise.base.dataclass import dataclass
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
        told: What is told, in order: keys of `PARTS`, parted by blanks.
        heads: Headings that are others than those of `PARTS`.
    """

    says: str
    sees: Sight
    looks_on: bool
    purpose: str
    told: str
    heads: Mapping[str, str] = field(default_factory=dict)

    @property
    def parts(self) -> tuple[tuple[str, str], ...]:
        """What is told, in order: (key of `PARTS`, heading)."""
        return tuple((name, self.heads.get(name, PARTS[name][0])) for name in self.told.split())


PARTS: Mapping[str, tuple[str, Write]] = {
    "short": ("In short", identity.in_short),
    "what": ("What it is", identity.what),
    "portrayal": ("", identity.portrayal),
    "materials": ("Materials and construction", identity.materials),
    "plain": ("What it is", identity.plain),
    "dates": ("How old it is", identity.dates),
    "belonging": ("Is it old, and do the parts belong together?", identity.belonging),
    "doubts": ("Doubts and warnings", doubts.doubts),
    "reasons": ("Strongest evidence", doubts.reasons),
    "findings": ("Belonging: the findings", doubts.findings),
    "condition": ("Condition", condition.condition),
    "active": ("Active deterioration", condition.active),
    "by-part": ("Condition, part by part", condition.by_part),
    "treatments": ("Repairs and exchanges", treatments.treatments),
    "looks": ("Earlier condition checks", treatments.looks),
    "unseen": ("What is not checked", condition.unseen),
    "conservators": ("For your judgement", condition.for_conservators),
    "worth": ("What it is worth", money.worth),
    "bid": ("What to pay", money.bid),
    "paid": ("What was paid", money.paid),
    "record": ("Identification (Object ID)", keeping.record),
    "photos": ("Photos", keeping.photos),
    "pictures": ("Photos", keeping.pictures),
    "matters": ("Why it may matter", keeping.matters),
    "keep": ("How to keep it safe", keeping.keep),
    "never": ("What never to do to it", keeping.never),
    "ask": ("Whom to ask", keeping.ask),
    "owned": ("Location history", keeping.owned),
    "where": ("Where the record is", keeping.where),
    "next": ("Check next", doubts.next_looks),
    "cautions": ("Cautions", doubts.cautions),
    "own": ("The owner's own knowledge files", doubts.own_rows),
}
"""Every part of a report: its heading, and what writes it; what has nothing to say is left out."""

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

_MINE = {"own": "Your own knowledge files"}
READERS: Mapping[str, Reader] = {
    "myself": Reader(
        "Full report for myself",
        frozenset({"estimate", "paid", "people"}),
        True,
        PURPOSE,
        "short photos worth bid doubts what dates belonging reasons condition treatments next "
        "cautions own",
        _MINE,
    ),
    "public": Reader(
        "Description",
        frozenset(),
        False,
        f"{_STEM}, and not a certificate. It reports what was seen and how certain it is.",
        "short photos what dates belonging doubts condition treatments unseen cautions own",
        {"treatments": "Repairs, exchanges and own work"},
    ),
    "conservator": Reader(
        "Materials, construction and condition, for a conservator",
        frozenset(),
        False,
        f"{_STEM}, and not a conservator's examination: a collector saw it from outside.",
        "photos active by-part materials treatments looks unseen conservators dates belonging "
        "doubts cautions own",
        {"treatments": "Earlier treatments and exchanges", "cautions": "Hazards and cautions"},
    ),
    "insurer": Reader(
        "Record of identification and purchase",
        frozenset({"paid", "people"}),
        False,
        f"{_STEM}: a licensed or qualified appraiser gives one.",
        "record pictures paid owned condition treatments doubts cautions own",
    ),
    "heir": Reader(
        "For whoever owns it next",
        frozenset({"paid", "people"}),
        False,
        f"{_STEM}: ask a licensed or qualified appraiser for one.",
        "plain photos matters keep never cautions treatments doubts ask paid owned where own",
        {"treatments": "What was done to it"},
    ),
}
"""What each reader is told. Everybody is told the evidence's strength, the innocent explanations
(`doubts`) and the usual cautions (`cautions`)."""


VERDICT = Reader(
    "",
    READERS["myself"].sees,
    True,
    PURPOSE,
    "short doubts what dates belonging reasons condition worth bid next cautions own",
    {"short": "", "dates": "How old it is: date ranges (80%)", **_MINE},
)
"""What is told of a piece on the user's own screen."""

WHY = replace(
    VERDICT,
    told="short portrayal reasons doubts belonging findings worth bid cautions own",
    heads={"short": "", **_MINE},
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
    told: list[Section] = []
    for n, (side, one) in enumerate(images, start=1):
        of_image = replace(matter, verdict=replace(matter.verdict, reading=one))
        told += _section(f"{part}-{n}", f"{heading} ({side} image)", of_image)
    return tuple(told)


def _section(name: str, heading: str, matter: ReportInput) -> tuple[Section, ...]:
    blocks = PARTS[name.partition("-")[0] if name not in PARTS else name][1](matter)
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
