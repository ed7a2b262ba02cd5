"""Claims about what the piece is: process, format, material and condition."""

from collections.abc import Sequence
from functools import lru_cache

from appraise.knowledge.records import Knowledge
from appraise.listing.damage import DamageSaid, DamageSubject, asked_of
from appraise.listing.nature import Nature, usual_kind
from appraise.listing.passage import Passage
from appraise.listing.records import Claim
from appraise.listing.vocabulary import Hit

FRAMED = (
    "daguerreotype", "ambrotype", "ambrotype-ruby", "tintype", "opalotype", "crystoleum",
    "pannotype",
)  # fmt: skip
FRAME = ("case.material", "frame")
MATTED = "passe"
MANY = ("album", "lot")  # kinds that hold several pieces, of which words of damage are said


def thing_claims(passage: Passage, fields: Sequence[str]) -> list[Claim]:
    """Claims of some fields, one for each value, where it first stands."""
    found: dict[tuple[str, str], Claim] = {}
    for hit in passage.claimed(passage.things, *fields):
        key = hit.term.field, hit.term.value
        if key not in found:
            found[key] = claim_of(passage, hit)
        if hit.term.field == "format":
            for value in (v for k, v in hit.term.also.items() if k == "claim.process"):
                found.setdefault(("process", value), claim_of(passage, hit, "process", value))
    frame, housed = found.get(FRAME), [key for key in found if key[0] == FRAME[0] and key != FRAME]
    if frame is not None and housed and frame.text.lower().startswith(MATTED):
        del found[FRAME]  # in a case a passe-partout is its mat
    return list(found.values())


def housing_claims(passage: Passage, claims: Sequence[Claim]) -> list[Claim]:
    """Leather or a frame that is spoken of as a part tells the housing, if nothing else does."""
    if any(one.field == "case.material" for one in claims):
        return []
    kind = next((one.value for one in claims if one.field == "kind"), "")
    told = {"leather": "leather-wood"} if kind in ("cased", "empty-case") else {}
    plated = any(one.field == "process" and one.value in FRAMED for one in claims)
    told |= {"frame": "frame"} if kind in ("", "cased") and plated else {}
    for hit in passage.things:
        value = told.get(hit.term.value, "") if hit.term.field == "part" else ""
        if hit.term.field == "defect" and _names_leather(passage, hit):
            value = told.get("leather", "")
        if value and passage.scope.claims(hit.first, hit.last):
            housed = claim_of(passage, hit, "case.material", value)
            return [housed] if kind else [housed, claim_of(passage, hit, "kind", "cased")]
    return []


def _names_leather(passage: Passage, hit: Hit) -> bool:
    """Whether words of damage name the leather: 'leather coming off'."""
    return any(word.norm == "leather" for word in passage.words[hit.first : hit.last])


def claim_of(passage: Passage, hit: Hit, field: str = "", value: str = "") -> Claim:
    """A hit as a claim."""
    start, end = passage.span(hit.first, hit.last)
    return Claim(
        field or hit.term.field,
        value or hit.term.value,
        passage.text[start:end],
        start,
        end,
        hit.score,
    )


@lru_cache(maxsize=1_024)
def subject_of(nature: Nature, knowledge: Knowledge) -> DamageSubject:
    """What damage is said of, where a piece is of such a nature."""
    kind = nature.kind or usual_kind(nature.process, knowledge)
    return DamageSubject(kind, nature.material, nature.process)


def damage_claims(passage: Passage, damaged: Sequence[DamageSaid]) -> list[Claim]:
    """What is said of the condition; damage is told against the seller's own interest.

    Args:
        passage: The text.
        damaged: Everything that it says of the condition.
    """
    found: dict[tuple[str, bool], Claim] = {}
    for one in damaged:
        start, end = passage.span(one.first, one.last)
        bad = one.step != "0"
        claim = Claim(
            "defect",
            f"{one.check} {one.step}",
            passage.text[start:end],
            start,
            end,
            one.score,
            bad,
        )
        kept = found.get((one.check, bad))
        if kept is None or kept.value < claim.value:
            found[one.check, bad] = claim
    return [claim for (check, bad), claim in found.items() if bad or (check, True) not in found]


def check_claims(passage: Passage, nature: Nature) -> list[Claim]:
    """Answers to checks that are no damage: a magnet that pulls, an octagonal mat."""
    subject = subject_of(nature, passage.knowledge)
    found: dict[str, Claim] = {}
    for hit in passage.claimed(passage.things, "check"):
        check = passage.knowledge.checks.get(hit.term.value.split()[0])
        if check is not None and asked_of(check, subject, passage):
            found.setdefault(check.id, claim_of(passage, hit))
    return list(found.values())
