"""What a listing says, as frozen records."""

from appraise.base.dataclass import dataclass
from appraise.records.piece import Piece

# The claims' fields, in the order in which they are told.
FIELDS = (
    "process", "format", "case.material", "kind", "subject", "shows", "maker", "region", "date",
    "measured", "defect", "check", "inscription", "mark", "asking", "postage",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Claim:
    """One thing that the text says of the piece.

    Attributes:
        field: One of `FIELDS`.
        value: What is said: an id, 'check step' for damage, an amount, a measure, EDTF, words.
        text: The words that say it, as they stand in the listing.
        start: Where they start in the text.
        end: Where they end, not included.
        score: How surely the words mean it, 0 to 1.
        against_interest: Whether the seller says it against their own interest.
    """

    field: str
    value: str
    text: str
    start: int
    end: int
    score: float
    against_interest: bool = False


@dataclass(frozen=True, slots=True)
class Flag:
    """Something in the text, or missing from it, at which a buyer should stop.

    Attributes:
        id: One of the contract's flags.
        says: What was found.
        why: Why it matters.
        severity: 'note', 'ask' or 'warn'.
        question: What to ask, ready to copy; may be empty.
        start: Where its words start in the text, or None.
        end: Where they end, not included, or None.
        holds: Why no maximum is given, as the end of a sentence; empty where it stops no bid.
    """

    id: str
    says: str
    why: str
    severity: str
    question: str = ""
    start: int | None = None
    end: int | None = None
    holds: str = ""


@dataclass(frozen=True, slots=True)
class Listing:
    """A listing, read.

    Attributes:
        text: As handed in.
        claims: What it says of the piece, in the order of the text.
        flags: What should make one stop, gravest first.
        missing: Check ids and fields that a buyer needs and the text does not tell.
        questions: Polite questions to the seller, most useful first.
        pieces: How many pieces are for sale; 0 where it is something else than photographs.
        piece: The claims as a piece, known from the seller.
        parts: Of several pieces each one: as it is listed, else as all are said to be; what comes
            beside them, such as a spare case, by its name alone. None where there is one piece.
    """

    text: str
    claims: tuple[Claim, ...]
    flags: tuple[Flag, ...]
    missing: tuple[str, ...]
    questions: tuple[str, ...]
    pieces: int
    piece: Piece
    parts: tuple[Piece, ...] = ()

    @property
    def holds_back(self) -> tuple[str, ...]:
        """Why no maximum is given, a phrase for each reason; empty where nothing stops a bid."""
        return tuple(dict.fromkeys(flag.holds for flag in self.flags if flag.holds))

    def said(self, field: str) -> tuple[str, ...]:
        """The values claimed of a field."""
        return tuple(claim.value for claim in self.claims if claim.field == field)
