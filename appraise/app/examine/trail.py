"""The steps of an examination, so that each can be taken back and made again."""

from dataclasses import dataclass

from appraise.records.piece import Piece


@dataclass(frozen=True, slots=True)
class Moment:
    """A piece as it stood, and the check at which it came to stand so."""

    piece: Piece
    at: str


class Trail:
    """What the piece was before, and what it was before an undo."""

    def __init__(self, piece: Piece) -> None:
        self._before: list[Moment] = []
        self._now = Moment(piece, "")
        self._after: list[Moment] = []

    @property
    def piece(self) -> Piece:
        """The piece as it stands."""
        return self._now.piece

    def go(self, piece: Piece, at: str) -> bool:
        """Take a step; False when it changes nothing."""
        if piece == self._now.piece:
            return False
        self._before.append(self._now)
        self._now = Moment(piece, at)
        self._after.clear()
        return True

    def back(self) -> str | None:
        """Take the last step back: the check where it was made, or None when there is none."""
        if not self._before:
            return None
        self._after.append(self._now)
        at = self._now.at
        self._now = self._before.pop()
        return at

    def again(self) -> str | None:
        """Make the step again that was taken back last."""
        if not self._after:
            return None
        self._before.append(self._now)
        self._now = self._after.pop()
        return self._now.at
