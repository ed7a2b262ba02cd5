"""Garbage is searched for seldom, or not at all, while much is made that stays."""

import atexit
import gc
from collections.abc import Iterator
from contextlib import contextmanager

_USUAL = gc.get_threshold()
_SELDOM = (200_000, 20, 20)


def collect_seldom() -> None:
    """Search for garbage at steps of a command, which keeps most of what it imports and makes."""
    gc.set_threshold(*_SELDOM)


def leave_at_once() -> None:
    """End without searching what is held for garbage: the system takes all of it back anyway."""
    atexit.register(gc.freeze)


def collect_as_usual() -> None:
    """Search for it at the steps of the interpreter."""
    gc.set_threshold(*_USUAL)


@contextmanager
def without_collecting() -> Iterator[None]:
    """No search for garbage meanwhile: all that is made stays, and each search walks all of it."""
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was:
            gc.enable()
