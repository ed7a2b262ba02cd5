"""What a piece is, how old, and whether its parts belong together."""

from collections.abc import Iterator

from appraise.base.ages import birth_years
from appraise.base.dates import year_range
from appraise.base.percents import percent
from appraise.documents import words
from appraise.documents.chart import Bar, Chart
from appraise.documents.document import Block, Facts, Paragraph, Picture, Table
from appraise.documents.reports.answers import part_name, side_name, told, within
from appraise.documents.reports.report_input import ReportInput
from appraise.knowledge.statewords import MEANT, STATES
from appraise.reading.matter import bare, judged
from appraise.reading.reading import Reading
from appraise.verdict.naming import PERHAPS

LIKELY = 0.5  # from which a thing is called by its name
DOUBTED = 0.1  # from which it is said that an image may be a copy, or something added
IN_DOUBT = 0.25  # from which a part is drawn as one that may be an exchange
COMBINED = "combined date"
NO_KIND = "not recorded"
UNDATED = "nothing dates it yet"
RANGES = (
    "Each range is an 80% range: two times in ten the true year lies outside. [1858..1867] is the "
    "standard way (EDTF) to write: one of these years."
)


def in_short(matter: ReportInput) -> Iterator[Block]:
    """The verdict's own sentence; without amounts for a reader who sees no estimate."""
    headline = matter.verdict.headline
    yield Paragraph(str(headline) if matter.priced else headline.what, "lead")
    if matter.own_work:
        yield Paragraph("Made or assembled by the present owner.", "warn")


def what(matter: ReportInput) -> Iterator[Block]:
    """What it is, as far as it was seen."""
    yield Facts.of(_facts(matter))


def portrayal(matter: ReportInput) -> Iterator[Block]:
    """Whether it suits the year that it is to portray."""
    yield Paragraph(_portrayal(matter))


def _portrayal(matter: ReportInput) -> str:
    """Whether it suits that year: by the date on record where that rules the year out."""
    year, dated = matter.piece.portray, matter.kept.dated if matter.kept else ""
    first = year_range(dated)[0] if dated else None
    if year is not None and first is not None and first > year:
        return f"made {dated} by its record: it did not exist in {year}"
    return words.portrayal(matter.verdict.reading)


def _facts(matter: ReportInput) -> Iterator[tuple[str, tuple[str, ...]]]:
    reading, piece = matter.verdict.reading, matter.piece
    yield "kind", (NO_KIND if bare(piece) else words.kind_name(piece.kind),)
    if judged(piece):
        yield from _found(reading, matter)
    rows = (
        ("measured", tuple(f"{name} {size}" for name, size in piece.measured.items())),
        ("shown", tuple(word for word in (*piece.subjects, piece.motif) if word)),
        ("maker", (piece.maker,)),
        ("written on it", words.written(piece)),
        ("sitter", _sitter(reading, matter)),
        ("date on record", (_on_record(reading, matter),)),
        ("portrayal", (_portrayal(matter),)),
    )
    yield from ((name, says) for name, says in rows if any(says))


def _found(reading: Reading, matter: ReportInput) -> Iterator[tuple[str, tuple[str, ...]]]:
    """What the findings say it is; of several images each by itself."""
    knowledge = matter.knowledge
    if not reading.images and reading.family:
        yield "process", (words.processes(reading, knowledge),)
    for side, one in reading.images:
        yield f"{side} image", (f"{words.processes(one, knowledge)}; {within(one.combined)}",)
    rows = (
        ("housing", words.housings(reading, knowledge)),
        ("format", words.formats(reading, knowledge)),
    )
    yield from ((name, (says,)) for name, says in rows if says)


def _on_record(reading: Reading, matter: ReportInput) -> str:
    """The date recorded with the piece, unless it is this reading's own range, filled in."""
    dated = matter.kept.dated if matter.kept else ""
    return "" if dated in (reading.together.edtf, reading.combined.edtf) else dated


def _sitter(reading: Reading, matter: ReportInput) -> tuple[str, ...]:
    """The sitter's age; born by the date on record where there is one, else by the reading's."""
    piece = reading.piece
    if piece.sitter_age is None:
        return ()
    dated = matter.kept.dated if matter.kept else ""
    first, last = year_range(dated, 0) if dated else (None, None)
    if first is None or last is None:
        first, last = reading.combined.first, reading.combined.last
    young, old = piece.sitter_age
    born = birth_years((first, last), piece.sitter_age)
    return (f"{young} to {old} years old by looks, so born {born[0]} to {born[1]}",)


def materials(matter: ReportInput) -> Iterator[Block]:
    """What each part is made of and how it is put together, as it was seen."""
    found: dict[str, list[str]] = {}
    for one in told(matter):
        if one.check.defect is None and one.check.part != "claim":
            found.setdefault(part_name(matter, one.check.id), []).append(one.says)
    yield Facts.of([*_facts(matter), *found.items()])


def plain(matter: ReportInput) -> Iterator[Block]:
    """What it is, for somebody who does not know the field."""
    reading = matter.verdict.reading
    yield Paragraph(matter.verdict.headline.what, "lead")
    for chances in (reading.families, reading.housings):
        word = max(chances, key=lambda one: chances[one], default="")
        row = matter.knowledge.plain.get(word)
        if row is not None and chances[word] >= LIKELY:
            yield Paragraph(row.text)
    yield Paragraph(
        f"If it is of its time, it was made {words.year_range(reading.combined)}; about one "
        "estimate in five like this is wrong."
    )


def dates(matter: ReportInput) -> Iterator[Block]:
    """How old it is, the combined date first, then each part by itself, with the timeline."""
    reading, kind = matter.verdict.reading, matter.piece.kind
    condition = words.if_of_its_time(reading)
    rows = [(COMBINED, ", ".join(filter(None, (within(reading.combined), condition))))]
    if kind != "empty-case":
        rows.append(("image", f"{within(reading.image)}, by its process and what it shows"))
    cased = reading.joint.frame.cased
    modern = reading.modern - (reading.belonging["modern-image"] if cased else reading.modern)
    unless = f", if it is not modern ({percent(1 - modern)})" if modern >= PERHAPS else ""
    for side, span, but in (("package", reading.package, ""), ("housing", reading.housing, unless)):
        name = side_name(matter, side)
        if span or kind == "cased" or (side == "housing" and kind == "empty-case"):
            by = f"{within(span)}, by the {name} alone{but}" if span else UNDATED
            rows.append((name, by))
    yield Facts.of(rows)
    if reading.timeline:
        yield _timeline(matter)
    yield Paragraph(RANGES, "quiet")


def _timeline(matter: ReportInput) -> Picture:
    reading = matter.verdict.reading
    span = reading.combined
    bars, rows = [], []
    for one in reading.timeline:
        first, common, until, last = one.years
        part = matter.knowledge.parts[one.part].name
        doubted = one.exchanged >= IN_DOUBT
        bars.append(Bar(part, one.answer, (first, last), (common, until), open=doubted))
        exchanged = percent(one.exchanged) if one.exchanged > 0 else ""
        rows.append((part, one.answer, f"{first}-{last}", f"{common}-{until}", exchanged))
    bars.append(Bar(COMBINED, "", (span.first, span.last), point=span.median, strong=True))
    rows.append((COMBINED, "", f"{span.first}-{span.last}", "", ""))
    one_of = "One dated finding" if len(rows) == 2 else f"{len(rows) - 1} dated findings"
    says = (
        f"{one_of}, and the combined date: {words.year_range(span)}, middle {span.median}. A bar "
        "is full where such a part was common, and thins out to where it is only possible."
    )
    chart = Chart("Years of the dated parts", says, "years", tuple(bars))
    head = ("part", "finding", "possible", "common", "exchanged")
    return Picture(chart, Table(chart.title, head, tuple(rows), (2, 3, 4)), drawn=True)


def belonging(matter: ReportInput) -> Iterator[Block]:
    """Whether its parts belong together, and how that was put before looking."""
    reading = matter.verdict.reading
    found = sorted(words.belonging(reading).items(), key=lambda item: -item[1])
    bars = tuple(chance for _, chance in found)
    if matter.brief:
        rows = tuple((STATES[state], percent(chance)) for state, chance in found)
        yield Table("", (), rows, (1,), bars=bars)
    else:
        told = tuple(
            (f"{STATES[state]}: {MEANT[state]}", percent(chance)) for state, chance in found
        )
        yield Table("Chances", ("possibility", "chance"), told, (1,), bars=bars)
    if typical := words.typical(reading):
        yield Paragraph(
            f"Typical for such pieces: {typical} are not together from the start (a judgement, "
            "not a count)."
        )
    yield from _beside(reading)


def _beside(reading: Reading) -> Iterator[Block]:
    for says, chance in (
        ("The image may be an old copy of an older one", reading.joint.copy),
        ("Something may have been added or altered", reading.joint.altered),
    ):
        if chance >= DOUBTED:
            yield Paragraph(f"{says}: {percent(chance)}.", "doubt")
