"""What sellers and buyers write: terms that name a thing, and phrases that should make one stop."""

import dataclasses
from collections.abc import Mapping

from appraise.base.dataclass import dataclass
from appraise.knowledge.basics import Basis

# What words can tell. The fields of a layer are matched together, the longest words first; the
# layers do not see each other, so that one word can be part of a thing and of a manner of speaking.
LAYERS: Mapping[str, tuple[str, ...]] = {
    "thing": (
        "process", "format", "case.material", "kind", "check", "defect", "part", "state", "degree",
        "denial", "channel", "idle",
    ),
    "sitter": ("subject", "owner", "idle-sitter"),
    "shown": ("shows",),
    "said": ("saying", "idle-saying"),
    "ware": ("ware", "idle-ware"),
    "measured": ("measure",),
    "about": ("photo",),
    "origin": ("region", "title", "idle-origin"),
    "speech": ("scope", "cue"),
    "money": ("money",),
    "deal": ("record", "deal"),
    "lies": ("lies", "idle-lies"),
    "small": (
        "filler", "adjective", "plain", "spelled", "currency", "count", "item", "era", "relative",
        "numbered", "together",
        "tongue", "tongue-state",
        "shot", "spare", "container", "given", "group",
    ),
}  # fmt: skip
FIELDS = tuple(name for names in LAYERS.values() for name in names)
ANSWERS = ("defect", "check", "saying")  # fields whose values are a check and its answer
SEVERITIES = ("note", "ask", "warn")


@dataclass(frozen=True, slots=True)
class Term:
    """One thing and the words it goes by; of a `group`, words that patterns name together.

    Attributes:
        id: Its key.
        field: What the words tell, one of `FIELDS`.
        value: The id they stand for; for `defect`, `check` and `saying` 'check answer' ('hinge.tape
            1').
        synonyms: Word patterns, see `appraise.listing.patterns`.
        brief: Patterns that count only in a line typed by the user, not in a seller's text.
        kind: The kind of piece that the words alone imply, or an empty string.
        also: Further answers that the words give, by check.
        only: Process, family or housing words of which alone it is meant; empty: all.
        tight: A state that must stand right beside its part ("new glass").
        denied: Of a saying, the 'check answer' where it is denied; empty: nothing is said then.
        admits: Of a saying, that a seller says it against their own interest.
        basis: What the row rests on.
    """

    id: str
    field: str
    value: str
    synonyms: tuple[str, ...]
    brief: tuple[str, ...] = ()
    kind: str = ""
    also: Mapping[str, str] = dataclasses.field(default_factory=dict)
    only: tuple[str, ...] = ()
    tight: bool = False
    denied: str = ""
    admits: bool = False
    basis: Basis | None = None


@dataclass(frozen=True, slots=True)
class Phrase:
    """Words in a listing that should make a buyer stop, and what to ask.

    Attributes:
        id: Its key.
        flag: The flag's id in the listing contract; several phrases may raise one flag.
        severity: 'note', 'ask' or 'warn'.
        says: What was found, in a few words.
        why: Why it matters.
        question: What to ask the seller, ready to copy; empty when nothing can be asked.
        synonyms: Word patterns.
        unless: Word patterns which, in the same sentence, take the flag away.
        said: Answers to checks of what is said, as 'check answer', that raise it too.
        holds: Why no maximum is given under this flag, as the end of a sentence; may be empty.
        basis: What the row rests on.
    """

    id: str
    flag: str
    severity: str
    says: str
    why: str
    question: str
    synonyms: tuple[str, ...]
    unless: tuple[str, ...] = ()
    said: tuple[str, ...] = ()
    holds: str = ""
    basis: Basis | None = None


SHEET_PLACES = (
    "heading", "other-figures", "weak", "of-a-sale", "of-a-purchase", "event", "no-event",
    "mine", "title", "state", "total", "total-alone", "called-off", "picture", "year-alone",
    "month-alone", "day-alone", "auxiliary", "material", "container", "between", "framed",
    "framed-by", "lacking", "sleeve", "part-payment", "other-thing", "cell", "within", "money",
    "nothing-beside", "yes", "no", "day-unknown", "continental", "place", "from", "booking",
    "own", "seller", "nothing", "number", "empty", "beside-amount", "apart", "ditto", "same",
    "estimate", "went", "came", "person", "country", "inclusive", "exclusive", "postage-of",
)  # fmt: skip
"""Where a word of a spreadsheet is met."""


@dataclass(frozen=True, slots=True)
class SheetRow:
    """Words of strangers' spreadsheets that mean one thing.

    Attributes:
        id: Its key.
        of: Where they are met, one of `SHEET_PLACES`.
        words: The words, in small letters without accents.
        value: What they mean there; empty where their place says it.
        field: Of a word of choice the field that it is of.
        basis: What the row rests on.
    """

    id: str
    of: str
    words: tuple[str, ...]
    value: str = ""
    field: str = ""
    basis: Basis | None = None


@dataclass(frozen=True, slots=True)
class Gap:
    """Something that a listing should say, and the question to ask where it does not.

    Attributes:
        id: A check's id, or a field of a listing's claims.
        says: What is not said, in a few words.
        question: The question, polite and ready to copy.
        weight: How useful the answer is, 0 to 1; a judgement.
        kinds: Kinds of piece for which it is asked.
        only: Process, family or housing words for which it is asked; empty: all.
        told: Further checks or claim fields that answer it.
        basis: What the row rests on.
    """

    id: str
    says: str
    question: str
    weight: float
    kinds: tuple[str, ...]
    only: tuple[str, ...] = ()
    told: tuple[str, ...] = ()
    basis: Basis | None = None
