"""The page with every widget: in signs of both sorts, in colours, without them, at any width."""

from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import pytest
from app.kit import shown

from appraise.app.lines import length, words_of
from appraise.app.marks import FINE, PLAIN

HOME = Path(__file__).parents[2] / "demo" / "screens" / "widgets.py"
SPEC = spec_from_file_location("widgets_page", HOME)
MADE = module_from_spec(SPEC)
SPEC.loader.exec_module(MADE)
Gallery, page = MADE.Gallery, MADE.page


@pytest.mark.parametrize("width", [20, 40, 80, 160])
def test_the_page_fits_its_width(width):
    for marks in (FINE, PLAIN):
        rows = page(width, marks)
        assert all(length(row) <= max(40, width) for row in rows)
    assert all(words_of(row).isascii() for row in page(width, PLAIN))


async def test_the_page_is_shown_and_changes_its_theme():
    app = Gallery(FINE)
    async with app.run_test(size=(80, 90)) as pilot:
        await pilot.pause()
        for name in ("years", "belonging", "money", "a drawing", "a photo"):
            assert name in shown(app)
        before = app.theme
        await pilot.press("t")
        await pilot.pause()
        assert app.theme != before
        await pilot.press("q")
