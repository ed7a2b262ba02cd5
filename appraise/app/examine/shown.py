"""How the verdict panel is drawn."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import field

from appraise.app.lines import Line
from appraise.app.marks import Marks
from appraise.base.dataclass import dataclass
from appraise.knowledge.records import Knowledge
from appraise.verdict.naming import family_names


@dataclass(frozen=True, slots=True)
class Shown:
    """How the panel is drawn.

    Attributes:
        marks: The signs to draw with.
        parts: The parts in their order.
        money: Whether the money is shown.
        learnt: Whether the log has been learnt.
        titles: What entries of the log are called, by id.
        names: What processes, housings and formats are called, by word.
        photos: Draws the piece's photos in so many cells and lines.
        apart: Whether drawing, findings and similar sales stand in a pane of their own.
    """

    marks: Marks
    parts: Sequence[str]
    money: bool
    learnt: bool
    titles: Mapping[str, str]
    names: Mapping[str, str] = field(default_factory=dict)
    photos: Callable[[int, int], Sequence[Line]] = lambda width, rows: ()
    apart: bool = False


def names_in(knowledge: Knowledge) -> dict[str, str]:
    """What processes, housings and formats are called, by word."""
    housings = {one.id: one.name for one in knowledge.housings.values()}
    formats = {one.id: one.name for one in knowledge.formats.values()}
    return {**housings, **formats, **family_names(knowledge)}
