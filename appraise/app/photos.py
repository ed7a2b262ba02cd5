"""The photos that a screen lists: shown small side by side, added by path or drop, opened."""

from __future__ import annotations

import os
import shlex
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any
from urllib.parse import unquote, urlsplit
from urllib.request import url2pathname

from appraise.app.actions import actions_of
from appraise.app.form import ask_file
from appraise.app.lines import EMPTY, Line, beside, clip, fill, length, line
from appraise.app.lists.spec import Act
from appraise.app.picker import Choice, choose
from appraise.app.widgets.photo import thumbnail
from appraise.app.widgets.reading import Write
from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.records.fields import Field
from appraise.records.picture_file import PictureFile
from appraise.store.pictures import path_of, show, with_file

if TYPE_CHECKING:
    from appraise.app.lists.sheet import RecordSheet
    from appraise.app.session import Session
    from appraise.app.sheet import Sheet
    from appraise.records.stored import Stored

LEAST = 5  # lines of a photo that still show something
GAP = 2  # cells between two photos
BESIDE, WIDEST = 100, 56  # cells from which photos stand beside a text, and that they take
MOST = 100  # cells of a text: wider lines are hard to read
SORTS = (".jpg", ".jpeg", ".png", ".gif", ".webp", ".tif", ".tiff", ".bmp", ".heic", ".avif")
"""Endings of a file by which what was dropped is taken for a photo."""
FILE = Field("file", "the path of a photo, or drop its file here; it is copied", label="photo file")
ADDS = "add photo"  # what the key is called by which one is added

Pictures = tuple[PictureFile, ...]


@dataclass(frozen=True, slots=True)
class Album:
    """The photos of one piece.

    Attributes:
        pictures: Those that can be added to and unlinked here.
        save: Keeps others in their place.
        before: Those from before it was in hand, which stand beside and are not changed.
        source: Where those come from, in a word or two.
    """

    pictures: Pictures
    save: Callable[[Pictures], object]
    before: Pictures = ()
    source: str = ""

    @property
    def every(self) -> Pictures:
        """All of them, each once."""
        return tuple(dict.fromkeys((*self.before, *self.pictures)))

    @property
    def told(self) -> list[tuple[PictureFile, str]]:
        """All of them in their order, and what stands under each: the first of each side first."""
        mine = [(one, "in hand" if self.before else "") for one in self.pictures]
        old = [(one, self.source) for one in self.before if one not in self.pictures]
        return [*old[:1], *mine[:1], *mine[1:], *old[1:]]


def thumbnails(session: Session, album: Album | None, width: int, rows: int) -> list[Line]:
    """The first photos side by side in so many lines, and how many more there are."""
    told = album.told if album else []
    if not told or rows < LEAST:
        return []
    captions = any(says for _, says in told)
    many = min(len(told), max(1, (width + GAP) // (2 * rows + GAP)))
    most = min(3 * rows, (width - GAP * (many - 1)) // many)
    colours = "NO_COLOR" not in os.environ
    blocks = []
    for picture, says in told[:many]:
        path = path_of(session.log.path, picture)
        drawn = thumbnail(path, most, rows - captions, session.marks, colours)
        caption = line((clip(says, most, session.marks), "quiet"))
        blocks.append([*drawn, *([caption] if captions else [])])
    left = len(told) - many
    more = [line((f"{left} more: o opens one", "quiet"))] if left else []
    return [*_abreast(blocks), *more, EMPTY]


def with_photos(
    session: Session,
    album: Album | None,
    width: int,
    height: int,
    write: Write,
    after: Write = lambda width: (),
) -> list[Line]:
    """A text with the photos and what comes after at its right where there is room.

    Else the photos stand above it, and what comes after below.

    Args:
        session: This run.
        album: The photos; None where there are none.
        width: Cells of both.
        height: Lines of the screen.
        write: Writes the text in lines of a width.
        after: Writes what comes after it.
    """
    if width < BESIDE:
        rest = after(width)
        below = [EMPTY, *rest] if rest else []
        return [*thumbnails(session, album, width, height // 3), *write(width), *below]
    across = min(width // 3, WIDEST)
    abreast = 2 if album and len(album.told) > 1 else 1
    rows = (across + GAP) // (2 * abreast) - 1
    drawn = thumbnails(session, album, across, min(rows, height - 4))
    side = [*drawn, *after(across)]
    room = min(MOST, width - across - GAP if side else width)
    text, many = write(room), len(side)
    return [*beside(text, side, (room, across), many, " " * GAP), *text[many:]]


def _abreast(blocks: Sequence[Sequence[Line]]) -> list[Line]:
    """Blocks of lines side by side, each as wide as its widest line."""
    widths = [max(map(length, one)) for one in blocks]
    out = []
    for at in range(max(map(len, blocks))):
        row: Line = ()
        for block, width in zip(blocks, widths, strict=True):
            cells = fill(block[at] if at < len(block) else EMPTY, width)
            row = (*row, *([(" " * GAP, "")] if row else []), *cells)
        out.append(row)
    return out


def dropped(text: str, sorts: tuple[str, ...] = SORTS) -> tuple[Path, ...]:
    """The files, photos unless said otherwise, that were dropped or pasted; none in other text.

    A terminal writes what is dropped on it as a path with its blanks escaped or in quotes, or as a
    file URL (RFC 8089); several stand in a row or below each other.
    """
    found: list[Path] = []
    for row in text.split("\n"):
        row = row.strip()
        whole = _path(row.strip("'\""), sorts)
        if row and whole is not None:
            found.append(whole)
            continue
        try:
            parts = shlex.split(row)
        except ValueError:
            return ()
        paths = [_path(part, sorts) for part in parts]
        if None in paths:
            return ()
        found += [path for path in paths if path is not None]
    return tuple(found)


def _path(text: str, sorts: tuple[str, ...]) -> Path | None:
    """The file of some sort that a text names; None where it names none that is there."""
    if text.startswith("file:"):
        text = url2pathname(unquote(urlsplit(text).path))
    try:
        path = Path(text).expanduser()
        return path if path.suffix.lower() in sorts and path.is_file() else None
    except (OSError, ValueError, RuntimeError):
        return None


def take(sheet: Sheet[Any], album: Album, files: Sequence[Path]) -> None:
    """Copy files and list them.

    Raises:
        InputError: when a file is none that can be taken; then nothing is listed.
    """
    pictures = album.pictures
    for file in files:
        try:
            pictures = with_file(pictures, sheet.session.log.path, file)
        except InputError as error:
            raise InputError(f"{file.name} {error.what}", "file", error.mend) from None
    if pictures != album.pictures:
        album.save(pictures)


def drop_on(sheet: Sheet[Any], album: Album | None, text: str, then: Callable[[], object]) -> bool:
    """Take what was dropped on a screen; False where it is no photo."""
    files = dropped(text) if album else ()
    if album is None or not files:
        return False
    if sheet.attempt(lambda: take(sheet, album, files)):
        then()
        told = files[0].name if len(files) == 1 else f"{len(files)} photos"
        sheet.say(f"Added {told}. u: undo.", "good")
    return True


def ask(sheet: Sheet[Any], album: Album, then: Callable[[], object]) -> None:
    """Ask for a file, copy it, and list it."""

    def read(typed: str) -> None:
        take(sheet, album, dropped(typed) or [Path(typed).expanduser()])

    ask_file(sheet, "Add a photo", FILE, read, lambda _: then())


def open_one(sheet: Sheet[Any], album: Album) -> None:
    """Open a photo in the system's viewer; where there are several, one is chosen first."""

    def shown(picture: PictureFile) -> None:
        if sheet.attempt(lambda: show(sheet.session.log.path, picture)):
            sheet.say(f"{picture.name} is shown in another window.", "good")

    _one_of(sheet, album.every, "Open which photo?", shown)


def unlink_one(sheet: Sheet[Any], album: Album, then: Callable[[], object]) -> None:
    """List a photo no more; its file stays for the history, and undo lists it again."""

    def unlinked(picture: PictureFile) -> None:
        rest = tuple(one for one in album.pictures if one != picture)
        if sheet.attempt(lambda: album.save(rest)):
            then()

    _one_of(sheet, album.pictures, "Unlink which photo?", unlinked)


def _one_of(
    sheet: Sheet[Any], pictures: Pictures, title: str, then: Callable[[PictureFile], None]
) -> None:
    if not pictures:
        key = next(one.keys for one in actions_of(sheet.AREA) if one.verb == ADDS)
        sheet.say(f"No photos yet. {key} adds one.")
        return
    by_id = {one.sha256: one for one in pictures}
    choices = [Choice(one.sha256, one.name, note=one.sha256[:8]) for one in by_id.values()]
    choose(sheet, title, choices, lambda sha256: then(by_id[sha256]))


def on_record(
    do: Callable[..., None], changes: bool = True
) -> Callable[[RecordSheet, Stored[Any]], None]:
    """What a key does to the photos of the record one is at."""

    def done(sheet: RecordSheet, one: Stored[Any]) -> None:
        album = sheet.spec.album(sheet.session, one)
        if album is not None:
            do(sheet, album, *([sheet.changed] if changes else []))

    return done


ACTS = {
    "picture": Act(on_record(open_one, changes=False)),
    "attach": Act(on_record(ask)),
    "detach": Act(on_record(unlink_one)),
}
"""What the keys of a list and of a page do to the photos of a record."""
