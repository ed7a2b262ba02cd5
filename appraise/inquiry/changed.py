"""The joint table of a piece with a little other evidence in it, worked out once for each."""

from collections.abc import Iterable
from typing import NamedTuple

import numpy as np

from appraise.knowledge.records import Check, Knowledge
from appraise.reading.evidence import Evidence
from appraise.reading.factors import axes_of, changed
from appraise.reading.frame import Array
from appraise.reading.joint import resolved
from appraise.reading.reading import Reading
from appraise.reading.views import Views


class OtherEvidence(NamedTuple):
    """How evidence differs from that of a reading.

    Attributes:
        gone: Ids of findings that no longer count, or count otherwise.
        now: The findings that are new, or as they count now.
    """

    gone: frozenset[str]
    now: tuple[Evidence, ...]

    @property
    def key(self) -> tuple[frozenset[str], frozenset[tuple[str, int, bool]]]:
        """What tells it from another change."""
        return self.gone, frozenset((one.id, one.answer, one.leads) for one in self.now)


class ChangedTables:
    """The table of a reading, and those with other evidence in it."""

    def __init__(self, reading: Reading, knowledge: Knowledge) -> None:
        """Prepare for a reading of one picture."""
        self._reading, self._knowledge = reading, knowledge
        self._frame = reading.joint.frame
        self._before = {one.id: one for one in reading.evidence if self._bears(one)}
        self._kept = {OtherEvidence(frozenset(), ()).key: reading.views}

    def _bears(self, one: Evidence) -> bool:
        """Whether a finding bears on the table."""
        return not one.silent and bool(axes_of(one.check, self._frame) or one.check.dates)

    def change_to(self, evidence: Iterable[Evidence]) -> OtherEvidence:
        """How evidence differs from the reading's."""
        before = self._before
        left = {one.id: one for one in evidence if one.id in before or self._bears(one)}
        now = tuple(one for name, one in left.items() if not _same(one, before.get(name)))
        gone = (before.keys() - left.keys()) | (before.keys() & {one.id for one in now})
        return OtherEvidence(frozenset(gone), now)

    def follower(self, group: str) -> OtherEvidence:
        """The change that makes the leader of a group one of its followers."""
        now = tuple(
            one._replace(leads=False)
            for one in self._before.values()
            if one.check.group == group and one.leads
        )
        return OtherEvidence(frozenset(one.id for one in now), now)

    def without(self, one: Evidence) -> Views:
        """The table without a finding."""
        return self.after(OtherEvidence(frozenset([one.id] if one.id in self._before else []), ()))

    def after(self, change: OtherEvidence) -> Views:
        """The table after a change."""
        if (key := change.key) not in self._kept:
            was, piece = self._reading.factors, self._reading.piece
            factors = changed(was, change.gone, change.now, self._frame, self._knowledge)
            joint = resolved(self._reading.joint, was, factors, piece.channel, piece.subjects)
            self._kept[key] = Views(joint, factors)
        return self._kept[key]

    def undated_part(self, change: OtherEvidence) -> tuple[Check, Array] | None:
        """A check of a part and the line (1, Y) that takes its dates away, if nothing else goes."""
        lines = [one.values for one in self._reading.factors.dated if one.id in change.gone]
        checks = [self._before[name].check for name in change.gone]
        if change.now or not len(lines) == len(checks) > 0 or len({c.part for c in checks}) > 1:
            return None
        return checks[0], 1 / np.prod(lines, axis=0)[None]


def _same(one: Evidence, other: Evidence | None) -> bool:
    return other is not None and (one.answer, one.leads) == (other.answer, other.leads)
