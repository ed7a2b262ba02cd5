"""The verdict in one sentence: what it is, when, the main doubt, and what to do about the price."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from math import floor
from typing import TYPE_CHECKING

from appraise.knowledge.records import UNJUDGED, Knowledge
from appraise.piece.holds import no_maximum
from appraise.reading.matter import content_of
from appraise.reading.reading import Reading
from appraise.reading.words import percent

if TYPE_CHECKING:
    from appraise.base.money import Money
    from appraise.pricing.estimate import Estimate
    from appraise.reading.plain_warnings import Warning
    from appraise.verdict.judge import Verdict

ORDER, DOUBTFUL, STOP = "order", "doubtful", "stop"
LIKELY, PERHAPS = 0.5, 0.3
STATES = {
    "modern-case": "a modern case",
    "modern-image": "a modern picture in an old case",
    "all-modern": "modern, picture and case",
}
LEFT_ASIDE = {
    "part": "A part by itself",
    "album": "An album",
    "lot": "A lot of several pieces",
    "other": "Not a photograph of a kind that this tool knows",
}
INSTEAD = {
    "part": "it can go into the stock of parts",
    "album": "look at its pictures one by one",
    "lot": "judge its pieces one by one, as a lot",
    "other": "nothing is said of its age or worth",
}


@dataclass(frozen=True, slots=True)
class Headline:
    """The answer first.

    Attributes:
        what: What it is, when, and the main doubt.
        money: What to do about the price; empty where there is nothing to say.
        tone: 'order', 'doubtful' or 'stop'.
    """

    what: str
    money: str
    tone: str

    def __str__(self) -> str:
        return f"{self.what} {self.money}".strip()


def headline_of(verdict: Verdict, knowledge: Knowledge) -> Headline:
    """The headline of a verdict; of several images that of the more doubtful."""
    reading = verdict.reading
    if reading.piece.kind in UNJUDGED:
        return Headline(_left_aside(reading, knowledge), "", DOUBTFUL)
    worst = doubtful_image(reading)
    what = _what(worst, verdict, knowledge)
    active = next(
        (one for one in verdict.warnings if one.id == "active-decay" and one.strong), None
    )
    if active is not None:
        what = f"Active decay: {active.says.split(':')[0]}. {what}"
    return Headline(what, _money(verdict, worst), _tone(verdict, worst, active))


def doubtful_image(reading: Reading) -> Reading:
    """Of several images the one that is likelier modern or married; else the reading itself."""
    if not reading.images:
        return reading
    return max((one for _, one in reading.images), key=lambda one: one.modern + one.married)


def years(reading: Reading) -> str:
    """The combined years in short: "about 1858-67"."""
    first, last = reading.together.first, reading.together.last
    if first == last:
        return f"{first}"
    short = f"{last % 100:02}" if first // 100 == last // 100 else f"{last}"
    return f"about {first}-{short}"


def _left_aside(reading: Reading, knowledge: Knowledge) -> str:
    """What a kind that is not judged is told as."""
    kind = reading.piece.kind
    content = content_of(reading.piece, knowledge)
    told = f"{LEFT_ASIDE[kind]} ({content})" if content else LEFT_ASIDE[kind]
    return f"{told}: {INSTEAD[kind]}. No estimate."


def _what(reading: Reading, verdict: Verdict, knowledge: Knowledge) -> str:
    several = f"{len(verdict.reading.images)} pictures; the more doubtful: " if (
        len(verdict.reading.images) > 1
    ) else ""  # fmt: skip
    name = _name(reading, knowledge)
    if reading.modern >= LIKELY:
        return f"{several}{_modern(reading, name)}."
    doubts = list(_doubts(reading, verdict))
    told = ", ".join([f"{name}, {years(reading)}", *doubts])
    return f"{several}{told}." if several else f"{told[0].upper()}{told[1:]}."


def _name(reading: Reading, knowledge: Knowledge) -> str:
    """The process, or the two likeliest; of an empty case its material."""
    if reading.piece.kind == "empty-case":
        return f"empty case, {knowledge.housings[reading.material].name}"
    names = {one.id: one.name for one in knowledge.processes.values() if one.id == one.family}
    words = {family: _family_word(family, names) for family in reading.named}
    if len(words) == 1:
        return next(iter(words.values()))
    return " or ".join(f"{word} ({percent(reading.families[one])})" for one, word in words.items())


def _family_word(family: str, names: dict[str, str]) -> str:
    return "printed reproduction" if family == "photomechanical" else names.get(family, family)


def _modern(reading: Reading, name: str) -> str:
    if not reading.joint.frame.cased:
        what = name if name == "printed reproduction" else f"modern {name}"
        return f"Probably a {what} ({percent(reading.modern)})"
    if reading.piece.kind == "empty-case":
        return f"Probably a modern case ({percent(reading.modern)})"
    state = max(STATES, key=lambda word: reading.belonging[word])
    if state == "modern-case":
        return f"Probably a modern case ({percent(reading.modern)}) around {_a(name)}"
    if state == "modern-image":
        return f"Probably a modern print or picture in an old case ({percent(reading.modern)})"
    return f"Probably modern, picture and case ({percent(reading.modern)})"


def _doubts(reading: Reading, verdict: Verdict) -> Iterator[str]:
    """The main doubt with its percentage, or how probable it is that all is in order."""
    warned = {one.id for one in verdict.warnings}
    if "claim-doubted" in warned and reading is verdict.reading:
        yield "not what it is called"
    if reading.modern >= PERHAPS:
        yield f"perhaps modern ({percent(reading.modern)})"
    elif reading.married >= LIKELY:
        yield f"probably a married piece ({percent(reading.married)})"
    elif reading.married >= PERHAPS and "married" in warned:
        yield f"perhaps a married piece ({percent(reading.married)})"
    elif reading.joint.copy >= LIKELY:
        yield f"probably a period copy ({percent(reading.joint.copy)})"
    elif reading.piece.kind == "empty-case" or not reading.joint.frame.cased:
        yield f"probably of its time ({percent(1 - reading.modern)})"
    else:
        yield f"probably together ({percent(reading.states[0])})"


def _tone(verdict: Verdict, reading: Reading, active: Warning | None) -> str:
    if active is not None or reading.modern >= LIKELY:
        return STOP
    strong = any(one.strong for one in verdict.warnings)
    gated = verdict.gate is not None and bool(verdict.gate.outcomes)
    doubtful = reading.modern >= PERHAPS or reading.married >= PERHAPS or strong or gated
    return DOUBTFUL if doubtful else ORDER


def _money(verdict: Verdict, reading: Reading) -> str:
    """Asked against limit and offer, or why there is none."""
    estimate = verdict.estimate
    if estimate is None or estimate.entries == 0:
        return "Log a few prices to get a limit."
    told, gate = verdict.money, verdict.gate
    if verdict.no_terms:
        return f"No limit: {verdict.no_terms}"
    if told is None or gate is None:
        return " ".join([_no_estimate(estimate), *verdict.notes])
    if verdict.holds_back:
        return no_maximum(verdict.holds_back)
    if reading.modern >= LIKELY:
        return _modern_worth(verdict, reading)
    if gate.outcomes:
        return _either(verdict)
    limit, home = told.advice.walk_away, verdict.currency
    if limit is None:
        return "Nothing is left for it: do not buy."
    if not gate.plain:
        return f"Limit {short(limit, home)} if all else is in order; {gate.missing}."
    return _asked(verdict, limit)


def _no_estimate(estimate: Estimate) -> str:
    return f"No estimate: {floor(estimate.like)} similar of 5 needed."


def _modern_worth(verdict: Verdict, reading: Reading) -> str:
    assert verdict.worth is not None
    what = "the case" if reading.belonging.get("modern-image", 0) >= LIKELY else "a decoration"
    if reading.belonging.get("modern-case", 0) >= LIKELY:
        what = "the picture alone"
    return f"Worth about {what}, {verdict.worth.median:,.0f}."


def _either(verdict: Verdict) -> str:
    """The two limits on which the worth stands."""
    assert verdict.gate is not None
    told = [
        f"{one.says} ({percent(one.chance)}) "
        + (f"limit {short(one.limit, verdict.currency)}" if one.limit is not None else "nothing")
        for one in verdict.gate.outcomes
    ]
    asked = verdict.piece.asking
    lead = f"Asked {short(asked, verdict.currency)}; " if asked is not None else ""
    text = f"{lead}no plain limit: {'; '.join(told)}."
    return f"{text[0].upper()}{text[1:]}"


def _asked(verdict: Verdict, limit: Money) -> str:
    told, home = verdict.money, verdict.currency
    assert told is not None
    asked = verdict.piece.asking
    name = "limit" if told.opening is not None else "maximum bid"
    offer = f"; offer {short(told.opening, home)}" if told.opening is not None else ""
    if asked is None or asked.currency != limit.currency:
        return f"{name[0].upper()}{name[1:]} {short(limit, home)}{offer}."
    over = asked.amount - limit.amount
    if over > 0:
        by = short(type(limit)(over, limit.currency), home)
        return f"Asked {short(asked, home)}: {by} above your {name} of {short(limit, home)}{offer}."
    return f"Asked {short(asked, home)}: within your {name} of {short(limit, home)}{offer}."


def short(amount: Money, home: str) -> str:
    """An amount without its currency where that is the user's own, and without idle cents."""
    value = amount.amount
    told = f"{value:,.0f}" if value == value.to_integral_value() else f"{value:,.2f}"
    assert isinstance(value, Decimal)
    return told if amount.currency == home else f"{told} {amount.currency}"


def _a(name: str) -> str:
    return f"{'an' if name[:1] in 'aeio' else 'a'} {name}"
