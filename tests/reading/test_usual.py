"""Damage beside the usual: equal to plain enumeration, and on average the same before and after."""

from dataclasses import replace
from itertools import product
from math import prod

import pytest
from reading.smallworld import damage_check, knowledge_of

from appraise.inquiry.forecast import Forecast
from appraise.knowledge import load
from appraise.knowledge.records import Knowledge
from appraise.reading.condition import Fault, value_factor
from appraise.reading.reading import read
from appraise.reading.usual import beside_usual, step_chances
from appraise.records.piece import Finding, Piece

FIRST = damage_check("case.chip", {"any": (0.5, 0.2, 0.2, 0.1)}, (1, 0.9, 0.7, 0.4))
SECOND = damage_check("case.crack", {"any": (0.6, 0.2, 0.1, 0.1)}, (1, 0.95, 0.8, 0.5))
THIRD = damage_check("plate.spots", {"any": (0.3, 0.4, 0.2, 0.1)}, (1, 0.97, 0.85, 0.6))
CHECKS = (FIRST, SECOND, THIRD)
BELIEVED = {"in-hand": {"0": 0.95, "seen": 0.97}, "seller": {"0": 0.3, "seen": 0.55}}


def world() -> Knowledge:
    return knowledge_of(list(CHECKS))


def seen(*findings: str, known: str = "in-hand") -> Piece:
    made = {}
    for text in findings:
        check, step = text.split()
        made[check] = Finding(check, step, known)
    return Piece(findings=made)


def enumerated(piece: Piece) -> float:
    """The mean share of value over every step of every check, seen ones as far as believed."""
    lines = []
    for check in CHECKS:
        rates = check.defect.rates["any"]
        found = piece.findings.get(check.id)
        if found is not None:
            r = BELIEVED[found.known]["0" if found.answer == "0" else "seen"]
            rates = [(1 - r) * p + r * (str(n) == found.answer) for n, p in enumerate(rates)]
        lines.append(rates)
    total = 0.0
    for steps in product(range(4), repeat=len(CHECKS)):
        faults = [
            Fault(check, step, "", "stable")
            for check, step in zip(CHECKS, steps, strict=True)
            if step
        ]
        chance = prod(line[step] for line, step in zip(lines, steps, strict=True))
        total += chance * value_factor(faults)
    return total


@pytest.mark.parametrize(
    ("findings", "known"),
    [
        ((), "in-hand"),
        (("case.chip 0",), "in-hand"),
        (("case.chip 2", "case.crack 1"), "in-hand"),
        (("case.chip 3", "plate.spots 0"), "seller"),
        (("case.chip 0", "case.crack 0", "plate.spots 0"), "in-hand"),
    ],
)
def test_equal_to_every_step_of_every_check_by_enumeration(findings, known):
    piece = seen(*findings, known=known)
    told = beside_usual(read(piece, world()), world())
    assert told == pytest.approx(enumerated(piece) / enumerated(Piece()), abs=1e-12)


def test_sound_is_above_the_usual_and_damage_below_it():
    told = (
        beside_usual(read(seen(text), world()), world()) for text in ("case.chip 0", "case.chip 3")
    )
    sound, broken = told
    assert beside_usual(read(Piece(), world()), world()) == 1
    assert broken < 1 < sound


def test_what_a_seller_calls_sound_counts_for_less():
    in_hand = beside_usual(read(seen("case.chip 0"), world()), world())
    said = beside_usual(read(seen("case.chip 0", known="seller"), world()), world())
    assert 1 < said < in_hand


@pytest.mark.parametrize("known", ["market", "online"])
def test_looking_moves_it_on_average_not_at_all(known):
    piece = replace(seen("case.crack 2"), channel=known)
    knowledge = world()
    forecast = Forecast(read(piece, knowledge), knowledge)
    for check in (FIRST, THIRD):
        told = forecast.prospect(check)
        mean = sum(c * left for c, left in zip(told.chances, told.conditions, strict=True))
        assert mean == pytest.approx(forecast.usual.now, abs=1e-12)
        for step in range(4):
            answered = piece.with_finding(check.id, str(step))
            again = beside_usual(read(answered, knowledge), knowledge)
            assert again == pytest.approx(told.conditions[step], abs=1e-12)


def test_damage_of_moulded_cases_is_as_rare_as_they_are():
    only = replace(FIRST, only=("moulded",))
    reading = read(Piece(), knowledge_of([only]))
    moulded = reading.housings["moulded"]
    (chances,) = step_chances(reading)
    assert chances[1:] == pytest.approx([moulded * p for p in (0.2, 0.2, 0.1)])
    assert sum(chances) == pytest.approx(1)


def test_a_shipped_piece_in_hand_moves_both_ways():
    knowledge = load()
    names = [check.id for check in read(Piece(), knowledge).checks if check.defect is not None]
    every = Piece(findings={name: Finding(name, "0", "in-hand") for name in names})
    best = beside_usual(read(every, knowledge), knowledge)
    one = beside_usual(read(Piece().with_finding(names[0], "0"), knowledge), knowledge)
    assert 1 < one < best < 5
