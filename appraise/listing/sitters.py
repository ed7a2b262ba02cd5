"""Who or what is shown: one word for the whole, and every claim that raises a flag."""

from collections.abc import Sequence

from appraise.listing.names import first_name
from appraise.listing.passage import Passage
from appraise.listing.records import Claim
from appraise.listing.scope import COPIED
from appraise.listing.things import claim_of
from appraise.listing.vocabulary import Hit

FAMOUS = "famous"
BESIDE = frozenset(
    ("post-mortem", "famous", "soldier", "occupational", "child", "couple", "animal")
)
"""Subjects that may hold beside a leading one."""
MOST_OF_IT = 0.5  # share of a text from which a quotation is the listing itself
OWNER_REACH = 8  # words after one for an owner that tell who it was
DESIGNED = 3  # words after people within which a design is named
_DESIGNS = frozenset(("design", "motif", "pattern", "decoration", "relief", "ornament"))
_ONE = frozenset(("a", "an", "my", "our", "the", "some"))
_TOOK = frozenset(
    ("portrait", "photograph", "photographed", "standing", "seated", "sitting", "stands", "posed",
     "beside", "next")
)  # fmt: skip
_THINGS = frozenset(
    ("scrapbook", "album", "desk", "papers", "estate", "house", "attic", "diary", "collection",
     "trunk", "drawer", "effects", "shed", "library", "dwelling", "cottage", "hut", "home", "lodge",
     "quarters", "shop", "yard", "grave", "boat", "club", "daughter", "son", "niece", "nephew")
)  # fmt: skip
_I, _AM = frozenset(("i", "im", "ive")), frozenset(("am", "im", "was"))
_OWNS = ("'s", "\u2019s", "s'")
_COUPLES = frozenset(("couple", "paar"))  # 'ein paar' are a few; the people are an 'Ehepaar'
_COUNTABLE = frozenset(("have", "of", "more", "are", "were", "need", "show", "with", "got"))
_SHORT_PLURAL = 3
_GROWN = frozenset(("women", "ladies", "ladys", "men", "gentlemen", "gents"))
_YOUNG = frozenset(("children", "boys", "girls", "babies", "kids"))
_STOPS = frozenset((",", "(", ")", ":", "–", "—", "-"))
# The first that is said holds.
ORDER = (
    "post-mortem", "soldier", "occupational", "couple", "group", "child", "single", "animal",
    "outdoor", "object", "music", "sport", "arms", "insignia", "of-colour", "school",
    "institution", "other", FAMOUS,
)  # fmt: skip


def sitters_in(passage: Passage) -> list[Hit]:
    """Words for sitters, but for quoted names and marks, owners and the seller's own trade.

    A quotation that makes up most of the text is the listing itself.
    """
    most = MOST_OF_IT * len(passage.text)
    quoted = [
        passage.places(quote.start, quote.end)
        for quote in passage.quotes
        if quote.end - quote.start < most
    ]
    inside = {place for places in quoted for place in places}
    hits = passage.hits("sitter")
    named = first_name(passage)
    inside |= set(range(*named)) if named is not None else set()
    inside |= _owned(passage, [hit for hit in hits if hit.term.field == "owner"])
    inside |= _of_me(passage, hits)
    return [
        hit
        for hit in hits
        if hit.first not in inside and not _of_a_thing(passage, hit) and not _a_few(passage, hit)
    ]


def _a_few(passage: Passage, hit: Hit) -> bool:
    """Whether a couple is one of things and not of people: 'couple rust dots', 'a couple have'."""
    words = passage.words
    if words[hit.first].norm not in _COUPLES or hit.last - hit.first > 1 or hit.last == len(words):
        return False
    after = words[hit.last].norm
    return (
        words[hit.first].norm == "paar"
        or (len(after) > _SHORT_PLURAL and after.endswith("s"))
        or after in _COUNTABLE
        or any(
            one.first <= hit.last < one.last
            and one.term.field in ("state", "defect", "part", "degree")
            for one in passage.things
        )
    )


def _of_me(passage: Passage, hits: Sequence[Hit]) -> set[int]:
    """Places of trades that the seller tells of: 'only a retired teacher who liked views'.

    Such a sentence speaks of the seller, or of somebody retired, and names no picture.
    """
    named = {passage.sentence[hit.first] for hit in passage.things if hit.term.field == "process"}
    found = set()
    for hit in hits:
        if hit.term.value != "occupational":
            continue
        before = [word.norm for word in passage.words[max(0, hit.first - OWNER_REACH) : hit.first]]
        after = [word.norm for word in passage.words[hit.last : hit.last + 2]]
        if after == ["in", "me"] or _did_it(before):
            found.add(hit.first)
        elif passage.sentence[hit.first] in named:
            continue
        elif (
            "retired" in before[-2:]
            or (before[-1:] in (["my"], ["our"]) and before[-2:-1] != ["of"])
            or (_I & set(before) and _AM & set(before))
        ):
            found.add(hit.first)
    return found


def _did_it(before: Sequence[str]) -> bool:
    """Whether somebody with a trade did something to the piece: 'relaid by a bookbinder'."""
    by = next((at for at in (-2, -3) if list(before[at : at + 1]) == ["by"]), 0)
    return bool(by) and before[by + 1] in _ONE and not set(before[:by]) & _TOOK


def _of_a_thing(passage: Passage, hit: Hit) -> bool:
    """Whether people only tell whose a thing was, or what a case is pressed with.

    'From a surveyor's scrapbook', 'babes and lambs design'.
    """
    words, last = passage.words, hit.last
    if (
        hit.term.value == "outdoor"
        and words[hit.first - 1].text[-2:].lower() in _OWNS
        and hit.first
    ):
        return True  # 'her mother's bungalow'
    owner = words[last - 1].text[-2:].lower() in _OWNS
    after = [word.norm for word in words[last : last + DESIGNED]]
    ends = any(passage.ends[last : last + DESIGNED])
    return (owner and after[:1] != [] and after[0] in _THINGS) or (
        not ends and any(norm in _DESIGNS for norm in after)
    )


def _owned(passage: Passage, cues: Sequence[Hit]) -> set[int]:
    """Places of words that tell of owners and sellers: 'from the estate of a soldier'."""
    found: set[int] = set()
    for cue in cues:
        found.update(range(cue.first, cue.last))
        for at in range(cue.last, min(len(passage.words), cue.last + OWNER_REACH)):
            if passage.ends[at] or passage.words[at].norm in _STOPS:
                break
            found.add(at)
    return found


def sitter_hits(passage: Passage, hits: Sequence[Hit]) -> list[Hit]:
    """Words for sitters that are neither denied nor compared; hearsay stays, for the flags."""
    return [
        hit
        for hit in hits
        if hit.term.field == "subject"
        and not any(passage.scope.denied[hit.first : hit.last])
        and passage.scope.muted[hit.first] not in ("compare", "general", "aside")
    ]


def subject_claims(
    passage: Passage, hits: Sequence[Hit], several: bool, parts: Sequence[tuple[int, int]] = ()
) -> list[Claim]:
    """The subject, as one claim on the words that tell it.

    Args:
        passage: The text.
        hits: Hits of the layer of sitters.
        several: A lot, whose subject is told only where all its words agree.
        parts: Where each piece of a lot is described; then the subjects of all must agree.
    """
    said = [hit for hit in hits if hit.term.field == "subject" and _shown(passage, hit)]
    known = [hit for hit in said if hit.term.value == FAMOUS]
    said = [hit for hit in said if hit not in known]
    if known and not said:
        return [claim_of(passage, known[0], value="single")]
    if parts:
        spans = [passage.places(*part) for part in parts]
        each = [[hit for hit in said if hit.first in span] for span in spans]
        said = [_first_in_order(own) for own in each if own]
        if len(said) < len(parts):
            return []
    if not said or (several and len({hit.term.value for hit in said}) > 1):
        return [] if several or said else _named(passage)
    first = _first_in_order(said)
    if several and _mixed(passage, first):
        return []
    alone = _of_each(passage, first) if several else ""
    return [claim_of(passage, first, value=alone)]


def _shown(passage: Passage, hit: Hit) -> bool:
    """Whether somebody is said to be shown; who is in an older picture is in its copy."""
    reasons = set(passage.scope.muted[hit.first : hit.last])
    return not passage.scope.denied[hit.first] and reasons <= {"", COPIED}


def _of_each(passage: Passage, hit: Hit) -> str:
    """In a lot, plain people in the plural are one to a piece: 'twelve tintypes, all ladies'."""
    word = passage.words[hit.last - 1].norm
    every = any(w.norm == "all" for w in passage.words[max(0, hit.first - 1) : hit.last])
    if hit.term.value != "group" or (hit.last - hit.first > 1 and not every):
        return ""
    young = word in _YOUNG and every
    return "single" if word in _GROWN else "child" if young else ""


def _mixed(passage: Passage, hit: Hit) -> bool:
    """Whether in a lot several sorts of people are told, one to a piece: 'men and women mixed'."""
    said = {word.norm for word in passage.words[hit.first : hit.last]}
    return hit.term.value == "group" and len(said & (_GROWN | _YOUNG)) > 1


def _named(passage: Passage) -> list[Claim]:
    """Somebody who is named, and of whom nothing else is said, is one person."""
    named = first_name(passage)
    if named is None or not passage.scope.claims(*named):
        return []
    start, end = passage.span(*named)
    return [Claim("subject", "single", passage.text[start:end], start, end, 0.8)]


def shown_claims(passage: Passage, leading: Sequence[Claim], several: bool) -> list[Claim]:
    """What else a picture shows beside its leading subject, one claim for each word.

    Further words of the layer of sitters count where they name a sort that others do not imply: a
    soldier is a man, and a couple two people, but a soldier with a child shows both.
    """
    if several:
        return []
    hits = [hit for hit in passage.hits("shown") if passage.scope.claims(hit.first, hit.last)]
    first = leading[0].value if leading else ""
    if first:
        hits += [
            hit
            for hit in passage.once(sitters_in)
            if hit.term.field == "subject"
            and hit.term.value in BESIDE
            and passage.scope.claims(hit.first, hit.last)
        ]
    found: dict[str, Claim] = {}
    for hit in hits:
        if hit.term.value != first:
            found.setdefault(hit.term.value, claim_of(passage, hit, "shows"))
    return list(found.values())


def _first_in_order(hits: Sequence[Hit]) -> Hit:
    places = {value: place for place, value in enumerate(ORDER)}
    return min(hits, key=lambda hit: (places.get(hit.term.value, len(ORDER)), hit.first))
