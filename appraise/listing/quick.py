"""A line of the price log in haste: 'sixth ambro vine 38 + 6 post, quay market, yesterday'."""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import field, replace
from typing import Any

from appraise.base.dataclass import dataclass
from appraise.base.logday import LogDay
from appraise.base.money import Money
from appraise.knowledge.records import Knowledge
from appraise.listing.amounts import Amount, line_currency
from appraise.listing.draft import LineDraft, bare_amounts
from appraise.listing.figures import Figures, figures
from appraise.listing.first_look import note_several, read_line
from appraise.listing.leftover import LINKS, name_the_rest
from appraise.listing.lone import names_it
from appraise.listing.passage import Passage
from appraise.listing.vocabulary import Hit
from appraise.reading.reading import read
from appraise.reading.usual import beside_usual
from appraise.records.entry import Entry
from appraise.records.piece import Piece
from appraise.records.piece_features import identified_of, quality_of
from appraise.records.piece_file import write_piece

PASS = "pass"
NEAR = 2  # small words that may stand between an amount and the word that says whose it is
SPLITS = frozenset(",;\n")
IDLE = {
    "denial",
    "part",
    "degree",
    "idle",
    "subject",
    "idle-sitter",
}  # fields that may stand in the name of a venue
# Whose amount a word of the record is, where it stands beside one.
AMOUNT_OF = {"asking": "asked", "refused": "asked", PASS: "asked", "hammer": "hammer",
             "unsold": "hammer"}  # fmt: skip
DEAL = frozenset(("date", "venue", "channel", "record", "asked", "offered", "paid", "hammer",
                  "postage", PASS))  # fmt: skip
MONEY = ("asked", "offered", "paid", "hammer", "postage")


@dataclass(frozen=True, slots=True)
class QuickEntry:
    """A line of the log, understood.

    Attributes:
        entry: The entry that it makes; its id is empty.
        understood: Pairs of the words and what they were taken for.
        not_understood: Words that found no place.
        notes: What has to be said of the line, in whole sentences.
    """

    entry: Entry
    understood: tuple[tuple[str, str], ...]
    not_understood: tuple[str, ...]
    notes: tuple[str, ...] = ()


@dataclass(slots=True)
class _Deal:
    """What the line says of the deal, beside the piece."""

    record: str = ""
    date: LogDay | None = None
    venue: str = ""
    amounts: dict[str, Money] = field(default_factory=dict)


def understand_entry(
    text: str, knowledge: Knowledge, currency: str, today: dt.date, region: str = "unknown"
) -> QuickEntry:
    """Read one line about a price that was met.

    The grammar is that of a first look. Beside it: what happened (bought unless said: sold,
    asked, hammer, unsold, pass, returned ...), amounts with their words in either order (`asked 65
    paid 45`, `38 + 6 post`), a day (`yesterday`, `last saturday`, `2026-05-02`, `12 May`,
    `12.5.2026`) or the part of one that is known (`2018-08`, `spring 2019`, `about 2015`, `day
    unknown`), and a venue: a part between commas that names a market, fair, shop or sale, or
    follows 'at'.

    Args:
        text: The line.
        knowledge: The trade's knowledge.
        currency: ISO 4217 code of amounts that name none.
        today: The day from which 'yesterday' counts; the entry's day when none is named.
        region: Where the user is at home, which decides what 5/6/2026 is.
    """
    found = figures(text, knowledge, currency, today, region, partial=True)
    venue = _venue(Passage(text, knowledge, brief=True, masks=found.masks))
    masks = [*found.masks, venue] if venue else found.masks
    draft = LineDraft(Passage(text, knowledge, brief=True, masks=masks))
    deal = _Deal()
    _take_days(draft, deal, found)
    if venue:
        _take_venue(draft, deal, *venue)
    read_line(draft, found)
    _read_deal(draft, deal, found.amounts, line_currency(found.amounts, currency))
    entry = _entry(draft.piece, deal, draft.said, knowledge, today)
    if entry.price is not None:
        note_several(draft, str(entry.price))
    if not names_it(draft):
        draft.piece = replace(draft.piece, kind="other")
        draft.notes.append("no word says what it is; logged as kind 'other'")
    name_the_rest(draft)
    named = replace(draft.piece, title=_title(draft) or draft.piece.title)
    notes = (*draft.notes, *(f"{words}?" for words in draft.not_told()))
    entry = replace(_entry(named, deal, draft.said, knowledge, today), note="; ".join(notes))
    return QuickEntry(entry, draft.told(), draft.not_told(), tuple(draft.notes))


def understand_words(text: str, knowledge: Knowledge) -> dict[str, Any]:
    """What a title says of its piece, by the names of an entry's fields; '' where nothing."""
    found = figures(text, knowledge, "")
    draft = LineDraft(Passage(text, knowledge, brief=True, masks=found.masks))
    read_line(draft, found)
    piece, said = draft.piece, draft.said
    known = {
        "process": piece.called or said.get("process", ""),
        "housing": piece.found("case.material") or said.get("case.material", ""),
        "format": piece.named_format,
        "subjects": piece.subjects,
        "maker": piece.maker,
    }
    return {**known, "kind": piece.kind if names_it(draft) else ""}


def _take_days(draft: LineDraft, deal: _Deal, found: Figures) -> None:
    """The first day that can be one; others are not understood."""
    day = found.day
    for one in found.days:
        if one is day and one.date is not None:
            deal.date = one.date
            draft.take(one.start, one.end, f"date {one.date.isoformat()}")
        else:
            draft.lose(one.start, one.end)


def _title(draft: LineDraft) -> str:
    """The line without amounts, day, place and what happened, which fields of their own tell."""
    left, end = "", 0
    for start, words, meaning in sorted(draft.understood):
        if meaning.partition(" ")[0] in DEAL:
            left += draft.passage.text[end:start]
            end = max(end, start + len(words))
    parts = (left + draft.passage.text[end:]).split(",")
    return ", ".join(filter(None, map(_trimmed, parts)))


def _trimmed(part: str) -> str:
    """A part of a title without the signs and small words that led to what was taken out."""
    words = part.strip(" +;").split()
    while words and words[0].lower() in LINKS:
        words = words[1:]
    while words and words[-1].lower() in LINKS:
        words = words[:-1]
    return " ".join(words)


def _venue(passage: Passage) -> tuple[int, int] | None:
    """A part between commas which names a kind of place and nothing else that is known."""
    first = 0
    for place in range(len(passage.words) + 1):
        if place < len(passage.words) and passage.words[place].norm not in SPLITS:
            continue
        at = next((i for i in range(first, place) if passage.words[i].norm == "at"), -1)
        low = at + 1 if 0 <= at < place - 1 else first
        part = range(low, place)
        fields = {hit.term.field for hit in passage.things if hit.first in part} - IDLE
        numbers = any(passage.words[i].is_number for i in part)
        named = low > first and not fields - {"channel"} and not numbers
        if part and not passage.masked & set(part) and (fields == {"channel"} or named):
            return passage.span(low, place)
        first = place + 1
    return None


def _take_venue(draft: LineDraft, deal: _Deal, start: int, end: int) -> None:
    name = draft.passage.text[start:end]
    places = Passage(name, draft.passage.knowledge, brief=True)
    channels = [hit for hit in places.things if hit.term.field == "channel"]
    told = []
    if not channels or channels[-1].last - channels[-1].first < len(places.words):
        deal.venue = " ".join(name.split())
        told.append(f"venue {deal.venue}")
    if channels:
        draft.piece = replace(draft.piece, channel=channels[-1].term.value)
        told.append(f"channel {channels[-1].term.value}")
    draft.take(start, end, ", ".join(told))


def _read_deal(draft: LineDraft, deal: _Deal, priced: Sequence[Amount], currency: str) -> None:
    """Amounts with the words that say whose they are, and what happened."""
    hits = draft.passage.hits("deal")
    used: set[int] = set()
    for amount in _numbers(draft, priced, currency):
        role = _role(draft, hits, used, draft.passage.places(amount.start, amount.end))
        name = AMOUNT_OF.get(role.term.value, role.term.value) if role else "paid"
        name = name if name in MONEY else "paid"
        start, end = amount.start, amount.end
        if name in deal.amounts:
            draft.lose(start, end)
            continue
        deal.amounts[name] = amount.money
        if role is not None:
            low, high = draft.passage.span(role.first, role.last)
            start, end = min(start, low), max(end, high)
        draft.take(start, end, f"{name} {amount.money}")
    for hit in hits:
        free = not set(range(hit.first, hit.last)) & draft.taken
        if hit.term.field == "record" and not deal.record:
            deal.record = hit.term.value
            draft.take_words(hit.first, hit.last, f"record {hit.term.value}")
        elif free:
            draft.take_words(hit.first, hit.last, hit.term.value)


def _numbers(draft: LineDraft, priced: Sequence[Amount], currency: str) -> list[Amount]:
    """Amounts among the words that are left: with a currency, or bare."""
    found: list[Amount] = []
    covered: set[int] = set()
    for amount in priced:
        places = set(draft.passage.places(amount.start, amount.end))
        if not places & draft.taken:
            covered |= places
            found.append(amount)
    for amount in bare_amounts(draft, currency):
        if not covered & set(draft.passage.places(amount.start, amount.end)):
            found.append(amount)
    return sorted(found, key=lambda amount: amount.start)


def _role(draft: LineDraft, hits: Sequence[Hit], used: set[int], places: range) -> Hit | None:
    """The word beside an amount that says whose it is: the one before, else the one after."""
    first, last = places.start, places.stop
    idle = draft.passage.vocabulary.sets["filler"]
    for wanted in ("before", "after"):
        for at, hit in enumerate(hits):
            low, high = (hit.last, first) if wanted == "before" else (last, hit.first)
            if at in used or not 0 <= high - low <= NEAR:
                continue
            if all(word.norm in idle for word in draft.words[low:high]):
                used.add(at)
                return hit
    return None


def _entry(
    piece: Piece, deal: _Deal, said: Mapping[str, str], knowledge: Knowledge, today: dt.date
) -> Entry:
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
        process=piece.called or said.get("process", ""),
        housing=piece.found("case.material") or said.get("case.material", ""),
        format=piece.named_format,
        title=piece.title,
        motif=piece.motif,
        subjects=piece.subjects,
        quality=quality_of(piece, knowledge),
        identified=identified_of(piece, knowledge),
        maker=piece.maker,
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
    return round(beside_usual(read(piece, knowledge), knowledge), 3)
