"""An app that is left open, a worker that breaks, and an undo of what another screen did."""

from datetime import UTC, date, datetime, timedelta

from app.kit import OPEN, app_on, settled, shown, until

from appraise.app import work
from appraise.app.desk import Desk
from appraise.app.session import Session
from appraise.base.moments import local
from appraise.base.places import Home
from appraise.base.settings import Settings
from appraise.records.want import Want
from appraise.store.records import held, keep

DAY = date(2026, 11, 7)


def test_an_app_left_open_overnight_has_the_new_day(tmp_path):
    now = [datetime(2026, 11, 7, 12, tzinfo=UTC)]
    made = Session(Home(tmp_path), Settings(), DAY, lambda: now[0], "desk")
    OPEN.append(made)
    assert made.as_of == made.author().today == DAY
    now[0] += timedelta(days=1)
    assert made.as_of == made.author().today == DAY + timedelta(days=1)


def test_an_app_begun_for_another_day_goes_on_from_there(tmp_path):
    now = [datetime(2030, 1, 1, 12, tzinfo=UTC)]
    made = Session(Home(tmp_path), Settings(), DAY, lambda: now[0], "desk")
    OPEN.append(made)
    assert made.as_of == DAY
    assert local(made.moment(), None).date() == DAY
    now[0] += timedelta(days=2)
    assert made.as_of == DAY + timedelta(days=2)


async def test_a_worker_that_breaks_leaves_its_traceback_beside_the_log(tmp_path):
    def job():
        raise RuntimeError("of ours")

    app = app_on(tmp_path)
    async with app.run_test(size=(100, 30)) as pilot:
        await settled(pilot)
        work.start(app.screen, "planning", job)
        await until(pilot, lambda: "RuntimeError" in shown(app))
        told = shown(app)
    assert "(RuntimeError: of ours). Your answers are saved. More: faults.log" in told
    written = (tmp_path / "faults.log").read_text(encoding="utf-8")
    assert "Traceback" in written
    assert "in job" in written
    assert " planning\n" in written
    assert (tmp_path / "faults.log").stat().st_mode & 0o777 == 0o600


async def test_an_undo_of_what_another_screen_did_asks_first(tmp_path):
    app = app_on(tmp_path)
    log = app.session.log
    keep(log, Want("ninth vine", DAY, motif="vine"))
    async with app.run_test(size=(100, 30)) as pilot:
        await settled(pilot)
        assert isinstance(app.screen, Desk)
        await pilot.press("u")
        await pilot.pause()
        assert "Undo the new entry ninth vine? It was not done on this screen." in shown(app)
        await pilot.press("n")
        await settled(pilot)
        assert len(held(log, Want)) == 1
        await pilot.press("u")
        await pilot.pause()
        await pilot.press("y")
        await settled(pilot)
        assert held(log, Want) == ()
        assert "Undone: the new entry ninth vine." in shown(app)
