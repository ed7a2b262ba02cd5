"""Long work tells how far it has come, can be cancelled, and leaves nothing half done."""

import re
import threading

from app.kit import app_on, settled, shown, until

from appraise.app import work
from appraise.app.track.view import TrackRecord
from appraise.pricing.estimate import learn


async def test_a_back_test_shows_a_bar_and_esc_ends_it(tmp_path, monkeypatch):
    gate, begun = threading.Event(), threading.Event()

    def slow(rows):
        begun.set()
        gate.wait(30)
        return learn(rows)

    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(100, 30)) as pilot:
        await settled(pilot)
        await pilot.press("r")
        await settled(pilot)
        before = shown(app)
        monkeypatch.setattr("appraise.pricing.replay.learn", slow)
        monkeypatch.setattr(work, "BETWEEN", 0.0)
        await pilot.press("r")
        await until(pilot, begun.is_set)
        await until(pilot, lambda: "esc cancels" in shown(app))
        told = shown(app).split("\n")[-1]
        assert "Back-test" in told
        assert re.search(r"\d+ of \d+", told)
        await pilot.press("escape")
        gate.set()
        await settled(pilot)
        assert isinstance(app.screen, TrackRecord), "esc ended the job and not the screen"
        assert "cancelled; nothing was changed" in shown(app)
        assert shown(app).split("\n")[1:20] == before.split("\n")[1:20]
        await pilot.press("escape")
        await settled(pilot)
        assert not isinstance(app.screen, TrackRecord)
    app.session.close()


async def test_a_report_that_is_cancelled_writes_no_file(tmp_path, monkeypatch):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(100, 30)) as pilot:
        await settled(pilot)
        begin = app.session.begin_job

        def cancelled():
            stop = begin()
            stop.set()
            return stop

        monkeypatch.setattr(app.session, "begin_job", cancelled)
        await pilot.press("p", "enter", "r")
        await settled(pilot)
        await pilot.press("enter")
        await settled(pilot)
        assert "cancelled; nothing was changed" in shown(app)
        reports = app.session.home.reports
        assert not reports.exists() or not list(reports.iterdir())
    app.session.close()
