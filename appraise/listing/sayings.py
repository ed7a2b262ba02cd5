"""What the seller says of age, belonging and treatment, as answers to checks of what is claimed."""

from collections.abc import Callable, Iterator, Sequence

from appraise.listing.damage import DamageSaid, DamageSubject, asked_of
from appraise.listing.passage import Passage
from appraise.listing.records import Claim
from appraise.listing.scope import ASIDE, COMPARE, GENERAL, HEARSAY
from appraise.listing.vocabulary import Hit

_UNMEANT = frozenset((COMPARE, GENERAL, ASIDE))
SUREST = 0.95


def saying_claims(passage: Passage, subject_at: Callable[[int], DamageSubject]) -> list[Claim]:
    """Claims on checks of what is said, one for each check: an admission before any praise.

    What is denied claims the opposite where the knowledge names one ("not a reproduction"), and
    else nothing. What others are said to have said is claimed, but is no admission.

    Args:
        passage: The text.
        subject_at: What the word at a place is said of.
    """
    found: dict[str, Claim] = {}
    for hit in passage.hits("said"):
        for claim in _claims(passage, hit):
            if not _asked(passage, claim, subject_at(hit.first)):
                continue
            check = claim.value.split()[0]
            kept = found.get(check)
            if kept is None or (claim.against_interest and not kept.against_interest):
                found[check] = claim
    return list(found.values())


def _claims(passage: Passage, hit: Hit) -> Iterator[Claim]:
    """A saying as claims; none where the words are compared, of something else, or denied."""
    if hit.term.field != "saying" or passage.scope.muted[hit.first] in _UNMEANT:
        return
    denied = passage.scope.denied[hit.first]
    value = hit.term.denied if denied else hit.term.value
    admits = hit.term.admits and not denied and passage.scope.muted[hit.first] != HEARSAY
    start, end = passage.span(hit.first, hit.last)
    text = passage.text[start:end]
    more = () if denied else (f"{check} {answer}" for check, answer in hit.term.also.items())
    for told in (value, *more):
        if told:
            yield Claim("check", told, text, start, end, min(hit.score, SUREST), admits)


def implied_claims(
    passage: Passage, found: Sequence[DamageSaid], subject_at: Callable[[int], DamageSubject]
) -> list[Claim]:
    """What damage that is admitted answers besides: a replaced mat is not the first one."""
    claims: dict[str, Claim] = {}
    for one in found:
        if one.step == "0":
            continue
        start, end = passage.span(one.first, one.last)
        for check, answer in one.term.also.items():
            text = passage.text[start:end]
            claim = Claim("check", f"{check} {answer}", text, start, end, one.score, True)
            if _asked(passage, claim, subject_at(one.first)):
                claims.setdefault(check, claim)
    return list(claims.values())


def _asked(passage: Passage, claim: Claim, subject: DamageSubject) -> bool:
    """Whether such a piece is asked the check."""
    check = passage.knowledge.checks.get(claim.value.split()[0])
    return check is not None and asked_of(check, subject, passage)


def first_of_each(*groups: Sequence[Claim]) -> list[Claim]:
    """Claims of several sorts, one for each check: those of earlier groups stand."""
    found: dict[str, Claim] = {}
    for claim in (one for group in groups for one in group):
        found.setdefault(claim.value.split()[0], claim)
    return list(found.values())
