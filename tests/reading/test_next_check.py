"""Which check comes next, why, and when enough has been seen."""

import random
import re
from dataclasses import replace
from functools import lru_cache

import pytest
from reading.smallworld import (
    damage_check,
    dated_check,
    knowledge_of,
    random_knowledge,
    random_piece,
    table_check,
)

from appraise.knowledge import load
from appraise.knowledge.records import KINDS, Answer, Check, Knowledge, Years
from appraise.piece.records import UNTOLD, Piece
from appraise.reading.enough import Enough, enough, floor_open, rest_gain
from appraise.reading.forecast import Forecast
from appraise.reading.information import gain
from appraise.reading.next_check import Price, ranked, tells_modern
from appraise.reading.reading import read

STRANGE = {"together": (0.1, 0.9), "married": (0.6, 0.4), "modern-case": (0.1, 0.9),
           "modern-image": (0.1, 0.9), "all-modern": (0.1, 0.9)}  # fmt: skip
MODERN = {"together": (0.05, 0.95), "married": (0.05, 0.95), "modern-case": (0.7, 0.3),
          "modern-image": (0.05, 0.95), "all-modern": (0.4, 0.6)}  # fmt: skip
LEFT = {"together": 1.0, "married": 0.9, "modern-case": 0.4, "modern-image": 0.4, "all-modern": 0.0,
        "period": 1.0, "modern": 0.1}  # fmt: skip


@lru_cache
def shipped() -> Knowledge:
    return load()


def worth_of(full: float):
    def worth(belonging, condition):
        return full * condition * sum(LEFT[state] * chance for state, chance in belonging.items())

    return worth


def order(knowledge: Knowledge, piece: Piece | None = None, price: Price | None = None):
    return [one.check for one in ranked(read(piece or Piece(), knowledge), knowledge, price)]


def answered(check: Check, answer: str = "a1") -> Piece:
    return Piece().with_finding(check.id, answer)


def sign(name: str, rows=STRANGE, **more) -> Check:
    return table_check(name, {"belonging": rows}, **more)


class TestFloor:
    GLASS = damage_check("glass.crack", {"any": (0.99, 0.01, 0, 0)}, (1, 1, 1, 1))
    MOULD = replace(GLASS, id="case.mould", part="case")
    CUE = sign("case.seam", MODERN)
    STRONG = sign("case.bubbles", MODERN, seconds=60.0)
    TELLING = sign("piece.fit")

    def knowledge(self) -> Knowledge:
        safe = [replace(check, safety=True) for check in (self.GLASS, self.MOULD)]
        return knowledge_of([self.TELLING, self.STRONG, *safe, self.CUE])

    def test_safety_first_then_one_modern_cue_then_by_value(self):
        assert order(self.knowledge())[:3] == ["glass.crack", "case.mould", "case.seam"]
        price = Price(worth_of(50), 45)
        assert order(self.knowledge(), price=price)[:3] == [
            "glass.crack",
            "case.mould",
            "case.seam",
        ]

    def test_what_was_answered_or_passed_over_is_asked_no_more(self):
        piece = Piece().with_finding("glass.crack", "0").with_finding("case.mould", UNTOLD)
        assert order(self.knowledge(), piece)[0] == "case.seam"
        assert set(order(self.knowledge(), piece)) == {"case.seam", "case.bubbles", "piece.fit"}

    def test_one_modern_cue_is_enough_for_the_floor(self):
        piece = answered(self.STRONG).with_finding("glass.crack", "0")
        piece = piece.with_finding("case.mould", "0")
        assert order(self.knowledge(), piece)[0] == "piece.fit"

    def test_a_cue_is_a_sign_that_would_raise_a_warning(self):
        knowledge = self.knowledge()
        assert tells_modern(self.CUE, knowledge)
        assert not tells_modern(self.TELLING, knowledge)
        assert not tells_modern(self.GLASS, knowledge)

    def test_not_enough_before_the_floor(self):
        knowledge = self.knowledge()
        price = Price(worth_of(50), 5000)
        reading = read(Piece(), knowledge)
        told = enough(reading, knowledge, ranked(reading, knowledge, price), price)
        assert told.gain == 0
        assert not told.enough
        piece = Piece().with_finding("glass.crack", "0").with_finding("case.mould", "0")
        assert floor_open(Forecast(read(piece, knowledge), knowledge))
        reading = read(piece.with_finding("case.seam", "a1"), knowledge)
        assert not floor_open(Forecast(reading, knowledge))
        told = enough(reading, knowledge, ranked(reading, knowledge, price), price)
        assert told == Enough(True, ("piece.fit", "case.bubbles"), 0.0)


class TestValue:
    def test_only_safe_checks_are_proposed(self):
        risky = sign("plate.lift", risk="conservator")
        knowledge = knowledge_of([risky, sign("piece.fit")])
        assert order(knowledge) == ["piece.fit"]
        reading = read(Piece(), knowledge)
        assert enough(reading, knowledge, ranked(reading, knowledge)).not_looked == ("piece.fit",)

    def test_the_same_answer_sooner_comes_first(self):
        slow, quick = sign("piece.slow", seconds=20.0), sign("piece.quick", seconds=5.0)
        knowledge = knowledge_of([slow, quick])
        assert order(knowledge) == ["piece.quick", "piece.slow"]
        assert order(knowledge, price=Price(worth_of(50), 45)) == ["piece.quick", "piece.slow"]

    def test_a_check_waits_for_the_one_that_may_take_its_sense(self):
        child = sign("piece.child", when={"piece.parent": ("a0",)}, seconds=1.0)
        parent = sign("piece.parent", seconds=60.0)
        knowledge = knowledge_of([child, parent])
        assert order(knowledge) == ["piece.parent", "piece.child"]
        assert order(knowledge, answered(parent, "a0")) == ["piece.child"]
        assert order(knowledge, answered(parent, "a1")) == []

    @pytest.mark.parametrize("cost", [20.0, 45.0, 60.0])
    def test_value_is_gain_over_cost_a_twentieth_a_bit_and_the_spread(self, cost):
        check = sign("piece.fit")
        damage = damage_check("case.chip", {"any": (0.6, 0.2, 0.1, 0.1)}, (1, 0.9, 0.6, 0.3))
        knowledge = knowledge_of([check, damage])
        price = Price(worth_of(50), cost)
        reading = read(Piece(), knowledge)
        forecast = Forecast(reading, knowledge)
        for proposal in ranked(reading, knowledge, price):
            told = forecast.prospect(knowledge.checks[proposal.check])
            asking = knowledge.weights.asking
            worths = [
                price.worth(dict(zip(reading.belonging, states, strict=True)), left)
                for states, left in zip(told.states, told.conditions, strict=True)
            ]
            now = price.worth(reading.belonging, 1.0)
            saved = gain(told.chances, worths, now, cost)
            mean = sum(c * w for c, w in zip(told.chances, worths, strict=True))
            spread = sum(c * (w - mean) ** 2 for c, w in zip(told.chances, worths, strict=True))
            wanted = saved / cost + asking.bit * told.bits + asking.spread * spread / cost**2
            assert proposal.gain == pytest.approx(wanted)

    def test_damage_is_asked_about_when_it_could_change_the_decision(self):
        damage = damage_check("case.chip", {"any": (0.6, 0.2, 0.1, 0.1)}, (1, 0.9, 0.6, 0.3))
        knowledge = knowledge_of([sign("piece.fit"), damage])
        assert order(knowledge)[0] == "piece.fit"
        now = worth_of(50)(read(Piece(), knowledge).belonging, 1.0)
        assert order(knowledge, price=Price(worth_of(50), 0.9 * now))[0] == "case.chip"

    def test_with_no_price_by_what_is_told_of_process_and_belonging(self):
        rows = {"mirror-one": (0.9, 0.1), "mirror-two": (0.9, 0.1), "glassy": (0.1, 0.9),
                "plain": (0.1, 0.9)}  # fmt: skip
        process = table_check("plate.mirror", {"process": rows})
        knowledge = knowledge_of([sign("piece.fit"), process])
        assert order(knowledge)[0] == "plate.mirror"
        assert order(knowledge, price=Price(worth_of(50), 45))[0] == "piece.fit"


class TestWhy:
    DATED = dated_check(
        "mat.shape",
        [Answer("old", "old", {"": Years(1840, 1842, 1850, 1857, "low")}, 0.3), Answer("b", "b")],
    )

    @pytest.mark.parametrize(
        ("check", "phrase"),
        [
            (sign("piece.fit"), "tells whether picture and case began together"),
            (sign("case.seam", MODERN), "tells whether the case is modern"),
            (DATED, "dates the mat"),
            (damage_check("hinge.tape", {"any": (1, 0, 0, 0)}, (1, 1, 1, 1)),
             "tells how sound the hinge is"),
            (replace(damage_check("glass.crack", {"any": (1, 0, 0, 0)}, (1, 1, 1, 1)), safety=True),
             "guards the glass"),
            (table_check("seal.state", {"package": {"undisturbed": (0.9, 0.1), "disturbed":
                                                    (0.2, 0.8)}}, part="preserver"),
             "tells whether the package was opened"),
            (table_check("plate.copy", {"copy": {"no": (0.1, 0.9), "yes": (0.8, 0.2)}}),
             "tells whether it copies an older picture"),
            (table_check("plate.paint", {"altered": {"no": (0.1, 0.9), "yes": (0.8, 0.2)}}),
             "tells whether something was added later"),
        ],
    )  # fmt: skip
    def test_a_phrase_for_each_sort_of_check(self, check, phrase):
        knowledge = knowledge_of([check])
        (told,) = ranked(read(Piece(), knowledge), knowledge)
        assert told.why == phrase
        assert told.seconds == check.seconds

    def test_it_names_the_two_that_it_parts(self):
        rows = {"mirror-one": (0.5, 0.5), "mirror-two": (0.5, 0.5), "glassy": (0.05, 0.95),
                "plain": (0.5, 0.5)}  # fmt: skip
        knowledge = knowledge_of([table_check("plate.depth", {"process": rows})])
        (told,) = ranked(read(Piece(), knowledge), knowledge)
        first, second = re.fullmatch("parts (.+) from (.+)", told.why).groups()
        families = read(Piece(), knowledge).families
        assert "glassy" in (first, second)
        assert families[first] >= families[second]

    def test_without_a_case_it_is_of_its_period_or_modern(self):
        check = sign("plate.signature", MODERN, kinds=("card",))
        knowledge = knowledge_of([check])
        (told,) = ranked(read(Piece(kind="card"), knowledge), knowledge)
        assert told.why == "tells whether it is modern"


class TestShipped:
    @pytest.mark.parametrize("kind", KINDS)
    def test_every_open_check_has_its_place_and_its_calm_phrase(self, kind):
        knowledge = shipped()
        reading = read(Piece(kind=kind, channel="market"), knowledge)
        for price in (None, Price(worth_of(60), 45)):
            told = ranked(reading, knowledge, price)
            assert [one.check for one in told] != []
            assert sorted(one.check for one in told) == sorted(check.id for check in reading.checks)
            for one in told:
                assert knowledge.checks[one.check].risk != "conservator"
                assert one.gain >= 0
                assert 0 < len(one.why) <= 70
                assert not re.search("fake|authentic|genuine|forg", one.why)

    def test_a_moulded_case_is_asked_for_safety_and_a_modern_cue_first(self):
        knowledge = shipped()
        piece = Piece().with_finding("case.material", "thermoplastic")
        told = ranked(read(piece, knowledge), knowledge)
        first = [knowledge.checks[one.check].safety for one in told]
        count = first.index(False)
        assert count >= 3
        assert not any(first[count:]) or all(
            knowledge.checks[one.check].when
            for one in told[count:]
            if knowledge.checks[one.check].safety
        )
        assert tells_modern(knowledge.checks[told[count].check], knowledge)


class TestEnough:
    def test_far_too_dear_or_cheap_needs_no_more_looking(self):
        knowledge = knowledge_of([sign("piece.fit"), sign("piece.other")])
        reading = read(Piece(), knowledge)
        for cost in (5000.0, 1.0):
            price = Price(worth_of(50), cost)
            told = enough(reading, knowledge, ranked(reading, knowledge, price), price)
            assert told.enough
            assert told.gain < knowledge.weights.asking.rest
            assert set(told.not_looked) == {"piece.fit", "piece.other"}

    def test_a_close_call_is_worth_looking_at(self):
        knowledge = knowledge_of([sign("piece.fit"), sign("piece.other")])
        reading = read(Piece(), knowledge)
        now = worth_of(50)(reading.belonging, 1.0)
        price = Price(worth_of(50), now - 0.2)
        told = enough(reading, knowledge, ranked(reading, knowledge, price), price)
        assert told.gain >= knowledge.weights.asking.rest
        assert not told.enough

    @pytest.mark.parametrize("seed", range(8))
    def test_the_rest_of_one_check_is_that_check(self, seed):
        # 60 to 200 draws: the mean must lie within four standard errors of the exact gain.
        rng = random.Random(seed)
        full = random_knowledge(rng)
        check = next(
            check
            for check in full.checks.values()
            if check.table("belonging") and not {t.over for t in check.tables} & {"copy", "altered"}
        )
        damage = damage_check("case.chip", {"any": (0.7, 0.1, 0.1, 0.1)}, (1, 0.9, 0.6, 0.3))
        for one in (replace(check, group=""), damage):
            knowledge = replace(full, checks={one.id: one})
            piece = random_piece(rng, knowledge, 0)
            reading = read(piece, knowledge)
            forecast = Forecast(reading, knowledge)
            told = forecast.prospect(one)
            now = worth_of(50)(reading.belonging, 1.0)
            price = Price(worth_of(50), 0.97 * now)
            worths = [
                price.worth(dict(zip(reading.belonging, states, strict=True)), left)
                for states, left in zip(told.states, told.conditions, strict=True)
            ]
            exact = gain(told.chances, worths, now, price.cost) / price.cost
            second = gain(
                told.chances,
                [
                    price.cost + (w - price.cost) ** 2 * (1 if w > price.cost else -1)
                    for w in worths
                ],
                now,
                price.cost,
            )
            error = max(0.0, second / price.cost**2 - exact**2) ** 0.5 / 60**0.5
            assert abs(rest_gain(forecast, price) - exact) <= 4 * error + 1e-9

    def test_the_same_piece_gives_the_same_answer(self):
        knowledge = shipped()
        piece = Piece().with_finding("case.material", "thermoplastic")
        reading = read(piece, knowledge)
        price = Price(worth_of(60), 45)
        forecast = Forecast(reading, knowledge)
        assert rest_gain(forecast, price) == rest_gain(Forecast(reading, knowledge), price)

    def test_with_no_price_when_no_check_tells_anything(self):
        faint = dict.fromkeys(STRANGE, (0.5, 0.5)) | {"married": (0.52, 0.48)}
        for rows, wanted in ((faint, True), (STRANGE, False)):
            knowledge = knowledge_of([sign("piece.fit", rows)])
            reading = read(Piece(), knowledge)
            proposals = ranked(reading, knowledge)
            told = enough(reading, knowledge, proposals)
            assert told.enough is wanted
            assert told.gain == proposals[0].gain
            assert (told.gain < knowledge.weights.asking.faint) is wanted

    def test_nothing_left_to_look_at(self):
        check = sign("piece.fit")
        knowledge = knowledge_of([check])
        reading = read(answered(check), knowledge)
        for price in (None, Price(worth_of(50), 45)):
            assert enough(reading, knowledge, (), price) == Enough(True, (), 0.0)
