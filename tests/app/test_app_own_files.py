"""A faulty file of the user's own knowledge: said once at the start, and the app works."""

from app.kit import app_on, begin, settled, shown, until

from appraise import knowledge
from appraise.app import work
from appraise.base.errors import KnowledgeError


async def test_it_is_said_once_and_a_key_takes_it_away(tmp_path):
    (tmp_path / "knowledge").mkdir()
    (tmp_path / "knowledge" / "own.yaml").write_bytes(b"cautions:\n\town: {}\n")
    app = app_on(tmp_path)
    async with app.run_test(size=(100, 30)) as pilot:
        await settled(pilot)
        first = shown(app)
        await pilot.press("down")
        await settled(pilot)
        then = shown(app)
        await begin(pilot, "sixth daguerreotype leather 45")
        piece = app.screen.exam.piece
    app.session.close()
    assert "problem in your own rows: knowledge/own.yaml:2" in first
    assert "own.yaml" not in then
    assert piece.named_format == "sixth"


async def test_knowledge_that_cannot_be_read_is_one_line_and_not_silence(tmp_path, monkeypatch):
    for error, told in (
        (KnowledgeError("no 'weights:'", "data", "Reinstall."), "data: no 'weights:'. Reinstall."),
        (RuntimeError("two\nlines"), "Something went wrong (RuntimeError: two lines)"),
    ):

        def load(*, overlay, error=error):
            raise error

        monkeypatch.setattr(knowledge, "load", load)
        app = app_on(tmp_path)
        async with app.run_test(size=(100, 30)) as pilot:
            await settled(pilot)
            first = shown(app)
        app.session.close()
        assert told in first


async def test_a_job_of_the_app_that_breaks_is_one_line(tmp_path):
    def job():
        raise RuntimeError("of ours")

    app = app_on(tmp_path)
    async with app.run_test(size=(100, 30)) as pilot:
        await settled(pilot)
        work.start(app, "planning", job)
        await until(pilot, lambda: "RuntimeError" in shown(app))
        told = shown(app)
    app.session.close()
    assert "Something went wrong (RuntimeError: of ours). Your answers are saved." in told
