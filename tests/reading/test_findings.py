"""What a finding may and may not do: beliefs, groups, dates, and the order of findings."""

import random
from dataclasses import replace
from functools import cache
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from reading.smallworld import (
    dated_check,
    knowledge_of,
    random_knowledge,
    random_piece,
    table_check,
    weights,
)
from thorough import tries

from appraise.knowledge import load
from appraise.knowledge.records import BELONGING, KNOWN, YEARS, Answer, Knowledge, Years
from appraise.reading.evidence import Evidence, belief, gather
from appraise.reading.factors import answer_years, dated_rows, state_rows
from appraise.reading.frame import frame_of
from appraise.reading.influence import influences
from appraise.reading.reading import read
from appraise.records.piece import UNTOLD, Finding, Piece

SEEDS = st.integers(0, 10_000)
SIGNS = {"together": (0.1, 0.9), "married": (0.6, 0.4), "modern-case": (0.3, 0.7),
         "modern-image": (0.2, 0.8), "all-modern": (0.2, 0.8)}  # fmt: skip
EARLY = Years(1840, 1842, 1850, 1857, "low")
LATE = Years(1857, 1859, 1867, 1874, "medium")


@cache
def shipped() -> Knowledge:
    return load()


def sign(name: str = "piece.sign", rows=SIGNS, **more):
    return table_check(name, {"belonging": rows}, **more)


def style(name: str, **more):
    answers = [
        Answer("early", "early", {"": EARLY}, 0.3),
        Answer("late", "late", {"us": LATE}, 0.4),
        Answer("renewed", "renewed", {}, 0.05, undates=True),
        Answer("other", "another"),
    ]
    return dated_check(name, answers, **more)


def found(check: str, answer: str, known: str = "in-hand", admitted: bool = False) -> Piece:
    return Piece(findings={check: Finding(check, answer, known, admitted)})


def believed(one: Evidence, knowledge: Knowledge) -> float:
    return belief(one.check, one.answer, one.finding, one.leads, knowledge.weights)


def shift(piece: Piece, knowledge: Knowledge, state: str = "married") -> float:
    """How many nats the odds of a state against "together" move by a piece's findings."""

    def odds(one: Piece) -> float:
        told = read(one, knowledge).belonging
        return np.log(told[state] / told["together"])

    return odds(piece) - odds(replace(piece, findings={}))


class TestOrder:
    @given(SEEDS, st.randoms(use_true_random=False))
    @tries(30)
    def test_the_order_of_findings_does_not_matter(self, seed, shuffler):
        rng = random.Random(seed)
        knowledge = random_knowledge(rng)
        piece = random_piece(rng, knowledge)
        items = list(piece.findings.items())
        shuffler.shuffle(items)
        other = replace(piece, findings=dict(items))
        first, second = read(piece, knowledge), read(other, knowledge)
        assert first.belonging == second.belonging
        assert first.year_weights == second.year_weights
        assert first.exchanged == second.exchanged
        assert first.processes == second.processes

    @given(SEEDS)
    @tries(25)
    def test_probabilities_sum_to_one(self, seed):
        rng = random.Random(seed)
        knowledge = random_knowledge(rng)
        reading = read(random_piece(rng, knowledge), knowledge)
        for chances in (reading.belonging, reading.processes, reading.families, reading.housings):
            assert sum(chances.values()) == pytest.approx(1, abs=1e-12)
        assert sum(reading.year_weights) == pytest.approx(1, abs=1e-12)


class TestBelief:
    def test_a_seller_tells_less_than_a_photo_and_a_photo_less_than_the_hand(self):
        knowledge = knowledge_of([sign()])
        for answer in ("a0", "a1"):
            moved = [
                abs(shift(found("piece.sign", answer, known), knowledge))
                for known in ("seller", "photo", "in-hand")
            ]
            assert 0 < moved[0] < moved[1] < moved[2]

    def test_what_must_be_done_is_hard_to_tell_from_a_photo(self):
        knowledge = knowledge_of([sign(sort="test")])
        moved = [
            shift(found("piece.sign", "a0", known), knowledge)
            for known in ("photo", "seller", "in-hand")
        ]
        assert 0 < moved[0] < moved[1] < moved[2]

    def test_no_damage_is_believed_less_than_damage(self):
        check = sign()
        sound = replace(check.answers[1], absence=True)
        knowledge = knowledge_of([replace(check, answers=(check.answers[0], sound))])
        plain = knowledge_of([check])
        for known in KNOWN:
            piece = found("piece.sign", "a1", known)
            assert 0 < -shift(piece, knowledge) < -shift(piece, plain)
            damage = found("piece.sign", "a0", known)
            assert shift(damage, knowledge) == pytest.approx(shift(damage, plain))

    def test_an_admission_weighs_more_than_praise(self):
        knowledge = knowledge_of([sign()])
        said = shift(found("piece.sign", "a0", "seller"), knowledge)
        admitted = shift(found("piece.sign", "a0", "seller", admitted=True), knowledge)
        seen = shift(found("piece.sign", "a0", "photo"), knowledge)
        assert said < admitted
        assert admitted == pytest.approx(seen, rel=0.15)

    def test_shipped_reliabilities_keep_that_order(self):
        trust = shipped().weights.reliability
        assert trust["seller"]["form"] < trust["photo"]["form"] < trust["in-hand"]["form"]
        assert trust["seller"]["absence"] < trust["photo"]["absence"] < trust["in-hand"]["absence"]
        assert trust["photo"]["test"] < trust["seller"]["test"] < trust["in-hand"]["test"]
        assert trust["seller"]["interest"] > trust["seller"]["form"]

    @given(SEEDS)
    @tries(30)
    def test_a_finding_never_moves_states_against_its_own_table(self, seed):
        rng = random.Random(seed)
        full = random_knowledge(rng)
        piece = random_piece(rng, full)
        for check in full.checks.values():
            if [table.over for table in check.tables] != ["belonging"] or check.group:
                continue
            # With a slip some rows are believed outright and others are not.
            if check.slip:
                continue
            without = piece.without_finding(check.id)
            before = read(without, full).belonging
            answer = rng.choice(check.answers).id
            row = check.tables[0].rows
            place = check.index(answer)
            after = read(without.with_finding(check.id, answer), full).belonging
            ordered = sorted(BELONGING, key=lambda state: row[state][place])
            moved = [after[state] / before[state] for state in ordered]
            assert all(low <= high * (1 + 1e-9) for low, high in pairwise(moved))

    def test_what_was_not_told_changes_nothing(self):
        knowledge = knowledge_of([sign(), style("mat.shape")])
        bare = read(Piece(), knowledge)
        for check in knowledge.checks:
            passed = read(found(check, UNTOLD), knowledge)
            assert passed.evidence == ()
            assert passed.belonging == bare.belonging
            assert passed.year_weights == bare.year_weights
        odd = found("piece.gone", "a0").with_finding("piece.sign", "no-such")
        assert read(odd, knowledge).belonging == bare.belonging


class TestGroups:
    R = weights().reliability["in-hand"]["form"]

    def bound(self, r: float) -> float:
        """The ratio of married over together that the table allows at a belief."""
        mean = sum(weights().reference[state] * SIGNS[state][0] for state in BELONGING)
        seen = {state: r * SIGNS[state][0] + (1 - r) * mean for state in BELONGING}
        return float(np.log(seen["married"] / seen["together"]))

    def test_a_second_view_of_one_fact_adds_what_the_rest_allows(self):
        first, second = sign("piece.first", group="fact"), sign("piece.second", group="fact")
        knowledge = knowledge_of([first, second])
        one = found("piece.first", "a0")
        both = one.with_finding("piece.second", "a0")
        assert shift(one, knowledge) == pytest.approx(self.bound(self.R))
        added = shift(both, knowledge) - shift(one, knowledge)
        assert added == pytest.approx(self.bound(0.3 * self.R))
        assert 0 < added < 0.5 * shift(one, knowledge)

    def test_the_stronger_view_leads_whichever_came_first(self):
        rows = {**dict.fromkeys(BELONGING, (0.4, 0.6)), "together": (0.3, 0.7)}
        weak = table_check("piece.weak", {"belonging": rows}, group="fact")
        knowledge = knowledge_of([weak, sign("piece.strong", group="fact")])
        piece = found("piece.weak", "a0").with_finding("piece.strong", "a0")
        beliefs = {one.id: believed(one, knowledge) for one in gather(piece, knowledge)}
        assert beliefs == pytest.approx({"piece.strong": self.R, "piece.weak": 0.3 * self.R})

    def test_ties_go_to_the_order_of_the_files(self):
        checks = [sign("piece.b", group="fact"), sign("piece.a", group="fact")]
        piece = found("piece.a", "a0").with_finding("piece.b", "a0")
        knowledge = knowledge_of(checks)
        beliefs = {one.id: believed(one, knowledge) for one in gather(piece, knowledge)}
        assert beliefs == pytest.approx({"piece.b": self.R, "piece.a": 0.3 * self.R})

    def test_views_of_different_facts_count_in_full(self):
        knowledge = knowledge_of([sign("piece.first"), sign("piece.second")])
        one = found("piece.first", "a0")
        both = one.with_finding("piece.second", "a0")
        assert shift(both, knowledge) == pytest.approx(2 * shift(one, knowledge))


class TestWhatCounts:
    def test_fit_and_seal_say_nothing_of_a_conserved_piece_and_stay_on_its_record(self):
        fit = sign("piece.fit", fit=True, group="fact")
        style_of_fit = style("mat.shape", fit=True)
        knowledge = knowledge_of([fit, style_of_fit, sign("piece.other", group="fact")])
        bare = replace(found("piece.other", "a0"), conserved=True)
        piece = bare.with_finding("piece.fit", "a0").with_finding("mat.shape", "early")
        kept = {one.id: one for one in gather(piece, knowledge)}
        assert set(kept) == {"piece.fit", "mat.shape", "piece.other"}
        assert [name for name, one in kept.items() if one.silent] == ["piece.fit", "mat.shape"]
        # It leads no group: what speaks of the same fact enters in full.
        assert kept["piece.other"].leads
        told, want = read(piece, knowledge), read(bare, knowledge)
        assert told.belonging == want.belonging
        assert told.year_weights == want.year_weights
        assert {one.check for one in told.timeline} == {"mat.shape"}
        assert set(influences(told, knowledge)) == {"piece.other"}
        asked = {check.id for check in told.checks}
        assert asked == {"piece.fit", "mat.shape", "piece.other"}
        spoken = read(replace(piece, conserved=False), knowledge)
        assert spoken.belonging != want.belonging
        assert not any(one.silent for one in spoken.evidence)

    @pytest.mark.parametrize(
        ("answer", "counts"), [("a0", True), ("a1", False), (UNTOLD, True), ("", True)]
    )
    def test_a_check_that_makes_no_sense_after_another_answer(self, answer, counts):
        follower = sign("piece.follower", when={"piece.leader": ("a0",)})
        knowledge = knowledge_of([sign("piece.leader"), follower])
        piece = found("piece.follower", "a0")
        if answer:
            piece = piece.with_finding("piece.leader", answer)
        ids = [one.id for one in gather(piece, knowledge)]
        assert ("piece.follower" in ids) is counts

    def test_checks_of_another_kind_are_left_out(self):
        knowledge = knowledge_of([sign("piece.card", kinds=("card",))])
        assert gather(found("piece.card", "a0"), knowledge) == ()


class TestImplied:
    """Answers from which answers of other checks follow."""

    MAGNET = table_check("plate.magnet", {"belonging": SIGNS})
    COLOUR = replace(
        sign("plate.colour"),
        answers=(Answer("a0", "grey", implies={"plate.magnet": "a0"}), Answer("a1", "brown")),
    )

    def knowledge(self) -> Knowledge:
        return knowledge_of([self.MAGNET, self.COLOUR])

    @pytest.mark.parametrize("asked", ["", UNTOLD])
    def test_it_counts_as_the_answer_itself_where_nobody_asked(self, asked):
        piece = found("plate.colour", "a0", "photo")
        piece = piece.with_finding("plate.magnet", asked) if asked else piece
        kept = {one.id: one.finding for one in gather(piece, self.knowledge())}
        assert kept["plate.magnet"] == Finding("plate.magnet", "a0", "photo")
        both = piece.with_finding("plate.magnet", "a0", "photo")
        want = read(both, self.knowledge()).belonging
        assert read(piece, self.knowledge()).belonging == want
        other = found("plate.colour", "a1", "photo")
        assert [one.id for one in gather(other, self.knowledge())] == ["plate.colour"]

    def test_what_was_asked_stands(self):
        piece = found("plate.colour", "a0").with_finding("plate.magnet", "a1")
        kept = {one.id: one.finding.answer for one in gather(piece, self.knowledge())}
        assert kept == {"plate.magnet": "a1", "plate.colour": "a0"}

    def test_an_admission_implies_as_an_admission(self):
        piece = found("plate.colour", "a0", "seller", admitted=True)
        implied = next(one for one in gather(piece, self.knowledge()) if one.id == "plate.magnet")
        assert (implied.finding.known, implied.finding.admitted) == ("seller", True)


RARE = {"together": (0.001, 0.999), "married": (0.001, 0.999), "modern-case": (0.001, 0.999),
        "modern-image": (0.4, 0.6), "all-modern": (0.4, 0.6)}  # fmt: skip


class TestSoftAndSure:
    MEAN = sum(weights().reference[state] * row[0] for state, row in RARE.items())

    def ratio(self, check, answer: str = "a0", known: str = "in-hand") -> float:
        piece = found(check.id, answer, known)
        return float(np.exp(shift(piece, knowledge_of([check]), "modern-image")))

    def seen(self, r: float, place: int = 0) -> float:
        """Modern over together where a table is believed with r."""
        mean = self.MEAN if place == 0 else 1 - self.MEAN
        high, low = (
            r * RARE[state][place] + (1 - r) * mean for state in ("modern-image", "together")
        )
        return high / low

    @pytest.mark.parametrize(("known", "r"), [("in-hand", 0.3), ("photo", 0.3), ("seller", 0.3)])
    def test_an_answer_that_names_no_style_is_believed_little(self, known, r):
        plain = sign("piece.sign", RARE)
        soft = replace(plain, answers=(replace(plain.answers[0], unnamed=True), plain.answers[1]))
        assert self.ratio(soft, "a0", known) == pytest.approx(self.seen(r))
        assert self.ratio(plain, "a0", known) > self.ratio(soft, "a0", known)
        # The other answer is believed as ever.
        assert self.ratio(soft, "a1", known) == pytest.approx(self.ratio(plain, "a1", known))

    def test_nor_more_where_it_would_be_believed_less_still(self):
        soft = sign("piece.sign", RARE)
        soft = replace(
            soft, answers=(soft.answers[0], replace(soft.answers[1], unnamed=True, absence=True))
        )
        known = weights().reliability["seller"]["absence"]
        assert known <= weights().unnamed
        assert self.ratio(soft, "a1", "seller") == pytest.approx(self.seen(known, 1))

    @pytest.mark.parametrize("known", ["photo", "seller"])
    def test_a_decisive_sign_counts_as_its_table_says_in_hand_alone(self, known):
        plain, sure = sign("piece.sign", RARE), sign("piece.sign", RARE, decisive=True)
        assert self.ratio(sure) == pytest.approx(0.4 / 0.001)
        assert self.ratio(plain) == pytest.approx(self.seen(0.97))
        assert self.ratio(plain) < 0.6 * self.ratio(sure)
        assert self.ratio(sure, "a0", known) == pytest.approx(self.ratio(plain, "a0", known))

    def test_in_hand_the_impossible_stays_as_rare_as_the_slip(self):
        # Together, "a0" is never met but by a slip of one in a thousand.
        slip = sign("piece.sign", RARE, slip=0.001)
        assert self.ratio(slip) > self.seen(0.97)
        frame = frame_of(knowledge_of([slip]), "cased", "us")
        told = dict(zip(BELONGING, state_rows(frame, slip.id, "in-hand", False, True).T,
                        strict=True))  # fmt: skip
        for state, row in told.items():
            assert row.sum() == pytest.approx(1)
            if RARE[state][0] == 0.001:
                assert tuple(row) == pytest.approx(RARE[state])
            else:
                # Where it is possible, eyes that err count as ever.
                assert row[0] == pytest.approx(0.97 * RARE[state][0] + 0.03 * self.MEAN)
        photo = state_rows(frame, slip.id, "photo", False, True)
        plain = frame_of(knowledge_of([sign("piece.sign", RARE)]), "cased", "us")
        np.testing.assert_allclose(photo, state_rows(plain, slip.id, "photo", False, True))

    def test_neither_holds_of_what_follows_another_of_its_group(self):
        lead = sign("piece.lead", RARE, group="fact", strength=900.0)
        for more in ({"decisive": True}, {"slip": 0.001}):
            check = sign("piece.sign", RARE, group="fact", **more)
            knowledge = knowledge_of([lead, check])
            one = found("piece.lead", "a0")
            both = one.with_finding("piece.sign", "a0")
            added = shift(both, knowledge, "modern-image") - shift(one, knowledge, "modern-image")
            assert np.exp(added) == pytest.approx(self.seen(0.3 * 0.97))


class TestDates:
    CHECK = style("preserver.form")

    def line(self, answer: str, region: str = "us") -> np.ndarray:
        frame = frame_of(knowledge_of([self.CHECK]), "cased", region)
        return answer_years(frame, self.CHECK.id)[self.CHECK.index(answer)]

    def test_an_answer_is_its_share_times_its_floored_years(self):
        # Flanks (y - E + 1) / (F - E + 1) and the mirror, over a floor of .15 for low confidence.
        line = dict(zip(YEARS, self.line("early"), strict=True))
        for year, height in ((1839, 0), (1840, 1 / 3), (1841, 2 / 3), (1842, 1), (1850, 1),
                             (1851, 7 / 8), (1857, 1 / 8), (1858, 0)):  # fmt: skip
            assert line[year] == pytest.approx(0.3 * (0.15 + 0.85 * height))

    def test_the_rest_goes_to_the_answer_without_a_share(self):
        total = sum(self.line(answer) for answer in ("early", "late", "renewed", "other"))
        np.testing.assert_allclose(total, 1, atol=1e-12)
        assert self.line("other").max() > self.line("other").min()

    def test_years_are_not_brought_to_one_year_by_year(self):
        # In 1840 only "early" is in use, and yet it is no likelier than in 1845.
        line = dict(zip(YEARS, self.line("early"), strict=True))
        assert line[1840] < line[1842] == line[1845]

    def test_a_region_that_is_not_named_takes_the_mixture_of_those_that_are(self):
        answers = [
            Answer("old", "old", {"us": EARLY, "gb": LATE}, 0.5),
            Answer("other", "another"),
        ]
        check = dated_check("mat.shape", answers)
        knowledge = knowledge_of([check])

        def line(region: str) -> np.ndarray:
            return answer_years(frame_of(knowledge, "cased", region), check.id)[0]

        # Shares of pieces by region in the test's settings: us .6, gb .25.
        mixture = (0.6 * line("us") + 0.25 * line("gb")) / 0.85
        np.testing.assert_allclose(line("unknown"), mixture, atol=1e-12)
        np.testing.assert_allclose(line("eu"), mixture, atol=1e-12)
        assert abs(line("us") - line("gb")).max() > 0.1

    def test_one_low_finding_never_rules_a_year_out(self):
        frame = frame_of(knowledge_of([self.CHECK]), "cased", "us")
        lines = answer_years(frame, self.CHECK.id)
        for line in lines:
            assert max(line) / min(line) <= 1 / 0.04 + 1e-9
        assert max(lines[0]) / min(lines[0]) == pytest.approx(1 / 0.15)
        # Eyes that err make it less, never more.
        for line, seen in zip(
            lines, dated_rows(frame, self.CHECK.id, "photo", False, True), strict=True
        ):
            assert max(seen) / min(seen) <= max(line) / min(line) + 1e-9

    def test_missing_or_renewed_parts_date_nothing(self):
        knowledge = knowledge_of([self.CHECK, style("preserver.make"), style("mat.shape")])
        bare = found("mat.shape", "late")
        want = read(bare, knowledge)
        renewed = bare.with_finding("preserver.form", "renewed")
        dated = renewed.with_finding("preserver.make", "early")
        for piece in (renewed, dated):
            told = read(piece, knowledge)
            assert told.belonging == want.belonging
            assert told.year_weights == want.year_weights
            assert [one.part for one in told.exchanged] == ["mat"]
        kept = read(bare.with_finding("preserver.make", "early"), knowledge)
        assert kept.year_weights != want.year_weights

    @pytest.mark.parametrize("region", ["us", "gb", "eu", "au", "unknown"])
    def test_shipped_answers_sum_to_one_in_every_year(self, region):
        knowledge = shipped()
        frame = frame_of(knowledge, "cased", region)
        dated = [check for check in knowledge.checks.values() if check.dates]
        assert len(dated) > 20
        for check in dated:
            lines = answer_years(frame, check.id)
            np.testing.assert_allclose(np.sum(lines, axis=0), 1, atol=1e-9, err_msg=check.id)
            assert np.min(lines) >= 0, check.id


class TestAFactWeighedOnce:
    """What a piece is called is one fact, whether its holder or its seller says it."""

    PAIR = ("own.process", "claim.process")

    def test_the_groups_name_checks(self):
        groups = {check.group for check in shipped().checks.values()}
        assert set(shipped().weights.once) <= groups
        assert {shipped().checks[name].group for name in self.PAIR} == {"name"}

    @pytest.mark.parametrize("word", ["daguerreotype", "ambrotype", "tintype"])
    @pytest.mark.parametrize("known", KNOWN)
    def test_a_sellers_word_adds_nothing_to_ones_own(self, word: str, known: str):
        own = found("own.process", word)
        both = own.with_finding("claim.process", word, known)
        alone, together = (read(piece, shipped()).families for piece in (own, both))
        assert together == pytest.approx(alone, rel=1e-4)

    def test_nor_does_one_that_says_otherwise(self):
        own = found("own.process", "ambrotype")
        both = own.with_finding("claim.process", "tintype", "seller")
        alone, together = (read(piece, shipped()).families for piece in (own, both))
        assert together == pytest.approx(alone, rel=1e-4)
