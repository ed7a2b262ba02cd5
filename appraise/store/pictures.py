"""Pictures of pieces: an entry lists them, their files are kept beside the log, one a content.

Attaching one is an edit like any other and can be undone; files are never taken away.
"""

from __future__ import annotations

import os
import re
import sys
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from appraise.base.errors import InputError, StoreError
from appraise.records.entry import Entry
from appraise.records.picture_file import PictureFile
from appraise.store.faults import faults_told
from appraise.store.files import publish, sync_file, workshop

if TYPE_CHECKING:
    from appraise.store.log import Log

_CHUNK = 1 << 20
_KEPT = re.compile(r"[0-9a-f]{64}(?:\.[a-z0-9]{1,5})?\Z")
_SUFFIX = re.compile(r"\.[a-z0-9]{1,5}\Z")


def directory(log_path: Path) -> Path:
    """Where the pictures of a log are kept."""
    return log_path.parent / "pictures"


def path_of(log_path: Path, picture: PictureFile) -> Path:
    """The file of a picture, whether or not it is there."""
    suffix = Path(picture.name).suffix.lower()
    kept = picture.sha256 + (suffix if _SUFFIX.match(suffix) else "")
    return directory(log_path) / kept


def copy_missing(source: Path, target: Path) -> int:
    """Copy the pictures that lie beside one log and not beside another.

    A file that is not what its name says is left behind.

    Returns:
        How many were copied.

    Raises:
        StoreError: when a file cannot be read or written.
    """
    copied = 0
    have = directory(source / "log")
    want = directory(target / "log")
    with faults_told(have):
        for path in sorted(have.iterdir()) if have.is_dir() else ():
            named = _KEPT.match(path.name)
            if named and not (want / path.name).exists() and digest_of(path) == path.stem:
                keep(path, want / path.name, path.stem)
                copied += 1
    return copied


def keep(file: Path, path: Path, sha256: str) -> None:
    """Copy a file under its final name once it is whole and on the disk.

    Raises:
        StoreError: when it cannot be read or written, or does not hold `sha256`.
    """
    with faults_told(path):
        if path.is_file() and digest_of(path) == sha256:
            return
        with workshop(path) as place:
            made = place / "picture"
            made.touch(mode=0o600)
            made.write_bytes(file.read_bytes())
            if digest_of(made) != sha256:
                raise StoreError("the photo changed while it was copied", str(file), "Try again.")
            sync_file(made)
            if not publish(made, path):  # what stands there is damaged: the whole one takes over
                os.replace(made, path)


def digest_of(path: Path) -> str:
    """The SHA-256 of a file's bytes, 64 hexadecimal digits."""
    from hashlib import sha256

    total = sha256()
    with path.open("rb") as file:
        while block := file.read(_CHUNK):
            total.update(block)
    return total.hexdigest()


LARGEST = 100_000_000  # bytes


def attach(log: Log, ref: str, file: Path) -> Entry:
    """Copy a picture into the log's care and list it with an entry.

    The file is durable before the entry speaks of it. Attaching twice changes nothing.

    Raises:
        InputError: when there is no such file or entry, or it is empty or over 100 MB.
        StoreError: when it cannot be kept.
    """
    entry = log.entry(ref)
    listed = with_file(entry.pictures, log.path, file)
    return (
        entry if listed == entry.pictures else log.edit(replace(entry, pictures=listed), was=entry)
    )


def with_file(
    pictures: tuple[PictureFile, ...], log_path: Path, file: Path
) -> tuple[PictureFile, ...]:
    """The pictures with one more, copied into the log's care; one that is listed stays alone.

    Raises:
        InputError: when there is no such file, or it is empty or over 100 MB.
        StoreError: when it cannot be kept.
    """
    try:
        size = file.stat().st_size
    except OSError as error:
        raise InputError(f"cannot be read: {error.strerror}", where=str(file)) from error
    if not file.is_file() or not 0 < size <= LARGEST:
        raise InputError("is not a photo of 1 byte to 100 MB", where=str(file))
    with faults_told(file):
        picture = PictureFile(digest_of(file), file.name)
    if any(each.sha256 == picture.sha256 for each in pictures):
        return pictures
    keep(file, path_of(log_path, picture), picture.sha256)
    return (*pictures, picture)


def detach(log: Log, ref: str, picture: str) -> Entry:
    """List a picture with an entry no longer; its file stays for the history; as `chosen`."""
    entry = log.entry(ref)
    gone = chosen(entry, picture)
    rest = tuple(each for each in entry.pictures if each != gone)
    return log.edit(replace(entry, pictures=rest), was=entry)


OPENERS = {"darwin": ("open",), "win32": ()}
"""The system's command that opens a file; Windows has a call of its own. Else freedesktop.org's."""

USUAL = ("xdg-open",)


def chosen(entry: Entry, ref: str = "") -> PictureFile:
    """The picture of an entry whose id or name begins with `ref`, or its only one.

    Raises:
        InputError: when there is none, or more than one.
    """
    if not entry.pictures:
        raise InputError("has no photos", entry.id, "'appraise log picture ID FILE' adds one.")
    start = ref.lower()
    found = [
        each
        for each in entry.pictures
        if each.sha256.startswith(start) or each.name.lower().startswith(start)
    ]
    if len(found) != 1:
        known = ", ".join(f"{each.sha256[:8]} {each.name}" for each in entry.pictures)
        what = f"'{ref}' is not one of its photos" if ref else "has several photos"
        raise InputError(what, entry.id, f"Known: {known}.")
    return found[0]


def show(log_path: Path, picture: PictureFile) -> Path:
    """Open a kept picture with the system's viewer, and do not wait for it.

    Returns:
        The picture's file.

    Raises:
        InputError: when the file is missing, or the system has nothing to show it with.
    """
    path = path_of(log_path, picture)
    if not path.is_file():
        raise InputError(
            "the photo's file is missing", str(path), "'appraise log restore' may bring it back."
        )
    from shutil import which

    opener = OPENERS.get(sys.platform, USUAL)
    if opener and which(opener[0]) is None:
        raise InputError("no image viewer found", str(path), "Open the file yourself.")
    try:
        _start(opener, path)
    except OSError as error:
        reason = (error.strerror or type(error).__name__).lower()
        raise InputError(f"could not be shown: {reason}", str(path)) from error
    return path


def _start(opener: tuple[str, ...], path: Path) -> None:
    if not opener:
        getattr(os, "startfile")(path)  # noqa: B009  only Windows has it
        return
    import subprocess  # 5 ms

    with open(os.devnull, "r+b") as nowhere:
        subprocess.Popen(
            [*opener, str(path.absolute())],
            stdin=nowhere,
            stdout=nowhere,
            stderr=nowhere,
            start_new_session=True,
        )
