"""Words that several parts of a report need."""

from collections.abc import Iterator

from appraise.base.dataclass import dataclass
from appraise.documents import words
from appraise.documents.reports.report_input import ReportInput
from appraise.knowledge.records import Check
from appraise.reading.spans import Span
from appraise.records.piece import Finding


@dataclass(frozen=True, slots=True)
class AnswerTold:
    """One answer that was given of the piece.

    Attributes:
        place: The answer's place among its answers.
        side: On which of several images; empty for the piece itself.
    """

    check: Check
    place: int
    finding: Finding
    side: str = ""

    @property
    def says(self) -> str:
        """The answer in words that stand alone, and how it is known."""
        of = f" of the {self.side} image" if self.side else ""
        return f"{self.check.told(self.place)}{of} ({words.KNOWN[self.finding.known]})"


def told(matter: ReportInput) -> Iterator[AnswerTold]:
    """Every answer that was given and can be used, in the order of the knowledge files."""
    piece = matter.piece
    given = [("", piece.findings), *((one.side, one.findings) for one in piece.images)]
    for name, check in matter.knowledge.checks.items():
        for side, findings in given:
            finding = findings.get(name)
            place = check.index(finding.answer) if finding else -1
            if finding is not None and place >= 0 and piece.kind in check.kinds:
                yield AnswerTold(check, place, finding, side)


def part_name(matter: ReportInput, check: str) -> str:
    """What the part is called that a check is about."""
    knowledge = matter.knowledge
    return knowledge.parts[knowledge.checks[check].part].name


def side_name(matter: ReportInput, side: str) -> str:
    """What image, package and case are called with such a piece."""
    return words.side_name(matter.piece.kind, side)


def within(span: Span) -> str:
    """A span of years in words and as EDTF."""
    return f"{words.year_range(span)}, {span.edtf}"
