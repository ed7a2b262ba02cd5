"""A mat shape of the user's own, written as data/README.md says, is asked, given and marked."""

from pathlib import Path

from app.kit import app_on, begin, settled, shown

PAGE = Path(__file__).parent.parent.parent / "data" / "README.md"


def row_of_the_page():
    """The first example under "Adding knowledge", with its indent taken off."""
    lines = PAGE.read_text(encoding="utf-8").splitlines()
    start = lines.index("    answers:")
    return "\n".join(line.removeprefix("    ") for line in lines[start : start + 3])


async def test_a_shape_of_ones_own_is_asked_given_and_marked(tmp_path):
    (tmp_path / "knowledge").mkdir()
    (tmp_path / "knowledge" / "mine.yaml").write_text(row_of_the_page(), encoding="utf-8")
    app = app_on(tmp_path)
    async with app.run_test(size=(80, 40)) as pilot:
        await begin(pilot, "sixth daguerreotype leather 45")
        await pilot.press("slash")  # find the check by a few letters
        await pilot.pause()
        await pilot.press(*"shape", "space", *"opening")
        await settled(pilot)
        await pilot.press("enter")
        await settled(pilot)
        await pilot.press("enter")  # narrow its answers
        await pilot.pause()
        await pilot.press(*"keyh")
        await settled(pilot)
        asked = shown(app)
        await pilot.press("enter")
        await settled(pilot)
        given = app.screen.exam.piece.found("mat.shape")
        await pilot.press("w")
        await settled(pilot)
        behind = ""
        for _ in range(4):  # pages
            behind += shown(app)
            await pilot.press("space")
            await pilot.pause()
    app.session.close()
    assert "What shape is the mat opening?" in asked
    assert "a keyhole" in asked
    assert given == "keyhole"
    assert "your own row: knowledge/mine.yaml" in behind  # it says little, so it is told by place
