"""The log as the price model wants it: every entry on one all-in footing in the base currency."""

from collections.abc import Hashable, Iterable, Mapping
from datetime import date

from appraise.base.logday import LogDay, days_wide, middle
from appraise.base.money import Money
from appraise.base.oneline import folded
from appraise.knowledge.records import NAMELESS, Knowledge
from appraise.pricing.cost_basis import EMPTY, all_in_price, rate_day
from appraise.pricing.features import PricedRow
from appraise.pricing.known import known_ratios
from appraise.pricing.met import Met
from appraise.pricing.shares import Shares, taken_off
from appraise.records.entry import Entry
from appraise.records.piece_features import degree
from appraise.records.venuebook import VenueBook

PRICED = ("bought", "sold", "asking", "hammer", "unsold", "refused")
YEAR = 365.25  # days
TREND_DAYS = 5 * 366  # the width of "about" a year; a judgement


def priced_rows(
    entries: Iterable[Entry],
    knowledge: Knowledge,
    currency: str,
    as_of: date,
    book: VenueBook = EMPTY,
) -> tuple[PricedRow, ...]:
    """The entries that bear a price, one row each, in the base currency.

    Left out: the user's own work, swaps, gifts and returns, entries without an amount, and those
    in a currency for which there is no rate.

    Args:
        entries: The log.
        knowledge: The trade's words and price ratios.
        currency: ISO 4217 code of the base currency.
        as_of: The day from which years are counted.
        book: The user's venues and rates.
    """
    maker = RowMaker(knowledge, currency, as_of, book)
    rows = map(maker.row, entries)
    return tuple(row for row in rows if row is not None)


class RowMaker:
    """Makes rows of prices that were met; what a log repeats is worked out once.

    Attributes:
        knowledge, currency, as_of, book: As `priced_rows` has them.
    """

    def __init__(
        self, knowledge: Knowledge, currency: str, as_of: date, book: VenueBook = EMPTY
    ) -> None:
        self.knowledge = knowledge
        self.currency = currency
        self.as_of = as_of
        self.book = book
        self._costs: dict[Hashable, Money | None] = {}
        self._ages: dict[LogDay, float | None] = {}
        self._ratios: dict[Hashable, tuple[tuple[str, float], ...]] = {}
        self._shares: dict[str, Mapping[str, float]] = {"": {}}
        self._folded: dict[str, str] = {"": ""}

    def row(self, entry: Met) -> PricedRow | None:
        """The row of a price; None for what the model does not learn from."""
        if entry.own_work or entry.record not in PRICED:
            return None
        cost = self._cost(entry)
        return None if cost is None else self._row(entry, float(cost.amount))

    def _cost(self, entry: Met) -> Money | None:
        amounts = (entry.paid, entry.hammer, entry.asked, entry.offered)
        beside = (entry.premium, entry.tax, entry.fees, entry.postage)
        where = (entry.venue, entry.channel) if self.book.venues else ()
        day = rate_day(entry) if self.book.rates else None
        key = (amounts, beside, entry.record == "sold", where, day)
        if key not in self._costs:
            self._costs[key] = all_in_price(entry, self.currency, self.book)
        return self._costs[key]

    def _row(self, entry: Met, price: float) -> PricedRow:
        knowledge = self.knowledge
        process = knowledge.processes.get(entry.process)
        word = process.family if process else entry.process
        form = knowledge.formats.get(entry.format)
        stage = stage_of(entry)
        if entry.date not in self._ages:
            self._ages[entry.date] = _age(entry.date, self.as_of)
        return PricedRow(
            id=entry.id,
            price=price,
            kind=entry.kind or "cased",
            process=self._share(word),
            housing=self._share(entry.housing),
            area=form.sizes[0][0] * form.sizes[0][1] / 100 if form else None,
            condition=entry.condition_factor,
            channel=entry.channel,
            record=stage,
            subject=entry.subjects,
            quality=entry.quality,
            identified=degree(entry.identified),
            maker=bool(entry.maker) or entry.maker_known,
            maker_name=self._fold(entry.maker),
            appeal=entry.appeal,
            age=self._ages[entry.date],
            motif=entry.motif or entry.title,
            ratios=self._known(entry, stage),
            belonging=dict(entry.belonging),
        )

    def _share(self, word: str) -> Mapping[str, float]:
        return self._shares.setdefault(word, {word: 1.0})

    def _fold(self, text: str) -> str:
        if text not in self._folded:
            self._folded[text] = folded(text)
        return self._folded[text]

    def _known(self, entry: Met, stage: str) -> tuple[tuple[str, float], ...]:
        """The known ratios of an entry, and what its belonging took off."""
        key = (entry.format, entry.condition_factor, stage, entry.housing, entry.belonging)
        if key not in self._ratios:
            housing = self.knowledge.housings.get(entry.housing, NAMELESS)
            factor = entry.condition_factor
            ratios = known_ratios(self.knowledge.ratios, entry.format, factor, stage)
            shares = Shares(housing.image, housing.case, housing.bond)
            self._ratios[key] = (*ratios, *taken_off(dict(entry.belonging), shares))
        return self._ratios[key]


def stage_of(entry: Met) -> str:
    """Whether the amount that counts is what is asked, which is above what is paid, or not.

    It goes by the amount and not by the record alone: a piece that was passed over stands in the
    log with what was asked for it.
    """
    asked = entry.asked is not None and entry.price == entry.asked and not entry.paid
    return "asking" if entry.record == "unsold" or (asked and not entry.hammer) else "bought"


def _age(day: LogDay, as_of: date) -> float | None:
    """Years since an entry, by the middle of what its day may have been.

    A day that is known to `TREND_DAYS` or better lies half of that from its middle at most: a
    trend of 5% a year moves its price by an eighth, far less than entries differ by. One that is
    wider, open or unknown has no age: the entry counts as of average age and teaches no trend.
    """
    wide, on = days_wide(day), middle(day)
    if wide is None or on is None or wide > TREND_DAYS:
        return None
    return max(0.0, (as_of - on).days / YEAR)
