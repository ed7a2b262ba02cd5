"""Words that are written, printed or stamped on a piece, as the seller quotes them."""

import re
from bisect import bisect_left
from collections.abc import Sequence
from itertools import islice

from appraise.base.regex import late
from appraise.listing.passage import Passage
from appraise.listing.quoted import Quote
from appraise.listing.records import Claim
from appraise.listing.vocabulary import Hit

INSCRIPTION, MARK, MAKER = "inscription", "mark", "maker"
BY, TAKER = "by", "taker"
_READS = frozenset(("reads", "says", "reading", "saying", "lettered", "is", ":", "printed"))
_FIRM = late(
    r"(?:& |\bBros\b|\bSons\b|[Ss]tudio|[Aa]telier|[Gg]allery|[Pp]hoto)[^\n]*|, [A-Z]\w+\.?$"
)  # of a maker
_TOWNED = late(r"^[A-Z][\w.&' -]{2,40}, [A-Z]\w+(?:, [A-Z]\w+)?\.?$")  # 'Crofts, Hull'
MARKS = frozenset((BY, TAKER))
"""Cues before the name of a maker, whose words are a mark."""
REACH = 14  # words between a quotation and the word that says what it is
# A capital begins each word; a full stop after more than four letters ends the name.
_PROPER = r"(?:[A-Z][\w.'’&-]{0,20}(?<!\w{5}\.)(?!\w)|&|of|and|de|\d{1,4})"
_NAMED = late(rf"[\s:]{{1,3}}(?:(?:of|by|for|from) )?(?P<words>{_PROPER}(?:,?[ ]{_PROPER}){{0,7}})")
_DATED = late(r"\b[Dd]ated (?P<year>1[789]\d\d)\b(?: [\w']+){0,4}? in (?:ink|pencil)\b")
_OWNED = ("Property", "Ex libris", "Library")  # stamps of owners are no maker's marks
_TAKER = late(
    r"[\s:\"“'‘]{1,3}(?:(?:of|by|from|is|reads|says) [\"“]?)?"
    r"(?P<words>[A-Z][\w.'’-]{0,20}(?: (?:&|and|[A-Z][\w.'’-]{0,20})){0,4})"
)


def writing_claims(passage: Passage) -> list[Claim]:
    """Inscriptions and marks: quotations beside a word for writing or for a mark.

    Without quotation marks, names in capitals right after such a word.
    """
    said = [hit for hit in passage.speech if hit.term.field == "cue"]
    cues = [hit for hit in said if hit.term.value != MAKER]
    claims: list[Claim] = []
    found = passage.quotes
    for quote in found:
        places = passage.places(quote.start, quote.end)
        field = _field(passage, cues, places)
        printed = field == INSCRIPTION or (not field and _imprint(passage, quote, places))
        printed = printed and _on_card(passage) and bool(_FIRM.search(quote.words))
        if printed or (field == INSCRIPTION and _made_by(said, places)):
            field = MARK
        if field:
            owned = quote.words.startswith(_OWNED)
            claims.append(_claim(INSCRIPTION if owned else field, quote))
    for year in _DATED.finditer(passage.text) if "ated 1" in passage.text else ():
        if passage.scope.claims((at := passage.at(year.start("year"))), at + 1):
            claims.append(_claim(INSCRIPTION, Quote(year["year"], *year.span("year"))))
    for cue in cues:
        named = _named_after(passage, cue)
        if named and not any(one.start < named.end and named.start < one.end for one in found):
            firm = _on_card(passage) and bool(_FIRM.search(named.words))
            mark = firm or cue.term.value in MARKS
            claims.append(_claim(MARK if mark else cue.term.value, named))
    return claims


def maker_claims(passage: Passage) -> list[Claim]:
    """Who took the picture: the name after 'photographed by', 'backmark' and the like, at most one.

    A name ends at a comma; what follows is the place. Unlike a mark it may be a single word.
    """
    for cue in passage.speech:
        if cue.term.field != "cue" or cue.term.value not in MARKS:
            continue
        if cue.last >= len(passage.words) or not passage.scope.claims(cue.first, cue.last):
            continue
        match = _TAKER.match(passage.text, passage.words[cue.last - 1].end)
        place = passage.places(*match.span("words")) if match else range(0)
        if match and place and passage.words[place.start].norm not in passage.vocabulary.known:
            words, start = match["words"].rstrip(" .&"), match.start("words")
            return [_claim(MAKER, Quote(words, start, start + len(words)))]
    return []


def _on_card(passage: Passage) -> bool:
    """Whether a card is for sale, on whose mount its maker is printed."""
    known = passage.knowledge.formats
    named = (hit.term.value for hit in passage.things if hit.term.field == "format")
    return any(value in known and known[value].kinds == ("card",) for value in named)


def _imprint(passage: Passage, quote: Quote, places: range) -> bool:
    """Whether quoted words are a name and a town, as a maker prints them: 'Crofts, Hull'."""
    muted = any(passage.scope.muted[places.start : places.stop])
    return bool(places) and not muted and bool(_TOWNED.search(quote.words))


def _made_by(cues: Sequence[Hit], places: range) -> bool:
    """Whether quoted words speak of a patent or a studio, as only a printed mark does."""
    low = bisect_left(cues, places.start, key=lambda cue: cue.first)
    high = bisect_left(cues, places.stop, key=lambda cue: cue.first)
    return any(cue.term.value == MAKER for cue in islice(cues, low, high))


def _claim(field: str, quote: Quote) -> Claim:
    words = " ".join(quote.words.split())
    return Claim(field, words, quote.words, quote.start, quote.end, 0.85)


def _field(passage: Passage, cues: Sequence[Hit], places: range) -> str:
    """What a quotation is, by the nearest cue before it, else right after it."""
    if not places or any(passage.scope.muted[places.start : places.stop]):
        return ""
    best: tuple[int, str] | None = None
    low = bisect_left(cues, places.start - REACH - 6, key=lambda cue: cue.first)
    for cue in islice(cues, low, None):
        if cue.first > places.stop + 4:
            break
        if cue.first >= places.start and cue.last <= places.stop:
            continue
        before = cue.last <= places.start
        gap = places.start - cue.last if before else cue.first - places.stop
        if not 0 <= gap <= (REACH if before else 4) or (cue.term.value == BY and gap > 1):
            continue
        crossed = passage.sentence[places.start] - passage.sentence[cue.first]
        if abs(crossed) > (1 if before else 0):
            continue
        cost = gap + (0 if before else 6) + 6 * abs(crossed)
        if before and cue.term.value != INSCRIPTION and _reads(passage, cue, places.start):
            return MARK
        if best is None or cost < best[0]:
            best = (cost, cue.term.value)
    return (MARK if best[1] in MARKS else best[1]) if best else ""


def _reads(passage: Passage, cue: Hit, start: int) -> bool:
    """Whether a mark is said to read what is quoted: 'the stamp on the mat reads "..."'."""
    before = range(max(cue.last, start - 2), start)
    told = any(passage.words[at].norm in _READS for at in before)
    told = told and passage.words[cue.last - 1].norm != "label"
    return told and not any(passage.ends[cue.last : start])


def _named_after(passage: Passage, cue: Hit) -> Quote | None:
    """Names in capitals right after a cue, as in 'stamped J. Marsh, Hull'."""
    alone = cue.term.value == BY and cue.last - cue.first == 1
    if alone or not passage.scope.claims(cue.first, cue.last) or cue.last >= len(passage.words):
        return None
    match = _NAMED.match(passage.text, passage.words[cue.last - 1].end)
    if match is None or not re.search(r"[A-Z][\w.]*,?\s+\S*(?:[A-Z]|\d{4})", match["words"]):
        return None
    words = match["words"].rstrip(" ,.&")
    return Quote(words, match.start("words"), match.start("words") + len(words))
