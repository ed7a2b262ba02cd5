"""The learnt log kept beside it, so that a long log is learnt once for each of its states.

A state is the log's last revision, the currency, the day, and the files by which prices are learnt.
The file is made anew whenever it is missing.
"""

from __future__ import annotations

import zlib
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

from appraise.base.errors import InputError
from appraise.base.files import write_new
from appraise.base.places import Home, shipped_data

if TYPE_CHECKING:
    from appraise.pricing.estimate import Prices

LEAST = 400
"""Entries from which a learnt log is kept; a shorter one is learnt as fast as it is read."""
LEARNS = ("pricing", "knowledge", "records", "base")
"""Rooms of the program by which prices are learnt."""


def learnt(home: Home, state: str, learn: Callable[[], Prices]) -> Prices:
    """The learnt log of a state: as it was kept, or learnt now and kept if that can be."""
    from appraise.pricing.packed import pack, unpack  # 60 ms with numpy

    with suppress(OSError, InputError, UnicodeDecodeError):
        told, _, body = home.learnt.read_bytes().partition(b"\n")
        if told.decode() == state:
            return unpack(body)
    prices = learn()
    if len(prices.rows) >= LEAST:
        with suppress(InputError, OSError):
            write_new(home.learnt, state.encode() + b"\n" + pack(prices), over=True)
    return prices


def files_state(home: Home) -> str:
    """Sizes and times of all files by which prices are learnt, as one number."""
    program = Path(__file__).parent.parent
    found = []
    for place in (*(program / room for room in LEARNS), shipped_data(), home.knowledge):
        for name in sorted(place.glob("*.*")) if place.is_dir() else ():
            told = name.stat()
            found.append((name.name, told.st_size, told.st_mtime_ns))
    return f"{zlib.crc32(repr(found).encode()):08x}"
