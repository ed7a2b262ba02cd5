"""An arrival as text and JSON, and the page to send where a piece is not as it was described."""

import datetime as dt
from dataclasses import dataclass
from typing import Any

from appraise.base.logday import LogDay
from appraise.base.wrapping import wrapped
from appraise.collection.arrival import LITTLE, Arrival, Difference
from appraise.knowledge.records import Knowledge
from appraise.records.entry import Entry
from appraise.records.owned import OwnedPiece

SCHEMA = "appraise.kept-arrival/1"
WIDTH = 72
LAW = ("sales-gb", "sales-us")
"""Cautions on what a buyer may expect."""
NO_CLAIMS = "No listing to compare with: it was bought in person, or without a listing."
UNSEEN = "No answers given in hand yet: nothing to compare."
WORDS = {"much": "! important", "some": "? less important", "little": ". minor"}


@dataclass(frozen=True, slots=True)
class Parcel:
    """What the page is made of.

    Attributes:
        id: The kept piece's id.
        kept: The piece as it is in hand.
        entry: Its purchase.
        arrival: The comparison.
        as_of: The day on which it is told.
    """

    id: str
    kept: OwnedPiece
    entry: Entry
    arrival: Arrival
    as_of: dt.date

    @property
    def left(self) -> int | None:
        """Days until it can go back no more, below 0 when they are over; None without a day."""
        return (self.kept.return_by - self.as_of).days if self.kept.return_by else None

    @property
    def seen(self) -> bool:
        """Whether anything was compared."""
        return bool(self.arrival.differences or self.arrival.agreed)


def arrival_document(parcel: Parcel) -> dict[str, Any]:
    """An arrival as a JSON document."""
    kept, arrival = parcel.kept, parcel.arrival
    return {
        "schema": SCHEMA,
        "as_of": parcel.as_of.isoformat(),
        "kept": {"id": parcel.id, "title": kept.title, "status": kept.status},
        "return_by": kept.return_by.isoformat() if kept.return_by else None,
        "days_left": parcel.left,
        "differences": [
            {
                "what": one.what,
                "claimed": one.claimed,
                "found": one.found,
                "matters": one.weight,
                "why": one.why,
            }
            for one in arrival.differences
        ],
        "agreed": list(arrival.agreed),
        "open": list(arrival.open),
        "letter": letter(parcel) if arrival.matters else "",
    }


def deadline(parcel: Parcel) -> str:
    """Until when it can go back, in words."""
    day, left = parcel.kept.return_by, parcel.left
    if day is None or left is None:
        return "No return deadline recorded. Press e to add one."
    if left < 0:
        return f"The return deadline was {day}."
    many = (
        "today is the last day" if left == 0 else f"{left} days left" if left > 1 else "1 day left"
    )
    return f"Return it by {day}: {many}."


def arrival_text(parcel: Parcel, knowledge: Knowledge) -> str:
    """An arrival as text, the page to send apart from it."""
    arrival = parcel.arrival
    blocks = [parcel.kept.title, deadline(parcel)]
    if not parcel.seen:
        blocks.append(UNSEEN if arrival.claims else NO_CLAIMS)
    elif not arrival.differences:
        blocks.append("As described, as far as checked.")
    blocks += [difference_text(one) for one in arrival.differences]
    if arrival.open:
        names = [knowledge.checks[one].ask for one in arrival.open if one in knowledge.checks]
        asked = "\n".join(f"  - {name}" for name in names)
        blocks.append(f"Claimed or shown, not yet checked in hand:\n{asked}")
    blocks += [
        "\n".join(wrapped(f"On arrival: {row.text}", WIDTH))
        for row in knowledge.care.values()
        if row.topic == "arrival" and parcel.kept.owned
    ]
    if arrival.matters:
        blocks += ["\n".join(wrapped(f"! {text}", WIDTH)) for text in law(parcel, knowledge)]
        blocks.append("--- draft letter to the seller; read it before you send it ---")
        blocks.append(letter(parcel))
    return "\n\n".join(blocks) + "\n"


def difference_text(one: Difference) -> str:
    """One difference in three lines."""
    rows = (
        f"{WORDS[one.weight]}: {one.what}",
        f"    described: {one.claimed}",
        f"    found:     {one.found}",
        f"    {one.why}",
    )
    return "\n".join(rows)


def law(parcel: Parcel, knowledge: Knowledge) -> list[str]:
    """Cautions on what a buyer may expect where this piece was bought."""
    rows = [knowledge.cautions[name] for name in LAW if name in knowledge.cautions]
    return [row.text for row in rows if parcel.entry.channel in row.channels]


def day_words(day: dt.date) -> str:
    """A day as a letter writes it: '17 September 2026'."""
    return f"{day.day} {day:%B %Y}"


def _bought_on(day: LogDay) -> str:
    """When a piece was bought, where the log knows the day."""
    return f" on {day_words(day)}" if isinstance(day, dt.date) else ""


def letter(parcel: Parcel) -> str:
    """The page 'not as described': plain, courteous, facts only.

    What matters little is left out, and so is every price and every belief about how old a piece
    is or whether its parts belong together.
    """
    kept, entry = parcel.kept, parcel.entry
    where = f" ({entry.venue})" if entry.venue else ""
    telling = [one for one in parcel.arrival.differences if one.weight != LITTLE]
    rows = [f"{place}. {_told(one)}" for place, one in enumerate(telling, start=1)]
    pictures = ", ".join(one.name for one in entry.pictures)
    shown = f"Photos: {pictures}." if pictures else "I am happy to send photos of each point."
    if kept.return_by is not None and kept.return_by >= parcel.as_of:
        reply = f"Please let me know by {day_words(kept.return_by)}"
    else:
        reply = "Please let me know within the next few days"
    blocks = (
        f"Not as described: {kept.title}",
        day_words(parcel.as_of),
        f"The piece I bought from you{_bought_on(entry.date)}{where} has arrived, thank you. On "
        "careful inspection it does not match the description:",
        *rows,
        shown,
        f"These things are easy to miss. {reply} whether you will accept a return for a full "
        "refund, or what you suggest instead. I am keeping it safe and unaltered until then.",
        "Kind regards",
    )
    return "\n\n".join("\n".join(wrapped(block, WIDTH)) for block in blocks) + "\n"


def _told(one: Difference) -> str:
    return f"{one.what}. Described: {one.claimed}. Found: {one.found}."
