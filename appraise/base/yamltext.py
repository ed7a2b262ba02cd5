"""The text of a YAML file before anything is made of it, refused where it plays tricks."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import yaml

from appraise.base.errors import InputError

BASE: Any = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
LARGEST = 4_000_000  # characters; a piece file is some thousands
_DEEPEST = 40  # levels of nesting


def read_text(path: Path, name: str) -> str:
    """The text of a file that should be UTF-8.

    Args:
        path: The file.
        name: Its name for messages.

    Raises:
        InputError: when it cannot be read, is too large, or is not UTF-8, naming the line.
    """
    try:
        if path.stat().st_size > 4 * LARGEST:
            raise InputError("the file is too large to be one of ours", name)
        data = path.read_bytes()
    except OSError as error:
        raise InputError(f"cannot be read: {error.strerror or error}", name) from None
    try:
        return data.decode("utf-8-sig").replace("\r\n", "\n").replace("\r", "\n")
    except UnicodeDecodeError as error:
        line = error.object.count(b"\n", 0, error.start) + 1
        raise InputError(
            "the file is not UTF-8 text", f"{name}:{line}", "Save it as UTF-8."
        ) from None


def refuse_tricks(text: str, file: str) -> None:
    """Anchors, aliases, tags, several documents and deep nesting, found from the event stream.

    The stream is only walked where the characters that could start one occur, or the text nests
    without line breaks, which shipped knowledge never does.
    """
    if not (set("&*!") & set(text)) and "\n---" not in text and not _nests(text):
        return
    depth = 0
    documents = 0
    for event in _events(text):
        line = event.start_mark.line + 1
        if isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None):
            raise InputError(
                "anchors and aliases are not used here", f"{file}:{line}", "Write it out."
            )
        if getattr(event, "tag", None) and event.tag != "!":
            raise InputError("tags are not used here", f"{file}:{line}", "Remove the '!'.")
        documents += isinstance(event, yaml.DocumentStartEvent)
        if documents > 1:
            raise InputError("one file holds one document", f"{file}:{line}")
        depth += isinstance(event, yaml.CollectionStartEvent)
        depth -= isinstance(event, yaml.CollectionEndEvent)
        if depth > _DEEPEST:
            raise InputError("nested too deeply to be one of ours", f"{file}:{line}")


def _events(text: str) -> Iterator[Any]:
    return iter(yaml.parse(text, Loader=BASE))


def _nests(text: str) -> bool:
    return "[[" in text or "{{" in text or "- -" in text or " " * 2 * _DEEPEST in text
