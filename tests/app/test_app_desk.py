"""The desk: what is open is taken up where it stood, and mistakes are one calm line."""

from datetime import date

import pytest
from app.kit import app_on, begin, session, settled, shown

from appraise.app.currency import currency_of, region_of
from appraise.app.desk import Desk
from appraise.app.desklines import Desktop, desk_lines
from appraise.app.examine.view import Examine
from appraise.app.glances import Glance, glance
from appraise.app.lines import length, words_of
from appraise.app.marks import FINE
from appraise.base.settings import load_settings, save_setting
from appraise.records.piece import Piece
from appraise.records.piece_file import write_piece
from appraise.store.drafts import Draft

NOW = "2026-11-25T10:00:00.000000Z"
DAY = date(2026, 11, 25)


def test_a_draft_is_glanced_at_without_the_knowledge():
    piece = Piece(title="girl").with_finding("mat.shape", "oval").with_finding("pad.pile", "silk")
    assert glance(Draft("a", NOW, write_piece(piece))) == Glance("girl", 2, DAY, "market")
    assert glance(Draft("a", NOW, write_piece(Piece()))).title == "untitled piece"
    assert glance(Draft("a", NOW, "{[")).title == "a piece that cannot be read"


def test_the_desk_fits_every_size():
    many = [Glance(f"piece {n} " * 9, n, DAY) for n in range(30)]
    for width in (10, 20, 45, 71, 72, 80, 120, 200):
        for height in (3, 8, 23, 60):
            for at in (0, 15, 29):
                rows = desk_lines(Desktop("USD", open=many, today=DAY, at=at), width, height)
                assert all(length(row) <= width for row in rows), (width, height)
                assert len(rows) <= height


def test_the_marked_piece_is_always_on_the_desk():
    many = [Glance(f"piece {n}", n, DAY) for n in range(30)]
    for at in range(30):
        rows = desk_lines(Desktop("USD", open=many, today=DAY, at=at), 80, 23)
        assert any(f"piece {at} " in words_of(row) and FINE.here in words_of(row) for row in rows)


async def test_the_second_of_two_pieces_is_taken_up_where_it_stood(tmp_path):
    first = session(tmp_path)
    for name in ("older", "newer"):
        piece = Piece(title=name).with_finding("mat.shape", "oval", "photo")
        first.log.save_draft(name, write_piece(piece))
    first.close()
    app = app_on(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        assert "1 answer," in shown(app)
        await pilot.press("2")
        await settled(pilot)
        assert isinstance(app.screen, Examine)
        assert app.screen.exam.piece.title == "older"
        assert app.screen.exam.piece.findings["mat.shape"].known == "photo"
        await pilot.press("q", "down", "up", "enter")
        await settled(pilot)
        assert app.screen.exam.piece.title == "newer"
        await pilot.press("d", "y")
        await settled(pilot)
        assert isinstance(app.screen, Desk)
        assert [draft.id for draft in app.session.log.drafts()] == ["older"]
    app.session.close()


async def test_a_draft_that_cannot_be_read_is_one_line(tmp_path):
    first = session(tmp_path)
    first.log.save_draft("x", "piece: 1\nfindings: {mat.shap: oval}\n")
    first.close()
    app = app_on(tmp_path)
    async with app.run_test(size=(120, 24)) as pilot:
        await settled(pilot)
        await pilot.press("1")
        await settled(pilot)
        foot = shown(app).split("\n")[-1]
        assert "'mat.shap' is not a check" in foot
        assert "'mat.shape'" in foot
        await pilot.press("2")
        await pilot.pause()
        assert isinstance(app.screen, Desk)
    app.session.close()


async def test_a_currency_is_chosen_once_and_kept(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        await pilot.press("c")
        await settled(pilot)
        app.screen.query_one("Input").value = "gbq"
        await pilot.press("enter")
        await settled(pilot)
        assert "no match" in shown(app)
        app.screen.query_one("Input").value = "gbp"
        await pilot.press("enter")
        await settled(pilot)
        assert "prices in GBP" in shown(app)
        await begin(pilot, "sixth ambro 45")
        assert app.screen.exam.piece.asking.currency == "GBP"
        assert app.screen.exam.verdict.currency == "GBP"
    app.session.close()
    again = session(tmp_path)
    assert again.settings.currency == "GBP"
    again.close()


async def test_an_empty_line_begins_an_empty_piece(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await begin(pilot, "")
        assert app.screen.exam.piece == Piece()
        assert "untitled piece" in shown(app)
    app.session.close()


async def test_the_price_is_kept_out_of_the_title(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await begin(pilot, "sixth ambro 45 vine")
        assert app.screen.exam.piece.title == "sixth ambro vine"
        assert app.screen.exam.piece.asking.plain == "45.00"
        await pilot.press("q")
        await settled(pilot)
        assert "45" not in shown(app)
    app.session.close()


async def test_a_first_start_asks_for_currency_and_region_the_locale_marked(tmp_path, monkeypatch):
    monkeypatch.setenv("LC_ALL", "en_GB.UTF-8")
    app = app_on(tmp_path, asked=False)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        rows = shown(app).split("\n")
        assert "Which currency are your prices in?" in rows[0]
        assert "* GBP" in rows[2]
        assert "this computer" in rows[2]
        await pilot.press("enter")
        await settled(pilot)
        marked = next(row for row in shown(app).split("\n") if "* " in row)
        assert "United Kingdom" in marked
        await pilot.press("enter")
        await settled(pilot)
        assert isinstance(app.screen, Desk)
        text = shown(app)
        assert "prices in GBP" in text
        for words in ("three ways to begin", "n  Start a piece", "l  Review a", "p  Log a price"):
            assert words in text
    app.session.close()
    assert (tmp_path / "settings.yaml").read_text() == "region: gb\n"


@pytest.mark.parametrize(
    ("place", "currency", "region"),
    [("GB", "GBP", "gb"), ("DE", "EUR", "eu"), ("US", "USD", "us"), ("NZ", "", "unknown")],
)
def test_what_a_country_pays_in(place, currency, region):
    assert (currency_of(place), region_of(place)) == (currency, region)


def test_a_setting_is_saved_and_every_other_line_stays(tmp_path):
    path = tmp_path / "settings.yaml"
    path.write_text("theme: night  # as I like it\nregion: us\n")
    save_setting(path, "region", "gb")
    assert path.read_text() == "theme: night  # as I like it\nregion: gb\n"
    assert load_settings(path).region == "gb"


async def test_a_piece_on_the_desk_is_opened_by_a_click(tmp_path):
    first = session(tmp_path)
    for name in ("older", "newer"):
        first.log.save_draft(name, write_piece(Piece(title=name)))
    first.close()
    app = app_on(tmp_path)
    async with app.run_test(size=(100, 30)) as pilot:
        await settled(pilot)
        y = next(n for n, row in enumerate(shown(app).split("\n")) if "older" in row)
        await pilot.click(offset=(8, y))
        await settled(pilot)
        assert app.screen.exam.piece.title == "older"
    app.session.close()
