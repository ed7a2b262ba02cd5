"""Pictures shown by the system's own viewer."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

from appraise.base.errors import InputError
from appraise.records.entry import Entry, Picture
from appraise.store.picture_files import path_of

OPENERS = {"darwin": ("open",), "win32": ()}
"""The system's command that opens a file; Windows has a call of its own. Else freedesktop.org's."""

USUAL = ("xdg-open",)


def chosen(entry: Entry, ref: str = "") -> Picture:
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


def show(log_path: Path, picture: Picture) -> Path:
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
    opener = OPENERS.get(sys.platform, USUAL)
    if opener and shutil.which(opener[0]) is None:
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
    with open(os.devnull, "r+b") as nowhere:
        subprocess.Popen(
            [*opener, str(path.absolute())],
            stdin=nowhere,
            stdout=nowhere,
            stderr=nowhere,
            start_new_session=True,
        )
