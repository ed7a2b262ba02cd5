"""What sellers call processes and housings: the shipped tables of confusion."""

import pytest
from cuekit import COLUMNS, chance, knowledge


def test_every_family_can_be_claimed() -> None:
    families = {process.family for process in knowledge().processes.values()}
    assert {answer.id for answer in knowledge().checks["claim.process"].answers} == families


def test_every_housing_can_be_claimed() -> None:
    claimed = {answer.id for answer in knowledge().checks["claim.material"].answers}
    assert claimed == set(knowledge().housings)


@pytest.mark.parametrize("process", list(COLUMNS.values()))
def test_most_things_are_mostly_called_what_they_are(process: str) -> None:
    family = knowledge().processes[process].family
    table = knowledge().checks["claim.process"].table("process")
    assert table is not None
    best = max(table.rows[process])
    assert chance("claim.process", family, process) == best


@pytest.mark.parametrize(
    ("housing", "called", "source"),
    [
        ("leather-wood", "thermoplastic", "Cased Photographs, American Antiquarian Society"),
        ("paper-wood", "leather-wood", "common practice"),
        ("resin", "thermoplastic", "common practice"),
    ],
)
def test_housings_go_by_wrong_names(housing: str, called: str, source: str) -> None:
    check = knowledge().checks["claim.material"]
    table = check.table("housing")
    assert table is not None
    wrong = {
        answer.id: value
        for answer, value in zip(check.answers, table.rows[housing], strict=True)
        if answer.id != housing
    }
    assert max(wrong, key=lambda word: wrong[word]) == called, source
