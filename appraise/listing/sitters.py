"""Who or what is shown: one word for the whole, and every claim that raises a flag."""

from collections.abc import Sequence

from appraise.listing.passage import Passage
from appraise.listing.records import Claim
from appraise.listing.things import claim_of
from appraise.listing.vocabulary import Hit
from appraise.listing.writing import quotes

BESIDE = frozenset(
    ("post-mortem", "famous", "soldier", "occupational", "child", "couple", "animal")
)
"""Subjects that may hold beside a leading one."""
OWNER_REACH = 8  # words after one for an owner that tell who it was
_STOPS = frozenset((",", "(", ")", ":", "–", "—", "-"))
# The first that is said holds.
ORDER = (
    "post-mortem", "famous", "soldier", "occupational", "couple", "group", "child", "single",
    "animal", "outdoor", "object", "music", "sport", "arms", "insignia", "of-colour", "school",
    "institution", "other",
)  # fmt: skip


def sitters_in(passage: Passage) -> list[Hit]:
    """Words for sitters, but for quoted names and marks, owners and the seller's own trade."""
    quoted = [passage.places(quote.start, quote.end) for quote in quotes(passage.text)]
    inside = {place for places in quoted for place in places}
    hits = passage.hits("sitter")
    inside |= _owned(passage, [hit for hit in hits if hit.term.field == "owner"])
    return [hit for hit in hits if hit.first not in inside]


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
    said = [hit for hit in hits if hit.term.field == "subject"]
    said = [hit for hit in said if passage.scope.claims(hit.first, hit.last)]
    if parts:
        spans = [passage.places(*part) for part in parts]
        each = [[hit for hit in said if hit.first in span] for span in spans]
        said = [_first_in_order(own) for own in each if own]
        if len(said) < len(parts):
            return []
    if not said or (several and len({hit.term.value for hit in said}) > 1):
        return []
    return [claim_of(passage, _first_in_order(said))]


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
            for hit in sitters_in(passage)
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
