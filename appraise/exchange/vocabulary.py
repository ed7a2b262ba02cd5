"""The words of strangers' spreadsheets, by where they are met, made of the knowledge's rows.

English, German, French, Italian, Spanish and Dutch; the rows are `sheets:` in data/ and the user's
own.
"""

import re
from collections.abc import Container, Iterable, Iterator, Mapping
from dataclasses import field
from functools import lru_cache

from appraise.base.dataclass import dataclass
from appraise.base.oneline import folded
from appraise.exchange.housing_words import housing_in
from appraise.knowledge.records import Knowledge, SheetRow

_MAPPED = ("heading", "event", "title", "money", "number", "country", "material")
_LONG = 5  # letters from which a name of a column may stand within a longer one
_TITLE = 400  # characters of a title that is kept
_FEW = 5  # words of a part of a remark that names a housing as a whole
_BEGUN = 4  # letters by which a word is known that is cut short
_JOINED = ("format", "process")
_ALSO_WITHIN = ("date", "paid")
_SIGNS = re.compile(r"[^a-z0-9]")


@dataclass(frozen=True, slots=True, eq=False)
class SheetWords:
    """The words by where they are met.

    Attributes:
        headings: Names of columns, as `plain_name` has them, and the field of each.
        within: Those that may stand within a longer name, the longest first.
        events: What happened, folded, and the record of each.
        titles: Single words of a title, and the record of the rows below it.
        cells: Words of choice by field, and what each means.
        said: Words of a title by field, and what each means.
        money: Words beside an amount, and whose it is.
        numbers: Words for whole numbers, and the figures.
        countries: Names of countries, and the currency of each.
        materials: What cases are made of, and the housing of each.
        groups: All other words by their place.
    """

    headings: Mapping[str, str]
    within: tuple[str, ...]
    events: Mapping[str, str]
    titles: Mapping[str, str]
    cells: Mapping[str, Mapping[str, str]]
    said: Mapping[str, Mapping[str, str]]
    money: Mapping[str, str]
    numbers: Mapping[str, str]
    countries: Mapping[str, str]
    materials: Mapping[str, str]
    groups: Mapping[str, frozenset[str]] = field(default_factory=dict)

    def has(self, place: str, word: str) -> bool:
        """Whether a word, folded, is met at a place."""
        known = self.groups.get(place, ())
        if word in known or word.replace("'", " ") in known:
            return True
        return place in _OF_EVENTS and _inflected(self).get(participle(word)) == _NONE

    def event(self, cell: str) -> str:
        """The record of a cell that says what happened; '' where it does not."""
        word = bare(cell.replace("\u2019", "'"))
        known = self.events.get(word) or self.events.get(word.replace("'", " "))
        found = known or _inflected(self).get(participle(word), "")
        led = None if found else _auxiliary(self).match(word)
        if led and led.end() < len(word):
            return self.event(word[led.end() :])
        return "" if found == _NONE else found

    def countries_in(self, text: str) -> list[str]:
        """The currencies of the countries that a text names."""
        named = _pattern(frozenset(self.countries)).finditer(folded(text))
        return [self.countries[one[0]] for one in named]

    def any_of(self, place: str) -> re.Pattern[str]:
        """A pattern for any word of a place as a whole, in a folded text."""
        return _pattern(self.groups.get(place, frozenset()))

    def begun(self, name: str, cell: str) -> str:
        """The word of a field that one word of a cell begins and no other does: 'Daguer.'."""
        start = bare(cell)
        least = _LONG if name == "housing" else _BEGUN
        if not re.fullmatch(
            rf"[a-z]{{{_BEGUN - 1 if cell.strip()[-1:] == '.' else least},}}", start
        ):
            return ""
        known = {**self.cells.get(name, {}), **self.said.get(name, {})}
        # of 'ambrotype' and 'ambrotype-ruby' the plain one is meant
        meant = sorted({value for word, value in known.items() if word.startswith(start)}, key=len)
        alike = all(one.startswith(meant[0]) for one in meant)
        return meant[0] if meant and alike and meant[0] != "none" else ""

    def begins_piece(self, text: str) -> bool:
        """Whether a text begins with words that name a piece."""
        start = folded(text)
        return any(_of_field(self, name).match(start) for name in self.said)

    def housing(self, part: str) -> str:
        """The housing that a part of a remark names as a whole; '' for none."""
        plain = bare(part)
        made = len(plain.split()) <= _FEW and housing_in(plain, self.materials, self.groups)
        return self.said.get("housing", {}).get(plain, "") or made or ""

    def of_title(self, title: str) -> dict[str, str]:
        """What the words of a title mean, by field; of several the one that stands first.

        A closer one behind it goes before it: 'ambrotype on ruby glass'.
        """
        return dict((_known_title if len(title) <= _TITLE else _title_words)(self, title))


def _title_words(say: SheetWords, title: str) -> Mapping[str, str]:
    """What the words of a title mean."""
    text, found = folded(title), dict[str, str]()
    for name, meant in say.said.items():
        said = [meant[one[0]] for one in _of_field(say, name).finditer(text)]
        if word := next((one for one in said if one != "none"), ""):
            found[name] = next((one for one in said if one.startswith(f"{word}-")), word)
    if housing := housing_in(text, say.materials, say.groups):
        found.setdefault("housing", housing)
    for size, process in _compounds(text, *(say.said.get(name, {}) for name in _JOINED)):
        found.setdefault("format", say.said["format"][size])
        found.setdefault("process", say.said["process"][process])
    return found


_known_title = lru_cache(maxsize=4_096)(_title_words)  # a title is asked about more than once


@lru_cache(maxsize=64)
def _of_field(say: SheetWords, name: str) -> re.Pattern[str]:
    """A pattern for any word of a title that says something of a field."""
    return _pattern(frozenset(say.said[name]))


_ENDING = re.compile(r"\b([a-z]{3,}[td])(?:o|a|i|os|as|es?|er|em|en)\b")
_ENDING_OF_FRENCH = re.compile(r"\b([a-z]{3,}[iue])(?:e|s|es)\b")
_NONE = "no-event"
_OF_EVENTS = ("no-event", "called-off")


def participle(words: str) -> str:
    """Words, folded, with participles in one form: 'comprada', 'verkaufte', 'achetees'."""
    return _ENDING_OF_FRENCH.sub(r"\1", _ENDING.sub(r"\1", words))


@lru_cache(maxsize=8)
def _inflected(say: SheetWords) -> Mapping[str, str]:
    """What happened by participles in one form, 'no-event' for nothing, where they mean one."""
    found = dict[str, set[str]]()
    of_none = (word for place in _OF_EVENTS for word in say.groups.get(place, ()))
    for word, event in (*say.events.items(), *((word, _NONE) for word in of_none)):
        found.setdefault(participle(word), set()).add(event)
    return {form: meant.pop() for form, meant in found.items() if len(meant) == 1}


@lru_cache(maxsize=8)
def _auxiliary(say: SheetWords) -> re.Pattern[str]:
    """A pattern for the words before that of what happened: 'got a refund', 'ho venduto'."""
    return re.compile(rf"{say.any_of('auxiliary').pattern}\s+")


def bare(cell: str) -> str:
    """A cell as its words are compared: folded, without the marks around it."""
    return folded(cell.strip(" .!?*()[]\"'"))


def _compounds(
    text: str, sizes: Iterable[str], processes: Container[str]
) -> Iterator[tuple[str, str]]:
    """Formats and processes that are written as one word: 'stereodaguerreotypie'."""
    words = re.findall(r"[^\W\d_]{12,}", text)
    long = sorted((size for size in sizes if len(size) >= _LONG), key=len) if words else ()
    for word in words:
        for size in long:
            rest = word.removeprefix(size)
            if _LONG < len(rest) < len(word) and rest in processes:
                yield size, rest


@lru_cache(maxsize=64)
def _pattern(words: frozenset[str]) -> re.Pattern[str]:
    ordered = sorted(words, key=len, reverse=True)
    return re.compile(rf"(?<!\w)(?:{'|'.join(map(re.escape, ordered)) or '(?!)'})(?!\w)")


def _made(rows: Iterable[SheetRow]) -> SheetWords:
    maps: dict[str, dict[str, str]] = {place: {} for place in _MAPPED}
    choices: dict[str, dict[str, dict[str, str]]] = {"cell": {}, "within": {}}
    groups = dict[str, set[str]]()
    for row in rows:
        said = [" ".join(folded(word).split()) for word in row.words]
        if row.of in choices:
            meant = choices[row.of].setdefault(row.field, {})
            meant.update(dict.fromkeys(said, row.value))
        elif row.of in maps:
            names = map(_plain, said) if row.of == "heading" else said
            for name in names:
                maps[row.of].setdefault(name, row.value)
        else:
            groups.setdefault(row.of, set()).update(said)
    frozen = {place: frozenset(words) for place, words in groups.items()}
    headings, weak = maps["heading"], frozen.get("weak", frozenset())
    return SheetWords(
        headings,
        _within(headings, weak),
        maps["event"],
        maps["title"],
        choices["cell"],
        choices["within"],
        maps["money"],
        maps["number"],
        maps["country"],
        maps["material"],
        frozen,
    )


def _plain(name: str) -> str:
    return " ".join(_SIGNS.sub(" ", name).split())


def _within(names: Iterable[str], weak: frozenset[str]) -> tuple[str, ...]:
    long = (
        name for name in names if name not in weak and (len(name) >= _LONG or name in _ALSO_WITHIN)
    )
    return tuple(sorted(long, key=lambda name: (-len(name), name)))


def sheet_vocabulary(knowledge: Knowledge) -> SheetWords:
    """The words of the knowledge's rows."""
    return _made(knowledge.sheets.values())


@lru_cache(maxsize=1)
def shipped_vocabulary() -> SheetWords:
    """The words that ship, for whoever has no knowledge at hand."""
    from appraise.knowledge import loader

    return sheet_vocabulary(loader.load())
