"""A piece that one owns, or has owned: where it is, where it comes from, what was seen and done."""

import datetime as dt
import re
from dataclasses import dataclass

from appraise.base.dates import Dating
from appraise.base.errors import InputError
from appraise.base.fieldchecks import (
    check_amount,
    check_id,
    check_number,
    check_text,
    check_word,
)
from appraise.base.money import Money
from appraise.base.spelling import did_you_mean
from appraise.knowledge.records import KINDS

STATUSES = (
    "ordered",
    "kept",
    "lent",
    "on-show",
    "with-conservator",
    "for-sale",
    "sold",
    "given",
    "returned",
    "lost",
    "stolen",
)
AWAY = ("lent", "on-show", "with-conservator")
"""Where it is somebody else's to look after, and comes back."""
GONE = ("sold", "given", "returned")
"""Owned no more."""
MISSING = ("lost", "stolen")
EVENTS = (
    "lent",
    "on-show",
    "with-conservator",
    "back",
    "moved",
    "shown",
    "cleaned",
    "mended",
    "sold",
    "given",
    "returned",
    "lost",
    "stolen",
    "found",
    "arrived",
    "other",
)
FOUND = re.compile(r"([a-z0-9.-]+) ([0-3])\Z")
LUX, HOURS = 100_000, 100_000  # the most of each in one showing
MOST = 10_000  # looks, events or showings of one piece


@dataclass(frozen=True, slots=True)
class Look:
    """A check of the piece's condition.

    Attributes:
        day: When it was looked at.
        says: The condition in words, as 'image Good, package Fair'.
        by: Who looked.
        found: Every question on damage that was answered: 'hinge.tape 2', 'glass.weep 0'.
        note: Anything else: the light used, what was not seen, names of pictures.
    """

    day: dt.date
    says: str = ""
    by: str = ""
    found: tuple[str, ...] = ()
    note: str = ""

    def __post_init__(self) -> None:
        check_day("day", self.day)
        for name in ("says", "by"):
            check_text(name, getattr(self, name), one_line=True)
        check_text("note", self.note, one_line=False)
        for each in self.found:
            if not FOUND.match(each):
                raise InputError(f"'{each}' is no finding", "found", "Write hinge.tape 2.")
        if len(self.steps) != len(self.found):
            raise InputError("answers a question twice", "found")

    @property
    def steps(self) -> dict[str, int]:
        """The step of each question on damage, 0 to 3, by its id."""
        return {name: int(step) for name, step in (each.split() for each in self.found)}


@dataclass(frozen=True, slots=True)
class Event:
    """Something that happened to a piece.

    Attributes:
        day: When.
        sort: What, one of `EVENTS`.
        to: To whom or where.
        until: The day by which it comes back.
        cost: What it cost, as a conservator's bill.
        note: Anything else.
    """

    day: dt.date
    sort: str
    to: str = ""
    until: dt.date | None = None
    cost: Money | None = None
    note: str = ""

    def __post_init__(self) -> None:
        check_day("day", self.day)
        check_choice("sort", self.sort, EVENTS)
        check_text("to", self.to, one_line=True)
        check_text("note", self.note, one_line=False)
        check_amount("cost", self.cost, optional=True)
        if self.until is not None:
            check_day("until", self.until)
            if self.until < self.day:
                raise InputError(f"{self.until} lies before {self.day}", "until")


@dataclass(frozen=True, slots=True)
class Showing:
    """Light that a piece was given on show.

    Attributes:
        day: The day it began.
        hours: How long it was lit, above 0.
        lux: How brightly, in lux.
        where: Where that was.
    """

    day: dt.date
    hours: int
    lux: int
    where: str = ""

    def __post_init__(self) -> None:
        check_day("day", self.day)
        check_number("hours", self.hours, 1, HOURS, whole=True)
        check_number("lux", self.lux, 0, LUX, whole=True)
        check_text("where", self.where, one_line=True)

    @property
    def lux_hours(self) -> int:
        """Light times time."""
        return self.hours * self.lux


@dataclass(frozen=True, slots=True)
class Kept:
    """A piece that one owns. Empty text and None both mean "not recorded".

    Attributes:
        title: One line to know it by.
        entry: The purchase in the price log, by its id; empty for what was inherited and the like.
        piece: Text of the piece file, as examined last.
        number: The owner's own number for it, which no other piece bears.
        kind: A kind of piece.
        process, housing, format: Words of the knowledge files.
        dated: When it was made, EDTF: `[1855..1862]` for one year within.
        place: Room, box, drawer.
        status: One of `STATUSES`.
        acquired: When it came, EDTF; one day where it is known.
        provenance: What is known of where it was before, and how; a line each.
        receipt: Where the receipt is, or its number.
        return_by: The day by which it can go back to its seller.
        looks: Condition checks, in order of their days.
        events: What happened to it, in order of their days.
        showings: The light that it was given.
        climate: Box, frame and what is measured there.
        note: Anything else.

    Raises:
        InputError: when a value is outside what is said above.
    """

    title: str
    entry: str = ""
    piece: str = ""
    number: str = ""
    kind: str = ""
    process: str = ""
    housing: str = ""
    format: str = ""
    dated: str = ""
    place: str = ""
    status: str = "kept"
    acquired: str = ""
    provenance: str = ""
    receipt: str = ""
    return_by: dt.date | None = None
    looks: tuple[Look, ...] = ()
    events: tuple[Event, ...] = ()
    showings: tuple[Showing, ...] = ()
    climate: str = ""
    note: str = ""

    def __post_init__(self) -> None:
        if not self.title.strip():
            raise InputError("a kept piece needs a title", "title", "Write a line to know it by.")
        for name in ("title", "number", "place", "receipt"):
            check_text(name, getattr(self, name), one_line=True)
        for name in ("piece", "provenance", "climate", "note"):
            check_text(name, getattr(self, name), one_line=False)
        if self.entry:
            check_id("entry", self.entry, digits=16)
        check_word("kind", self.kind, KINDS)
        for name in ("process", "housing", "format"):
            check_word(name, getattr(self, name))
        check_choice("status", self.status, STATUSES)
        if self.return_by is not None:
            check_day("return_by", self.return_by)
        for name in ("dated", "acquired"):
            _check_edtf(name, getattr(self, name))
        for name in ("looks", "events", "showings"):
            _check_order(name, [one.day for one in getattr(self, name)])

    @property
    def owned(self) -> bool:
        """Whether it is one's own still, missing or not."""
        return self.status not in GONE

    @property
    def last_look(self) -> Look | None:
        """The condition as it was seen last."""
        return self.looks[-1] if self.looks else None

    @property
    def last_event(self) -> Event | None:
        """What happened to it last."""
        return self.events[-1] if self.events else None

    @property
    def acquired_on(self) -> dt.date | None:
        """The first day that `acquired` allows."""
        return Dating.parse(self.acquired).bounds(0)[0] if self.acquired else None


def check_day(name: str, day: dt.date) -> None:
    """A day is a calendar day without an hour."""
    if type(day) is not dt.date:
        raise InputError(f"'{day}' is not a day", name, "Write 2026-11-25.")


def check_choice(name: str, word: str, known: tuple[str, ...]) -> None:
    """A word is one of a list, and not empty."""
    if word not in known:
        raise InputError(f"'{word}' is not known", name, did_you_mean(str(word), known))


def _check_edtf(name: str, text: str) -> None:
    check_text(name, text, one_line=True)
    if text:
        try:
            found = Dating.parse(text)
        except InputError as error:
            raise InputError(error.what, name, error.mend) from None
        if found.text != text:
            raise InputError(f"'{text}' has blanks around it", name)


def _check_order(name: str, days: list[dt.date]) -> None:
    if len(days) > MOST:
        raise InputError(f"holds more than {MOST:,}", name)
    if days != sorted(days):
        raise InputError("are not in the order of their days", name)
