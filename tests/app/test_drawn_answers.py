"""The drawing beside the answers: where there is room, of what is pointed at, and in the way of
nothing."""

import pytest
from app.kit import app_on, ask, begin, pane, shown

from appraise.app.examine import figure
from appraise.knowledge.figures import names

LINE = "sixth ambrotype, leather case, asked 85"
BRAILLE = {chr(0x2801 + n) for n in range(255)}


def left(app):
    """The question, and the drawing where that stands in a pane of its own."""
    wide = app.size.width >= 160
    return pane(app) + ("\n" + pane(app, "more") if wide else "")


def pointed(app):
    """The answer whose drawing is shown: its number and its words."""
    return figure.shown(app.screen.exam)[::2]


async def test_the_first_answer_that_can_be_drawn_stands_beside_the_answers(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=(110, 30)) as pilot:
        await begin(pilot, LINE)
        await ask(pilot, "preserver.form")
        seen = left(app)
        assert BRAILLE & set(seen)
        assert pointed(app) == ("1", "narrow and plain")
        for number in range(1, 6):
            assert f" {number}  " in seen
        assert "How: Look at its corners" in seen


async def test_arrows_show_the_other_drawings_and_answer_nothing(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=(160, 45)) as pilot:
        await begin(pilot, LINE)
        await ask(pilot, "preserver.form")
        seen = [left(app)]
        for number, words in (("2", "thin, with"), ("3", "fancy"), ("4", "heavy"), ("1", "narrow")):
            await pilot.press("right")
            await pilot.pause()
            seen.append(left(app))
            assert pointed(app)[0] == number
            assert pointed(app)[1].startswith(words)
        assert seen[0] == seen[4]
        assert len(set(seen)) == 4
        await pilot.press("left")
        await pilot.pause()
        assert left(app) == seen[3]
        assert "preserver.form" not in app.screen.exam.piece.findings


async def test_how_to_look_comes_first_where_it_is_drawn_and_a_given_answer_before_it(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=(110, 40)) as pilot:
        await begin(pilot, LINE)
        await ask(pilot, "plate.mirror")
        assert "how to look" in left(app)
        exam = app.screen.exam
        exam.change(exam.piece.with_finding("plate.mirror", "stays", "in-hand"))
        await ask(pilot, "plate.mirror")
        assert pointed(app)[0] == "2"
        await ask(pilot, "seal.broken")
        assert "what is meant" in left(app)


@pytest.mark.parametrize("size", [(80, 24), (72, 24), (60, 20)])
async def test_a_narrow_screen_keeps_its_room_for_words(tmp_path, size):
    app = app_on(tmp_path)
    async with app.run_test(size=size) as pilot:
        await begin(pilot, LINE)
        await ask(pilot, "clasp.kind")
        seen = shown(app)
        assert "5  something else" in seen
        if size[0] >= 72:
            assert not BRAILLE & set(seen)


async def test_plain_ascii_draws_with_ascii(tmp_path):
    app = app_on(tmp_path, ascii=True)
    async with app.run_test(size=(110, 30)) as pilot:
        await begin(pilot, LINE)
        await ask(pilot, "mat.position")
        seen = shown(app)
        assert pointed(app)[0] == "1"
        assert seen.isascii()


async def test_answers_stand_where_they_stood_when_another_drawing_is_looked_at(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=(110, 30)) as pilot:
        await begin(pilot, LINE)
        await ask(pilot, "mat.shape")
        first = [row[:30] for row in left(app).split("\n")]
        for _ in range(9):
            await pilot.press("right")
            await pilot.pause()
            assert [row[:30] for row in left(app).split("\n")] == first


async def test_a_row_of_ones_own_that_names_no_drawing_breaks_nothing(tmp_path):
    own = tmp_path / "knowledge"
    own.mkdir()
    (own / "mine.yaml").write_text(
        "answers:\n  mat.shape:\n    keyhole: {says: a keyhole, share: .1, basis: practice,\n"
        "      years: {us: 1846 1850 1856 1862 low}, figure: none-such}\n"
    )
    assert "none-such" not in names()
    app = app_on(tmp_path)
    async with app.run_test(size=(160, 45)) as pilot:
        await begin(pilot, LINE)
        await ask(pilot, "mat.shape")
        app.screen.exam.typed = "keyhole"
        app.screen.redraw()
        await pilot.pause()
        assert "a keyhole" in shown(app)
