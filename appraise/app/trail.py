"""The steps of a piece under review, so that each can be taken back and made again."""

from typing import Generic, TypeVar

T = TypeVar("T")


class Trail(Generic[T]):
    """What stands now, what stood before, and what stood before an undo.

    Attributes:
        now: What stands; letting it stand otherwise is no step.
    """

    def __init__(self, now: T) -> None:
        self.now = now
        self._before: list[T] = []
        self._after: list[T] = []

    def go(self, now: T) -> None:
        self._before.append(self.now)
        self._after.clear()
        self.now = now

    def back(self) -> bool:
        """Take the last step back; False where there is none."""
        return self._take(self._before, self._after)

    def again(self) -> bool:
        """Make the step again that was taken back last; False where there is none."""
        return self._take(self._after, self._before)

    def _take(self, source: list[T], other: list[T]) -> bool:
        if source:
            other.append(self.now)
            self.now = source.pop()
            return True
        return False
