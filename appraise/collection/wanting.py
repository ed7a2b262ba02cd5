"""Whether a piece is on one's list, or one has its like already.

Both are asked of a piece as it was read, so that an early guess at its process is a chance and no
fact: a wish is met where the piece is more likely so than not. What cannot be told is not met.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import field
from typing import TYPE_CHECKING, Any

from appraise.base.dataclass import dataclass
from appraise.base.jsonvalues import picked
from appraise.base.logday import sorting
from appraise.base.money import Money
from appraise.base.oneline import folded
from appraise.knowledge.records import Knowledge
from appraise.pricing.outcomes import outcome_of
from appraise.records.entry import Entry
from appraise.records.want import Want

if TYPE_CHECKING:
    from appraise.reading.reading import Reading

LIKELY = 0.5
SHORTEST = 3  # letters of a word that counts
NEAR = 84.0  # likeness, 0 to 100, from which two words are taken for one, slips of the pen included
IDLE = frozenset(("and", "the", "with", "for", "design", "pattern", "motif", "case", "union"))


@dataclass(frozen=True, slots=True)
class Sight:
    """A piece as far as wishes ask about it.

    Attributes:
        chances: Of processes, families and housings, by word.
        format: Its format, or '' where it is not known.
        motif: What it shows, in words.
        subjects: Whom or what the picture shows.
        years: First and last year of the picture, or None.
        price: What is asked or paid, or None.
    """

    kind: str
    chances: Mapping[str, float] = field(default_factory=dict)
    format: str = ""
    motif: str = ""
    title: str = ""
    subjects: tuple[str, ...] = ()
    years: tuple[int, int] | None = None
    price: Money | None = None


@dataclass(frozen=True, slots=True)
class Match:
    """A wish that a piece meets.

    Attributes:
        reasons: What it meets, in words.
        above: The most it was to cost, where more is asked; else None.
    """

    id: str
    title: str
    reasons: tuple[str, ...]
    above: Money | None

    @property
    def says(self) -> str:
        """In a line."""
        dear = f"; asked above your {self.above}" if self.above else ""
        return f"on your list: {self.title} ({', '.join(self.reasons)}{dear})"


@dataclass(frozen=True, slots=True)
class Owned:
    """A piece that one owns, as far as twins are told by it."""

    id: str
    title: str
    day: str
    key: tuple[str, str, str]
    motif: str

    @property
    def says(self) -> str:
        """In a line."""
        return f"you already own a similar one: {self.title} ({self.day})"


def sight_of(reading: Reading) -> Sight:
    """A piece as it was read."""
    piece = reading.piece
    span = reading.together
    return Sight(
        kind=piece.kind,
        chances={**reading.processes, **reading.families, **reading.housings},
        format=reading.formats.best,
        motif=piece.motif,
        title=piece.title,
        subjects=piece.subjects,
        years=(span.first, span.last),
        price=piece.asking,
    )


def matching(
    wants: Iterable[tuple[str, Want]], sight: Sight, knowledge: Knowledge
) -> tuple[Match, ...]:
    """The wishes that a piece meets, with what of them it meets."""
    found = (match_of(name, want, sight, knowledge) for name, want in wants)
    return tuple(one for one in found if one is not None)


def match_of(name: str, want: Want, sight: Sight, knowledge: Knowledge) -> Match | None:
    """Whether a piece meets a wish: all that the wish names must hold, the price aside."""
    if not want.names:
        return None
    reasons: list[str] = []
    for met, says in _asked(want, sight, knowledge):
        if not met:
            return None
        reasons.append(says)
    price, most = sight.price, want.most
    dearer = price and most and price.currency == most.currency and price > most
    above = most if dearer else None
    return Match(name, want.title, tuple(reasons), above)


def _asked(want: Want, sight: Sight, knowledge: Knowledge) -> Iterator[tuple[bool, str]]:
    """Each thing that a wish names: whether the piece meets it, and how that is said."""
    if want.kind:
        yield sight.kind == want.kind, want.kind
    if want.formats:
        form = knowledge.formats.get(sight.format)
        yield sight.format in want.formats, form.name if form else sight.format
    for word in (want.process, want.housing):
        if word:
            yield sight.chances.get(word, 0.0) >= LIKELY, word
    if want.motif:
        yield holds(want.motif, f"{sight.motif} {sight.title}"), want.motif
    if want.subject:
        yield want.subject in sight.subjects, want.subject
    if want.first is not None or want.last is not None:
        yield _overlap(want, sight.years), f"{want.first or '..'} to {want.last or '..'}"


def _overlap(want: Want, years: tuple[int, int] | None) -> bool:
    """Whether the picture's years and those of the wish have at least half of the former."""
    if years is None:
        return False
    first, last = max(years[0], want.first or years[0]), min(years[1], want.last or years[1])
    return 2 * (last - first + 1) >= years[1] - years[0] + 1


def holds(words: str, text: str) -> bool:
    """Whether every word that counts stands in a text, or one like it; without any: False."""
    sought, given = _counting(words), _counting(text)
    if not sought or not given:
        return False
    return all(any(_near(one, other) for other in given) for one in sought)


def _near(one: str, other: str) -> bool:
    """Whether two words are one, or nearly; whose letters differ too much need no closer look."""
    if one == other:
        return True
    shared = (Counter(one) & Counter(other)).total()
    if 200 * shared < NEAR * (len(one) + len(other)):
        return False
    from rapidfuzz.fuzz import ratio  # 7 ms

    return ratio(one, other) >= NEAR


def _counting(text: str) -> tuple[str, ...]:
    plain = "".join(mark if mark.isalnum() else " " for mark in text.lower())
    return tuple(one for one in plain.split() if len(one) >= SHORTEST and one not in IDLE)


def likeliest(chances: Mapping[str, float], words: Iterable[str]) -> str:
    """The word that is likelier so than not; '' where none is."""
    best = max(words, key=lambda word: chances.get(word, 0.0), default="")
    return best if chances.get(best, 0.0) >= LIKELY else ""


def key_of(sight: Sight, knowledge: Knowledge) -> tuple[str, str, str]:
    """Format, family and housing, by which twins are sought; '' for what is not known."""
    families = {one.family for one in knowledge.processes.values()}
    housings = knowledge.housings
    return sight.format, likeliest(sight.chances, families), likeliest(sight.chances, housings)


def twins(owned: Iterable[Owned], sight: Sight, knowledge: Knowledge) -> tuple[Owned, ...]:
    """What one owns of the same format, process and housing that shows the same.

    Without a motif nothing is a twin: there are too many plain ones.
    """
    key = key_of(sight, knowledge)
    if not sight.motif or not all(key):
        return ()
    return tuple(
        one
        for one in owned
        if one.key == key and holds(sight.motif, one.motif) and holds(one.motif, sight.motif)
    )


CAME, WENT = ("bought", "gift", "swap"), ("sold", "returned")
"""Records of the log by which a piece comes to its owner, and by which it goes."""


def still_here(entries: Iterable[Entry]) -> tuple[Entry, ...]:
    """The entries that came into the user's hands and have not gone since, the earliest first.

    A later entry that sells or returns a piece of the same title, format and process takes one of
    them away, the earliest; so does an outcome with a price.
    """
    came, gone = list[Entry](), Counter[tuple[str, ...]]()
    for one in entries:
        if one.record in CAME:
            came.append(one)
        elif one.record in WENT:
            gone[_same(one)] += 1
    words = {same[1:] for same in gone}
    out = []
    for one in sorted(came, key=lambda one: sorting(one.date)):
        if (one.format, one.process) in words and gone[_same(one)]:
            gone[_same(one)] -= 1
        else:
            outcome = outcome_of(one) if one.extra else None
            if outcome is None or outcome.price is None:
                out.append(one)
    return tuple(out)


def owned(entries: Iterable[Entry], knowledge: Knowledge) -> tuple[Owned, ...]:
    """The pieces that the user still owns by the log, as far as twins are told by them.

    Entries without a motif are left out, since nothing is a twin of theirs.
    """
    families = {name: one.family for name, one in knowledge.processes.items()}
    return tuple(
        _owned(one, families.get(one.process, one.process))
        for one in still_here(entries)
        if one.motif
    )


def _owned(entry: Entry, family: str) -> Owned:
    key = (entry.format, family, entry.housing)
    day = entry.date.isoformat()
    return Owned(entry.id, entry.title or entry.motif, day, key, entry.motif)


def _same(entry: Entry) -> tuple[str, ...]:
    return folded(entry.title or entry.motif), entry.format, entry.process


SHOWN = 3  # of each


@dataclass(frozen=True, slots=True)
class Matches:
    """The wishes that a piece meets, and its twins among what one owns."""

    wanted: tuple[Match, ...] = ()
    twins: tuple[Owned, ...] = ()

    @property
    def lines(self) -> tuple[str, ...]:
        """A line for each, the list first; of many only the first few."""
        wanted = (one.says for one in self.wanted[:SHOWN])
        return (*wanted, *(one.says for one in self.twins[:SHOWN]))

    def as_json(self) -> dict[str, Any]:
        """As keys of a JSON document."""
        return {
            "wanted": [picked(one, "id title reasons above") for one in self.wanted],
            "twins": [picked(one, "id title", since=one.day) for one in self.twins],
        }
