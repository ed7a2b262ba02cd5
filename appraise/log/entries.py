"""One line of the price log: a piece that was met, on a day, at a price."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from typing import Any, Self

from appraise.base.errors import InputError
from appraise.base.fieldchecks import (
    check_amount,
    check_flag,
    check_id,
    check_json,
    check_number,
    check_text,
    check_word,
)
from appraise.base.money import Money
from appraise.base.spelling import did_you_mean
from appraise.piece.records import IDENTIFIED, SUBJECTS

RECORDS = (
    "bought",
    "sold",
    "asking",
    "hammer",
    "unsold",
    "refused",
    "swap",
    "gift",
    "returned",
)
CHANNELS = ("market", "fair", "shop", "online", "auction", "private")
KINDS = (
    "cased", "loose-plate", "card", "lantern-slide", "cyanotype", "print", "postcard",
    "empty-case", "part", "album", "lot", "other",
)  # fmt: skip
CLOSED_WORDS: Mapping[str, tuple[str, ...]] = {
    "record": RECORDS,
    "channel": CHANNELS,
    "kind": KINDS,
    "subjects": SUBJECTS,
}
OPEN_WORDS = ("process", "housing", "format")
SEVERAL = ("subjects",)
"""Fields of words that may hold several."""
LINES = ("title", "motif", "maker", "venue")
PAGES = ("note", "piece")
MONEY_FIELDS = ("asked", "offered", "paid", "hammer", "postage")


@dataclass(frozen=True, slots=True)
class Estimate:
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


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture of the piece, kept by what it holds.

    Attributes:
        sha256: Digest of the file's bytes, 64 hexadecimal digits.
        name: The file's name when it was attached.
    """

    sha256: str
    name: str

    def __post_init__(self) -> None:
        check_id("pictures", self.sha256, digits=64)
        check_text("pictures", self.name, one_line=True)


@dataclass(frozen=True, slots=True)
class Entry:
    """A price that was met. Empty text and None both mean "not recorded".

    Attributes:
        id: Sixteen hexadecimal digits, given by the log; empty before that.
        record: What happened, one of `RECORDS`.
        date: The day it happened.
        channel: Where, one of `CHANNELS`.
        kind: One of `KINDS`.
        process: Family or sub-process, a word of the knowledge files.
        housing: What the case is made of, a word of the check `case.material`.
        format: Plate or card size, a word of the knowledge files.
        title: One line to know it by.
        motif: What the case or the image shows, in the user's words.
        subjects: Whom or what it shows, words of `SUBJECTS`, the leading one first.
        quality: Of the image, 1 to 5 with 3 for the usual.
        appeal: The user's own eye, 1 to 5.
        identified: How well the sitter is, one of `IDENTIFIED`.
        maker: The maker's name.
        maker_known: Whether the maker is known, where no name is told.
        condition_factor: Share of the price that the condition leaves, beside the usual damage:
            above 0 and at most 10, below 1 for worse than usual; None: as usual.
        asked: What the seller wanted.
        offered: What the user offered.
        paid: What changed hands.
        hammer: The hammer price, or the last bid.
        postage: Carriage, beside the price.
        venue: The sale room, fair or site, in the user's words.
        note: Anything else, over several lines if wished.
        own_work: Made or assembled by the user: kept out of the price model.
        belonging: (state, probability) pairs as the tool saw them at logging.
        estimate: The tool's own price at logging.
        piece: Text of the piece file that the entry was logged from.
        pictures: Pictures in the log's care.
        extra: Further values under names of their own; JSON values only, not to be changed.

    Raises:
        InputError: when a value is outside what is said above.
    """

    record: str
    date: dt.date
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
    postage: Money | None = None
    venue: str = ""
    note: str = ""
    own_work: bool = False
    belonging: tuple[tuple[str, float], ...] = ()
    estimate: Estimate | None = None
    piece: str = ""
    pictures: tuple[Picture, ...] = ()
    extra: Mapping[str, Any] = field(default_factory=dict, hash=False)

    def __post_init__(self) -> None:
        if self.id:
            check_id("id", self.id, digits=16)
        self._check_words()
        for name in LINES:
            check_text(name, getattr(self, name), one_line=True)
        for name in PAGES:
            check_text(name, getattr(self, name), one_line=False)
        for name in MONEY_FIELDS:
            check_amount(name, getattr(self, name), optional=True)
        self._check_marks()
        check_json("extra", dict(self.extra))

    def _check_words(self) -> None:
        if type(self.date) is not dt.date:
            raise InputError(f"'{self.date}' is not a day", where="date", mend="Write 2024-05-31.")
        if not self.record:
            raise InputError("says not what happened", "record", did_you_mean("", RECORDS))
        for name, known in CLOSED_WORDS.items():
            value = getattr(self, name)
            if name in SEVERAL and not isinstance(value, tuple):
                raise InputError(f"{value!r} is not a list of words", where=name)
            for word in value if name in SEVERAL else (value,):
                check_word(name, word, known)
            if name in SEVERAL and ("" in value or len(set(value)) < len(value)):
                raise InputError("names a word twice, or none", where=name)
        check_word("identified", self.identified, IDENTIFIED)
        for name in OPEN_WORDS:
            check_word(name, getattr(self, name))

    def _check_marks(self) -> None:
        if self.appeal is not None:
            check_number("appeal", self.appeal, 1, 5, whole=True)
        if self.quality is not None:
            check_number("quality", self.quality, 1, 5)
        if self.condition_factor is not None:
            check_number("condition_factor", self.condition_factor, 0, 10, above=True)
        check_flag("maker_known", self.maker_known, optional=True)
        check_flag("own_work", self.own_work)
        for state, chance in self.belonging:
            check_word("belonging", state)
            check_number(f"belonging.{state}", chance, 0, 1)
        if len(dict(self.belonging)) != len(self.belonging):
            raise InputError("names a state twice", where="belonging")

    @property
    def price(self) -> Money | None:
        """The amount that says most: paid, then hammer, asked, offered."""
        return self.paid or self.hammer or self.asked or self.offered

    def named(self, entry_id: str) -> Self:
        """The same line under another id; all else was checked when it was made."""
        if entry_id:
            check_id("id", entry_id, digits=16)
        twin = object.__new__(type(self))
        for name in FIELDS:
            object.__setattr__(twin, name, entry_id if name == "id" else getattr(self, name))
        return twin


FIELDS: tuple[str, ...] = tuple(each.name for each in fields(Entry))
