"""Spreadsheets that strangers wrote come in by themselves, or ask where a stranger would ask."""

from pathlib import Path

import pytest
from exchange.sheetscore import scored, sheets
from thorough import times

SETS = Path(__file__).parent / "strangers"
SHEETS = [pair for place in sorted(SETS.glob("s*")) for pair in sheets(place)]
TRIED = SHEETS[:: times(4, 1)]  # every fourth of each set, and all for a night


@pytest.mark.parametrize(
    ("sheet", "label"), TRIED, ids=lambda path: f"{path.parent.name}/{path.name}"
)
def test_a_sheet_comes_in_as_it_is_meant(sheet, label, monkeypatch):
    monkeypatch.setenv("APPRAISE_HOME", "")  # the score sets it; it comes back after the test
    found = scored(sheet, label)
    assert found.right, "\n".join([*found.wrong, *found.missing, found.talk])
