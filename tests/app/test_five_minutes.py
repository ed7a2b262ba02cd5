"""The five minutes of the README, key by key on a fresh demo: what it says is what happens."""

import re
from datetime import UTC, datetime
from pathlib import Path

import pytest
from app import kit
from textual.events import Paste
from thorough import times

from appraise.cli.demo import DEMO_DAY

ROOT = Path(__file__).parents[2]
TIMES = {"once": 1, "twice": 2}
GIRL = "girl with a basket, vine case"
NIGHTS = [
    datetime(2026, 12, 1, 4, 40, tzinfo=UTC),
    datetime(2026, 11, 7, 0, 0, 1, tzinfo=UTC),
    datetime(2031, 6, 30, 23, 50, tzinfo=UTC),
    datetime(2025, 2, 28, 13, 0, tzinfo=UTC),
]
"""Hours before and after the demo was made, on days before and after its own."""


def steps():
    """What the README has one do, as keys and what is said of them."""
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    part = text.split("## Five minutes with the demo")[1].split("\n## ")[0]
    found = re.findall(r"^\d\. Press `([^`]+)`( once| twice)?\. (.*)$", part, flags=re.M)
    return [(key, TIMES[(often or "once").strip()], says) for key, often, says in found]


async def text_after(pilot, step):
    key, often, _ = step
    for _ in range(often):
        await pilot.press(key)
        await kit.settled(pilot)
    return kit.shown(pilot.app)


@pytest.mark.parametrize("hour", NIGHTS[: times(2, 4)], ids=str)
async def test_the_steps_are_what_happens(tmp_path, monkeypatch, hour):
    monkeypatch.setattr(kit, "clock", lambda: hour)
    todo = steps()
    assert [key for key, _, _ in todo] == ["3", "1", "w", "m", "q", "l"]
    app = kit.app_on(tmp_path, demo=True)
    assert app.session.as_of == DEMO_DAY
    async with app.run_test(size=(110, 30)) as pilot:
        await kit.settled(pilot)
        opened = await text_after(pilot, todo[0])
        assert GIRL in opened
        answers = len(app.screen.exam.piece.findings)
        question = app.screen.exam.check.id
        await text_after(pilot, todo[1])
        assert len(app.screen.exam.piece.findings) == answers + 1
        assert app.screen.exam.check.id != question
        assert any(question in each.text for each in app.session.log.drafts()[:1])
        behind = await text_after(pilot, todo[2])
        assert "to 1" in behind
        assert "Asked 85" not in behind
        assert "Asked 85" in await text_after(pilot, todo[3])
        desk = await text_after(pilot, todo[4])
        assert "on the table" in desk
        assert "the first on the table" in todo[4][2]
        assert re.search(rf"1 {GIRL[:14]}", desk)
        await text_after(pilot, todo[5])
        listing = re.search(r"`(demo/listings/[a-z]+\.txt)`", todo[5][2])[1]
        app.screen.post_message(Paste((ROOT / listing).read_text(encoding="utf-8")))
        await kit.settled(pilot)
        assert "seller says" in kit.shown(app)
