"""What became of a piece after it was logged: what was found, by whom, how sure, what it fetched.

An outcome stands in the entry that it is about, so history, undo and merge hold for it too. The
estimates beside it are those stored when the entry was made, before anything came of it.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from datetime import date

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.money import Money, as_json
from appraise.base.spelling import did_you_mean
from appraise.knowledge.records import BELONGING
from appraise.pricing.cost_basis import EMPTY, all_in_price
from appraise.records.entry import Entry
from appraise.records.venuebook import VenueBook

KEY = "outcome"
SURE = ("certain", "likely", "guess")
SALES = ("bought", "sold", "hammer")


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of a piece.

    Attributes:
        on: The day it was found out.
        found: How its parts turned out to belong, a belonging state; '' when still open.
        sure: How sure whoever found it is, one of `SURE`.
        by: Who found it, in the user's words.
        price: What it fetched later, or None.
    """

    on: date
    found: str = ""
    sure: str = "likely"
    by: str = ""
    price: Money | None = None

    def __post_init__(self) -> None:
        if self.found and self.found not in BELONGING:
            mend = did_you_mean(self.found, BELONGING)
            raise InputError(f"'{self.found}' is not a state of belonging", "--found", mend)
        if self.sure not in SURE:
            raise InputError(f"'{self.sure}' is not known", "--sure", f"Known: {', '.join(SURE)}.")
        if not self.found and self.price is None:
            raise InputError("an outcome needs a finding or a later price")


@dataclass(frozen=True, slots=True)
class Belief:
    """What was thought of a piece's belonging, and how it turned out."""

    entry: str
    married: float
    turned_out_married: bool


def with_outcome(entry: Entry, outcome: Outcome) -> Entry:
    """The entry with its outcome; an earlier one is replaced, and stays in the history."""
    told = {
        "on": outcome.on.isoformat(),
        "found": outcome.found,
        "sure": outcome.sure,
        "by": outcome.by,
        "price": as_json(outcome.price),
    }
    kept = {name: value for name, value in told.items() if value}
    return replace(entry, extra={**entry.extra, KEY: kept})


def outcome_of(entry: Entry) -> Outcome | None:
    """The entry's outcome, or None; one that cannot be read counts as none."""
    told = entry.extra.get(KEY)
    if not isinstance(told, Mapping):
        return None
    try:
        price = told.get("price")
        return Outcome(
            on=date.fromisoformat(str(told.get("on", ""))),
            found=str(told.get("found", "")),
            sure=str(told.get("sure", "likely")),
            by=str(told.get("by", "")),
            price=Money.parse(f"{price['amount']} {price['currency']}") if price else None,
        )
    except (InputError, ValueError, TypeError, KeyError):
        return None


def beliefs(entries: Iterable[Entry]) -> Iterator[Belief]:
    """What was thought at logging of pieces whose belonging was found out later.

    Pieces of which something turned out modern say nothing of marriages and are left out; so are
    guesses.
    """
    for entry in entries:
        outcome = outcome_of(entry)
        if outcome is None or outcome.sure == "guess" or not entry.belonging:
            continue
        if outcome.found not in ("together", "married"):
            continue
        said = dict(entry.belonging)
        period = said.get("together", 0.0) + said.get("married", 0.0)
        if period > 0:
            chance = said.get("married", 0.0) / period
            yield Belief(entry.id, chance, outcome.found == "married")


def estimated(
    entries: Iterable[Entry], currency: str, book: VenueBook = EMPTY
) -> Iterator[tuple[Entry, Money]]:
    """Entries with an estimate made before their price was known, and that price, all in.

    A later sale counts before the price paid.

    Args:
        entries: The log.
        currency: ISO 4217 code of the base currency; estimates in another are left out.
        book: The user's venues and rates.
    """
    for entry in entries:
        if entry.estimate is None or entry.estimate.median.currency != currency:
            continue
        outcome = outcome_of(entry)
        later = outcome.price if outcome and outcome.price else None
        price = later or (all_in_price(entry, currency, book) if entry.record in SALES else None)
        if price is not None and price.currency == currency and price.amount > 0:
            yield entry, price
