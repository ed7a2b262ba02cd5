"""The app is left at once: a job that computes does not hold it, one that writes is waited for."""

import subprocess
import sys
import threading
from textwrap import dedent

import pytest
from app.kit import app_on, session, settled, until
from textual import events

from appraise.app import work
from appraise.app.threads import LooseThreads
from appraise.records.piece_file import parse_piece

LEFT = dedent(
    """
    import asyncio, threading
    from appraise.app.threads import LooseThreads

    async def leave():
        asyncio.get_running_loop().set_default_executor(LooseThreads())
        begun = threading.Event()
        def job():
            begun.set()
            threading.Event().wait()  # for ever
        asyncio.get_running_loop().run_in_executor(None, job)
        await asyncio.to_thread(begun.wait)

    asyncio.run(leave())
    print("left")
    """
)


def test_a_program_ends_while_a_job_of_its_computes():
    done = subprocess.run(
        [sys.executable, "-c", LEFT], capture_output=True, text=True, timeout=60, check=True
    )
    assert (done.stdout, done.stderr) == ("left\n", "")


def test_a_job_brings_its_result_or_what_went_wrong():
    threads = LooseThreads()
    assert threads.submit(pow, 2, exp=3).result() == 8
    assert isinstance(threads.submit(int, "x").exception(), ValueError)


async def test_ctrl_q_leaves_while_something_computes(tmp_path):
    app = app_on(tmp_path)
    held, begun = threading.Event(), threading.Event()

    def compute():
        begun.set()
        held.wait()

    async with app.run_test() as pilot:
        await settled(pilot)
        work.start(app.screen, "verdict", compute)
        await until(pilot, begun.is_set)
        await pilot.press("ctrl+q")
        await until(pilot, lambda: app._exit)
    assert not held.is_set()  # the app has ended, and the job has not
    held.set()


def test_a_file_that_is_being_written_is_waited_for(tmp_path):
    mine = session(tmp_path)
    begun, finish, done = threading.Event(), threading.Event(), []

    def write():
        with mine.saving():
            begun.set()
            finish.wait()
            done.append(True)

    writer = threading.Thread(target=write)
    writer.start()
    begun.wait()
    threading.Timer(0.05, finish.set).start()
    mine.close()
    assert done == [True]
    writer.join()


def test_a_long_job_is_told_to_end(tmp_path):
    mine = session(tmp_path)
    stop = mine.begin_job()
    mine.close()
    assert stop.is_set()


async def test_an_answer_is_saved_though_the_app_is_left_before_it_is_painted(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test() as pilot:
        await settled(pilot)
        await pilot.press("3")
        await settled(pilot)
        exam, answered = app.screen.exam, len(app.screen.exam.piece.findings)
        for key in ("space", "ctrl+q"):  # both before anything else has its turn
            app._driver.process_message(events.Key(key, None))
        await until(pilot, lambda: app._exit)
    drafts = {one.id: one.text for one in session(tmp_path, demo=True).log.drafts()}
    kept = parse_piece(drafts[exam.draft], "the draft", exam.knowledge)
    assert len(kept.findings) == answered + 1 == len(exam.piece.findings)


@pytest.mark.parametrize("leave", ["q", "b", "question_mark"])
async def test_an_answer_is_saved_before_another_screen_comes(tmp_path, monkeypatch, leave):
    app, saved = app_on(tmp_path, demo=True), []
    async with app.run_test() as pilot:
        await settled(pilot)
        await pilot.press("3")
        await settled(pilot)
        exam, keep = app.screen.exam, app.session.keep
        monkeypatch.setattr(app.screen, "call_after_refresh", lambda *_: None)  # never painted
        monkeypatch.setattr(app.session, "keep", lambda *what: (saved.append(what), keep(*what)))
        await pilot.press("space")
        assert not saved
        await pilot.press(leave)
        await settled(pilot)
        assert [piece for _, piece in saved] == [exam.piece]
