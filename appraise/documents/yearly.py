"""What was in use in a year."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import chain, groupby
from typing import Any

from appraise.base.dates import Dating, year_range
from appraise.base.jsonvalues import picked
from appraise.documents.document import Block, Bullets, Document, Paragraph, Section, section
from appraise.knowledge.records import Knowledge, Years
from appraise.knowledge.yearly import USUAL, Current
from appraise.records.owned import OwnedPiece

SCHEMA = "appraise.year/1"
NOTHING = "nothing dated in the knowledge files"
EMPTY = "empty-case"
PLURALS = {
    "cased": "cased pieces",
    "loose-plate": "loose plates",
    "card": "cards",
    "lantern-slide": "slides",
    "cyanotype": "cyanotypes",
    "print": "prints",
    "postcard": "postcards",
    EMPTY: "empty cases",
}
NOTE = (
    "Years from the knowledge files: when a thing was in use, not how common it was. Sources "
    "err, styles lingered, and old stock was used up late."
)


def year_json(year: int, found: Sequence[Current], knowledge: Knowledge) -> dict[str, Any]:
    """Everything that was about in a year."""
    rows = [
        picked(one, "part kinds ask says state region", years=four(one.years))
        | picked(one.basis, "sources", basis=one.basis.mark, confidence=one.years.confidence)
        for one in found
    ]
    return {"schema": SCHEMA, "year": year, "knowledge": knowledge.digest, "rows": rows}


def four(years: Years) -> tuple[int, int, int, int]:
    """The four years of a trapezoid."""
    return years.first, years.start, years.end, years.last


def year_document(
    year: int,
    found: Sequence[Current],
    knowledge: Knowledge,
    pieces: Iterable[OwnedPiece] = (),
) -> Document:
    """The same for reading, part by part and question by question, what was usual first.

    `pieces`: what one owns, of which those that may be of the year or are older stand on top.
    """
    parts = (
        section(
            part, knowledge.parts[part].name if part in knowledge.parts else part, *_asked(mine)
        )
        for part, mine in groupby(found, key=lambda one: one.part)
    )
    told = tuple(chain(*parts)) or section("none", "", Paragraph(NOTHING))
    return Document(f"In use in {year}", (*_own(year, pieces), *told), purpose=NOTE)


def _own(year: int, pieces: Iterable[OwnedPiece]) -> tuple[Section, ...]:
    """One's own pieces that there may have been in the year, by the date on their records."""
    dated = [(one, Dating.parse(one.dated)) for one in pieces if one.owned and one.dated]
    then = [one for one, when in dated if when.admits(year)]
    older = [one for one, when in dated if one not in then and (year_range(when)[1] or year) < year]
    rows = [f"{one.title} ({one.dated})" for one in then]
    rows += [f"older: {one.title} ({one.dated})" for one in older]
    return section("own-pieces", "Your own pieces", Bullets(tuple(rows)))


def _asked(found: Iterable[Current]) -> Iterator[Block]:
    """Each question with its answers; where that says more, an answer names its kinds itself."""
    for ask, answers in groupby(found, key=lambda one: one.ask):
        these = list(answers)
        each = ask == these[0].part
        if not each:
            yield Paragraph(f"{ask} ({_of_what(these[0].kinds)})", "quiet")
        usual = tuple(_answer(one, each) for one in these if one.state == USUAL)
        others = tuple(f"{one.state}: {_answer(one, each)}" for one in these if one.state != USUAL)
        yield Bullets(usual, "lead")
        yield Bullets(others)


def _answer(one: Current, each: bool) -> str:
    region = f", {one.region}" if one.region else ""
    told = f"{one.says} ({_span(one.years)}{region}; {one.basis.mark})"
    return f"{told}: {_of_what(one.kinds)}" if each else told


def _span(years: Years) -> str:
    """When a thing was usual, and from when to when it is met with at all."""
    first, start, end, last = four(years)
    outer = "" if (first, last) == (start, end) else f", outer limits {first}-{last}"
    return f"{start}-{end}{outer}"


def _of_what(kinds: Sequence[str]) -> str:
    """Kinds of piece in words, e.g. 'cards, prints'; every kind with an image: 'any image'."""
    if set(PLURALS) <= {*kinds, EMPTY}:
        return "any image"
    return ", ".join(PLURALS.get(kind, kind) for kind in kinds)
