"""What ships, read once in a process for all its tests, as the product reads it once as well.

The records are frozen, and what is worked out from them is kept beside them. Where rows of the
user's own lie over it, all is made of the files anew as ever, and only the text of a file that
ships is parsed once. The demo's home is furnished once and copied.
"""

import os
import shutil
import tempfile
from functools import cache
from pathlib import Path

from appraise import knowledge
from appraise.base.places import Home, shipped_data
from appraise.base.yamls import Row
from appraise.cli import demo
from appraise.knowledge import loader, shelf
from appraise.knowledge import ready as room

COMPOSE = shelf.compose
LOAD, READY = loader.load, room.ready  # as they are, for tests of them
shipped = cache(LOAD)


def load(data=None, overlay=None):
    """In place of the loader."""
    if data is not None or (overlay is not None and os.path.lexists(overlay)):
        return LOAD(data, overlay)
    return shipped()


def ready(kept, overlay):
    """In place of what commands and the app call: nothing is kept of what is read once anyhow."""
    return READY(kept, overlay) if os.path.lexists(overlay) else knowledge.load(overlay=overlay)


@cache
def _texts():
    """The texts of the files that ship."""
    return {path.read_text(encoding="utf-8") for path in shipped_data().rglob("*.yaml")}


@cache
def _nodes(text):
    """What a text is parsed to; a row notes what was asked of it, and changes a copy alone."""
    return COMPOSE(text, "")._node


def composed(text, file):
    """In place of the parser: a text that ships is parsed once, and a row made of it each time."""
    return Row(_nodes(text), file) if text in _texts() else COMPOSE(text, file)


FURNISH = demo.furnish
_furnished = tempfile.TemporaryDirectory(prefix="appraise-tests-")


@cache
def _demo_home():
    """The demo's home, furnished once in a process."""
    home = Home(Path(_furnished.name) / "demo")
    return home, FURNISH(home)


def furnish(home):
    """In place of the demo's own: an empty home becomes a copy of one that is furnished already."""
    if home.root.exists() and any(home.root.iterdir()):
        return FURNISH(home)
    made, settings = _demo_home()
    shutil.copytree(made.root, home.root, dirs_exist_ok=True)
    return settings
