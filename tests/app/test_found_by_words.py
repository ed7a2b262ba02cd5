"""What people look for by its words is found: fields, currencies, portraying a year."""

import datetime as dt

import pytest
from app.kit import app_on, settled, shown

from appraise.base.money import EXPONENTS
from appraise.base.moneytext import TITLES, code_called
from appraise.records.owned import OwnedPiece
from appraise.records.repair import Repair
from appraise.store.piece_record import piece_record
from appraise.store.records import keep


@pytest.mark.parametrize(("words", "field"), [("sitter's age", "sitter"), ("portray", "portray")])
async def test_a_detail_is_found_among_the_checks(tmp_path, words, field):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(110, 30)) as pilot:
        await settled(pilot)
        await pilot.press("3")
        await settled(pilot)
        await pilot.press("slash")
        await settled(pilot)
        app.screen.query_one("Input").value = words
        await settled(pilot)
        await pilot.press("enter")
        await settled(pilot)
        assert app.focused.id == f"field-{field}"


@pytest.mark.parametrize("words", ["portray", "reproduc"])
async def test_portraying_is_in_the_palette(tmp_path, words):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(110, 30)) as pilot:
        await settled(pilot)
        await pilot.press("ctrl+p")
        await settled(pilot)
        app.screen.query_one("Input").value = words
        await settled(pilot)
        assert "ctrl+y" in shown(app)


def test_every_currency_has_a_title_and_is_known_by_it():
    assert TITLES.keys() == EXPONENTS.keys()
    for code, title in TITLES.items():
        assert code_called(title) == code
    assert code_called("pounds") == "GBP"
    assert code_called("dollars") == ""


def test_a_job_that_names_the_piece_stands_in_its_record(tmp_path, knowledge):
    log = app_on(tmp_path).session.log
    day = dt.date(2026, 11, 7)
    keep(log, OwnedPiece("Mrs Pratt", number="7"))
    keep(log, Repair("hinge", day, piece="Mrs Pratt", did="Japanese tissue"))
    keep(log, Repair("label", day, piece="7"))
    keep(log, Repair("other", day, piece="somebody else"))
    assert {work.title for work in piece_record(log, "7", knowledge).works} == {"hinge", "label"}
    keep(log, OwnedPiece("Mrs Pratt", number="8"))
    assert {work.title for work in piece_record(log, "7", knowledge).works} == {"label"}
