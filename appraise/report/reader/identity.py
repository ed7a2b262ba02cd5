"""What a piece is, how old, and whether its parts belong together."""

from collections.abc import Iterable, Iterator
from typing import Any

from appraise.reading.reading import Reading
from appraise.report.as_text import format_words, hundred, leading, portrayal
from appraise.report.object_id import KINDS
from appraise.report.reader.chart import Bar, Chart
from appraise.report.reader.document import Block, Facts, Paragraph, Picture, Table
from appraise.report.reader.matter import Matter
from appraise.report.reader.say import STATES, often, part_name, side_name, told, within

LIKELY = 0.5  # from which a thing is called by its name
DOUBTED = 0.1  # from which it is said that a picture may be a copy, or something added
IN_DOUBT = 0.25  # from which a part is drawn as one that may be an exchange
IF_OLD = "if it is of its period"


def in_short(matter: Matter) -> Iterator[Block]:
    """The piece in two or three sentences."""
    reading = matter.verdict.reading
    state, chance = max(reading.belonging.items(), key=lambda item: item[1])
    span = reading.together
    yield Paragraph(
        f"{_name(matter)}, by what was seen: {leading(reading.families, {})}. The picture, "
        f"{IF_OLD}, was made {span.first} to {span.last} ({often(span)}). Likeliest: "
        f"{STATES[state]}, {hundred(chance)}.",
        "lead",
    )
    if matter.own_work:
        yield Paragraph(
            "Made or assembled by the present owner: it is not as it was found.", "warn"
        )


def _name(matter: Matter) -> str:
    kind = KINDS[matter.piece.kind]
    return kind[0].upper() + kind[1:]


def what(matter: Matter) -> Iterator[Block]:
    """What it is, as far as it was seen."""
    yield Facts(tuple(_facts(matter)))


def _facts(matter: Matter) -> Iterator[tuple[str, tuple[str, ...]]]:
    reading, piece, knowledge = matter.verdict.reading, matter.piece, matter.knowledge
    yield "kind", (KINDS[piece.kind],)
    yield "process", (leading(reading.families, {}),)
    if reading.housings:
        yield "housing", (leading(reading.housings, _names(knowledge.housings.values())),)
    if told_so := format_words(reading, knowledge):
        yield "format", (told_so,)
    for side, one in reading.images:
        yield f"{side} picture", (f"{leading(one.families, {})}; {within(one.together)}",)
    rows = (
        ("measured", tuple(f"{name} {size}" for name, size in piece.measured.items())),
        ("pictured", tuple(word for word in (*piece.subjects, piece.motif) if word)),
        ("maker", (piece.maker,)),
        ("written on it", _written(matter)),
        ("sitter", _sitter(reading)),
        ("dated by its owner", (matter.kept.dated if matter.kept else "",)),
        ("portrayal", tuple(" ".join(line.split()[1:]) for line in portrayal(reading))),
    )
    yield from ((name, says) for name, says in rows if any(says))


def _names(rows: Iterable[Any]) -> dict[str, str]:
    return {one.id: one.name for one in rows}


def _written(matter: Matter) -> tuple[str, ...]:
    written = matter.piece.inscription
    if written is None:
        return ()
    text = f'"{written.text}"' if written.text else ""
    return tuple(one for one in (text, str(written.date or "")) if one)


def _sitter(reading: Reading) -> tuple[str, ...]:
    age = reading.piece.sitter_age
    if age is None or reading.born is None:
        return ()
    return (
        f"{age[0]} to {age[1]} years old by looks, so born {reading.born[0]} to {reading.born[1]}",
    )


def materials(matter: Matter) -> Iterator[Block]:
    """What each part is made of and how it is put together, as it was seen."""
    found: dict[str, list[str]] = {}
    for one in told(matter):
        if one.check.defect is None and one.check.part != "claim":
            found.setdefault(part_name(matter, one.check.id), []).append(one.says)
    yield Facts((*_facts(matter), *((part, tuple(says)) for part, says in found.items())))


def plain(matter: Matter) -> Iterator[Block]:
    """What it is, for somebody who does not know the field."""
    reading = matter.verdict.reading
    for chances in (reading.families, reading.housings):
        word = max(chances, key=lambda one: chances[one], default="")
        row = matter.knowledge.plain.get(word)
        if row is not None and chances[word] >= LIKELY:
            yield Paragraph(row.text)
    span = reading.together
    yield Paragraph(
        f"If it is as old as it looks, it was made between {span.first} and {span.last}; of five "
        "such estimates one misses."
    )


def dates(matter: Matter) -> Iterator[Block]:
    """How old it is, each part by itself, with the timeline."""
    reading = matter.verdict.reading
    sides = (("image", reading.image), ("package", reading.package), ("housing", reading.housing))
    spans = [(side_name(matter, side), span) for side, span in sides]
    cased = matter.piece.kind == "cased"
    yield Facts(
        tuple(
            (name, (within(span) if span else "nothing seen that dates it",))
            for name, span in (*spans, ("all together", reading.together))
            if span or cased
        )
    )
    if reading.timeline:
        yield _timeline(matter)
    yield Paragraph(
        f"The years are those of the picture, {IF_OLD}. A span holds 8 times in 10: in the others "
        "the year lies outside. [1858..1867] is the standard way (EDTF) to write: one of these "
        "years.",
        "quiet",
    )


def _timeline(matter: Matter) -> Picture:
    reading = matter.verdict.reading
    span = reading.together
    bars, rows = [], []
    for one in reading.timeline:
        first, common, until, last = one.years
        part = matter.knowledge.parts[one.part].name
        doubted = one.exchanged >= IN_DOUBT
        bars.append(Bar(part, one.answer, (first, last), (common, until), open=doubted))
        exchanged = hundred(one.exchanged) if one.exchanged > 0 else ""
        rows.append((part, one.answer, f"{first} to {last}", f"{common} to {until}", exchanged))
    bars.append(Bar("all together", "", (span.first, span.last), point=span.median, strong=True))
    rows.append(("all together", "", f"{span.first} to {span.last}", "", ""))
    one_of = "One dated finding" if len(rows) == 2 else f"{len(rows) - 1} dated findings"
    says = (
        f"{one_of}, and the years in which all of it agrees best: {span.first} to {span.last}, "
        f"the middle {span.median}. A bar is full where such a part was common, and thins out to "
        "where it is only possible."
    )
    chart = Chart("Years of the dated parts", says, "years", tuple(bars))
    head = ("part", "what was seen", "possible", "common", "exchanged")
    return Picture(chart, Table(chart.title, head, tuple(rows), (2, 3, 4)), drawn=True)


def belonging(matter: Matter) -> Iterator[Block]:
    """Whether its parts belong together, and how that was put before looking."""
    reading = matter.verdict.reading
    rows = tuple(
        (f"{state.replace('-', ' ')}: {STATES[state]}", hundred(chance))
        for state, chance in sorted(reading.belonging.items(), key=lambda item: -item[1])
        if chance >= 0.005
    )
    yield Table("How the piece came together", ("what may be so", "chance"), rows, (1,))
    low, high = (round(100 * share) for share in reading.before)
    if high:
        yield Paragraph(
            f"Before looking, {low} to {high} of 100 such pieces are put down as not together from "
            "the start: a judgement of the trade, no count.",
            "quiet",
        )
    yield from _beside(reading)


def _beside(reading: Reading) -> Iterator[Block]:
    for says, chance in (
        ("the picture is an old copy of an older one", reading.joint.copy),
        ("something was added to it or altered", reading.joint.altered),
    ):
        if chance >= DOUBTED:
            yield Paragraph(f"Besides, it may be that {says}: {hundred(chance)}.", "doubt")
