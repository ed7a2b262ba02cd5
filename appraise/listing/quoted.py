"""Quoted words of a text."""

import re
from collections.abc import Iterator

from appraise.base.dataclass import dataclass
from appraise.base.regex import late

_MARKS = '"“‘«„'
_QUOTED = late(
    r"(?:(?<=[\s(:,])|^)(?:\"(?P<a>[^\"\n]{2,160})\"|“(?P<b>[^”\n]{2,160})”|‘(?P<c>[^’\n]{2,160})’"
    r"|«(?P<d>[^»\n]{2,160})»|„(?P<e>[^“”\n]{2,160})[“”])"
)


@dataclass(frozen=True, slots=True)
class Quote:
    """Quoted words and their place in the text, marks left out."""

    words: str
    start: int
    end: int


def quotes(text: str) -> Iterator[Quote]:
    """Quoted words, wrapped lines included; inch marks open no quotation."""
    if not any(mark in text for mark in _MARKS):
        return
    flat = re.sub(r"(?<=[^\n])\n(?=[^\n])", " ", text)
    for match in _QUOTED.finditer(flat):
        name = str(match.lastgroup)
        start, end = match.span(name)
        if re.search(r"[^\W\d_]|\d{4}", match[name]):
            yield Quote(text[start:end], start, end)
