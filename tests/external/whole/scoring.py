"""Whole pieces scored against what their sources demand."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from appraise.base.dates import Dating, year_range
from appraise.base.errors import InputError
from appraise.base.settings import Settings
from appraise.base.yamls import compose
from appraise.knowledge import load
from appraise.knowledge.records import Knowledge
from appraise.pricing.estimate import Prices
from appraise.reading.matter import judged as judged_as_one
from appraise.records.piece import Piece
from appraise.records.piece_file import piece_of
from appraise.verdict import Verdict, judge

HERE = Path(__file__).parent
DAY = date(2026, 11, 30)
PRINTED = ("print", "reproduction", "film")


@dataclass(frozen=True)
class Case:
    """One piece: its id, what was seen, what has to come of it."""

    id: str
    seen: Mapping[str, Any]
    expect: Mapping[str, Any]

    def piece(self, knowledge: Knowledge) -> Piece:
        return piece_of(compose(yaml.safe_dump(dict(self.seen)), self.id), knowledge)


@cache
def cases() -> tuple[Case, ...]:
    rows = []
    for path in sorted(HERE.glob("*.yaml")):
        for row in yaml.load(path.read_text("utf-8"), yaml.CSafeLoader)["pieces"]:
            rows.append(Case(row["id"], row["piece"], row["expect"]))
    return tuple(rows)


def misses(case: Case, verdict: Verdict) -> Iterator[str]:
    """Everything in which a verdict falls short of what the sources demand."""
    expect, warned = case.expect, {one.id: one for one in verdict.warnings}
    modern = expect.get("modern", "not-warned")
    yield from _process(expect.get("process") or [], verdict)
    unled = _no_years_lead(str((expect.get("years") or {}).get("or", "")), verdict)
    silent = unled or not judged_as_one(verdict.piece)
    if modern != "strongly-warned" and expect.get("years") and not silent:
        yield from _years(expect["years"], verdict)
    belonging = expect.get("belonging", "either")
    # A modern image in an old case, said so, is said not to belong there.
    if belonging == "married-warned" and not {"married", "reproduction"} & set(warned):
        yield f"married {verdict.reading.married:.2f}, not warned"
    if belonging == "together-not-doubted" and "married" in warned:
        yield f"married {verdict.reading.married:.2f}, warned"
    reproduction = warned.get("reproduction")
    if modern == "not-warned" and reproduction is not None:
        yield f"modern {verdict.reading.modern:.2f}, warned"
    late = modern == "warned" and "late-material" in warned
    if modern != "not-warned" and reproduction is None and not late:
        yield f"modern {verdict.reading.modern:.2f}, not warned"
    if modern == "strongly-warned" and reproduction is not None and not reproduction.strong:
        yield f"modern {verdict.reading.modern:.2f}, warned but not strongly"
    if expect.get("no_number") and verdict.gate is not None and verdict.gate.plain:
        yield "a single limit is given"
    if "copy warned" in str(expect.get("other", "")) and "copy" not in warned:
        yield f"copy {verdict.reading.joint.copy:.2f}, not warned"


def _no_years_lead(other: str, verdict: Verdict) -> bool:
    """Whether a piece comes out right without years: none leads, or they stand under a warning."""
    warned = any(one.id == "reproduction" for one in verdict.warnings)
    return bool(other) and (verdict.reading.modern >= 0.5 or ("warning" in other and warned))


def _process(wanted: list[str], verdict: Verdict) -> Iterator[str]:
    reading = verdict.reading
    if not wanted or not reading.family:
        return
    best = max(reading.processes, key=lambda word: reading.processes[word])
    allowed = set(wanted)
    for words in wanted:
        if "developed" in words or "paper photograph" in words:
            allowed.add("developing-out")
        elif any(word in words for word in PRINTED) and words not in reading.families:
            allowed.add("photomechanical")
    if not allowed & {best, reading.family}:
        yield f"process {reading.family} {reading.families[reading.family]:.2f}, not {wanted}"


def _years(years: Mapping[str, Any], verdict: Verdict) -> Iterator[str]:
    told = verdict.reading.together
    low, high = years["widest"]
    if told.first < low or told.last > high:
        yield f"years {told.first}-{told.last}, outside {low}-{high}"
    documented = [years.get("says")]
    spans = [_span(str(one)) for one in documented if one]
    if spans and not any(told.first <= b and told.last >= a for a, b in spans):
        yield f"years {told.first}-{told.last}, missing {documented}"


def _span(text: str) -> tuple[int, int]:
    first, last = year_range(Dating.parse(text))
    return first or 0, last or 9999


@cache
def demo_prices() -> Prices:
    """The demo's invented price log, learnt."""
    from external.whole.prices import learnt

    return learnt(load(), DAY)


def misses_of(case: Case, knowledge: Knowledge) -> tuple[str, ...]:
    """The same, with a piece that the tool refuses to read as one miss."""
    try:
        return tuple(misses(case, judged(case, knowledge)))
    except InputError as error:
        return (f"refused: {error}",)


def judged(case: Case, knowledge: Knowledge) -> Verdict:
    return judge(case.piece(knowledge), knowledge, demo_prices(), DAY, Settings())
