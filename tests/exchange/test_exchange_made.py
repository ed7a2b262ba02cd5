"""Sheets drawn from their numbers come in as they are meant, and none with a wrong value."""

from collections import Counter

from exchange.sheetmaker import all_held
from thorough import times

MANY = times(60, 400)


def test_made_sheets_come_in_whole_and_never_wrong():
    found = list(all_held(0, MANY))
    wrong = {one.make.seed: one.wrong for one in found if one.wrong}
    assert not wrong
    states = Counter(one.state.partition(":")[0] for one in found)
    assert states["right"] >= 0.95 * MANY, states
