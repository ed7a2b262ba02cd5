"""Letters typed in a choice find the word that they begin, or are refused."""

import pytest
from app.kit import app_on, settled, shown

HOUSING = "#field-housing"


async def typed(pilot, text):
    for letter in text:
        await pilot.press(letter if letter != "-" else "minus")
    await settled(pilot)


async def open_form(pilot):
    await settled(pilot)
    await pilot.press("h", "e")
    await settled(pilot)
    pilot.app.screen.query_one(HOUSING).focus()
    await settled(pilot)
    return pilot.app.screen.query_one(HOUSING)


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("thermoplastic", "thermoplastic"),
        ("cloth", "cloth-wood"),
        ("kiri-w", "kiri-wood"),
        ("pa", "paper-wood"),
        ("papi", "papier-mache"),
        ("mache", "papier-mache"),
        ("r", "resin"),
    ],
)
async def test_a_word_typed_is_the_word_chosen(tmp_path, text, word):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(80, 30)) as pilot:
        choice = await open_form(pilot)
        await typed(pilot, text)
        assert choice.text == word


async def test_one_letter_again_goes_through_what_it_begins(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(80, 30)) as pilot:
        choice = await open_form(pilot)
        found = []
        for _ in range(3):
            await typed(pilot, "p")
            found.append(choice.text)
        assert set(found) == {"paper-wood", "papier-mache"}
        await pilot.press("right")
        await typed(pilot, "l")
        assert choice.text in ("leather-wood", "locket")


async def test_what_begins_no_choice_is_refused_and_said(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(80, 30)) as pilot:
        choice = await open_form(pilot)
        await typed(pilot, "th")
        await typed(pilot, "q")
        assert choice.text == "thermoplastic"
        assert "no choice begins with 'thq'" in shown(app)
