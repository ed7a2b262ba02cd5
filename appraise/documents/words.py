"""Words for what a verdict holds, shared by panel, command and report so that all say the same."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from appraise.base.percents import percent
from appraise.knowledge.statewords import STATES, TOWARDS
from appraise.reading.named import image_modern
from appraise.reading.reading import existed_by, looks_right
from appraise.reading.words import NONE
from appraise.verdict.naming import PERHAPS, family_names

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge
    from appraise.reading.condition import Fault, Side
    from appraise.reading.influence import Reason
    from appraise.reading.reading import Reading
    from appraise.reading.spans import Span
    from appraise.records.piece import Piece

PURPOSE = "For buying decisions only; not an appraisal for insurance, tax or estate."
CHANCE = "chance it is worth the price"
KNOWN = {"in-hand": "seen in hand", "photo": "seen in a photo", "seller": "seller says"}
"""How a finding is known."""
KINDS = {
    "cased": "cased photograph",
    "loose-plate": "photographic plate",
    "card": "card photograph",
    "lantern-slide": "lantern slide",
    "cyanotype": "cyanotype",
    "print": "photographic print",
    "postcard": "photographic postcard",
    "empty-case": "empty case for a photograph",
    "part": "part of a cased photograph",
    "album": "photograph album",
    "lot": "lot of photographs",
    "other": "object of another kind",
}
SIDES = {"image": "image", "package": "package", "housing": "case"}
SEVERITY = {"stable": "stable", "conditional": "may get worse", "active": "active"}
SEVEREST = 3
LEAST = 0.02  # processes, housings and formats less likely than that are not listed
LISTED = 3
SHOWN = 0.005  # states less likely than that are not listed
WHOLE = 10.0  # from here on a ratio is told in whole numbers


def written(piece: Piece) -> tuple[str, ...]:
    """What is written on or with a piece, in quotation marks, and the date that it names."""
    found = piece.inscription
    told = (found.quoted, str(found.date or "")) if found else ()
    return tuple(one for one in told if one)


def kind_name(kind: str) -> str:
    """A kind of piece by its name."""
    return KINDS[kind]


def side_name(kind: str, side: str) -> str:
    """What image, package and housing are called with a kind of piece."""
    if side == "housing" and kind not in ("cased", "empty-case"):
        return "mount"
    return SIDES[side]


def ratio_words(ratio: float) -> str:
    """A likelihood ratio: '5.5 to 1', '48 to 1'."""
    return f"{ratio:,.0f} to 1" if ratio >= WHOLE else f"{ratio:.1f} to 1"


def support(reason: Reason) -> str:
    """The strength of a finding, word first: 'weak support for a married piece (5.5 to 1)'."""
    if reason.word == NONE:
        return f"says little either way ({ratio_words(reason.ratio)})"
    towards = TOWARDS.get(reason.towards, STATES.get(reason.towards, reason.towards))
    return f"{reason.word} support for {towards} ({ratio_words(reason.ratio)})"


def weight(word: str, ratio: float) -> str:
    """The strength of a warning, word first.

    Empty where it is no matter of likelihood, or where the chance rests on what the piece is.
    """
    return f"{word} support ({ratio_words(ratio)})" if word not in ("", NONE) else ""


def leading(chances: Mapping[str, float], names: Mapping[str, str]) -> str:
    """The likeliest of some words, by their names where they have any: at most three."""
    ordered = sorted(chances.items(), key=lambda item: -item[1])[:LISTED]
    told = [f"{names.get(word, word)} {percent(p)}" for word, p in ordered if p >= LEAST]
    return ", ".join(told)


def processes(reading: Reading, knowledge: Knowledge) -> str:
    """The likeliest processes with their chances."""
    return leading(reading.families, family_names(knowledge))


def housings(reading: Reading, knowledge: Knowledge) -> str:
    """The likeliest housings with their chances."""
    return leading(reading.housings, {one.id: one.name for one in knowledge.housings.values()})


def formats(reading: Reading, knowledge: Knowledge) -> str:
    """The likeliest formats, or that the measures fit none, and what it is called besides."""
    found = reading.formats
    names = {one.id: one.name for one in knowledge.formats.values()}
    chances = leading(found.probabilities, names) if found.best else ""
    return ", ".join(part for part in (chances, found.remark(knowledge.formats)) if part)


def if_of_its_time(reading: Reading) -> str:
    """The condition under which the image's years hold, with its chance; '' where none is put."""
    modern = image_modern(reading)
    if modern < PERHAPS or reading.piece.kind == "empty-case":
        return ""
    return f"if the image is of its time ({percent(1 - modern)})"


def year_range(span: Span) -> str:
    """Years in a sentence: '1858 to 1867'."""
    return f"{span.first} to {span.last}" if span.first < span.last else f"{span.first}"


def typical(reading: Reading) -> str:
    """How often such pieces are married before looking: '8-30%'; '' where that is no question."""
    if reading.piece.kind != "cased":
        return ""
    low, high = (round(100 * share) for share in reading.before)
    return f"{low}-{high}%"


def belonging(reading: Reading) -> dict[str, float]:
    """The states of belonging that are listed; of what has one part, of its time and modern."""
    if reading.piece.kind == "empty-case":
        return {"period": 1 - reading.modern, "modern": reading.modern}
    return {state: chance for state, chance in reading.belonging.items() if chance >= SHOWN}


def portrayal(reading: Reading) -> str:
    """Whether the piece suits the year that it is to portray; '' where there is none."""
    year = reading.piece.portray
    if year is None:
        return ""
    by, looks = percent(existed_by(reading, year)), percent(looks_right(reading, year))
    return f"existed by {year}: {by}; looks right: {looks}"


def condition(side: Side) -> str:
    """The condition of one side, and how much of it was checked."""
    if not side.done:
        return "not checked"
    return f"{side.says} ({side.done} of {side.of} checked)"


def severity(fault: Fault) -> str:
    """How bad a fault is: 'severity 2 of 3, active'."""
    return f"severity {fault.step} of {SEVEREST}, {SEVERITY[fault.stability]}"


def about(low: float, median: float, high: float, currency: str) -> str:
    """An estimate, the middle first: 'about 84 USD (55-135)'."""
    return f"about {amount(median)} {currency} ({amount(low)}-{amount(high)})"


def amount(value: float) -> str:
    """Money to the unit, with cents below one."""
    return f"{value:,.0f}" if value >= 1 else f"{value:.2f}"
