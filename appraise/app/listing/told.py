"""An item of the list in words: its line, and below the list all there is to say about it."""

from __future__ import annotations

from collections.abc import Iterator

from appraise.app.lines import Bit, Line, clip, ends, fill, fold, line, spread
from appraise.app.listing.items import AMOUNTS, SIGNS, Item
from appraise.app.marks import DOUBT, ORDER, UNSEEN, Marks
from appraise.documents.claimed import claim_words, said_words
from appraise.documents.own_rows import own_flag, own_line
from appraise.knowledge.records import Check, Knowledge
from appraise.listing.records import Listing
from appraise.records.piece import UNTOLD, Finding, Piece

DIGITS = 9  # answers that a digit can give
GRAVITY = {
    "warn": "This decides the price.",
    "ask": "Ask before you bid.",
    "note": "For information only.",
}
SURE = 0.8  # below it the words may well mean something else


def seen_of(item: Item, piece: Piece) -> Finding | None:
    """What pictures showed of an item; None while only the seller speaks."""
    found = piece.findings.get(item.check)
    return found if found is not None and found.known != "seller" else None


def row(
    item: Item, here: bool, piece: Piece, knowledge: Knowledge, width: int, marks: Marks
) -> Line:
    """The item in one line: number, sign, words, and how it stands."""
    number = f"{item.place + 1:>3}" if item.place >= 0 else "   "
    if item.section == "piece":
        number = f"{item.number + 1:>3}"
    sign, role = _sign(item, piece)
    note = _note(item, piece)
    words = clip(_head(item, knowledge), max(1, width - len(note) - 10), marks)
    point = marks.here if here else " "
    left = line(f"{point}{number} ", (sign, role), f" {words}")
    told = ends(left, line((note, "quiet"), " "), width)
    return tuple((text, "here") for text, _ in fill(told, width)) if here else told


def _head(item: Item, knowledge: Knowledge) -> str:
    if item.claim is not None:
        return claim_words(item.claim, knowledge)
    if item.flag is not None:
        return item.flag.says
    if item.section == "gap":
        gap = knowledge.gaps.get(item.text)
        return gap.says if gap else item.text
    return item.text


def _sign(item: Item, piece: Piece) -> Bit:
    """A sign and its role: a flag's gravity, or how a claim stands against the pictures."""
    if item.flag is not None:
        sign = SIGNS[item.flag.severity] or " "
        return sign, {"warn": "warn", "ask": "doubt"}.get(item.flag.severity, "")
    seen = seen_of(item, piece)
    if seen is not None and seen.answer != UNTOLD:
        so = item.claimed in ("", seen.answer)
        return (ORDER, "good") if so else (DOUBT, "doubt")
    return (UNSEEN, "quiet") if item.section == "gap" else (" ", "")


def _note(item: Item, piece: Piece) -> str:
    seen = seen_of(item, piece)
    if seen is not None:
        if seen.answer == UNTOLD:
            return "cannot tell"
        return "seen" if item.claimed in ("", seen.answer) else "photos differ"
    return "admits" if item.claim is not None and item.claim.against_interest else ""


def detail(
    item: Item, listing: Listing, piece: Piece, knowledge: Knowledge, width: int, rows: int
) -> list[Line]:
    """All there is to say about an item, in `rows` lines of `width` cells or fewer."""
    if item.claim is not None:
        told = _of_claim(item, listing, width)
    elif item.flag is not None:
        told = _of_flag(item, knowledge, width)
    elif item.section == "piece":
        told = _of_part(item.text, listing.parts[item.number], knowledge, width)
    elif item.section == "question":
        told = fold(item.text, width, role="strong")
    else:
        told = []
    told += _pictures(item, piece, knowledge, width, rows - len(told))
    gap = knowledge.gaps.get(item.text) if item.section == "gap" else None
    told += fold(gap.question, width, "Ask: ", lead_role="quiet") if gap else []
    return told[:rows]


def _of_claim(item: Item, listing: Listing, width: int) -> list[Line]:
    claim = item.claim
    assert claim is not None
    says = []
    if claim.against_interest:
        says.append("Against the seller's own interest, so it counts more.")
    if claim.field == "date":
        says.append(f"Recorded as {claim.value}.")
    if claim.score < SURE:
        says.append("The words may mean something else.")
    if not item.check and not listing.parts and claim.field not in AMOUNTS:
        says.append("The photos cannot settle this. Press i to correct it.")
    out = [line((f'"{clip(claim.text, width - 2)}"', "strong"))]
    return [*out, *(fold(" ".join(says), width) if says else ())]


def _pictures(item: Item, piece: Piece, knowledge: Knowledge, width: int, rows: int) -> list[Line]:
    """The question that pictures can answer here, with as many answers as there is room for."""
    if not item.check:
        return []
    check = knowledge.checks[item.check]
    seen = seen_of(item, piece)
    ask = "What do the photos show?" if item.check == "claim.process" else check.ask
    out = fold(f"In the photos: {ask}", width)
    given = seen.answer if seen else ""
    for shown in range(min(DIGITS, len(check.answers)), -1, -1):
        answers = spread(list(_answers(check, given, shown, width)), width)
        if len(out) + len(answers) <= rows or not shown:
            return [*out, *answers]
    return out


def _answers(check: Check, given: str, shown: int, width: int) -> Iterator[Line]:
    for number, one in enumerate(check.answers[:shown], start=1):
        role = "strong" if one.id == given else ""
        yield line((str(number), "key"), (" ", ""), (clip(one.says, width - 2), role))
    if len(check.answers) > shown:
        yield line(("a", "key"), f" {len(check.answers) - shown} more")


def _of_flag(item: Item, knowledge: Knowledge, width: int) -> list[Line]:
    flag = item.flag
    assert flag is not None
    own = own_flag(knowledge, flag.id)
    lead = f"{SIGNS[flag.severity]} ".lstrip()
    role = {"warn": "warn", "ask": "doubt"}.get(flag.severity, "")
    out = fold(flag.says, width, lead, role="strong", lead_role=role)
    out += fold(f"{flag.why} {GRAVITY[flag.severity]}", width)
    if flag.question:
        out += fold(flag.question, width, "Ask: ", lead_role="quiet")
    return [*out, *(fold(own_line(own), width, "Own: ", lead_role="quiet") if own else ())]


def _of_part(title: str, part: Piece, knowledge: Knowledge, width: int) -> list[Line]:
    said = [knowledge.formats[part.named_format].name] if part.named_format else []
    for name, one in part.findings.items():
        said.append(said_words(name, one.answer, knowledge))
    told = f"The seller says: {'; '.join(said)}." if said else "The seller says nothing specific."
    return [
        *fold(title, width, role="strong"),
        *fold(told, width),
        *fold("enter: examine this piece.", width, role="quiet"),
    ]
