"""An arrival against its listing, and the letter to send where a piece is not as described."""

import datetime as dt
import re
from collections.abc import Iterator, Mapping
from itertools import chain
from typing import Any

from appraise.base.dataclass import dataclass
from appraise.base.jsonvalues import picked
from appraise.base.oneline import counted
from appraise.base.wrapping import wrapped
from appraise.collection.arrival import LITTLE, NOT_TOLD, SIZE, Arrival, Difference
from appraise.documents.document import (
    Block,
    Bullets,
    Document,
    Facts,
    Paragraph,
    Section,
    Tone,
    section,
)
from appraise.knowledge.records import Knowledge
from appraise.records.entry import Entry
from appraise.records.owned import OwnedPiece

RETURNS = re.compile(
    r"returns?\b[^.\n]{0,40}?\b(?P<a>\d{1,2})[ -]days?\b"
    r"|\b(?P<b>\d{1,2})[ -]days?\b[^.\n]{0,30}return",
    re.IGNORECASE,
)
"""How long a seller or venue takes returns, in words: '14 days to return', 'returns in 30 days'."""
SCHEMA = "appraise.kept-arrival/1"
WIDTH = 72
LAW = {"sales-gb": ("gb",), "sales-us": ("us",), "returns": ("eu", "gb")}
"""Cautions on what a buyer may expect, and the regions whose law each tells of."""
NO_CLAIMS = "No listing to compare with: it was bought in person, or without a listing."
OPEN_CLAIMS = {
    "claim.process": "process",
    "claim.material": "material of the case",
    "claim.opened": "original seal",
}
"""What the claims are called that a look in hand settles."""
QUOTED = {"process": "claim.process", "case.material": "claim.material", "format": f"{SIZE}format"}
"""The claim that a field of a seller's text makes."""
UNSEEN = "No answers given in hand yet: nothing to compare."
LETTER = "Draft letter to the seller; read it before you send it"
WEIGHTS = {"much": "important", "some": "less important", "little": "minor"}
TONES: Mapping[str, Tone] = {"much": "warn", "some": "doubt", "little": "plain"}


@dataclass(frozen=True, slots=True)
class Parcel:
    """What the page is made of.

    Attributes:
        region: Where the buyer is at home, whose law stands first.
    """

    id: str
    kept: OwnedPiece
    entry: Entry
    arrival: Arrival
    as_of: dt.date
    region: str = "unknown"

    @property
    def left(self) -> int | None:
        """Days until it can go back no more, below 0 when they are over; None without a day."""
        return (self.kept.return_by - self.as_of).days if self.kept.return_by else None

    @property
    def seen(self) -> bool:
        """Whether anything was compared."""
        return bool(self.arrival.differences or self.arrival.agreed)


def arrival_json(parcel: Parcel, knowledge: Knowledge) -> dict[str, Any]:
    """An arrival as JSON, schema "appraise.kept-arrival/1"."""
    kept, arrival = parcel.kept, parcel.arrival
    return {
        "schema": SCHEMA,
        **picked(parcel, "as_of", days_left=parcel.left),
        "kept": picked(kept, "title status", id=parcel.id),
        **picked(kept, "return_by"),
        "differences": [
            picked(one, "what claimed found why", matters=one.weight) for one in arrival.differences
        ],
        **picked(arrival, "agreed open"),
        "letter": letter(parcel, knowledge) if arrival.matters else "",
    }


def deadline(parcel: Parcel) -> str:
    """Until when it can go back, in words."""
    day, left = parcel.kept.return_by, parcel.left
    if day is None or left is None:
        noted = "\n".join((parcel.entry.note, parcel.kept.note, parcel.entry.title))
        told = RETURNS.search(noted)
        days = told and (told["a"] or told["b"])
        offer = (
            f" The listing or your note says {days} days, counted from delivery." if days else ""
        )
        return f"No return deadline recorded.{offer} Press e to add one."
    if left < 0:
        return f"The return deadline was {day}."
    many = f"{counted(left, 'day')} left" if left else "today is the last day"
    return f"Return it by {day}: {many}."


def arrival_document(parcel: Parcel, knowledge: Knowledge) -> Document:
    """An arrival: until when it can go back, what differs, what is open, and the letter."""
    arrival = parcel.arrival
    open_ones = tuple(_asked(one, arrival, knowledge) for one in arrival.open)
    care = knowledge.care.values() if parcel.kept.owned else ()
    advice = tuple(row.text for row in care if row.topic == "arrival")
    parts = (
        section("deadline", "", Paragraph(deadline(parcel)), Paragraph(_outcome(parcel))),
        section("differences", "Not as described", *_differences(arrival)),
        section("open", "Claimed or shown, not yet checked in hand", Bullets(open_ones)),
        section("arrival", "On arrival", Bullets(advice)),
        _letter(parcel, knowledge) if arrival.matters else (),
    )
    return Document(parcel.kept.title, tuple(chain(*parts)))


def _outcome(parcel: Parcel) -> str:
    """What the comparison came to, where nothing differs."""
    if not parcel.seen:
        return UNSEEN if parcel.arrival.claims else NO_CLAIMS
    return "" if parcel.arrival.differences else "As described, as far as checked."


def _differences(arrival: Arrival) -> Iterator[Block]:
    for one in arrival.differences:
        yield Paragraph(f"{one.what} ({WEIGHTS[one.weight]})", TONES[one.weight])
        yield Facts.of((("described", one.claimed), ("found", one.found), ("why", one.why)))


def _asked(name: str, arrival: Arrival, knowledge: Knowledge) -> str:
    """Something still to be checked in hand: a question, or a claim with what was stated."""
    if name not in arrival.stated:
        return knowledge.checks[name].ask if name in knowledge.checks else name
    said = name.removeprefix(SIZE)
    what = OPEN_CLAIMS.get(name) or (said if said == "format" else f"size of the {said}")
    return f"{what}: described as {arrival.stated[name]}"


def _letter(parcel: Parcel, knowledge: Knowledge) -> tuple[Section, ...]:
    """What the law says of it, and the letter as it would be sent."""
    rights = Bullets(tuple(law(parcel, knowledge)), "warn")
    told = (Paragraph(one) for one in _paragraphs(parcel, knowledge))
    return section("letter", LETTER, rights, *told, airy=True)


def law(parcel: Parcel, knowledge: Knowledge) -> list[str]:
    """Cautions on what a buyer may expect where this piece was bought."""
    own = sorted(LAW, key=lambda name: parcel.region not in LAW[name])
    known = any(parcel.region in regions for regions in LAW.values())
    own = [name for name in own if not known or parcel.region in LAW[name]]
    rows = [knowledge.cautions[name] for name in own if name in knowledge.cautions]
    return [row.text for row in rows if parcel.entry.channel in row.channels]


def day_words(day: dt.date) -> str:
    """A day as a letter writes it: '17 September 2026'."""
    return f"{day.day} {day:%B %Y}"


def letter(parcel: Parcel, knowledge: Knowledge) -> str:
    """The letter 'not as described' by itself, in lines of 72 cells."""
    rows = ("\n".join(wrapped(one, WIDTH)) for one in _paragraphs(parcel, knowledge))
    return "\n\n".join(rows) + "\n"


def _paragraphs(parcel: Parcel, knowledge: Knowledge) -> tuple[str, ...]:
    """The letter: plain, courteous, facts only.

    What matters little is left out, and so is every price and every belief about how old a piece
    is or whether its parts belong together.
    """
    kept, entry = parcel.kept, parcel.entry
    bought = f" on {day_words(entry.date)}" if isinstance(entry.date, dt.date) else ""
    where = f" ({entry.venue})" if entry.venue else ""
    telling = [one for one in parcel.arrival.differences if one.weight != LITTLE]
    words = sellers_words(entry, knowledge) if any(one.about for one in telling) else {}
    rows = [f"{place}. {_told(one, words)}" for place, one in enumerate(telling, start=1)]
    pictures = ", ".join(one.name for one in entry.pictures)
    shown = f"Photos: {pictures}." if pictures else "I am happy to send photos of each point."
    if kept.return_by is not None and kept.return_by >= parcel.as_of:
        reply = f"Please let me know by {day_words(kept.return_by)}"
    else:
        reply = "Please let me know within the next few days"
    return (
        f"Not as described: {kept.title}",
        day_words(parcel.as_of),
        f"The piece I bought from you{bought}{where} has arrived, thank you. On "
        "careful inspection it does not match the description:",
        *rows,
        shown,
        f"These things are easy to miss. {reply} whether you will accept a return for a full "
        "refund, or what you suggest instead. I am keeping it safe and unaltered until then.",
        "Kind regards",
    )


def _told(one: Difference, words: Mapping[str, str]) -> str:
    """A point of the letter; the seller's own words stand beside what they were taken for."""
    quoted = f', in your words "{words[one.about]}"' if one.about in words else ""
    what = one.what[:1].upper() + one.what[1:]
    how = "Described" if one.about or one.claimed == NOT_TOLD else "Shown in the photos"
    stop = "" if what.endswith("?") else "."
    return f"{what}{stop} {how}: {one.claimed}{quoted}. Found: {one.found}."


def sellers_words(entry: Entry, knowledge: Knowledge) -> dict[str, str]:
    """By check or stated size, the words of the listing's title that say so.

    The title of a piece that was bought by its listing is the listing's first line.
    """
    from appraise.listing.reader import read  # 60 ms for its vocabulary

    found: dict[str, str] = {}
    for claim in read(entry.title, knowledge, "").claims:
        if claim.field == "measured":
            name = f"{SIZE}{claim.value.partition(' ')[0]}"
        elif claim.field in ("defect", "check"):
            name = claim.value.partition(" ")[0]
        else:
            name = QUOTED.get(claim.field, "")
        if name:
            found.setdefault(name, " ".join(claim.text.split()))
    return found
