"""Whose amount an amount is: the price wanted, carriage, or neither."""

import re
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from appraise.base.money import EXPONENTS, Money
from appraise.knowledge.records import Knowledge
from appraise.listing.amounts import Amount, amounts, number
from appraise.listing.passage import Passage
from appraise.listing.records import Claim
from appraise.listing.vocabulary import Hit

BEFORE, AFTER = 5, 3  # words between an amount and the word that says whose it is
_BARE = re.compile(r"(?<![\w.,/$£€])\d{1,6}(?:[.,]\d{2})?(?![\w%/]|[.,]\d|\s?[x×\"”])")


@dataclass(frozen=True, slots=True)
class Priced:
    """An amount with what it is: asking, opening, post, aside or '' (not told)."""

    amount: Amount
    role: str


def price_claims(passage: Passage, currency: str) -> list[Claim]:
    """The price wanted and the carriage.

    The fixed price counts before an opening bid, and an amount in the reader's own way of
    writing before a conversion. The first carriage named counts.
    """
    priced = list(roles(passage, currency))
    claims = []
    asked = next((p for p in priced if p.role == "asking"), None)
    asked = asked or next((p for p in priced if p.role == "opening"), None)
    asked = asked or next((p for p in priced if not p.role), None)
    if asked is not None:
        claims.append(_claim(passage, "asking", asked.amount))
    post = next((p for p in priced if p.role == "post"), None)
    if post is not None:
        claims.append(_claim(passage, "postage", post.amount))
    else:
        money = asked.amount.money.currency if asked else currency
        claims += _free(passage, money)
    return claims


def _claim(passage: Passage, field: str, amount: Amount) -> Claim:
    text = passage.text[amount.start : amount.end]
    return Claim(field, str(amount.money), text, amount.start, amount.end, 0.95)


def _free(passage: Passage, currency: str) -> list[Claim]:
    """Carriage that is said to cost nothing, unless only on some condition."""
    for hit in passage.hits("money"):
        if hit.term.value == "free-post":
            start, end = passage.span(hit.first, hit.last)
            money = Money.parse("0", currency if currency in EXPONENTS else "USD")
            return [Claim("postage", str(money), passage.text[start:end], start, end, 0.9)]
    return []


def roles(passage: Passage, currency: str) -> Iterator[Priced]:
    """Every amount of a text, from the left, with what it is."""
    cues = [hit for hit in passage.hits("money") if hit.term.value != "free-post"]
    starts = [hit.first for hit in cues]
    used: set[int] = set()
    role, last = "", 0
    for amount in all_amounts(passage, currency):
        places = passage.places(amount.start, amount.end)
        near = slice(
            bisect_left(starts, places.start - 12), bisect_left(starts, places.stop + AFTER + 1)
        )
        found = _role(passage, cues[near], places, used)
        if found is None and role in ("post", "aside") and _goes_on(passage, last, places.start):
            found = "aside"
        bare = passage.text[amount.start : amount.end].isdecimal()
        role, last = found or "", places.stop
        if found or not bare:
            yield Priced(amount, role)


def all_amounts(passage: Passage, currency: str) -> list[Amount]:
    """Amounts with a currency, and bare numbers that could be amounts, without overlap."""
    named = list(amounts(passage.text, passage.knowledge, currency))
    ends = [one.end for one in named]
    found = list(named)
    for match in _BARE.finditer(passage.text):
        at = bisect_left(ends, match.start() + 1)
        if at < len(named) and named[at].start < match.end():
            continue
        if passage.masked & set(passage.places(match.start(), match.end())):
            continue
        money = number(match.group(), currency)
        if money is not None and money.amount > 0 and not _looks_like_year(match.group()):
            found.append(Amount(money, match.start(), match.end()))
    return sorted(found, key=lambda one: one.start)


def _looks_like_year(text: str) -> bool:
    return len(text) == 4 and text.isdecimal() and 1700 <= int(text) <= 2100


def _role(passage: Passage, cues: Sequence[Hit], places: range, used: set[int]) -> str | None:
    """The role of an amount by the nearest cue of its sentence, the one before it first."""
    bracket = places.start > 0 and _in_brackets(passage, places.start)
    best: tuple[int, str, int] | None = None
    for cue in cues:
        if cue.last <= places.start:
            gap, side = places.start - cue.last, BEFORE
            between = range(cue.last, places.start)
        else:
            gap, side = cue.first - places.stop, AFTER
            between = range(places.stop, cue.first)
        if gap < 0 or gap > side or any(passage.ends[at] for at in between):
            continue
        cost = _cost(passage, between, cue, places, used)
        if cost is not None and (best is None or cost < best[0]):
            best = (cost, cue.term.value, cue.first)
    if bracket and (best is None or best[1] != "post"):
        return "aside"
    if best is None:
        return None
    used.add(best[2])
    return best[1]


def _cost(passage: Passage, between: range, cue: Hit, places: range, used: set[int]) -> int | None:
    """How far a cue is from an amount; none reaches over another number."""
    if any(passage.words[at].is_number for at in between):
        return None
    cost = 2 * len(between) + 6 * (cue.first in used)
    cost += 4 * sum(passage.words[at].norm in (",", ";", "+", "plus") for at in between)
    return cost + (cue.first >= places.stop)


def _in_brackets(passage: Passage, place: int) -> bool:
    for at in range(place - 1, max(-1, place - 8), -1):
        if passage.words[at].norm == "(":
            return True
        if passage.words[at].norm == ")" or passage.ends[at]:
            return False
    return False


def _goes_on(passage: Passage, last: int, first: int) -> bool:
    """Whether an amount continues a list: only names between, within the sentence."""
    between = range(last, first)
    return len(between) <= 4 and not any(passage.ends[at] for at in between)


def priced_masks(passage_text: str, knowledge: Knowledge, currency: str) -> list[tuple[int, int]]:
    """Stretches of a text that are amounts of a named currency."""
    return [(one.start, one.end) for one in amounts(passage_text, knowledge, currency)]
