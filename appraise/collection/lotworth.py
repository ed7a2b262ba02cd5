"""What a lot is worth piece by piece, and what one may pay for the whole of it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from decimal import Decimal

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.collection.lotgate import Maximum, lot_gate
from appraise.knowledge.records import Knowledge
from appraise.pricing.bid import Terms
from appraise.pricing.bill import Bill, all_in, walk_away
from appraise.pricing.lot import LotPiece, Plan, lot_ceiling, share_out
from appraise.pricing.worth import Worth
from appraise.records.holds import no_maximum
from appraise.records.lot import Lot, LotItem
from appraise.records.lot_file import piece_in
from appraise.records.piece import Piece
from appraise.records.venue import AUCTIONS, Venue
from appraise.verdict import Pay, Verdict
from appraise.verdict.gate import Gate
from appraise.verdict.pay import LIMIT, MAXIMUM, NOTHING_LEFT

STATED, BY_LOG = "stated", "by your log"
NOT_NOTED = "nothing is recorded of it"
NONE_KNOWN = "No limit: the worth of no piece is known. Enter a value or describe the pieces."
SOME_UNKNOWN = (
    "No limit: the worth of some pieces is not known, and the others alone do not bear the costs. "
    "Enter a value or describe the pieces."
)
EQUAL = "equal"
"""What is written for shares that are all alike."""
PERCENT = 100.0

Turned = Callable[[Money], Money | None]
"""An amount in the base currency; None where a rate is missing."""


@dataclass(frozen=True, slots=True)
class Valued:
    """A piece of a lot with its worth.

    Attributes:
        worth: What it is worth to sell on, base currency; None: not known.
        doubt: Standard uncertainty of the log of that worth.
        basis: `STATED` or `BY_LOG`; where it is not known, why.
        parts: What its parts are worth, base currency.
        extra: What one would pay beyond resale, base currency.
        gate: Whether a limit on it stands plain; None where its worth is not by the log.
        holds: Why no maximum is told for it, each as the end of a sentence.
    """

    item: LotItem
    worth: float | None
    doubt: float
    basis: str
    parts: float
    extra: Decimal
    gate: Gate | None = None
    holds: tuple[str, ...] = ()

    @property
    def known(self) -> bool:
        """Whether it has a worth under its plan."""
        return self.item.plan == Plan.PARTS or self.worth is not None

    @property
    def piece(self) -> LotPiece:
        """As the price of a lot wants it; a worth that is not known counts as nothing."""
        plan = Plan(self.item.plan)
        return LotPiece(self.worth or 0.0, self.doubt, plan, self.extra, self.parts)

    def value(self, selling: int) -> float:
        """What it brings under its plan with its extra, base currency.

        `selling`: per cent of a sale that selling costs.
        """
        extra = float(self.extra) if self.item.plan == Plan.KEEP else 0.0
        return self.piece.value(selling / PERCENT) + extra


def valued(item: LotItem, worth: Worth | None, why: str, turned: Turned) -> Valued:
    """A piece with its worth: as the user states it, else by the log.

    `why`: why there is none.

    Raises:
        InputError: when an amount is in a currency without a rate.
    """
    parts, extra = _base(item, "parts", turned), _base(item, "extra", turned)
    own = _base(item, "worth", turned)
    aside = (float(parts.amount) if parts else 0.0, extra.amount if extra else Decimal(0))
    if own is not None:
        return Valued(item, float(own.amount), 0.0, STATED, *aside)
    if worth is not None:
        return Valued(item, worth.median, worth.estimate.doubt, BY_LOG, *aside)
    return Valued(item, None, 0.0, why, *aside)


Judge = Callable[[Piece], Verdict]
"""Judges a piece, by the prices and the terms that the caller holds."""


def judged(lot: Lot, knowledge: Knowledge, judge: Judge) -> tuple[Verdict | None, ...]:
    """A verdict on each piece of a lot; None where nothing of it was noted.

    Raises:
        InputError: when a piece can no longer be read by the knowledge as it stands.
    """
    known: dict[str, Verdict | None] = {"": None}  # pieces that are alike are judged once
    for item in lot.items:
        if item.piece not in known:
            known[item.piece] = judge(piece_in(item, lot, knowledge))
    return tuple(known[item.piece] for item in lot.items)


def all_valued(lot: Lot, verdicts: Sequence[Verdict | None], turned: Turned) -> tuple[Valued, ...]:
    """The pieces of a lot with their worths, and with what speaks for or against a plain limit.

    Errors as in `valued`.
    """
    out = []
    for item, verdict in zip(lot.items, verdicts, strict=True):
        one = valued(item, verdict.worth if verdict else None, _why(verdict), turned)
        if verdict is not None:
            gate = verdict.gate if one.basis == BY_LOG else None
            one = replace(one, gate=gate, holds=verdict.holds_back)
        out.append(one)
    return tuple(out)


def _why(verdict: Verdict | None) -> str:
    """Why there is no worth by the log."""
    if verdict is None:
        return NOT_NOTED
    if not verdict.estimate:
        return "the log holds no price yet"
    from appraise.pricing.estimate import SHOWN_INSTEAD  # 60 ms, loaded where there is an estimate

    return verdict.estimate.why.removesuffix(SHOWN_INSTEAD)


def _base(item: LotItem, name: str, turned: Turned) -> Money | None:
    amount: Money | None = getattr(item, name)
    if amount is None:
        return None
    found = turned(amount)
    if found is None:
        raise InputError(
            f"no rate for {amount}",
            f"{item.title}, {name}",
            f"Enter it: appraise rates {amount.currency} RATE.",
        )
    return found


@dataclass(frozen=True, slots=True)
class LotAdvice:
    """One maximum for a whole lot.

    Attributes:
        pieces: What is in it, with worths.
        total: What the pieces bring under their plans, extras left out, base currency.
        ceiling: The most it may cost in all: as the user decided, else by the worths.
        factor: What the winner's curse leaves of the total; 1 where the user decided.
        bid: The largest legal bid within the ceiling, venue's currency; None: do not bid.
        extra: What the pieces to be kept are worth to the buyer beyond resale, added to the total.
        less: What is set aside for mending and as a margin.
        capped: Whether the budget of the settings holds the ceiling down.
        shares: Of the bill's total what each piece costs, by what it brings; none where the worth
            of one is not known.
        gate: Whether the maximum stands plain; None where the user decided it or stated the worths.
        name: What the most is called where the lot is sold.
    """

    pieces: tuple[Valued, ...]
    total: float
    ceiling: Money
    decided: bool
    factor: float
    bid: Money | None
    bill: Bill | None
    extra: Decimal
    less: Decimal
    capped: bool
    shares: tuple[Money, ...]
    gate: Gate | None = None
    name: str = MAXIMUM

    @property
    def holds(self) -> tuple[str, ...]:
        """Why no maximum is told, each reason once; none where the user decided."""
        reasons = (why for one in self.pieces for why in one.holds)
        return () if self.decided else tuple(dict.fromkeys(reasons))

    @property
    def pay(self) -> Pay:
        """What may be told of what to pay."""
        if self.holds:
            return Pay(self.name, reason=no_maximum(self.holds))
        missing = self.gate.missing if self.gate is not None else ""
        if self.gate is not None and self.gate.outcomes:
            return Pay(self.name, missing=missing, outcomes=self.gate.outcomes)
        if self.bid is None and not self.decided and self.unknown:
            none = len(self.unknown) == len(self.pieces)
            return Pay(self.name, reason=NONE_KNOWN if none else SOME_UNKNOWN)
        if self.bid is None:
            return Pay(self.name, reason=NOTHING_LEFT[self.name])
        return Pay(self.name, self.bid, bill=self.bill, missing=missing)

    @property
    def unknown(self) -> tuple[Valued, ...]:
        """The pieces whose worth is not known, counted as nothing."""
        return tuple(one for one in self.pieces if not one.known)


def lot_advice(lot: Lot, pieces: Sequence[Valued], terms: Terms, venue: Venue) -> LotAdvice:
    """The ceiling of a lot and what it leaves for a bid.

    Worths are summed as `pricing.lot` does; a repair is reserved for every piece that is not taken
    apart. A ceiling that the user decided, in the base currency, stands in place of that.

    `venue`: the terms of the sale, its bill in the base currency.

    Raises:
        InputError: when there is no piece and no decided ceiling either.
    """
    selling = lot.selling / PERCENT
    decided = lot.ceiling if lot.ceiling and lot.ceiling.currency == venue.home else None
    whole = sum(one.item.plan != Plan.PARTS for one in pieces)
    reserved = replace(terms, repair=terms.repair * whole)
    total, factor, most = 0.0, 1.0, decided
    if pieces:
        total = sum(one.piece.value(selling) for one in pieces)
        by_worth, shade = lot_ceiling([one.piece for one in pieces], reserved, selling, venue.home)
        factor = 1.0 if decided else shade.middle
        most = decided or by_worth
    if most is None:
        raise InputError("holds no piece", lot.title, "Add one, or set a limit.")
    bid = walk_away(venue, most)
    bill = None if bid is None else all_in(venue, bid)
    extra = sum((one.extra for one in pieces if one.item.plan == Plan.KEEP), terms.extra)
    return LotAdvice(
        tuple(pieces), total, most, decided is not None, factor, bid, bill, extra,
        reserved.repair + reserved.margin,
        decided is None and terms.budget is not None and most.amount == terms.budget,
        _shares(bill, pieces, lot.selling),
        None if decided else lot_gate(pieces, lot.selling, _maximum(reserved, selling, venue)),
        MAXIMUM if lot.channel in AUCTIONS else LIMIT,
    )  # fmt: skip


def _maximum(terms: Terms, selling: float, venue: Venue) -> Maximum:
    """The largest bid on pieces of certain worths, under the same terms."""

    def most(pieces: Sequence[Valued]) -> Money | None:
        ceiling, _ = lot_ceiling([one.piece for one in pieces], terms, selling, venue.home)
        return walk_away(venue, ceiling)

    return most


def above(advice: LotAdvice, bid: Money) -> str:
    """That a bid is above the maximum, in one line; '' where it is not, or none can be told.

    Where the worth of a piece is not known, no maximum that is not decided says much.
    """
    if (advice.unknown and not advice.decided) or advice.holds:
        return ""
    if advice.bid is None:
        return f"{bid} is more than the limit of {advice.ceiling} in total allows"
    if bid <= advice.bid:
        return ""
    return f"{bid} is above the maximum bid of {advice.bid}"


def _shares(bill: Bill | None, pieces: Sequence[Valued], selling: int) -> tuple[Money, ...]:
    """What each piece costs of a bill; none where the worth of one is not known."""
    if bill is None or not pieces or not all(one.known for one in pieces):
        return ()
    return share_out(bill.total, worth_weights(pieces, selling))


def worth_weights(pieces: Sequence[Valued], selling: int) -> tuple[float, ...]:
    """The weights by which pieces share a cost: what each brings; alike where none is known.

    `selling`: per cent of a sale that selling costs.

    Raises:
        InputError: when the worth of some is known and of others not.
    """
    unknown = [one for one in pieces if not one.known]
    if unknown and len(unknown) < len(pieces):
        raise InputError(
            "the worth is not known", unknown[0].item.title, "Enter a worth, or the shares."
        )
    return tuple(1.0 if unknown else one.value(selling) for one in pieces)


def weights_of(text: str, count: int) -> tuple[float, ...]:
    """Shares as written: 'equal', or '3, 2, 1' in the order of the pieces.

    Raises:
        InputError: when they are not that many numbers of 0 or more.
    """
    if text.strip().lower() == EQUAL:
        return (1.0,) * count
    parts = text.replace(",", " ").split()
    try:
        weights = tuple(map(float, parts))
    except ValueError:
        weights = ()
    if len(weights) != count or not all(0.0 <= one < 1e12 for one in weights):
        example = " ".join(str(count - place) for place in range(min(count, 5)))
        raise InputError(
            f"'{text}' is not {count} shares", "share", f"Write {EQUAL}, or as {example}."
        )
    return weights
