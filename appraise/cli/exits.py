"""Exit statuses; other people's scripts depend on them."""

from enum import IntEnum


class Exit(IntEnum):
    """What a command's exit status says."""

    DONE = 0
    WRONG_INPUT = 1
    USAGE = 2
    INTERRUPTED = 130
