"""The money of the panel: what the most is called, and what is told of it, as in the headline."""

import pytest
from verdict.verdictkit import KNOWLEDGE, verdicts

from appraise.app.examine.purse import money_lines
from appraise.app.examine.shown import Shown, names_in
from appraise.app.lines import length, words_of
from appraise.app.marks import PLAIN
from appraise.verdict import pay_of
from appraise.verdict.pay import MAXIMUM, most

SHOWN = Shown(PLAIN, tuple(KNOWLEDGE.parts), True, True, {}, names_in(KNOWLEDGE))


@pytest.mark.parametrize("width", [30, 33, 40, 60])
def test_a_maximum_bid_is_never_called_a_limit(width):
    seen = 0
    for name, verdict in verdicts():
        pay = pay_of(verdict)
        told = [words_of(row) for row in money_lines(verdict, SHOWN, width, rows=4)]
        if pay.limit is None and not pay.outcomes:
            continue
        seen += 1
        wrong = "limit" if pay.name == MAXIMUM else "bid"
        assert not any(wrong in row for row in told), (name, told)
        rows = money_lines(verdict, SHOWN, width, rows=4)
        assert all(length(row) <= width for row in rows), (name, told)
        if pay.outcomes:
            assert [row.rpartition(" ")[2] for row in told if "%): " in row] == [
                most(one, verdict.currency) for one in pay.outcomes
            ], (name, told)
    assert seen > 30
