"""How the verdict panel is drawn."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from appraise.app.marks import Marks


@dataclass(frozen=True, slots=True)
class Shown:
    """How the panel is drawn.

    Attributes:
        marks: The signs to draw with.
        parts: The parts in their order.
        money: Whether the money is shown.
        learnt: Whether the log has been learnt.
        titles: What entries of the log are called, by id.
    """

    marks: Marks
    parts: Sequence[str]
    money: bool
    learnt: bool
    titles: Mapping[str, str]
