"""A part that is kept by itself until a piece needs it: what it is, its size, where it comes from.

What was seen on a part is noted as answers of the same checks that are asked of a whole piece, so
that its years are read by the same curves.
"""

import datetime as dt
import re
from dataclasses import dataclass, replace
from typing import Self

from appraise.base.errors import InputError
from appraise.base.fieldchecks import check_amount, check_number, check_text, check_word
from appraise.base.measures import Measure
from appraise.base.money import Money
from appraise.base.spelling import did_you_mean
from appraise.knowledge.records import REGIONS

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
class Size:
    """One thing that was measured on a part.

    Attributes:
        what: One of `MEASURED`.
        text: The measure as it was written.
    """

    what: str
    text: str

    def __post_init__(self) -> None:
        if self.what not in MEASURED:
            mend = did_you_mean(self.what, MEASURED)
            raise InputError(f"'{self.what}' is not measured on a part", "measured", mend)
        check_text(self.what, self.text, one_line=True)
        try:
            Measure.parse(self.text)
        except InputError as error:
            raise InputError(error.what, self.what, error.mend) from None

    @property
    def measure(self) -> Measure:
        """The lengths."""
        return Measure.parse(self.text)


@dataclass(frozen=True, slots=True)
class Seen:
    """What was seen on a part: a check of a piece, and its answer; steps 0 to 3 for damage."""

    check: str
    answer: str

    def __post_init__(self) -> None:
        if not _CHECK.match(self.check):
            raise InputError(f"'{self.check}' is no check", "seen", "Write mat.shape oval.")
        check_word("seen", self.answer)
        if not self.answer:
            raise InputError(f"{self.check} has no answer", "seen")


@dataclass(frozen=True, slots=True)
class Part:
    """A part in stock. Empty text and None both mean "not recorded".

    Attributes:
        title: One line to know it by.
        since: The day it came into stock.
        part: What it is, a word of the knowledge's `spares`.
        material: What it is made of, a word; for a case one of the check `case.material`.
        format: The plate that it was made for, a word of the knowledge files.
        sizes: What was measured on it, each thing once.
        seen: What was seen on it, each check once.
        made: One of `MADE`.
        maker: Its maker, or the mark on it.
        motif: What it shows, in the user's words.
        region: One of the regions of the knowledge files.
        cost: What it cost.
        taken_from: The id of the piece that it was taken from, or words for that.
        place: Where it lies.
        count: How many there are that are alike, 0 to 999; 0 when the last was used.
        used_in: The piece that the last one went into: an id, or words for it.
        note: Anything else.

    Raises:
        InputError: when a value is outside what is said above.
    """

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

    def __post_init__(self) -> None:
        for name in ("title", "maker", "motif", "taken_from", "place", "used_in"):
            check_text(name, getattr(self, name), one_line=True)
        check_text("note", self.note, one_line=False)
        for name in ("part", "material", "format"):
            check_word(name, getattr(self, name))
        if not self.part:
            raise InputError("says not what it is", "part", "Write part=mat.")
        check_word("made", self.made, MADE)
        check_word("region", self.region, REGIONS)
        check_amount("cost", self.cost, optional=True)
        check_number("count", self.count, 0, MOST_ALIKE, whole=True)
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
