"""A listing that is left while its text is read: it is read to the end, whatever was done."""

import pytest
from app.kit import app_on, settled, shown, until
from textual import events

from appraise.app.listing import view
from appraise.app.listing.marked import Marked
from appraise.app.listing.review import BLANK, Review, Stand
from appraise.app.listing.text import kept_line
from appraise.app.listing.view import ListingScreen, read_text
from appraise.listing.reader import read
from appraise.records.piece_file import write_piece

TEXT = "Antique sixth plate ambrotype of a girl, union case. Hinge taped. $65 plus $8 shipping."
MORE = f"{TEXT}\nThe case is leather. The mat is oval."


@pytest.fixture
def waiting(monkeypatch):
    """The reading does not begin until it is let go."""
    jobs = []
    monkeypatch.setattr(view, "read_text", lambda *job: jobs.append(job))
    yield jobs
    monkeypatch.setattr(view, "read_text", read_text)


async def paste(pilot, text):
    pilot.app.post_message(events.Paste(text))
    await until(pilot, lambda: isinstance(pilot.app.screen, ListingScreen))
    await pilot.pause()


@pytest.mark.parametrize("keys", [[], ["f1", "q"], ["i", "s", "c", "1", "tab", "enter", "v", "f"]])
async def test_a_listing_left_while_it_is_read_is_whole_when_it_is_opened_again(
    tmp_path, monkeypatch, keys
):
    app = app_on(tmp_path)
    async with app.run_test(size=(110, 30)) as pilot:
        await settled(pilot)
        with monkeypatch.context() as held:
            held.setattr(view, "read_text", lambda *job: None)
            await paste(pilot, TEXT)
            for key in keys:
                await pilot.press(key)
            await pilot.press("q")
            await settled(pilot)
            assert "not read yet" in shown(app)
        await pilot.press("1")
        await settled(pilot)
        review = app.screen.review
        assert review.piece == review.listing.piece
        assert "untitled" not in shown(app)
        await pilot.press("q")
        await settled(pilot)
        text = shown(app)
        assert "not read yet" not in text
        assert "untitled" not in text
    app.session.close()


async def test_a_text_added_and_left_unread_comes_over_what_was_seen_by_hand(tmp_path, monkeypatch):
    app = app_on(tmp_path)
    async with app.run_test(size=(110, 30)) as pilot:
        await settled(pilot)
        await paste(pilot, TEXT)
        await settled(pilot)
        screen = app.screen
        assert screen.review.see("hinge.tape", "0")
        screen.changed()
        with monkeypatch.context() as held:
            held.setattr(view, "read_text", lambda *job: None)
            screen.take_text(MORE)
            await pilot.press("q")
            await settled(pilot)
        await pilot.press("1")
        await settled(pilot)
        piece = app.screen.review.piece
    app.session.close()
    assert piece.found("mat.shape") == "oval"
    assert piece.findings["hinge.tape"].known == "photo"


async def test_keys_tell_that_the_text_is_being_read(tmp_path, waiting):
    app = app_on(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        await paste(pilot, TEXT)
        for key in ("tab", "down", "enter", "i", "s", "c", "y", "f"):
            await pilot.press(key)
            assert "still being read" in shown(app), key
        assert isinstance(app.screen, ListingScreen)
    app.session.close()


def test_what_changes_before_a_text_is_read_stays_over_it(knowledge):
    review = Review(knowledge, "listing x", Stand(TEXT, None))
    said = read(TEXT, knowledge)
    assert review.change(BLANK.with_finding("mat.shape", "oval", "photo"))
    assert review.items == ()
    review.read(0, said, Marked(TEXT, ()))
    assert review.piece.found("mat.shape") == "oval"
    assert review.piece.asking == said.piece.asking
    assert review.piece.title == said.piece.title


def test_a_change_between_two_texts_shows_nothing_of_the_earlier_one(knowledge):
    review = Review(knowledge, "listing x", Stand(TEXT, None))
    review.read(0, read(TEXT, knowledge), Marked(TEXT, ()))
    review.take_text("a ninth plate tintype, $20")
    review.change(review.piece.with_finding("mat.shape", "oval", "photo"))
    assert review.reading
    assert review.items == ()
    listing = read(review.text, knowledge)
    review.read(review.turn, listing, Marked(review.text, ()))
    claimed = [one.claim for one in review.items if one.claim]
    assert claimed == list(listing.claims)


def test_a_draft_tells_from_which_text_its_piece_was_noted():
    assert kept_line("one", "one") == 'listing: "one"\n'
    assert kept_line("two", "one").endswith('read-from: "one"\n')
    assert kept_line("one", None).endswith('read-from: ""\n')
    assert "listing" not in write_piece(BLANK)
