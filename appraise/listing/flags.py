"""What should make a buyer stop: phrases in the text, and claims that do not go together."""

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

from appraise.base.dates import Dating
from appraise.base.errors import InputError
from appraise.base.measures import Measure
from appraise.knowledge.records import Knowledge, Years
from appraise.knowledge.wordings import Phrase
from appraise.listing.passage import Passage
from appraise.listing.records import Claim, Flag
from appraise.listing.scope import ASIDE, COMPARE, GENERAL
from appraise.listing.sizes import FARTHEST, offset_of, strays
from appraise.listing.things import Nature, family
from appraise.listing.vocabulary import UNLESS, WARN, Hit

GRAVITY = {"warn": 0, "ask": 1, "note": 2}
SITTER_FLAGS = {
    "post-mortem": "post-mortem-claim",
    "soldier": "military-claim",
    "occupational": "occupational-claim",
}
_DENIED_ANYHOW = frozenset(("as-is-words", "untouched-words", "swapped-words", "puff-words"))
# A portrait of somebody with two names, or somebody's kin.
_NAMED = re.compile(
    r"(?:[Pp]ortrait|[Ll]ikeness) of (?P<name>[A-Z][a-z]{2,20} [A-Z][a-z]{2,20})(?!\w)"
    r"|(?P<kin>[A-Z][a-z]{2,20})['’]s (?:cousin|brother|sister|wife|widow|mother|father|aunt|uncle"
    r"|nephew|niece|grand(?:son|daughter|mother|father)|descendant)(?!\w)"
)
_FIXED = ("case.material", "format")
_UNMUTED = frozenset((COMPARE, GENERAL, ASIDE))


def phrase_flags(passage: Passage) -> Iterator[Flag]:
    """Flags that words raise: the first unmuted place of each phrase.

    What is denied ("not a reproduction") raises nothing, except where the denial is part of the
    phrase itself ("never opened").
    """
    lifted: set[tuple[str, int]] = set()
    for one in passage.vocabulary.warned(UNLESS, passage.ground):
        lifted.add((one.phrase, passage.sentence[one.first]))
    seen: set[str] = set()
    for one in passage.vocabulary.warned(WARN, passage.ground):
        phrase = passage.vocabulary.phrases[one.phrase]
        if phrase.flag in seen or (one.phrase, passage.sentence[one.first]) in lifted:
            continue
        if _silenced(passage, phrase, one.first, one.last):
            continue
        seen.add(phrase.flag)
        yield made(phrase, *passage.span(one.first, one.last))


def _silenced(passage: Passage, phrase: Phrase, first: int, last: int) -> bool:
    """Whether the words are denied, compared, of something else or general knowledge."""
    muted = any(passage.scope.muted[at] in _UNMUTED for at in range(first, last))
    if muted and phrase.flag != "misread-term":
        return True
    return passage.scope.denied[first] or (
        phrase.flag not in _DENIED_ANYHOW and passage.scope.denied[last - 1]
    )


def made(
    phrase: Phrase, start: int | None = None, end: int | None = None, a: str = "", b: str = ""
) -> Flag:
    """The flag of a phrase, with what was said put in."""
    told = {"{a}": a, "{b}": b}

    def filled(text: str) -> str:
        for mark, words in told.items():
            text = text.replace(mark, words)
        return text

    return Flag(
        phrase.flag,
        filled(phrase.says),
        phrase.why,
        phrase.severity,
        filled(phrase.question),
        start,
        end,
    )


def sitter_flags(passage: Passage, hits: Sequence[Hit]) -> Iterator[Flag]:
    """Flags for sitters whose sort raises prices."""
    for value, flag in SITTER_FLAGS.items():
        hit = next((hit for hit in hits if hit.term.value == value), None)
        phrase = next((p for p in passage.vocabulary.phrases.values() if p.flag == flag), None)
        if hit is not None and phrase is not None:
            yield made(phrase, *passage.span(hit.first, hit.last))


def name_flags(passage: Passage) -> Iterator[Flag]:
    """The flag for a named sitter: 'Colonel Tate', 'the outlaw Sorrel', 'portrait of Ann Lee'.

    Names are words in capitals that are no words of the trade; a text all in capitals has none.
    """
    phrase = passage.vocabulary.phrases.get("identity")
    if phrase is None:
        return
    for hit in passage.hits("origin"):
        if hit.term.field != "title" or not _is_name(passage, hit.last):
            continue
        ranked = hit.term.value == "role" or passage.words[hit.first].text.istitle()
        if ranked and passage.scope.claims(hit.first, hit.last + 1):
            yield made(phrase, *passage.span(hit.first, hit.last + 1))
            return
    for match in _NAMED.finditer(passage.text):
        name = str(match.lastgroup)
        places = passage.places(*match.span(name))
        if len(places) and _is_name(passage, places.start):
            yield made(phrase, *match.span(name))
            return


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


def claim_flags(claims: Sequence[Claim], nature: Nature, passage: Passage) -> Iterator[Flag]:
    """Flags that claims raise against each other; `nature` is of a single piece."""
    phrases = passage.vocabulary.phrases
    pair = disagreement(claims, passage)
    if pair and "claims-disagree" in phrases:
        first, second = pair
        yield made(phrases["claims-disagree"], second.start, second.end, first.text, second.text)
    sized = (claim for claim in claims if claim.field == "measured")
    off = next((claim for claim in sized if misfits(claim, nature, passage.knowledge)), None)
    if off is not None and "size-disagrees" in phrases:
        name = passage.knowledge.formats[nature.format].name
        yield made(phrases["size-disagrees"], off.start, off.end, name, off.text)
    yield from _date_flags(claims, nature, passage)


def disagreement(claims: Sequence[Claim], passage: Passage) -> tuple[Claim, Claim] | None:
    """Two claims of one field that cannot both be so."""
    fields = _FIXED if unsure(passage) else ("process", *_FIXED)
    for field in fields:
        said = [claim for claim in claims if claim.field == field]
        for earlier, later in pairwise(said):
            one, two = (family(claim.value, passage.knowledge) for claim in (earlier, later))
            if one == two or _compatible(field, {one, two}):
                continue
            if not _undecided(passage, earlier, later):
                return earlier, later
    return _dates_apart(claims)


def unsure(passage: Passage) -> bool:
    """Whether the seller leaves open which process it is."""
    return any(hit.term.value == "unsure" for hit in passage.speech)


def _compatible(field: str, pair: set[str]) -> bool:
    """A case within a frame, or a sleeve within either, is no contradiction."""
    return (field == "case.material" and bool(pair & {"sleeve", "locket", "frame"})) or pair <= {
        "half",
        "half-uk",
    }


def _undecided(passage: Passage, earlier: Claim, later: Claim) -> bool:
    """Whether the seller leaves it open: 'ambrotype or tintype'."""
    between = passage.places(earlier.end, later.start)
    return len(between) <= 3 and any(passage.words[at].norm in ("or", "/", "?") for at in between)


def _dates_apart(claims: Sequence[Claim]) -> tuple[Claim, Claim] | None:
    spans = []
    for claim in claims:
        if claim.field == "date" and (bounds := _years(claim, 2)):
            spans.append((claim, *bounds))
    for (one, low, high), (two, first, last) in pairwise(spans):
        if high < first or last < low:
            return one, two
    return None


def _years(claim: Claim, tolerance: int) -> tuple[int, int] | None:
    try:
        first, last = Dating.parse(claim.value).bounds(tolerance)
    except InputError:
        return None
    return first.year if first else 0, last.year if last else 9999


def misfits(claim: Claim, nature: Nature, knowledge: Knowledge) -> bool:
    """Whether a measure fits the named format neither as plate nor as opening nor as case."""
    form = knowledge.formats.get(nature.format)
    if form is None:
        return False
    try:
        measure = Measure.parse(claim.value.split(" ", 1)[1])
    except InputError:
        return False
    if len(measure.sides) < 2:
        return False
    told = claim.value.split(" ", 1)[0]
    whats = ("case",) if told == "case" else ("plate", "opening", "case", "mount")
    return all(
        strays(form, measure, offset_of(knowledge, what, nature.material)) > FARTHEST
        for what in whats
    )


def _date_flags(claims: Sequence[Claim], nature: Nature, passage: Passage) -> Iterator[Flag]:
    """Dates wholly before or after the years of the process, or before those of the case."""
    knowledge = passage.knowledge
    process = [
        year
        for one in knowledge.processes.values()
        if one.family == nature.process
        for year in one.years.values()
    ]
    names = ("date-before-process", "date-after-process")
    yield from _out_of_years(claims, process, names, nature.process, passage)
    housing = knowledge.housings.get(nature.material)
    if housing is not None:
        years = list(housing.years.values())
        yield from _out_of_years(claims, years, ("date-before-case", ""), housing.name, passage)


def _out_of_years(
    claims: Sequence[Claim],
    years: Sequence[Years],
    names: tuple[str, str],
    what: str,
    passage: Passage,
) -> Iterator[Flag]:
    """The flag of the first date that lies before (first name) or after (second name) all years."""
    if not years:
        return
    first, last = min(year.first for year in years), max(year.last for year in years)
    for claim in (claim for claim in claims if claim.field == "date"):
        span = _years(claim, 5)
        if span is None or (span[1] >= first and span[0] <= last):
            continue
        flag = names[0] if span[1] < first else names[1]
        if flag in passage.vocabulary.phrases:
            phrase = passage.vocabulary.phrases[flag]
            yield made(phrase, claim.start, claim.end, claim.text, what)
            return


def gap_flags(nature: Nature, claims: Sequence[Claim], passage: Passage) -> Iterator[Flag]:
    """Flags for what every listing should say."""
    phrases = passage.vocabulary.phrases
    sized = nature.format or any(claim.field == "measured" for claim in claims)
    if not sized and "no-size" in phrases:
        yield made(phrases["no-size"])
    if not nature.process and "no-process" in phrases:
        yield made(phrases["no-process"])


def in_order(flags: Sequence[Flag]) -> tuple[Flag, ...]:
    """One flag of each id, the gravest first, then in the order of the text."""
    kept: dict[str, Flag] = {}
    for flag in flags:
        kept.setdefault(flag.id, flag)
    far = 1 << 40
    return tuple(
        sorted(
            kept.values(),
            key=lambda flag: (GRAVITY[flag.severity], far if flag.start is None else flag.start),
        )
    )
