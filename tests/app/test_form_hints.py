"""The hint of a field: of its choices as many as there is room for, and how many more."""

import pytest
from app.kit import app_on, settled, shown

from appraise.app.form import hint_lines
from appraise.app.lines import words_of
from appraise.base.money import EXPONENTS

CHOICES = tuple(sorted(EXPONENTS))


@pytest.mark.parametrize("width", [40, 60, 80, 120])
@pytest.mark.parametrize("height", [1, 2, 3])
def test_no_choice_is_cut_and_the_rest_are_counted(width, height):
    told = " ".join(words_of(row).strip() for row in hint_lines("", CHOICES, width, height))
    shown = told.removeprefix("One of: ").partition(" and ")[0].split(", ")
    assert tuple(shown) == CHOICES[: len(shown)]
    if len(shown) < len(CHOICES):
        assert told.endswith(f" and {len(CHOICES) - len(shown)} more")
    assert len(hint_lines("", CHOICES, width, height)) <= height


def test_a_hint_without_choices_stands_alone():
    assert [words_of(row).strip() for row in hint_lines("A day.", (), 80, 3)] == ["A day."]


async def test_a_mistake_names_the_label_that_the_form_shows(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(80, 30)) as pilot:
        await settled(pilot)
        await pilot.press("h", "e")
        await settled(pilot)
        app.screen.query_one("#field-return_by").value = "whenever"
        await pilot.press("enter")
        await settled(pilot)
        told = shown(app)
    assert "back until: 'whenever' is not a day" in told
    assert "return_by" not in told
