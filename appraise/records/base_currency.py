"""The currency of the user's own sums."""

from typing import ClassVar

from appraise.base.dataclass import dataclass
from appraise.records.fields import Field, Record
from appraise.records.values import CodeKind


@dataclass(frozen=True, slots=True)
class BaseCurrency(Record):
    """The currency that all prices are converted into."""

    code: str

    FIELDS: ClassVar[tuple[Field, ...]] = (Field("code", "as EUR", CodeKind()),)

    @property
    def title(self) -> str:
        """The line to know it by."""
        return f"currency {self.code}"

    @property
    def key(self) -> str:
        """There is one of it."""
        return "base"
