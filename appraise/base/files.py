"""Whole files in and out, every failure one clear line."""

from pathlib import Path

from appraise.base.errors import InputError


def read_bytes(path: Path) -> bytes:
    """A whole file.

    Raises:
        InputError: when it cannot be read.
    """
    try:
        return path.read_bytes()
    except OSError as error:
        raise InputError(f"cannot be read: {error.strerror or error}", str(path)) from None


def write_new(path: Path, data: bytes) -> None:
    """Write a file that must not be there yet.

    Raises:
        InputError: when it is there already or cannot be written.
    """
    try:
        with path.open("xb") as out:
            out.write(data)
    except FileExistsError:
        raise InputError("the file is there already", str(path), "Choose another name.") from None
    except OSError as error:
        raise InputError(f"cannot be written: {error.strerror}", str(path)) from None
