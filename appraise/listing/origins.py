"""Where a piece is said to come from."""

import re
from collections.abc import Mapping, Sequence

from appraise.listing.passage import Passage
from appraise.listing.records import Claim
from appraise.listing.things import claim_of
from appraise.listing.vocabulary import Hit
from appraise.listing.writing import MARK

OF_STUDIOS = "place-"  # ids of rows of towns and states, which tell only where a studio was
LEAST_NAMED = 2  # words of 'Carrow of', before a place
ORIGIN_REACH = 4  # words after an adjective of origin within which the piece is named
_COMES = frozenset(
    ("origin", "country", "all", "comes", "come", "came", "coming", "originates", "made", "usa",
     "us", "believe", "think", "guess", "say")
)  # fmt: skip
_STUDIOS = frozenset(
    ("studio", "studios", "album", "photographer", "photographers", "gallery", "atelier",
     "backmark", "imprint", "maker", "work", "make", "origin", "cachet", "arbeit")
)  # fmt: skip
_OF_STUDIOS = frozenset(
    ("studio", "studios", "studi", "photographers", "photographer", "ateliers", "atelier",
     "fotografi", "fotografen", "photographes", "photographe", "studii", "fotografos", "gallery",
     "galleries", "cartes", "operator", "daguerreotypist")
)  # fmt: skip
_STREETS = frozenset(
    ("street", "st", "road", "rd", "square", "row", "place", "terrace", "house", "lane", "bros",
     "brothers", "sons", "&", "and", "co", "hotel", "strasse", "avenue", "ave")
)  # fmt: skip
STUDIO_REACH = 3  # words between a studio and its town: 'studi di Torino'
_YEAR = re.compile(r"\s*,\s*(?:about|around|circa|ca?\.?|um|vers)?\s*1[89]\d\ds?\b")
_WORKERS = frozenset(
    ("amateur", "itinerant", "photographer", "daguerreotypist", "operator", "artist", "maker",
     "arbeit", "work", "lavoro", "travail", "trabajo")
)  # fmt: skip
_CLOSING = frozenset((",", ".", "\n", ";", "school", "work", "origin", "made", "states"))
_NOT_OF_THE_PIECE = frozenset(
    ("civil", "war", "buyers", "bidders", "customers", "dollars", "pounds", "postage", "shipping",
     "post", "size", "format", "standard", "castles", "flag", "eagle", "army", "revolution",
     "museum", "law", "half")
)  # fmt: skip


def origin_claims(passage: Passage, written: Sequence[Claim] = ()) -> list[Claim]:
    """Where the piece is said to come from: a word of origin beside what the piece is.

    That is an adjective shortly before it ("English sixth plate ambrotype") or right after it,
    'from France' right after it, an adjective that stands alone between marks, or the place of
    the studio.

    Args:
        passage: The text.
        written: Marks that were read on the piece, whose town is the maker's.
    """
    named = {
        hit.first: hit.last
        for hit in passage.things
        if hit.term.field in ("process", "format", "case.material")
    }
    named |= {hit.first: hit.last for hit in passage.hits("about") if hit.term.value == "yes"}
    stamped = [(one.start, one.end) for one in written if one.field == MARK]
    noted = [(one.start, one.end) for one in written if one.field != MARK]
    inside = [hit for hit in passage.hits("origin") if _stamped(passage, hit, stamped)]
    if inside:
        return [claim_of(passage, inside[-1])]  # the town ends what is printed
    for hit in passage.claimed(passage.hits("origin"), "region"):
        if hit.term.id.startswith(OF_STUDIOS):
            start = passage.words[hit.first].start
            note = any(low <= start < high for low, high in noted)
            told = _of_a_studio(passage, hit) or (not note and _of_the_piece(passage, hit, named))
        else:
            told = _told_of_it(passage, hit, named) and not _of_others(passage, hit)
        if told:
            return [claim_of(passage, hit)]
    return []


def _told_of_it(passage: Passage, hit: Hit, named: Mapping[int, int]) -> bool:
    """Whether a word of origin is said of the piece, which `named` has by its first words."""
    words, nouns = passage.words, passage.vocabulary.sets["item"]
    leads = words[hit.first].norm != "from" and any(
        (at in named or words[at].norm in nouns or words[at].norm in _WORKERS)
        and not any(passage.ends[hit.first : at])
        for at in range(hit.first, min(len(words), hit.last + ORIGIN_REACH))
    )
    leads = leads or words[hit.first].norm in _COMES
    return leads or _follows(passage, hit, set(named.values())) or _stands_alone(passage, hit)


def _of_a_studio(passage: Passage, hit: Hit) -> bool:
    """Whether a place is that of the maker: 'Leeds studio', 'by J. Marsh, Duluth, Minn.'."""
    after = passage.words[hit.last].norm if hit.last < len(passage.words) else ""
    start = passage.words[hit.first].start
    before = passage.words[max(0, hit.first - STUDIO_REACH) : hit.first]
    made = after in _STUDIOS or any(word.norm in _OF_STUDIOS for word in before)
    made = made or any(low <= start < high for low, high in passage.marks)
    named = (made or _of_somebody(passage, hit.first)) and after not in _STREETS
    return named and passage.text[start].isupper()


def _stamped(passage: Passage, hit: Hit, spans: Sequence[tuple[int, int]]) -> bool:
    """Whether a town is printed in a mark; a street or a firm that is named after one is none."""
    start, _ = passage.span(hit.first, hit.last)
    after = passage.words[hit.last].norm if hit.last < len(passage.words) else ""
    return (
        hit.term.id.startswith(OF_STUDIOS)
        and passage.text[start].isupper()
        and after not in _STREETS
        and any(low <= start < high for low, high in spans)
    )


def _of_the_piece(passage: Passage, hit: Hit, named: Mapping[int, int]) -> bool:
    """Whether a place stands right before the piece or before its year: 'Vermont, 1850s'."""
    start, end = passage.span(hit.first, hit.last)
    alone = hit.first == 0 or passage.words[hit.first - 1].is_mark
    dated = alone and _YEAR.match(passage.text, end)
    leads = hit.first == 0 or passage.ends[hit.first - 1]
    return passage.text[start].isupper() and bool(dated or (leads and hit.last in named))


def _of_somebody(passage: Passage, place: int) -> bool:
    """Whether somebody is of a place: 'Miss Ann Carrow of Whitby', 'the family of Fife'."""
    if place < LEAST_NAMED or passage.words[place - 1].norm != "of":
        return False
    name = passage.words[place - LEAST_NAMED]
    named = name.text[:1].isupper() and name.norm not in passage.vocabulary.known
    return named or name.norm == "family"


def _follows(passage: Passage, hit: Hit, ends: set[int]) -> bool:
    """Whether a word of origin stands right after what the piece is, or after a comma."""
    mark = hit.first > 0 and passage.words[hit.first - 1].norm == ","
    return hit.first in ends or (mark and hit.first - 1 in ends)


def _of_others(passage: Passage, hit: Hit) -> bool:
    """Whether an adjective of origin is of buyers, a war, money or a size."""
    after = passage.words[hit.last].norm if hit.last < len(passage.words) else ""
    return after in _NOT_OF_THE_PIECE


def _stands_alone(passage: Passage, hit: Hit) -> bool:
    """Whether an adjective begins or makes a statement by itself: ', American, '."""
    before = hit.first == 0 or passage.words[hit.first - 1].is_mark or _is_said(passage, hit.first)
    after = hit.last == len(passage.words) or passage.words[hit.last].norm in _CLOSING
    return before and after


def _is_said(passage: Passage, place: int) -> bool:
    """Whether 'it is' stands before a word."""
    words = [word.norm for word in passage.words[max(0, place - 2) : place]]
    return words in (["it", "is"], ["this", "is"], ["piece", "is"])
