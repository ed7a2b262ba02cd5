"""What is told beside the questions: places, findings, warnings, a portrayed year, the day."""

from dataclasses import replace
from datetime import UTC, date, datetime

import pytest
from app.kit import app_on, ask, begin, settled, shown
from textual import events

from appraise.app.actions import actions_of
from appraise.app.examine.found import findings
from appraise.app.examine.state import Examination
from appraise.app.lines import words_of
from appraise.app.listing.text import opened_in, opened_line
from appraise.app.marks import FINE
from appraise.app.session import Session
from appraise.base.places import Home
from appraise.base.settings import Settings
from appraise.reading.applying import applying
from appraise.records.piece import Piece

LISTED = """Sixth plate ambrotype of a girl, union case. The hinge has been taped.
Asking $65 plus $8 shipping, sold as is."""
LISTS_OF_KINDS = {"case.material", "claim.material", "mat.material", "print.postcard-back"}
"""Checks that ask of what kind something is: there "none" is one kind of many, at their end."""


def test_none_or_no_comes_first_in_every_check(knowledge):
    for check in knowledge.checks.values():
        ids = [one.id for one in check.answers]
        if check.id not in LISTS_OF_KINDS and {"no", "none"} & {*ids}:
            assert ids[0] in ("no", "none"), check.id


def test_the_first_degree_of_every_fault_is_the_least(knowledge):
    faults = [one for one in knowledge.checks.values() if one.defect is not None]
    assert faults
    assert all([answer.id for answer in one.answers] == sorted(answer.id for answer in one.answers)
               for one in faults)  # fmt: skip


def test_a_name_on_the_pad_is_not_asked_after_the_names_agree(knowledge):
    def asked(piece):
        return {one.id for one in applying(piece, knowledge, {})}

    assert "pad.imprint" in asked(Piece())
    assert "pad.imprint" not in asked(Piece().with_finding("piece.imprints", "agree"))
    assert "pad.imprint" in asked(Piece().with_finding("piece.imprints", "fewer"))


@pytest.mark.parametrize(
    ("check", "answer", "says"),
    [
        ("plate.crack", "0", "plate: whole"),
        ("hinge.tape", "0", None),
    ],
)
def test_what_was_looked_for_and_is_absent_is_not_told_as_a_fault(knowledge, check, answer, says):
    asked = knowledge.checks[check]
    exam = Examination(Piece().with_finding(check, answer), knowledge, "piece x")
    _, told = [words_of(row).strip() for row in findings(exam, FINE, 80, 9)]
    first = asked.answers[asked.index(answer)].says
    assert told.endswith(first)
    if says is not None:
        assert told == says
    if asked.defect is not None and not first.startswith(("none", "no")):
        assert asked.defect.name not in told


def test_a_bare_yes_stands_behind_its_question(knowledge):
    exam = Examination(Piece().with_finding("piece.paulownia", "yes"), knowledge, "piece x")
    _, told = [words_of(row).strip() for row in findings(exam, FINE, 90, 9)]
    assert told == f"{knowledge.checks['piece.paulownia'].ask} yes"


async def test_beside_a_part_stands_how_many_of_its_checks_are_answered(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await begin(pilot, "sixth ambro thermoplastic vine 45 market")
        await ask(pilot, "mat.shape")
        of = sum(one.part == "mat" for one in app.screen.exam.checks)
        assert f"0 of {of} answered" in shown(app)
        await pilot.press("1")
        await ask(pilot, "mat.shape")
        assert f"1 of {of} answered" in shown(app)


async def test_a_year_to_portray_is_told_on_examine_and_behind_it(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await begin(pilot, "sixth ambro thermoplastic vine 45 market")
        assert "looks right" not in shown(app)
        exam = app.screen.exam
        exam.change(replace(exam.piece, portray=1858))
        app.screen.changed()
        await settled(pilot)
        assert "existed by 1858: " in shown(app)
        await pilot.press("w")
        await settled(pilot)
        assert "existed by 1858: " in shown(app)


async def test_the_panel_does_not_deny_the_warnings_of_the_list(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=(110, 40)) as pilot:
        await settled(pilot)
        app.post_message(events.Paste(LISTED))
        await settled(pilot)
        text = shown(app)
        assert any(one.severity != "note" for one in app.screen.review.listing.flags)
        assert "no warnings so far" not in text


async def test_a_listing_lays_its_piece_on_the_desk_once_however_often_it_is_opened(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=(110, 40)) as pilot:
        await settled(pilot)
        app.post_message(events.Paste(LISTED))
        await settled(pilot)
        for _ in range(2):
            await pilot.press("enter")
            await settled(pilot)
            app.screen.exam.change(app.screen.exam.piece.with_finding("mat.shape", "oval"))
            app.screen.changed()
            await pilot.press("q")
            await settled(pilot)
            await pilot.press("q")
            await settled(pilot)
            drafts = app.session.log.drafts()
            assert len(drafts) == 2
            place = next(n for n, one in enumerate(drafts) if one.id.startswith("listing"))
            await pilot.press(str(place + 1))
            await settled(pilot)
        await pilot.press("enter")
        await settled(pilot)
        assert app.screen.exam.piece.found("mat.shape") == "oval"
    app.session.close()


def test_opened_pieces_are_kept_by_part():
    line = opened_line({0: "piece a", 2: "piece b"})
    assert line.startswith("opened: ")
    assert opened_line({}) == ""
    assert opened_in("") == {}


def test_what_is_written_in_the_demo_bears_the_demo_s_day(tmp_path):
    real = datetime(2031, 3, 4, 9, tzinfo=UTC)
    made = Session(Home(tmp_path), Settings(), date(2026, 11, 7), lambda: real, "test", demo=True)
    made.keep("piece x", Piece())
    (draft,) = made.log.drafts()
    made.close()
    assert draft.time.startswith("2026-11-07")


def test_the_help_of_backspace_names_what_n_does():
    by_do = {one.do: one for one in actions_of("piece")}
    assert by_do["again"].says.endswith("n: the most useful check.")
