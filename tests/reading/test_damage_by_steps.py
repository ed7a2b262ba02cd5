"""Damage by hand: grades at their edges, base rates, and what is left, step by step."""

from dataclasses import replace
from itertools import product
from math import prod

import numpy as np
import pytest
from reading.smallworld import (
    HOUSINGS,
    PROCESSES,
    damage_check,
    knowledge_of,
    table_check,
    weights,
)

from appraise.knowledge.records import Knowledge
from appraise.reading.condition import Fault, value_factor
from appraise.reading.reading import Reading, read
from appraise.reading.usual import Usual, beside_usual, step_chances
from appraise.records.piece import Finding, Image, Piece

RATES = {"any": (0.7, 0.1, 0.1, 0.1)}


def test_half_of_a_side_seen_is_enough_and_less_is_not():
    checks = [damage_check(f"case.part-{n}", RATES, (1, 0.9, 0.7, 0.4)) for n in range(4)]
    knowledge = knowledge_of(checks)
    one = Piece().with_finding("case.part-0", "0")
    two = one.with_finding("case.part-1", "0")
    assert read(one, knowledge).condition.sides["housing"].grade == "not seen"
    assert read(two, knowledge).condition.sides["housing"].grade == "Excellent"
    photo = one.with_finding("case.part-1", "0", "photo")
    assert read(photo, knowledge).condition.sides["housing"].grade == "Good"
    assert read(two, knowledge).condition.not_seen == ("case.part-2", "case.part-3")
    assert read(Piece(), knowledge).condition.sides["housing"].says == "not checked"


def test_of_two_faults_of_one_step_the_one_that_grows_stands_first():
    growing = damage_check("case.rot", RATES, (1, 0.9, 0.7, 0.4))
    stability = ("stable", "active", "active", "active")
    growing = replace(growing, defect=replace(growing.defect, stability=stability))
    checks = [damage_check("case.chip", RATES, (1, 0.9, 0.7, 0.4)), growing]
    piece = Piece().with_finding("case.chip", "1").with_finding("case.rot", "1")
    told = read(piece, knowledge_of(checks)).condition
    assert [one.check.id for one in told.faults] == ["case.rot", "case.chip"]
    assert told.sides["housing"].grade == "Fair"


def world() -> Knowledge:
    """Four checks on two parts; how common damage is goes by process, by housing, or by neither."""
    by_process = {"any": (0.6, 0.2, 0.1, 0.1), "mirror": (0.2, 0.4, 0.3, 0.1),
                  "glassy": (0.8, 0.1, 0.05, 0.05)}  # fmt: skip
    by_housing = {"any": (0.5, 0.2, 0.2, 0.1), "paper": (0.1, 0.2, 0.3, 0.4)}
    checks = [
        damage_check("plate.tarnish", by_process, (1, 0.95, 0.8, 0.5)),
        damage_check("plate.spots", RATES, (1, 0.95, 0.85, 0.6)),
        damage_check("case.chip", by_housing, (1, 0.9, 0.7, 0.4)),
        replace(damage_check("case.crack", RATES, (1, 0.8, 0.6, 0.3)), only=("moulded", "paper")),
        replace(damage_check("plate.rust", RATES, (1, 0.9, 0.5, 0.2)), only=("glassy",)),
    ]
    rows = {name: (0.2, 0.8) if name == "glassy" else (0.7, 0.3) for name in PROCESSES}
    return knowledge_of([*checks, table_check("plate.colour", {"process": rows})])


def chances_by_hand(told: Reading) -> dict[str, np.ndarray]:
    """P(step) of each check: the mean over processes or housings, as probable as they are."""
    found = {}
    for check in told.joint.frame.checks.values():
        if check.defect is None:
            continue
        rates = check.defect.rates
        if check.id == "plate.tarnish":
            pairs = [(told.processes[n], PROCESSES[n]) for n in PROCESSES]
        else:
            pairs = [(told.housings[name], name) for name in HOUSINGS]
        line = sum(chance * np.array(rates.get(word, rates["any"])) for chance, word in pairs)
        makes = 1.0
        if check.only:
            makes = sum(told.housings.get(word, 0.0) for word in check.only)
            makes += sum(told.processes[n] for n in PROCESSES if PROCESSES[n] in check.only)
        found[check.id] = line * makes + np.array([1 - makes, 0, 0, 0])
    return found


def test_how_common_damage_is_goes_by_what_the_piece_may_be():
    told = read(Piece().with_finding("plate.colour", "a0"), world())
    found = chances_by_hand(told)
    for place, chances in zip(found.values(), ordered(told), strict=True):
        assert chances == pytest.approx(place)


def ordered(told: Reading) -> list[np.ndarray]:
    """The chances of the model in the order of the checks."""
    names = [check.id for check in told.joint.frame.checks.values() if check.defect]
    parts = [name.split(".")[0] for name in names]
    by_part = sorted(names, key=lambda name: parts.index(name.split(".")[0]))
    rows = dict(zip(by_part, step_chances(told), strict=True))
    return [rows[name] for name in names]


def kept_by_hand(lines: dict[str, np.ndarray]) -> float:
    """The mean share left over every step of every check of the world."""
    checks = [check for check in world().checks.values() if check.id in lines]
    total = 0.0
    for steps in product(range(4), repeat=len(checks)):
        chance = prod(lines[one.id][step] for one, step in zip(checks, steps, strict=True))
        if chance:
            pairs = zip(checks, steps, strict=True)
            faults = [Fault(one, step, "", "stable") for one, step in pairs if step]
            total += chance * value_factor(faults)
    return total


def test_what_damage_leaves_after_each_answer_and_after_many_by_enumeration():
    piece = Piece().with_finding("plate.colour", "a0").with_finding("case.chip", "2", "photo")
    told, knowledge = read(piece, world()), world()
    usual, bare = Usual(told, knowledge), chances_by_hand(told)
    r = weights().reliability["photo"]["form"]
    seen = {**bare, "case.chip": (1 - r) * bare["case.chip"] + r * np.eye(4)[2]}
    whole = kept_by_hand(bare)
    assert usual.now == pytest.approx(kept_by_hand(seen) / whole)
    beliefs = (0.9, 0.8, 0.7, 0.6)

    def moved(name: str, step: int) -> dict[str, np.ndarray]:
        r = beliefs[step]
        return {**seen, name: (1 - r) * bare[name] + r * np.eye(4)[step]}

    for name in ("case.crack", "plate.tarnish"):
        after = usual.after_each(knowledge.checks[name], beliefs)
        wanted = [kept_by_hand(moved(name, step)) / whole for step in range(4)]
        assert after == pytest.approx(wanted)
        scaled = bare[name] / np.array(beliefs)  # an answer that is believed less is given more
        answers = usual.answers(knowledge.checks[name], beliefs)
        assert answers == pytest.approx(scaled / scaled.sum())
    steps = {"case.crack": [0, 3, -1], "plate.tarnish": [2, -1, -1], "plate.spots": [1, 1, -1]}
    drawn = {name: (np.array(places), beliefs) for name, places in steps.items()}
    wanted = []
    for place in range(3):
        lines = seen
        for name, places in steps.items():
            if places[place] >= 0:
                lines = {**lines, name: moved(name, places[place])[name]}
        wanted.append(kept_by_hand(lines) / whole)
    assert usual.after_many(drawn) == pytest.approx(wanted)
    assert usual.after_many({}) == pytest.approx([usual.now])


def test_of_several_images_the_worst_answer_counts_once():
    images = tuple(
        Image(side, {"plate.spots": Finding("plate.spots", step, "in-hand")})
        for side, step in (("left", "1"), ("right", "2"))
    )
    two = read(Piece(images=images), world())
    one = read(Piece().with_finding("plate.spots", "2"), world())
    assert beside_usual(two, world()) == pytest.approx(beside_usual(one, world()))
    assert [(one.check.id, one.step) for one in two.condition.faults] == [("plate.spots", 2)]


def test_of_equal_answers_on_several_images_the_first_counts():
    images = tuple(
        Image(side, {"plate.spots": Finding("plate.spots", "2", known)})
        for side, known in (("left", "photo"), ("right", "in-hand"))
    )
    two = read(Piece(images=images), world())
    photo = read(Piece().with_finding("plate.spots", "2", "photo"), world())
    assert beside_usual(two, world()) == pytest.approx(beside_usual(photo, world()))
