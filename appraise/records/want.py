"""What one is looking for."""

import datetime as dt
from typing import ClassVar, Self

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.knowledge.basics import KINDS
from appraise.records.fields import Field, Record
from appraise.records.piece_words import SUBJECTS
from appraise.records.quantities import DAY, AmountKind, YearRangeKind
from appraise.records.trade import FORMAT, HOUSING, PROCESS
from appraise.records.values import PAGE, SeveralKind, WordKind


@dataclass(frozen=True, slots=True)
class Want(Record):
    """Something to look out for; what is empty or None may be anything."""

    title: str
    since: dt.date
    kind: str = ""
    process: str = ""
    housing: str = ""
    formats: tuple[str, ...] = ()
    motif: str = ""
    subject: str = ""
    first: int | None = None
    last: int | None = None
    most: Money | None = None
    note: str = ""

    FIELDS: ClassVar[tuple[Field, ...]] = (
        Field("title", "a title, one line"),
        Field(
            "kind",
            "cased, loose-plate, card, lantern-slide or cyanotype",
            WordKind(KINDS),
        ),
        Field("process", "a process, e.g. tintype", PROCESS),
        Field("housing", "case material, e.g. thermoplastic", HOUSING),
        Field("formats", "one or more sizes: sixth, ninth", SeveralKind(FORMAT, 50, ", ")),
        Field("motif", "what the case or the image should show"),
        Field("subject", "whom the image shows, e.g. soldier", WordKind(SUBJECTS)),
        Field(
            "years",
            "when the image was taken: 1855..1862, 1855.. or ..1862",
            YearRangeKind(),
            ("first", "last"),
        ),
        Field("most", "your limit: the most it may cost in total", AmountKind()),
        Field("since", "the day it came onto the list", DAY),
        Field("note", "anything else", PAGE),
    )

    def check_whole(self) -> None:
        """A format that is any of them is none."""
        if "" in self.formats:
            raise InputError("takes 1 to 50 words", "formats")

    def telling(self) -> Self:
        """The same, once it says something by which a piece could be told.

        Raises:
            InputError: when it does not.
        """
        if not self.names:
            raise InputError(
                "it has nothing to match on",
                mend="Name a size, process, case, motif, subject or years.",
            )
        return self

    @property
    def names(self) -> bool:
        """Whether it says anything by which a piece could be told."""
        said = (self.kind, self.process, self.housing, self.formats, self.motif, self.subject)
        return any(said) or self.first is not None or self.last is not None
