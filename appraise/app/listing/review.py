"""One listing under review: text, piece, the item one is at, the last verdict. No widgets here."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields, replace

from appraise.app.listing.items import HEADS, Item, asking, items_of
from appraise.app.listing.marked import Marked
from appraise.app.trail import Trail
from appraise.base.dataclass import dataclass
from appraise.knowledge.records import Knowledge
from appraise.listing.holds import held
from appraise.listing.offered import lot_piece, offers
from appraise.listing.records import Listing
from appraise.records.piece import Piece
from appraise.verdict import Verdict

IN_LOT = "one piece of a lot: no limit of its own. p shows the lot's."


@dataclass(frozen=True, slots=True)
class Stand:
    """What can be gone back to: a text, and the piece as it was noted from it."""

    text: str
    piece: Piece | None
    basis: str | None = None
    """The text from which the piece was noted; None: from none yet."""


BLANK = Piece(channel="online")
"""What stands until a text has been read."""


class Review:
    """The state of the Listing screen.

    Attributes:
        draft: The name under which the listing is kept.
        listing: The text as it was read; None until it has been.
        marked: The text with its places.
        items: The list.
        at: The item one is at.
        part: The piece of a lot one is at.
        verdict: The last one.
        aside: That the piece is on the list or has a twin, in one line; '' for neither.
        turn: Counts the texts; what was read of an earlier one is dropped.
        judging: Counts the states of the piece; verdicts of earlier ones are dropped.
    """

    def __init__(self, knowledge: Knowledge, draft: str, stand: Stand) -> None:
        self.knowledge = knowledge
        self.draft = draft
        self.listing: Listing | None = None
        self.marked = Marked(stand.text, ())
        self.items: tuple[Item, ...] = ()
        self.at = 0
        self.part = 0
        self.verdict: Verdict | None = None
        self.aside = ""
        self.turn = 0
        self._read = -1
        self.judging = 0
        self._trail = Trail(stand)
        self._said: dict[str, Piece] = {}
        self._listed: tuple[int, str, tuple[Item, ...]] | None = None

    @property
    def text(self) -> str:
        return self._trail.now.text

    @property
    def piece(self) -> Piece:
        """The piece as it stands: what the seller says, under what pictures showed."""
        return self._trail.now.piece or BLANK

    @property
    def basis(self) -> str | None:
        """The text from which the piece was noted; None: from none yet."""
        return self._trail.now.basis

    @property
    def reading(self) -> bool:
        """Whether the text that stands has still to be read."""
        return self._read != self.turn

    @property
    def unknown(self) -> str:
        """An earlier text that has to be read too, to tell what was changed by hand; '': none."""
        basis = self._trail.now.basis
        return "" if basis in (None, self.text) or basis in self._said else basis or ""

    @property
    def lot(self) -> bool:
        """Whether several pieces are offered."""
        return self.listing is not None and bool(self.listing.parts)

    @property
    def subject(self) -> Piece:
        """The piece that is judged: in a lot the one that one is at."""
        if self.listing is None or not self.listing.parts:
            return self.piece
        return lot_piece(self.listing.parts[self.part])

    @property
    def offers(self) -> str:
        """That several pieces are offered, in a line; '' elsewhere."""
        return offers(self.listing) if self.listing else ""

    @property
    def holds_back(self) -> tuple[str, ...]:
        """Why no maximum is shown: by the text, unless all that it rests on was seen otherwise."""
        return held(self.listing, self.subject, self.knowledge) if self.listing else ()

    @property
    def unrelated(self) -> bool:
        """Whether the text was read and is about no photograph."""
        return self.listing is not None and self.listing.pieces == 0

    @property
    def here(self) -> Item | None:
        return self.items[self.at] if self.at < len(self.items) else None

    @property
    def checked(self) -> bool:
        """Whether pictures can answer something about the item one is at."""
        return self.here is not None and bool(self.here.check)

    @property
    def place(self) -> int:
        """The place in the text that one is at; -1: none."""
        return self.here.place if self.here else -1

    def take_text(self, text: str) -> bool:
        """Let another text stand; False when it is no other."""
        if text == self.text:
            return False
        self._trail.go(replace(self._trail.now, text=text))
        self._wait()
        return True

    def read(
        self, turn: int, listing: Listing, marked: Marked, before: Piece | None = None
    ) -> bool:
        """Take a text that was read; False when another one stands meanwhile.

        What was noted by hand or seen in the pictures stays over what the seller says.
        `before`: what the seller said in the text that was `unknown`.
        """
        if turn != self.turn:
            return False
        kept, basis = self._trail.now.piece, self._trail.now.basis
        if kept is None or basis != self.text:
            was = BLANK if basis is None else self._said.get(basis, before)
            kept = rebased(kept, was, listing.piece)
        self._trail.now = Stand(self.text, within(kept, self.knowledge), self.text)
        self._said[self.text] = listing.piece
        self._read = turn
        self.listing, self.marked = listing, marked
        self.at, self.part = 0, 0
        self._renew()
        return True

    def judged(self, judging: int, verdict: Verdict, aside: str = "") -> bool:
        """Take a verdict, and what else is to be said; False when the piece has moved on since."""
        if judging != self.judging:
            return False
        from appraise.verdict import held_back  # numpy stays out of the start

        if self.lot:
            verdict = replace(verdict, money=None, gate=None, no_terms=IN_LOT)
        self.verdict = held_back(verdict, self.holds_back, self.knowledge)
        self.aside = aside
        return True

    def change(self, piece: Piece) -> bool:
        """Let the piece stand as given; False when that is no change."""
        if piece == self._trail.now.piece:
            return False
        self._trail.go(replace(self._trail.now, piece=piece))
        self._renew()
        return True

    def answer(self, number: int) -> bool:
        """Give the item's check the answer of that number, as seen in the pictures."""
        item = self.here
        answers = self.knowledge.checks[item.check].answers if item and item.check else ()
        if item is None or not 1 <= number <= len(answers):
            return False
        return self.see(item.check, answers[number - 1].id)

    def see(self, check: str, answer: str) -> bool:
        """Note what the pictures show."""
        return self.change(self.piece.with_finding(check, answer, "photo"))

    def confirm(self) -> bool:
        """Record that the photos confirm the claim; once more leaves it to the seller again."""
        item = self.here
        if item is None or not item.claimed:
            return False
        found = self.piece.findings.get(item.check)
        if found is None or found.known == "seller" or found.answer != item.claimed:
            return self.see(item.check, item.claimed)
        return self.change(self._unseen(item.check))

    def _unseen(self, check: str) -> Piece:
        said = self.listing.piece.findings.get(check) if self.listing else None
        bare = self.piece.without_finding(check)
        if said is None:
            return bare
        return bare.with_finding(check, said.answer, said.known, said.admitted)

    def step(self, by: int) -> None:
        self._to(max(0, min(len(self.items) - 1, self.at + by)))

    def section(self, by: int) -> None:
        present = [name for name in HEADS if any(one.section == name for one in self.items)]
        if self.here is None:
            return
        name = present[(present.index(self.here.section) + by) % len(present)]
        self._to(next(n for n, one in enumerate(self.items) if one.section == name))

    def along(self, by: int) -> None:
        """To another place, in the order of the text; from nowhere to its first or last."""
        count = len(self.marked.places)
        if count:
            first = 0 if by > 0 else count - 1
            self.go_place(max(0, min(count - 1, self.place + by)) if self.place >= 0 else first)

    def go_place(self, place: int) -> None:
        self._to(next((n for n, one in enumerate(self.items) if one.place == place), self.at))

    def _to(self, at: int) -> None:
        self.at = max(0, at)
        item = self.here
        if item is not None and item.section == "piece" and item.number != self.part:
            self.part = item.number
            self.verdict = None
            self.judging += 1

    def undo(self) -> bool:
        """Take the last change back, of the text or of the piece."""
        return self._went(self._trail.back)

    def redo(self) -> bool:
        """Make the change again that was taken back last."""
        return self._went(self._trail.again)

    def _went(self, go: Callable[[], bool]) -> bool:
        text = self.text
        if not go():
            return False
        if self.text == text:
            self._renew()
        else:
            self._wait()
        return True

    def _wait(self) -> None:
        """The text is another one: until it is read it stands bare."""
        self.turn += 1
        self.judging += 1
        self.items, self.verdict = (), None
        self.marked = Marked(self.text, ())

    def _renew(self) -> None:
        """The piece is another one: the list follows, and the old verdict stands until the new."""
        self.judging += 1
        if self.listing is None or self.reading:
            return
        listing, kind = self.listing, self.piece.kind
        if self._listed is None or self._listed[:2] != (self.turn, kind):
            self._listed = (self.turn, kind, items_of(listing, kind, self.knowledge))
        self.items = (*self._listed[2], *asking(listing, self.piece, self.knowledge))
        self.at = max(0, min(self.at, len(self.items) - 1))


def rebased(kept: Piece | None, was: Piece | None, now: Piece) -> Piece:
    """What the seller says now, under everything in which the piece was changed by hand.

    Args:
        kept: The piece as it stands; None: nothing was noted.
        was: What the seller said before.
        now: What the seller says now.
    """
    if kept is None or was is None:
        return now
    own = {
        one.name: getattr(kept, one.name)
        for one in fields(Piece)
        if one.name != "findings" and getattr(kept, one.name) != getattr(was, one.name)
    }
    seen = {name: one for name, one in kept.findings.items() if one.known != "seller"}
    return replace(now, **own, findings={**now.findings, **seen})


def within(piece: Piece, knowledge: Knowledge) -> Piece:
    """The piece without findings that are not asked of its kind."""
    asked = {
        name: one
        for name, one in piece.findings.items()
        if name in knowledge.checks and piece.kind in knowledge.checks[name].kinds
    }
    return piece if len(asked) == len(piece.findings) else replace(piece, findings=asked)
