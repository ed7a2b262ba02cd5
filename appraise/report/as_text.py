"""A verdict as plain text: what a person reads on a terminal, or what goes into a pipe."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator, Mapping
from typing import TYPE_CHECKING

from appraise.knowledge.records import Knowledge
from appraise.piece.holds import no_maximum
from appraise.reading.condition import NOT_SEEN
from appraise.reading.matter import judged
from appraise.reading.reading import Reading, existed_by, looks_right
from appraise.reading.spans import Span
from appraise.reading.words import percent
from appraise.report.as_json import why_no_limit, why_no_price
from appraise.report.bid import bill_rows, columned, exchange_said
from appraise.report.own_rows import mark, own_line, took_part
from appraise.verdict import NextSteps, Verdict

if TYPE_CHECKING:
    from appraise.pricing.money import MoneyAdvice

WIDTH = 78
NEXT = 4  # checks that are proposed
DOUBTED = 0.3  # from that chance of a modern part its years are told with a condition
PURPOSE = "For buying decisions only; not an appraisal for insurance, tax or estate."


def verdict_text(verdict: Verdict, knowledge: Knowledge, steps: NextSteps) -> str:
    """The whole verdict in sections; every number says how much it stands on."""
    reading = verdict.reading
    if not judged(verdict.piece):
        blocks = [_head(verdict), _warnings(verdict, knowledge), _cautions(verdict), [PURPOSE]]
        return "\n\n".join("\n".join(block) for block in map(list, blocks) if block) + "\n"
    blocks = [
        _head(verdict),
        _warnings(verdict, knowledge),
        *(_pictures(reading, knowledge) if reading.images else _one(reading, knowledge)),
        _reasons(verdict, knowledge),
        _condition(verdict),
        _money(verdict),
        _steps(steps, knowledge),
        _cautions(verdict),
        _own(verdict, knowledge),
        [PURPOSE],
    ]
    return "\n\n".join("\n".join(block) for block in map(list, blocks) if block) + "\n"


def _one(reading: Reading, knowledge: Knowledge) -> list[Iterator[str]]:
    """What it is, how old, whether it belongs together."""
    return [_identity(reading, knowledge), _years(reading), _belonging(reading)]


def _pictures(reading: Reading, knowledge: Knowledge) -> Iterator[Iterable[str]]:
    """The same for each of several pictures."""
    for side, one in reading.images:
        yield [f"--- {side} ---"]
        yield from _one(one, knowledge)


def hundred(chance: float) -> str:
    """A probability as a percentage, never 0% or 100%."""
    return percent(chance)


def _head(verdict: Verdict) -> list[str]:
    piece = verdict.piece
    title = piece.title or "(untitled piece)"
    asked = f", asked {piece.asking}" if piece.asking else ""
    about = [title, f"{piece.kind}, {piece.channel}, as of {verdict.as_of}{asked}"]
    return [*about, "", *_wrapped("", str(verdict.headline))]


def leading(chances: Mapping[str, float], names: Mapping[str, str]) -> str:
    """The likeliest of some words, by their names where they have any: at most three."""
    ordered = sorted(chances.items(), key=lambda item: -item[1])[:3]
    told = [f"{names.get(word, word)} {hundred(p)}" for word, p in ordered if p >= 0.02]
    return ", ".join(told)


def _identity(reading: Reading, knowledge: Knowledge) -> Iterator[str]:
    if reading.family:
        yield f"process   {leading(reading.families, {})}"
    if reading.housings:
        names = {one.id: one.name for one in knowledge.housings.values()}
        yield f"housing   {leading(reading.housings, names)}"
    if told := format_words(reading, knowledge):
        yield f"format    {told}"


def format_words(reading: Reading, knowledge: Knowledge) -> str:
    """The likeliest formats, or that the measures fit none, and what it is called besides."""
    formats = reading.formats
    names = {one.id: one.name for one in knowledge.formats.values()}
    chances = leading(formats.probabilities, names) if formats.best else ""
    return ", ".join(part for part in (chances, formats.remark(knowledge.formats)) if part)


def _years(reading: Reading) -> Iterator[str]:
    def line(name: str, span: Span | None) -> str:
        return f"{name:<9} {span.first} to {span.last}" if span else f"{name:<9} nothing seen"

    if reading.modern >= DOUBTED:
        yield f"years (80% range), if the image is not modern ({percent(reading.modern)})"
    else:
        yield "years (80% range)"
    yield f"{line('combined', reading.together)}   {reading.together.edtf}"
    yield line("image", reading.image) + "   by the process and what the image shows"
    yield line("package", reading.package) + ("   by itself" if reading.package else "")
    yield line("case", reading.housing) + ("   by itself" if reading.housing else "")
    if reading.born:
        yield f"{'sitter':<9} born {reading.born[0]} to {reading.born[1]}"
    yield from portrayal(reading)


def _belonging(reading: Reading) -> Iterator[str]:
    low, high = reading.before
    if reading.piece.kind == "cased":
        before = f" (married piece: {round(100 * low)} to {round(100 * high)}% before looking)"
    else:
        before = ""
    yield f"do the parts belong together?{before}" if before else "is it of its time?"
    for state, chance in reading.belonging.items():
        if chance >= 0.005:
            yield f"{state:<13} {hundred(chance):>8}  {'#' * round(20 * chance)}"


def _warnings(verdict: Verdict, knowledge: Knowledge) -> Iterator[str]:
    for one in verdict.warnings:
        mark = "!" if one.strong else "?"
        weight = f" [{one.word} support, {one.ratio:.0f} to 1]" if one.word else ""
        yield from _wrapped(f"{mark} ", f"{one.says}{weight}")
        if one.because:
            yield from _wrapped("    because ", "; ".join(one.because))
        if one.innocent:
            yield from _wrapped("    other explanations: ", "; ".join(one.innocent))
        if one.look_next:
            asks = [knowledge.checks[name].ask for name in one.look_next]
            yield from _wrapped("    check next: ", " ".join(asks))


def _reasons(verdict: Verdict, knowledge: Knowledge) -> Iterator[str]:
    told = [one for one in verdict.explanation if one.word != "no"]
    if told:
        yield "what moved it most"
    for one in told[:6]:
        part = knowledge.parts[knowledge.checks[one.check].part].name
        yield from _wrapped(
            "  ",
            f"{part}: {one.says} ({one.known}) {one.ratio:.1f} to 1 for {one.towards}, {one.word}"
            f"{mark(knowledge, one.check)}",
        )


def portrayal(reading: Reading) -> Iterator[str]:
    """Whether the piece suits the year that it is to portray."""
    year = reading.piece.portray
    if year is not None:
        by, looks = (round(100 * of(reading, year)) for of in (existed_by, looks_right))
        yield f"{'portrayal':<9} existed by {year}: {by}%; looks right: {looks}%"


def _condition(verdict: Verdict) -> Iterator[str]:
    reading = verdict.reading
    yield "condition"
    for name, side in reading.condition.sides.items():
        counted = side.grade == NOT_SEEN and side.worst is None and side.done
        seen = "" if counted else f" ({side.done} of {side.of} looked at)"
        yield f"  {name:<8} {side.says}{seen}"
    for fault in reading.condition.faults:
        never = f" {fault.defect.never}" if fault.defect.never else ""
        yield from _wrapped("  - ", f"{fault.defect.name}, step {fault.step}: {fault.says}.{never}")
    if any(side.done for side in reading.condition.sides.values()):
        yield f"  price    {verdict.kept:.2f} of one with the usual damage (a judgement)"


def _money(verdict: Verdict) -> Iterator[str]:
    worth, told = verdict.worth, verdict.money
    if worth is None:
        yield from _wrapped("worth     ", why_no_price(verdict))
        if verdict.holds_back:
            yield from _wrapped("", no_maximum(verdict.holds_back))
        return
    low, median, high = (f"{value:,.0f}" for value in (worth.low, worth.median, worth.high))
    yield f"worth     {low} .. {median} .. {high} {verdict.currency}"
    yield from _wrapped("          ", worth.why)
    if told is None:
        yield from _wrapped("", why_no_limit(verdict))
        return
    if told.worth_its_cost is not None:
        yield f"worth its cost: {hundred(told.worth_its_cost)}"
    if verdict.holds_back:
        yield from _wrapped("", no_maximum(verdict.holds_back))
        return
    for note in verdict.notes:
        yield from _wrapped("", note)
    yield from _limit(verdict, told)


def _limit(verdict: Verdict, told: MoneyAdvice) -> Iterator[str]:
    """What to pay at most: two limits where two things may be true, else one with its bill."""
    gate = verdict.gate
    if gate is not None and gate.outcomes:
        yield "no plain limit:"
        for one in gate.outcomes:
            most = f"limit {one.limit}" if one.limit else "nothing"
            yield from _wrapped("  ", f"{one.says} ({percent(one.chance)}): {most}")
        return
    if told.advice.walk_away is None:
        yield "do not buy: nothing is left for it"
        return
    if gate is not None and gate.missing:
        yield from _wrapped("", f"this limit holds if all else is in order: {gate.missing}")
    if told.opening is not None:
        yield f"offer {told.opening} first"
    walk, bill = told.advice.walk_away, told.advice.bill
    if bill is None or bill.total == walk:
        yield f"limit {walk}"
        return
    yield f"limit {walk}, which is a total of {bill.total} at {told.venue.name}"
    yield from (f"  {row}" for row in columned(bill_rows(bill), 14, 12))
    if bill.exchange is not None:
        yield f"  {exchange_said(bill)}"


def _steps(steps: NextSteps, knowledge: Knowledge) -> Iterator[str]:
    """What to look at next, or that enough has been seen, with what was not looked at."""
    left = len(steps.enough.not_looked)
    if steps.enough.enough:
        yield f"enough seen; {left} checks were not made"
        return
    yield f"check next ({left} checks are open)"
    for one in steps.proposals[:NEXT]:
        yield from _wrapped("  ", f"{knowledge.checks[one.check].ask} It {one.why}.")


def _cautions(verdict: Verdict) -> Iterator[str]:
    if verdict.cautions:
        yield "cautions"
    for one in verdict.cautions:
        yield from _wrapped("  - ", one.text)


def _own(verdict: Verdict, knowledge: Knowledge) -> Iterator[str]:
    """The user's own rows that took part, and what they stand over."""
    rows = took_part(verdict, knowledge)
    if rows:
        yield "rows of your own that took part"
    for one in rows:
        yield from _wrapped("  - ", own_line(one))


def _wrapped(lead: str, text: str) -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent=lead, subsequent_indent=" " * len(lead)) or [
        lead
    ]
