"""What is behind the verdict, in full: warnings, every finding with its weight, price, cautions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from appraise.app.lines import EMPTY, Line, fold, line
from appraise.app.marks import DOUBT, WARN
from appraise.base.percents import percent
from appraise.documents import words
from appraise.documents.own_rows import mark, own_line, took_part
from appraise.knowledge.records import Knowledge
from appraise.knowledge.statewords import STATES
from appraise.reading.matter import judged
from appraise.reading.words import NONE
from appraise.verdict import Verdict, explain, moved_most, pay_of
from appraise.verdict.pay import sentences


def why_lines(verdict: Verdict, knowledge: Knowledge, money: bool, width: int) -> list[Line]:
    """The page in lines of `width` cells; without amounts where the money is hidden."""
    blocks = (
        _head(verdict, knowledge, money, width),
        _warnings(verdict, knowledge, width),
        _belonging(verdict, width),
        _findings(verdict, knowledge, width),
        _money(verdict, width) if money else iter(()),
        _cautions(verdict, width),
        _own(verdict, knowledge, width),
    )
    out: list[Line] = []
    for block in blocks:
        rows = list(block)
        out += [*rows, EMPTY] if rows else []
    return out


def _head(verdict: Verdict, knowledge: Knowledge, money: bool, width: int) -> Iterator[Line]:
    """The answer, and the findings that moved it most, each with its question."""
    told = str(verdict.headline) if money else verdict.headline.what
    yield from fold(told, width, role="strong")
    for reason in moved_most(verdict, knowledge):
        yield from fold(words.asked_and_told(reason, knowledge), width, "  ")
        how = f"{words.support(reason)}, {words.KNOWN[reason.known]}"
        yield from fold(how, width, "      ", role="quiet")


def _belonging(verdict: Verdict, width: int) -> Iterator[Line]:
    reading = verdict.reading
    if not judged(reading.piece):
        return
    yield line((words.belonging_asked(reading), "head"))
    if typical := words.typical(reading):
        yield from fold(f"Typical for such pieces: {typical} are married pieces.", width)
    for state, chance in words.belonging(reading).items():
        yield line(f"  {STATES[state]:<14}", (f"{percent(chance):>8}", "strong"))
    yield from fold(words.portrayal(reading), width) if words.portrayal(reading) else ()


def _warnings(verdict: Verdict, knowledge: Knowledge, width: int) -> Iterator[Line]:
    if verdict.warnings:
        yield line(("Warnings", "head"))
    for one in verdict.warnings:
        mark, role = (WARN, "warn") if one.strong else (DOUBT, "doubt")
        yield from fold(one.says, width, f"{mark} ", role="strong", lead_role=role)
        if weight := words.weight(one.word, one.ratio):
            yield from fold(weight, width, "    weight: ")
        for name, told in (
            ("because", "; ".join(one.because)),
            ("other explanations", "; ".join(one.innocent)),
            ("check next", " ".join(knowledge.checks[name].ask for name in one.look_next)),
        ):
            if told:
                yield from fold(told, width, f"    {name}: ", lead_role="quiet")


def _findings(verdict: Verdict, knowledge: Knowledge, width: int) -> Iterator[Line]:
    """Each finding, its weight in the words of ENFSI (2015), and towards what."""
    found = explain(verdict.reading, knowledge)
    if not found or not judged(verdict.piece):
        return
    yield line((f"{words.belonging_asked(verdict.reading)} The findings", "head"))
    neutral = sum(1 for one in found if one.word == NONE)
    for reason in [one for one in found if one.word != NONE]:
        part = knowledge.parts[knowledge.checks[reason.check].part].name
        known = words.KNOWN[reason.known]
        told = f"{part}: {reason.says} ({known}){mark(knowledge, reason.check)}"
        yield from fold(told, width, "  ")
        yield from fold(words.support(reason), width, "      ", role="quiet")
    if neutral:
        yield line((f"  {neutral} more say little either way", "quiet"))


def _own(verdict: Verdict, knowledge: Knowledge, width: int) -> Iterator[Line]:
    """The user's own rows behind the verdict, and what they stand over."""
    rows = took_part(verdict, knowledge)
    if rows:
        yield line(("Your own knowledge rows used here", "head"))
    for one in rows:
        yield from fold(own_line(one), width, "  ")


def care_lines(texts: Sequence[str], width: int) -> list[Line]:
    """Cautions, one under the other, with a line between."""
    if not texts:
        return [line("No cautions for this check.")]
    return [
        row for text in texts for row in (*fold(text, width, f"{WARN} ", lead_role="warn"), EMPTY)
    ]


def _money(verdict: Verdict, width: int) -> Iterator[Line]:
    estimate = verdict.estimate
    if estimate is None or not judged(verdict.piece):
        return
    yield line(("Worth", "head"))
    yield from fold(estimate.why, width)
    if verdict.worth is not None:
        yield from fold(verdict.worth.why, width)
    for told in (*sentences(pay_of(verdict), verdict.currency), *verdict.notes):
        yield from fold(told, width)


def _cautions(verdict: Verdict, width: int) -> Iterator[Line]:
    if verdict.cautions:
        yield line(("Cautions", "head"))
    for one in verdict.cautions:
        yield from fold(one.text, width, f"{WARN} ", lead_role="warn")
