"""A part that is kept by itself until a piece needs it: what it is, its size, where it comes from.

What was seen on a part is noted as answers of the same checks that are asked of a whole piece, so
that its years are read by the same curves.
"""

import datetime as dt
import re
from collections.abc import Mapping
from dataclasses import replace
from typing import Any, ClassVar, Self

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError, placed
from appraise.base.fieldchecks import check_text, check_word
from appraise.base.measures import Measure
from appraise.base.money import Money
from appraise.base.spelling import did_you_mean
from appraise.knowledge.basics import REGIONS
from appraise.knowledge.formerly import today
from appraise.records.fields import Field, Record, Typed
from appraise.records.quantities import DAY, AmountKind, CountKind
from appraise.records.trade import FORMAT, SPARE
from appraise.records.values import PAGE, Author, Kind, SeveralKind, WordKind

MADE = ("period", "own-work", "modern", "reproduction")
"""When and by whom it was made; own work, modern parts and reproductions date nothing."""
MEASURED = ("outside", "recess", "opening")
MOST_ALIKE = 999
_CHECK = re.compile(r"[a-z0-9-]+\.[a-z0-9-]+\Z")
_ID = re.compile(r"[0-9a-f]{16}\Z")


def is_id(text: str) -> bool:
    """Whether a text is the whole id of a record of the log, and not words."""
    return bool(_ID.match(text))


@dataclass(frozen=True, slots=True)
class Size(Record):
    """One thing that was measured on a part, one of `MEASURED`, as it was written."""

    what: str
    text: str

    def check_whole(self) -> None:
        """It is a measure of something."""
        if self.what not in MEASURED:
            mend = did_you_mean(self.what, MEASURED)
            raise InputError(f"'{self.what}' is not measured on a part", "measured", mend)
        check_text(self.what, self.text, one_line=True)
        with placed(self.what):
            Measure.parse(self.text)

    @property
    def measure(self) -> Measure:
        """The lengths."""
        return Measure.parse(self.text)


@dataclass(frozen=True, slots=True)
class SizeField(Field):
    """The field of one thing that is measured."""

    def value(self, thing: Typed) -> Any:
        """The measure as written; empty where there is none."""
        sizes: tuple[Size, ...] = getattr(thing, "sizes", ())
        return next((one.text for one in sizes if one.what == self.name), "")

    def told(self, thing: Typed) -> bool:
        """Whether it was measured."""
        return bool(self.value(thing))

    def read(
        self, text: str, thing: Typed, by: Author, so_far: Mapping[str, Any]
    ) -> dict[str, Any]:
        """All sizes, with this one as typed."""
        known = so_far.get("sizes", getattr(thing, "sizes", ()))
        sizes = {one.what: one for one in known if one.what != self.name}
        if text:
            sizes[self.name] = Size(self.name, text)
        return {"sizes": tuple(sizes[one] for one in MEASURED if one in sizes)}


@dataclass(frozen=True, slots=True)
class Seen(Record):
    """What was seen on a part: a check of a piece, and its answer; steps 0 to 3 for damage."""

    check: str
    answer: str

    def check_whole(self) -> None:
        """It is an answer to a check."""
        if not _CHECK.match(self.check):
            raise InputError(f"'{self.check}' is not a check", "seen", "Write mat.shape oval.")
        check_word("seen", self.answer)
        if not self.answer:
            raise InputError(f"{self.check} has no answer", "seen")


class SeenKind(Kind):
    """A check with one of its answers, as 'mat.shape oval'."""

    def read(self, text: str, by: Author) -> Seen:
        name, _, answer = text.partition(" ")
        answer = answer.strip()
        if by.knowledge is None:
            return Seen(name, answer)
        name, answer = today(by.knowledge.former, name, answer).split(" ", 1)
        check = by.knowledge.checks.get(name)
        if check is None:
            mend = did_you_mean(name, by.knowledge.checks)
            raise InputError(f"'{name}' is not a check", mend=mend or "Write mat.shape oval.")
        known = [one.id for one in check.answers]
        if answer not in known:
            mend = did_you_mean(answer, known)
            raise InputError(f"'{answer}' is not an answer of {name}", mend=mend)
        return Seen(name, answer)

    def write(self, value: Any) -> str:
        return f"{value.check} {value.answer}"

    def check(self, name: str, value: Any) -> None:
        """It was checked when it was made."""


@dataclass(frozen=True, slots=True)
class Part(Record):
    """A part in stock; what is empty or None was not recorded."""

    title: str
    since: dt.date
    part: str
    material: str = ""
    format: str = ""
    sizes: tuple[Size, ...] = ()
    seen: tuple[Seen, ...] = ()
    made: str = ""
    maker: str = ""
    motif: str = ""
    region: str = ""
    cost: Money | None = None
    taken_from: str = ""
    place: str = ""
    count: int = 1
    used_in: str = ""
    note: str = ""

    FIELDS: ClassVar[tuple[Field, ...]] = (
        Field("title", "a title, one line"),
        Field("part", "what it is: case, half-case, mat, preserver, glass, pad ...", SPARE),
        Field("material", "what it is made of: leather-wood, thermoplastic, brass ...", WordKind()),
        Field("format", "the plate it was made for, e.g. sixth", FORMAT),
        SizeField("outside", "its outside, e.g. 83 x 95 mm or 3 1/4 x 3 3/4 in"),
        SizeField("recess", "the recess for a package, e.g. 73 x 86 mm"),
        SizeField("opening", "the opening of a mat, e.g. 53 x 68 mm"),
        Field(
            "seen",
            "checks and answers, e.g. mat.shape oval; hinge.tape 1",
            SeveralKind(SeenKind()),
        ),
        Field("made", "period, own-work, modern or reproduction", WordKind(MADE)),
        Field("maker", "its maker, or the mark on it"),
        Field("motif", "what it shows"),
        Field("region", "us, gb, eu or au", WordKind(REGIONS)),
        Field("cost", "what it cost", AmountKind()),
        Field(
            "from",
            "the id of the piece it was taken from, or words for that",
            holds=("taken_from",),
        ),
        Field("place", "where it is"),
        Field("count", "number of identical parts", CountKind(0, MOST_ALIKE)),
        Field("since", "the day it came into stock", DAY),
        Field(
            "used-in",
            "the piece that the last one went into: an id, or words for it",
            label="went into",
            typed=False,
        ),
        Field("note", "anything else", PAGE),
    )

    def check_whole(self) -> None:
        """It is something, measured and answered once each."""
        if not self.part:
            raise InputError("the kind of part is missing", "part", "Write part=mat.")
        if len({one.what for one in self.sizes}) < len(self.sizes):
            raise InputError("is measured twice at the same place", "measured")
        if len({one.check for one in self.seen}) < len(self.seen):
            raise InputError("answers a check twice", "seen")

    @property
    def dates(self) -> bool:
        """Whether what was seen on it can say anything of its years."""
        return self.made in ("", "period")

    def measure(self, what: str) -> Measure | None:
        """What was measured there, or None."""
        return next((one.measure for one in self.sizes if one.what == what), None)

    def taken(self, piece: str) -> Self:
        """The part after one went into a piece.

        Raises:
            InputError: when none is left.
        """
        if not self.count:
            raise InputError("none is left in stock", self.title, "Raise its count if there is.")
        left = self.count - 1
        return replace(self, count=left, used_in=self.used_in if left else piece)

    def given_back(self) -> Self:
        """The part after one came back."""
        return replace(self, count=min(MOST_ALIKE, self.count + 1), used_in="")
