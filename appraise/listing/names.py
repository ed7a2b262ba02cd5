"""Sitters that are named, or said to be somebody known."""

import re
from bisect import bisect_right
from collections.abc import Iterator

from appraise.listing.flags import made
from appraise.listing.passage import MARKED, Passage
from appraise.listing.records import Flag
from appraise.listing.scope import ASIDE, GENERAL
from appraise.listing.vocabulary import Hit
from appraise.listing.words import lowered

HEDGE = "hedge"
REACH = 5  # words after a guess among which the name begins
_UNMEANT = frozenset((GENERAL, ASIDE))
_ELSEWHERE = frozenset(("in", "from", "at", "near", "by", "around", "on", "of", ",", "("))
# A sovereign: a name with a Roman number, of whom the picture is said to be.
_RULER = re.compile(
    r"\b(?:of|is|be|as) (?P<name>[A-Z][a-z]{3,14} (?:II|III|IV|VI{0,3}|IX))(?![\w.])"
)
_ROMAN = (" II", " IV", " V", " IX")
_MAKERS = frozenset(
    ("by", "photographer", "photographers", "studio", "artist", "atelier", "gallery", "messrs",
     "stamped", "imprint", "backmark", "maker", "makers", "label", "publisher", "daguerreotypist",
     "seller", "signed")
)  # fmt: skip
_FIRMS = frozenset(
    ("street", "st", "road", "lane", "studio", "studios", "gallery", "photographer", "co", "bros",
     "sons", "son", "company", "square", "avenue", "ave", "county", "photo", "photographers",
     "artist", "patent", "ohio", "church", "hall", "hotel", "island", "college", "school", "museum",
     "library", "society", "style", "process")
)  # fmt: skip
_GREETS = frozenset(("dear", "hello", "hi", "hiya", "hey", "thanks", "thank", "tell", "ask"))
_PLACES = frozenset(
    ("new", "san", "saint", "santa", "north", "south", "east", "west", "fort", "mount", "los",
     "great", "upper", "lower")
)  # fmt: skip


# A portrait of somebody with two names, or somebody's kin.
_NAMED = re.compile(
    r"(?:[Pp]ortrait|[Ll]ikeness) of (?P<name>[A-Z][a-z]{2,20} [A-Z][a-z]{2,20})(?!\w)"
    r"|(?:[Gg]rand(?:father|mother|pa|ma|dad|mum)|[Aa]ncestor|[Uu]ncle|[Aa]unt|[Ff]ather|[Mm]other)"
    r"(?:,| named)? "
    r"(?P<kin_named>[A-Z][a-z]{2,20} [A-Z][a-z]{2,20})(?!\w)"
    r"|(?<!\w)(?:Uncle|Aunt|Auntie|Cousin|Grandpa|Grandma) (?P<kin_called>[A-Z][a-z]{2,20})(?!\w)"
    r"|(?P<kin>[A-Z][a-z]{2,20})['’]s (?:cousin|brother|sister|wife|widow|mother|father|aunt|uncle"
    r"|nephew|niece|grand(?:son|daughter|mother|father)|descendant)(?!\w)"
)

_CUES = ("portrait of ", "likeness of ", "grand", "ancestor", "uncle", "aunt", "father", "mother",
         "cousin", "'s ", "’s ")  # fmt: skip
"""Letters of which some stand in whatever the pattern matches."""


def name_flags(passage: Passage) -> Iterator[Flag]:
    """The flag for a named sitter: 'Colonel Tate', 'the outlaw Sorrel', 'portrait of Ann Lee'.

    Names are words in capitals that are no words of the trade; a text all in capitals has none.
    """
    phrase = passage.vocabulary.phrases.get("identity")
    if phrase is None:
        return
    for hit in passage.hits("origin"):
        end = _named_after(passage, hit) if hit.term.field == "title" else 0
        if end:
            yield made(phrase, *passage.span(hit.first, end))
            return
    first = first_name(passage)
    if first is not None:
        yield made(phrase, *passage.span(*first))
        return
    plain = lowered(passage.text)
    for match in _NAMED.finditer(passage.text) if any(map(plain.__contains__, _CUES)) else ():
        if any(quote.start <= match.start() < quote.end for quote in passage.quotes):
            continue
        name = str(match.lastgroup)
        places = passage.places(*match.span(name))
        if len(places) and _is_name(passage, places.start):
            yield made(phrase, *match.span(name))
            return


def first_name(passage: Passage) -> tuple[int, int] | None:
    """The words of a name that is said of the sitter, found once; None where there is none."""
    return passage.once(_find_first_name)


def _find_first_name(passage: Passage) -> tuple[int, int] | None:
    """The words of a first name with a surname after it that is said of the sitter.

    Names of makers, of streets and firms, of sellers and of the words in a mark are none.
    """
    words, given = passage.words, passage.vocabulary.sets["given"]
    numbered = any(map(passage.text.__contains__, _ROMAN))
    ruler = _RULER.search(passage.text) if numbered else None
    if ruler is not None:
        places = passage.places(*ruler.span("name"))
        return places.start, places.stop
    for place, word in enumerate(words[:-1]):
        if word.norm not in given or not word.text[:1].isupper() or passage.ends[place]:
            continue
        if place and words[place - 1].norm in _MAKERS:
            continue
        after = place + 1
        while after + 1 < len(words) and (
            words[after].norm in ("the", ".") or len(words[after].text) == 1
        ):
            after += 1
        prose = place > 0 and words[place - 1].text.islower()
        named = words[after].text[:1].isupper() and (
            prose or words[after].norm not in passage.vocabulary.known
        )
        named = named or (words[after].norm in given and words[after].text[:1].isupper())
        end = after + 1
        firm = end < len(words) and (words[end].norm in _FIRMS or words[end].norm in ("&", "and"))
        if named and not firm and not _is_place(passage, place) and not _made(passage, place):
            return place, end
    return None


def _is_place(passage: Passage, place: int) -> bool:
    """Whether a name begins as the name of a place does: 'in Mary ...', 'St. Paul'."""
    before = passage.words[place - 1].norm if place else ""
    return before in ("in", "from", "at", "near", "st", "saint", "fort", "mount", "port", "lake")


def _made(passage: Passage, place: int) -> bool:
    """Whether a name stands in a mark, or behind words for one."""
    start = passage.words[place].start
    at = bisect_right(passage.marks, (start, len(passage.text)))
    return any(low <= start < high for low, high in passage.marks[max(0, at - MARKED) : at])


def _named_after(passage: Passage, hit: Hit) -> int:
    """Where a name ends that follows a rank, a role or a guess; 0: none follows.

    A name with a rank or a role is told whatever is said around it, "I do not say that it is"
    as well. After a guess ("possibly", "looks like") two names in a row are somebody.
    """
    if hit.term.value == HEDGE:
        for at in range(hit.last, min(hit.last + REACH, len(passage.words) - 1)):
            if _is_name(passage, at):
                place = passage.words[at].norm in _PLACES
                return at + 2 if not place and _is_name(passage, at + 1) else 0
            if passage.ends[at] or passage.words[at].norm in _ELSEWHERE:
                return 0
        return 0
    ranked = hit.term.value == "role" or passage.words[hit.first].text.istitle()
    before = passage.words[hit.first - 1].norm if hit.first else ""
    aside = passage.scope.muted[hit.first] in _UNMEANT or before in _GREETS
    return hit.last + 1 if ranked and not aside and _is_name(passage, hit.last) else 0


def _is_name(passage: Passage, place: int) -> bool:
    """Whether a word looks like a person's name."""
    if place >= len(passage.words):
        return False
    word = passage.words[place]
    return (
        re.split("['’]", word.text)[0].istitle()
        and len(word.text) > 2
        and (
            word.norm not in passage.vocabulary.known
            or word.norm in passage.vocabulary.sets["given"]
        )
    )
