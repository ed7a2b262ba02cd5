"""One piece judged: the reading, what it is worth by the user's own prices, and what to do.

`judge` is pure: it reads no file, clock or random source. numpy is loaded only when there are
prices to compute with (50 ms).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from appraise.base.settings import Settings
from appraise.knowledge.records import Caution, Check, Knowledge
from appraise.piece.records import Piece
from appraise.reading.enough import Enough, enough
from appraise.reading.frame import NAMELESS, Vector
from appraise.reading.influence import Reason, of_its_period, reasons
from appraise.reading.next_check import Price, Proposal, ranked
from appraise.reading.plain_warnings import Warning
from appraise.reading.reading import Reading, read
from appraise.reading.several import influences_of, piece_warnings
from appraise.reading.usual import beside_usual
from appraise.reading.warnings import MODERN

if TYPE_CHECKING:
    from appraise.pricing.estimate import Estimate, Prices
    from appraise.pricing.features import PricedRow
    from appraise.pricing.money import MoneyAdvice
    from appraise.pricing.venue import Venue
    from appraise.pricing.worth import Worth

SQUARE_CM = 100.0  # square millimetres in one


@dataclass(frozen=True, slots=True)
class Verdict:
    """Everything the tool can say about a piece, for buying decisions only.

    Attributes:
        as_of: The day it holds for.
        digest: A short fingerprint of the knowledge behind it.
        reading: What the findings mean.
        kept: The share of its price that its condition leaves, beside one with the usual damage.
        warnings: The strong ones first.
        explanation: Each finding's weight for the leading doubt against "together".
        estimate: What such a piece costs by the log; no number below five like entries.
        worth: The same with what is known of its belonging; None without a number.
        money: What to pay; None without a number, or where the terms are not known.
        no_terms: Why the terms are not known, one line; '' elsewhere.
        cautions: For people's health, the piece, and the law.
    """

    as_of: date
    digest: str
    currency: str
    reading: Reading
    kept: float
    warnings: tuple[Warning, ...]
    explanation: tuple[Reason, ...]
    estimate: Estimate | None
    worth: Worth | None
    money: MoneyAdvice | None
    cautions: tuple[Caution, ...]
    no_terms: str = ""

    @property
    def piece(self) -> Piece:
        """The piece as it was read."""
        return self.reading.piece


def judge(
    piece: Piece,
    knowledge: Knowledge,
    prices: Prices | None,
    as_of: date,
    settings: Settings | None = None,
    venue: Venue | None = None,
    no_terms: str = "",
) -> Verdict:
    """Judge a piece.

    Args:
        piece: What was seen.
        knowledge: What the trade knows.
        prices: The learnt log, or None for no log.
        as_of: The day for which prices are stated.
        settings: The user's; defaults where None.
        venue: The terms of the purchase, in the settings' currency; None: nothing on top.
        no_terms: Why the terms are not known; then nothing is said of what to pay.
    """
    settings = settings or Settings()
    reading = read(piece, knowledge)
    kept = beside_usual(reading, knowledge)
    estimate = prices.estimate(subject_row(reading, knowledge, kept)) if prices else None
    worth = _worth(estimate, reading, knowledge, prices)
    before = influences_of(reading)
    return Verdict(
        as_of=as_of,
        digest=knowledge.digest,
        currency=settings.currency,
        reading=reading,
        kept=kept,
        warnings=piece_warnings(reading, knowledge, before),
        explanation=explain(reading, before),
        estimate=estimate,
        worth=worth,
        money=_money(worth, piece, settings, venue) if worth and not no_terms else None,
        cautions=cautions_for(reading, knowledge),
        no_terms=no_terms,
    )


@dataclass(frozen=True, slots=True)
class NextSteps:
    """What to look at next.

    Attributes:
        proposals: The open checks in the order in which to make them.
        enough: Whether to stop, and what was not looked at.
    """

    proposals: tuple[Proposal, ...]
    enough: Enough


def next_steps(verdict: Verdict, knowledge: Knowledge) -> NextSteps:
    """What to look at next, and whether enough has been seen.

    It plays the rest of the checks through, so it is asked for apart from the verdict.
    """
    price = _stake(verdict)
    proposals = ranked(verdict.reading, knowledge, price)
    return NextSteps(proposals, enough(verdict.reading, knowledge, proposals, price))


def _stake(verdict: Verdict) -> Price | None:
    """What is asked, all in, and what the piece would be worth; None without either."""
    worth = verdict.worth
    cost = verdict.money.cost if verdict.money else None
    if worth is None or cost is None:
        return None
    usual = (worth.estimate.median or 0.0) / verdict.kept

    def worth_at(belonging: Mapping[str, float], kept: float) -> float:
        return usual * kept * sum(p * worth.shares.of(state) for state, p in belonging.items())

    return Price(worth_at, max(0.01, float(cost.amount)))


def explain(reading: Reading, before: Mapping[str, Vector]) -> tuple[Reason, ...]:
    """Each finding's weight for the leading doubt (married or modern) against the other side."""
    towards = ("married",) if reading.married > reading.modern else MODERN
    found = reasons(reading.states, before, reading.evidence, towards)
    return found if reading.joint.frame.cased else tuple(map(of_its_period, found))


def cautions_for(reading: Reading, knowledge: Knowledge) -> tuple[Caution, ...]:
    """The cautions that the findings call for, of its likely materials, and of where it is sold."""
    chances = {**reading.housings, **reading.processes, **reading.families}
    asked = {name for one in reading.evidence for name in one.check.cautions if one.answer > 0}
    return tuple(
        caution
        for caution in knowledge.cautions.values()
        if caution.id in asked
        or _called_for(caution.when, reading.piece)
        or reading.piece.channel in caution.channels
        or any(chances.get(word, 0.0) >= 0.5 for word in caution.materials)
    )


def cautions_at(check: Check, knowledge: Knowledge) -> tuple[Caution, ...]:
    """The cautions to show beside a question."""
    return tuple(
        one
        for one in knowledge.cautions.values()
        if one.id in check.cautions or check.id in one.when
    )


def _called_for(when: Mapping[str, tuple[str, ...]], piece: Piece) -> bool:
    return any(piece.found(check) in answers for check, answers in when.items())


def subject_row(reading: Reading, knowledge: Knowledge, kept: float) -> PricedRow:
    """The piece at hand as a row for the price model: record `bought`, today, where it is met.

    Args:
        reading: What its findings mean.
        knowledge: For the known price ratios.
        kept: The share of its price that its condition leaves, beside the usual.
    """
    from appraise.pricing.features import PricedRow
    from appraise.pricing.known import known_ratios

    piece = reading.piece
    return PricedRow(
        kind=piece.kind,
        process=reading.families,
        housing=reading.housings if piece.kind == "cased" else {},
        area=area_of(reading),
        condition=kept,
        channel=piece.channel,
        record="bought",
        subject=piece.subject,
        identified=bool(piece.inscription and piece.inscription.text) or None,
        appeal=piece.appeal,
        age=0.0,
        motif=piece.motif,
        ratios=known_ratios(knowledge.ratios, reading.formats.best, kept, "bought"),
    )


def area_of(reading: Reading) -> float | None:
    """The likeliest format's nominal area in square centimetres; None when nothing measured it."""
    best = reading.formats.best
    return reading.formats.areas[best] / SQUARE_CM if best else None


def _worth(
    estimate: Estimate | None, reading: Reading, knowledge: Knowledge, prices: Prices | None
) -> Worth | None:
    """The worth by the shares of the likeliest housing, as far as the log corrects them."""
    if estimate is None or prices is None:
        return None
    from appraise.pricing.shares import Shares
    from appraise.pricing.worth import worth

    housing = knowledge.housings.get(reading.material, NAMELESS)
    shares = Shares(housing.image, housing.case, housing.bond, learnt=prices.corrections)
    return worth(estimate, reading.belonging, shares)


def _money(worth: Worth, piece: Piece, settings: Settings, venue: Venue | None) -> MoneyAdvice:
    from appraise.pricing.money import money_advice
    from appraise.pricing.venue import Venue

    terms = venue or Venue(name=piece.channel, currency=settings.currency)
    return money_advice(worth, piece.channel, piece.asking, settings, terms)
