"""Knowledge as it was read last, kept beside the user's files and taken up while none has changed.

Reading the YAML takes 150 ms, taking up what was read 10. Nothing rests on the kept file: where it
is not of these very files and this very program, or is damaged, all is read anew and it is written
again; where it cannot be written, it is done without.
"""

import hashlib
import os
from collections.abc import Iterator
from pathlib import Path

from appraise import knowledge as room
from appraise.base.collecting import without_collecting
from appraise.base.errors import InputError
from appraise.base.files import write_new
from appraise.base.places import shipped_data
from appraise.knowledge.figures import names
from appraise.knowledge.records import Knowledge

CODE = (Path(__file__).parent, Path(__file__).parent.parent / "base")  # what makes records of rows
LARGEST = 10_000_000  # bytes of a file, beyond which it is none of ours
SIZE = hashlib.sha256().digest_size


def ready(kept: Path, overlay: Path) -> Knowledge:
    """The trade's knowledge with the user's rows laid over it, as `load` gives it.

    Args:
        kept: Where it is kept as it was read; nothing is written unless the directory is there.
        overlay: The directory of the user's rows; may be absent.

    Raises:
        KnowledgeError: as `load` does.
    """
    state = _state(overlay)
    found = _taken_up(kept, state) if state else None
    if found is None:
        found = room.load(overlay=overlay)
        if state and kept.parent.is_dir():
            _keep(kept, state, found)
    return found


def _state(overlay: Path) -> bytes:
    """A digest of every file that the knowledge comes from; empty where one is not readable.

    Of a drawing the name counts alone: its lines are read when it is shown.
    """
    digest = hashlib.sha256("\0".join(names()).encode())
    try:
        if overlay.exists() and not overlay.is_dir():
            return b""
        for place in (*CODE, shipped_data(), overlay):
            for path in sorted(_files(str(place), ".py" if place in CODE else ".yaml")):
                if not os.path.isfile(path) or os.path.getsize(path) > LARGEST:
                    return b""
                with open(path, "rb") as file:
                    data = file.read()
                name = place.name + path.removeprefix(str(place)).replace(os.sep, "/")
                digest.update(f"{name}\0{len(data)}\0".encode(errors="surrogateescape") + data)
    except OSError:
        return b""
    return digest.digest()


def _files(place: str, ending: str) -> Iterator[str]:
    """The paths of what ends so in a directory and below it; pathlib takes twice as long."""
    for directory, inner, names_there in os.walk(place):
        for name in (*names_there, *inner):
            if name.endswith(ending):
                yield os.path.join(directory, name)


def _taken_up(kept: Path, state: bytes) -> Knowledge | None:
    """What is kept, if it is of these files and whole."""
    try:
        data = kept.read_bytes() if kept.is_file() else b""
    except OSError:
        return None
    body = data[2 * SIZE :]
    if data[: 2 * SIZE] != state + hashlib.sha256(body).digest():
        return None
    import msgspec  # 10 ms

    try:
        with without_collecting():
            return msgspec.msgpack.decode(body, type=Knowledge)
    except msgspec.MsgspecError:
        return None


def _keep(kept: Path, state: bytes, found: Knowledge) -> None:
    """Keep what was read for the next time, if that can be."""
    import msgspec  # 10 ms

    body = msgspec.msgpack.encode(found)
    try:
        write_new(kept, state + hashlib.sha256(body).digest() + body, over=True)
    except InputError:
        return
