"""Photos: dropped or by path, on the table, on record pages, on arrival and in reports."""

from urllib.parse import quote

import pytest
from app.kit import app_on, begin, settled, shown
from PIL import Image
from textual.events import Paste

from appraise.app.marks import FINE
from appraise.app.photos import Album, dropped, thumbnails
from appraise.app.widgets.photo import HALF
from appraise.records.picture_file import PictureFile
from appraise.records.piece_file import parse_piece
from appraise.store.pictures import path_of


def photo(path, colour=(120, 90, 60)):
    Image.new("RGB", (80, 60), colour).save(path)
    return path


async def drop(pilot, path):
    """Drop a file on the screen, as a terminal does."""
    pilot.app.screen.post_message(Paste(f"'{path}'"))
    await settled(pilot)


@pytest.mark.parametrize("name", ["a.jpg", "with blank.jpg", "ambre é.jpeg"])
def test_a_dropped_file_is_known_however_a_terminal_writes_it(tmp_path, name):
    path = photo(tmp_path / name)
    escaped = str(path).replace(" ", "\\ ")
    for text in (f"{path}", escaped, f"{escaped} ", f"file://{quote(str(path))}", f'"{path}"'):
        assert dropped(text) == (path,), text


def test_several_files_are_dropped_at_once_and_other_text_is_none(tmp_path):
    a, b = photo(tmp_path / "a.jpg"), photo(tmp_path / "b.jpg")
    assert dropped(f"{a} {b}") == dropped(f"{a}\n{b}") == (a, b)
    (tmp_path / "c.txt").write_text("no photo")
    for text in ("", "sixth plate, 85 USD", f"{a} and more", f"{tmp_path}/c.txt", "it's", "/a.jpg"):
        assert dropped(text) == ()


class Shelf:
    """As much of a session as thumbnails need."""

    marks = FINE

    def __init__(self, path):
        self.log = self
        self.path = path / "log.db"


def test_photos_of_both_sides_stand_beside_each_other_with_their_captions(tmp_path):
    shelf, listed = Shelf(tmp_path), []
    (tmp_path / "pictures").mkdir()
    for digit in "abc":
        listed.append(PictureFile(digit * 64, f"{digit}.png"))
        photo(path_of(shelf.path, listed[-1]))
    album = Album((listed[0],), print, (listed[1], listed[2]), "listing")
    rows = ["".join(words for words, _ in row) for row in thumbnails(shelf, album, 44, 8)]
    assert HALF in rows[0]
    assert [one.split() for one in rows if "listing" in one] == [["listing", "in", "hand"]]
    assert rows[-2] == "1 more: o opens one"
    assert not thumbnails(shelf, album, 44, 4)
    assert not thumbnails(shelf, None, 44, 8)


async def test_a_photo_is_added_on_the_table_by_path_and_by_drop_and_goes_into_the_log(tmp_path):
    files = photo(tmp_path / "first.jpg"), photo(tmp_path / "se cond.png", (9, 9, 9))
    app = app_on(tmp_path / "home")
    async with app.run_test(size=(160, 45)) as pilot:
        await begin(pilot, "ambrotype sixth plate 85 fair")
        assert HALF not in shown(app)
        await pilot.press("a")
        app.screen.query_one("Input").value = str(files[0])
        await pilot.press("enter")
        await settled(pilot)
        assert HALF in shown(app)
        await drop(pilot, files[1])
        assert "Added se cond.png" in shown(app)
        (draft,) = app.session.log.drafts()
        piece = parse_piece(draft.text, "", app.session.knowledge)
        assert [one.name for one in piece.pictures] == ["first.jpg", "se cond.png"]
        for one, file in zip(piece.pictures, files, strict=True):
            assert path_of(app.session.log.path, one).read_bytes() == file.read_bytes()
        await pilot.press("u")
        await settled(pilot)
        assert len(app.screen.exam.piece.pictures) == 1
        await pilot.press("ctrl+r")
        await settled(pilot)
        await pilot.press("b")
        await pilot.pause()
        await pilot.press("enter")
        await settled(pilot)
        (entry,) = app.session.log.entries()
        assert [one.name for one in entry.pictures] == ["first.jpg", "se cond.png"]
        assert "photos" not in entry.piece


async def test_what_is_no_file_is_told_in_the_form(tmp_path):
    app = app_on(tmp_path / "home")
    async with app.run_test(size=(80, 24)) as pilot:
        await begin(pilot, "ambrotype sixth plate 85 fair")
        await pilot.press("o")
        assert "No photos yet. a adds one." in shown(app)
        await pilot.press("a")
        app.screen.query_one("Input").value = str(tmp_path / "none.jpg")
        await pilot.press("enter")
        await pilot.pause()
        assert "none.jpg cannot be read: No such file or directory" in shown(app)


async def test_listing_stands_beside_in_hand_on_arrival(tmp_path):
    bought, mine = photo(tmp_path / "seller.jpg"), photo(tmp_path / "mine.jpg", (9, 90, 9))
    app = app_on(tmp_path / "home")
    async with app.run_test(size=(110, 40)) as pilot:
        await begin(pilot, "ambrotype sixth plate 85 online")
        await drop(pilot, bought)
        for key in ("b", "enter", "h", "n", "enter", "x"):
            await pilot.press(key)
            await settled(pilot)
        assert "listing" in shown(app)
        await drop(pilot, mine)
        assert "in hand" in shown(app)
        for key in ("1", "q", "a"):
            await pilot.press(key)
            await settled(pilot)
        told = shown(app)
        assert "Arrival" in told
        rows = [one.split()[-3:] for one in told.splitlines()]
        assert ["listing", "in", "hand"] in rows
        await pilot.press("q", "enter", "P")
        await settled(pilot)
        assert HALF in shown(app)
        assert "in hand" not in shown(app).split("listing")[0]
        await pilot.press("p")
        app.screen.query_one("Input").value = str(bought)
        await pilot.press("enter")
        await settled(pilot)
