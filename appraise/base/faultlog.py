"""What broke, with where it broke, in a small file beside the log: for whoever mends it."""

import datetime as dt
import os
import traceback
from pathlib import Path

LARGEST = 200_000  # bytes, then a new file is begun and the one before is kept


def record_fault(path: Path, error: BaseException, doing: str, time: dt.datetime) -> None:
    """Write a traceback at the end of the file of faults, private to the user.

    Args:
        path: The file; its directory is made where it is missing. A full disk must not break what
            is left, so that it may not have been written.
        error: What was raised.
        doing: What was being done.
        time: When, with its zone.
    """
    told = "".join(traceback.format_exception(error))
    try:
        path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        if path.exists() and path.stat().st_size > LARGEST:
            path.replace(path.with_suffix(".1.log"))
        with os.fdopen(os.open(path, os.O_WRONLY | os.O_APPEND | os.O_CREAT, 0o600), "a") as file:
            file.write(f"{time.isoformat(timespec='seconds')} {doing}\n{told}\n")
    except OSError:
        pass
