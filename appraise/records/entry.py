"""One line of the price log: a piece that was met, on a day, at a price."""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import field, fields
from typing import Any, ClassVar, Self

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.fieldchecks import (
    check_amount,
    check_id,
    check_json,
    check_number,
    check_word,
)
from appraise.base.logday import LogDay, middle
from appraise.base.money import Money
from appraise.knowledge.basics import CHANNELS, KINDS
from appraise.records.fields import Field, Record
from appraise.records.picture_file import PictureFile
from appraise.records.piece_words import IDENTIFIED, SUBJECTS
from appraise.records.quantities import LOG_DAY, AmountKind, CountKind, NumberKind
from appraise.records.trade import FORMAT, HOUSING, PROCESS
from appraise.records.values import (
    FLAG,
    PAGE,
    FlagKind,
    IdKind,
    Kind,
    SeveralKind,
    UntypedKind,
    WordKind,
)

RECORDS = (
    "bought", "sold", "asking", "hammer", "unsold", "refused", "swap", "gift", "returned",
)  # fmt: skip
CLOSED_WORDS: Mapping[str, tuple[str, ...]] = {
    "record": RECORDS,
    "channel": CHANNELS,
    "kind": KINDS,
    "subjects": SUBJECTS,
}
OPEN_WORDS = ("process", "housing", "format")
MONEY_FIELDS = ("asked", "offered", "paid", "hammer", "premium", "tax", "fees", "postage")
BESIDE = ("premium", "tax", "fees", "postage")
"""Amounts that come on top of the price."""


@dataclass(frozen=True, slots=True)
class LoggedEstimate:
    """What the tool thought a piece would cost when it was logged.

    Attributes:
        low: Lower end of the central 80 %.
        median: Even odds.
        high: Upper end, all three in one currency and in order.
    """

    low: Money
    median: Money
    high: Money

    def __post_init__(self) -> None:
        for name in ("low", "median", "high"):
            check_amount(f"estimate.{name}", getattr(self, name))
        if not self.low <= self.median <= self.high:
            raise InputError(
                f"{self.low}, {self.median}, {self.high} are not in order", where="estimate"
            )


class Priced:
    """What follows from the amounts and the day of a price that was met."""

    __slots__ = ()
    date: LogDay
    asked: Money | None
    offered: Money | None
    paid: Money | None
    hammer: Money | None

    @property
    def price(self) -> Money | None:
        """The amount that says most: paid, then hammer, asked, offered."""
        return self.paid or self.hammer or self.asked or self.offered

    @property
    def middle_day(self) -> dt.date | None:
        """The day, of one that is known in part the middle; None where it is open or unknown."""
        return middle(self.date)


@dataclass(frozen=True, slots=True)
class Entry(Priced, Record):
    """A price that was met. Empty text and None both mean "not recorded".

    `id` is given by the log and empty before that; `belonging` holds (state, probability) pairs
    and `estimate` the price as the tool saw them at logging; `piece` is the text of the piece file
    that it was logged from; `extra` holds further JSON values under names of their own.

    Raises:
        InputError: when a value is outside what its field says.
    """

    record: str
    date: LogDay
    id: str = ""
    channel: str = ""
    kind: str = ""
    process: str = ""
    housing: str = ""
    format: str = ""
    title: str = ""
    motif: str = ""
    subjects: tuple[str, ...] = ()
    quality: float | None = None
    appeal: int | None = None
    identified: str = ""
    maker: str = ""
    maker_known: bool | None = None
    condition_factor: float | None = None
    asked: Money | None = None
    offered: Money | None = None
    paid: Money | None = None
    hammer: Money | None = None
    premium: Money | None = None
    tax: Money | None = None
    fees: Money | None = None
    postage: Money | None = None
    venue: str = ""
    note: str = ""
    own_work: bool = False
    belonging: tuple[tuple[str, float], ...] = ()
    estimate: LoggedEstimate | None = None
    piece: str = ""
    pictures: tuple[PictureFile, ...] = ()
    extra: Mapping[str, Any] = field(default_factory=dict, hash=False)

    FIELDS: ClassVar[tuple[Field, ...]] = (
        Field("title", "a title, one line"),
        Field("record", "what happened", WordKind(RECORDS, needed=True), asks="what happened"),
        Field("date", "e.g. 2026-11-25, 2018-08, spring 2019, unknown", LOG_DAY, asks="day"),
        Field("channel", "what sort of place that is", WordKind(CHANNELS), asks="where"),
        Field("venue", "in your words", asks="place"),
        Field("kind", "what sort of piece it is", WordKind(KINDS)),
        Field("process", "a word from the knowledge files", PROCESS),
        Field("housing", "a word from the knowledge files", HOUSING),
        Field("format", "a word from the knowledge files", FORMAT),
        Field("motif", "what the case or the image shows"),
        Field(
            "subjects",
            "who or what the image shows; several with commas, the main one first",
            SeveralKind(WordKind(SUBJECTS), between=", "),
        ),
        Field(
            "identified",
            "how well the sitter is: no, initials, name, full (with place, trade or unit), proven",
            WordKind(IDENTIFIED, also={"yes": "name", "true": "name", "false": "no"}),
        ),
        Field("maker", "photographer or maker, if known"),
        Field(
            "maker_known",
            "whether the maker is known",
            FlagKind(optional=True),
            label="maker known",
        ),
        Field(
            "quality",
            "sharpness, tones, exposure: 1 to 5, 3 is typical",
            NumberKind(1, 5),
            asks="image quality",
        ),
        Field("appeal", "your own taste, 1 to 5", CountKind(1, 5)),
        Field(
            "condition_factor",
            "share of the price left by its condition, above 0; 1 is typical",
            NumberKind(0, 10, above=True),
            label="condition",
        ),
        Field("asked", "the price the seller asked, e.g. 45 or 45.00 USD", AmountKind()),
        Field("offered", "your offer, e.g. 45 or 45.00 USD", AmountKind()),
        Field("paid", "the price paid, e.g. 45 or 45.00 USD", AmountKind()),
        Field("hammer", "the hammer price, or the last bid, e.g. 45 or 45.00 USD", AmountKind()),
        Field("premium", "buyer's premium on top of the price, e.g. 9 or 9.00 USD", AmountKind()),
        Field("tax", "tax on top of the price, e.g. 9 or 9.00 USD", AmountKind()),
        Field("fees", "other fees on top of the price, e.g. 3 or 3.00 USD", AmountKind()),
        Field(
            "postage",
            "shipping beside the price, e.g. 45 or 45.00 USD",
            AmountKind(),
            asks="shipping",
        ),
        Field(
            "own_work",
            "yes if you made or assembled it: its price is then left out of estimates",
            FLAG,
            label="own work",
        ),
        Field("note", "anything else", PAGE),
        Field("belonging", kind=UntypedKind(), typed=False),
        Field("estimate", kind=UntypedKind(), typed=False),
        Field("piece", kind=PAGE, label="piece file", typed=False),
        Field("pictures", kind=UntypedKind(), label="photos", typed=False),
        Field("extra", kind=UntypedKind(), typed=False),
    )

    def check_whole(self) -> None:
        """Subjects and states stand once each, and what is beside can be kept."""
        if self.id:
            check_id("id", self.id, digits=16)
        check_subjects(self.subjects)
        check_belonging(self.belonging)
        check_json("extra", dict(self.extra))

    @classmethod
    def of_today(cls, data: Mapping[str, Any]) -> Mapping[str, Any]:
        """An older log had one `subject`, and of a sitter only whether a name was known."""
        if "subject" not in data and type(data.get("identified", "")) is str:
            return data
        found = dict(data)
        if "subject" in found and "subjects" not in found:
            subject = found.pop("subject")
            found["subjects"] = subject.split() if isinstance(subject, str) else subject
        if isinstance(found.get("identified"), bool):
            found["identified"] = "name" if found["identified"] else "no"
        return found

    def named(self, entry_id: str) -> Self:
        """The same line under another id; all else was checked when it was made."""
        if entry_id:
            check_id("id", entry_id, digits=16)
        twin = object.__new__(type(self))
        for each in fields(self):
            value = entry_id if each.name == "id" else getattr(self, each.name)
            object.__setattr__(twin, each.name, value)
        return twin


def check_subjects(subjects: Sequence[str]) -> None:
    """Subjects stand once each; raises `InputError`."""
    if "" in subjects or len(set(subjects)) < len(subjects):
        raise InputError("names a word twice, or none", where="subjects")


def check_belonging(belonging: Sequence[tuple[str, float]]) -> None:
    """States of belonging stand once each, with a probability; raises `InputError`."""
    for state, chance in belonging:
        check_word("belonging", state)
        check_number(f"belonging.{state}", chance, 0, 1)
    if len(dict(belonging)) != len(belonging):
        raise InputError("names a state twice", where="belonging")


KIND_OF: Mapping[str, Kind] = {"id": IdKind(), **{each.name: each.kind for each in Entry.FIELDS}}
"""What each attribute may hold."""
ATTRIBUTES: tuple[str, ...] = tuple(each.name for each in fields(Entry) if each.name != "rest")
