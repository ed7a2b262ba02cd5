"""Words in a spreadsheet's cells, understood as the trade understands them.

'ambro', '6th plate', '2 3/4 x 3 1/4' and 'union case' become the words that an entry of the log
uses. What is not understood, or could be two things, is told with what it may mean.
"""

import re
from collections.abc import Callable, Mapping
from difflib import get_close_matches
from functools import lru_cache
from math import exp

from appraise.base.measures import Measure
from appraise.exchange.words import UnknownWordError, as_written
from appraise.knowledge.records import Format, Knowledge
from appraise.listing.passage import Passage
from appraise.listing.sizes import sizes, strays
from appraise.listing.words import fold
from appraise.records.entry import CLOSED_WORDS

MEANT: Mapping[str, str] = {"housing": "case.material", "subjects": "subject"}
"""The vocabulary's name of a field, where it is not the entry's."""
NEAR = 2.0  # standard deviations within which a measure alone names a format
CLEARLY = 6  # times as likely as any other format
LIKE = 0.66  # likeness from which a word is offered
_FIRST_KINDS = {"cased", "loose-plate", "card"}  # a sheet or a slide only where none of these fits
_MIXED = re.compile(r"\d[ \-]\d{1,2}\s*[/⁄]\s*\d|\d\s?[¼-¾⅐-⅞]")  # '2 3/4' alone is no '3/4 plate'
_MONTHS = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"]
_SPOILT = re.compile(
    r"(?P<d>\d{1,2})[-. /]{1,2}(?P<m>[a-z]{3})[a-z]*"
    r"|(?P<m2>[a-z]{3})[a-z]*[-. /]{1,2}(?P<d2>\d{1,2})"
)
_PARTS = {2: "half", 3: "third", 4: "quarter", 6: "sixth", 8: "eighth", 9: "ninth"}


def cell_words(knowledge: Knowledge) -> Callable[[str, str], str]:
    """A reader of single cells that takes any word: (field, text) to the field's word.

    What is not understood stays as it was written, in small letters with hyphens. Each cell is
    read once, since columns repeat themselves.
    """
    strict = sheet_words(knowledge)

    def word(field: str, text: str) -> str:
        try:
            return strict(field, text)
        except UnknownWordError:
            return as_written(field, text)

    return word


def sheet_words(knowledge: Knowledge) -> Callable[[str, str], str]:
    """A reader of single cells that takes known words only: (field, text) to the field's word.

    A cell that is a word of the field stands as it is; else it is what the vocabulary names in
    it, when that is one thing and not denied; a size is the format that it clearly measures. Else
    the reader raises `UnknownWordError` with what may be meant.
    """

    @lru_cache(maxsize=4_096)
    def word(field: str, text: str) -> str:
        plain = as_written(field, text)
        if plain in _known(knowledge, field):
            return plain
        measured = [size.measure for size in sizes(text)] if field == "format" else []
        named = _named(field, text, knowledge)
        if measured:
            return _of_size(text, named, measured[0], knowledge)
        if named and not (field == "format" and _MIXED.search(text)):
            return named
        raise UnknownWordError(text, field, _offers(field, text, knowledge))

    return word


def _named(field: str, text: str, knowledge: Knowledge) -> str:
    """The one word of a field that the vocabulary names in a cell; '' for none or several."""
    values = _all_named(field, text, knowledge)
    found = values.pop() if len(values) == 1 else ""
    return found if found in CLOSED_WORDS.get(field, (found,)) else ""


def _all_named(field: str, text: str, knowledge: Knowledge, denied: bool = False) -> set[str]:
    """The words of a field that the vocabulary names in a cell, those denied too if wished."""
    masks = [(size.start, size.end) for size in sizes(text)]
    passage = Passage(text, knowledge, brief=True, masks=masks)
    scope = Passage(text, knowledge, masks=masks).scope
    return {
        hit.term.value
        for hit in (*passage.things, *passage.hits("deal"))
        if hit.term.field == MEANT.get(field, field)
        if denied or scope.claims(hit.first, hit.last)
    }


def _of_size(text: str, named: str, measure: Measure, knowledge: Knowledge) -> str:
    """The format of a cell that tells a size: the one named if it fits, else the one measured."""
    near = _near(measure, knowledge)
    if named and (named in near or strays(knowledge.formats[named], measure, None) <= 2 * NEAR):
        return named
    ranked = sorted(near, key=lambda name: -near[name])
    if not named and ranked and all(near[ranked[0]] >= CLEARLY * near[one] for one in ranked[1:]):
        return ranked[0]
    raise UnknownWordError(text, "format", (*([named] if named else []), *ranked[:3]))


def _near(measure: Measure, knowledge: Knowledge) -> dict[str, float]:
    """Formats that a measured face fits, with how often each is met."""
    if measure.depth is not None:
        return {}
    fits = {
        name: form
        for name, form in knowledge.formats.items()
        if len(measure.sides) == 2 and strays(form, measure, None) <= NEAR
    }
    first = {name: form for name, form in fits.items() if _FIRST_KINDS & set(form.kinds)}
    return {name: _likely(form, measure) for name, form in (first or fits).items()}


def _likely(form: Format, measure: Measure) -> float:
    return form.share * exp(-(strays(form, measure, None) ** 2) / 2)


def _offers(field: str, text: str, knowledge: Knowledge) -> tuple[str, ...]:
    """What a cell may mean: a fraction that a spreadsheet turned into a day, or a word like it."""
    spoilt = _spoilt(text) if field == "format" else ""
    if spoilt:
        return (spoilt,)
    words = _spellings(knowledge, field)
    near = get_close_matches(fold(text.strip()), words, n=3, cutoff=LIKE)
    named = _all_named(field, text, knowledge, denied=True)
    return tuple(dict.fromkeys(words[one] for one in near if words[one] not in named))[:1]


def _spoilt(text: str) -> str:
    """'01-Jun' was 1/6 before a spreadsheet took it for a day."""
    match = _SPOILT.fullmatch(text.strip().lower().rstrip("."))
    if not match:
        return ""
    month, day = match["m"] or match["m2"], int(match["d"] or match["d2"])
    if month not in _MONTHS:
        return ""
    numbers = sorted((day, _MONTHS.index(month) + 1))
    return _PARTS.get(numbers[1], "") if numbers[0] == 1 else ""


@lru_cache(maxsize=32)
def _spellings(knowledge: Knowledge, field: str) -> Mapping[str, str]:
    """Single words and short names by which the words of a field go."""
    known = _known(knowledge, field)
    found = {word.replace("-", " "): word for word in known}
    for term in knowledge.terms.values():
        if term.field == MEANT.get(field, field) and term.value in known:
            for pattern in (*term.synonyms, *term.brief):
                for word in re.findall(r"[a-z]{4,}", fold(pattern.split()[0])):
                    found.setdefault(word, term.value)
    return found


@lru_cache(maxsize=64)
def _known(knowledge: Knowledge, field: str) -> frozenset[str]:
    """The words of a field."""
    if field in CLOSED_WORDS:
        return frozenset(CLOSED_WORDS[field])
    meant = MEANT.get(field, field)
    found = {term.value for term in knowledge.terms.values() if term.field == meant}
    if field == "process":
        found |= {*knowledge.processes, *(one.family for one in knowledge.processes.values())}
    rows = {"format": knowledge.formats, "housing": knowledge.housings}.get(field, {})
    return frozenset(found | set(rows))
