"""Spreadsheets that strangers wrote come in by themselves, or ask where a stranger would ask."""

from pathlib import Path

import pytest
from exchange.sheetscore import scored, sheets

SETS = Path(__file__).parent / "strangers"
SHEETS = [pair for place in sorted(SETS.glob("s*")) for pair in sheets(place)]
RIGHT, WRONG = 11, 8
"""What the fresh set, not mended whole, must come in with at least."""


@pytest.mark.parametrize(
    ("sheet", "label"), SHEETS, ids=lambda path: f"{path.parent.name}/{path.name}"
)
def test_a_sheet_comes_in_as_it_is_meant(sheet, label, monkeypatch):
    monkeypatch.setenv("APPRAISE_HOME", "")  # the score sets it; it comes back after the test
    found = scored(sheet, label)
    assert found.right, "\n".join([*found.wrong, *found.missing, found.talk])


def test_sheets_that_are_not_mended_whole_come_in_as_well_as_before(monkeypatch):
    monkeypatch.setenv("APPRAISE_HOME", "")
    found = [scored(sheet, label) for sheet, label in sheets(SETS / "fresh" / "s5")]
    assert len(found) == 12
    assert sum(one.right for one in found) >= RIGHT
    assert sum(len(one.wrong) for one in found) <= WRONG
