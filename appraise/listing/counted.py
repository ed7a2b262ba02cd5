"""What a count in a typed line counts: pieces ('two tintypes'), or people in one ('two men')."""

from collections.abc import Sequence

from appraise.listing.lots import counts_of
from appraise.listing.passage import Passage
from appraise.listing.vocabulary import Hit

PIECES = ("process", "format", "kind", "case.material", "lies")
"""Fields of terms that name a piece or its housing."""
SHOWN = ("subject", "shows")
"""Fields of terms that name whom or what an image shows."""
DAMAGED = ("state", "defect")
"""Fields of terms that name what happened to a part."""
OF_A_PIECE = ("rim", "hinge", "clasp")
"""Parts of which one piece has several."""
MOST_HARMS = 12  # that a figure before them counts
OF = "of"
MOST_SITTERS = 9  # that a figure counts in a line that has no other number


def counts_in(passage: Passage, hits: Sequence[Hit]) -> list[tuple[int, int]]:
    """(place, count) for each word or number that counts pieces in a typed line.

    People are no pieces: 'couple', 'two children', 'pair of brothers' tell the subject. A word
    for two pieces ('two', 'pair') counts them wherever nothing that is shown follows it.

    Args:
        passage: The line.
        hits: What is named in it.
    """
    together = passage.vocabulary.sets["together"]
    found = dict(counts_of(passage))
    for place, word in enumerate(passage.words):
        if word.norm in together:
            found.setdefault(place, 2)
    shown = {place for place, _ in shown_counts(passage, hits)} | damage_counts(passage, hits)
    return sorted((place, count) for place, count in found.items() if place not in shown)


def damage_counts(passage: Passage, hits: Sequence[Hit]) -> set[int]:
    """Places of words and numbers that count damage or parts: '2 chips', 'missing two corners'.

    Args:
        passage: The line.
        hits: What is named in it.
    """
    harmed = [
        hit
        for hit in hits
        if hit.term.field in DAMAGED or (hit.term.field == "part" and hit.term.value in OF_A_PIECE)
    ]
    found = set()
    for place, word in enumerate(passage.words):
        few = word.norm in passage.vocabulary.counts or (
            word.norm.isdecimal() and int(word.norm) <= MOST_HARMS
        )
        if few and place not in passage.masked:
            at = _next(passage, place + 1)
            within = any(hit.first <= place < hit.last - 1 for hit in harmed)
            named = next((hit for hit in harmed if hit.first == at), None)
            plural = named is not None and passage.words[at].norm.endswith("s")
            if within or plural:
                found.add(place)
    return found


def shown_counts(passage: Passage, hits: Sequence[Hit]) -> list[tuple[int, Hit]]:
    """(place, what is counted) for each word or number that counts what is shown."""
    together, counts = passage.vocabulary.sets["together"], passage.vocabulary.counts
    found = []
    for place, word in enumerate(passage.words):
        if word.norm in together or word.norm in counts or word.is_number:
            hit = _shown_at(passage, hits, place)
            if hit is not None and not _names_pieces(passage, hits, hit.last):
                found.append((place, hit))
    return found


def _shown_at(passage: Passage, hits: Sequence[Hit], place: int) -> Hit | None:
    """What a count counts, where that is shown: the term that it stands in, or the next one."""
    at = _next(passage, place + 1)
    shown = [hit for hit in hits if hit.term.field in SHOWN]
    own = next((hit for hit in shown if hit.first <= place < hit.last), None)
    follows = next((hit for hit in shown if hit.first <= at < hit.last), None)
    if own is not None:
        apart = passage.words[place + 1 : place + 2]
        counts = own.last == place + 1 and bool(apart) and apart[0].norm == OF
        return None if counts and follows is None else own
    return follows if follows is not None and _several(passage, place, follows) else None


def _several(passage: Passage, place: int, hit: Hit) -> bool:
    """Whether people can be counted: by a number that is no price, and in the plural."""
    words = passage.words
    if not words[place].is_number:
        return True
    numbers = sum(word.is_number for at, word in enumerate(words) if at not in passage.masked)
    few = words[place].norm.isdecimal() and int(words[place].norm) <= MOST_SITTERS
    plural = any(word.norm.endswith(("s", "n")) for word in words[hit.first : hit.last])
    return plural and place not in passage.masked and (few or numbers > 1)


def _next(passage: Passage, at: int) -> int:
    """The place of the next word that is neither small nor describing."""
    sets = passage.vocabulary.sets
    while at < len(passage.words):
        norm = passage.words[at].norm
        if norm not in sets["filler"] and norm not in sets["adjective"]:
            break
        at += 1
    return at


def _names_pieces(passage: Passage, hits: Sequence[Hit], at: int) -> bool:
    """Whether a plural name of pieces stands right behind what is shown: 'two boys tintypes'."""
    if at >= len(passage.words):
        return False
    named = next((hit for hit in hits if hit.first == at), None)
    last = named.last - 1 if named is not None else at
    of_pieces = named is not None and named.term.field in PIECES
    item = passage.words[at].norm in passage.vocabulary.sets["item"]
    return (of_pieces or item) and passage.words[last].norm.endswith("s")
