"""A verdict as plain text: what a person reads on a terminal, or what goes into a pipe."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from appraise.base.percents import percent
from appraise.base.wrapping import wrapped
from appraise.documents import words
from appraise.documents.bid import bill_table, exchange_said
from appraise.documents.own_rows import mark, own_line, took_part
from appraise.documents.writers.lines import table_text
from appraise.knowledge.records import Knowledge
from appraise.knowledge.statewords import STATES
from appraise.reading.matter import bare, judged
from appraise.verdict import NextSteps, Verdict, moved_most, pay_of
from appraise.verdict.naming import PERHAPS
from appraise.verdict.pay import LIMIT, no_estimate

if TYPE_CHECKING:
    from appraise.reading.reading import Reading
    from appraise.reading.spans import Span
    from appraise.verdict.pay import Pay

WIDTH = 78
NO_KIND = "kind not recorded"
NEXT = 4  # checks that are proposed
BAR = 20  # cells


def verdict_text(verdict: Verdict, knowledge: Knowledge, steps: NextSteps) -> str:
    """The whole verdict in sections; every number says how much it stands on."""
    reading = verdict.reading
    if not judged(verdict.piece):
        blocks = [
            _head(verdict),
            _warnings(verdict, knowledge),
            _steps(steps, knowledge),
            _cautions(verdict),
            [words.PURPOSE],
        ]
        return "\n\n".join("\n".join(block) for block in map(list, blocks) if block) + "\n"
    blocks = [
        _head(verdict),
        _warnings(verdict, knowledge),
        *(_images(reading, knowledge) if reading.images else _one(reading, knowledge)),
        _evidence(verdict, knowledge),
        _condition(verdict),
        _money(verdict),
        _steps(steps, knowledge),
        _cautions(verdict),
        _own(verdict, knowledge),
        [words.PURPOSE],
    ]
    return "\n\n".join("\n".join(block) for block in map(list, blocks) if block) + "\n"


def _one(reading: Reading, knowledge: Knowledge) -> list[Iterator[str]]:
    """What it is, how old, whether it belongs together."""
    return [_identity(reading, knowledge), _years(reading), _belonging(reading)]


def _images(reading: Reading, knowledge: Knowledge) -> Iterator[Iterable[str]]:
    """The same for each of several images."""
    for side, one in reading.images:
        yield [f"--- {side} ---"]
        yield from _one(one, knowledge)


def _head(verdict: Verdict) -> list[str]:
    piece = verdict.piece
    title = piece.title or "(untitled piece)"
    asked = f", asked {piece.asking}" if piece.asking else ""
    kind = NO_KIND if bare(piece) else words.kind_name(piece.kind)
    about = f"{kind}, {piece.channel}, as of {verdict.as_of}{asked}"
    return [title, about, "", *_wrapped("", str(verdict.headline))]


def _identity(reading: Reading, knowledge: Knowledge) -> Iterator[str]:
    rows = (
        ("process", words.processes(reading, knowledge) if reading.family else ""),
        ("housing", words.housings(reading, knowledge)),
        ("format", words.formats(reading, knowledge)),
    )
    for name, told in rows:
        if told:
            yield from _wrapped(f"{name:<10}", told)


def _years(reading: Reading) -> Iterator[str]:
    def line(name: str, span: Span | None, by: str) -> str:
        told = f"{words.year_range(span)}   {by}" if span else "nothing dates it yet"
        return f"{name:<10}{told}"

    condition = words.if_of_its_time(reading)
    yield f"date ranges (80%){f', {condition}' if condition else ''}"
    kind = reading.piece.kind
    yield line("combined", reading.combined, reading.combined.edtf)
    if kind != "empty-case":
        yield line("image", reading.image, "by its process and what it shows")
    if kind == "cased":
        yield line("package", reading.package, "by the package alone")
    if kind in ("cased", "empty-case") or reading.housing:
        name = words.side_name(kind, "housing")
        modern = reading.modern - words.image_only(reading)
        unless = f", if it is not modern ({percent(1 - modern)})" if modern >= PERHAPS else ""
        yield line(name, reading.housing, f"by the {name} alone{unless}")
    if reading.born:
        yield f"{'sitter':<10}born {reading.born[0]} to {reading.born[1]}"
    if told := words.portrayal(reading):
        yield f"{'portrayal':<10}{told}"


def _belonging(reading: Reading) -> Iterator[str]:
    typical = words.typical(reading)
    yield words.belonging_asked(reading) + (f" (typical: {typical} married)" if typical else "")
    for state, chance in words.belonging(reading).items():
        bar = "#" * round(BAR * chance)
        yield f"{STATES[state]:<14}{percent(chance):>8}  {bar}".rstrip()


def _warnings(verdict: Verdict, knowledge: Knowledge) -> Iterator[str]:
    for one in verdict.warnings:
        weight = words.weight(one.word, one.ratio)
        told = f"{one.says}: {weight}" if weight else one.says
        yield from _wrapped(f"{'!' if one.strong else '?'} ", told)
        if one.because:
            yield from _wrapped("    because ", "; ".join(one.because))
        if one.innocent:
            yield from _wrapped("    other explanations: ", "; ".join(one.innocent))
        if one.look_next:
            asks = [knowledge.checks[name].ask for name in one.look_next]
            yield from _wrapped("    check next: ", " ".join(asks))


def _evidence(verdict: Verdict, knowledge: Knowledge) -> Iterator[str]:
    """The findings that moved the verdict most, each with its question."""
    told = moved_most(verdict, knowledge)
    if told:
        yield "strongest evidence"
    for one in told:
        own = mark(knowledge, one.check)
        asked = words.asked_and_told(one, knowledge)
        yield from _wrapped("  - ", f"{asked} ({words.KNOWN[one.known]}){own}")
        yield from _wrapped("    ", words.support(one))


def _condition(verdict: Verdict) -> Iterator[str]:
    reading = verdict.reading
    yield "condition"
    for name, side in reading.condition.sides.items():
        if side.of:
            called = words.side_name(verdict.piece.kind, name)
            yield from _wrapped(f"  {called:<8} ", words.condition(side))
    for fault in reading.condition.faults:
        never = f" {fault.defect.never}" if fault.defect.never else ""
        told = f"{fault.defect.name}, {words.severity(fault)}: {fault.says}.{never}"
        yield from _wrapped("  - ", told)
    if any(side.done for side in reading.condition.sides.values()):
        yield f"  factor   x{verdict.kept:.2f} against a typical example (a judgement)"


def _money(verdict: Verdict) -> Iterator[str]:
    """What it is worth, and what to pay at most."""
    worth, told, pay = verdict.worth, verdict.money, pay_of(verdict)
    if worth is None:
        why = verdict.estimate.why if verdict.estimate is not None else no_estimate(verdict)
        yield from _wrapped("worth     ", why)
        if verdict.holds_back:
            yield from _wrapped("", pay.reason)
        return
    yield f"worth     {words.about(worth.low, worth.median, worth.high, verdict.currency)}"
    yield from _wrapped("          ", worth.why)
    if told is not None and told.worth_its_cost is not None:
        yield f"{percent(told.worth_its_cost)} {words.CHANCE}"
    for note in verdict.notes:
        yield from _wrapped("", note)
    yield from pay_lines(pay, told.venue.name if told is not None else "")


def pay_lines(pay: Pay, where: str) -> Iterator[str]:
    """What to pay at most: two limits where the worth is in doubt, else one with its bill."""
    if pay.reason:
        yield from _wrapped("", pay.reason)
        return
    if pay.outcomes:
        yield f"no plain {pay.name}:"
        for one in pay.outcomes:
            most = f"{pay.name} {one.limit}" if one.limit else "nothing"
            yield from _wrapped("  ", f"{one.says} ({percent(one.chance)}): {most}")
        return
    if pay.opening is not None:
        yield f"offer {pay.opening} first"
    told = f"{pay.name} {pay.limit}"
    if pay.bill is not None and pay.bill.total != pay.limit:
        told += f", a total of {pay.bill.total} at {where}"
    yield from _wrapped(
        "", told + (f", if all else is in order: {pay.missing}" * bool(pay.missing))
    )
    if pay.bill is not None and pay.bill.total != pay.limit:
        yield from (f"  {row}" for row in table_text(bill_table(pay.bill, pay.name == LIMIT)))
        if pay.bill.exchange is not None:
            yield f"  {exchange_said(pay.bill)}"


def _steps(steps: NextSteps, knowledge: Knowledge) -> Iterator[str]:
    """What to check next, or that enough has been seen, with what was not checked."""
    left = len(steps.enough.not_looked)
    if not steps.proposals and not left:
        return
    if steps.enough.enough:
        yield f"seen enough to decide; {left} checks not done"
        return
    yield f"check next ({left} not done)"
    for one in steps.proposals[:NEXT]:
        yield from _wrapped("  - ", f"{knowledge.checks[one.check].ask} It {one.why}.")


def _cautions(verdict: Verdict) -> Iterator[str]:
    if verdict.cautions:
        yield "cautions"
    for one in verdict.cautions:
        yield from _wrapped("  - ", one.text)


def _own(verdict: Verdict, knowledge: Knowledge) -> Iterator[str]:
    """The user's own rows that took part, and what they stand over."""
    rows = took_part(verdict, knowledge)
    if rows:
        yield "your own knowledge rows used here"
    for one in rows:
        yield from _wrapped("  - ", own_line(one))


def _wrapped(lead: str, text: str) -> list[str]:
    return wrapped(text, WIDTH, lead)
