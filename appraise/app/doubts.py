"""Doubts about what was typed, each raised once: what is confirmed stands."""

from appraise.base.errors import InputError

AGAIN = "Press enter again to record it anyway."


class Doubts:
    """What a form has doubted."""

    def __init__(self) -> None:
        self._said = ""

    def once(self, doubt: str, typed: str, field: str) -> None:
        """Raise a doubt about what was typed, unless it was raised about the same before.

        Raises:
            InputError: placed at the field.
        """
        if doubt and typed != self._said:
            self._said = typed
            raise InputError(doubt, field, AGAIN)
