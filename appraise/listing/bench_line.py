"""A part in stock in one line: 'sixth thermoplastic case vine, hinge good, 12'.

The words are those of a first look; what a first look has no place for is read here and taken out
before it: how many, sizes with what was measured, the sort of part, and when it was made.
"""

import datetime as dt
import re
from collections.abc import Iterable
from dataclasses import field
from typing import Generic, TypeVar

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.knowledge.bench import Spare, named
from appraise.knowledge.records import Check, Knowledge
from appraise.listing.first_look import Look, understand
from appraise.listing.sizes import sizes
from appraise.records.part import MADE, MEASURED, Part, Seen, Size

T = TypeVar("T")

NEAR = 14  # characters beside a size in which it is said what was measured
CASE = "case"
PLATE, IMAGE = "plate", "image"
NAMED = ("claim.process", "own.process")
"""What a line's word for the process answers."""
IDLE_ANSWERS = frozenset(("other", "none", "yes", "no", "old", "new", "pair", "one", "same",
                          "plain", "differ", "differs", "dark", "sheet", "thin",
                          "period"))  # fmt: skip
LINKS = frozenset(("or", "and", "any", "with", "a", "an", "the", "of", "for", "in", "empty", "old",
                   "x", "from", "to", "not", "over", "about", "wanted"))  # fmt: skip
_COUNT = re.compile(r"^\s*(\d{1,3})\s*[x×]\s+|,\s*[x×]\s*(\d{1,3})\b", re.IGNORECASE)
_PLACE = re.compile(
    r"\b(?:(?:place|where)\s*[:=]\s*(?:in\s+)?|(?:kept|stored|lies|put)\s+(?:in|on|under)\s+"
    r"|in\s+(?=(?:the|my)\s+))(?:(?:the|my)\s+)?(?P<place>[^,;]+)",
    re.IGNORECASE,
)
_SOUND = re.compile(
    r"\b(hinge|clasp|pad|glass|seal|mat|case|halves|edges)s?\s+"
    r"(good|sound|fine|intact|ok|whole|tight|clean|worn)\b",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Understood(Generic[T]):
    """A line, understood.

    Attributes:
        thing: The record that it makes.
        understood: Pairs of the words and what they were taken for.
        not_understood: Words that found no place.
    """

    thing: T
    understood: tuple[tuple[str, str], ...]
    not_understood: tuple[str, ...]


@dataclass(slots=True)
class TypedLine:
    """A line while it is being read: what is left of it, and what was taken out."""

    text: str
    told: list[tuple[str, str]] = field(default_factory=list)

    def take(self, match: re.Match[str], meaning: str) -> None:
        """Blank a stretch out; its length stays."""
        self.told.append((match[0].strip(" ,"), meaning))
        self.blank(match.start(), match.end())

    def blank(self, start: int, end: int) -> None:
        """Put blanks in place of a stretch."""
        self.text = self.text[:start] + " " * (end - start) + self.text[end:]


def understand_part(
    text: str, knowledge: Knowledge, currency: str, today: dt.date, sort: str = ""
) -> Understood[Part]:
    """Read one line about a part that comes into stock.

    Args:
        text: The line, in any order: format, material, sort of part, motif, damage, sizes, cost.
        knowledge: The trade's knowledge.
        currency: ISO 4217 code of amounts that name none.
        today: The day on which it comes into stock.
        sort: The sort of part, where that is known beside the line.

    Raises:
        InputError: when it does not say what part it is.
    """
    line = TypedLine(text)
    place, count, measured = _place(line), _count(line), _sizes(line)
    made, sound, whole = _made(line), _sound(line), line.text
    spare = knowledge.spares.get(sort) or _spare(line, knowledge)
    look = understand(line.text, knowledge, currency, stocked=True)
    spare = spare or _as_case(look, knowledge)
    found, used = _seen(whole, spare, look, knowledge)
    material = look.piece.found("case.material") if CASE in spare.parts else ""
    part = Part(
        title=_title(text, look, line),
        since=today,
        part=spare.id,
        material=material or found.get(f"{spare.id}.material", ""),
        format=look.piece.named_format,
        sizes=measured,
        seen=tuple(Seen(name, answer) for name, answer in found.items()),
        made=made,
        motif=rest(look.piece.motif, used),
        cost=look.piece.asking,
        place=place,
        count=count,
        note=", ".join(sound),
    )
    read = [one for one in part.seen if not look.piece.found(one.check)]
    return Understood(part, told(line, look, part.motif, read), look.not_understood)


def _seen(
    whole: str, spare: Spare, look: Look, knowledge: Knowledge
) -> tuple[dict[str, str], frozenset[str]]:
    """What the line says of the part, by check, and the words that name answers outright."""
    for words, meaning in look.understood:
        if meaning.startswith("case.material"):
            whole = whole.replace(words, " ", 1)
    answers, used = _answers(whole, spare, knowledge)
    found = {one.check: one.answer for one in answers}
    for name, finding in look.piece.findings.items():
        own = knowledge.checks[name].part in spare.parts
        if (own and name != "case.material") or (name in NAMED and IMAGE in spare.parts):
            found.setdefault(name, finding.answer)
    return found, used


def _place(line: TypedLine) -> str:
    """Where it lies: 'place: hatbox', 'kept in box 3', 'in the drawer'; up to the next comma."""
    match = _PLACE.search(line.text)
    if match is None:
        return ""
    place = " ".join(match["place"].split())
    line.take(match, f"place {place}")
    return place


def _count(line: TypedLine) -> int:
    match = _COUNT.search(line.text)
    if match is None:
        return 1
    count = int(match[1] or match[2])
    line.take(match, f"count {count}")
    return count


def _sizes(line: TypedLine) -> tuple[Size, ...]:
    """The sizes of the line by what was measured: what is said beside each, else the outside."""
    found: dict[str, Size] = {}
    for one in sizes(line.text):
        before, after = line.text[: one.start], line.text[one.end :]
        what = _beside(before[-NEAR:], after[:NEAR])
        text = " ".join(line.text[one.start : one.end].split())
        if what not in found:
            found[what] = Size(what, text)
            line.told.append((text, f"{what} {one.measure.as_both()}"))
        line.blank(one.start, one.end)
    for word in MEASURED:
        line.text = re.sub(rf"\b{word}\b", " " * len(word), line.text, flags=re.IGNORECASE)
    return tuple(found[one] for one in MEASURED if one in found)


def _beside(before: str, after: str) -> str:
    """What was measured: the word before a size, or the one behind it."""
    for text in (before.rsplit(",", 1)[-1], after.split(",", 1)[0]):
        for word in MEASURED:
            if re.search(rf"\b{word}\b", text, re.IGNORECASE):
                return word
    return "outside"


def _made(line: TypedLine) -> str:
    for word in MADE:
        match = re.search(rf"\b{word.replace('-', '[ -]')}\b", line.text, re.IGNORECASE)
        if match:
            line.take(match, word)
            return word
    return ""


def _sound(line: TypedLine) -> list[str]:
    """Words on the state of a part that name no fault: kept as a note."""
    found = []
    while match := _SOUND.search(line.text):
        found.append(match[0])
        line.take(match, "note")
    return found


def _spare(line: TypedLine, knowledge: Knowledge) -> Spare | None:
    """The sort of part that is named first; its name is taken out unless it is a case's."""
    found: list[tuple[int, int, Spare, re.Match[str]]] = []
    for one in knowledge.spares.values():
        name = named(line.text, one.words)
        pattern = name.replace(" ", "[ -]+")
        match = re.search(rf"\b{pattern}s?\b", line.text, re.IGNORECASE) if name else None
        if match is not None:
            found.append((match.start(), -len(name), one, match))
    if not found:
        return None
    _, _, spare, match = min(found, key=lambda each: each[:2])
    if spare.id != CASE:
        line.take(match, spare.name)
    return spare


def _as_case(look: Look, knowledge: Knowledge) -> Spare:
    """A plate that is loose ("loose sixth plate"), or a case of which only the material is said."""
    if look.piece.kind == "loose-plate" and PLATE in knowledge.spares:
        return knowledge.spares[PLATE]
    if look.piece.found("case.material") and CASE in knowledge.spares:
        return knowledge.spares[CASE]
    known = ", ".join(one.words[0] for one in knowledge.spares.values())
    raise InputError("no part named", mend=f"Name a part: {known}.")


def _answers(
    text: str, spare: Spare, knowledge: Knowledge
) -> tuple[tuple[Seen, ...], frozenset[str]]:
    """Answers of the part's own checks that are named in so many words, and those words."""
    plain = " ".join(text.lower().replace("-", " ").split())
    by_word: dict[str, list[Seen]] = {}
    for check in knowledge.checks.values():
        if check.part in spare.parts and check.defect is None and check.id != "case.material":
            for name, seen in _named(check, plain):
                by_word.setdefault(name, []).append(seen)
    # A word that answers two checks says nothing certain of either.
    sure = {name: seen[0] for name, seen in by_word.items() if len(seen) == 1}
    one_each = {seen.check: seen for seen in reversed(sure.values())}
    used = frozenset(word for name in sure for word in name.split())
    return tuple(one_each.values()), used


def _named(check: Check, plain: str) -> Iterable[tuple[str, Seen]]:
    for answer in check.answers:
        name = answer.id.replace("-", " ")
        if name not in IDLE_ANSWERS and not name.isdecimal() and named(plain, (name,)):
            yield name, Seen(check.id, answer.id)


def rest(motif: str, used: frozenset[str]) -> str:
    """The motif without words that said something else, and small words at its ends."""
    words = [one for one in motif.split() if one.lower().strip(",;-") not in used]
    while words and words[0].lower() in LINKS:
        words = words[1:]
    while words and words[-1].lower() in LINKS:
        words = words[:-1]
    return " ".join(words)


def told(
    line: TypedLine, look: Look, motif: str, seen: Iterable[Seen]
) -> tuple[tuple[str, str], ...]:
    """What each stretch of words was taken for."""
    found = list(line.told)
    found += [
        (words, meaning.replace("asking", "cost"))
        for words, meaning in look.understood
        if meaning != "motif"
    ]
    found += [(one.answer.replace("-", " "), f"{one.check} {one.answer}") for one in seen]
    return (*found, *(((motif, "motif"),) if motif else ()))


def _title(text: str, look: Look, line: TypedLine) -> str:
    """The line without its amount and count, which fields of their own tell."""
    title = f" {' '.join(text.split())} "
    gone = [words for words, meaning in look.understood if meaning.startswith("asking ")]
    gone += [words for words, meaning in line.told if meaning.startswith("count ")]
    for words in gone:
        title = re.sub(rf"[\s,]*(?<!\w){re.escape(words)}(?!\w)", " ", title, count=1)
    return plain_title(title)


def plain_title(text: str) -> str:
    """The text on one line without marks at its ends."""
    return " ".join(text.split()).strip(" ,;")
