"""Words of the trade that fields take: processes, housings, formats, spare parts."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from appraise.records.values import WordKind

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge


def processes(knowledge: "Knowledge") -> Iterable[str]:
    """The families of processes, then every process."""
    families = {one.family for one in knowledge.processes.values()}
    return dict.fromkeys((*sorted(families), *knowledge.processes))


PROCESS = WordKind(trade=processes)
HOUSING = WordKind(trade=lambda knowledge: knowledge.housings)
FORMAT = WordKind(trade=lambda knowledge: knowledge.formats)
SPARE = WordKind(trade=lambda knowledge: knowledge.spares)
