"""A buy or a pass is undone from the desk or from Prices: the piece is on the table again."""

import pytest
from app.kit import app_on, ask, begin, session, settled, shown

from appraise.app.desk import Desk
from appraise.records.piece_file import parse_piece

SMALL = (80, 24)
LINE = "sixth ambro thermoplastic vine 45"


async def logged(pilot, key):
    """A piece with two answers, logged as bought (b) or not bought (x); its piece comes back."""
    await begin(pilot, LINE)
    for name in ("plate.magnet", "mat.shape"):
        await ask(pilot, name)
        await pilot.press("2")
        await settled(pilot)
    piece = pilot.app.screen.exam.piece
    await pilot.press(key)
    await pilot.pause()
    await pilot.press("enter")
    await settled(pilot)
    assert isinstance(pilot.app.screen, Desk)
    assert pilot.app.session.log.drafts() == ()
    assert "u: undo" in shown(pilot.app)
    return piece


@pytest.mark.parametrize(
    ("key", "says"),
    [("b", "the purchase of sixth ambro"), ("x", "the decision not to buy sixth ambro")],
)
@pytest.mark.parametrize("way", [(), ("p",)], ids=["desk", "prices"])
async def test_it_comes_back_to_the_table_with_every_answer(tmp_path, key, says, way):
    app = app_on(tmp_path)
    async with app.run_test(size=SMALL) as pilot:
        piece = await logged(pilot, key)
        await pilot.press(*way)
        await settled(pilot)
        await pilot.press("u")
        await settled(pilot)
        told = " ".join(shown(app).split())
        assert f"Undone: {says}" in told
        if way:
            await pilot.press("q")
            await settled(pilot)
        assert f"{len(piece.findings)} answers" in shown(app)
        await pilot.press("1")
        await settled(pilot)
        assert app.screen.exam.piece == piece
        await pilot.press("q")
    app.session.close()
    with session(tmp_path).log as log:
        assert log.entries() == ()
        (draft,) = log.drafts()
        assert parse_piece(draft.text, "the draft", app.session.knowledge) == piece


async def test_redo_logs_it_again_and_takes_it_off_the_table(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=SMALL) as pilot:
        await logged(pilot, "b")
        await pilot.press("u")
        await settled(pilot)
        await pilot.press("ctrl+r")
        await settled(pilot)
        assert "Redone: the purchase of sixth ambro" in shown(app)
        assert app.session.log.drafts() == ()
        assert len(app.session.log.entries()) == 1
    app.session.close()


async def test_with_nothing_to_undo_the_desk_says_so(tmp_path):
    app = app_on(tmp_path, asked=False)
    async with app.run_test(size=SMALL) as pilot:
        await settled(pilot)
        for _ in ("currency", "region"):  # the first start asks for both
            await pilot.press("escape")
            await settled(pilot)
        await pilot.press("u", "y")
        await settled(pilot)
        await pilot.press("u")
        await settled(pilot)
        assert "nothing to undo" in shown(app)
    app.session.close()
