"""The Track record screen: reached by key and palette, calm at every size, and true."""

from dataclasses import replace
from datetime import date

import pytest
from app.kit import app_on, settled, shown

from appraise.app.lines import length, words_of
from appraise.app.marks import FINE, PLAIN
from appraise.app.page import document_rows
from appraise.app.track.view import TrackRecord
from appraise.base.money import Money
from appraise.documents.track import track_document, track_of
from appraise.pricing.outcomes import Outcome, with_outcome
from appraise.records.entry import Entry, LoggedEstimate


def logged(count=30):
    """Invented entries with an estimate; every other one was found out later."""
    low, middle, high = (Money.parse(f"{amount} USD") for amount in (28, 40, 57))
    base = Entry("bought", date(2026, 3, 1), estimate=LoggedEstimate(low, middle, high))
    out = []
    for n in range(count):
        said = (("together", 1 - n / count), ("married", n / count))
        entry = replace(base, paid=Money.parse(f"{24 + n * 1.3:.2f} USD"), belonging=said)
        found = Outcome(date(2026, 5, 1), "married" if n > count / 2 else "together", "certain")
        out.append(with_outcome(entry, found) if n % 2 else entry)
    return out


def page_of(track, width, marks):
    return document_rows(track_document(track), width, marks)


@pytest.mark.parametrize("marks", [FINE, PLAIN])
@pytest.mark.parametrize("width", [18, 38, 60, 71, 72, 78, 118, 200])
def test_every_line_fits(width, marks):
    for track in (track_of([], "USD"), track_of(logged(), "USD")):
        for row in page_of(track, width, marks):
            assert length(row) <= width, words_of(row)


def test_at_80_by_24_it_is_all_there_at_once():
    assert len(page_of(track_of(logged(), "USD"), 78, FINE)) <= 21


def test_the_pictures_show_what_was_counted():
    track = track_of(logged(), "USD")
    text = [words_of(row) for row in page_of(track, 78, PLAIN)]
    for name, count in (("well below", track.parts[0]), ("well above", track.parts[-1])):
        row = next(row for row in text if name in row)
        assert str(count) in row
        assert ("#" in row) == bool(count)
    assert any("predicted" in row and "true" in row for row in text)


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_the_key_opens_it_and_q_goes_back(tmp_path, size):
    app = app_on(tmp_path)
    app.session.log.add_all(logged())
    async with app.run_test(size=size) as pilot:
        await settled(pilot)
        await pilot.press("r")
        await settled(pilot)
        assert isinstance(app.screen, TrackRecord)
        text = shown(app)
        assert "of 30 prices" in text
        assert "Brier" in text
        assert "well above" in text
        assert "lines 1-" not in text  # nothing is cut off
        await pilot.press("question_mark")
        await settled(pilot)
        assert "Estimate every price again" in shown(app)
        await pilot.press("q", "q")
        assert not isinstance(app.screen, TrackRecord)


async def test_the_palette_finds_it(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test() as pilot:
        await settled(pilot)
        await pilot.press("ctrl+p")
        await pilot.pause()
        await pilot.press(*"track")
        await pilot.press("enter")
        await settled(pilot)
        assert isinstance(app.screen, TrackRecord)
        assert "Too early to tell" in shown(app)


async def test_the_log_is_played_again_and_back(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        await pilot.press("r")
        await settled(pilot)
        assert "Too early to tell" in shown(app)
        await pilot.press("r")
        await settled(pilot)
        assert "Back-test" in shown(app)
        await pilot.press("r")
        await settled(pilot)
        assert "Too early to tell" in shown(app)
