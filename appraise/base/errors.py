"""The one family of errors that a user may see, each a single line ready to print."""

from collections.abc import Iterator
from contextlib import contextmanager


class AppraiseError(Exception):
    """A mistake in the input or the surroundings, told as what, where and the mend.

    Args:
        what: What is wrong, in plain words.
        where: File, line and key, or the command; empty when it is plain.
        mend: What to do about it; empty when nothing can be suggested.
    """

    def __init__(self, what: str, where: str = "", mend: str = "") -> None:
        self.what = what
        self.where = where
        self.mend = mend
        super().__init__(what, where, mend)

    def __str__(self) -> str:
        text = f"{self.where}: {self.what}" if self.where else self.what
        if self.mend:
            text = f"{text}{'' if text.endswith('?') else '.'} {self.mend}"
        return " ".join(text.split())


class InputError(AppraiseError):
    """A value or a file that the user wrote cannot be read as meant."""


@contextmanager
def placed(where: str) -> Iterator[None]:
    """Say of a mistake that is found inside where it stands."""
    try:
        yield
    except InputError as error:
        raise InputError(error.what, where, error.mend) from None


class KnowledgeError(AppraiseError):
    """A row of the trade's knowledge is unusable."""


class StoreError(AppraiseError):
    """The price log cannot be opened, read or written."""
