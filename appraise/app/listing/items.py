"""What stands in the list: pieces, claims, flags, gaps and questions, as plain records."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import groupby

from appraise.app.listing.marked import Place
from appraise.app.listing.sides import question_for
from appraise.app.marks import DOUBT, WARN
from appraise.base.dataclass import dataclass
from appraise.knowledge.records import Knowledge
from appraise.listing.offered import plain_title
from appraise.listing.records import Claim, Flag, Listing
from appraise.records.piece import UNTOLD, Piece

AMOUNTS = ("asking", "postage")
"""Claims that are amounts, which are hidden where one is to be discreet."""
SIGNS = {"warn": WARN, "ask": DOUBT, "note": ""}
HEADS = {
    "piece": "pieces in the lot",
    "claim": "the seller says",
    "flag": "warnings",
    "gap": "not mentioned",
    "question": "questions to ask",
}
"""The sections of the list, in their order."""


@dataclass(frozen=True, slots=True)
class Item:
    """A line of the list.

    Attributes:
        section: A key of `HEADS`.
        place: The number of its place in the text, from 0; -1: it stands nowhere.
        check: The check that pictures can answer here; empty: none.
        claimed: The answer to it that the seller gives; empty: none.
        claim: What it is about, if that is a claim.
        flag: The same for a flag.
        text: The words of a question, the id of a gap, the title of a piece.
        number: Which piece of a lot, from 0.
    """

    section: str
    place: int = -1
    check: str = ""
    claimed: str = ""
    claim: Claim | None = None
    flag: Flag | None = None
    text: str = ""
    number: int = -1

    @property
    def amount(self) -> bool:
        """Whether it is a claim that is an amount."""
        return self.claim is not None and self.claim.field in AMOUNTS


def spans_of(listing: Listing) -> list[tuple[int, int]]:
    """Where claims and flags stand, each stretch once, in the order of the text."""
    found = {(one.start, one.end) for one in listing.claims}
    for flag in listing.flags:
        if flag.start is not None and flag.end is not None:
            found.add((flag.start, flag.end))
    return sorted((one for one in found if one[0] < one[1]), key=lambda one: (one[0], -one[1]))


def places_of(listing: Listing) -> tuple[Place, ...]:
    """The places to mark in the text; where a flag stands the gravest sign stands too."""
    signs: dict[tuple[int, int], str] = {}
    for flag in reversed(listing.flags):  # the gravest come first, so they are written last
        if flag.start is not None and flag.end is not None:
            signs[flag.start, flag.end] = SIGNS[flag.severity]
    return tuple(
        Place(*span, flag=span in signs, sign=signs.get(span, "")) for span in spans_of(listing)
    )


def amounts_in(text: str, listing: Listing) -> tuple[tuple[int, int], ...]:
    """Where the amounts of a text stand, and where what is asked is said again without a sign."""
    claims = [one for one in listing.claims if one.field in AMOUNTS]
    asked = {
        found.rstrip(".,")
        for one in claims
        if one.field == "asking"
        for found in re.findall(r"\d[\d.,]*", one.text)
    }
    again = (re.finditer(rf"(?<![\w.,/]){re.escape(one)}(?![\w/]|[.,]\d)", text) for one in asked)
    return (
        *((one.start, one.end) for one in claims),
        *(m.span() for found in again for m in found),
    )


def items_of(listing: Listing, kind: str, knowledge: Knowledge) -> tuple[Item, ...]:
    """The list but for the questions; it depends on the text and the kind of piece alone."""
    numbers = {span: number for number, span in enumerate(spans_of(listing))}
    return (
        *_pieces(listing.parts),
        *_claims(listing, kind, knowledge, numbers),
        *(
            Item("flag", numbers.get((one.start or 0, one.end or 0), -1), flag=one)
            for one in listing.flags
        ),
        *_gaps(listing, kind, knowledge),
    )


def _pieces(parts: Sequence[Piece]) -> Iterator[Item]:
    """A line for each piece; those that follow each other alike are told once."""
    number = 0
    for part, same in groupby(parts):
        count = sum(1 for _ in same)
        title = plain_title(part.title)
        yield Item("piece", text=f"{count} x {title}" if count > 1 else title, number=number)
        number += count


def asking(listing: Listing, piece: Piece, knowledge: Knowledge) -> tuple[Item, ...]:
    """The questions as the piece stands, as the end of the list."""
    return tuple(Item("question", text=one) for one in questions_of(listing, piece, knowledge))


def _claims(
    listing: Listing, kind: str, knowledge: Knowledge, numbers: dict[tuple[int, int], int]
) -> Iterator[Item]:
    for claim in listing.claims:
        check, claimed = ("", "") if listing.parts else asked_by(claim, kind, knowledge)
        place = numbers.get((claim.start, claim.end), -1)
        yield Item("claim", place, check, claimed, claim=claim)


def asked_by(claim: Claim, kind: str, knowledge: Knowledge) -> tuple[str, str]:
    """The check that bears out a claim, and the answer that would; empty where none does.

    What the case is made of can be seen; the process is what it looks like at a glance.
    """
    check, answer = "", claim.value
    if claim.field == "process":
        known = knowledge.processes.get(claim.value)
        check, answer = "claim.process", known.family if known else claim.value
    elif claim.field == "case.material":
        check = "case.material"
    elif claim.field in ("defect", "check"):
        check, _, answer = claim.value.partition(" ")
    asked = knowledge.checks.get(check)
    if asked is None or kind not in asked.kinds or asked.index(answer) < 0:
        return "", ""
    return check, answer


def _gaps(listing: Listing, kind: str, knowledge: Knowledge) -> Iterator[Item]:
    for name in listing.missing:
        check = knowledge.checks.get(name)
        asked = check is not None and kind in check.kinds and not listing.parts
        seen = name if asked else ""
        yield Item("gap", check=seen, text=name)


def questions_of(listing: Listing, piece: Piece, knowledge: Knowledge) -> tuple[str, ...]:
    """What to ask the seller, most useful first: views not shown, then what pictures left open."""
    answered = {
        gap.question
        for gap in knowledge.gaps.values()
        if gap.id in listing.missing and piece.found(gap.id) not in ("", UNTOLD)
    }
    left = tuple(one for one in listing.questions if one not in answered)
    views = question_for(piece.not_shown)
    return (views, *left) if views else left


def letter(questions: Sequence[str]) -> str:
    """The questions as they are copied: a line each, ready to send."""
    return "".join(f"{one}\n" for one in questions)
