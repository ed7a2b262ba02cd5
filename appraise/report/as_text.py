"""A verdict as plain text: what a person reads on a terminal, or what goes into a pipe."""

import textwrap
from collections.abc import Iterator, Mapping

from appraise.knowledge.records import Knowledge
from appraise.reading.condition import NOT_SEEN
from appraise.reading.reading import Reading, existed_by, looks_right
from appraise.reading.spans import Span
from appraise.report.as_json import why_no_limit, why_no_price
from appraise.report.bid import bill_rows, columned, exchange_said
from appraise.report.own_rows import mark, own_line, took_part
from appraise.verdict import NextSteps, Verdict

WIDTH = 78
NEXT = 4  # checks that are proposed
PURPOSE = "For buying decisions only; not an appraisal for insurance, tax or estate."


def verdict_text(verdict: Verdict, knowledge: Knowledge, steps: NextSteps) -> str:
    """The whole verdict in sections; every number says how much it stands on."""
    reading = verdict.reading
    blocks = [
        _head(verdict),
        _identity(reading, knowledge),
        _years(reading),
        _belonging(reading),
        _warnings(verdict, knowledge),
        _reasons(verdict, knowledge),
        _condition(verdict),
        _money(verdict),
        _steps(steps, knowledge),
        _cautions(verdict),
        _own(verdict, knowledge),
        [PURPOSE],
    ]
    return "\n\n".join("\n".join(block) for block in map(list, blocks) if block) + "\n"


def hundred(chance: float) -> str:
    """A probability as whole parts of a hundred, never 0 or 100 for what is not certain."""
    return f"{min(99, max(1, round(100 * chance)))} in 100"


def _head(verdict: Verdict) -> list[str]:
    piece = verdict.piece
    title = piece.title or "(untitled piece)"
    asked = f", asked {piece.asking}" if piece.asking else ""
    return [title, f"{piece.kind}, {piece.channel}, as of {verdict.as_of}{asked}"]


def leading(chances: Mapping[str, float], names: Mapping[str, str]) -> str:
    """The likeliest of some words, by their names where they have any: at most three."""
    ordered = sorted(chances.items(), key=lambda item: -item[1])[:3]
    told = [f"{names.get(word, word)} {hundred(p)}" for word, p in ordered if p >= 0.02]
    return ", ".join(told)


def _identity(reading: Reading, knowledge: Knowledge) -> Iterator[str]:
    yield f"process   {leading(reading.families, {})}"
    if reading.piece.kind == "cased":
        names = {one.id: one.name for one in knowledge.housings.values()}
        yield f"housing   {leading(reading.housings, names)}"
    formats = reading.formats
    if formats.best:
        names = {one.id: one.name for one in knowledge.formats.values()}
        yield f"format    {leading(formats.probabilities, names)}"


def _years(reading: Reading) -> Iterator[str]:
    def line(name: str, span: Span | None) -> str:
        return f"{name:<9} {span.first} to {span.last}" if span else f"{name:<9} nothing seen"

    yield "years (4 times in 5 within)"
    yield line("picture", reading.image)
    yield line("package", reading.package)
    yield line("housing", reading.housing)
    yield f"{line('together', reading.together)}   {reading.together.edtf}"
    if reading.born:
        yield f"{'sitter':<9} born {reading.born[0]} to {reading.born[1]}"
    yield from portrayal(reading)


def _belonging(reading: Reading) -> Iterator[str]:
    low, high = reading.before
    yield (
        f"do the parts belong together? (married in {round(100 * low)} to {round(100 * high)} of "
        "100 such pieces before looking)"
    )
    for state, chance in reading.belonging.items():
        if chance >= 0.005:
            yield f"{state:<13} {hundred(chance):>9}  {'#' * round(20 * chance)}"


def _warnings(verdict: Verdict, knowledge: Knowledge) -> Iterator[str]:
    for one in verdict.warnings:
        mark = "!" if one.strong else "?"
        weight = f" [{one.word} support, {one.ratio:.0f} to 1]" if one.word else ""
        yield from _wrapped(f"{mark} ", f"{one.says}{weight}")
        if one.because:
            yield from _wrapped("    because ", "; ".join(one.because))
        if one.innocent:
            yield from _wrapped("    or else ", "; ".join(one.innocent))
        if one.look_next:
            asks = [knowledge.checks[name].ask for name in one.look_next]
            yield from _wrapped("    look next ", " ".join(asks))


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
        yield f"{'portrayal':<9} existed by {year}: {by} in 100; looks right: {looks} in 100"


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
        return
    low, median, high = (f"{value:,.0f}" for value in (worth.low, worth.median, worth.high))
    yield f"worth     {low} .. {median} .. {high} {verdict.currency}"
    yield from _wrapped("          ", worth.why)
    if told is None:
        yield from _wrapped("", why_no_limit(verdict))
        return
    if told.worth_its_cost is not None:
        yield f"worth its cost: {hundred(told.worth_its_cost)}"
    if told.advice.walk_away is None:
        yield "do not buy: nothing is left for it"
        return
    if told.opening is not None:
        yield f"offer {told.opening} first"
    walk, bill = told.advice.walk_away, told.advice.bill
    above = f"walk away above {walk}"
    if bill is None or bill.total == walk:
        yield above
        return
    yield f"{above}, which is {bill.total} in all at {told.venue.name}"
    yield from (f"  {row}" for row in columned(bill_rows(bill), 14, 12))
    if bill.exchange is not None:
        yield f"  {exchange_said(bill)}"


def _steps(steps: NextSteps, knowledge: Knowledge) -> Iterator[str]:
    """What to look at next, or that enough has been seen, with what was not looked at."""
    left = len(steps.enough.not_looked)
    if steps.enough.enough:
        yield f"enough seen; {left} checks were not made"
        return
    yield f"look next ({left} checks are open)"
    for one in steps.proposals[:NEXT]:
        yield from _wrapped("  ", f"{knowledge.checks[one.check].ask} It {one.why}.")


def _cautions(verdict: Verdict) -> Iterator[str]:
    if verdict.cautions:
        yield "take care"
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
