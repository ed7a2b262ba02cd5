"""What was usual in a year, as JSON and as text."""

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Any

from appraise.base.wrapping import wrapped
from appraise.knowledge.records import Knowledge, Years
from appraise.knowledge.yearly import USUAL, Current

SCHEMA = "appraise.year/1"
WIDTH = 96
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
    return {
        "schema": SCHEMA,
        "year": year,
        "knowledge": knowledge.digest,
        "rows": [
            {
                "part": one.part,
                "kinds": list(one.kinds),
                "ask": one.ask,
                "says": one.says,
                "state": one.state,
                "years": list(four(one.years)),
                "confidence": one.years.confidence,
                "region": one.region,
                "basis": one.basis.mark,
                "sources": list(one.basis.sources),
            }
            for one in found
        ],
    }


def four(years: Years) -> tuple[int, int, int, int]:
    """The four years of a trapezoid."""
    return years.first, years.start, years.end, years.last


def year_text(year: int, found: Sequence[Current], knowledge: Knowledge) -> str:
    """The same for reading, part by part and question by question, what was usual first."""
    rows = [f"in use in {year}"]
    for part, mine in groupby(found, key=lambda one: one.part):
        rows += ["", knowledge.parts[part].name if part in knowledge.parts else part]
        for ask, answers in groupby(mine, key=lambda one: one.ask):
            these = list(answers)
            told = f"{ask} ({of_what(these[0].kinds)})" if ask != part else ""
            rows += wrapped(told, WIDTH, "  ", "    ")
            rows += _answers(these, each=ask == part)
    if not found:
        rows += ["", "nothing dated in the knowledge files"]
    return "\n".join([*rows, "", *wrapped(NOTE, WIDTH)])


def span_words(years: Years) -> str:
    """When a thing was usual, and from when to when it is met with at all."""
    first, start, end, last = four(years)
    outer = "" if (first, last) == (start, end) else f", outer limits {first}-{last}"
    return f"{start}-{end}{outer}"


def of_what(kinds: Sequence[str]) -> str:
    """Kinds of piece in words, e.g. 'cards, prints'; every kind with an image: 'any image'."""
    if set(PLURALS) <= {*kinds, EMPTY}:
        return "any image"
    return ", ".join(PLURALS.get(kind, kind) for kind in kinds)


def _answers(found: Sequence[Current], each: bool) -> Iterator[str]:
    """The rows of one question; `each` says for what every one by itself."""
    for one in sorted(found, key=lambda one: one.state != USUAL):
        region = f", {one.region}" if one.region else ""
        told = f"{one.says} ({span_words(one.years)}{region}; {one.basis.mark})"
        told += f": {of_what(one.kinds)}" if each else ""
        lead = "    . " if one.state == USUAL else f"    - {one.state}: "
        yield from wrapped(told, WIDTH, lead, " " * 8)
