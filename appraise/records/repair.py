"""A repair, or other work on a piece: what was done, with what, and whether it can be undone."""

import datetime as dt
from typing import TYPE_CHECKING, Any, ClassVar

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.fieldchecks import check_text, check_word
from appraise.base.money import Money
from appraise.knowledge.bench import ARCHIVAL, named
from appraise.records.fields import Field, Record
from appraise.records.quantities import DAY, AmountKind, CountKind
from appraise.records.values import FLAG, LINE, PAGE, Author, IdKind, Kind, SeveralKind, WordKind

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge

HANDS = ("self", "conservator", "other")
REVERSIBLE = ("yes", "slow", "no")
MOST_MINUTES = 100_000
MOST = 500  # materials, parts or pictures of one repair
LIES_IN = " in "


@dataclass(frozen=True, slots=True)
class Stuff(Record):
    """A material that was used.

    Attributes:
        what: A word of the knowledge's `materials`, or the user's own words.
        archival: 'yes', 'no', 'depends', or '' where nobody has said.
    """

    what: str
    archival: str = ""

    def check_whole(self) -> None:
        """It has a name."""
        check_text("materials", self.what, one_line=True)
        if not self.what.strip():
            raise InputError("a material has no name", "materials")
        check_word("materials", self.archival, ARCHIVAL)


@dataclass(frozen=True, slots=True)
class TakenOut(Record):
    """A part that was taken out of the piece, and where it lies now."""

    what: str
    where: str = ""

    def check_whole(self) -> None:
        """It has a name."""
        for text in (self.what, self.where):
            check_text("taken_out", text, one_line=True)
        if not self.what.strip():
            raise InputError("a part that was taken out has no name", "taken_out")


class StuffKind(Kind):
    """A material as it is written; what is known of it says whether it is archival.

    'walnut ink: no' says it where nobody knows it; a colon at the end says nothing.
    """

    def read(self, text: str, by: Author) -> Stuff:
        name, colon, told = text.rpartition(":")
        said = told.strip().lower()
        if colon and said in ("", *ARCHIVAL):
            text = name.strip() if by.knowledge or not name.strip() else name
        else:
            said = ""
        if by.knowledge is None:
            return Stuff(text, said)
        known = material_in(text, by.knowledge)
        word = known if known and _is_whole(text, known, by.knowledge) else text
        return Stuff(word, by.knowledge.materials[known].archival if known else said)

    def write(self, value: Any) -> str:
        if value.archival:
            return f"{value.what}: {value.archival}"
        return f"{value.what}:" if ":" in value.what else str(value.what)

    def check(self, name: str, value: Any) -> None:
        """It was checked when it was made."""


class TakenOutKind(Kind):
    """A part and where it lies: 'old pad in box 3'."""

    def read(self, text: str, by: Author) -> TakenOut:
        what, _, where = text.partition(LIES_IN)
        return TakenOut(what, where)

    def write(self, value: Any) -> str:
        return f"{value.what}{LIES_IN}{value.where}" if value.where else str(value.what)

    def check(self, name: str, value: Any) -> None:
        """It was checked when it was made."""


class Ids(Kind):
    """Ids of other records, with blanks or commas between."""

    def read(self, text: str, by: Author) -> tuple[str, ...]:
        return tuple(text.replace(",", " ").replace(";", " ").lower().split())

    def write(self, value: Any) -> str:
        return " ".join(value)

    def check(self, name: str, value: Any) -> None:
        SeveralKind(IdKind(), MOST).check(name, value)


@dataclass(frozen=True, slots=True)
class Repair(Record):
    """Work on a piece; what is empty or None was not recorded."""

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

    FIELDS: ClassVar[tuple[Field, ...]] = (
        Field("title", "a title, one line"),
        Field("piece", "the id, your number or the title of a piece you own, or words for it"),
        Field("did", "what was done", PAGE),
        Field("by", "self, conservator or other", WordKind(HANDS, needed=True)),
        Field("who", "their name or address"),
        Field(
            "materials",
            "what was used, with ; between; whether it is archival is looked up",
            SeveralKind(StuffKind(), MOST),
        ),
        Field("reversible", "yes, slow or no: whether it can be undone", WordKind(REVERSIBLE)),
        Field("used", "ids of parts taken from stock", Ids()),
        Field(
            "taken-out",
            "parts removed and where they are: old pad in box 3; clasp",
            SeveralKind(TakenOutKind(), MOST),
        ),
        Field("cost", "cost, without parts", AmountKind()),
        Field("minutes", "how long it took", CountKind(0, MOST_MINUTES)),
        Field("before", "names of photos taken before", SeveralKind(LINE, MOST)),
        Field("after", "names of photos taken after", SeveralKind(LINE, MOST)),
        Field("made-by-me", "yes if you made or assembled it and must disclose it", FLAG),
        Field("mark", "your mark, and where it is"),
        Field("disclosure", "the disclosure sentence for the next owner"),
        Field("begun", "the day it was started", DAY),
        Field("done", "the day it was finished", DAY),
        Field("note", "anything else", PAGE),
    )

    def check_whole(self) -> None:
        """It ends after it began."""
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


def material_in(text: str, knowledge: "Knowledge") -> str:
    """The material of the knowledge that a text names most closely; '' for none."""
    if text in knowledge.materials:
        return text
    found = {
        one.id: named(text, (*one.words, one.name.lower())) for one in knowledge.materials.values()
    }
    best = max(found, key=lambda name: len(found[name]), default="")
    return best if best and found[best] else ""


def _is_whole(text: str, known: str, knowledge: "Knowledge") -> bool:
    """Whether a text is no more than a name of that material."""
    plain = " ".join(text.lower().replace("-", " ").split())
    row = knowledge.materials[known]
    return plain in (*row.words, row.name.lower(), known.replace("-", " "))
