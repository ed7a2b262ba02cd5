"""When a piece is said to have been made: years, decades and spans in prose, as EDTF."""

import re
from collections.abc import Callable, Iterator, Sequence
from functools import lru_cache
from typing import NamedTuple

from appraise.base.dates import Dating
from appraise.base.errors import InputError
from appraise.base.months import SURE_MONTH, month_of
from appraise.listing.passage import Passage
from appraise.listing.records import Claim
from appraise.listing.words import lowered

_Y = r"(1[789]\d\d)"
_S, _SS = r"\s{0,3}", r"\s{1,3}"
_C = (
    r"(?:circa|about|around|approximately|approx\.?|abt\.?|roughly|near|say|cca\.?|ca?\.?|~"
    r"|um|gegen|etwa|vers|environ|rond|omstreeks|ongeveer|verso[ ]il|verso|intorno[ ]al|hacia|sobre"
    r"|alrededor[ ]de)"
)
_OF_DECADE = r"(?:years|ann[ée]es|jaren|anni|a[ñn]os|jahre(?:n)?|d[ée]cada[ ]de|decennio)"
_TO = rf"{_S}(?:-|–|—|to|through|until|and){_S}"
_M = rf"(?P<m>{SURE_MONTH})(?![^\W\d_])\.?"
_D = r"(?P<d>\d{1,2})(?:st|nd|rd|th|\.)?"
_THIRDS = {"early": (0, 4), "mid": (3, 7), "middle": (3, 7), "late": (5, 9)}
_ANY = re.compile(r"1[789]\d")
EARLIEST, LATEST = 1780, 1959  # years that can be meant for a photograph, slips included
NEAR = 64  # characters around a year; what belongs to it takes at most half of them
BACK = 8  # words before a year among which one may say that it is of something else

_Made = Callable[[re.Match[str]], str]


def _month(match: re.Match[str]) -> str:
    day = f"-{int(match['d']):02}" if match["d"] else ""
    return f"{match['y']}-{month_of(match['m']):02}{day}"


def _third(match: re.Match[str]) -> str:
    low, high = _THIRDS[match[1].lower()]
    return f"[{match[2]}{low}..{match[2]}{high}]"


def _short_range(match: re.Match[str]) -> str:
    return f"[{match[1]}{match[2]}..{match[1]}{match[3]}]"


def _decades(match: re.Match[str]) -> str:
    second = match[2] if len(match[2]) == 3 else f"{match[1][:2]}{match[2][0]}"
    return f"[{match[1]}0..{second}9]"


def _apart(pattern: str) -> str:
    """A pattern that begins no part of a word; where a year leads, its first figure is sought."""
    if pattern.startswith("(1"):
        return rf"(1(?<![\w$£€./-]1){pattern[2:]}"
    return rf"(?<![\w$£€./-]){pattern}"


class _Form(NamedTuple):
    """A way of writing a time: the pattern, the EDTF, and letters of which some must stand there.

    They are looked for first, since nearly every text lacks them. 'Two' stands for two years.
    """

    pattern: re.Pattern[str]
    make: _Made
    cues: tuple[str, ...]


_S_OF, _TWO = ("0s", "0's"), ("two",)
_MONTHS = {name[:3] for name in SURE_MONTH.replace("\\", "").split("|")}
_FORMS = tuple(
    _Form(re.compile(rf"{_apart(pattern)}(?![\w%])", re.IGNORECASE), make, tuple(cues))
    for cues, pattern, make in (
        (
            ("between", "from"),
            rf"(?:between|from){_SS}(?:{_C}{_S})?{_Y}{_TO}{_Y}",
            lambda m: f"[{m[1]}..{m[2]}]",
        ),
        (
            _S_OF,
            rf"(1[789]\d)0'?s?{_S}(?:-|–|—|to|and|or|/){_S}(?:the{_SS})?(1?[789]?\d)0'?s",
            _decades,
        ),
        (_TWO, rf"(?:{_C}{_S})?{_Y}{_S}(?:-|–|—|to|/){_S}{_Y}", lambda m: f"[{m[1]}..{m[2]}]"),
        ("-–—/", rf"(?:{_C}{_S})?(1[789])(\d\d){_S}(?:-|–|—|/){_S}(\d\d)", _short_range),
        (
            ("early", "mid", "late"),
            rf"(early|mid|middle|late)(?:{_SS}|-)(?:the{_SS})?(1[789]\d)0'?s",
            _third,
        ),
        (_S_OF, rf"{_C}{_S}(?:the{_SS})?(1[789]\d)0'?s", lambda m: f"{m[1]}X~"),
        (
            ("years", "ann", "jaren", "nos", "ños", "jahre", "cada", "dec"),
            rf"(?:the{_SS})?{_OF_DECADE}{_SS}(?:of{_SS})?(1[789]\d)0",
            lambda m: f"{m[1]}X",
        ),
        (
            ("0er", "0-luvun", "0’s", "0's"),
            rf"(1[789]\d)0(?:er|-luvun|’s|'s)(?:{_SS}jahren?)?",
            lambda m: f"{m[1]}X",
        ),
        (_S_OF, r"(1[789]\d)0'?s", lambda m: f"{m[1]}X"),
        ((), rf"{_C}:?{_S}{_Y}", lambda m: f"{m[1]}~"),
        (
            ("ish", "or"),
            rf"{_Y}(?:[ -]?ish|{_SS}(?:or{_SS}so|or{_SS}thereabouts))",
            lambda m: f"{m[1]}~",
        ),
        (
            ("before", "pre"),
            rf"(?:before{_SS}|pre(?:-|{_SS})){_Y}",
            lambda m: f"[..{int(m[1]) - 1}]",
        ),
        (
            ("after", "post"),
            rf"(?:after{_SS}|post(?:-|{_SS})){_Y}",
            lambda m: f"[{int(m[1]) + 1}..]",
        ),
        (_MONTHS, rf"{_D}{_SS}(?:of{_SS})?{_M},?{_SS}(?P<y>1[789]\d\d)", _month),
        (_MONTHS, rf"{_M}{_SS}(?:{_D},?{_SS})?(?P<y>1[789]\d\d)", _month),
        ((), _Y, lambda m: m[1]),
    )
)


class When(NamedTuple):
    """A time as it stands in a text: EDTF and its place."""

    dating: Dating
    start: int
    end: int


def whens(text: str) -> Iterator[When]:
    """Every time that a text names, from the left; the fullest form of each."""
    years = [match.start() for match in _ANY.finditer(text)]
    if not years:
        return
    stretches = list(_stretches(years))
    found: list[When] = []
    covered = bytearray(len(text))
    plain = lowered(text)
    for pattern, make, cues in _FORMS:
        here = len(years) > 1 if cues == _TWO else any(map(plain.__contains__, cues))
        searched = stretches if here or not cues else ()
        for match in (one for part in searched for one in pattern.finditer(text, *part)):
            if any(covered[match.start() : match.end()]):
                continue
            dating = _dating(make(match))
            if dating is not None:
                covered[match.start() : match.end()] = b"\1" * (match.end() - match.start())
                found.append(When(dating, match.start(), match.end()))
    yield from sorted(found, key=lambda when: when.start)


def _stretches(places: Sequence[int]) -> Iterator[tuple[int, int]]:
    """The stretches of a text around some places, in which all that is near them stands."""
    low = high = 0
    for place in places:
        if place - NEAR > high:
            if high:
                yield low, high
            low = place - NEAR
        high = place + NEAR
    if high:
        yield low, high


@lru_cache(maxsize=1_024)
def _dating(edtf: str) -> Dating | None:
    """A time that can be meant for a photograph; None for any other, or none."""
    try:
        dating = Dating.parse(edtf)
    except (InputError, ValueError):
        return None
    first, last = dating.bounds(0)
    inside = (first is None or first.year <= LATEST) and (last is None or last.year >= EARLIEST)
    return dating if inside and (last is None or last.year <= LATEST + 9) else None


def date_claims(passage: Passage) -> list[Claim]:
    """When the piece is said to have been made."""
    claims = []
    for when in whens(passage.text):
        if not _of_the_piece(passage, when):
            continue
        claims.append(_claim(passage, str(when.dating), when.start, when.end))
    claims += _recent(passage)
    for hit in passage.hits("time"):
        if _says_more(hit.term.value, claims) and passage.scope.claims(hit.first, hit.last):
            start, end = passage.span(hit.first, hit.last)
            claims.append(_claim(passage, hit.term.value, start, end))
    return claims


def _says_more(era: str, claims: Sequence[Claim]) -> bool:
    """Whether an era says more than the years beside it: where there are none, or all are apart."""
    first, last = Dating.parse(era).bounds(0)
    spans = [Dating.parse(claim.value).bounds(2) for claim in claims]
    return all(
        (low and last and low > last) or (high and first and high < first) for low, high in spans
    )


_RECENT = re.compile(
    r"\b(?:(?:made|poured|created|produced|shot|taken(?![ ](?:apart|out|from))|printed|photographed"
    r"|done|cast|reissued|reprinted)(?:[ ]\w+){0,8}?[ ](?:in|about|around|circa|dated)|from)[ ]"
    r"(?:the )?(?P<y>(?:19[6-9]\d|20[0-4]\d))(?P<s>'?s)?(?!\w)",
    re.IGNORECASE,
)


def _recent(passage: Passage) -> Iterator[Claim]:
    """Years of modern work, which count only where the words say that it was made then."""
    modern = "19" in passage.text or "20" in passage.text
    for match in _RECENT.finditer(passage.text) if modern else ():
        places = passage.places(*match.span("y"))
        if passage.scope.claims(places.start, places.stop):
            year = f"{match['y'][:3]}X" if match["s"] else match["y"]
            yield _claim(passage, year, *match.span("y"))


def _claim(passage: Passage, value: str, start: int, end: int) -> Claim:
    return Claim("date", value, passage.text[start:end], start, end, 0.9)


def _of_the_piece(passage: Passage, when: When) -> bool:
    """Whether a time claims something of the piece, and not of a patent, a birth or a paper."""
    places = passage.places(when.start, when.end)
    if passage.masked & set(places) or not passage.scope.claims(places.start, places.stop):
        return False
    relatives = passage.vocabulary.sets["relative"]
    for at in range(places.start - 1, max(-1, places.start - 1 - BACK), -1):
        if passage.ends[at]:
            break
        if passage.words[at].norm in relatives:
            return False
    return True
