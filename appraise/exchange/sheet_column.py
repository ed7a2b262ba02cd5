"""A column of a spreadsheet and what it was taken for."""

from dataclasses import replace

from appraise.base.dataclass import dataclass


@dataclass(frozen=True, slots=True)
class SheetColumn:
    """A column and what it was taken for.

    Attributes:
        header: Its name in the file.
        currency: The currency that its name tells; '' where it tells none.
        field: One of `TARGETS`; empty when it is none of ours: its cells are kept under
            the entry's `extra`, in "columns".
        why: Why it was taken for that.
    """

    header: str
    field: str
    currency: str = ""
    why: str = ""

    def taken_for(self, field: str, why: str) -> "SheetColumn":
        """The column as another field, for a reason."""
        return replace(self, field=field, why=why)


Columns = tuple[SheetColumn, ...]


def put(named: Columns, place: int, column: SheetColumn) -> Columns:
    """The columns with another one at a place."""
    return (*named[:place], column, *named[place + 1 :])
