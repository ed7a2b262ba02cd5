"""Every whole piece judged, and how many of them come out as their sources demand."""

import pytest
from external.whole.scoring import cases, misses_of

from appraise.knowledge import load

SHARE = 0.9  # of the pieces; 38 of every 40 are aimed at. First runs: 67 of 108 and 37 of 46


@pytest.fixture(scope="module")
def scored():
    knowledge = load()
    return {case.id: misses_of(case, knowledge) for case in cases()}


def test_most_pieces_come_out_as_their_sources_demand(scored):
    wrong = {name: found for name, found in scored.items() if found}
    for name, found in wrong.items():
        print(f"{name}: {'; '.join(found)}")
    print(f"{len(scored) - len(wrong)} of {len(scored)} right")
    assert len(scored) >= 100
    assert len(scored) - len(wrong) >= SHARE * len(scored)


def test_a_third_of_them_is_modern_copied_or_rehoused():
    doubtful = [
        case
        for case in cases()
        if case.expect.get("modern") in ("warned", "strongly-warned")
        or case.expect.get("belonging") == "married-warned"
        or case.id.startswith("c")
        or "cop" in case.id
    ]
    assert len(doubtful) >= len(cases()) / 3
