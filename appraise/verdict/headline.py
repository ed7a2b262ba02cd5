"""The verdict in one sentence: what it is, when, the main doubt, and what to do about the price."""

from __future__ import annotations

from typing import TYPE_CHECKING

from appraise.base.dataclass import dataclass
from appraise.base.percents import percent
from appraise.knowledge.records import UNJUDGED, Knowledge
from appraise.reading.matter import bare, content_of
from appraise.reading.named import BOTH, CASE, IMAGE, family_name, image_modern, modern_part
from appraise.reading.reading import Reading
from appraise.verdict.against import DISAGREE, OUT_OF_TIME
from appraise.verdict.naming import (
    LIKELY,
    PERHAPS,
    about,
    process_words,
    with_article,
)
from appraise.verdict.pay import pay_of, sentences, short

if TYPE_CHECKING:
    from appraise.records.piece import Piece
    from appraise.verdict.judge import Verdict
    from appraise.verdict.warning import Warning

ORDER, DOUBTFUL, STOP = "order", "doubtful", "stop"
TWO = 2
ALONE = 0.25  # of the chance of anything modern: below it nothing is said of a second modern part
LEFT_ASIDE = {
    "part": "A part by itself",
    "album": "An album",
    "lot": "A lot of several pieces",
    "other": "Not a photograph of a kind that this tool knows",
}
INSTEAD = {
    "part": "it can go into the stock of parts",
    "album": "check its images one by one",
    "lot": "check its pieces one by one, as a lot",
    "other": "nothing is said of its age or worth",
}
BARE = "Nothing recorded yet says what it is. No estimate."


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
    reading, piece = verdict.reading, verdict.piece
    if piece.kind in UNJUDGED:
        return Headline(_left_aside(reading, knowledge), "", DOUBTFUL)
    if bare(piece):
        return Headline(BARE, "", DOUBTFUL)
    told = f"{_several(reading)}{_what(verdict, knowledge)}."
    active = next(
        (one for one in verdict.warnings if one.id == "active-decay" and one.strong), None
    )
    if active is not None:
        told = f"Active decay: {active.says.split(':')[0]}. {_capital(told)}"
    return Headline(_capital(told), _money(verdict), _tone(verdict, active))


def _capital(text: str) -> str:
    return f"{text[0].upper()}{text[1:]}"


def _left_aside(reading: Reading, knowledge: Knowledge) -> str:
    """What a kind that is not judged is told as."""
    kind = reading.piece.kind
    content = content_of(reading.piece, knowledge)
    told = f"{LEFT_ASIDE[kind]} ({content})" if content else LEFT_ASIDE[kind]
    return f"{told}: {INSTEAD[kind]}. No estimate."


def _several(reading: Reading) -> str:
    """Of which of several images the sentence is."""
    count = len(reading.images)
    many = "two" if count == TWO else str(count)
    return f"{many} images; the more doubtful ({reading.side}): " if count > 1 else ""


def _what(verdict: Verdict, knowledge: Knowledge) -> str:
    """What it is, its years and the main doubt, without a full stop."""
    reading = verdict.reading
    name = _name(reading, knowledge)
    if reading.modern >= LIKELY:
        return f"probably {_modern(reading, name, knowledge)}"
    years = about(reading.combined)
    if image_modern(reading) >= PERHAPS:
        years = f"{years} if of its time"
    called = _called(verdict, knowledge)
    return ", ".join([f"{name}{called}", years, _doubt(verdict)])


def _name(reading: Reading, knowledge: Knowledge) -> str:
    """The process, or the two likeliest; of an empty case its material."""
    if reading.piece.kind != "empty-case":
        return process_words(reading, knowledge)
    likely = reading.housings[reading.material] >= LIKELY
    return f"empty case, {knowledge.housings[reading.material].name}" if likely else "empty case"


def _modern(reading: Reading, name: str, knowledge: Knowledge) -> str:
    """What is modern, with the chance that anything is; nothing is said of a case nobody saw."""
    share, part = percent(reading.modern), modern_part(reading)
    alone = len(reading.named) == 1
    if reading.piece.kind == "empty-case":
        return f"a modern case ({share})"
    if not reading.joint.frame.cased:
        return f"a modern {name} ({share})"
    if part == BOTH:
        return f"modern, image and case ({share})"
    if part == CASE:
        return f"a modern case ({share}) around {with_article(name)}"
    if part == IMAGE:
        modern = f"a modern {name if alone else 'image'}"
        if not housing_seen(reading.piece, knowledge):
            return f"{modern} ({share})"
        both = reading.belonging["all-modern"] >= ALONE * reading.modern
        return f"{modern} ({share}), the case perhaps too" if both else (
            f"{modern} ({share}) in an old case"
        )  # fmt: skip
    return f"modern in part, image or case ({share})"


def housing_seen(piece: Piece, knowledge: Knowledge) -> bool:
    """Whether anything is recorded of the case or frame, or it is called something."""
    if piece.found("claim.material") or "case" in piece.measured:
        return True
    parts = (knowledge.checks[one].part for one in piece.findings if one in knowledge.checks)
    return any(knowledge.parts[part].side == "housing" for part in parts)


def _called(verdict: Verdict, knowledge: Knowledge) -> str:
    """That it is called something else than what it looks like."""
    reading = verdict.reading
    doubted = [one for one in verdict.warnings if one.id == "claim-doubted"]
    said = reading.piece.found("claim.process")
    named = not said or said in reading.named
    if not named and any(one.towards in reading.families for one in doubted):
        return f", though called {with_article(family_name(said, knowledge))}"
    case = any(one.towards in reading.housings for one in doubted)
    return ", its case called otherwise" if case else ""


def _doubt(verdict: Verdict) -> str:
    """The main doubt with its chance, or how probable it is that all is in order."""
    reading = verdict.reading
    warned = {one.id for one in verdict.warnings}
    but = ", but not all findings are of its time" if OUT_OF_TIME in warned else ""
    married, together = reading.married, reading.states[0]
    tells_married = married > min(together, LIKELY) or (married >= PERHAPS and "married" in warned)
    if reading.modern >= PERHAPS and not (tells_married and married > reading.modern):
        return f"{_perhaps(reading)} ({percent(reading.modern)})"
    if tells_married:
        return f"{_sure(married)} a married piece ({percent(married)})"
    if reading.joint.copy >= LIKELY:
        return f"probably a period copy ({percent(reading.joint.copy)})"
    if reading.piece.kind == "empty-case" or not reading.joint.frame.cased:
        return f"probably of its time ({percent(1 - reading.modern)}){but}"
    return f"{_sure(together)} together ({percent(together)}){but}"


def _sure(chance: float) -> str:
    return "probably" if chance >= LIKELY else "perhaps"


def _perhaps(reading: Reading) -> str:
    part = modern_part(reading)
    if reading.piece.kind != "empty-case" and not reading.joint.frame.cased:
        return "perhaps modern"
    if part == BOTH:
        return "perhaps modern, image and case"
    return f"perhaps a modern {part if part in (CASE, IMAGE) else 'part'}"


def _tone(verdict: Verdict, active: Warning | None) -> str:
    reading = verdict.reading
    if active is not None or reading.modern >= LIKELY:
        return STOP
    strong = any(one.strong for one in verdict.warnings)
    gated = verdict.gate is not None and bool(verdict.gate.outcomes)
    disagree = any(one.id in DISAGREE for one in verdict.warnings)
    unsure = reading.modern >= PERHAPS or reading.married >= PERHAPS or reading.states[0] < LIKELY
    return DOUBTFUL if unsure or strong or gated or disagree else ORDER


def _money(verdict: Verdict) -> str:
    """Asked against limit and offer, or why there is none."""
    pay, asked, home = pay_of(verdict), verdict.piece.asking, verdict.currency
    if pay.outcomes and verdict.reading.modern >= LIKELY:
        value = f"{pay.outcomes[1].worth:,.0f}"
        lead = f"Asked {short(asked, home)}; worth" if asked is not None else "Worth"
        return f"{lead} about {_alone(verdict.reading)}, {value}."
    notes = () if verdict.worth is not None else verdict.notes
    return " ".join([*sentences(pay, home, asked), *notes])


def _alone(reading: Reading) -> str:
    """What a piece with a modern part is worth, in words."""
    if reading.joint.frame.cased and reading.piece.kind != "empty-case":
        if modern_part(reading) == CASE:
            return "the image alone"
        if modern_part(reading) == IMAGE and (
            reading.belonging["all-modern"] < ALONE * reading.modern
        ):
            return "the case alone"
    return "a decoration"
