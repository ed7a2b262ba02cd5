"""A first look in one line, as a buyer types it at a stall: 'sixth ambro vine 45 hinge taped'."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from appraise.base.money import Money
from appraise.knowledge.records import Knowledge
from appraise.listing.amounts import amounts, number
from appraise.listing.damage import Subject, damage
from appraise.listing.passage import Passage
from appraise.listing.sizes import measured_as, sizes
from appraise.listing.vocabulary import BRIEF, Hit
from appraise.listing.words import Word
from appraise.piece.records import Piece

LONGEST_TITLE = 120
FIRST_YEAR, LAST_YEAR = 1835, 1960  # a bare number between them is a year, not a price


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


@dataclass
class Draft:
    """A line while it is being read: the piece so far, and what became of which word."""

    passage: Passage
    piece: Piece = field(default_factory=Piece)
    taken: set[int] = field(default_factory=set)
    understood: list[tuple[int, str, str]] = field(default_factory=list)
    lost: list[tuple[int, str]] = field(default_factory=list)

    @property
    def words(self) -> list[Word]:
        """The words of the line."""
        return self.passage.words

    def take(self, start: int, end: int, meaning: str) -> None:
        """Mark the words between two places of the text as understood."""
        self.understood.append((start, self.passage.text[start:end].strip(), meaning))
        self.taken.update(self.passage.places(start, end))

    def take_words(self, first: int, last: int, meaning: str) -> None:
        """Mark some words as understood."""
        self.take(*self.passage.span(first, last), meaning)

    def told(self) -> tuple[tuple[str, str], ...]:
        """What was understood, in the order of the line."""
        return tuple((words, meaning) for _, words, meaning in sorted(self.understood))

    def not_told(self) -> tuple[str, ...]:
        """What was not, in the order of the line."""
        return tuple(words for _, words in sorted(self.lost))


def understand(text: str, knowledge: Knowledge, currency: str = "USD") -> Look:
    """Read one line about a piece.

    Args:
        text: The line, in any order: format, process, case, damage, size, price, motif.
        knowledge: The trade's knowledge.
        currency: ISO 4217 code of amounts that name none.

    Returns:
        The piece, what each group of words was taken for, and what was not understood.
    """
    priced = list(amounts(text, knowledge, currency))
    masks = [(one.start, one.end) for one in sizes(text)]
    masks += [(one.start, one.end) for one in priced]
    draft = Draft(Passage(text, knowledge, brief=True, masks=masks))
    for amount in priced[:1]:
        draft.take(amount.start, amount.end, f"asking {amount.money}")
        draft.piece = replace(draft.piece, asking=amount.money)
    read_line(draft)
    for place, money in bare_amounts(draft, currency):
        if draft.piece.asking is None:
            draft.take_words(place, place + 1, f"asking {money}")
            draft.piece = replace(draft.piece, asking=money)
    name_the_rest(draft)
    return Look(draft.piece, draft.told(), draft.not_told())


def read_line(draft: Draft) -> None:
    """Sizes, terms and damage of a line, into the draft's piece."""
    hits = draft.passage.vocabulary.hits(BRIEF, draft.passage.ground)
    _set_frame(draft, hits)
    for hit in hits:
        _set_term(draft, hit)
    _set_damage(draft)
    for size in sizes(draft.passage.text):
        piece = draft.piece
        what = measured_as(
            size.measure,
            piece.kind,
            piece.named_format,
            piece.found("case.material"),
            draft.passage.knowledge,
        )
        draft.take(size.start, size.end, f"{what} {size.measure.as_both()}")
        draft.piece = replace(piece, measured={**piece.measured, what: size.measure})


def _set_frame(draft: Draft, hits: Sequence[Hit]) -> None:
    """The kind and channel, on which it depends what may be said of the piece and how far."""
    kind, cased = "", False
    for hit in hits:
        term = hit.term
        if term.field == "channel":
            draft.piece = replace(draft.piece, channel=term.value)
            draft.take_words(hit.first, hit.last, f"channel {term.value}")
        elif term.field == "kind":
            kind = term.value
            draft.take_words(hit.first, hit.last, f"kind {kind}")
        elif (term.kind or term.value == "gem") and not kind:
            kind = term.kind or "loose-plate"
        cased = cased or (term.field == "case.material" and term.value != "sleeve")
    if cased and kind == "loose-plate":
        kind = "cased"
    draft.piece = replace(draft.piece, kind=kind or "cased")


def _set_term(draft: Draft, hit: Hit) -> None:
    """One term of the line, where it claims something and nothing of its sort was said before."""
    term, piece, knowledge = hit.term, draft.piece, draft.passage.knowledge
    if not draft.passage.scope.claims(hit.first, hit.last):
        return
    meaning = ""
    if term.field == "process" and not piece.found("claim.process"):
        known = knowledge.processes.get(term.value)
        if add_finding(draft, "claim.process", known.family if known else term.value, "in-hand"):
            meaning = f"process {term.value}"
    elif term.field == "format" and not piece.named_format:
        draft.piece = replace(piece, named_format=term.value)
        meaning = f"format {term.value}"
    elif term.field == "case.material" and add_finding(draft, "case.material", term.value):
        meaning = f"case.material {term.value}"
    elif term.field == "subject" and not piece.subject:
        draft.piece = replace(piece, subject=term.value)
        meaning = f"subject {term.value}"
    elif term.field == "check" and add_finding(draft, *term.value.split()):
        meaning = term.value
    if meaning:
        draft.take_words(hit.first, hit.last, meaning)
        for check, answer in term.also.items():
            add_finding(draft, check, answer, "in-hand" if check == "claim.process" else "")


def _set_damage(draft: Draft) -> None:
    piece, knowledge = draft.piece, draft.passage.knowledge
    subject = Subject(piece.kind, piece.found("case.material"), piece.found("claim.process"))
    for one in damage(draft.passage, lambda _: subject):
        if not add_finding(draft, one.check, one.step):
            continue
        check = knowledge.checks[one.check]
        name = check.defect.name if check.defect else one.check
        says = next((a.says for a in check.answers if a.id == one.step), one.step)
        first = one.first - 1 if one.step == "0" and one.first else one.first
        draft.take_words(first, one.last, f"{one.check} {one.step}: {name}, {says}")
        if one.step != "0":
            for other, answer in one.term.also.items():
                add_finding(draft, other, answer)


def add_finding(draft: Draft, check: str, answer: str, known: str = "") -> bool:
    """Make a finding where the check is asked of such a piece and has such an answer."""
    asked = draft.passage.knowledge.checks.get(check)
    if asked is None or draft.piece.kind not in asked.kinds or asked.index(answer) < 0:
        return False
    if not draft.piece.found(check):
        draft.piece = draft.piece.with_finding(check, answer, known)
    return True


def bare_amounts(draft: Draft, currency: str) -> Iterator[tuple[int, Money]]:
    """Numbers that mean nothing else, as amounts of the usual currency; years are none."""
    for place, word in enumerate(draft.words):
        if place in draft.taken or not word.is_number or "/" in word.norm:
            continue
        money = number(word.text, currency)
        if money is not None and money.amount > 0 and not _is_year(word):
            yield place, money


def _is_year(word: Word) -> bool:
    four = len(word.norm) == 4 and word.norm.isdecimal()
    return four and FIRST_YEAR <= int(word.norm) <= LAST_YEAR


def name_the_rest(draft: Draft) -> None:
    """What is left names the motif; numbers that are left were not understood."""
    fillers = draft.passage.vocabulary.sets["filler"]
    motif: list[str] = []
    run: list[Word] = []
    for place, word in enumerate([*draft.words, None]):
        if word is not None and place not in draft.taken and not word.is_mark:
            if word.is_number:
                draft.lost.append((word.start, word.text))
            elif word.norm not in fillers or run:
                run.append(word)
                continue
        motif += _named(draft, run)
        run = []
    title = " ".join(draft.passage.text.split())
    short = title if len(title) <= LONGEST_TITLE else f"{title[: LONGEST_TITLE - 3]}..."
    draft.piece = replace(draft.piece, motif=" ".join(motif), title=short)


def _named(draft: Draft, run: list[Word]) -> list[str]:
    """One run of words that are left, without fillers at its end."""
    fillers = draft.passage.vocabulary.sets["filler"]
    while run and run[-1].norm in fillers:
        run = run[:-1]
    if not run:
        return []
    words = draft.passage.text[run[0].start : run[-1].end]
    draft.understood.append((run[0].start, words, "motif"))
    return words.split()
