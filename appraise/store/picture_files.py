"""Picture files beside the log, named by what they hold.

They lie in `pictures/`, each under the SHA-256 of its bytes: the same picture is kept
once, and whether it was altered can be told.
"""

import hashlib
import os
import re
from pathlib import Path

from appraise.base.errors import StoreError
from appraise.records.entry import Picture
from appraise.store.faults import faults_told
from appraise.store.files import publish, sync_file, workshop

_CHUNK = 1 << 20
_KEPT = re.compile(r"[0-9a-f]{64}(?:\.[a-z0-9]{1,5})?\Z")
_SUFFIX = re.compile(r"\.[a-z0-9]{1,5}\Z")


def directory(log_path: Path) -> Path:
    """Where the pictures of a log are kept."""
    return log_path.parent / "pictures"


def path_of(log_path: Path, picture: Picture) -> Path:
    """The file of a picture, whether or not it is there."""
    suffix = Path(picture.name).suffix.lower()
    kept = picture.sha256 + (suffix if _SUFFIX.match(suffix) else "")
    return directory(log_path) / kept


def copy_missing(source: Path, target: Path) -> int:
    """Copy the pictures that lie beside one log and not beside another.

    A file that is not what its name says is left behind.

    Args:
        source: The directory of the log that has them.
        target: The directory of the log that gets them.

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
            made.write_bytes(file.read_bytes())
            if digest_of(made) != sha256:
                raise StoreError("the photo changed while it was copied", str(file), "Try again.")
            sync_file(made)
            if not publish(made, path):  # what stands there is damaged: the whole one takes over
                os.replace(made, path)


def digest_of(path: Path) -> str:
    """The SHA-256 of a file's bytes, 64 hexadecimal digits."""
    total = hashlib.sha256()
    with path.open("rb") as file:
        while block := file.read(_CHUNK):
            total.update(block)
    return total.hexdigest()
