"""Which check comes next, why, and when enough has been seen."""

import random
import re
from dataclasses import replace
from functools import cache

import pytest
from reading.smallworld import (
    HOUSINGS,
    PROCESSES,
    damage_check,
    dated_check,
    knowledge_of,
    random_knowledge,
    random_piece,
    table_check,
)

from appraise.inquiry.enough import Enough, enough, rest_gain
from appraise.inquiry.forecast import Forecast
from appraise.inquiry.information import gain
from appraise.inquiry.next_check import (
    MODERN_CUE,
    PARTS,
    PICTURE,
    PROCESS,
    REST,
    SOUND,
    Order,
    Price,
    ranked,
    step_of,
    tells_modern,
)
from appraise.inquiry.offering import OFFERED, offered
from appraise.knowledge import load
from appraise.knowledge.records import KINDS, UNJUDGED, Answer, Check, Knowledge, Years
from appraise.listing.first_look import understand
from appraise.reading.reading import read
from appraise.records.piece import UNTOLD, Piece

STRANGE = {"together": (0.1, 0.9), "married": (0.6, 0.4), "modern-case": (0.1, 0.9),
           "modern-image": (0.1, 0.9), "all-modern": (0.1, 0.9)}  # fmt: skip
MODERN = {"together": (0.05, 0.95), "married": (0.05, 0.95), "modern-case": (0.7, 0.3),
          "modern-image": (0.05, 0.95), "all-modern": (0.4, 0.6)}  # fmt: skip
LEFT = {"together": 1.0, "married": 0.9, "modern-case": 0.4, "modern-image": 0.4, "all-modern": 0.0,
        "period": 1.0, "modern": 0.1}  # fmt: skip


@cache
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


def rows_of(*likely: float):
    """P(answer) by process."""
    return {name: (p, 1 - p) for name, p in zip(PROCESSES, likely, strict=True)}


def style(name: str, **more) -> Check:
    early = Answer("early", "early", {"": Years(1840, 1842, 1850, 1857, "low")}, 0.3)
    return dated_check(name, [early, Answer("other", "another")], **more)


def worn(name: str, worth=(1, 0.9, 0.6, 0.3), **more) -> Check:
    return replace(damage_check(name, {"any": (0.6, 0.2, 0.1, 0.1)}, worth), **more)


class TestSteps:
    """What is it; is the picture in order; do the parts agree; is the case sound; is it modern."""

    MIRROR = table_check("plate.mirror", {"process": rows_of(0.95, 0.95, 0.05, 0.05)})
    DEPTH = table_check("plate.depth", {"process": rows_of(0.5, 0.5, 0.95, 0.05)}, seconds=8.0)
    SPOTS, CLOUDS = worn("plate.spots"), worn("plate.clouds", (1, 0.99, 0.98, 0.97))
    PARTS = (style("mat.shape"), style("preserver.form"), style("pad.pile"),
             style("case.covering"))  # fmt: skip
    CHIP, TAPE = worn("case.chip"), worn("hinge.tape")
    SEAM = sign("case.seam", MODERN)
    BUBBLES = sign("case.bubbles", MODERN, seconds=60.0)
    COPY = table_check("plate.copy", {"copy": {"no": (0.1, 0.9), "yes": (0.8, 0.2)}})

    def knowledge(self) -> Knowledge:
        steps = [self.COPY, self.SEAM, self.BUBBLES, self.TAPE, self.CHIP, *self.PARTS,
                 self.CLOUDS, self.SPOTS, self.DEPTH, self.MIRROR]  # fmt: skip
        return knowledge_of(steps)

    def settled(self, knowledge: Knowledge) -> Piece:
        """A piece of which the process stands."""
        piece = Piece().with_finding("plate.depth", "a0").with_finding("plate.mirror", "a1")
        assert max(read(piece, knowledge).families.values()) >= knowledge.weights.asking.settled
        return piece

    def test_each_check_has_its_step(self):
        knowledge = self.knowledge()
        wanted = {
            PROCESS: (self.MIRROR, self.DEPTH),
            PICTURE: (self.SPOTS, self.CLOUDS),
            PARTS: self.PARTS,
            SOUND: (self.CHIP, self.TAPE),
            MODERN_CUE: (self.SEAM, self.BUBBLES),
            REST: (self.COPY,),
        }
        for step, checks in wanted.items():
            assert {step_of(check, knowledge) for check in checks} == {step}

    @pytest.mark.parametrize("price", [None, Price(worth_of(50), 42)])
    def test_they_are_asked_in_that_order(self, price):
        knowledge = self.knowledge()
        told = order(knowledge, price=price)
        assert told[:2] == ["plate.mirror", "plate.depth"]
        assert set(told[2:4]) == {"plate.spots", "plate.clouds"}
        places = {name: place for place, name in enumerate(told)}
        agree = ["mat.shape", "preserver.form", "pad.pile"]
        assert max(places[name] for name in agree) < places["case.chip"] < places["case.seam"]
        assert places["hinge.tape"] < places["case.seam"]
        assert set(told[-2:]) <= {"plate.copy", "case.bubbles", "case.covering"}
        assert sorted(told) == sorted(knowledge.checks)

    def test_the_process_by_what_a_test_tells_for_its_seconds_until_it_stands(self):
        knowledge = self.knowledge()
        quick = knowledge.weights.asking.quick
        for seconds, first in ((quick, ["plate.depth", "plate.mirror"]), (quick + 1, None)):
            made = (replace(self.MIRROR, seconds=seconds), replace(self.DEPTH, seconds=1.0))
            checks = {**knowledge.checks, **{check.id: check for check in made}}
            other = replace(knowledge, checks=checks)
            told = order(other)
            if first:
                assert told[:2] == first
            else:  # it is no quick test, and waits until all else is done
                assert told.index("plate.mirror") > told.index("case.seam")
            asked = Order(read(Piece(), other), other)
            assert ("plate.mirror" in asked.required) is (first is not None)
        piece = Piece().with_finding("plate.mirror", "a0")
        first = read(piece, knowledge)
        assert first.families["mirror"] > knowledge.weights.asking.settled
        told = order(knowledge, piece)
        assert told[0].startswith("plate.")
        assert told.index("plate.depth") > told.index("case.seam")

    def test_a_test_that_tells_next_to_nothing_of_the_process_waits(self):
        dull = table_check("plate.dull", {"process": rows_of(0.5, 0.5, 0.51, 0.5)}, seconds=1.0)
        knowledge = self.knowledge()
        knowledge = replace(knowledge, checks={"plate.dull": dull, **knowledge.checks})
        told = order(knowledge)
        assert told[0] == "plate.mirror"
        assert told.index("plate.dull") > told.index("case.seam")
        assert "plate.dull" not in Order(read(Piece(), knowledge), knowledge).required

    def test_the_pictures_own_condition_is_looked_at_once_whatever_it_moves(self):
        faint = worn("plate.spots", (1, 1, 1, 1))
        knowledge = knowledge_of([self.CHIP, self.SEAM, faint, replace(faint, id="plate.haze")])
        assert set(order(knowledge)[:2]) == {"plate.spots", "plate.haze"}
        told = order(knowledge, Piece().with_finding("plate.spots", "0"))
        assert told == ["case.chip", "case.seam", "plate.haze"]

    def test_mat_preserver_and_pad_are_looked_at_whatever_they_move(self):
        ever = [Answer("early", "early", {"": Years(1700, 1701, 2100, 2101, "high")}, 0.3),
                Answer("other", "another")]  # fmt: skip
        still = [dated_check(name, ever) for name in ("mat.shape", "mat.surface", "pad.pile")]
        knowledge = knowledge_of([self.CHIP, self.SEAM, *still])
        assert set(order(knowledge)[:3]) == {"mat.shape", "mat.surface", "pad.pile"}
        told = order(knowledge, Piece().with_finding("mat.shape", "early"))
        assert told[0] == "pad.pile"
        assert told[-1] == "mat.surface"
        passed = Piece().with_finding("mat.shape", UNTOLD).with_finding("pad.pile", UNTOLD)
        assert order(knowledge, passed)[0] == "case.chip"

    def test_the_material_of_the_case_is_asked_like_the_process_until_it_stands(self):
        sure = {name: tuple(0.98 if name == one else 0.01 for one in HOUSINGS) for name in HOUSINGS}
        material = table_check("case.material", {"housing": sure})
        weight = table_check("case.weight", {"housing": sure}, seconds=10.0)
        knowledge = knowledge_of([self.SEAM, self.SPOTS, weight, material])
        assert step_of(material, knowledge) == PROCESS
        assert order(knowledge)[:3] == ["case.material", "case.weight", "plate.spots"]
        seen = Piece().with_finding("case.material", "a0")
        assert max(read(seen, knowledge).housings.values()) > knowledge.weights.asking.settled
        assert order(knowledge, seen) == ["plate.spots", "case.seam", "case.weight"]

    def test_one_modern_cue_of_a_side_the_quickest_to_tell(self):
        knowledge = self.knowledge()
        gloss = sign("plate.gloss", MODERN)
        knowledge = replace(knowledge, checks={**knowledge.checks, "plate.gloss": gloss})
        piece = self.settled(knowledge)
        assert set(self.cues(knowledge, piece)) == {"plate.gloss", "case.seam", "case.bubbles"}
        told = order(knowledge, piece)
        assert told.index("case.seam") < told.index("case.bubbles")
        for seen in ("case.bubbles", "case.seam"):
            (other,) = {"case.bubbles", "case.seam"} - {seen}
            for answer in ("a1", UNTOLD):
                left = self.cues(knowledge, piece.with_finding(seen, answer))
                assert set(left) == {"plate.gloss", other}
        left = self.cues(knowledge, piece.with_finding("plate.gloss", "a1"))
        assert left == ("case.seam", "case.bubbles")

    def cues(self, knowledge: Knowledge, piece: Piece) -> tuple[str, ...]:
        return Order(read(piece, knowledge), knowledge).cues

    def test_a_sign_of_a_modern_process_is_a_cue(self):
        """Far commoner with a process that is mostly modern than with any of the period."""
        dots = table_check("plate.dots", {"process": rows_of(0.01, 0.01, 0.01, 0.8)})
        faint = replace(dots, id="plate.faint", tables=(
            replace(dots.tables[0], rows=rows_of(0.2, 0.2, 0.2, 0.8)),
        ))  # fmt: skip
        knowledge = knowledge_of([dots, faint])
        late = replace(knowledge.processes["plain"], modern_image=0.9)
        modern = replace(knowledge, processes={**knowledge.processes, "plain": late})
        assert tells_modern(dots, modern)
        assert not tells_modern(faint, modern)
        assert not tells_modern(dots, knowledge)

    def test_a_cue_is_a_sign_that_would_raise_a_warning(self):
        knowledge = self.knowledge()
        assert tells_modern(self.SEAM, knowledge)
        assert not tells_modern(sign("piece.fit"), knowledge)
        assert not tells_modern(self.CHIP, knowledge)

    def test_there_is_no_asking_for_safety_alone(self):
        crack = worn("glass.crack", (1, 1, 1, 1), safety=True)
        knowledge = knowledge_of([self.CHIP, crack])
        assert order(knowledge) == ["case.chip", "glass.crack"]
        assert Order(read(Piece(), knowledge), knowledge).required == ()

    def test_what_was_answered_or_passed_over_is_asked_no_more(self):
        knowledge = self.knowledge()
        piece = self.settled(knowledge).with_finding("plate.spots", UNTOLD)
        asked = set(order(knowledge, piece))
        assert asked == set(knowledge.checks) - {"plate.depth", "plate.mirror", "plate.spots"}


class TestOffered:
    FIT = sign("piece.fit")
    WEIGHT = sign("piece.weight", hand=True)
    MATERIAL = table_check(
        "case.material",
        {"housing": {"wooden": (0.9, 0.05, 0.05), "moulded": (0.05, 0.9, 0.05),
                     "paper": (0.05, 0.05, 0.9)}},
        seconds=1.0,
    )  # fmt: skip
    SEAM = sign("case.seam", when={"case.material": ("a1",)})

    def test_what_needs_the_piece_in_hand_is_not_asked_of_a_photo(self):
        knowledge = knowledge_of([self.FIT, self.WEIGHT])
        assert set(order(knowledge, Piece(channel="market"))) == {"piece.fit", "piece.weight"}
        for channel in ("online", "auction"):
            piece = Piece(channel=channel)
            assert order(knowledge, piece) == ["piece.fit"]
            # It makes sense all the same, and was not looked at.
            told = enough(Order(read(piece, knowledge), knowledge))
            assert set(told.not_looked) == {"piece.fit", "piece.weight"}

    @pytest.mark.parametrize(
        ("share", "asked"), [(OFFERED - 0.01, False), (OFFERED + 0.01, True), (0.6, True)]
    )
    def test_of_a_material_that_is_likely_enough(self, share, asked):
        """Words of the housings, which the answers of the question on the material are."""
        words = dict(zip(("a0", "a1", "a2"), HOUSINGS, strict=True))
        answers = tuple(Answer(words[one.id], one.says) for one in self.MATERIAL.answers)
        material = replace(self.MATERIAL, answers=answers)
        seam = replace(self.SEAM, when={"case.material": ("moulded",)})
        knowledge = knowledge_of([material, seam])
        shares = {"wooden": 0.9 * (1 - share), "moulded": share, "paper": 0.1 * (1 - share)}
        knowledge = replace(knowledge, housings={
            name: replace(one, share=shares[name], years={})
            for name, one in knowledge.housings.items()
        })  # fmt: skip
        assert read(Piece(), knowledge).housings["moulded"] == pytest.approx(share)
        assert ("case.seam" in order(knowledge)) is asked
        seen = Piece().with_finding("case.material", "moulded")
        assert order(knowledge, seen) == ["case.seam"]
        assert order(knowledge, Piece().with_finding("case.material", "wooden")) == []

    def test_of_a_likely_process_or_housing(self):
        only = sign("piece.rare", only=("paper",))
        knowledge = knowledge_of([self.FIT, only])
        shares = {"wooden": 0.5, "moulded": 0.4, "paper": 0.1}
        knowledge = replace(knowledge, housings={
            name: replace(one, share=shares[name]) for name, one in knowledge.housings.items()
        })  # fmt: skip
        reading = read(Piece(), knowledge)
        assert {check.id for check in reading.checks} == {"piece.fit", "piece.rare"}
        assert order(knowledge) == ["piece.fit"]

    def test_a_check_waits_for_the_one_that_may_take_its_sense(self):
        child = sign("piece.child", when={"piece.parent": ("a0",)}, seconds=1.0)
        parent = sign("piece.parent", seconds=60.0)
        knowledge = knowledge_of([child, parent])
        assert order(knowledge) == ["piece.parent"]
        assert order(knowledge, answered(parent, "a0")) == ["piece.child"]
        assert order(knowledge, answered(parent, "a1")) == []


class TestValue:
    def test_only_safe_checks_are_proposed(self):
        risky = sign("plate.lift", risk="conservator")
        knowledge = knowledge_of([risky, sign("piece.fit")])
        assert order(knowledge) == ["piece.fit"]
        told = enough(Order(read(Piece(), knowledge), knowledge))
        assert told.not_looked == ("piece.fit",)

    def test_the_same_answer_sooner_comes_first(self):
        slow, quick = sign("piece.slow", seconds=20.0), sign("piece.quick", seconds=5.0)
        knowledge = knowledge_of([slow, quick])
        assert order(knowledge) == ["piece.quick", "piece.slow"]
        assert order(knowledge, price=Price(worth_of(50), 45)) == ["piece.quick", "piece.slow"]

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
        knowledge = knowledge_of([sign("case.fit", STRANGE), damage])
        now = worth_of(50)(read(Piece(), knowledge).belonging, 1.0)
        for cost, moves in ((0.9 * now, True), (100 * now, False)):
            told = Order(read(Piece(), knowledge), knowledge, Price(worth_of(50), cost))
            assert (told.values["case.chip"] > knowledge.weights.asking.moves) is moves
            assert (told.values["case.chip"] > told.values["case.fit"]) is moves

    def test_with_no_price_by_what_is_told_of_process_and_belonging(self):
        rows = {"mirror-one": (0.9, 0.1), "mirror-two": (0.9, 0.1), "glassy": (0.1, 0.9),
                "plain": (0.1, 0.9)}  # fmt: skip
        process = table_check("plate.mirror", {"process": rows})
        fit = sign("piece.fit")
        knowledge = knowledge_of([fit, process])
        reading = read(Piece(), knowledge)
        told, blind = Order(reading, knowledge, Price(worth_of(50), 45)), Order(reading, knowledge)
        assert blind.values["plate.mirror"] > blind.values["piece.fit"]
        assert told.values["plate.mirror"] < told.values["piece.fit"]
        assert blind.values == {name: one.whole for name, one in blind.prospects.items()}


class TestWhy:
    DATED = dated_check(
        "mat.shape",
        [Answer("old", "old", {"": Years(1840, 1842, 1850, 1857, "low")}, 0.3), Answer("b", "b")],
    )

    @pytest.mark.parametrize(
        ("check", "phrase"),
        [
            (sign("piece.fit"), "shows whether image and case started out together"),
            (sign("case.seam", MODERN), "shows whether the case is modern"),
            (DATED, "dates the mat"),
            (damage_check("hinge.tape", {"any": (1, 0, 0, 0)}, (1, 1, 1, 1)),
             "shows how sound the hinge is"),
            (replace(damage_check("glass.crack", {"any": (1, 0, 0, 0)}, (1, 1, 1, 1)), safety=True),
             "checks for active damage to the glass"),
            (table_check("seal.state", {"package": {"undisturbed": (0.9, 0.1), "disturbed":
                                                    (0.2, 0.8)}}, part="preserver"),
             "shows whether the package was opened"),
            (table_check("plate.copy", {"copy": {"no": (0.1, 0.9), "yes": (0.8, 0.2)}}),
             "shows whether the image copies an older one"),
            (table_check("plate.paint", {"altered": {"no": (0.1, 0.9), "yes": (0.8, 0.2)}}),
             "shows whether something was added later"),
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
        first, second = re.fullmatch("tells (.+) from (.+)", told.why).groups()
        families = read(Piece(), knowledge).families
        assert "glassy" in (first, second)
        assert families[first] >= families[second]

    def test_without_a_case_it_is_of_its_period_or_modern(self):
        check = sign("plate.signature", MODERN, kinds=("card",))
        knowledge = knowledge_of([check])
        (told,) = ranked(read(Piece(kind="card"), knowledge), knowledge)
        assert told.why == "shows whether the piece is modern"


class TestShipped:
    @pytest.mark.parametrize("kind", [kind for kind in KINDS if kind not in UNJUDGED])
    def test_every_check_on_offer_has_its_place_and_its_calm_phrase(self, kind):
        knowledge = shipped()
        reading = read(Piece(kind=kind, channel="market"), knowledge)
        chances = {**reading.housings, **reading.processes, **reading.families}
        wanted = [one.id for one in reading.checks if offered(one, reading.piece, chances)]
        for price in (None, Price(worth_of(60), 45)):
            told = ranked(reading, knowledge, price)
            assert told != ()
            assert sorted(one.check for one in told) == sorted(wanted)
            for one in told:
                assert knowledge.checks[one.check].risk != "conservator"
                assert one.gain >= 0
                assert 0 < len(one.why) <= 90
                assert not re.search("fake|authentic|genuine|forg", one.why)

    @pytest.mark.parametrize("family", ["daguerreotype", "ambrotype", "tintype"])
    @pytest.mark.parametrize("channel", ["market", "online"])
    def test_an_examination_from_the_first_look_until_enough_was_seen(self, family, channel):
        """Of a piece in order: the likeliest answer each time, of tests the one of its process."""
        knowledge = shipped()
        piece = Piece(channel=channel, region="us").with_finding("case.material", "thermoplastic")
        price, steps = Price(worth_of(60), 35), []
        while True:
            reading = read(piece, knowledge)
            told = Order(reading, knowledge, price)
            proposals = told.proposals()
            if not proposals or enough(told).enough:
                break
            check = knowledge.checks[proposals[0].check]
            step = step_of(check, knowledge)
            if step != PROCESS:
                # A sign of a modern process is due with the other modern signs.
                due = [knowledge.checks[name] for name in set(told.required) - set(told.cues)]
                assert all(step_of(one, knowledge) != PROCESS for one in due)
            steps.append(step)
            piece = piece.with_finding(check.id, usual_answer(told, check, family))
        assert told.required == ()
        # From photos alone iron and glass can look alike.
        assert reading.families[family] > (0.5 if channel == "market" else 0.2)
        assert steps[0] == PROCESS
        assert steps.index(PICTURE) < steps.index(PARTS)
        assert any(tells_modern(knowledge.checks[name], knowledge) for name in piece.findings)
        assert {"mat", "preserver", "pad"} <= {name.split(".")[0] for name in piece.findings}
        assert len(steps) < 60


def usual_answer(told: Order, check: Check, family: str) -> str:
    """The answer that a piece of a process would likely give, sound and of its period."""
    table = check.table("process")
    if table is None:
        chances = told.prospects[check.id].chances
    else:
        mine = [one for one in told.forecast.frame.processes if one.family == family]
        chances = table.rows[mine[0].id]
    return check.answers[max(range(len(chances)), key=lambda place: chances[place])].id


class TestEnough:
    def test_far_too_dear_or_cheap_needs_no_more_looking(self):
        knowledge = knowledge_of([sign("piece.fit"), sign("piece.other")])
        reading = read(Piece(), knowledge)
        for cost in (5000.0, 1.0):
            price = Price(worth_of(50), cost)
            told = enough(Order(reading, knowledge, price))
            assert told.enough
            assert told.gain < knowledge.weights.asking.rest
            assert set(told.not_looked) == {"piece.fit", "piece.other"}

    def test_a_close_call_is_worth_looking_at(self):
        knowledge = knowledge_of([sign("piece.fit"), sign("piece.other")])
        reading = read(Piece(), knowledge)
        now = worth_of(50)(reading.belonging, 1.0)
        price = Price(worth_of(50), now - 0.2)
        told = enough(Order(reading, knowledge, price))
        assert told.gain >= knowledge.weights.asking.rest
        assert not told.enough

    @pytest.mark.parametrize("seed", range(8))
    def test_the_rest_of_one_check_is_that_check(self, seed):
        # 64 draws or more: the mean must lie within four standard errors of the exact gain.
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
            error = max(0.0, second / price.cost**2 - exact**2) ** 0.5 / 64**0.5
            assert (
                abs(rest_gain(Order(reading, knowledge, price), price) - exact) <= 4 * error + 1e-9
            )

    def test_the_same_piece_gives_the_same_answer(self):
        knowledge = shipped()
        piece = Piece().with_finding("case.material", "thermoplastic")
        reading = read(piece, knowledge)
        price = Price(worth_of(60), 45)
        first, second = (Order(reading, knowledge, price) for _ in range(2))
        assert rest_gain(first, price) == rest_gain(second, price)

    def test_with_no_price_when_no_check_tells_anything(self):
        faint = dict.fromkeys(STRANGE, (0.5, 0.5)) | {"married": (0.52, 0.48)}
        for rows, wanted in ((faint, True), (STRANGE, False)):
            knowledge = knowledge_of([sign("piece.fit", rows)])
            asked = Order(read(Piece(), knowledge), knowledge)
            told = enough(asked)
            assert told.enough is wanted
            assert told.gain == asked.proposals()[0].gain
            assert (told.gain < knowledge.weights.asking.known) is wanted

    def test_nothing_left_to_look_at(self):
        check = sign("piece.fit")
        knowledge = knowledge_of([check])
        reading = read(answered(check), knowledge)
        for price in (None, Price(worth_of(50), 45)):
            assert enough(Order(reading, knowledge, price)) == Enough(True, (), 0.0)

    def test_never_before_what_every_examination_asks_for(self):
        """Far too dear, and still: its process, the picture, mat and pad, one modern sign."""
        steps = TestSteps()
        knowledge, price = steps.knowledge(), Price(worth_of(50), 5000)
        piece = Piece()
        answers = (
            ("plate.depth", "a0"), ("plate.mirror", "a1"), ("plate.spots", "0"),
            ("mat.shape", "early"), ("preserver.form", UNTOLD), ("pad.pile", "other"),
            ("case.seam", "a1"), ("case.bubbles", "a1"),
        )  # fmt: skip
        for check, answer in answers:
            told = Order(read(piece, knowledge), knowledge, price)
            assert enough(told).gain == 0
            assert not enough(told).enough
            assert check in told.required
            piece = piece.with_finding(check, answer)
        told = Order(read(piece, knowledge), knowledge, price)
        assert told.required == ()
        assert enough(told).enough
        assert set(enough(told).not_looked) == {
            "plate.clouds", "case.covering", "case.chip", "hinge.tape",
            "plate.copy",
        }  # fmt: skip


NAMES = ("own.process", "claim.process")


@pytest.mark.parametrize("line", ["sixth ambro leather 45", "ninth tintype 20", "sixth dag 90"])
def test_what_a_line_calls_it_is_asked_no_more(line):
    piece = understand(line, shipped()).piece
    assert "claim.process" in piece.findings
    assert not {one.check for one in ranked(read(piece, shipped()), shipped())} & set(NAMES)


@pytest.mark.parametrize("line", ["sixth ambro leather 45", "sixth dag leather 90"])
def test_a_name_alone_is_not_enough(line):
    """A process that only a word names is tested, or seen, before enough has been seen."""
    piece = understand(line, shipped()).piece
    first = shipped().checks[ranked(read(piece, shipped()), shipped())[0].check]
    assert first.table("process") is not None
    others = {name: one for name, one in shipped().checks.items() if name not in NAMES}
    for name, check in others.items():  # all else is passed over
        if check.table("process") is None and "cased" in check.kinds:
            piece = piece.with_finding(name, "cannot-tell")
    order = Order(read(piece, shipped()), shipped())
    assert order.only_called
    assert order.required
    assert not enough(order).enough
