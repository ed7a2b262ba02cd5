"""Claims about what the piece is: process, format, material, size and condition."""

from collections.abc import Sequence

from appraise.knowledge.records import Knowledge
from appraise.listing.damage import Damage, Subject, asked_of
from appraise.listing.nature import Nature, usual_kind
from appraise.listing.passage import Passage
from appraise.listing.records import Claim
from appraise.listing.sizes import Size, measured_as
from appraise.listing.vocabulary import Hit

_BEFORE, _AFTER = 7, 3  # words around a size that say what was measured


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
    return list(found.values())


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


def size_claims(passage: Passage, found: Sequence[Size], nature: Nature) -> list[Claim]:
    """Sizes with what was measured, by the words around them or by what fits."""
    cues: dict[int, str] = {}
    names = {hit.last - 1 for hit in passage.things if hit.term.field == "format"}
    for hit in passage.hits("measured"):
        if hit.first not in names:  # the plate of "sixth plate" was not measured
            cues.update(dict.fromkeys(range(hit.first, hit.last), hit.term.value))
    claims = []
    for size in found:
        places = passage.places(size.start, size.end)
        if any(passage.scope.muted[places.start : places.stop]):
            continue
        what = _what(passage, places, cues, nature)
        if not what:
            what = _fitted(size, nature, passage.knowledge)
        text = passage.text[size.start : size.end]
        value = f"{what} {size.measure}"
        claims.append(Claim("measured", value, text, size.start, size.end, 0.9))
    return claims


def _fitted(size: Size, nature: Nature, knowledge: Knowledge) -> str:
    """What was measured by what fits; of an empty case its outside."""
    if nature.kind == "empty-case":
        return "case"
    kind = nature.kind or "loose-plate"
    return measured_as(size.measure, kind, nature.format, nature.material, knowledge)


def _what(passage: Passage, places: range, cues: dict[int, str], nature: Nature) -> str:
    """What the nearest word in the size's own sentence says was measured."""
    after = range(places.stop, min(len(passage.words), places.stop + _AFTER))
    before = range(places.start - 1, max(-1, places.start - 1 - _BEFORE), -1)
    for reach in (after, before):
        apart = False
        for at in reach:
            if passage.ends[at] or (reach is after and passage.words[at].norm == ","):
                break
            if passage.words[at].is_number and reach is before:
                break
            if at in cues:
                return _fitting(cues[at], nature, apart)
            apart = apart or passage.words[at].norm == ","
    return ""


def _fitting(what: str, nature: Nature, apart: bool) -> str:
    """A card or print on one is measured by its mount; a loose plate has no case.

    A mount that stands `apart`, behind a comma, only tells what the piece is.
    """
    if nature.kind == "card":
        return "mount"
    if what == "mount":
        return "mount" if nature.kind == "cyanotype" and not apart else "plate"
    if what == "case" and nature.kind in ("card", "lantern-slide", "cyanotype", "loose-plate"):
        return ""
    return what


def subject_of(nature: Nature, knowledge: Knowledge) -> Subject:
    """What damage is said of, where a piece is of such a nature."""
    return Subject(
        nature.kind or usual_kind(nature.process, knowledge), nature.material, nature.process
    )


def damage_claims(passage: Passage, damaged: Sequence[Damage]) -> list[Claim]:
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
