"""Several pieces in one listing: how many, where each is described, and what comes beside them."""

import re
from bisect import bisect_left
from collections.abc import Sequence

from appraise.base.dataclass import dataclass
from appraise.base.regex import late
from appraise.listing.passage import Passage
from appraise.listing.vocabulary import Hit
from appraise.listing.words import LONGEST_COUNT, Word

MOST = 500  # pieces that a count in words can mean
_ITEM = late(
    r"(?:^[ \t]{0,8}|(?<=[.;:][ ]))(?:\(?(?:\d{1,3}|[a-z]|[ivx]{2,4})[):]|#\d{1,3}|[-*•–])[ \t]"
    r"|^[ \t]{0,8}(?:[A-Z]?\d{1,3}|[A-Z])\.[ \t]",
    re.MULTILINE | re.IGNORECASE,
)
_NUMBER = r"(?:\d{1,3}|one|two|three|four|five|six|seven|eight|nine|ten)"
_NTH = r"(?:first|second|third|fourth|fifth|sixth|seventh|eighth|ninth|tenth|last)"
_HEADED = late(
    rf"^[ \t]{{0,8}}(?:the[ ])?(?:(?:piece|item|picture|image|plate|card|lot|number|no\.?|nr\.?)[ ]"
    rf"{_NUMBER}|{_NTH}(?:[ ](?:piece|item|picture|image|one))?)[ ]?(?:[.:,)]|is\b|[-–—][ ])",
    re.MULTILINE | re.IGNORECASE,
)
_BEGINS = re.compile("\n|[.;:] ")  # before a line or a statement
_LOT = frozenset(
    ("lot", "set", "group", "collection", "bundle", "assortment", "box", "job", "album", "lote",
     "lotto", "partij", "serie")
)  # fmt: skip
SHARED = {("check", "case.pictures two"), ("lies", "cased")}  # terms for a case of two images
LEAST_TOLD = 2  # parts that name a process, from which a list is one of pieces
_SPAN = 5  # words between a count and the noun that it counts
_OF = frozenset(("pair", "dozen", "trio"))
_STOPS = frozenset(
    ("of", "or", "is", "are", "were", "has", "with", "in", "family", "owner", "more")
)
_ROUGHLY = frozenset(("about", "nearly", "over", "around", "roughly"))
_HAVE = frozenset(("have", "got", "are", "ive", "selling", "all", "there", "counted", "count"))
_COUNTERS = frozenset(("cdv", "stuck", "pezzi", "pz", "pc", "bilder", "kaarten", "karten"))
_PARTS = frozenset(
    ("pads", "clasps", "hooks", "lids", "hinges", "glasses", "mats", "preservers", "frames",
     "sleeves", "cases", "boxes")
)  # fmt: skip
_FOLK = frozenset(
    ("men", "women", "ladies", "gentlemen", "gents", "boys", "girls", "children", "kids", "people",
     "brothers", "sisters", "soldiers", "guys", "lads", "workers", "friends")
)  # fmt: skip
_NO_NOUN = frozenset(("the", "a", "an", "for", "each", "in", "on", "at"))
_PRICE = ["the", "price"]
_OFS = frozenset(("of", "de", "von", "van", "di", "da"))
_PLUS = frozenset(("and", "plus", "+", "&"))
_TOGETHER = frozenset(("both", "together", "two", "pair", "each", "lot", "all"))
EXCHANGED = "claim.belonging exchanged"
_NAMES = ("process", "format", "kind")


def parts_of(passage: Passage) -> list[tuple[int, int]]:
    """Stretches of the text that describe one piece each.

    They are numbered or bulleted lines, or paragraphs with a heading ("Piece one."). Only those
    that name a process, a format or a kind count; a single one is no lot.
    """
    text = passage.text
    begins = [0, *(match.end() for match in _BEGINS.finditer(text))]
    headed = [start for start in begins if _HEADED.match(text, start)]
    starts = headed if len(headed) > 1 else [start for start in begins if _ITEM.match(text, start)]
    close = "\n\n" if len(headed) > 1 else "\n"
    named = [
        passage.words[hit.first].start
        for hit in passage.things
        if hit.term.field in _NAMES and not passage.scope.muted[hit.first]
    ]
    found = []
    for place, start in enumerate(starts):
        bound = starts[place + 1] if place + 1 < len(starts) else len(passage.text)
        line = passage.text.find(close, start)
        end = line if place + 1 == len(starts) and line >= 0 else bound
        if _any_between(named, start, end):
            found.append((start, end))
    processes = [
        passage.words[hit.first].start
        for hit in passage.things
        if (hit.term.field != "format" or _is_card(passage, hit)) and hit.term.field in _NAMES
    ]
    told = sum(_any_between(processes, *part) for part in found)
    if told < LEAST_TOLD and not passage.once(_counts):
        return []  # answers in a row, or what one piece is, line by line
    return found if len(found) > 1 else []


def _is_card(passage: Passage, hit: Hit) -> bool:
    """Whether a format is one that only cards come in, and so names a piece by itself."""
    form = passage.knowledge.formats.get(hit.term.value)
    return form is not None and form.kinds == ("card",)


def _any_between(places: Sequence[int], low: int, high: int) -> bool:
    at = bisect_left(places, low)
    return at < len(places) and places[at] < high


def pieces_of(passage: Passage, parts: Sequence[tuple[int, int]]) -> int:
    """How many pieces are for sale: as listed, as counted in words, else one."""
    if len(parts) > 1:
        return len(parts)
    counts = passage.once(_counts)
    if not counts or _an_album(passage, counts[0][3]):
        return 1
    lot = next((count for count, is_lot, *_ in counts if is_lot), 0)
    if lot:
        return lot
    first = counts[0][2]
    told = [count for count, _, sentence, _ in counts if sentence == first]
    summed = len(told) > 2 and told[0] == sum(told[1:])  # 'seven pieces: four cards and three'
    total = told[0] if summed else sum(told)
    return max(1, min(MOST, total))


def _an_album(passage: Passage, first: int) -> bool:
    """Whether an album is for sale, named before the first count: what it holds is part of it.

    'Album of 44' alone is told by its pieces.
    """
    before = [word.norm for word in passage.words[max(0, first - 2) : first]]
    return before != ["album", "of"] and any(
        hit.term.value == "album" and hit.term.field == "ware" and hit.first < first
        for hit in passage.hits("ware")
        if passage.scope.claims(hit.first, hit.last)
    )


def in_one_case(passage: Passage) -> bool:
    """Whether the text says that its images lie in one case: 'two in one case', 'a double case'."""
    scope = passage.scope
    return any(
        (hit.term.field, hit.term.value) in SHARED and scope.claims(hit.first, hit.last)
        for hit in (*passage.things, *passage.hits("lies"))
    )


def counts_of(passage: Passage) -> list[tuple[int, int]]:
    """(place, count) for each count of pieces in a typed line: '12 tintypes', not '45 cdv'."""
    words = passage.words
    numbers = sum(
        word.is_number and place not in passage.masked for place, word in enumerate(words)
    )
    return [
        (place, count)
        for place, word in enumerate(words)
        if (count := _count_at(passage, word)) and place not in passage.masked
        if not _of_more(passage, place) and _counts_pieces(passage, place, count)
        if (numbers > 1 or not word.is_number or _plural_next(words, place))
        and (place + 1 < len(words) and words[place + 1].norm not in _NO_NOUN)
    ]


def _plural_next(words: Sequence[Word], place: int, reach: int = 2) -> bool:
    return any(word.norm.endswith("s") for word in words[place + 1 : place + 1 + reach])


def _count_at(passage: Passage, word: Word) -> int:
    """The count that a word or number says, 0 where it says none."""
    count = passage.vocabulary.counts.get(word.norm, 0)
    if not count and word.norm.isdecimal() and len(word.norm) <= LONGEST_COUNT:
        count = int(word.norm)
    return count


def _counts(passage: Passage) -> list[tuple[int, bool, int, int]]:
    """(count, said of the lot, sentence, place) for each count of pieces, in the text's order."""
    known = passage.vocabulary.counts
    found = [
        (count, is_lot, passage.sentence[place], place)
        for place, word in enumerate(passage.words)
        if (word.norm in known or word.norm.isdecimal())
        and (count := _count_at(passage, word))
        and not passage.scope.muted[place]
        and place not in passage.masked
        and (is_lot := _count_of(passage, place, count)) is not None
    ]
    one = next((hit.first for hit in passage.things if hit.term.field in _NAMES[:2]), 0)
    listed = [place for *_, place in found if _list_follows(passage, place)]
    more = [
        (1, False, passage.sentence[at], at)
        for at in _others(passage)
        if not any(passage.sentence[place] == passage.sentence[at] for place in listed)
    ]
    if more and not found and _TOGETHER & {word.norm for word in passage.words}:
        found = [(1, False, more[0][2], one)]
    elif sum(count for count, *_ in found) == len(found):
        return []
    return [*found, *more] if found and not found[0][1] else found


def _count_of(passage: Passage, place: int, count: int) -> bool | None:
    """Whether a count is said of the lot, or of pieces; None where it counts no pieces."""
    words = passage.words
    counted = place and words[place - 1].norm == "counted"
    times = _times(words, place) and _named_so(passage, place - 2)
    if count > 1 and (_of_them(words, place) or counted or times or _for_one(words, place)):
        return True
    if _of_more(passage, place) or _halved(words, place):
        return None
    before = place - (words[place - 1].norm == "(" if place else 0)  # 'lot of (12)'
    is_lot = before > 1 and words[before - 1].norm in _OFS and words[before - 2].norm in _LOT
    family = is_lot and words[place - 2].norm == "group"
    bare = is_lot and not family and (_alone(passage, place) or _named_so(passage, place - 3))
    bare = bare or (count > 1 and _counted_behind(passage, place))
    if not is_lot and _photos_of_one(passage, place):
        return None
    return is_lot if bare or _counts_pieces(passage, place, count) else None


def _halved(words: Sequence[Word], place: int) -> bool:
    """Whether one thing is said to be in pieces: 'the lid is two separate pieces'."""
    before = words[place - 1].norm if place else ""
    after = [word.norm for word in words[place + 1 : place + 3]]
    return before in ("is", "are", "into", "now", "in") and bool({"pieces", "parts"} & set(after))


def _list_follows(passage: Passage, place: int) -> bool:
    """Whether a colon behind a count leads to what it counts: '3 photographs: a tintype, ...'."""
    return any(word.norm == ":" for word in passage.words[place + 1 : place + 1 + _SPAN])


def _others(passage: Passage) -> list[int]:
    """Where one more piece is named with an article: '... and a pocket album', 'plus a tintype'."""
    words, found = passage.words, []
    named = {
        hit.last - 1
        for hit in passage.things
        if hit.term.field == "process" or (hit.term.field == "format" and _is_card(passage, hit))
    }
    for place in range(1, len(words) - 2):
        if words[place].norm not in _PLUS or words[place + 1].norm not in ("a", "an", "another"):
            continue
        for at in range(place + 2, min(len(words), place + 2 + _SPAN)):
            if words[at].is_mark or words[at].norm in _STOPS or passage.scope.muted[at]:
                break
            if at in named or words[at].norm == "album":
                found.append(place)
                break
    return found


def _counted_behind(passage: Passage, place: int) -> bool:
    """Whether a number stands in brackets behind pieces in the plural: 'tintypes (5)'."""
    words = passage.words
    if place < LEAST_TOLD or words[place - 1].norm != "(" or words[place + 1 :][:1] == []:
        return False
    before = words[place - 2].norm
    plural = before.endswith("s") and _named_so(passage, place - 2)
    return words[place + 1].norm == ")" and (plural or before in _LOT)


def _of_them(words: Sequence[Word], place: int) -> bool:
    """Whether 'of them' stands behind a number that counts pieces: 'I have 15 of em'."""
    after = [word.norm for word in words[place + 1 : place + 3]]
    before = words[place - 1].norm if place else ""
    return (
        len(after) > 1
        and after[0] == "of"
        and after[1] in ("em", "them", "these", "the", "those")
        and (before in _HAVE or before.endswith("s"))
    )


def _times(words: Sequence[Word], place: int) -> bool:
    """Whether 'x' stands before a number: 'cartes x 7'."""
    return place > 1 and words[place - 1].norm == "x"


def _named_so(passage: Passage, place: int) -> bool:
    """Whether a word names pieces: 'cartes', 'tintypes'."""
    named = (
        hit.last - 1 for hit in _near(passage, max(0, place - _SPAN)) if hit.term.field in _NAMES
    )
    return passage.words[place].norm in passage.vocabulary.sets["item"] or place in named


def _alone(passage: Passage, place: int) -> bool:
    """Whether nothing that it counts follows a number: 'job lot of 8, ...', 'set of 12'."""
    after = place + 1
    ends = after == len(passage.words) or passage.ends[place] or passage.ends[after]
    return ends or passage.words[after].is_mark or after in passage.masked


def _photos_of_one(passage: Passage, place: int) -> bool:
    """Whether a number counts photos of one piece: 'tintype of a boy, see 3 pictures'.

    It does where the word for photos stands right after it, or after a small word, and the text
    names one piece alone, in the singular, and no lot.
    """
    words, sets = passage.words, passage.vocabulary.sets
    at = place + 1
    while at < len(words) and words[at].norm in sets["filler"]:
        at += 1
    if at >= len(words) or words[at].norm not in sets["shot"]:
        return False
    if any(word.norm in _LOT for word in words):
        return False
    named = [
        hit
        for hit in passage.things
        if hit.term.field in ("process", "format") and not passage.scope.muted[hit.first]
    ]
    processes = {hit.term.value for hit in named if hit.term.field == "process"}
    plural = any(words[hit.last - 1].norm.endswith("s") for hit in named)
    return bool(named) and not plural and len(processes) <= 1


@dataclass(frozen=True, slots=True)
class SpareSaid:
    """Something that comes beside a piece and is none: 'and a spare case'.

    Attributes:
        title: What it is called.
        count: How many there are.
        start, end: Where it stands in the text, its number with it.
    """

    title: str
    count: int
    start: int
    end: int


_JOINS = frozenset(("and", "with", "plus", "+", "&", "includes", "including", "also", ","))
_ARTICLES = frozenset(("a", "an", "some", "one"))
_BETWEEN = 3  # words between 'spare' and what it is said of


def spares_of(passage: Passage) -> list[SpareSaid]:
    """What comes beside the pieces: a spare case, an extra mat. A piece must be named before."""
    found = []
    words, sets = passage.words, passage.vocabulary.sets
    named = [hit.first for hit in passage.things if hit.term.field in ("process", "format")]
    for place, word in enumerate(words):
        if word.norm not in sets["spare"] or not named or named[0] >= place:
            continue
        if passage.scope.denied[place] or passage.scope.muted[place] or place in passage.masked:
            continue
        if place in _joined(passage):
            continue
        first, count = _counted(passage, place)
        last = _container(passage, place)
        if last and first and words[first - 1].norm in _JOINS:
            start, end = passage.span(first, last)
            title = passage.text[word.start : end]
            found.append(SpareSaid(" ".join(title.split()), count, start, end))
    return found


def _joined(passage: Passage) -> set[int]:
    """The words that say a piece was put together: its empty case is no spare one."""
    said = (hit for hit in passage.hits("said") if hit.term.value == EXCHANGED)
    return {at for hit in said for at in range(hit.first, hit.last)}


def _counted(passage: Passage, place: int) -> tuple[int, int]:
    """Where 'two spare' begins, and the number; an article or nothing is one."""
    before = passage.words[place - 1].norm if place else ""
    count = passage.vocabulary.counts.get(before, 0)
    if before.isdecimal() and len(before) <= 2:
        count = int(before)
    return (place - 1, max(1, count)) if count or before in _ARTICLES else (place, 1)


def _container(passage: Passage, place: int) -> int:
    """The place after the word for a case or frame that 'spare' is said of; 0 for none."""
    for at in range(place + 1, min(len(passage.words), place + 2 + _BETWEEN)):
        if passage.words[at].is_mark or passage.ends[at - 1]:
            return 0
        if passage.words[at].norm in passage.vocabulary.sets["container"]:
            return at + 1
    return 0


def _for_one(words: Sequence[Word], place: int) -> bool:
    """'two for one money', 'three for the price of one'."""
    after = [word.norm for word in words[place + 1 : place + 4]]
    return after[:1] == ["for"] and after[1:] in (["one", "money"], ["one", "price"], _PRICE)


def _of_more(passage: Passage, place: int) -> bool:
    """'one of forty', 'No. 3', 'each of two' count nothing for sale."""
    before = passage.words[place - 1].norm if place else ""
    after = passage.words[place + 1].norm if place + 1 < len(passage.words) else ""
    if before == "of" and place > 1 and passage.words[place - 2].norm in ("one", "each", "both"):
        return True
    if before in ("the", "its") and place > 1 and passage.words[place - 2].norm == "of":
        return True  # 'one of the two hooks'
    if before in _ROUGHLY and place > 1 and passage.words[place - 2].norm == "of":
        return place > 2 and passage.words[place - 3].norm in ("one", "each")
    numbered = before in ("lot", "item") and not _plural_next(passage.words, place, _SPAN - 1)
    if numbered or before in ("no", "number", "#", "in") or before in _ROUGHLY:
        return True
    return after == "of" and passage.words[place].norm in ("one", "1")


def _counts_pieces(passage: Passage, place: int, count: int) -> bool:
    """Whether a noun for pieces follows the count, plural where it must be."""
    items = passage.vocabulary.sets["item"]
    if not any(hit.term.field == "process" for hit in passage.things):
        items = items | _PARTS
    named = {hit.first: hit for hit in _near(passage, place)}
    at = _past_figure(passage.words, place + 1)
    if passage.words[place].norm in _OF and at < len(passage.words):
        at += passage.words[at].norm == "of"
    while at < min(len(passage.words), place + _SPAN + 1):
        norm = passage.words[at].norm
        if passage.ends[at] or passage.words[at].is_number or passage.words[at].is_mark:
            return False
        if norm in items:
            return count == 1 or norm.endswith("s") or norm in _COUNTERS
        hit = named.get(at)
        if hit is not None and passage.words[hit.last - 1].norm in items - {norm}:
            at = hit.last - 1  # 'leather cases'
            continue
        if hit is not None and hit.term.field in ("format", "kind", "process"):
            last = passage.words[hit.last - 1].norm
            if last in items or last.endswith(("s", "en", "fotos")) or "visit" in last:
                return count == 1 or last.endswith(("s", "en", "fotos")) or "visit" in last
        elif (
            norm in _STOPS
            or _people_do(passage, at)
            or (hit is not None and hit.term.field in ("state", "degree") and norm != "loose")
        ):
            return False
        at = hit.last if hit is not None else at + 1
    return False


def _people_do(passage: Passage, at: int) -> bool:
    """Whether people are counted that something is told of: '4 men playing cards'."""
    after = passage.words[at + 1].norm if at + 1 < len(passage.words) else ""
    return passage.words[at].norm in _FOLK and after.endswith("ing")


def _past_figure(words: Sequence[Word], at: int) -> int:
    """The place after a number in brackets that repeats one in words: 'three (3) tintypes'."""
    row = [word.norm for word in words[at : at + 3]]
    repeats = len(row) == len("(3)") and row[0] == "(" and row[1].isdecimal() and row[2] == ")"
    return at + len(row) if repeats else at


def _near(passage: Passage, place: int) -> list[Hit]:
    low = bisect_left(passage.things, place, key=lambda hit: hit.first)
    high = bisect_left(passage.things, place + _SPAN + 2, key=lambda hit: hit.first)
    return passage.things[low:high]
