"""A date written on or with a piece, held against when its process, case and parts existed."""

import re
from collections.abc import Iterator, Mapping

from appraise.base.dates import Dating, year_range
from appraise.knowledge.records import YEARS, Knowledge, Years
from appraise.reading.reading import Reading
from appraise.reading.spans import span_of
from appraise.records.piece import Inscription
from appraise.verdict.warning import Warning

SURE = 0.8  # from which a process or a housing is held against the writing
HARDLY_OUTSIDE = 0.95  # the span that a written date has to miss; a true one lies within it
FIRM = ("high", "medium")
INNOCENT = (
    "a note may record a birth, a wedding, or the original of a copy",
    "a part renewed later, in its own time",
    "a later hand that remembered the year wrongly",
)


YEAR = re.compile(r"(?<!\d)1[89]\d\d(?!\d)")
HOW = "In the app: i, date written. In a piece file: inscription: {date: 1859, where: backing}."


PLACES = {
    "plate": "on the plate", "seal": "on the seal", "backing": "on the backing",
    "mat": "on the mat", "caption": "in the caption", "back": "on the back",
    "case": "in the case", "stamp": "in the cancel of the stamp", "note": "in the loose note",
}  # fmt: skip


def written_date(reading: Reading, knowledge: Knowledge) -> Iterator[Warning]:
    """Each written date at which the process, the case or a dated part did not exist.

    So is one outside the combined years. It is strong where the process itself is out of its years,
    since parts and cases are exchanged and processes are not.
    """
    for one in reading.piece.writings:
        if one.date is not None:
            yield from _doubted(one, one.date, reading, knowledge)


def unread_year(reading: Reading) -> Iterator[Warning]:
    """Writing that holds a year and was recorded without a date: it counts for nothing yet."""
    for one in reading.piece.writings:
        years = [int(word) for word in YEAR.findall(one.text) if int(word) in YEARS]
        if one.date is None and years:
            yield Warning(
                "written-year-not-used",
                f"the inscription names {years[0]}, which counts for nothing yet: if it is the "
                f"date of the piece, record it as written, with the part it is on. {HOW}",
                "inscription",
            )


def _doubted(
    one: Inscription, date: Dating, reading: Reading, knowledge: Knowledge
) -> Iterator[Warning]:
    first, last = year_range(date)
    span = (YEARS[0] if first is None else first, YEARS[-1] if last is None else last)
    process = tuple(_process(reading, knowledge, span))
    because = (*process, *_housing(reading, knowledge, span), *_parts(reading, span))
    told, wide = reading.together, span_of(reading.year_weights, HARDLY_OUTSIDE)
    outside = span[1] < wide.first or (span[0] > wide.last and one.where != "stamp")
    if because or outside:
        place = PLACES.get(one.where, "written")
        yield Warning(
            "written-date-disagrees",
            f"the date {place} is {date}; the combined date is {told.first} to {told.last}",
            "inscription",
            strong=bool(process),
            because=because,
            innocent=INNOCENT,
        )


def _process(reading: Reading, knowledge: Knowledge, span: tuple[int, int]) -> Iterator[str]:
    family = reading.family
    if reading.families[family] < SURE:
        return
    rows = [one.years for one in knowledge.processes.values() if one.family == family and one.years]
    ends = [_ends(years, reading.piece.region) for years in rows]
    if ends and span[1] < (begins := min(first for first, _ in ends)):
        yield f"{family}: not before {begins}"
    elif ends and span[0] > (over := max(last for _, last in ends)):
        yield f"{family}: not after {over}"


def _housing(reading: Reading, knowledge: Knowledge, span: tuple[int, int]) -> Iterator[str]:
    housing = knowledge.housings.get(reading.material)
    if housing is None or not housing.years or not reading.piece.found("case.material"):
        return
    begins, _ = _ends(housing.years, reading.piece.region)
    if reading.housings[housing.id] >= SURE and span[1] < begins:
        yield f"{housing.name}: not before {begins}"


def _parts(reading: Reading, span: tuple[int, int]) -> Iterator[str]:
    """Dated findings whose first possible year lies after the writing.

    Rows of low confidence, and those of another region, rule nothing out.
    """
    region = reading.piece.region
    for one in reading.evidence:
        rows = one.check.answers[one.answer].years
        known = list(rows.values()) if region == "unknown" else [rows.get(region) or rows.get("")]
        sure = [row for row in known if row is not None and row.confidence in FIRM]
        if sure and len(sure) == len(known) and span[1] < (begins := min(r.first for r in sure)):
            yield f"{one.check.told(one.answer)}: not before {begins}"


def _ends(years: Mapping[str, Years], region: str) -> tuple[int, int]:
    """First possible and last plausible year, in the region or in any."""
    rows = [years[region]] if region in years else list(years.values())
    return min(row.first for row in rows), max(row.last for row in rows)
