"""What should make a buyer stop: phrases in the text, and claims that do not go together."""

from collections.abc import Iterator, Sequence

from appraise.knowledge.wordings import Phrase
from appraise.listing.nature import Nature
from appraise.listing.passage import Passage
from appraise.listing.records import Claim, Flag
from appraise.listing.scope import ASIDE, COMPARE, GENERAL
from appraise.listing.vocabulary import UNLESS, WARN, Hit

GRAVITY = {"warn": 0, "ask": 1, "note": 2}
IMAGELESS = ("empty-case", "part", "other")  # kinds that hold no photograph
PAPER = ("card", "print", "postcard")
SITTER_FLAGS = {
    "post-mortem": "post-mortem-claim",
    "soldier": "military-claim",
    "famous": "identity-claim",
    "occupational": "occupational-claim",
}
_DENIED_ANYHOW = frozenset(
    ("stock-picture", "as-is-words", "untouched-words", "swapped-words", "puff-words")
)
_UNMUTED = frozenset((COMPARE, GENERAL, ASIDE))


def phrase_flags(passage: Passage) -> Iterator[Flag]:
    """Flags that words raise: of each flag the gravest phrase, at its first unmuted place.

    What is denied ("not a reproduction") raises nothing, except where the denial is part of the
    phrase itself ("never opened").
    """
    lifted: set[tuple[str, int]] = set()
    for one in passage.vocabulary.warned(passage.met.get(UNLESS, ())):
        lifted.add((one.phrase, passage.sentence[one.first]))
    found: dict[str, tuple[int, Flag]] = {}
    for one in passage.vocabulary.warned(passage.met.get(WARN, ())):
        phrase = passage.vocabulary.phrases[one.phrase]
        grave = GRAVITY[phrase.severity]
        if phrase.flag in found and found[phrase.flag][0] <= grave:
            continue
        if (one.phrase, passage.sentence[one.first]) in lifted:
            continue
        if not _silenced(passage, phrase, one.first, one.last):
            start, end = passage.span(one.first, one.last)
            words = passage.text[start:end]
            found[phrase.flag] = grave, made(phrase, start, end, words=words)
    yield from (flag for _, flag in found.values())


def _silenced(passage: Passage, phrase: Phrase, first: int, last: int) -> bool:
    """Whether the words are denied, compared, of something else or general knowledge."""
    muted = any(passage.scope.muted[at] in _UNMUTED for at in range(first, last))
    if muted and phrase.flag != "misread-term":
        return True
    return passage.scope.denied[first] or (
        phrase.flag not in _DENIED_ANYHOW and passage.scope.denied[last - 1]
    )


def made(
    phrase: Phrase,
    start: int | None = None,
    end: int | None = None,
    a: str = "",
    b: str = "",
    words: str = "",
) -> Flag:
    """The flag of a phrase, with what was said put in.

    Args:
        phrase: The phrase.
        start: Where its words start in the text; None: nowhere.
        end: Where they end, not included.
        a: What stands for {a} in its texts.
        b: What stands for {b} in them.
        words: What the seller wrote, quoted where the flag holds a bid back.
    """
    words = " ".join(words.split())
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
        f'{phrase.holds} ("{words}")' if phrase.holds and words else phrase.holds,
    )


def saying_flags(claims: Sequence[Claim], passage: Passage) -> Iterator[Flag]:
    """Flags for what a seller says of age, belonging and treatment, on the words that say it."""
    checks = [claim for claim in claims if claim.field == "check"]
    for phrase in passage.vocabulary.phrases.values() if checks else ():
        for claim in checks if phrase.said else ():
            if claim.value in phrase.said:
                yield made(phrase, claim.start, claim.end, words=claim.text)


def tape_flags(claims: Sequence[Claim], nature: Nature, passage: Passage) -> Iterator[Flag]:
    """The flag for tape that is told as damage; slides are bound with tape."""
    phrase = passage.vocabulary.phrases.get("tape")
    taped = next((c for c in claims if c.value.startswith(("hinge.tape ", "seal.bad-tape "))), None)
    if phrase is not None and taped is not None and taped.against_interest:
        yield made(phrase, taped.start, taped.end)


def sitter_flags(passage: Passage, hits: Sequence[Hit]) -> Iterator[Flag]:
    """Flags for sitters whose sort raises prices."""
    for value, flag in SITTER_FLAGS.items():
        hit = next((hit for hit in hits if hit.term.value == value), None)
        if hit is None:
            continue
        phrase = next((p for p in passage.vocabulary.phrases.values() if p.flag == flag), None)
        if phrase is not None:
            yield made(phrase, *passage.span(hit.first, hit.last))


def gap_flags(nature: Nature, claims: Sequence[Claim], passage: Passage) -> Iterator[Flag]:
    """Flags for what every listing of a photograph should say."""
    phrases = passage.vocabulary.phrases
    if nature.kind in IMAGELESS:
        return
    sized = nature.format or any(claim.field == "measured" for claim in claims)
    if not sized and "no-size" in phrases:
        yield made(phrases["no-size"])
    unnamed = "no-process-paper" if nature.kind in PAPER else "no-process"
    if not nature.process and unnamed in phrases:
        yield made(phrases[unnamed])


def in_order(flags: Sequence[Flag]) -> tuple[Flag, ...]:
    """One flag of each id, the gravest first, then in the order of the text."""
    kept: dict[str, Flag] = {}
    for flag in flags:
        found = kept.setdefault(flag.id, flag)
        if GRAVITY[flag.severity] < GRAVITY[found.severity]:
            kept[flag.id] = flag
    far = 1 << 40
    return tuple(
        sorted(
            kept.values(),
            key=lambda flag: (GRAVITY[flag.severity], far if flag.start is None else flag.start),
        )
    )
