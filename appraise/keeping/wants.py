"""What one is looking for."""

import datetime as dt
from dataclasses import dataclass

from appraise.base.fieldchecks import check_amount, check_text, check_word
from appraise.base.money import Money


@dataclass(frozen=True, slots=True)
class Want:
    """Something to look out for. Empty text and None both mean "any".

    Attributes:
        title: One line to know it by.
        since: The day it was wished for first.
        kind: A kind of piece.
        process: Family or sub-process, a word of the knowledge files.
        housing: A word of the check `case.material`.
        format: A word of the knowledge files.
        motif: What case or picture should show, in the user's words.
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
    format: str = ""
    motif: str = ""
    most: Money | None = None
    note: str = ""

    def __post_init__(self) -> None:
        for name in ("title", "motif"):
            check_text(name, getattr(self, name), one_line=True)
        check_text("note", self.note, one_line=False)
        for name in ("kind", "process", "housing", "format"):
            check_word(name, getattr(self, name))
        check_amount("most", self.most, optional=True)
