"""A record under the id by which the log keeps it, and what is written as one."""

from typing import Generic, TypeVar

from appraise.base.dataclass import dataclass
from appraise.records.entry import Entry
from appraise.records.fields import Record

R_co = TypeVar("R_co", bound=Record, covariant=True)


@dataclass(frozen=True, slots=True)
class Stored(Generic[R_co]):
    """A record that the log keeps.

    Attributes:
        id: Sixteen hexadecimal digits, given by the log.
        thing: The record.
    """

    id: str
    thing: R_co


@dataclass(frozen=True, slots=True)
class ChangeSet:
    """What is written as one and undone as one.

    Attributes:
        add: New prices and other records.
        change: Records of the log as they are to be.
        edit: Prices of the log as they are to be.
        drop: Ids of records to take off the log; they stay in the history.
    """

    add: tuple[Record, ...] = ()
    change: tuple[Stored[Record], ...] = ()
    edit: tuple[Entry, ...] = ()
    drop: tuple[str, ...] = ()
