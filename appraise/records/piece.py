"""A piece as a person met it: frozen records, of which a change makes new ones."""

from collections.abc import Mapping
from dataclasses import field, replace
from typing import Any, ClassVar, Self

from appraise.base.ages import parse_ages
from appraise.base.dataclass import dataclass
from appraise.base.dates import Dating
from appraise.base.errors import InputError, placed
from appraise.base.logday import dating_typed
from appraise.base.measures import Measure
from appraise.base.money import Money
from appraise.knowledge.basics import CHANNELS, KINDS, REGIONS
from appraise.records.fields import Field, Typed, changed, defaults
from appraise.records.picture_file import PictureFile
from appraise.records.piece_words import SUBJECTS
from appraise.records.quantities import AmountKind, CountKind, YearKind
from appraise.records.trade import FORMAT
from appraise.records.values import FLAG, LINE, Author, Kind, SeveralKind, WordKind

MEASURED = ("plate", "package", "opening", "case", "recess", "mount")
MEASURES = {
    "cased": ("plate", "package", "opening", "case", "recess"),
    "loose-plate": ("plate", "package", "opening"),
}
"""What is measured on pieces of a kind; of all others the mount."""
SIDES = ("left", "right")
"""The images of a case that holds two."""
PLANS = ("keep", "resell", "parts")
"""What can become of a piece of a lot: kept, sold on whole, or taken apart."""
WRITTEN_ON = (
    "plate", "seal", "backing", "mat", "caption", "back", "case", "stamp", "note",
)  # fmt: skip
"""Where writing stands: `stamp` is a dated cancel on a tax stamp, `note` a loose piece of paper."""
IN_HAND, SELLER = "in-hand", "seller"
DEFAULT_KNOWN = {"online": "photo", "auction": "photo"}
UNTOLD = "cannot-tell"
OWN, CLAIMED = "own.process", "claim.process"  # what its holder, and what its seller, calls it


@dataclass(frozen=True, slots=True)
class Finding:
    """The answer given to a check, and how it is known.

    Attributes:
        check: The check's id.
        answer: One of its answers, or `cannot-tell`, which changes nothing.
        known: 'in-hand', 'photo' or 'seller'.
        admitted: Said by the seller against their own interest.
    """

    check: str
    answer: str
    known: str
    admitted: bool = False


BY_SELLER = " (seller says)"
"""Ends a maker or an inscription that only a seller tells; who saw it takes the words away."""


@dataclass(frozen=True, slots=True)
class Inscription:
    """Writing on or with the piece: the date it names, if any, and where it stands.

    `where` is a word of `WRITTEN_ON`, or '' where that was not noted.
    """

    text: str = ""
    date: Dating | None = None
    where: str = ""

    @property
    def quoted(self) -> str:
        """Its words in quotation marks; that only a seller tells them stands behind the marks."""
        words = self.text.removesuffix(BY_SELLER)
        return f'"{words}"{self.text[len(words) :]}' if words else ""


@dataclass(frozen=True, slots=True)
class Origin:
    """Where a piece comes from."""

    who: str = ""
    where: str = ""
    receipt: str = ""


@dataclass(frozen=True, slots=True)
class Image:
    """One of several images in a piece: which side it is on and what was found on it."""

    side: str
    findings: Mapping[str, Finding] = field(default_factory=dict)


class AgesKind(Kind):
    """A sitter's age, or the youngest and the oldest: '30', '25..35', 'about 30'."""

    def read(self, text: str, by: Author) -> tuple[int, int]:
        return parse_ages(text)

    def write(self, value: Any) -> str:
        return "..".join(dict.fromkeys(map(str, value)))


class DatingKind(Kind):
    """A date that stands on an object, EDTF."""

    def read(self, text: str, by: Author) -> Dating:
        return dating_typed(text)


@dataclass(frozen=True, slots=True)
class SizeOfPiece(Field):
    """One thing that is measured of a piece."""

    def value(self, thing: Any) -> Measure | None:
        """Its measure."""
        found: Measure | None = thing.measured.get(self.name.removeprefix("size-"))
        return found

    def told(self, thing: Any) -> bool:
        """Whether it was measured."""
        return self.value(thing) is not None

    def read(self, text: str, thing: Any, by: Author, so_far: Mapping[str, Any]) -> dict[str, Any]:
        """All measures, with this one as typed."""
        what, known = self.name.removeprefix("size-"), so_far.get("measured", thing.measured)
        sizes = {name: one for name, one in known.items() if name != what}
        with placed(self.name):
            return {"measured": {**sizes, what: Measure.parse(text)} if text else sizes}


@dataclass(frozen=True, slots=True)
class WritingOfPiece(Field):
    """What is told of the writing on a piece; `holds` names the part of the inscription."""

    def value(self, thing: Any) -> Any:
        """What is told of it."""
        return getattr(thing.inscription or Inscription(), self.holds[0])

    def told(self, thing: Any) -> bool:
        """Whether anything is."""
        return bool(self.value(thing))

    def read(self, text: str, thing: Any, by: Author, so_far: Mapping[str, Any]) -> dict[str, Any]:
        """The inscription with this as typed."""
        known = so_far.get("inscription", thing.inscription) or Inscription()
        with placed(self.name):
            told = self.kind.read(text, by) if text else defaults(Inscription)[self.holds[0]]
        return {"inscription": replace(known, **{self.holds[0]: told})}


SIZE = "example: 70 x 83 mm, 2 3/4 x 3 1/4 in or 44 mm dia"


@dataclass(frozen=True, slots=True)
class Piece(Typed):
    """Everything noted about one piece; `findings` keeps the order in which they were made.

    `shipping` is what the seller asks to send it; None: not said. `images` are those of a case of
    two, `pictures` photos of the piece.
    """

    title: str = ""
    kind: str = "cased"
    channel: str = "market"
    region: str = "unknown"
    asking: Money | None = None
    shipping: Money | None = None
    subjects: tuple[str, ...] = ()
    motif: str = ""
    maker: str = ""
    appeal: int | None = None
    measured: Mapping[str, Measure] = field(default_factory=dict)
    conserved: bool = False
    portray: int | None = None
    inscription: Inscription | None = None
    more_writing: tuple[Inscription, ...] = ()
    sitter_age: tuple[int, int] | None = None
    origin: Origin | None = None
    not_shown: tuple[str, ...] = ()
    named_format: str = ""
    findings: Mapping[str, Finding] = field(default_factory=dict)
    images: tuple[Image, ...] = ()
    pictures: tuple[PictureFile, ...] = ()

    FIELDS: ClassVar[tuple[Field, ...]] = (
        Field("title", "a title, one line"),
        Field("kind", "what sort of piece it is", WordKind(KINDS, needed=True)),
        Field("channel", "where it is met", WordKind(CHANNELS, needed=True)),
        Field(
            "region",
            "where it was made, as far as is known",
            WordKind((*REGIONS, "unknown"), needed=True),
            asks="made in",
        ),
        Field("asking", "the asking price, e.g. 45 or 45.00 USD", AmountKind()),
        Field("shipping", "shipping you pay; 0 if free", AmountKind()),
        Field("format", "as named by the seller or by you", FORMAT, ("named_format",)),
        SizeOfPiece("size-plate", f"the plate itself; {SIZE}", asks="size: plate"),
        SizeOfPiece("size-package", f"plate, mat and glass together; {SIZE}", asks="size: package"),
        SizeOfPiece("size-opening", f"the opening of the mat; {SIZE}", asks="size: opening"),
        SizeOfPiece("size-case", f"the closed case, outside; {SIZE}", asks="size: case"),
        SizeOfPiece("size-recess", f"the well for the package; {SIZE}", asks="size: recess"),
        SizeOfPiece("size-mount", f"the card or slide; {SIZE}", asks="size: mount"),
        Field(
            "subject",
            "what it shows; several with commas, the main one first",
            SeveralKind(WordKind(SUBJECTS), between=", "),
            ("subjects",),
            asks="subjects",
        ),
        Field("motif", "what the case or the image shows, in your words"),
        Field("maker", "photographer or maker, if known"),
        Field("appeal", "your own taste, 1 to 5: how much you like it", CountKind(1, 5)),
        Field("conserved", "yes if a conservator reseated or resealed the package", FLAG),
        Field(
            "sitter",
            "example: 30, 25..35 or about 30",
            AgesKind(),
            ("sitter_age",),
            asks="sitter's age",
        ),
        Field(
            "portray",
            "year to portray, e.g. 1863: whether the piece would look right in that year",
            YearKind(1800, 2100),
            asks="to portray",
        ),
        WritingOfPiece(
            "inscription", "any inscription, on the piece or stored with it", LINE, ("text",)
        ),
        WritingOfPiece(
            "written-date",
            "the date that stands in it; example: 3 April 1859, 1859 or about 1859",
            DatingKind(),
            ("date",),
            asks="date written",
        ),
        WritingOfPiece(
            "written-where",
            "the part it is written on; a loose note dates nothing",
            WordKind(WRITTEN_ON),
            ("where",),
            asks="written on",
        ),
    )

    @property
    def subject(self) -> str:
        """The leading subject, or an empty string."""
        return next(iter(self.subjects), "")

    @property
    def maker_known(self) -> str:
        """The maker, where more than a seller's word stands for the name."""
        return "" if self.maker.endswith(BY_SELLER) else self.maker

    @property
    def writings(self) -> tuple[Inscription, ...]:
        """All writing on or with the piece."""
        return (*((self.inscription,) if self.inscription else ()), *self.more_writing)

    @property
    def default_known(self) -> str:
        """How things are known unless said otherwise: in hand at a stall, by photo online."""
        return DEFAULT_KNOWN.get(self.channel, IN_HAND)

    def found(self, check: str) -> str:
        """The answer given to a check, or an empty string."""
        finding = self.findings.get(check)
        return finding.answer if finding else ""

    @property
    def called(self) -> str:
        """The process that its holder or else its seller names; '' where nobody does."""
        return self.found(OWN) or self.found(CLAIMED)

    def with_finding(
        self, check: str, answer: str, known: str = "", admitted: bool = False
    ) -> Self:
        """The piece with one finding made or revised; a revision keeps its place."""
        finding = Finding(check, answer, known or self.default_known, admitted)
        return replace(self, findings={**self.findings, check: finding})

    def without_finding(self, check: str) -> Self:
        """The piece as if the check had never been answered."""
        kept = {name: one for name, one in self.findings.items() if name != check}
        return replace(self, findings=kept)


def with_details(piece: Piece, texts: Mapping[str, str], by: Author) -> Piece:
    """The piece with what was typed into its fields.

    Raises:
        InputError: one line; its `where` is the field.
    """
    now = changed(piece, texts, by)
    if now.asking is not None and now.asking.amount <= 0:
        raise InputError("an amount must be above 0", "asking")
    one = now.inscription
    written = one if one and (one.text or one.date) else None
    return replace(now, inscription=written, subjects=tuple(dict.fromkeys(now.subjects)))
