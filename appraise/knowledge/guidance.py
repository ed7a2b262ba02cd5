"""What to beware of, what never to do and how to keep a piece, as frozen records."""

import re
from collections.abc import Mapping

from appraise.base.dataclass import dataclass
from appraise.knowledge.basics import Basis

Span = tuple[float | None, float | None]  # lowest and highest; None where a source leaves it open
CARE_TOPICS = (
    "storage", "enclosure", "handling", "light", "photographing", "marking", "arrival",
    "looking", "conservator", "urgent", "loss",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Caution:
    """A health, legal or conduct caution, shown where it applies.

    `when` maps a check to the answers that call for it; `materials` names housings or processes,
    `channels` where a piece is bought.
    """

    id: str
    text: str
    when: Mapping[str, tuple[str, ...]]
    materials: tuple[str, ...]
    basis: Basis
    checked_on: str = ""
    channels: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Never:
    """A test or treatment that nobody should try.

    Attributes:
        id: Its word in files.
        says: The test or treatment, as the product names it.
        words: How a person might name it, in small letters.
        why: What it does to the piece, or to people.
        instead: What to do in its place.
        basis: What the row rests on.
    """

    id: str
    says: str
    words: tuple[str, ...]
    why: str
    instead: str
    basis: Basis

    def named_in(self, text: str) -> bool:
        """Whether a text names it: whole words, capitals and spacing aside."""
        plain = " ".join(text.lower().replace("-", " ").split())
        return any(
            re.search(rf"(?<!\w){re.escape(word.replace('-', ' '))}(?!\w)", plain)
            for word in self.words
        )


@dataclass(frozen=True, slots=True)
class Care:
    """How to keep a material: published figures, or plain advice.

    Attributes:
        id: Its word in files.
        topic: One of `CARE_TOPICS`.
        text: The advice in a sentence or two.
        materials: Kinds, processes, families or housings that it is for; empty: every piece.
        basis: What the row rests on.
        temperature: Degrees Celsius, or None where no figure is given.
        humidity: Relative humidity in per cent, or None.
        alarm: Relative humidity in per cent above which to act, or None.
        lux: Illuminance on show in lux, or None.
        lux_hours: The most light in a year in lux-hours, or None.
        rest: Months in the dark that follow on so much light, or None.
        months: How often to look at the piece again, in months, or None.
        stability: The stability of damage that it is for, as 'active'; empty: whatever there is.
        damage: Questions on damage; it is for pieces where one of them was answered with damage.
            Of topic `urgent`, the row that stands first comes first.
        apart: It is no figure to hold a home against.
    """

    id: str
    topic: str
    text: str
    materials: tuple[str, ...]
    basis: Basis
    temperature: Span | None = None
    humidity: Span | None = None
    alarm: float | None = None
    lux: Span | None = None
    lux_hours: float | None = None
    months: int | None = None
    stability: str = ""
    damage: tuple[str, ...] = ()
    apart: bool = False
    rest: int | None = None


@dataclass(frozen=True, slots=True)
class Plain:
    """What a thing is, for somebody who does not know the field.

    Attributes:
        id: The word of a process family or a housing.
        text: Two or three short sentences.
        basis: What the row rests on.
    """

    id: str
    text: str
    basis: Basis


RECORD_FIELDS = (
    "title", "kind", "process", "measured", "inscription", "damage", "subject", "motif", "date",
    "maker", "pictures", "description", "number", "receipt", "region", "found", "day",
)  # fmt: skip
RECORD_PARTS = ("category", "picture", "description", "recommended")


@dataclass(frozen=True, slots=True)
class Category:
    """Something that the record of a piece should say, so that others could identify it.

    Attributes:
        id: Its word in files.
        name: Its name in the standard.
        part: One of `RECORD_PARTS`: what is asked of every object, or only recommended.
        ask: The question, as a person reads it.
        fields: What of a piece answers it, words of `RECORD_FIELDS`.
        checks: Checks that answer it.
        basis: What the row rests on.
    """

    id: str
    name: str
    part: str
    ask: str
    fields: tuple[str, ...]
    checks: tuple[str, ...]
    basis: Basis
