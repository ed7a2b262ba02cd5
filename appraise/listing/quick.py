"""A line of the price log in haste: 'sixth ambro vine 38 + 6 post, quay market, yesterday'."""

import datetime as dt
from dataclasses import dataclass, field, replace
from typing import Any

from appraise.base.money import Money
from appraise.knowledge.records import Knowledge
from appraise.listing.amounts import amounts, number
from appraise.listing.days import day_in
from appraise.listing.first_look import Draft, name_the_rest, read_line
from appraise.listing.vocabulary import Hit, Vocabulary, vocabulary
from appraise.listing.words import cut
from appraise.log.entries import Entry
from appraise.piece.records import Piece
from appraise.piece.write import write_piece
from appraise.reading.condition import read_condition
from appraise.reading.evidence import gather

PASS = "pass"
NEAR = 2  # small words that may stand between an amount and the word that says whose it is
SPLITS = frozenset(",;\n")
# Whose amount a word of the record is, where it stands beside one.
AMOUNT_OF = {"asking": "asked", "refused": "asked", PASS: "asked", "hammer": "hammer",
             "unsold": "hammer"}  # fmt: skip
MONEY = ("asked", "offered", "paid", "hammer", "postage")


@dataclass(frozen=True, slots=True)
class QuickEntry:
    """A line of the log, understood.

    Attributes:
        entry: The entry that it makes; its id is empty.
        understood: Pairs of the words and what they were taken for.
        not_understood: Words that found no place.
    """

    entry: Entry
    understood: tuple[tuple[str, str], ...]
    not_understood: tuple[str, ...]


@dataclass(slots=True)
class _Deal:
    """What the line says of the deal, beside the piece."""

    record: str = ""
    date: dt.date | None = None
    venue: str = ""
    amounts: dict[str, Money] = field(default_factory=dict)


def understand_entry(text: str, knowledge: Knowledge, currency: str, today: dt.date) -> QuickEntry:
    """Read one line about a price that was met.

    The grammar is that of a first look. Beside it: what happened (bought unless said: sold,
    asked, hammer, unsold, pass, returned ...), amounts with their words in either order (`asked 60
    paid 45`, `38 + 6 post`), a day (`yesterday`, `last saturday`, `2026-05-02`, `12 May`), and a
    venue: a part between commas that names a market, fair, shop or sale, or follows 'at'.

    Args:
        text: The line.
        knowledge: The trade's knowledge.
        currency: ISO 4217 code of amounts that name none.
        today: The day from which 'yesterday' counts; the entry's day when none is named.
    """
    known = vocabulary(knowledge)
    draft = Draft(text, cut(text))
    deal = _Deal()
    day = day_in(text, today)
    if day is not None:
        deal.date = day.date
        draft.take(day.start, day.end, f"date {day.date.isoformat()}")
    _read_venue(draft, deal, known)
    read_line(draft, knowledge, currency, prices=False)
    _read_deal(draft, deal, knowledge, currency)
    name_the_rest(draft, known)
    entry = _entry(draft.piece, deal, knowledge, today)
    told = tuple((words, meaning) for _, words, meaning in sorted(draft.understood))
    return QuickEntry(entry, told, tuple(draft.not_understood))


def _read_venue(draft: Draft, deal: _Deal, known: Vocabulary) -> None:
    """A part between commas which names a kind of place and nothing else that is known."""
    first = 0
    for place in range(len(draft.words) + 1):
        if place < len(draft.words) and draft.words[place].norm not in SPLITS:
            continue
        at = next((i for i in range(first, place) if draft.words[i].norm in ("at", "@")), -1)
        low = at + 1 if at >= 0 and at + 1 < place else first
        part = draft.words[low:place]
        fields = {hit.term.field for hit in known.hits(part)} - {"filler", "denial", "part"}
        named = at >= 0 and not fields - {"channel"} and not any(w.is_number for w in part)
        free = part and not deal.venue and not set(range(low, place)) & draft.taken
        if free and (fields == {"channel"} or named):
            _take_venue(draft, deal, known, low, place)
        first = place + 1


def _take_venue(draft: Draft, deal: _Deal, known: Vocabulary, low: int, place: int) -> None:
    part = draft.words[low:place]
    channels = [hit for hit in known.hits(part) if hit.term.field == "channel"]
    told = []
    if not channels or channels[-1].last - channels[-1].first < len(part):
        deal.venue = " ".join(draft.text[part[0].start : part[-1].end].split())
        told.append(f"venue {deal.venue}")
    if channels:
        draft.piece = replace(draft.piece, channel=channels[-1].term.value)
        told.append(f"channel {channels[-1].term.value}")
    draft.take_words(low, place, ", ".join(told))


def _read_deal(draft: Draft, deal: _Deal, knowledge: Knowledge, currency: str) -> None:
    """Amounts with the words that say whose they are, and what happened."""
    known = vocabulary(knowledge)
    hits = [
        hit for hit in known.hits(draft.words, draft.taken) if hit.term.field in ("record", "money")
    ]
    used: set[int] = set()
    for first, last, money in _numbers(draft, knowledge, currency):
        role = _role(draft, hits, used, first, last, known.fillers)
        name = AMOUNT_OF.get(role.term.value, role.term.value) if role else "paid"
        name = name if name in MONEY else "paid"
        if name in deal.amounts:
            draft.not_understood.append(
                draft.text[draft.words[first].start : draft.words[last - 1].end]
            )
            draft.taken |= set(range(first, last))
            continue
        deal.amounts[name] = money
        low = min(first, role.first) if role else first
        draft.take_words(low, max(last, role.last) if role else last, f"{name} {money}")
    for hit in hits:
        if hit.term.field == "record" and not deal.record:
            deal.record = hit.term.value
            draft.take_words(hit.first, hit.last, f"record {hit.term.value}")
        elif not set(range(hit.first, hit.last)) & draft.taken:
            draft.take_words(hit.first, hit.last, hit.term.value)


def _numbers(draft: Draft, knowledge: Knowledge, currency: str) -> list[tuple[int, int, Money]]:
    """Amounts among the words that are left: with a currency, or bare."""
    found: list[tuple[int, int, Money]] = []
    covered: set[int] = set()
    for amount in amounts(draft.text, knowledge, currency):
        places = [
            place
            for place, word in enumerate(draft.words)
            if word.start < amount.end and word.end > amount.start
        ]
        if places and not set(places) & draft.taken:
            covered.update(places)
            found.append((places[0], places[-1] + 1, amount.money))
    for place, word in enumerate(draft.words):
        if place in covered or place in draft.taken or not word.is_number or "/" in word.norm:
            continue
        money = number(word.text, currency)
        if money is not None and money.amount > 0:
            found.append((place, place + 1, money))
    return sorted(found, key=lambda one: one[0])


def _role(
    draft: Draft, hits: list[Hit], used: set[int], first: int, last: int, idle: frozenset[str]
) -> Hit | None:
    """The word beside an amount that says whose it is: the one before, else the one after."""
    for wanted in ("before", "after"):
        for at, hit in enumerate(hits):
            low, high = (hit.last, first) if wanted == "before" else (last, hit.first)
            if at in used or not 0 <= high - low <= NEAR:
                continue
            if all(word.norm in idle for word in draft.words[low:high]):
                used.add(at)
                return hit
    return None


def _entry(piece: Piece, deal: _Deal, knowledge: Knowledge, today: dt.date) -> Entry:
    process = piece.found("claim.process")
    record = _record(deal)
    money: dict[str, Any] = dict(deal.amounts)
    if "paid" in money and record in ("asking", "refused", "hammer", "unsold"):
        wanted = "hammer" if record in ("hammer", "unsold") else "asked"
        money.setdefault(wanted, money["paid"])
        del money["paid"]
    faults = any(knowledge.checks[name].defect for name in piece.findings)
    return Entry(
        record=record,
        date=deal.date or today,
        channel=piece.channel,
        kind=piece.kind,
        process=process,
        housing=piece.found("case.material"),
        format=piece.named_format,
        title=piece.title,
        motif=piece.motif,
        subject=piece.subject,
        condition_factor=_condition(piece, knowledge) if faults else None,
        venue=deal.venue,
        piece=write_piece(piece) if piece.findings else "",
        **money,
    )


def _record(deal: _Deal) -> str:
    """What happened: as said, else by the amounts; a pass with an offer is a refusal."""
    if deal.record not in ("", PASS):
        return deal.record
    if not deal.record and "paid" in deal.amounts:
        return "bought"
    if not deal.record and "hammer" in deal.amounts:
        return "hammer"
    if "offered" in deal.amounts:
        return "refused"
    return "asking" if deal.record == PASS or "asked" in deal.amounts else "bought"


def _condition(piece: Piece, knowledge: Knowledge) -> float:
    return round(read_condition(gather(piece, knowledge), (), knowledge).factor, 3)
