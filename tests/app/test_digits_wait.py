"""Digits wait: no answer lands on a question that was not on the screen at the key press."""

import asyncio
import time

import pytest
from app.kit import app_on, ask, begin, settled, shown
from textual import events

import appraise.verdict
from appraise.app.examine.view import PATIENCE, Examine
from appraise.app.examine.waiting import CHOOSING
from appraise.app.pane import Pane

LINE = "sixth ambro thermoplastic vine 45"
RATE = 20  # keys a second
SIZE = (80, 24)
LEFT = 45  # cells of the question's column
TOGETHER = " ".join


@pytest.fixture
def painted(monkeypatch):
    """Every painting of the question's column: when, and its words."""
    seen = []
    render = Pane.render

    def recorded(self):
        content = render(self)
        if isinstance(self.screen, Examine):
            seen.append((time.monotonic(), [row[:LEFT] for row in content.plain.split("\n")]))
        return content

    monkeypatch.setattr(Pane, "render", recorded)
    return seen


def column(app):
    """The words of the question's column."""
    return TOGETHER(TOGETHER(row[:LEFT] for row in shown(app).split("\n")[2:-3]).split())


def slow(seconds):
    def ranked(verdict, knowledge, real=appraise.verdict.next_steps):
        time.sleep(seconds)
        return real(verdict, knowledge)

    return ranked


def at_once():
    """A ranking that is worked out once, and afterwards known at once."""
    first = []

    def ranked(verdict, knowledge, real=appraise.verdict.next_steps):
        if not first:
            first.append(real(verdict, knowledge))
        return first[0]

    return ranked


async def pump(app, keys, seconds):
    """Press keys in turn at the rate, whatever the screen does meanwhile."""
    begun, pressed = time.monotonic(), []
    while time.monotonic() - begun < seconds:
        key = keys[len(pressed) % len(keys)]
        event = events.Key(key, key if len(key) == 1 else " ")
        pressed.append(event.time)
        app.post_message(event)
        await asyncio.sleep(max(0, begun + len(pressed) / RATE - time.monotonic()))
    return pressed


def given(app):
    """Keep note of each answer as it is stored: check, answer, and when its key was pressed."""
    found = []
    before = dict(app.screen.exam.piece.findings)
    keep = app.session.keep

    def noted(draft, piece):
        for name, one in piece.findings.items():
            if before.get(name) != one:
                found.append((name, one.answer, app.pressed))
                before[name] = one
        keep(draft, piece)

    app.session.keep = noted
    return found


@pytest.mark.parametrize(
    ("ranking", "least"),
    [(at_once, 4), (lambda: slow(0), 3), (lambda: slow(0.4), 2), (lambda: slow(PATIENCE + 1), 1)],
    ids=["at once", "as it is", "slow", "slower than one waits"],
)
@pytest.mark.parametrize("keys", ["1", "12", ("1", "space", "2")], ids=["1", "1 2", "with space"])
async def test_every_answer_belongs_to_the_question_that_was_shown(
    tmp_path, monkeypatch, painted, ranking, least, keys
):
    monkeypatch.setattr(appraise.verdict, "next_steps", ranking())
    app = app_on(tmp_path)
    async with app.run_test(size=SIZE) as pilot:
        await begin(pilot, LINE)
        answers = given(app)
        pressed = await pump(app, keys, 3.0)
        await settled(pilot)
        checks = app.session.knowledge.checks
    app.session.close()
    assert len(answers) >= least
    assert len(pressed) > len(answers)
    for name, answer, when in answers:
        assert when in pressed
        rows = [rows for time_, rows in painted if time_ <= when][-1]
        words = TOGETHER(TOGETHER(rows).split())
        assert CHOOSING not in words
        assert TOGETHER(checks[name].ask.split()) in words, name
        place = checks[name].index(answer) + 1
        digit = "space" if not place else str(place)
        assert any(row.replace("\u203a", " ").split()[:1] == [digit] for row in rows), name


async def test_the_answers_wait_greyed_until_the_next_question_is_decided(tmp_path, monkeypatch):
    monkeypatch.setattr(appraise.verdict, "next_steps", slow(1.0))
    app = app_on(tmp_path)
    async with app.run_test(size=SIZE) as pilot:
        await begin(pilot, LINE)
        await ask(pilot, "plate.magnet")
        asked = app.session.knowledge.checks["plate.magnet"].ask
        before = app.screen.exam.piece
        await pilot.press("2")
        await pilot.pause()
        between = column(app)
        await pilot.press("1", "space", "3")
        after = app.screen.exam.piece
        await settled(pilot)
        then = column(app)
    app.session.close()
    assert asked in between
    assert CHOOSING in between
    assert "1 " not in between.split(CHOOSING)[0].split(asked)[1]
    assert set(after.findings) - set(before.findings) == {"plate.magnet"}
    assert CHOOSING not in then
    assert asked not in then


async def test_a_question_that_is_asked_is_never_taken_away(tmp_path, monkeypatch):
    """The ranking comes after one has waited long enough: the question asked by then stays."""
    monkeypatch.setattr(appraise.verdict, "next_steps", slow(PATIENCE + 0.6))
    app = app_on(tmp_path)
    async with app.run_test(size=SIZE) as pilot:
        await begin(pilot, LINE)
        await ask(pilot, "plate.magnet")
        await pilot.press("2")
        while not app.screen.exam.asked:
            await pilot.pause(0.02)
        at = app.screen.exam.at
        await settled(pilot)
        assert app.screen.exam.steps is not None
        assert app.screen.exam.at == at
    app.session.close()


async def test_backspace_shows_the_last_answer_again_and_revises_it(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=(120, 40)) as pilot:
        await begin(pilot, LINE)
        checks = app.session.knowledge.checks
        for name in ("plate.magnet", "mat.shape"):
            await ask(pilot, name)
            await pilot.press("1")
            await settled(pilot)
        assert "bksp last answer" in shown(app)
        await pilot.press("backspace")
        await settled(pilot)
        assert app.screen.exam.at == "mat.shape"
        assert any(row.split()[:2] == ["\u203a", "1"] for row in shown(app).split("\n"))
        await pilot.press("backspace")
        await settled(pilot)
        assert checks["plate.magnet"].ask in shown(app)
        await pilot.press("2")
        await settled(pilot)
        found = app.screen.exam.piece
        assert found.found("plate.magnet") == checks["plate.magnet"].answers[1].id
        assert found.found("mat.shape") == checks["mat.shape"].answers[0].id
        await pilot.press("question_mark")
        await settled(pilot)
        assert "Back to the answer given last" in shown(app)
    app.session.close()
