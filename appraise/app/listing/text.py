"""A seller's text as it comes in: made safe to show and to keep, of any length."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from pathlib import Path

from appraise.base.errors import InputError
from appraise.base.files import read_bytes

LONGEST = 2_000_000  # characters that are read; a listing is some thousands
EDITABLE = 20_000  # characters that can be edited on the screen without a wait
FIELD = "file"  # where a mistake in a path is shown
KEY = "listing"
"""The key under which a draft keeps the text beside the piece."""
BASIS = "read-from"
"""The key of the text that the piece was noted from, where that is not the one that stands."""

OPENED = "opened"
"""The key of the pieces that were opened from it."""

_BREAKS = re.compile("\r\n|[\r\x0b\x0c\x85\u2028\u2029]")
_UNSAFE = re.compile(
    "[\x00-\x09\x0e-\x1f\x7f-\x84\x86-\x9f\u200e\u200f\u202a-\u202e\u2066-\u2069"
    "\ud800-\udfff\ufeff\ufff9-\ufffb\ufffe\uffff]"
)


def cleaned(text: str) -> str:
    """The text with plain line breaks, and a blank for each sign that could act on a terminal.

    Control signs, signs that turn the direction of writing, and halves of characters go; what is
    longer than is read is cut. Every character that is kept can be written into a draft.
    """
    return _UNSAFE.sub(" ", _BREAKS.sub("\n", text[:LONGEST])).strip()


def text_from(name: str) -> str:
    """The text in a file, UTF-8 or as older Windows programs wrote it.

    Raises:
        InputError: when it is no file, cannot be read, is too long, or holds no text.
    """
    path = Path(name).expanduser()
    if not path.is_file():
        raise InputError("there is no such file", FIELD, "Give the path of a text file.")
    if path.stat().st_size > 4 * LONGEST:
        raise InputError("the text is too long for a listing", FIELD)
    text = cleaned(_decoded(read_bytes(path)))
    if not text:
        raise InputError("the file is empty", FIELD)
    return text


def _decoded(data: bytes) -> str:
    for encoding in ("utf-8-sig", "cp1252"):
        try:
            return data.decode(encoding)
        except UnicodeDecodeError:
            continue
    return data.decode("utf-8", errors="replace")


def opened_line(opened: Mapping[int, str]) -> str:
    """The line of YAML that keeps which pieces were opened from a listing: drafts by part."""
    told = json.dumps({str(part): draft for part, draft in opened.items()})
    return f"{OPENED}: {json.dumps(told)}\n" if opened else ""


def opened_in(text: str) -> dict[int, str]:
    """The drafts by part, from what such a line keeps."""
    return {int(part): draft for part, draft in json.loads(text or "{}").items()}


def kept_line(text: str, basis: str | None) -> str:
    """The lines of YAML that keep the text in a draft; the text must be `cleaned`.

    `basis`: the text that the piece was noted from; None: it has still to be read.
    """
    kept = f"{KEY}: {json.dumps(text, ensure_ascii=False)}\n"
    if basis == text:
        return kept
    return f"{kept}{BASIS}: {json.dumps(basis or '', ensure_ascii=False)}\n"
