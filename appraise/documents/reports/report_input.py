"""What a report is about, less what its reader must not see."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from pathlib import Path
from typing import TYPE_CHECKING

from appraise.base.dataclass import dataclass
from appraise.records.entry import Entry
from appraise.records.piece import Piece

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge
    from appraise.records.owned import OwnedPiece
    from appraise.records.repair import Repair
    from appraise.verdict import NextSteps, Verdict


@dataclass(frozen=True, slots=True)
class ReportInput:
    """A judged piece with what the log knows beside it.

    Attributes:
        works: Work done on it, the earliest first.
        photos: The files of its photos, to be copied.
        steps: What to look at next; None where the reader is not to look.
        titles: What the entries of the log are called, by id.
        log: Where the log lies, in words.
        priced: Whether the reader sees what it is worth and what to pay.
        brief: Whether it is told in short, without asides and drawings.
    """

    verdict: Verdict
    knowledge: Knowledge
    entry: Entry | None = None
    kept: OwnedPiece | None = None
    works: tuple[Repair, ...] = ()
    photos: tuple[Path, ...] = ()
    steps: NextSteps | None = None
    titles: Mapping[str, str] = field(default_factory=dict)
    log: str = ""
    priced: bool = False
    brief: bool = False

    @property
    def piece(self) -> Piece:
        """The piece."""
        return self.verdict.piece

    @property
    def own_work(self) -> bool:
        """Whether its owner made or assembled it, by the log."""
        bought = self.entry is not None and self.entry.own_work
        return bought or any(work.made_by_me for work in self.works)
