"""Words of choice in a spreadsheet: what each was taken for, and what is to be asked.

A word that is not understood is never stored: the user says what it means, or leaves it out.
"""

import re
from collections import Counter
from collections.abc import Callable, Iterable, Mapping

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.oneline import folded
from appraise.base.spelling import did_you_mean
from appraise.records.entry import CLOSED_WORDS, KIND_OF, OPEN_WORDS
from appraise.records.values import SeveralKind

WORD_FIELDS = (*CLOSED_WORDS, *OPEN_WORDS)
Words = Callable[[str, str], str]
SHOWN = 8  # words that a message names
_LONGEST = 200  # characters of a cell that may be a word


def listed(text: str) -> list[str]:
    """The words of a text that stand between semicolons, each on one line."""
    return [" ".join(one.split()) for one in text.split(";")]


def as_written(name: str, text: str) -> str:
    """A word as an entry wants it: lower case, hyphens for spaces."""
    return re.sub(r"[^a-z0-9]+", "-", folded(text)).strip("-")


class UnknownWordError(InputError):
    """A cell of a field of words is not understood.

    Args:
        text: The cell.
        field: The field.
        offers: Words of the field that may be meant, the likeliest first.
    """

    def __init__(self, text: str, field: str, offers: tuple[str, ...] = ()) -> None:
        self.offers = offers
        super().__init__(f"'{text}' is not a known {field}")


@dataclass(frozen=True, slots=True)
class WordUse:
    """A word of a column and what it was taken for.

    Attributes:
        field: The field.
        text: The cell as written.
        meaning: The field's word; empty when it is not understood, or left out.
        rows: How many rows say so.
        offers: What may be meant, where it is not understood.
        open: Whether it is to be asked about.
    """

    field: str
    text: str
    meaning: str
    rows: int
    offers: tuple[str, ...] = ()
    open: bool = False

    @property
    def option(self) -> str:
        """What to type so that it means its likeliest word, or nothing."""
        return f"--word {_quoted(f'{self.text}={self.offers[0] if self.offers else str()}')}"


def is_several(field: str) -> bool:
    """Whether a field holds several words."""
    return isinstance(KIND_OF.get(field), SeveralKind)


def words_in(field: str, cell: str) -> list[str]:
    """The words of a cell: several in a field that may hold several, else the cell as it is."""
    parts = re.split("[,;+]", cell) if is_several(field) else [cell]
    return [one.strip() for one in parts if one.strip()]


def short_words(words: Words) -> Words:
    """The words, of which none is longer than a name may be: such a cell is not read at all."""

    def word(field: str, text: str) -> str:
        if len(text) > _LONGEST:
            raise UnknownWordError(f"{text[:_LONGEST]}..", field)
        return words(field, text)

    return word


def is_word(field: str, text: str, words: Words) -> bool:
    """Whether a cell is understood as a word of a field."""
    try:
        return bool(words(field, text))
    except InputError:
        return False


def with_meanings(words: Words, meant: Mapping[str, str]) -> Words:
    """The words with those that the user explained, which are understood by that."""
    told = {folded(key) for key in meant}

    def word(field: str, text: str) -> str:
        if told & {folded(text), folded(f"{field}:{text}")}:
            return text
        return words(field, text)

    return word


def word_uses(
    cells: Iterable[tuple[str, str]], words: Words, chosen: Mapping[str, str]
) -> tuple[WordUse, ...]:
    """Every word of the columns of words, the first met first.

    Args:
        cells: Pairs of field and cell.
        words: Turns a cell into the field's word, or raises `UnknownWordError`.
        chosen: What the user said: a cell, or 'field:cell', to its meaning; '' leaves it out.

    Raises:
        InputError: when a choice names a cell that there is not, or is no word of its field.
    """
    counted = Counter((field, text.strip()) for field, text in cells)
    meant = {folded(key): value for key, value in chosen.items()}
    named = {folded(text) for _, text in counted}
    for key in chosen:
        if folded(key) not in named | {folded(f"{field}:{text}") for field, text in counted}:
            where = "--word"
            raise InputError(f"there is no cell '{key}'", where, did_you_mean(folded(key), named))
    return tuple(_use(field, text, rows, words, meant) for (field, text), rows in counted.items())


def _use(field: str, text: str, rows: int, words: Words, meant: Mapping[str, str]) -> WordUse:
    told = meant.get(folded(f"{field}:{text}"), meant.get(folded(text)))
    if told == "":
        return WordUse(field, text, "", rows)
    try:
        return WordUse(field, text, words(field, text if told is None else told), rows)
    except UnknownWordError as error:
        if told is not None:
            mend = f"Did you mean '{error.offers[0]}'?" if error.offers else ""
            raise InputError(error.what, "--word", mend) from error
        return WordUse(field, text, "", rows, error.offers, open=True)
    except InputError:
        return WordUse(field, text, text, rows)  # its rows are bad, and say why


def unknown(uses: Iterable[WordUse]) -> str:
    """What is not understood, in one sentence; empty when all is."""
    fields: dict[str, list[str]] = {}
    asked = _asked(uses)
    for use in asked[:SHOWN]:
        fields.setdefault(use.field, []).append(f"'{_short(use.text)}'")
    told = "; ".join(f"{field}: {', '.join(texts)}" for field, texts in fields.items())
    more = f" and {len(asked) - SHOWN:,} more" if len(asked) > SHOWN else ""
    return f"words that are not understood: {told}{more}" if asked else ""


def options(uses: Iterable[WordUse]) -> str:
    """What to type about the words that are not understood."""
    asked = _asked(uses)
    told = " ".join(use.option for use in asked[:SHOWN])
    return f"Write what each means, or nothing to leave it out: {told}" if asked else ""


def _asked(uses: Iterable[WordUse]) -> list[WordUse]:
    """The words to be asked about, field by field."""
    asked = [use for use in uses if use.open]
    fields = list(dict.fromkeys(use.field for use in asked))
    return sorted(asked, key=lambda use: fields.index(use.field))


def _quoted(text: str) -> str:
    return text if text.replace("=", "").replace("-", "").isalnum() else f'"{text}"'


def _short(text: str) -> str:
    return text if len(text) <= 40 else f"{text[:38]}.."
