"""One examination: the piece, the check one is at, and the last verdict. No widgets here."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from appraise.app.trail import Trail
from appraise.base.dataclass import dataclass
from appraise.knowledge.records import KNOWN, Answer, Check, Knowledge
from appraise.reading.applying import applying
from appraise.records.piece import UNTOLD, Piece
from appraise.verdict import NextSteps, Verdict


def by_part(checks: Iterable[Check], knowledge: Knowledge) -> tuple[Check, ...]:
    """The checks part by part, within a part as in the files."""
    place = {part: n for n, part in enumerate(knowledge.parts)}
    return tuple(sorted(checks, key=lambda check: place[check.part]))


def of_kind(kind: str, knowledge: Knowledge) -> tuple[Check, ...]:
    """Every check of a kind of piece, also those that make no sense now."""
    return by_part((one for one in knowledge.checks.values() if kind in one.kinds), knowledge)


def next_open(at: str, checks: Sequence[Check], piece: Piece, best: Sequence[str]) -> str:
    """The check to offer next: the best one that is open, else the next open one in order."""
    names = [check.id for check in checks]
    open_ones = [name for name in names if name not in piece.findings]
    for name in best:
        if name in open_ones:
            return name
    start = names.index(at) + 1 if at in names else 0
    later = [name for name in names[start:] if name in open_ones]
    return next(iter((*later, *open_ones)), at)


NUMBERED = 9  # answers that a digit can give
ENOUGH = "piece: seen enough"  # of the whole piece, where counts of one part stand beside it


@dataclass(frozen=True, slots=True)
class Moment:
    """A piece as it stood, and the check at which it came to stand so."""

    piece: Piece
    at: str


class Examination:
    """The state of the Examine screen.

    After an answer no check is asked until it is known which tells most now, or that was waited
    for long enough; until then no answer can be given, so that none goes to another question.

    Attributes:
        draft: The name under which the piece is kept.
        at: The check that is asked, or while the next is chosen the one answered last; '' for a
            kind of piece that has no checks.
        asked: Whether it is asked: decided, and open for an answer.
        known: How the next answers are known; empty: as usual for the channel.
        typed: What was typed to narrow the answers.
        pointed: How many drawings further one has looked than the one that stands there first.
        verdict: The last one; None until the first has come.
        aside: That it is on the list or has a twin, in one line; '' for neither.
        turn: Counts the states of the piece; verdicts of earlier ones are dropped.
        steps: What to look at next as last worked out; it may lag behind the piece.
    """

    def __init__(self, piece: Piece, knowledge: Knowledge, draft: str) -> None:
        self.knowledge = knowledge
        self.draft = draft
        self.known = ""
        self.typed = ""
        self.pointed = 0
        self.verdict: Verdict | None = None
        self.aside = ""
        self.turn = 0
        self.steps: NextSteps | None = None
        self._trail = Trail(Moment(piece, ""))
        self._given = list(piece.findings)
        self.asked = False
        self.checks = self._applying()
        self.at = next_open("", self.checks, piece, ())

    @property
    def piece(self) -> Piece:
        return self._trail.now.piece

    @property
    def check(self) -> Check:
        """The check that is asked, or was answered last; KeyError where the kind has none."""
        return self.knowledge.checks[self.at]

    @property
    def shown(self) -> bool:
        """Whether the check stands on the screen: it is asked, or was just answered."""
        return self.asked or self.at in self.piece.findings

    @property
    def best(self) -> tuple[str, ...]:
        """Checks in the order in which they tell most, as far as it is known."""
        return tuple(one.check for one in self.steps.proposals) if self.steps else ()

    @property
    def why(self) -> str:
        """Why the check is worth making now; empty where that is not known."""
        proposals = self.steps.proposals if self.steps else ()
        return next((one.why for one in proposals if one.check == self.at), "")

    @property
    def enough(self) -> bool:
        """Whether enough has been seen of the piece as it stands."""
        return self.current and self.steps is not None and self.steps.enough.enough

    @property
    def current(self) -> bool:
        """Whether the verdict is of the piece as it stands."""
        return self.verdict is not None and self.verdict.piece == self.piece

    @property
    def parts(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(check.part for check in self.checks))

    @property
    def how_known(self) -> str:
        return self.known or self.piece.default_known

    @property
    def answers(self) -> tuple[Answer, ...]:
        """The answers offered, narrowed by what was typed."""
        words = self.typed.lower().split()
        return tuple(
            one for one in self.check.answers if all(word in one.says.lower() for word in words)
        )

    def answer(self, number: int, most: int = NUMBERED) -> bool:
        """Give the answer of that number, from 1 to `most`; False when it cannot be given."""
        shown = self.answers[:most] if self.asked else ()
        if not 1 <= number <= len(shown):
            return False
        self._give(shown[number - 1].id)
        return True

    def untold(self) -> bool:
        """Pass the check over; False when nothing is asked."""
        if self.asked:
            self._give(UNTOLD)
            return True
        return False

    def _give(self, answer: str) -> None:
        self.change(self.piece.with_finding(self.at, answer, self.how_known))
        self._given = [*(name for name in self._given if name != self.at), self.at]
        self.typed = ""
        self.asked = False

    def change(self, piece: Piece) -> bool:
        """Let the piece stand as given; False when that is no change."""
        if piece == self.piece:
            return False
        self._trail.go(Moment(piece, self.at))
        self._stand()
        return True

    def undo(self) -> bool:
        """Take the last change back and go to where it was made."""
        at = self._trail.now.at
        return self._trail.back() and self._stand_at(at)

    def redo(self) -> bool:
        """Make the change again that was taken back last."""
        return self._trail.again() and self._stand_at(self._trail.now.at)

    def go(self, check: str) -> None:
        """Ask a check; none where the kind of piece has none."""
        self.at = check
        self.typed = ""
        self.pointed = 0
        self.asked = bool(check)

    def back(self) -> bool:
        """Ask again what was answered last, or from an answer the one given before it."""
        names = [name for name in self._given if name in self._revisable]
        place = names.index(self.at) if self.asked and self.at in names else len(names)
        if place == 0:
            return False
        self.go(names[place - 1])
        return True

    @property
    def _revisable(self) -> set[str]:
        """The checks that were answered and are asked of such a piece."""
        checks, kind = self.knowledge.checks, self.piece.kind
        return {
            name for name in self.piece.findings if name in checks and kind in checks[name].kinds
        }

    def step(self, by: int) -> None:
        names = [check.id for check in self.checks]
        if self.at in names:
            self.go(names[(names.index(self.at) + by) % len(names)])
        else:
            self.go(names[0] if names else self.at)

    def step_part(self, by: int) -> None:
        """Go so many parts on, to the first open check there."""
        parts = self.parts
        if not parts:
            return
        place = parts.index(self.check.part) if self.check.part in parts else -1
        self.go_to_part(parts[(place + by) % len(parts)])

    def go_to_part(self, part: str) -> None:
        mine = [one.id for one in self.checks if one.part == part]
        if mine:
            self.go(next((name for name in mine if name not in self.piece.findings), mine[0]))

    def go_best(self) -> None:
        self.go(next_open(self.at, self.checks, self.piece, self.best))

    def turn_known(self) -> None:
        """The next way in which answers can be known."""
        place = KNOWN.index(self.how_known)
        self.known = KNOWN[(place + 1) % len(KNOWN)]

    def judged(self, turn: int, verdict: Verdict, aside: str = "") -> bool:
        """Take a verdict, and what else is to be said; False when the piece has moved on since."""
        if turn != self.turn:
            return False
        self.verdict, self.aside = verdict, aside
        self.checks = by_part(verdict.reading.checks, self.knowledge)
        return True

    def planned(self, turn: int, steps: NextSteps) -> bool:
        """Take what to look at next, and ask it; False when the piece has moved on since.

        A check that is asked already stays.
        """
        if turn != self.turn:
            return False
        self.steps = steps
        self._decide()
        return True

    def waited(self, turn: int) -> bool:
        """What to look at next is not known yet: ask what seems best. False when nothing waits."""
        if turn != self.turn or self.asked:
            return False
        self._decide()
        return True

    def _decide(self) -> None:
        if not self.asked:
            self.go_best()

    def _stand(self) -> None:
        self.turn += 1
        self.checks = self._applying()
        if not self.at or self.piece.kind not in self.check.kinds:
            self.at = next_open("", self.checks, self.piece, ())
            self.typed = ""
            self.asked = False

    def _stand_at(self, at: str) -> bool:
        self.go(at or self.at)
        self._stand()
        return True

    def _applying(self) -> tuple[Check, ...]:
        """The checks that make sense of such a piece, by what is likely so far."""
        chances: Mapping[str, float] = {}
        if self.verdict is not None:
            reading = self.verdict.reading
            chances = {**reading.housings, **reading.processes, **reading.families}
        return by_part(applying(self.piece, self.knowledge, chances), self.knowledge)


def of_another_kind(piece: Piece, kind: str, knowledge: Knowledge) -> Piece:
    """The piece as one of another kind, without the findings that are not asked of it."""
    kept = {
        name: one for name, one in piece.findings.items() if kind in knowledge.checks[name].kinds
    }
    return replace(piece, kind=kind, findings=kept)
