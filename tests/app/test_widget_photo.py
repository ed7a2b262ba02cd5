"""Thumbnails: proportions and colours of the photo, and one line for what cannot be shown."""

import os
import sys

import pytest
from PIL import Image

from appraise.app.lines import length, words_of
from appraise.app.marks import FINE, PLAIN
from appraise.app.widgets.photo import HALF, thumbnail
from appraise.documents import photos
from appraise.documents.photos import BROKEN, GONE, HUGE


def made(path, size=(80, 60), colour=(200, 30, 30), below=(10, 10, 120)):
    image = Image.new("RGB", size, colour)
    image.paste(below, (0, size[1] // 2, size[0], size[1]))
    image.save(path)
    return path


@pytest.mark.parametrize(
    ("size", "cells"), [((80, 60), (24, 9)), ((60, 80), (15, 10)), ((400, 10), (30, 1))]
)
def test_a_photo_keeps_its_proportions_within_its_room(tmp_path, size, cells):
    rows = thumbnail(made(tmp_path / "a.png", size), 30 if size[0] == 400 else 24, 10, FINE)
    across = {length(row) for row in rows}
    assert (across.pop(), len(rows)) == cells
    assert not across


def test_a_cell_shows_the_dot_above_and_the_dot_below(tmp_path):
    rows = thumbnail(made(tmp_path / "a.png", (4, 4)), 2, 1, FINE)
    assert rows == [((HALF, "#c81e1e on #0a0a78"),) * 2]


def test_without_colours_dark_and_light_are_told_by_signs(tmp_path):
    path = made(tmp_path / "a.png", (40, 40), (255, 255, 255), (0, 0, 0))
    for rows in (thumbnail(path, 8, 4, FINE, colours=False), thumbnail(path, 8, 4, PLAIN)):
        told = [set(words_of(row)) for row in rows]
        assert told[0] == {" "}
        assert told[-1] <= {"█", "@"}
    assert all(words_of(row).isascii() for row in thumbnail(path, 8, 4, PLAIN))


def test_a_photo_turned_by_its_camera_stands_upright(tmp_path):
    image = Image.new("RGB", (80, 40))
    turned = image.getexif()
    turned[0x0112] = 6  # Exif 2.3 (CIPA DC-008), Orientation: the top row is the right side
    image.save(tmp_path / "a.jpg", exif=turned)
    rows = thumbnail(tmp_path / "a.jpg", 40, 40, FINE)
    assert length(rows[0]) < 2 * len(rows)


def test_what_cannot_be_shown_is_one_line(tmp_path, monkeypatch):
    (tmp_path / "a.jpg").write_bytes(b"\xff\xd8\xff not a photo")
    (tmp_path / "b.png").write_bytes(made(tmp_path / "c.png").read_bytes()[:60])
    for name in ("a.jpg", "b.png"):
        assert [words_of(row) for row in thumbnail(tmp_path / name, 40, 10, FINE)] == [BROKEN]
    assert words_of(thumbnail(tmp_path / "none.jpg", 40, 10, FINE)[0]) == f"{GONE}: none.jpg"
    monkeypatch.setattr(photos, "MOST", 100)
    assert words_of(thumbnail(made(tmp_path / "d.png"), 40, 10, FINE)[0]) == HUGE


def test_a_photo_is_read_once_until_its_file_changes(tmp_path, monkeypatch):
    path, opened, real = made(tmp_path / "a.png"), [], Image.open
    monkeypatch.setattr(Image, "open", lambda *a, **k: opened.append(a) or real(*a, **k))
    first = thumbnail(path, 20, 10, FINE)
    assert thumbnail(path, 20, 10, FINE) == first
    assert len(opened) == 1
    made(path, colour=(0, 200, 0))
    os.utime(path, ns=(1, 1))
    assert thumbnail(path, 20, 10, FINE) != first


def test_reading_photos_is_not_loaded_with_the_screen():
    import subprocess

    code = "import appraise.app.examine.view, sys; print('PIL' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"
