"""Whole files in and out, every failure one clear line."""

import os
from collections.abc import Iterable
from pathlib import Path

from appraise.base.errors import InputError

_NEW = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)


def read_bytes(path: Path) -> bytes:
    """A whole file.

    Raises:
        InputError: when it cannot be read.
    """
    try:
        return path.read_bytes()
    except OSError as error:
        raise InputError(f"cannot be read: {error.strerror or error}", str(path)) from None


def write_new(
    path: Path,
    data: bytes | Iterable[bytes],
    over: bool = False,
    mend: str = "",
    durable: bool = True,
) -> None:
    """Write a whole file: beside its place and then renamed, so that no half of it is ever there.

    It is private to the user, and never takes the place of a device or a directory.

    Args:
        path: Its place.
        data: All of it, or its parts.
        over: Whether it may take the place of one that is there.
        mend: What to do when one is there.
        durable: Whether it is on the disk when this returns; else it may be lost with the power.

    Raises:
        InputError: when it is there already or cannot be written.
    """
    try:
        _write_beside(path, data, over, durable)
    except FileExistsError:
        mend = mend or "Choose another name."
        raise InputError("the file is there already", str(path), mend) from None
    except OSError as error:
        raise InputError(f"cannot be written: {error.strerror}", str(path)) from None


def _write_beside(path: Path, data: bytes | Iterable[bytes], over: bool, durable: bool) -> None:
    path = path.resolve() if over and path.is_symlink() else path
    if path.is_dir():
        raise InputError("is a directory", str(path), "Name a file in it.")
    if os.path.lexists(path) and not over:
        raise FileExistsError
    if os.path.lexists(path) and not path.is_file():
        raise InputError("is not a regular file", str(path), "Choose another name.")
    made = path.with_name(f".{path.name[:80]}.{os.urandom(4).hex()}")
    try:
        with os.fdopen(os.open(made, _NEW, 0o600), "wb") as out:
            out.writelines((data,) if isinstance(data, bytes) else data)
            out.flush()
            if durable:
                os.fsync(out.fileno())
        if over or not _named(made, path):
            os.replace(made, path)
    finally:
        made.unlink(missing_ok=True)


def _named(made: Path, path: Path) -> bool:
    """Give a finished file its name, never over another; False: the system has no hard links.

    Raises:
        FileExistsError: when the name was taken meanwhile.
    """
    try:
        os.link(made, path)
    except FileExistsError:
        raise
    except (OSError, NotImplementedError):
        return False
    return True
