"""A piece walked from first look to a logged price, by keys, at the size of a small terminal."""

import json
import re
import subprocess
import sys
from pathlib import Path

import pytest
from app.kit import app_on, ask, begin, session, settled, shown
from thorough import times

from appraise.app.examine import view
from appraise.records.piece_file import parse_piece

ROOT = Path(__file__).parent.parent.parent
SMALL, LARGE = (80, 24), (120, 40)
LINE = "sixth ambro thermoplastic vine 45 hinge taped"


async def test_an_empty_home_says_what_to_press(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=SMALL) as pilot:
        await settled(pilot)
        text = shown(app)
    app.session.close()
    assert "three ways to begin" in text
    assert "q quit" in text


async def test_first_look_is_understood_before_it_begins(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=SMALL) as pilot:
        await settled(pilot)
        await pilot.press("n")
        await pilot.pause()
        app.screen.query_one("Input").value = LINE
        await settled(pilot)
        text = shown(app)
    app.session.close()
    for words in ("process ambrotype", "case moulded thermoplastic", "asked 45.00 USD"):
        assert words in text


async def test_the_verdict_changes_at_each_key(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=SMALL) as pilot:
        await begin(pilot, LINE)
        seen = [app.screen.exam.verdict.reading.belonging]
        for check, digit in (("plate.edge-in-window", "2"), ("package.fit", "1")):
            await ask(pilot, check)
            await pilot.press(digit)
            await settled(pilot)
            assert app.screen.exam.current
            seen.append(app.screen.exam.verdict.reading.belonging)
    app.session.close()
    assert seen[1]["married"] > seen[0]["married"] + 0.2
    assert seen[2]["married"] < seen[1]["married"]


async def test_money_stays_hidden_at_a_stall_until_asked_for(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=SMALL) as pilot:
        await begin(pilot, LINE)
        before = shown(app)
        await pilot.press("m")
        await pilot.pause()
        after = shown(app)
    app.session.close()
    assert "45" not in before.split("\n")[0]
    assert not re.search(r"limit \d", before)
    assert "asked 45.00" in after
    assert re.search(r"limit \d", after)


async def test_space_changes_nothing_and_u_takes_back(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=SMALL) as pilot:
        await begin(pilot, LINE)
        before = app.screen.exam.verdict.reading.belonging
        await pilot.press("space")
        await settled(pilot)
        assert app.screen.exam.verdict.reading.belonging == before
        await ask(pilot, "plate.edge-in-window")
        await pilot.press("2", "u")
        await settled(pilot)
        assert "plate.edge-in-window" not in app.screen.exam.piece.findings
        assert app.screen.exam.verdict.reading.belonging == before
        await pilot.press("ctrl+r")
        await settled(pilot)
        assert app.screen.exam.piece.found("plate.edge-in-window") == "shows"
    app.session.close()


async def test_every_answer_is_on_the_disk_before_the_verdict(tmp_path, monkeypatch):
    """As another process sees it when the verdict on that answer is begun."""
    app, kept, real = app_on(tmp_path), [], view.Examine.judge

    def judged(*given):
        with session(tmp_path).log as other:
            kept.extend(draft.text for draft in other.drafts())
        return real(*given)

    async with app.run_test(size=SMALL) as pilot:
        await begin(pilot, LINE)
        await ask(pilot, "plate.magnet")
        monkeypatch.setattr(view.Examine, "judge", judged)
        await pilot.press("1")
        await settled(pilot)
        knowledge = app.session.knowledge
    app.session.close()
    assert parse_piece(kept[0], "draft", knowledge).found("plate.magnet") == "no"


async def test_a_buy_is_logged_and_there_when_reopened(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=SMALL) as pilot:
        await begin(pilot, LINE)
        await pilot.press("b")
        await pilot.pause()
        app.screen.query_one("#field-date").value = ""  # no day: today
        await pilot.press("enter")
        await settled(pilot)
        assert app.session.log.entries(limit=1)[0].date == app.session.as_of
        assert "paid 45.00" not in shown(app)
        await pilot.press("m")
        await settled(pilot)
        assert "paid 45.00" in shown(app)
    app.session.close()
    with session(tmp_path).log as log:
        entry = log.entries("vine hinge", limit=1)[0]
        assert not [draft for draft in log.drafts() if "vine hinge" in draft.text]
    assert entry.paid.plain == "45.00"
    assert entry.process == "ambrotype"
    assert entry.housing == "thermoplastic"
    assert dict(entry.belonging)["married"] > 0.2
    assert entry.estimate.low <= entry.estimate.median <= entry.estimate.high
    assert "hinge.tape" in entry.piece


async def test_a_pass_keeps_what_was_asked_and_offered(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=SMALL) as pilot:
        await begin(pilot, LINE)
        await pilot.press("x")
        await pilot.pause()
        inputs = list(app.screen.query("Input"))
        assert len(inputs) >= 2
        inputs[1].value = "30"
        await pilot.press("enter")
        await settled(pilot)
    app.session.close()
    with session(tmp_path).log as log:
        (entry,) = log.entries()
    assert entry.record == "refused"
    assert (entry.asked.plain, entry.offered.plain) == ("45.00", "30.00")


async def test_why_lists_the_findings_behind_the_verdict(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=LARGE) as pilot:
        await begin(pilot, LINE)
        await ask(pilot, "plate.edge-in-window")
        await pilot.press("2")
        await settled(pilot)
        await pilot.press("w")
        await pilot.pause()
        text = shown(app)
        await settled(pilot)
        pages = [text]
        for _ in range(6):
            pages.append(shown(app))
            await pilot.press("space")
    app.session.close()
    whole = "\n".join(pages)
    assert "Evidence behind each figure" in whole
    assert "without this finding" in whole
    assert "% likely): then" in whole
    assert "Why" in text
    assert "Strongest evidence" in whole
    assert "weak support" in text


async def test_enough_is_said_once_nothing_would_change_the_mind(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=LARGE) as pilot:
        await begin(pilot, "sixth ambro thermoplastic vine 4000")
        for _ in range(12):
            if app.screen.exam.enough:
                break
            await pilot.press("1")
            await settled(pilot)
        assert app.screen.exam.enough
        assert "seen enough" in shown(app)
    app.session.close()


@pytest.mark.parametrize("size", [SMALL, (20, 8), (200, 60), LARGE, (60, 20)][: times(3, 5)])
async def test_no_size_of_terminal_breaks_it(tmp_path, painted, size):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=size) as pilot:
        await begin(pilot, LINE)
        for key in ("1", "w", "escape", "question_mark", "escape", "q", "p", "q"):
            await pilot.press(key)
            await pilot.pause()
        lines = shown(app).split("\n")
    app.session.close()
    assert len(lines) <= size[1]
    assert max(map(len, lines)) <= size[0]


def test_the_first_paint_loads_neither_numpy_nor_the_knowledge(tmp_path):
    code = f"""
import asyncio, json, sys
sys.path.insert(0, {str(ROOT / "tests")!r})
from app.kit import app_on
from pathlib import Path
app = app_on(Path({str(tmp_path)!r}))
seen = []
app.after_first_paint = lambda: seen.extend(sys.modules)
async def main():
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
asyncio.run(main())
app.session.close()
print(json.dumps(seen))
"""
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, cwd=ROOT)
    assert done.returncode == 0, done.stderr
    loaded = set(json.loads(done.stdout))
    assert "textual" in loaded
    assert loaded & {"numpy", "appraise.knowledge.loader", "rapidfuzz", "yaml"} == set()
