"""Warnings: when one is raised, how strongly, on what findings, and in what words."""

import random
import re
from dataclasses import replace
from functools import cache

import pytest
from reading.smallworld import damage_check, dated_check, knowledge_of, table_check

from appraise.base.dates import Dating
from appraise.knowledge import load
from appraise.knowledge.records import BELONGING, Answer, Knowledge, Years
from appraise.reading.influence import prior_belonging
from appraise.reading.reading import Reading, read
from appraise.reading.words import word_for
from appraise.records.piece import Inscription, Piece
from appraise.verdict.warning import Warning
from appraise.verdict.warnings import piece_warnings

EARLY, LATE = Years(1840, 1842, 1848, 1850, "high"), Years(1875, 1878, 1884, 1888, "high")


@cache
def shipped() -> Knowledge:
    return load()


def strange(seen: float, name: str = "case.sign", **more):
    rows = dict.fromkeys(BELONGING, (0.02, 0.98)) | {"married": (seen, 1 - seen)}
    return table_check(name, {"belonging": rows}, **more)


def calm(knowledge: Knowledge) -> Knowledge:
    """The same with little belief in a marriage beforehand, and housings of all years."""
    housings = {
        name: replace(one, married={"any": 0.1}, modern_case=0.01, years={})
        for name, one in knowledge.housings.items()
    }
    return replace(knowledge, housings=housings)


def warned(piece: Piece, knowledge: Knowledge) -> tuple[Reading, tuple[Warning, ...]]:
    reading = read(piece, knowledge)
    return reading, piece_warnings(reading, knowledge)


def married(piece: Piece, knowledge: Knowledge) -> Warning | None:
    return next((one for one in warned(piece, knowledge)[1] if one.id == "married"), None)


class TestMarried:
    def test_nothing_found_warns_of_nothing(self):
        assert warned(Piece(), calm(knowledge_of([strange(0.3)])))[1] == ()

    @pytest.mark.parametrize(
        ("seen", "raised", "strong"),
        [(0.03, False, False), (0.12, True, False), (0.95, True, True)],
    )
    def test_it_is_raised_by_ratio_and_chance_together_and_strong_by_either(
        self, seen, raised, strong
    ):
        knowledge = calm(knowledge_of([strange(seen)]))
        piece = Piece().with_finding("case.sign", "a0")
        told = married(piece, knowledge)
        chance = read(piece, knowledge).belonging["married"]
        assert (told is not None) is raised
        if told is None:
            assert chance < knowledge.weights.raise_chance
            return
        assert told.strong is strong
        assert told.strong == (told.ratio >= 30 or chance >= 0.7)
        assert told.word == word_for(told.ratio)

    def test_its_ratio_is_posterior_over_prior_odds(self):
        knowledge = calm(knowledge_of([strange(0.5)]))
        piece = Piece().with_finding("case.sign", "a0")
        told, reading = married(piece, knowledge), read(piece, knowledge)
        prior = prior_belonging(reading)
        odds = reading.belonging["married"] / reading.belonging["together"]
        assert told.ratio == pytest.approx(odds / (prior[1] / prior[0]))
        # Against nothing else having been found, it is the finding's own ratio.
        mean = sum(knowledge.weights.reference[h] * (0.5 if h == "married" else 0.02)
                   for h in BELONGING)  # fmt: skip
        own = (0.97 * 0.5 + 0.03 * mean) / (0.97 * 0.02 + 0.03 * mean)
        assert told.ratio == pytest.approx(own, rel=1e-6)

    def test_it_names_its_findings_innocent_readings_and_where_to_look(self):
        checks = [
            strange(0.5, "case.sign", innocent=("a repair",)),
            strange(0.4, "mat.sign"),
            strange(0.9, "hinge.sign"),
        ]
        piece = Piece().with_finding("case.sign", "a0").with_finding("mat.sign", "a0")
        told = married(piece, calm(knowledge_of(checks)))
        assert told.because == ("case: answer 0", "mat: answer 0")
        assert told.innocent[0] == "a repair"
        assert "re-cased by an early owner" in told.innocent
        assert told.look_next == ("hinge.sign",)


class TestOddOneOut:
    def test_the_part_that_does_not_go_with_the_rest(self):
        def style(name):
            early, late = (
                Answer(w, w, {"": y}, 0.4) for w, y in (("early", EARLY), ("late", LATE))
            )
            return dated_check(name, [early, late, Answer("other", "other")])

        checks = [style("plate.style"), style("mat.style"), style("preserver.style")]
        piece = Piece().with_finding("plate.style", "early").with_finding("mat.style", "early")
        piece = piece.with_finding("preserver.style", "late")
        knowledge = calm(knowledge_of(checks))
        reading, found = warned(piece, knowledge)
        (told,) = (one for one in found if one.id == "odd-one-out")
        assert reading.odd_one_out.part == "preserver"
        assert told.because == ("preserver: late",)
        assert told.says.startswith("the preserver does not go with the rest (exchanged: ")
        assert told.ratio == pytest.approx(reading.exchanged[0].ratio)
        quiet = warned(piece.with_finding("preserver.style", "early"), knowledge)[1]
        assert all(one.id != "odd-one-out" for one in quiet)


class TestDamageAndAdditions:
    def test_a_repair_with_tape_and_decay_that_goes_on(self):
        def made(name, **more):
            check = damage_check(name, {"any": (1, 0, 0, 0)}, (1, 0.9, 0.8, 0.7))
            return replace(check, defect=replace(check.defect, **more))

        checks = [
            made("hinge.tape", non_archival=True, never="Do not peel it."),
            made("glass.weep", stability=("stable", "active", "active", "active"), do="Leave it."),
        ]
        piece = Piece().with_finding("hinge.tape", "1").with_finding("glass.weep", "2")
        found = {one.id: one for one in warned(piece, knowledge_of(checks))[1]}
        assert found["repair-not-archival"].says.endswith("not an archival repair. Do not peel it.")
        assert not found["repair-not-archival"].strong
        assert found["active-decay"].says == "glass.weep: active, it will get worse. Leave it."
        assert found["active-decay"].strong
        assert found["active-decay"].because == ("step 2",)

    def test_only_findings_that_speak_for_an_addition_are_named(self):
        rows = {"no": (0.02, 0.98), "yes": (0.6, 0.4)}
        checks = [table_check("plate.paint", {"altered": rows}),
                  table_check("case.ink", {"altered": rows})]  # fmt: skip
        piece = Piece().with_finding("plate.paint", "a0").with_finding("case.ink", "a1")
        found = warned(piece, knowledge_of(checks))[1]
        (told,) = (one for one in found if one.id == "altered")
        assert told.because == ("answer 0",)


def test_strong_warnings_come_first():
    rng = random.Random(4)
    for _ in range(15):
        piece = _shipped_piece(rng)
        found = warned(piece, shipped())[1]
        keys = [(not one.strong, -one.ratio) for one in found]
        assert keys == sorted(keys)


def test_no_warning_says_more_than_evidence_can():
    rng = random.Random(11)
    seen = set()
    for _ in range(60):
        for one in warned(_shipped_piece(rng), shipped())[1]:
            seen.add(one.id)
            text = " ".join((one.says, *one.because, *one.innocent))
            assert not re.search(
                r"\b(fakes?|faked|authentic\w*|genuine|forger\w*)\b", text, re.I
            ), text
            assert one.word in ("", word_for(one.ratio) if one.ratio else "")
            for name in one.look_next:
                assert name in shipped().checks
    assert {"married", "reproduction", "altered", "active-decay"} <= seen


def _shipped_piece(rng: random.Random) -> Piece:
    piece = Piece(region="us")
    for _ in range(25):
        able = [c for c in read(piece, shipped()).checks if c.id not in piece.findings]
        if not able:  # what lies there is no photograph
            break
        check = rng.choice(able)
        piece = piece.with_finding(check.id, rng.choice(check.answers).id)
    return piece


def decisive_answers():
    """Every answer by which a decisive check tells modern work, seen in hand."""
    for check in shipped().checks.values():
        table = check.table("belonging") if check.decisive else None
        for place, answer in enumerate(check.answers if table else ()):
            modern = max(table.rows[state][place] for state in BELONGING[2:])
            if modern >= shipped().weights.strong_ratio * table.rows["together"][place]:
                yield check.id, answer.id


@pytest.mark.parametrize(("check", "answer"), list(decisive_answers()))
def test_a_decisive_sign_in_hand_warns_whatever_else_speaks_for_the_period(check, answer):
    knowledge = shipped()
    kind = next(kind for kind in knowledge.checks[check].kinds if kind in ("cased", "card"))
    sound = Piece(kind=kind)
    for other in read(sound, knowledge).checks:
        table = other.table("belonging")
        if table is not None and other.id != check:
            row = table.rows["together"]
            modern = [max(table.rows[state][n] for state in BELONGING[2:]) for n in range(len(row))]
            best = max(range(len(row)), key=lambda n: row[n] / modern[n])
            sound = sound.with_finding(other.id, other.answers[best].id, "in-hand")
    piece = sound.with_finding(check, answer, "in-hand")
    assert "reproduction" in {one.id for one in warned(piece, knowledge)[1]}
    assert "reproduction" not in {one.id for one in warned(sound, knowledge)[1]}


@pytest.mark.parametrize(
    ("text", "told"),
    [("April 3d 1859", True), ("Uncle Ned, aged 4, 1861", True), ("for Ann", False),
     ("No. 1859-2", True), ("4/3/1859", True), ("1700", False), ("21859", False)],
)  # fmt: skip
def test_a_year_in_the_writing_is_asked_for_as_a_date(text, told):
    piece = Piece(inscription=Inscription(text, where="backing"))
    found = [one for one in piece_warnings(read(piece, shipped()), shipped())
             if one.id == "written-year-not-used"]  # fmt: skip
    assert bool(found) == told
    for one in found:
        assert "date written" in one.says
        assert "where:" in one.says


def test_a_year_that_is_recorded_as_a_date_is_not_asked_for():
    one = Inscription("April 3d 1859", Dating.parse("1859-04-03"), "backing")
    found = piece_warnings(read(Piece(inscription=one), shipped()), shipped())
    assert "written-year-not-used" not in {each.id for each in found}
