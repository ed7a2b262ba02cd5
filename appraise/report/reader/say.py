"""Words that several parts of a report need."""

from collections.abc import Iterator
from dataclasses import dataclass

from appraise.knowledge.records import Check
from appraise.piece.records import Finding
from appraise.reading.spans import Span
from appraise.report.reader.matter import Matter

KNOWN = {"in-hand": "seen in hand", "photo": "seen in a picture", "seller": "told, not seen"}
STATES = {
    "together": "picture and case were together from the start",
    "married": "both are old, but were not together from the start",
    "modern-case": "an old picture in a modern case",
    "modern-image": "a modern picture in an old case",
    "all-modern": "picture and case are both modern",
    "period": "it is of its period",
    "modern": "it is modern work",
}
"""What each state of belonging means."""


@dataclass(frozen=True, slots=True)
class Told:
    """One answer that was given of the piece.

    Attributes:
        check: The question.
        place: The answer's place among its answers.
        finding: The answer as given.
        side: On which of several pictures; empty for the piece itself.
    """

    check: Check
    place: int
    finding: Finding
    side: str = ""

    @property
    def says(self) -> str:
        """The answer in words that stand alone, and how it is known."""
        of = f" of the {self.side} picture" if self.side else ""
        return f"{self.check.told(self.place)}{of} ({KNOWN[self.finding.known]})"


def told(matter: Matter) -> Iterator[Told]:
    """Every answer that was given and can be used, in the order of the knowledge files."""
    piece = matter.piece
    given = [("", piece.findings), *((one.side, one.findings) for one in piece.images)]
    for name, check in matter.knowledge.checks.items():
        for side, findings in given:
            finding = findings.get(name)
            place = check.index(finding.answer) if finding else -1
            if finding is not None and place >= 0 and piece.kind in check.kinds:
                yield Told(check, place, finding, side)


def part_name(matter: Matter, check: str) -> str:
    """What the part is called that a check is about."""
    knowledge = matter.knowledge
    return knowledge.parts[knowledge.checks[check].part].name


def side_name(matter: Matter, side: str) -> str:
    """What picture, package and housing are called with such a piece."""
    if side == "housing" and matter.piece.kind != "cased":
        return "mount"
    return "picture" if side == "image" else side


def often(span: Span) -> str:
    """How often a span holds: '8 times in 10'."""
    return f"{round(10 * span.level)} times in 10"


def within(span: Span) -> str:
    """A span of years with its chance, and as EDTF."""
    return f"{span.first} to {span.last}, {often(span)}, {span.edtf}"
