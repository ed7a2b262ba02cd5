"""Listings on which little or nothing was mended: what the reader scores on words it never learnt.

Written and labelled by hands that had not seen the reader, and scored once before anybody read them
(`corpus/README.md` has the first scores). They hold what all together scored when the last of
them had been scored, less a hundredth, so that a change which reads strangers' words worse is seen.
"""

from functools import cache

import pytest
from listing.listingkit import knowledge
from listing.scoring import CORPUS, SCORED, labelled, score

FIRST = {"fields": (0.973, 0.95), "defects": (0.942, 0.901), "flags": (0.937, 0.924)}
SPARE = 0.01


@cache
def found():
    return score(labelled(sorted((CORPUS / "fresh").glob("*.yaml"))), knowledge())


@pytest.mark.parametrize("what", FIRST)
def test_strangers_words_are_read_as_well_as_at_first(what):
    names = {"defects": ["defect"], "flags": ["flags"]}.get(
        what, [name for name in SCORED if name not in ("defect", "flags")]
    )
    right, said, wanted = (
        sum(counter[name] for name in names)
        for counter in (found().right, found().said, found().wanted)
    )
    precision, recall = FIRST[what]
    assert right / said >= precision - SPARE, "\n".join(found().errors)
    assert right / wanted >= recall - SPARE, "\n".join(found().errors)


def test_there_are_sets_of_sixty():
    assert len(labelled(sorted((CORPUS / "fresh").glob("*.yaml")))) == 360
