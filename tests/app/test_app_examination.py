"""The state of an examination: answers, steps back, jumps, and questions that come and go."""

from dataclasses import replace
from datetime import date

import pytest
from app.kit import app_on, begin, settled
from app.kit import shown as on_screen

from appraise.app.examine.parts import states_of
from appraise.app.examine.question import cautions_of
from appraise.app.examine.rooms import rooms_for
from appraise.app.examine.screen import left
from appraise.app.examine.shown import Shown
from appraise.app.examine.state import Examination, of_another_kind
from appraise.app.lines import length, words_of
from appraise.app.marks import DOUBT, FINE, ORDER
from appraise.knowledge.records import UNJUDGED
from appraise.records.piece import UNTOLD, Piece
from appraise.verdict import judge, next_steps

DAY = date(2026, 11, 7)


@pytest.fixture
def exam(knowledge):
    """An examination whose first question is asked."""
    made = Examination(Piece(), knowledge, "draft")
    made.judged(0, judge(made.piece, knowledge, None, DAY))
    assert made.waited(0)
    return made


def judged(exam):
    """The examination after a verdict on the piece as it stands."""
    assert exam.judged(exam.turn, judge(exam.piece, exam.knowledge, None, DAY))
    return exam


def test_an_answer_is_kept_and_the_next_open_question_asked(exam):
    at = exam.at
    assert exam.answer(1)
    assert exam.piece.found(at) == exam.knowledge.checks[at].answers[0].id
    judged(exam)
    assert exam.waited(exam.turn)
    assert exam.at != at
    assert exam.at not in exam.piece.findings


def test_nothing_can_be_answered_while_the_next_question_is_chosen(exam, knowledge):
    at = exam.at
    exam.answer(1)
    after = exam.piece
    assert not exam.asked
    assert exam.at == at
    assert not exam.answer(1)
    assert not exam.untold()
    assert exam.piece == after
    assert judged(exam).at == at
    assert not exam.asked
    steps = next_steps(exam.verdict, knowledge)
    assert exam.planned(exam.turn, steps)
    assert exam.asked
    assert exam.at == steps.proposals[0].check
    assert exam.why == steps.proposals[0].why


def test_a_choice_that_takes_too_long_is_made_by_what_is_known(exam, knowledge):
    exam.answer(1)
    turn = exam.turn
    judged(exam)
    assert not exam.waited(turn - 1)
    assert exam.waited(turn)
    at = exam.at
    assert exam.asked
    assert not exam.waited(turn)
    assert exam.planned(turn, next_steps(exam.verdict, knowledge))
    assert exam.at == at


def test_a_number_without_an_answer_does_nothing(exam):
    before = exam.piece, exam.at
    assert not exam.answer(9)
    assert not exam.answer(0)
    assert (exam.piece, exam.at) == before


def test_any_answer_can_be_revised(exam):
    exam.go("mat.shape")
    exam.answer(1)
    exam.go("mat.shape")
    exam.answer(2)
    assert exam.piece.found("mat.shape") == exam.knowledge.checks["mat.shape"].answers[1].id
    assert len(exam.piece.findings) == 1


def test_cannot_tell_is_no_finding_of_weight(exam, knowledge):
    exam.go("plate.magnet")
    exam.untold()
    assert exam.piece.found("plate.magnet") == UNTOLD
    assert judge(exam.piece, knowledge, None, DAY).reading.belonging == pytest.approx(
        exam.verdict.reading.belonging
    )


def test_steps_are_taken_back_and_made_again_at_their_place(exam):
    assert not exam.undo()
    start = exam.piece
    exam.go("mat.shape")
    exam.answer(1)
    exam.go("pad.pile")
    exam.answer(1)
    both = exam.piece
    assert exam.undo()
    assert exam.at == "pad.pile"
    assert exam.undo()
    assert (exam.piece, exam.at) == (start, "mat.shape")
    assert not exam.undo()
    assert exam.redo()
    assert exam.redo()
    assert exam.piece == both
    assert not exam.redo()
    exam.undo()
    exam.answer(2)
    assert not exam.redo()


def test_how_things_are_known_goes_with_the_answers_to_come(exam):
    exam.turn_known()
    exam.go("mat.shape")
    exam.answer(1)
    assert exam.piece.findings["mat.shape"].known == "photo"
    exam.turn_known()
    exam.turn_known()
    assert exam.how_known == "in-hand"


def test_a_verdict_of_an_earlier_state_is_dropped(exam, knowledge):
    old, turn = exam.verdict, exam.turn
    exam.answer(1)
    assert not exam.judged(turn, old)
    assert not exam.planned(turn, next_steps(old, knowledge))
    assert exam.judged(exam.turn, judge(exam.piece, knowledge, None, DAY))


def test_a_question_that_was_chosen_stays(exam, knowledge):
    exam.step(1)
    at = exam.at
    exam.planned(exam.turn, next_steps(exam.verdict, knowledge))
    assert exam.at == at


def test_a_question_that_lost_its_sense_is_not_asked(exam, knowledge):
    name = next(c.id for c in knowledge.checks.values() if "case.material" in c.when)
    exam.go("case.material")
    sensible = knowledge.checks[name].when["case.material"]
    place = next(n for n, a in enumerate(exam.check.answers, 1) if a.id not in sensible)
    assert exam.answer(place)
    judged(exam)
    exam.planned(exam.turn, next_steps(exam.verdict, knowledge))
    assert exam.at != name
    assert exam.at in {check.id for check in exam.checks}


def test_the_answer_given_last_is_asked_again_and_then_the_one_before(exam):
    assert not exam.back()
    for name in ("mat.shape", "pad.pile", "plate.magnet"):
        exam.go(name)
        exam.answer(1)
    assert exam.back()
    assert (exam.at, exam.asked) == ("plate.magnet", True)
    assert exam.back()
    assert exam.at == "pad.pile"
    exam.answer(2)
    assert exam.piece.found("pad.pile") == exam.knowledge.checks["pad.pile"].answers[1].id
    exam.go_best()
    assert exam.back()
    assert exam.at == "pad.pile"  # the one given last, though it was asked before another
    assert exam.back()
    assert exam.at == "plate.magnet"
    assert exam.back()
    assert exam.at == "mat.shape"
    assert not exam.back()
    assert exam.at == "mat.shape"


def test_checks_are_gone_through_round_and_round(exam):
    names = [check.id for check in exam.checks]
    exam.go(names[-1])
    exam.step(1)
    assert exam.at == names[0]
    exam.step(-1)
    assert exam.at == names[-1]
    parts = exam.parts
    exam.go(names[0])
    exam.step_part(1)
    assert exam.check.part == parts[1]
    exam.step_part(-1)
    assert exam.check.part == parts[0]


def test_typing_narrows_the_answers_and_digits_count_what_is_left(exam):
    exam.go("case.material")
    exam.typed = "thermo"
    assert [one.id for one in exam.answers] == ["thermoplastic"]
    exam.answer(1)
    assert exam.piece.found("case.material") == "thermoplastic"
    assert exam.typed == ""


def test_another_kind_keeps_only_what_is_asked_of_it(knowledge):
    piece = (
        Piece().with_finding("case.material", "thermoplastic").with_finding("plate.magnet", "no")
    )
    card = of_another_kind(piece, "card", knowledge)
    assert card.kind == "card"
    assert all("card" in knowledge.checks[name].kinds for name in card.findings)


def clicked(rows, act):
    """The words that a click on does something."""
    told = (words for row in rows for words, role in row if role.endswith(f"@{act}"))
    return " ".join("".join(told).split())


@pytest.mark.parametrize("kind", ["cased", "loose-plate", "card", "lantern-slide", "cyanotype"])
def test_every_question_fits_a_small_terminal_with_how_to_look(knowledge, kind):
    """At 80 x 24 question, answers, how to look and what the first caution says to do are there."""
    exam = Examination(replace(Piece(), kind=kind), knowledge, "draft")
    exam.judged(0, judge(exam.piece, knowledge, None, DAY))
    shown = Shown(FINE, tuple(knowledge.parts), False, False, {})
    rooms = rooms_for(80, 24)
    width = rooms.question - 3
    for check in exam.checks:
        exam.go(check.id)
        rows = left(exam, shown, rooms, width, rooms.rows)
        assert len(rows) == rooms.rows, check.id
        assert all(length(row) <= width for row in rows), check.id
        flat = " ".join(" ".join(words_of(row) for row in rows).split())
        assert " ".join(check.ask.split()) in flat, check.id
        assert not check.how or f"How: {check.how}" in flat, check.id
        for number, answer in enumerate(check.answers[:9], start=1):
            assert clicked(rows, f"answer({number})") == f"{number} {answer.says}", check.id
        care = cautions_of(exam)
        assert not care or care[0].partition(". ")[0] in flat, check.id
        assert len(care) < 2 or f"{len(care) - 1} more: c" in flat, check.id


@pytest.mark.parametrize("size", [(80, 24), (120, 40), (60, 20), (160, 45)])
@pytest.mark.parametrize("kind", UNJUDGED)
def test_a_kind_without_checks_is_shown_and_takes_every_step(knowledge, kind, size):
    exam = Examination(Piece(kind=kind), knowledge, "draft")
    shown = Shown(FINE, tuple(knowledge.parts), True, True, {})
    rooms = rooms_for(*size)
    for _ in range(2):
        rows = list(map(words_of, left(exam, shown, rooms, rooms.question - 3, rooms.rows)))
        assert len(rows) == rooms.rows
        assert "no checks for this kind" in " ".join(" ".join(rows).split())
        exam.judged(exam.turn, judge(exam.piece, knowledge, None, DAY))
        exam.planned(exam.turn, next_steps(exam.verdict, knowledge))
        assert "not made" not in "".join(rows)
    assert not exam.answer(1)
    assert not exam.untold()
    exam.step(1)
    exam.step_part(1)
    exam.go_best()
    assert not exam.back()
    assert not exam.asked
    assert cautions_of(exam) == []
    assert exam.change(of_another_kind(exam.piece, "card", knowledge))
    assert exam.checks
    assert exam.undo()
    assert exam.piece.kind == kind
    assert not exam.asked


async def test_an_album_typed_at_a_stall_opens_and_no_key_breaks_it(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(80, 24)) as pilot:
        await begin(pilot, "album of tintypes 40")
        assert "An album" in on_screen(app)
        for key in ("1", "space", "right", "left", "tab", "m", "u", "c", "escape", "w", "escape"):
            await pilot.press(key)
            await settled(pilot)
        assert app.screen.exam.piece.kind == "album"
    app.session.close()


@pytest.mark.parametrize(
    ("check", "answer", "mark"),
    [
        ("pad.match", "suits", ORDER),
        ("pad.match", "differs", DOUBT),
        ("sitter.womens-skirt", "cage", ORDER),
        ("sitter.womens-skirt", "bustle-shelf", DOUBT),
        ("mat.shape", "oval-ornate", ORDER),
        ("mat.shape", "rectangle", DOUBT),
    ],
)
def test_a_part_is_ticked_only_where_nothing_of_it_speaks_against_the_piece(
    knowledge, check, answer, mark
):
    piece = Piece(region="us")
    for one in ("own.process tintype", "case.material thermoplastic", f"{check} {answer}"):
        piece = piece.with_finding(*one.split(), "in-hand")
    exam = Examination(piece, knowledge, "draft")
    exam.verdict = judge(piece, knowledge, None, DAY)
    assert states_of(exam)[knowledge.checks[check].part] == mark
