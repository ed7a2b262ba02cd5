"""Hidden amounts: every field that takes one is masked, every listed one too, and no count is."""

import pytest
from app.kit import app_on, begin, settled, shown
from textual import events
from textual.widgets import Input

from appraise.app.discretion import veiled
from appraise.app.lines import line, words_of
from appraise.app.track.view import TrackRecord
from appraise.documents.document import Document, Table, section

LISTED = """Sixth plate ambrotype of a girl, union case.
64 plus 5 shipping. Asking price 64."""


@pytest.mark.parametrize(
    ("key", "fields"),
    [("x", {"asked", "offered"}), ("b", {"paid"}), ("i", {"asking", "shipping"})],
)
async def test_what_is_typed_into_a_field_for_an_amount_is_masked(tmp_path, key, fields):
    app = app_on(tmp_path)
    async with app.run_test(size=(110, 30)) as pilot:
        await begin(pilot, "sixth ambro thermoplastic vine market")
        await pilot.press(key)
        await settled(pilot)
        masked = {one.id.removeprefix("field-") for one in app.screen.query(Input) if one.password}
    assert masked == fields


async def test_an_amount_of_a_listing_is_masked_whatever_stands_round_it(tmp_path):
    app = app_on(tmp_path)
    app.session.shows = False
    async with app.run_test(size=(110, 30)) as pilot:
        await settled(pilot)
        app.post_message(events.Paste(LISTED))
        await settled(pilot)
        review = app.screen.review
        assert {"asking", "postage"} <= {one.field for one in review.listing.claims}
        for _ in review.items:
            for amount in ("64", "[5]", "›5‹", '"5"'):
                assert amount not in shown(app)
            await pilot.press("down")
            await settled(pilot)
        await pilot.press("m")
        await settled(pilot)
        assert "64" in shown(app)


def test_a_count_beside_a_word_is_none_of_the_amounts():
    for text in ("above      1", "well above ▇▇ 0", "above ▇▇▇ 1"):
        assert words_of(veiled([line(text)])[0]) == text
    assert "80" not in words_of(veiled([line("5 above your limit; above 80")])[0])


async def test_the_track_record_tells_its_counts(tmp_path, monkeypatch):
    rows = (("above", "1"), ("well above", "0"))
    told = Document("", section("fell", "Where", Table("", (), rows, (1,), bars=(0.0, 0.0))))
    monkeypatch.setattr("appraise.app.track.view.track_document", lambda track: told)
    app = app_on(tmp_path, demo=True)
    app.session.shows = False
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        await pilot.press("r")
        await settled(pilot)
        assert isinstance(app.screen, TrackRecord)
        text = shown(app)
    assert "..." not in text.replace("amounts hidden", "")
    assert any(row.split() == ["above", "1"] for row in text.splitlines())
