"""What is behind the verdict, in full: warnings, every finding with its weight, price, cautions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from appraise.app.examine.state import KNOWN_WORDS
from appraise.app.lines import EMPTY, Line, fold, line
from appraise.app.marks import DOUBT, WARN
from appraise.knowledge.records import Knowledge
from appraise.reading.influence import Reason
from appraise.reading.words import NONE, percent
from appraise.report.as_text import portrayal
from appraise.report.own_rows import mark, own_line, took_part
from appraise.verdict import Verdict

MOVED_MOST = 3  # findings told beside the answer
PURPOSE = "For buying decisions only; not an appraisal for insurance, tax or estate."


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
    for reason in [one for one in verdict.explanation if one.word != NONE][:MOVED_MOST]:
        asked = knowledge.checks[reason.check].ask
        says = "" if reason.says.startswith(asked) else f" {reason.says}"
        yield from fold(f"{asked}{says}", width, "  ")
        yield line((f"      {weight_of(reason)}", "quiet"))


def _belonging(verdict: Verdict, width: int) -> Iterator[Line]:
    reading = verdict.reading
    yield line(("Do the parts belong together?", "head"))
    low, high = (round(100 * end) for end in reading.before)
    if reading.piece.kind == "cased":
        told = f"Before looking, {low} to {high}% of such pieces are married pieces."
        yield from fold(told, width)
    for state, chance in reading.belonging.items():
        if chance >= 0.005:
            yield line(f"  {state:<13}", (f"{percent(chance):>8}", "strong"))
    for told in portrayal(reading):
        yield from fold(told, width)


def _warnings(verdict: Verdict, knowledge: Knowledge, width: int) -> Iterator[Line]:
    if verdict.warnings:
        yield line(("Warnings", "head"))
    for one in verdict.warnings:
        mark, role = (WARN, "warn") if one.strong else (DOUBT, "doubt")
        yield from fold(one.says, width, f"{mark} ", role="strong", lead_role=role)
        if one.word:
            yield from fold(f"{one.word} support, {one.ratio:.0f} to 1", width, "    weight: ")
        for name, told in (
            ("because", "; ".join(one.because)),
            ("other explanations", "; ".join(one.innocent)),
            ("check next", " ".join(knowledge.checks[name].ask for name in one.look_next)),
        ):
            if told:
                yield from fold(told, width, f"    {name}: ", lead_role="quiet")


def _findings(verdict: Verdict, knowledge: Knowledge, width: int) -> Iterator[Line]:
    """Each finding, its weight in the words of ENFSI (2015), and towards what."""
    if not verdict.explanation:
        return
    yield line(("What each finding says, the weightiest first", "head"))
    neutral = sum(1 for one in verdict.explanation if one.word == NONE)
    for reason in [one for one in verdict.explanation if one.word != NONE]:
        part = knowledge.parts[knowledge.checks[reason.check].part].name
        known = KNOWN_WORDS[reason.known]
        told = f"{part}: {reason.says} ({known}){mark(knowledge, reason.check)}"
        yield from fold(told, width, "  ")
        yield line((f"      {weight_of(reason)}", "quiet"))
    if neutral:
        yield line((f"  {neutral} more say little either way", "quiet"))


def _own(verdict: Verdict, knowledge: Knowledge, width: int) -> Iterator[Line]:
    """The user's own rows behind the verdict, and what they stand over."""
    rows = took_part(verdict, knowledge)
    if rows:
        yield line(("Rows of your own that took part", "head"))
    for one in rows:
        yield from fold(own_line(one), width, "  ")


def care_lines(texts: Sequence[str], width: int) -> list[Line]:
    """Cautions, one under the other, with a line between."""
    if not texts:
        return [line("No caution is called for at this check.")]
    return [
        row for text in texts for row in (*fold(text, width, f"{WARN} ", lead_role="warn"), EMPTY)
    ]


def weight_of(reason: Reason) -> str:
    """The weight of a finding in words and as a ratio."""
    if reason.word == NONE:
        return f"says little either way, {reason.ratio:.1f} to 1"
    ratio = f"{reason.ratio:.0f}" if reason.ratio >= 10 else f"{reason.ratio:.1f}"
    return f"{reason.word} support for {reason.towards}, {ratio} to 1"


def _money(verdict: Verdict, width: int) -> Iterator[Line]:
    estimate = verdict.estimate
    if estimate is None:
        return
    yield line(("Worth", "head"))
    yield from fold(estimate.why, width)
    if verdict.worth is not None:
        yield from fold(verdict.worth.why, width)


def _cautions(verdict: Verdict, width: int) -> Iterator[Line]:
    if verdict.cautions:
        yield line(("Cautions", "head"))
    for one in verdict.cautions:
        yield from fold(one.text, width, f"{WARN} ", lead_role="warn")
