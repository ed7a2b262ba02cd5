"""Which keys of sources a row may cite, those of the past among them, and which were cited."""

from collections.abc import Iterable, Mapping
from dataclasses import field

from appraise.base.dataclass import dataclass
from appraise.base.spelling import did_you_mean
from appraise.base.yamls import Row
from appraise.knowledge.basics import Source


@dataclass(frozen=True, slots=True)
class Keys:
    """The keys of the sources, and what came of reading the rows that cite them.

    Attributes:
        known: The keys of today.
        renamed: By a key of the past, the key of today.
        cited: The keys of today that some row cites; filled as rows are read.
        notes: One line for each citation by a key of the past; filled as rows are read.
    """

    known: frozenset[str]
    renamed: Mapping[str, str] = field(default_factory=dict)
    cited: set[str] = field(default_factory=set)
    notes: dict[str, None] = field(default_factory=dict)

    def read(self, row: Row) -> tuple[str, ...]:
        """The row's `source`, by the keys of today.

        Raises:
            InputError: where a key is none of the sources and never was.
        """
        found = tuple(dict.fromkeys(self._now(row, key) for key in row.words("source", ())))
        self.cited.update(found)
        return found

    def _now(self, row: Row, key: str) -> str:
        if key in self.known:
            return key
        if key in self.renamed:
            now = self.renamed[key]
            self.notes[f"{row.where('source')}: '{key}' is now '{now}'. The row is in force."] = (
                None
            )
            return now
        mend = did_you_mean(key, self.known)
        raise row.error("source", f"'{key}' is not a key of the sources", mend)


def keys_of(sources: Iterable[Source]) -> Keys:
    """The keys of some sources; a key of the past never stands before one of today."""
    every = tuple(sources)
    known = frozenset(one.key for one in every)
    return Keys(known, {old: one.key for one in every for old in one.formerly if old not in known})
