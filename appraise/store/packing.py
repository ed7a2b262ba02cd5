"""Copies of a large log packed with gzip (RFC 1952), and whole again.

The header of a packed copy bears a file name as the standard has it, `log-NUMBER.sqlite`: the
number of the last revision, so that what a copy holds is known without unpacking it.
"""

import re
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from appraise.store.faults import damaged, faults_told
from appraise.store.files import sync_file, workshop
from appraise.store.held import unheld

PACKED = ".gz"
"""What the name of a packed copy ends in."""
_MAGIC = b"\x1f\x8b"
_LEVEL = 6
_BLOCK = 1 << 20  # bytes
_NAMED = re.compile(rb"log-(\d{1,18})\.sqlite\Z")
_HEAD = 10  # bytes before the name; RFC 1952, section 2.3
_HAS_NAME = 8


def is_packed(path: Path) -> bool:
    """Whether a file is packed, by how it begins."""
    if not path.is_file():
        return False
    with unheld(path) as free:
        if not free:
            return False
        with path.open("rb") as file:
            return file.read(2) == _MAGIC


def pack(source: Path, target: Path, row: int) -> None:
    """Write a packed copy of a file, durable and private.

    Raises:
        OSError: when it cannot be written.
    """
    import gzip  # 4 ms, here and below
    from shutil import copyfileobj

    target.touch(mode=0o600)
    with (
        source.open("rb") as whole,
        target.open("wb") as file,
        gzip.GzipFile(f"log-{row}.sqlite", "wb", _LEVEL, file, mtime=0) as packed,
    ):
        copyfileobj(whole, packed, _BLOCK)
    sync_file(target)


def last_row(path: Path) -> int | None:
    """The number of the last revision in a packed copy; None where its header does not tell."""
    with path.open("rb") as file:
        head = file.read(_HEAD + 64)
    if len(head) < _HEAD or not head.startswith(_MAGIC) or head[3] != _HAS_NAME:
        return None
    match = _NAMED.match(head[_HEAD:].partition(b"\0")[0])
    return int(match[1]) if match else None


@contextmanager
def unpacked(path: Path, near: Path) -> Iterator[Path]:
    """The plain copy of a packed file, beside `near` for as long as it is needed.

    A file that is not packed is handed on as it is.

    Raises:
        StoreError: when what was packed is damaged, or there is no room.
    """
    with faults_told(path):
        packed = is_packed(path)
    if not packed:
        yield path
        return
    import gzip
    from shutil import copyfileobj

    with faults_told(near), workshop(near) as place:
        plain = place / "unpacked.sqlite"
        plain.touch(mode=0o600)
        try:
            with gzip.open(path, "rb") as file, plain.open("wb") as out:
                copyfileobj(file, out, _BLOCK)
        except (EOFError, gzip.BadGzipFile, zlib.error) as error:
            raise damaged(path) from error
        yield plain
