"""Sitters that are named, or said to be somebody known."""

import re
from collections.abc import Iterator

from appraise.listing.flags import made
from appraise.listing.passage import Passage
from appraise.listing.records import Flag
from appraise.listing.scope import ASIDE, GENERAL
from appraise.listing.vocabulary import Hit

HEDGE = "hedge"
REACH = 5  # words after a guess among which the name begins
_UNMEANT = frozenset((GENERAL, ASIDE))
_ELSEWHERE = frozenset(("in", "from", "at", "near", "by", "around", "on", "of", ",", "("))
_PLACES = frozenset(
    ("new", "san", "saint", "santa", "north", "south", "east", "west", "fort", "mount", "los",
     "great", "upper", "lower")
)  # fmt: skip


# A portrait of somebody with two names, or somebody's kin.
_NAMED = re.compile(
    r"(?:[Pp]ortrait|[Ll]ikeness) of (?P<name>[A-Z][a-z]{2,20} [A-Z][a-z]{2,20})(?!\w)"
    r"|(?P<kin>[A-Z][a-z]{2,20})['’]s (?:cousin|brother|sister|wife|widow|mother|father|aunt|uncle"
    r"|nephew|niece|grand(?:son|daughter|mother|father)|descendant)(?!\w)"
)


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
    for match in _NAMED.finditer(passage.text):
        name = str(match.lastgroup)
        places = passage.places(*match.span(name))
        if len(places) and _is_name(passage, places.start):
            yield made(phrase, *match.span(name))
            return


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
    aside = passage.scope.muted[hit.first] in _UNMEANT
    return hit.last + 1 if ranked and not aside and _is_name(passage, hit.last) else 0


def _is_name(passage: Passage, place: int) -> bool:
    """Whether a word looks like a person's name."""
    if place >= len(passage.words):
        return False
    word = passage.words[place]
    return (
        re.split("['’]", word.text)[0].istitle()
        and len(word.text) > 2
        and word.norm not in passage.vocabulary.known
    )
