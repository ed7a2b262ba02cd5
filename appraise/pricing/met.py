"""A price that was met as far as the price model minds it, where no whole entry is at hand."""

from appraise.base.dataclass import dataclass
from appraise.base.logday import LogDay
from appraise.base.money import Money
from appraise.records.entry import Entry, Priced


@dataclass(slots=True)
class MetPrice(Priced):
    """What of an entry the price model reads; each attribute is as `Entry` has it."""

    id: str
    record: str
    date: LogDay
    channel: str
    kind: str
    process: str
    housing: str
    format: str
    title: str
    motif: str
    subjects: tuple[str, ...]
    quality: float | None
    appeal: int | None
    identified: str
    maker: str
    maker_known: bool | None
    condition_factor: float | None
    asked: Money | None
    offered: Money | None
    paid: Money | None
    hammer: Money | None
    premium: Money | None
    tax: Money | None
    fees: Money | None
    postage: Money | None
    venue: str
    own_work: bool
    belonging: tuple[tuple[str, float], ...]


Met = Entry | MetPrice
"""A price that was met."""
