"""Reports as files with names of their own in one folder; none is ever written over."""

import re
import unicodedata
from itertools import count
from pathlib import Path

from appraise.base.errors import InputError
from appraise.base.files import write_new
from appraise.documents.document import Document
from appraise.documents.writers.html import html

LONGEST = 40  # letters of a title in a file's name


def file_name(document: Document) -> str:
    """What a report's file is called before its number and ending: small letters and hyphens."""
    parts = unicodedata.normalize("NFKD", document.title).casefold()
    slug = re.sub(r"[^a-z0-9]+", "-", parts.encode("ascii", "ignore").decode())[:LONGEST].strip("-")
    return f"{slug or 'piece'}-{document.reader}"


def keep(document: Document, folder: Path) -> Path:
    """Write a report as a page of HTML into a folder, made if it is not there.

    Returns:
        Its file; of a name that is taken the next free one, with a number.

    Raises:
        InputError: when it cannot be written.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    except OSError as error:
        raise InputError(f"cannot be made: {error.strerror}", str(folder)) from None
    name = file_name(document)
    names = (folder / f"{name}{'' if n == 1 else f'-{n}'}.html" for n in count(1))
    path = next(one for one in names if not one.exists())
    write_new(path, html(document).encode())
    return path
