"""What a check's row may refer to: sources, parts, processes, housings."""

from collections.abc import Mapping

from appraise.base.dataclass import dataclass
from appraise.knowledge.citing import Keys
from appraise.knowledge.records import BELONGING, DISTURBED, YES_NO, PartRow


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What a check's row may refer to.

    Attributes:
        sources: Keys of the sources.
        parts: The parts by id.
        processes: Process and family words, with the processes each stands for.
        housings: Housing words, each standing for itself.
        floors: Floors under trapezoids by confidence.
    """

    sources: Keys
    parts: Mapping[str, PartRow]
    processes: Mapping[str, tuple[str, ...]]
    housings: Mapping[str, tuple[str, ...]]
    floors: Mapping[str, float]

    def states(self, over: str) -> Mapping[str, tuple[str, ...]]:
        """The words that may name states of a set."""
        if over == "process":
            return self.processes
        if over == "housing":
            return self.housings
        names = {"belonging": BELONGING, "package": DISTURBED}.get(over, YES_NO)
        return {name: (name,) for name in names}
