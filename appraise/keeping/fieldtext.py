"""Fields of records as a person writes them, one reader for each sort of value.

Each raises `InputError` with the field in `where`, so that a form can go to it.
"""

import datetime as dt
from collections.abc import Iterable, Mapping

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.base.spelling import did_you_mean

YES_NO = ("yes", "no")


def known_fields(texts: Mapping[str, str], fields: Iterable[str]) -> dict[str, str]:
    """The texts without needless blanks, once every field of them is known."""
    for name in texts:
        if name not in fields:
            raise InputError(f"field '{name}' is not known", name, did_you_mean(name, fields))
    return {name: " ".join(text.split()) for name, text in texts.items()}


def day_of(name: str, text: str) -> dt.date:
    """A day as 2026-11-25."""
    try:
        return dt.date.fromisoformat(text)
    except ValueError:
        raise InputError(f"'{text}' is not a day", name, "Write 2026-11-25.") from None


def money_of(name: str, text: str, currency: str) -> Money | None:
    """An amount in the usual currency unless it names one; None when empty."""
    if not text:
        return None
    try:
        return Money.parse(text, currency)
    except InputError as error:
        raise InputError(error.what, name, error.mend) from None


def count_of(name: str, text: str) -> int:
    """A whole number of at most nine digits."""
    if not (text.isascii() and text.isdecimal() and len(text) <= 9):
        raise InputError(f"'{text}' is not a whole number", name)
    return int(text)


def word_of(name: str, text: str, known: Iterable[str]) -> str:
    """One of the known words, blanks as hyphens; '' when empty."""
    word = "-".join(text.lower().split())
    known = list(known)
    if word and word not in known:
        raise InputError(f"'{text}' is not known", name, did_you_mean(word, known))
    return word


def flag_of(name: str, text: str) -> bool:
    """Yes or no; no when empty."""
    if text.lower() not in ("", *YES_NO):
        raise InputError(f"'{text}' is neither yes nor no", name)
    return text.lower() == "yes"


def list_of(text: str) -> tuple[str, ...]:
    """Parts between semicolons or commas."""
    mark = ";" if ";" in text else ","
    return tuple(part.strip() for part in text.split(mark) if part.strip())
