"""A first look in one line, as a buyer types it at a stall: 'sixth ambro vine 45 hinge taped'."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import replace

from appraise.base.dataclass import dataclass
from appraise.knowledge.records import UNJUDGED, Knowledge, Term
from appraise.listing.amounts import Amount
from appraise.listing.counted import SHOWN, counts_in, shown_counts
from appraise.listing.damage import DamageSaid, DamageSubject, damage
from appraise.listing.draft import LineDraft, bare_amounts
from appraise.listing.figures import Figures, figures
from appraise.listing.leftover import name_the_rest
from appraise.listing.lone import names_it, set_lone_part
from appraise.listing.passage import Passage
from appraise.listing.scope import DENY
from appraise.listing.sizes import measured_as
from appraise.listing.vocabulary import Hit
from appraise.listing.writing import maker_claims
from appraise.records.piece import CLAIMED, IN_HAND, SELLER, SIDES, Image, Piece

VIEW = "outdoor"  # right before a channel it names that: 'quay market'
TWO = 2
NEAR = 3  # words between a denial and the damage that it denies
NAMED = ("process", "case.material")  # the fields of which a word may say `only`


LONGEST = 2_000
"""Characters of one line; a longer text is a listing."""


@dataclass(frozen=True, slots=True)
class Look:
    """A line, understood.

    Attributes:
        piece: What it says, as findings known in the channel's usual way.
        understood: Pairs of the words and what they were taken for.
        not_understood: Words that found no place.
        notes: What has to be said of the line, in whole sentences.
    """

    piece: Piece
    understood: tuple[tuple[str, str], ...]
    not_understood: tuple[str, ...]
    notes: tuple[str, ...] = ()


def understand(
    text: str,
    knowledge: Knowledge,
    currency: str = "USD",
    stocked: bool = False,
    today: dt.date | None = None,
    region: str = "unknown",
) -> Look:
    """Read one line about a piece.

    Args:
        text: The line, in any order: format, process, case, damage, size, price, motif.
        knowledge: The trade's knowledge.
        currency: ISO 4217 code of amounts that name none.
        stocked: Whether it is known to be of a part in stock, of which answers are read.
        today: The day, where the line may name one, of which the figures are then no price; it
            stays in the title.
        region: Where the user is at home, which decides what 5/6/2026 is.

    Returns:
        The piece, what each group of words was taken for, and what was not understood.
    """
    rest, text = text[LONGEST:].strip(), text[:LONGEST]
    found = figures(text, knowledge, currency, today, region)
    draft = LineDraft(Passage(text, knowledge, brief=True, masks=found.masks))
    _take_days(draft, found)
    for amount in found.amounts[:1]:
        _ask(draft, amount)
    read_line(draft, found, stocked)
    if not stocked and not names_it(draft):
        draft.notes.append("no word says what it is")
    for amount in bare_amounts(draft, currency):
        if draft.piece.asking is None:
            _ask(draft, amount)
    if draft.piece.asking is not None:
        note_several(draft, str(draft.piece.asking))
    name_the_rest(draft)
    if rest:
        draft.notes.append(f"only the first {LONGEST:,} characters of a line are read")
    return Look(draft.piece, draft.told(), draft.not_told(), tuple(draft.notes))


def _take_days(draft: LineDraft, found: Figures) -> None:
    """Days that the line names; one that cannot be is not understood."""
    for day in found.days:
        if day.date is not None:
            draft.take(day.start, day.end, f"day {day.date.isoformat()}")
        else:
            draft.lose(day.start, day.end)


def _ask(draft: LineDraft, amount: Amount) -> None:
    draft.take(amount.start, amount.end, f"asking {amount.money}")
    draft.piece = replace(draft.piece, asking=amount.money)


def note_several(draft: LineDraft, price: str) -> None:
    """Say that a price is for several pieces, where the line is about several."""
    if draft.count > 1:
        told = "the two" if draft.count == TWO else f"all {draft.count}"
        draft.notes.append(f"{price} is read as the price of {told} pieces together")


def read_line(draft: LineDraft, found: Figures, stocked: bool = False) -> None:
    """Sizes, terms, damage and counts of a line, into the draft's piece."""
    hits = draft.passage.things
    _set_frame(draft, hits)
    if not stocked:
        set_lone_part(draft, hits)
    _set_count(draft, hits)
    for hit in _free_of_the_frame(draft, hits):
        _set_term(draft, hit)
    _set_maker(draft)
    _set_damage(draft)
    for hit in (*draft.passage.hits("said"), *hits):
        _set_saying(draft, hit)
    for size in found.sizes:
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


def _set_frame(draft: LineDraft, hits: Sequence[Hit]) -> None:
    """The kind and channel, on which it depends what may be said of the piece and how far."""
    kind, cased, process = "", False, False
    for hit in hits:
        term = hit.term
        if term.field == "channel":
            draft.piece = replace(draft.piece, channel=term.value)
            named = any(one.term.value == VIEW and one.last == hit.first for one in hits)
            draft.take_words(hit.first - named, hit.last, f"channel {term.value}")
        elif term.field == "kind":
            kind = term.value if not kind or term.value != "cased" else kind
            draft.take_words(hit.first, hit.last, f"kind {term.value}")
        elif (term.kind or term.value == "gem") and kind in ("", "cased"):
            kind = term.kind or "loose-plate"
        cased = cased or (term.field == "case.material" and term.value != "sleeve")
        process = process or term.field == "process"
    if cased and kind == "loose-plate":
        kind = "cased"
    kind = _what_lies_there(draft, kind, decided=bool(kind) or cased, process=process)
    draft.piece = replace(draft.piece, kind=kind or "cased")
    draft.understood = [
        (start, words, f"kind {draft.piece.kind}" if meaning.startswith("kind ") else meaning)
        for start, words, meaning in draft.understood
    ]


def _what_lies_there(draft: LineDraft, kind: str, decided: bool, process: bool) -> str:
    """The kind by words that name what lies there: an empty case, an album, a postcard."""
    for hit in draft.passage.hits("lies"):
        told = hit.term.value
        if hit.term.field != "lies" or (told == "other" and process):
            continue
        if told in ("other", "print") and decided and kind != "cased":
            continue
        draft.take_words(hit.first, hit.last, f"kind {told}")
        return told
    return kind


def _free_of_the_frame(draft: LineDraft, hits: Sequence[Hit]) -> list[Hit]:
    """The terms without what is shown in words for the channel or right before: 'quay market'."""
    told = [hit for hit in hits if hit.term.field == "channel"]
    channel = {place for hit in told for place in range(hit.first, hit.last)}
    before = {hit.first for hit in told}
    return [
        hit
        for hit in hits
        if hit.term.field not in SHOWN
        or not (
            channel & set(range(hit.first, hit.last))
            or (hit.term.value == VIEW and hit.last in before)
        )
    ]


def _set_count(draft: LineDraft, hits: Sequence[Hit]) -> None:
    """How many pieces lie there: '12 tintypes', 'two', 'the pair'; several make a lot.

    A count of people says no more than that they are several.
    """
    for place, _ in shown_counts(draft.passage, hits):
        if not any(hit.first <= place < hit.last for hit in hits):
            draft.take_words(place, place + 1, "people shown")
    for place, count in counts_in(draft.passage, hits):
        if place not in draft.taken and count > 1:
            draft.count = max(draft.count, count)
            told = f"{count} pieces" if count != TWO else "two pieces"
            draft.take_words(place, place + 1, told)
    if draft.count > 1 and not draft.kind_told:
        draft.piece = replace(draft.piece, kind="lot")
    elif draft.count == TWO and draft.piece.kind == "cased":
        draft.count = 1
        draft.understood = [
            (start, said, "two pictures in one case" if meaning == "two pieces" else meaning)
            for start, said, meaning in draft.understood
        ]
        draft.piece = replace(draft.piece, images=tuple(map(Image, SIDES)))


def _set_term(draft: LineDraft, hit: Hit) -> None:
    """One term of the line, where it claims something and nothing of its sort was said before.

    A process is what the piece is called, at a glance or by its label, wherever it is met; whether
    one recognises it oneself is a question of its own.
    """
    term, piece, knowledge = hit.term, draft.piece, draft.passage.knowledge
    if not draft.passage.scope.claims(hit.first, hit.last):
        return
    meaning = ""
    if piece.kind in UNJUDGED and term.field in ("process", "case.material"):
        known = knowledge.processes.get(term.value)
        draft.said.setdefault(term.field, known.family if known else term.value)
        meaning = f"{term.field} {term.value}"
    elif term.field == "process" and not piece.called:
        known = knowledge.processes.get(term.value)
        if add_finding(draft, CLAIMED, known.family if known else term.value, SELLER):
            meaning = f"process {term.value}"
    elif term.field == "format" and not piece.named_format:
        draft.piece = replace(piece, named_format=term.value)
        meaning = f"format {term.value}"
    elif term.field == "case.material" and add_finding(draft, "case.material", term.value):
        meaning = f"case.material {term.value}"
    elif term.field == "subject" and term.value not in piece.subjects:
        draft.piece = replace(piece, subjects=(*piece.subjects, term.value))
        meaning = f"subject {term.value}"
    elif term.field == "shows" and term.value not in piece.subjects:
        _set_shown(draft, hit)
    elif term.field == "check" and _may_be_said(draft, term):
        check, answer = term.value.split()
        meaning = term.value if add_finding(draft, check, answer) else ""
    if meaning:
        draft.take_words(hit.first, hit.last, meaning)
        for check, answer in term.also.items():
            add_finding(draft, check, answer, SELLER if check == CLAIMED else "")


def _may_be_said(draft: LineDraft, term: Term) -> bool:
    """Whether the line names one of the materials or processes of which alone a word is said."""
    named = {one.term.value for one in draft.passage.things if one.term.field in NAMED}
    return not term.only or bool(named & set(term.only))


def _set_saying(draft: LineDraft, hit: Hit) -> None:
    """That it is modern, or married: in hand the buyer's own finding, elsewhere the seller's."""
    free = [n for n in range(hit.first, hit.last) if n not in draft.taken]
    claimed = draft.passage.scope.claims(hit.first, hit.last)
    if hit.term.field != "saying" or not free or not claimed:
        return
    known = SELLER
    if draft.piece.default_known == IN_HAND:
        known = IN_HAND
    for told in (hit.term.value, *(" ".join(pair) for pair in hit.term.also.items())):
        check, answer = told.split()
        admitted = known == SELLER and hit.term.admits
        if add_finding(draft, check, answer, known, admitted) and free:
            draft.take_words(free[0], free[-1] + 1, told)
            free = []


def _set_shown(draft: LineDraft, hit: Hit) -> None:
    """A further subject; its words stay free for the motif, which they name more closely."""
    start, end = draft.passage.span(hit.first, hit.last)
    told = (start, draft.passage.text[start:end], f"subject {hit.term.value}")
    draft.understood.append(told)
    draft.piece = replace(draft.piece, subjects=(*draft.piece.subjects, hit.term.value))


def _set_maker(draft: LineDraft) -> None:
    """Who took it: 'by R. Quill', where the words mean nothing else."""
    for claim in maker_claims(draft.passage):
        place = draft.passage.places(claim.start, claim.end).start
        cue = next((hit for hit in draft.passage.speech if hit.last == place), None)
        start = draft.passage.span(cue.first, cue.last)[0] if cue else claim.start
        if draft.free(claim.start, claim.end):
            draft.take(start, claim.end, f"maker {claim.value}")
            draft.piece = replace(draft.piece, maker=claim.value)


def _set_damage(draft: LineDraft) -> None:
    piece, knowledge = draft.piece, draft.passage.knowledge
    subject = DamageSubject(piece.kind, piece.found("case.material"), piece.called)
    meant = set(draft.taken)
    for one in damage(draft.passage, lambda _: subject):
        if meant.issuperset(range(one.first, one.last)):  # one word has one meaning
            continue
        if not add_finding(draft, one.check, one.step):
            continue
        check = knowledge.checks[one.check]
        name = check.defect.name if check.defect else one.check
        says = next((a.says for a in check.answers if a.id == one.step), one.step)
        first = _denial_before(draft, one) if one.step == "0" else one.first
        draft.take_words(first, one.last, f"{one.check} {one.step}: {name}, {says}")
        draft.harmed.update(range(first, one.last))
        if one.step != "0":
            for other, answer in one.term.also.items():
                add_finding(draft, other, answer)


def _denial_before(draft: LineDraft, one: DamageSaid) -> int:
    """The place of the word that denies a damage, or where the damage itself begins."""
    starts = [
        hit.first
        for hit in draft.passage.speech
        if hit.term.value == DENY and hit.last <= one.first <= hit.last + NEAR
    ]
    return starts[-1] if starts else one.first


def add_finding(
    draft: LineDraft, check: str, answer: str, known: str = "", admitted: bool = False
) -> bool:
    """Make a finding where the check is asked of such a piece and has such an answer."""
    asked = draft.passage.knowledge.checks.get(check)
    if asked is None or draft.piece.kind not in asked.kinds or asked.index(answer) < 0:
        return False
    if not draft.piece.found(check):
        draft.piece = draft.piece.with_finding(check, answer, known, admitted)
    return True
