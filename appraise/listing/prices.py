"""Whose amount an amount is: the price wanted, carriage, or neither."""

import re
from bisect import bisect_left
from collections.abc import Iterator, Sequence, Set
from typing import NamedTuple

from appraise.base.money import EXPONENTS, Money
from appraise.listing.amounts import Amount
from appraise.listing.numbers import bare_numbers, looks_like_year, number
from appraise.listing.passage import Passage
from appraise.listing.records import Claim
from appraise.listing.scope import ASIDE
from appraise.listing.spoken import spoken_numbers
from appraise.listing.vocabulary import Hit

SHORT = 25  # words of a text at whose end a bare number is the price
FREE, POSTPAID, NOTHING = "free-post", "postpaid", "nothing"
NUMBERED = 5  # words and marks between a number and the word that says what it numbers
_FIRM = frozenset(("even", "firm", "obo", "ono", "each", "only", "total", "ovno", "flat"))
_COUNTED = frozenset(("pp", "pages", "pgs", "dpi", "pcs"))  # behind a number they are no money
_ENDED = frozenset(("lot", "item", "page", "box"))  # 'in a box lot. 35.00'
_ONE_STAMP = ("1", "stamp")
_OF_NUMBERS = frozenset(("no", "nr", "number", "is", "on", "me", "us", "or"))
MORE_COST = 8  # of a number with cents behind words for carriage: 'shipping in Ireland 8.50'
BARE_COST = 2  # of a number without a currency, where another amount has one
_TO = frozenset(("in", "to", "within", "inside", "for"))
_TELLS = frozenset(("is", ":", "=", "costs", "cost", "will"))
REDUCED = 5  # words before an amount among which one tells that it was lowered
ADDED = 3  # words between a price and what is added: '150 + shipping 6'
ARROW = 8  # characters that an arrow between two amounts takes
_CENTS = re.compile(r"\d{1,5}[.,]\d\d")  # '34.00', which is a price where no amount has a sign
_ADDS = frozenset(("+", "plus", "&", "and"))
_CLOSES = frozenset((",", ")", "("))
BEFORE, AFTER = 6, 3  # words between an amount and the word that says whose it is
POST_LEADS = 2  # by so much a word for carriage is nearer than any other: '3 for shipping'
_ALONE = frozenset(("plus", "and", "or", "to", "for", "shipped", "posted", "incl", "inc", "all"))
_STANDS = _ALONE | _FIRM  # words behind a number that counts nothing


class RoledAmount(NamedTuple):
    """An amount with what it is: asking, opening, post, aside or '' (not told).

    Where nothing is told of a bare number it need not be money at all: then it is not `sure`.
    """

    amount: Amount
    role: str
    sure: bool = True


def price_claims(passage: Passage, named: Sequence[Amount], currency: str) -> list[Claim]:
    """The price wanted and the carriage.

    The fixed price counts before an opening bid, and an amount in the reader's own way of
    writing before a conversion. The first carriage named counts, in the currency of what is asked
    where it names none.

    Args:
        passage: The text.
        named: Its amounts that name a currency.
        currency: ISO 4217 code of amounts that name none.
    """
    every = _with_a_price(passage, list(roles(passage, named, currency)))
    priced = [one for one in every if one.sure]
    claims = []
    signs = {one.start for one in named}
    signed = [p for p in priced if p.amount.start in signs]
    asked = next((p for p in (*signed, *priced) if p.role == "asking"), None)
    asked = asked or next((p for p in signed or priced if p.role == "opening"), None)
    asked = asked or next((p for p in (*signed, *priced) if p.role in ("", "opening")), None)
    if asked is not None:
        claims.append(_claim(passage, "asking", asked.amount))
    post = next((p for p in priced if p.role == "post"), None)
    money = asked.amount.money.currency if asked else currency
    if post is not None:
        amount = post.amount
        if amount.start not in signs:
            amount = amount._replace(money=Money(amount.money.amount, money))
        claims.append(_claim(passage, "postage", amount))
    else:
        claims += _free(passage, money, {one.amount.end for one in priced})
    return claims


def _with_a_price(passage: Passage, priced: list[RoledAmount]) -> list[RoledAmount]:
    """The amounts with one that is the price: who names carriage has named a price as well.

    Where none is told, it is the first number that stands alone ('22, ships free'), else the first
    of the amounts that stand beside words for carriage, if there is another or the words follow it.
    """
    if any(one.sure and one.role in ("asking", "opening", "") for one in priced):
        return priced
    alone = next((one for one in priced if not one.sure and _alone(passage, one.amount)), None)
    posts = [one for one in priced if one.role == "post"]
    led = posts and (_led_to(passage, posts[0].amount) or _added(passage, posts[0].amount.start))
    first = alone or next(iter(posts[: len(posts) > 1 or not led]), None)
    return [RoledAmount(one.amount, "asking") if one is first else one for one in priced]


def _alone(passage: Passage, amount: Amount) -> bool:
    """Whether a number counts nothing: a mark, the end or a small word follows it."""
    places = passage.places(amount.start, amount.end)
    after = passage.words[places.stop : places.stop + 1]
    before = passage.words[places.start - 1 : places.start]
    told = (
        not before or before[0].is_mark or before[0].norm not in ("of", "no", "in", "age", "aged")
    )
    return told and (not after or after[0].is_mark or after[0].norm in _STANDS)


def _led_to(passage: Passage, amount: Amount) -> bool:
    """Whether a word for carriage stands before an amount in its clause: 'postage $6'."""
    first = passage.at(amount.start)
    return any(
        hit.term.value == "post" and hit.last <= first and not _commas(passage, hit.last, first)
        for hit in passage.hits("money")
    )


def _commas(passage: Passage, low: int, high: int) -> bool:
    return any(passage.words[at].norm == "," or passage.ends[at] for at in range(low, high))


def _claim(passage: Passage, field: str, amount: Amount) -> Claim:
    text = passage.text[amount.start : amount.end]
    return Claim(field, str(amount.money), text, amount.start, amount.end, 0.95)


def _free(passage: Passage, currency: str, ends: Set[int]) -> list[Claim]:
    """Carriage that is said to cost nothing, or to be part of the price that ends right before."""
    for hit in passage.hits("money"):
        start, end = passage.span(hit.first, hit.last)
        paid = hit.term.value == POSTPAID and not ends.isdisjoint(range(start - 2, start + 1))
        if hit.term.value == FREE or paid:
            money = Money.parse("0", currency if currency in EXPONENTS else "USD")
            return [Claim("postage", str(money), passage.text[start:end], start, end, 0.9)]
    return []


def roles(passage: Passage, named: Sequence[Amount], currency: str) -> Iterator[RoledAmount]:
    """Every amount of a text, from the left, with what it is.

    Amounts and the words beside them are paired by nearness over the whole text, each word with
    one amount; then carriage and values go on through a list of places ("UK 4, Europe 11").
    """
    found = all_amounts(passage, named, currency)
    places = [passage.places(one.start, one.end) for one in found]
    signs = {one.start for one in named}
    own_sign = {at for at, one in enumerate(found) if one.start in signs}
    paired = _paired(passage, places, own_sign)
    role, last = "", 0
    for at, amount in enumerate(found):
        own = paired.get(at, "")
        if at and _falls(passage, found[at - 1].end, amount.start) and own != "post":
            own = "asking"
        if (
            not own and role in ("post", "aside") and _goes_on(passage, last, places[at].start)
        ) or (own != "post" and _in_brackets(passage, places[at].start)):
            own = "aside"
        if own != "post" and at + 1 < len(found) and _gives_way(passage, amount, found[at + 1]):
            own = "aside"
        if at and last + 1 == places[at].start and passage.words[last].norm == "to":
            cut = _reduced(passage, places[at - 1].start)
            own = "asking" if role == "aside" and cut else own  # 'reduced from 80 to 55'
        if not own and passage.scope.muted[places[at].start] == ASIDE:
            own = "aside"  # a price of something else
        if not own and at and places[at].start - last <= ADDED and _added(passage, amount.start):
            own = "post"
        if not own and at not in own_sign and _leads(passage, places, paired, found, at):
            own = "asking"
        bracketed = own == "aside" and _in_brackets(passage, places[at].start)
        role, last = "" if bracketed else own, places[at].stop
        cents = not own_sign and bool(_CENTS.fullmatch(passage.text[amount.start : amount.end]))
        sure = at in own_sign or cents or _closes(passage, places[at])
        yield RoledAmount(amount, own, bool(own) or sure)


def _leads(
    passage: Passage,
    places: Sequence[range],
    paired: dict[int, str],
    found: Sequence[Amount],
    at: int,
) -> bool:
    """Whether a bare number stands right before what is added: '30.00 + 7.00 shipping'."""
    closes = at + 2 == len(found) and _closes(passage, range(places[at].start, places[at + 1].stop))
    if paired.get(at + 1) != "post" and not closes:
        return False
    between = passage.words[places[at].stop : places[at + 1].start]
    return 0 < len(between) <= ADDED and between[0].norm in _ADDS


def _reduced(passage: Passage, place: int) -> bool:
    """Whether words for a reduction stand before an amount; before an estimate they do not."""
    before = {word.norm for word in passage.words[max(0, place - REDUCED) : place]}
    return bool(before & {"from", "reduced", "dropped", "lowered", "cut", "down", "marked"})


def _falls(passage: Passage, end: int, start: int) -> bool:
    """Whether an arrow leads from one amount to the next."""
    return start - end < ARROW and bool(
        re.fullmatch(r"\s*(?:→|➔|➡\ufe0f?|[-=]?>)\s*", passage.text[end:start])
    )


def _gives_way(passage: Passage, one: Amount, after: Amount) -> bool:
    """Whether an amount is taken back by the next: '$300 > $275 > $240', '65? make it 55'."""
    return passage.text[one.end : one.end + 1] == "?" or _falls(passage, one.end, after.start)


def _added(passage: Passage, start: int) -> bool:
    """Whether an amount is added to the one before it: '$85 plus $6'."""
    before = passage.text[max(0, start - 20) : start]
    return bool(re.search(r"(?:\+|\bplus)\s{0,2}(?:[A-Z][a-z]{2,9} )?$", before))


def _closes(passage: Passage, places: range) -> bool:
    """Whether a bare number ends a short text, or stands alone after its last full stop."""
    words = passage.words
    alone = places.start > 0 and passage.ends[places.start - 1]
    rest = words[places.stop :]
    closes = all(word.is_mark or word.norm in _FIRM for word in rest)
    return (alone or len(words) <= SHORT) and closes


def _paired(passage: Passage, places: Sequence[range], named: Set[int]) -> dict[int, str]:
    """The role of each amount that has a word of its own beside it, by the amount's number.

    Where some amount names a currency, a number that names none must stand right beside its word:
    'asking $95, ship 6', but not 'shipping to the lower 48 is $14'.
    """
    cues = [hit for hit in passage.hits("money") if hit.term.value not in (FREE, NOTHING)]
    starts = [hit.first for hit in cues]
    begins = [words.start for words in places]
    signed = bool(named)
    pairs: list[tuple[int, int, int]] = []
    for at, words in enumerate(places):
        low = bisect_left(starts, words.start - 4 * BEFORE)
        high = bisect_left(starts, words.stop + AFTER + 1)
        for number_of_cue in range(low, high):
            cue = cues[number_of_cue]
            cost = _cost(passage, words, cue)
            if cost is None or (cue.first >= words.stop and _leads_on(passage, words, cue, begins)):
                continue
            cost -= POST_LEADS if cue.term.value == "post" else 0
            near = not signed or at in named or cost <= BARE_COST
            if near or (cost <= MORE_COST and _leads_to_cents(passage, words, cues[number_of_cue])):
                pairs.append((cost, at, number_of_cue))
    found: dict[int, str] = {}
    used: set[int] = set()
    for _, at, number_of_cue in sorted(pairs):
        if at not in found and number_of_cue not in used:
            used.add(number_of_cue)
            found[at] = cues[number_of_cue].term.value.replace(POSTPAID, "asking")
    return found


def _leads_on(passage: Passage, words: range, cue: Hit, begins: Sequence[int]) -> bool:
    """Whether a word behind a comma leads to an amount of its own: '$160, ships boxed for $16'."""
    if not any(passage.words[at].is_mark for at in range(words.stop, cue.first)):
        return False
    at = bisect_left(begins, cue.last)
    if at == len(begins) or begins[at] - cue.last > BEFORE:
        return False
    return not any(
        passage.words[p].norm in _CLOSES or passage.ends[p] for p in range(cue.last, begins[at])
    )


def _leads_to_cents(passage: Passage, places: range, cue: Hit) -> bool:
    """Whether words for carriage lead to a number with cents, or to one after a place.

    'verzenden kan voor 4,95', 'shipping in Ireland 8'.
    """
    if cue.term.value != "post" or cue.last > places.start:
        return False
    between = passage.words[cue.last : places.start]
    written = passage.text[slice(*passage.span(places.start, places.stop))]
    to_a_place = len(between) > 1 and between[0].norm in _TO and between[-1].text[:1].isupper()
    return to_a_place or bool(_CENTS.fullmatch(written))


def all_amounts(passage: Passage, named: Sequence[Amount], currency: str) -> list[Amount]:
    """Amounts with a currency, and bare numbers that could be amounts, without overlap."""
    ends = [one.end for one in named]
    found = list(named)
    for value, start, end in spoken_numbers(passage.text):
        at = bisect_left(ends, start + 1)
        free = at == len(named) or named[at].start >= end
        amount = Amount(Money(value, currency), start, end)
        if free and value > 1 and _alone(passage, amount) and passage.text[end : end + 1] != ":":
            found.append(amount)
    for bare in bare_numbers(passage.text):
        at = bisect_left(ends, bare.start + 1)
        if at < len(named) and named[at].start < bare.end:
            continue
        places = passage.places(bare.start, bare.end)
        if not passage.masked.isdisjoint(places) or _numbers_something(passage, places.start):
            continue
        money = number(bare.written, currency)
        if money is not None and money.amount > 0 and not looks_like_year(bare.written):
            found.append(Amount(money, bare.start, bare.end))
    return sorted(found, key=lambda one: one.start)


def _numbers_something(passage: Passage, place: int) -> bool:
    """Whether a number is of a telephone, a lot, a list or a book: 'Ref. 4471', '212 pp'."""
    words, labels = passage.words, passage.vocabulary.sets["numbered"]
    count = words[place].norm
    after = words[place + 1].norm if place + 1 < len(words) else ""
    if (after in _COUNTED and count.isdecimal() and len(count) > 1) or (count, after) == _ONE_STAMP:
        return True
    if after in passage.vocabulary.sets["item"] and after.endswith("s"):
        return True  # '4 ambrotypes as one parcel'
    at = place - 1
    while at >= max(0, place - NUMBERED) and (
        words[at].is_number or words[at].norm in (".", ":", "-", *_OF_NUMBERS)
    ):
        if words[at].norm == "." and passage.ends[at] and words[at - 1].norm in _ENDED:
            return False
        at -= 1
    return at >= 0 and words[at].norm in labels


def _cost(passage: Passage, places: range, cue: Hit) -> int | None:
    """How far a cue is from an amount; None where it does not reach.

    It reaches within a sentence, over a few words, never over another number. The word before
    an amount is nearer than the one after.
    """
    before = cue.last <= places.start
    between = range(cue.last, places.start) if before else range(places.stop, cue.first)
    if cue.first < places.stop and cue.last > places.start:
        return None
    if before and passage.words[cue.last - 1].norm == "off":
        return None  # 'lid off, 85'
    if len(between) > (BEFORE if before else AFTER):
        return None
    words = passage.words
    if any(passage.ends[at] or words[at].is_number for at in between):
        return None
    told = cue.last < len(words) and words[cue.last].norm in _TELLS
    if not before and told and cue.term.value == "post":
        return None  # '30$ ship is 6$'
    if not before and any(words[at].norm in _ADDS for at in between):
        return None  # 'eighty plus shipping', '$3 and a stamp': what is added is not told
    apart = sum(words[at].norm != ":" for at in between)
    if not before and not between and words[cue.first].norm == "to":
        return -1  # '6 to ship' is carriage whatever stands before it
    if not before and words[cue.last - 1].norm == "or":
        return None  # '$22 pickup or $16 post'
    commas = sum(words[at].norm in (",", "+", "plus", "and", "&") for at in between)
    return 2 * apart + 4 * commas + (not before)


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
