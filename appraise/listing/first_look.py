"""A first look in one line, as a buyer types it at a stall: 'sixth ambro vine 45 hinge taped'."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from appraise.base.money import Money
from appraise.knowledge.records import Knowledge
from appraise.listing.amounts import amounts, number
from appraise.listing.damage import damage
from appraise.listing.sizes import measured_as, sizes
from appraise.listing.vocabulary import Hit, Vocabulary, vocabulary
from appraise.listing.words import Word, cut
from appraise.piece.records import Piece

IDLE = ("denial", "filler", "degree", "part", "state", "measure", "currency", "record")
LONGEST_TITLE = 120


@dataclass(frozen=True, slots=True)
class Look:
    """A line, understood.

    Attributes:
        piece: What it says, as findings known in the channel's usual way.
        understood: Pairs of the words and what they were taken for.
        not_understood: Words that found no place.
    """

    piece: Piece
    understood: tuple[tuple[str, str], ...]
    not_understood: tuple[str, ...]


@dataclass(slots=True)
class Draft:
    """A line while it is being read: the piece so far, and what became of which word."""

    text: str
    words: list[Word]
    piece: Piece = field(default_factory=Piece)
    taken: set[int] = field(default_factory=set)
    understood: list[tuple[int, str, str]] = field(default_factory=list)
    not_understood: list[str] = field(default_factory=list)

    def take(self, start: int, end: int, meaning: str) -> None:
        """Mark the words between two places of the text as understood."""
        self.understood.append((start, self.text[start:end].strip(), meaning))
        self.taken |= {
            place for place, word in enumerate(self.words) if word.start < end and word.end > start
        }

    def take_words(self, first: int, last: int, meaning: str) -> None:
        """Mark some words as understood."""
        self.take(self.words[first].start, self.words[last - 1].end, meaning)


def understand(text: str, knowledge: Knowledge, currency: str = "USD") -> Look:
    """Read one line about a piece.

    Args:
        text: The line, in any order: format, process, case, damage, size, price, motif.
        knowledge: The trade's knowledge.
        currency: ISO 4217 code of amounts that name none.

    Returns:
        The piece, what each group of words was taken for, and what was not understood.
    """
    draft = Draft(text, cut(text))
    read_line(draft, knowledge, currency)
    bare = price_without_name(draft, currency)
    if bare is not None and draft.piece.asking is None:
        place, money = bare
        draft.take_words(place, place + 1, f"asking {money}")
        draft.piece = replace(draft.piece, asking=money)
    name_the_rest(draft, vocabulary(knowledge))
    told = tuple((words, meaning) for _, words, meaning in sorted(draft.understood))
    return Look(draft.piece, told, tuple(draft.not_understood))


def read_line(draft: Draft, knowledge: Knowledge, currency: str, prices: bool = True) -> None:
    """Sizes, prices, terms and damage of a line, into the draft's piece."""
    known = vocabulary(knowledge)
    found = list(sizes(draft.text))
    for size in found:
        draft.take(size.start, size.end, "")
    if prices:
        for amount in amounts(draft.text, knowledge, currency):
            if draft.piece.asking is None:
                draft.take(amount.start, amount.end, f"asking {amount.money}")
                draft.piece = replace(draft.piece, asking=amount.money)
    hits = known.hits(draft.words, draft.taken)
    _set_frame(draft, hits, knowledge)
    _set_terms(draft, hits, knowledge)
    _set_damage(draft, hits, known, knowledge)
    draft.understood = [one for one in draft.understood if one[2]]
    for size in found:
        what = measured_as(
            size.measure,
            draft.piece.kind,
            draft.piece.named_format,
            draft.piece.found("case.material"),
            knowledge,
        )
        draft.take(size.start, size.end, f"{what} {size.measure.as_both()}")
        draft.piece = replace(draft.piece, measured={**draft.piece.measured, what: size.measure})


def _set_frame(draft: Draft, hits: Sequence[Hit], knowledge: Knowledge) -> None:
    """The kind and channel, on which it depends what may be said of the piece and how far."""
    kind, cased = "", False
    for hit in hits:
        if hit.term.field == "channel":
            draft.piece = replace(draft.piece, channel=hit.term.value)
            draft.take_words(hit.first, hit.last, f"channel {hit.term.value}")
        elif hit.term.field == "kind":
            kind = hit.term.value
            draft.take_words(hit.first, hit.last, f"kind {kind}")
        elif hit.term.kind and not kind:
            kind = hit.term.kind
        cased = cased or (hit.term.field == "case.material" and hit.term.value != "sleeve")
    if cased and kind == "loose-plate":
        kind = "cased"
    draft.piece = replace(draft.piece, kind=kind or "cased")


def _set_terms(draft: Draft, hits: Sequence[Hit], knowledge: Knowledge) -> None:
    for hit in hits:
        term, meaning = hit.term, ""
        if term.field == "process" and not draft.piece.found("claim.process"):
            family = (
                knowledge.processes[term.value].family
                if (term.value in knowledge.processes)
                else term.value
            )
            add_finding(draft, knowledge, "claim.process", family, "in-hand")
            meaning = f"process {term.value}"
        elif term.field == "format" and not draft.piece.named_format:
            draft.piece = replace(draft.piece, named_format=term.value)
            meaning = f"format {term.value}"
        elif term.field == "case.material":
            if add_finding(draft, knowledge, "case.material", term.value):
                meaning = f"case.material {term.value}"
        elif term.field == "subject" and not draft.piece.subject:
            draft.piece = replace(draft.piece, subject=term.value)
            meaning = f"subject {term.value}"
        elif term.field == "check":
            check, answer = term.value.split()
            if add_finding(draft, knowledge, check, answer):
                meaning = f"{check} {answer}"
        if meaning:
            draft.take_words(hit.first, hit.last, meaning)
            for check, answer in term.also.items():
                known = "in-hand" if check == "claim.process" else ""
                add_finding(draft, knowledge, check, answer, known)


def _set_damage(draft: Draft, hits: Sequence[Hit], known: Vocabulary, knowledge: Knowledge) -> None:
    for one in damage(draft.words, hits, known):
        if not add_finding(draft, knowledge, one.check, one.step):
            continue
        check = knowledge.checks[one.check]
        name = check.defect.name if check.defect else one.check
        says = next((a.says for a in check.answers if a.id == one.step), one.step)
        draft.take_words(one.first, one.last, f"{one.check} {one.step}: {name}, {says}")
        if one.step != "0":
            for other, answer in one.term.also.items():
                add_finding(draft, knowledge, other, answer)


def add_finding(
    draft: Draft, knowledge: Knowledge, check: str, answer: str, known: str = ""
) -> bool:
    """Make a finding where the check is asked of such a piece and has such an answer."""
    asked = knowledge.checks.get(check)
    if asked is None or draft.piece.kind not in asked.kinds or asked.index(answer) < 0:
        return False
    if not draft.piece.found(check):
        draft.piece = draft.piece.with_finding(check, answer, known)
    return True


def price_without_name(draft: Draft, currency: str) -> tuple[int, Money] | None:
    """The first number that means nothing else, as an amount of the usual currency."""
    for place, word in enumerate(draft.words):
        if place in draft.taken or not word.is_number or "/" in word.norm:
            continue
        money = number(word.text, currency)
        if money is not None and money.amount > 0 and not _is_year(word):
            return place, money
    return None


def _is_year(word: Word) -> bool:
    return len(word.norm) == 4 and word.norm.isdecimal() and 1835 <= int(word.norm) <= 1960


def name_the_rest(draft: Draft, known: Vocabulary) -> None:
    """What is left names the motif; numbers that are left were not understood."""
    rest: list[str] = []
    for place, word in enumerate(draft.words):
        if place in draft.taken or word.is_mark:
            continue
        if word.is_number:
            draft.not_understood.append(word.text)
        elif word.norm not in known.fillers:
            rest.append(word.text)
            draft.understood.append((word.start, word.text, "motif"))
    title = " ".join(draft.text.split())
    short = title if len(title) <= LONGEST_TITLE else f"{title[: LONGEST_TITLE - 3]}..."
    draft.piece = replace(draft.piece, motif=" ".join(rest), title=short)
