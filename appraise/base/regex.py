"""Regular expressions that are compiled when they are first used.

To compile one of a thousand characters takes 1 to 3 ms, and few texts need all of them.
"""

import re
from functools import cached_property
from typing import Any


class _Late:
    """Stands for a pattern until something is asked of it."""

    def __init__(self, text: str, flags: int) -> None:
        self._text, self._flags = text, flags

    @cached_property
    def _made(self) -> re.Pattern[str]:
        return re.compile(self._text, self._flags)

    def __getattr__(self, name: str) -> Any:
        found = getattr(self._made, name)
        setattr(self, name, found)  # so that it is asked once
        return found


def late(text: str, flags: int = 0) -> re.Pattern[str]:
    """A pattern as `re.compile` gives it; what is wrong with it is told at its first use."""
    made: Any = _Late(text, flags)
    return made  # type: ignore[no-any-return]
