"""Work on a piece: what was done, by whom, with what, and whether it can be undone."""

import datetime as dt
from dataclasses import dataclass

from appraise.base.errors import InputError
from appraise.base.fieldchecks import (
    check_amount,
    check_flag,
    check_id,
    check_number,
    check_text,
    check_word,
)
from appraise.base.money import Money
from appraise.knowledge.bench import ARCHIVAL

HANDS = ("self", "conservator", "other")
REVERSIBLE = ("yes", "slow", "no")
MOST_MINUTES = 100_000
MOST = 500  # materials, parts or pictures of one work


@dataclass(frozen=True, slots=True)
class Stuff:
    """A material that was used.

    Attributes:
        what: A word of the knowledge's `materials`, or the user's own words.
        archival: 'yes', 'no', 'depends', or '' where nobody has said.
    """

    what: str
    archival: str = ""

    def __post_init__(self) -> None:
        check_text("materials", self.what, one_line=True)
        if not self.what.strip():
            raise InputError("a material has no name", "materials")
        check_word("materials", self.archival, ARCHIVAL)


@dataclass(frozen=True, slots=True)
class TakenOut:
    """A part that was taken out of the piece, and where it lies now."""

    what: str
    where: str = ""

    def __post_init__(self) -> None:
        for text in (self.what, self.where):
            check_text("taken_out", text, one_line=True)
        if not self.what.strip():
            raise InputError("a part that was taken out has no name", "taken_out")


@dataclass(frozen=True, slots=True)
class Work:
    """Work on a piece. Empty text and None both mean "not recorded".

    Attributes:
        title: One line to know it by.
        begun: The day it was begun.
        piece: The id of the piece in the log, or words for it.
        done: The day it was finished; None while it is in hand.
        did: What was done.
        by: One of `HANDS`.
        who: Their name or address, in the user's words.
        materials: What was used.
        reversible: One of `REVERSIBLE`: whether it can be undone; 'slow': by a conservator, with
            pains.
        used: Ids of the parts taken from stock; one that was taken twice stands here twice.
        taken_out: Parts taken out of the piece.
        cost: What it cost, parts aside.
        minutes: How long it took.
        before, after: Names of pictures taken before and after.
        made_by_me: Made or assembled by the user, so that it has to be said.
        mark: The mark that was put on it, and where.
        disclosure: The sentence that tells it to whoever gets the piece.
        note: Anything else.

    Raises:
        InputError: when a value is outside what is said above.
    """

    title: str
    begun: dt.date
    piece: str = ""
    done: dt.date | None = None
    did: str = ""
    by: str = "self"
    who: str = ""
    materials: tuple[Stuff, ...] = ()
    reversible: str = ""
    used: tuple[str, ...] = ()
    taken_out: tuple[TakenOut, ...] = ()
    cost: Money | None = None
    minutes: int = 0
    before: tuple[str, ...] = ()
    after: tuple[str, ...] = ()
    made_by_me: bool = False
    mark: str = ""
    disclosure: str = ""
    note: str = ""

    def __post_init__(self) -> None:
        for name in ("title", "piece", "who", "mark", "disclosure"):
            check_text(name, getattr(self, name), one_line=True)
        for name in ("did", "note"):
            check_text(name, getattr(self, name), one_line=False)
        for name in ("before", "after"):
            for each in getattr(self, name):
                check_text(name, each, one_line=True)
        check_word("by", self.by, HANDS)
        check_word("reversible", self.reversible, REVERSIBLE)
        check_amount("cost", self.cost, optional=True)
        check_number("minutes", self.minutes, 0, MOST_MINUTES, whole=True)
        check_flag("made_by_me", self.made_by_me)
        for each in self.used:
            check_id("used", each, digits=16)
        lists = (self.materials, self.used, self.taken_out, self.before, self.after)
        if max(map(len, lists)) > MOST:
            raise InputError(f"one of its lists is longer than {MOST}", self.title)
        if self.done is not None and self.done < self.begun:
            raise InputError(f"{self.done} lies before {self.begun}", "done")

    @property
    def in_hand(self) -> bool:
        """Whether it is not finished yet."""
        return self.done is None

    @property
    def text(self) -> str:
        """All the words in which it tells what was done, and with what."""
        stuff = " ; ".join(one.what for one in self.materials)
        return " ; ".join(each for each in (self.title, self.did, stuff, self.note) if each)
