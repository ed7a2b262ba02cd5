"""A piece that one owns, or has owned: where it is, where it comes from, what was seen and done."""

import datetime as dt
import re
from typing import ClassVar

from appraise.base.dataclass import dataclass
from appraise.base.dates import Dating
from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.knowledge.basics import KINDS
from appraise.records.fields import Field, Record
from appraise.records.quantities import COMING, DAY, AmountKind, CountKind, DatedKind
from appraise.records.trade import FORMAT, HOUSING, PROCESS
from appraise.records.values import LINE, PAGE, IdKind, LabelKind, RowsKind, SeveralKind, WordKind

STATUSES = (
    "ordered", "kept", "lent", "on-show", "with-conservator", "for-sale", "sold", "given",
    "returned", "lost", "stolen",
)  # fmt: skip
AWAY = ("lent", "on-show", "with-conservator")
"""Where it is somebody else's to look after, and comes back."""
GONE = ("sold", "given", "returned")
"""Owned no more."""
MISSING = ("lost", "stolen")
EVENTS = (
    "lent", "on-show", "with-conservator", "back", "moved", "shown", "cleaned", "mended", "sold",
    "given", "returned", "lost", "stolen", "found", "arrived", "other",
)  # fmt: skip
FOUND = re.compile(r"([a-z0-9.-]+) ([0-3])\Z")
LUX, HOURS = 100_000, 100_000  # the most of each in one showing
BETWEEN = "with | between lines"


@dataclass(frozen=True, slots=True)
class ConditionCheck(Record):
    """A check of the piece's condition."""

    day: dt.date
    says: str = ""
    by: str = ""
    found: tuple[str, ...] = ()
    note: str = ""

    FIELDS: ClassVar[tuple[Field, ...]] = (
        Field("day", "day of the check, e.g. 2026-11-25", DAY),
        Field("says", "the condition in words, e.g. 'image Good, package Fair'"),
        Field("by", "who checked"),
        Field(
            "found",
            "damage checks and severity 0 to 3: hinge.tape 2, glass.weep 0",
            SeveralKind(LINE, 10_000),
        ),
        Field("note", "the light, what is not checked, names of photos", PAGE),
    )

    def check_whole(self) -> None:
        """Each question is answered once."""
        for each in self.found:
            if not FOUND.match(each):
                raise InputError(
                    f"'{each}' is not a check with its severity", "found", "Write hinge.tape 2."
                )
        if len(self.steps) != len(self.found):
            raise InputError("a check is answered twice", "found")

    @property
    def steps(self) -> dict[str, int]:
        """The step of each question on damage, 0 to 3, by its id."""
        return {name: int(step) for name, step in (each.split() for each in self.found)}


@dataclass(frozen=True, slots=True)
class Event(Record):
    """Something that happened to a piece."""

    day: dt.date
    sort: str
    to: str = ""
    until: dt.date | None = None
    cost: Money | None = None
    note: str = ""

    FIELDS: ClassVar[tuple[Field, ...]] = (
        Field("day", "the day, e.g. 2026-11-25", DAY),
        Field("sort", "what happened", WordKind(EVENTS, needed=True)),
        Field("to", "a name or a place", asks="to, by, at"),
        Field("until", "return date, e.g. 2026-11-25 or 14 days", COMING),
        Field("cost", "its cost, e.g. 20 or 20.00 USD; counted when you sell", AmountKind()),
        Field("note", "anything else", PAGE),
    )

    def check_whole(self) -> None:
        """It ends after it began."""
        if self.until is not None and self.until < self.day:
            raise InputError(f"{self.until} lies before {self.day}", "until")


@dataclass(frozen=True, slots=True)
class Showing(Record):
    """Light that a piece was given on show."""

    day: dt.date
    hours: int
    lux: int
    where: str = ""

    FIELDS: ClassVar[tuple[Field, ...]] = (
        Field("day", "first day, e.g. 2026-11-25", DAY),
        Field("hours", "hours of light", CountKind(1, HOURS)),
        Field("lux", "light level; museums often use 50 lux", CountKind(0, LUX)),
        Field("where", "exhibition or meeting"),
    )

    @property
    def lux_hours(self) -> int:
        """Light times time."""
        return self.hours * self.lux


@dataclass(frozen=True, slots=True)
class OwnedPiece(Record):
    """A piece that one owns; what is empty or None was not recorded.

    `entry` is the id of its purchase in the price log, empty for what was inherited and the like;
    `piece` the text of its piece file, as examined last.
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
    looks: tuple[ConditionCheck, ...] = ()
    events: tuple[Event, ...] = ()
    showings: tuple[Showing, ...] = ()
    climate: str = ""
    note: str = ""

    FIELDS: ClassVar[tuple[Field, ...]] = (
        Field("title", "a title, one line"),
        Field("number", "your own number for it; no other piece has it", LabelKind()),
        Field("place", "room, box, drawer"),
        Field("status", "where it stands", WordKind(STATUSES, needed=True)),
        Field("kind", "what sort of piece it is", WordKind(KINDS)),
        Field("process", "a process or a family of them", PROCESS),
        Field("housing", "what its case is made of", HOUSING),
        Field("format", "its size", FORMAT),
        Field(
            "dated",
            "1858, March 1858, about 1850, 1855-1862 (one year within), or EDTF",
            DatedKind(),
            label="made",
        ),
        Field("acquired", "2 November 2026, 2019, 1990s, or EDTF", DatedKind()),
        Field(
            "return_by",
            "the last day to send it back, e.g. 2026-11-25 or 14 days",
            COMING,
            label="back until",
        ),
        Field("receipt", "receipt number, or where the receipt is"),
        Field("provenance", f"earlier owners and places, and how you know; {BETWEEN}", PAGE),
        Field(
            "climate",
            f"box or frame, and readings there; {BETWEEN}",
            PAGE,
            label="box, frame",
        ),
        Field("note", f"anything else; {BETWEEN}", PAGE),
        Field("entry", "the purchase in the price log", IdKind(), typed=False),
        Field("piece", "its piece file", PAGE, label="piece file", typed=False),
        Field("looks", "condition checks", RowsKind(dated=True), typed=False),
        Field("events", "what happened to it", RowsKind(dated=True), typed=False),
        Field("showings", "the light that it was given", RowsKind(dated=True), typed=False),
    )

    def check_whole(self) -> None:
        """It has a title."""
        if not self.title.strip():
            raise InputError("a piece needs a title", "title", "Write a title, one line.")

    @property
    def owned(self) -> bool:
        """Whether it is one's own still, missing or not."""
        return self.status not in GONE

    @property
    def last_look(self) -> ConditionCheck | None:
        """The condition as it was seen last."""
        return self.looks[-1] if self.looks else None

    @property
    def acquired_on(self) -> dt.date | None:
        """The first day that `acquired` allows."""
        return Dating.parse(self.acquired).bounds(0)[0] if self.acquired else None
