"""A piece as a person met it: frozen records, of which a change makes new ones."""

from collections.abc import Mapping
from dataclasses import field, replace
from typing import Self

from appraise.base.dataclass import dataclass
from appraise.base.dates import Dating
from appraise.base.measures import Measure
from appraise.base.money import Money
from appraise.records.picture_file import PictureFile

MEASURED = ("plate", "package", "opening", "case", "recess", "mount")
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


@dataclass(frozen=True, slots=True)
class Inscription:
    """Writing on or with the piece: the date it names, if any, and where it stands.

    `where` is a word of `WRITTEN_ON`, or '' where that was not noted.
    """

    text: str = ""
    date: Dating | None = None
    where: str = ""


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


@dataclass(frozen=True, slots=True)
class Piece:
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

    @property
    def subject(self) -> str:
        """The leading subject, or an empty string."""
        return next(iter(self.subjects), "")

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
