"""What sellers and buyers write: terms that name a thing, and phrases that should make one stop."""

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass

from appraise.knowledge.basics import Basis

FIELDS = (
    "process", "format", "case.material", "kind", "subject", "region", "channel", "record",
    "defect", "check", "part", "state", "degree", "denial", "filler", "plain", "currency",
    "measure", "money",
)  # fmt: skip
SEVERITIES = ("note", "ask", "warn")


@dataclass(frozen=True, slots=True)
class Term:
    """One thing and the words it goes by.

    Attributes:
        id: Its key.
        field: What the words tell, one of `FIELDS`.
        value: The id they stand for; for `defect` and `check` 'check answer' ('hinge.tape 1').
        synonyms: Word patterns, see `appraise.listing.patterns`.
        kind: The kind of piece that the words alone imply, or an empty string.
        also: Further answers that the words give, by check.
        exact: Never matched by likeness.
        basis: What the row rests on.
    """

    id: str
    field: str
    value: str
    synonyms: tuple[str, ...]
    kind: str = ""
    also: Mapping[str, str] = dataclasses.field(default_factory=dict)
    exact: bool = False
    basis: Basis | None = None


@dataclass(frozen=True, slots=True)
class Phrase:
    """Words in a listing that should make a buyer stop, and what to ask.

    Attributes:
        id: Its key.
        flag: The flag's id in the listing contract.
        severity: 'note', 'ask' or 'warn'.
        says: What was found, in a few words.
        why: Why it matters.
        question: What to ask the seller, ready to copy; empty when nothing can be asked.
        synonyms: Word patterns.
        unless: Word patterns which, in the same sentence, take the flag away.
        denied: Also raised when negated ("not retouched" still says that it was looked for).
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
    denied: bool = False
    basis: Basis | None = None
