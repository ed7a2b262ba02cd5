"""Digits wait: no answer lands on a question that was not on the screen at the key press."""

import asyncio
import threading
import time
from contextlib import contextmanager

import pytest
from app.kit import LIMIT, app_on, ask, begin, pane, settled, shown, until
from textual import events
from thorough import times

import appraise.verdict
from appraise.app.examine import view
from appraise.app.examine.question import CHOOSING
from appraise.app.examine.state import Examination
from appraise.app.examine.view import Examine
from appraise.app.widgets.reading import Tall

LINE = "sixth ambro thermoplastic vine 45"
BEAT = 0.05  # seconds from one burst of keys to the next
BURSTS = 8  # at least; more until there are answers enough
SIZE = (80, 24)
TOGETHER = " ".join


@pytest.fixture
def painted(monkeypatch):
    """Every painting of the question's column: when, and its words."""
    seen = []
    render = Tall.render_line

    def recorded(self, y):
        if isinstance(self.screen, Examine) and self.id == "ask":
            seen.append((time.monotonic(), self.text.split("\n")))
        return render(self, y)

    monkeypatch.setattr(Tall, "render_line", recorded)
    return seen


def column(app):
    """The words of the question's column."""
    return TOGETHER(pane(app).split())


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


class Gate:
    """A ranking that is held back for as long as the gate is shut."""

    def __init__(self):
        self.open = threading.Event()
        self.open.set()

    def ranked(self, verdict, knowledge, real=appraise.verdict.next_steps):
        assert self.open.wait(LIMIT)
        return real(verdict, knowledge)

    @contextmanager
    def shut(self):
        self.open.clear()
        try:
            yield
        finally:
            self.open.set()


@pytest.fixture
def gate(monkeypatch):
    """A gate before the ranking."""
    made = Gate()
    monkeypatch.setattr(appraise.verdict, "next_steps", made.ranked)
    return made


async def pump(app, keys, answers, least):
    """Press keys in turn, whatever the screen does meanwhile, until there are answers enough.

    Every second burst is a hasty one: a second key in the same instant, before anything could be
    painted in between. Returns the times of the keys, burst by burst.
    """
    begun, bursts, turn = time.monotonic(), [], 0
    while len(bursts) < BURSTS or len(answers) < least:
        if time.monotonic() - begun > LIMIT:
            break
        bursts.append([])
        for _ in range(1 + len(bursts) % 2):
            key = keys[turn % len(keys)]
            turn += 1
            event = events.Key(key, key if len(key) == 1 else " ")
            bursts[-1].append(event.time)
            app.post_message(event)
        await asyncio.sleep(BEAT)
    return bursts


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
    [(at_once, 4), (lambda: slow(0), 3), (lambda: slow(0.8), 2), (lambda: slow(0.4), 2)][
        : times(3, 4)
    ],
    ids=["at once", "as it is", "slower than one waits", "slow"][: times(3, 4)],
)
@pytest.mark.parametrize("keys", ["1", "12", ("1", "space", "2")], ids=["1", "1 2", "with space"])
async def test_every_answer_belongs_to_the_question_that_was_shown(
    tmp_path, monkeypatch, painted, ranking, least, keys
):
    monkeypatch.setattr(appraise.verdict, "next_steps", ranking())
    monkeypatch.setattr(view, "PATIENCE", 0.6)
    app = app_on(tmp_path)
    async with app.run_test(size=SIZE) as pilot:
        await begin(pilot, LINE)
        answers = given(app)
        bursts = await pump(app, keys, answers, least)
        await settled(pilot)
        checks = app.session.knowledge.checks
    app.session.close()
    assert len(answers) >= least
    times = [when for _, _, when in answers]
    for burst in bursts:
        assert sum(when in burst for when in times) <= 1, "the second of two keys went unseen"
    pressed = [when for burst in bursts for when in burst]
    for name, answer, when in answers:
        assert when in pressed
        rows = [rows for time_, rows in painted if time_ <= when][-1]
        words = TOGETHER(TOGETHER(rows).split())
        assert CHOOSING not in words
        assert TOGETHER(checks[name].ask.split()) in words, name
        place = checks[name].index(answer) + 1
        digit = "space" if not place else str(place)
        assert any(row.replace("\u203a", " ").split()[:1] == [digit] for row in rows), name


async def test_a_key_pressed_before_the_question_was_painted_goes_nowhere(tmp_path, monkeypatch):
    """Between deciding on a question and painting it: a key minded then, and one minded later."""
    app = app_on(tmp_path)
    late, planned = [], Examination.planned

    def decided(exam, turn, steps):
        moved = planned(exam, turn, steps)
        if exam.asked and not late:
            late.append(events.Key("1", "1"))
            app.pressed = late[0].time
            app.screen.action_answer(1)
        return moved

    async with app.run_test(size=SIZE) as pilot:
        await begin(pilot, LINE)
        await ask(pilot, "plate.magnet")
        exam = app.screen.exam
        before = exam.piece
        monkeypatch.setattr(Examination, "planned", decided)
        await pilot.press("2")
        await settled(pilot)
        answered = exam.piece
        at = exam.at
        app.post_message(late[0])
        await settled(pilot)
    app.session.close()
    assert set(answered.findings) - set(before.findings) == {"plate.magnet"}
    assert exam.piece == answered
    assert exam.at == at


async def test_the_answers_wait_greyed_until_the_next_question_is_decided(
    tmp_path, monkeypatch, gate
):
    monkeypatch.setattr(view, "PATIENCE", 2 * LIMIT)
    app = app_on(tmp_path)
    async with app.run_test(size=SIZE) as pilot:
        await begin(pilot, LINE)
        await ask(pilot, "plate.magnet")
        asked = app.session.knowledge.checks["plate.magnet"].ask
        before = app.screen.exam.piece
        with gate.shut():
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


async def test_a_question_that_is_asked_is_never_taken_away(tmp_path, monkeypatch, gate):
    """The ranking comes after one has waited long enough: the question asked by then stays."""
    monkeypatch.setattr(view, "PATIENCE", 0.1)
    app = app_on(tmp_path)
    async with app.run_test(size=SIZE) as pilot:
        await begin(pilot, LINE)
        await ask(pilot, "plate.magnet")
        before = app.screen.exam.steps
        with gate.shut():
            await pilot.press("2")
            await until(pilot, lambda: app.screen.exam.asked)
            at = app.screen.exam.at
            assert app.screen.exam.steps is before
        await settled(pilot)
        assert app.screen.exam.steps is not before
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
        assert any(row.split()[:2] == ["\u203a", "1"] for row in pane(app).split("\n"))
        await pilot.press("backspace")
        await settled(pilot)
        assert checks["plate.magnet"].ask in TOGETHER(pane(app).split())
        await pilot.press("2")
        await settled(pilot)
        found = app.screen.exam.piece
        assert found.found("plate.magnet") == checks["plate.magnet"].answers[1].id
        assert found.found("mat.shape") == checks["mat.shape"].answers[0].id
        await pilot.press("question_mark")
        await settled(pilot)
        assert "Back to the last answer" in shown(app)
    app.session.close()
