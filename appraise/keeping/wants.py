"""What one is looking for."""

import datetime as dt
from dataclasses import dataclass
from typing import Self

from appraise.base.errors import InputError
from appraise.base.fieldchecks import check_amount, check_number, check_text, check_word
from appraise.base.money import Money
from appraise.piece.records import SUBJECTS

EARLIEST, LATEST = 1800, 2100
MOST_FORMATS = 50


@dataclass(frozen=True, slots=True)
class Want:
    """Something to look out for. Empty text and None both mean "any".

    Attributes:
        title: One line to know it by.
        since: The day it was wished for first.
        kind: A kind of piece.
        process: Family or sub-process, a word of the knowledge files.
        housing: A word of the check `case.material`.
        formats: Words of the knowledge files; any of them will do.
        motif: What case or picture should show, in the user's words.
        subject: Whom or what the picture shows, as a piece has it.
        first, last: The years from which the picture should be.
        most: The most it may cost in all.
        note: Anything else.

    Raises:
        InputError: when a value is outside what is said above.
    """

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

    def __post_init__(self) -> None:
        for name in ("title", "motif"):
            check_text(name, getattr(self, name), one_line=True)
        check_text("note", self.note, one_line=False)
        for name in ("kind", "process", "housing"):
            check_word(name, getattr(self, name))
        for each in self.formats:
            check_word("formats", each)
        if len(self.formats) > MOST_FORMATS or "" in self.formats:
            raise InputError(f"takes 1 to {MOST_FORMATS} words", "formats")
        check_word("subject", self.subject, SUBJECTS)
        for name in ("first", "last"):
            if getattr(self, name) is not None:
                check_number(name, getattr(self, name), EARLIEST, LATEST, whole=True)
        if self.first is not None and self.last is not None and self.last < self.first:
            raise InputError(f"{self.first} to {self.last} runs backwards", "years")
        check_amount("most", self.most, optional=True)

    def telling(self) -> Self:
        """The same, once it says something by which a piece could be told.

        Raises:
            InputError: when it does not.
        """
        if not self.names:
            raise InputError(
                "it names nothing by which a piece could be told",
                mend="Name a size, process, case, motif, subject or years.",
            )
        return self

    @property
    def names(self) -> bool:
        """Whether it says anything by which a piece could be told."""
        said = (self.kind, self.process, self.housing, self.formats, self.motif, self.subject)
        return any(said) or self.first is not None or self.last is not None
