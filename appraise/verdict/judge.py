"""One piece judged: the reading, what it is worth by the user's own prices, and what to do.

`judge` is pure: it reads no file, clock or random source.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import date
from functools import cache, lru_cache
from typing import TYPE_CHECKING

from appraise.base.dataclass import dataclass
from appraise.base.money import Money
from appraise.base.settings import Settings
from appraise.inquiry.enough import Enough, enough
from appraise.inquiry.next_check import Order, Price, Proposal
from appraise.knowledge.records import NAMELESS, Caution, Check, Knowledge
from appraise.reading.matter import judged
from appraise.reading.named import SECOND
from appraise.reading.reading import Reading, read
from appraise.reading.usual import beside_usual
from appraise.records.holds import holds_of
from appraise.records.piece import Piece
from appraise.records.piece_features import degree, identified_of, quality_of
from appraise.verdict.gate import Gate, gate_of
from appraise.verdict.headline import Headline, headline_of
from appraise.verdict.warning import Warning
from appraise.verdict.warnings import piece_warnings

if TYPE_CHECKING:
    from appraise.pricing.estimate import Estimate, Prices
    from appraise.pricing.features import PricedRow
    from appraise.pricing.money import MoneyAdvice
    from appraise.pricing.worth import Worth
    from appraise.records.venue import Venue

EMPTY = "empty-case"
LIKELY = 0.5  # a material so likely calls for its cautions
SQUARE_CM = 100.0  # square millimetres in one


@dataclass(frozen=True, slots=True)
class Verdict:
    """Everything the tool can say about a piece, for buying decisions only.

    Attributes:
        as_of: The day it holds for.
        digest: A short fingerprint of the knowledge behind it.
        reading: What the findings mean.
        kept: The share of its price that its condition leaves, beside one with the usual damage.
        quality: Of the image, 1 to 5 with 3 for the usual; None where nobody looked.
        identified: How well the sitter is, a word of `IDENTIFIED`; '' where nobody looked.
        warnings: The strong ones first.
        estimate: What such a piece costs by the log; no number below five like entries.
        worth: The same with what is known of its belonging; None without a number.
        money: What to pay; None without a number, or where the terms are not known.
        no_terms: Why the terms are not known, one line; '' elsewhere.
        gate: Whether its limit stands plain, and on what it stands otherwise; None without a worth.
        cautions: For people's health, the piece, and the law.
        notes: What the estimate cannot say, in sentences.
        headline: The answer in one sentence.
        holds_back: Why no maximum is to be shown, each as the end of a sentence.
    """

    as_of: date
    digest: str
    currency: str
    reading: Reading
    kept: float
    quality: float | None
    identified: str
    warnings: tuple[Warning, ...]
    estimate: Estimate | None
    worth: Worth | None
    money: MoneyAdvice | None
    gate: Gate | None
    cautions: tuple[Caution, ...]
    notes: tuple[str, ...]
    headline: Headline
    holds_back: tuple[str, ...]
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
    verdict = _seen(piece, knowledge, as_of, settings)
    if prices is not None and judged(verdict.piece):
        verdict = _priced(verdict, knowledge, prices, settings, venue, no_terms)
    verdict = replace(verdict, no_terms=no_terms)
    return replace(verdict, headline=headline_of(verdict, knowledge))


def held_back(verdict: Verdict, holds: tuple[str, ...], knowledge: Knowledge) -> Verdict:
    """The verdict with other reasons why no maximum is told, and its headline in that light."""
    verdict = replace(verdict, holds_back=holds)
    return replace(verdict, headline=headline_of(verdict, knowledge))


def _seen(piece: Piece, knowledge: Knowledge, as_of: date, settings: Settings) -> Verdict:
    """What the findings mean, before any money."""
    reading = read(piece, knowledge)
    return Verdict(
        as_of=as_of,
        digest=knowledge.digest,
        currency=settings.currency,
        reading=reading,
        kept=beside_usual(reading, knowledge),
        quality=quality_of(piece, knowledge),
        identified=identified_of(piece, knowledge),
        warnings=piece_warnings(reading, knowledge),
        estimate=None,
        worth=None,
        money=None,
        gate=None,
        cautions=cautions_for(reading, knowledge),
        notes=(),
        headline=Headline("", "", ""),
        holds_back=holds_of(piece, knowledge),
    )


def _priced(
    verdict: Verdict,
    knowledge: Knowledge,
    prices: Prices,
    settings: Settings,
    venue: Venue | None,
    no_terms: str,
) -> Verdict:
    """The same with its worth by the log and, where the terms are known, what to pay for it."""
    reading, piece = verdict.reading, verdict.piece
    row, notes = known_subject(subject_row(reading, knowledge, verdict.kept), prices)
    notes = (*notes, *by_share(row, reading, knowledge, prices))
    estimate = prices.estimate(row)
    worth = _worth(estimate, reading, knowledge, prices)
    verdict = replace(verdict, estimate=estimate, worth=worth, notes=notes)
    if worth is None:
        return verdict
    where = _venue(piece, settings, venue)
    medians, limit = _medians(row, reading, prices), limiter(worth, settings, where, piece.channel)
    gate = gate_of(reading, worth, medians, knowledge, limit)
    if no_terms:
        return replace(verdict, gate=gate)
    return replace(verdict, money=_money(worth, piece, settings, where), gate=gate)


def _medians(row: PricedRow, reading: Reading, prices: Prices) -> dict[str, float]:
    """By process family likely enough to be told apart, the price of one that belongs together."""
    medians = {word: prices.median(replace(row, process={word: 1.0})) for word in _named(reading)}
    return {word: value for word, value in medians.items() if value is not None}


def by_share(
    row: PricedRow, reading: Reading, knowledge: Knowledge, prices: Prices
) -> tuple[str, ...]:
    """Of an empty case, what the share of a case in whole pieces would make it: a judgement."""
    housing = knowledge.housings.get(reading.material)
    if reading.piece.kind != EMPTY or housing is None or not prices.rows:
        return ()
    whole = prices.median(replace(row, kind="cased"))
    if whole is None:
        return ()
    told = f"{whole * housing.case:,.0f}"
    return (
        f"By the share that a case has in the worth of such pieces, a judgement: about {told}.",
    )


def known_subject(row: PricedRow, prices: Prices) -> tuple[PricedRow, tuple[str, ...]]:
    """The row with subjects and a maker that the log knows, and a sentence for what it knows not.

    A subject or a maker that no logged price shows teaches nothing, so it moves the estimate by
    nothing.
    """
    if not prices.rows:
        return row, ()
    known_words = prices.design.levels
    strange = [word for word in row.subject if word not in known_words["subject"]]
    notes = [
        f"No logged price is of this subject ({word}): the estimate leaves it aside."
        for word in strange
    ]
    known = tuple(word for word in row.subject if word not in strange)
    row = replace(row, subject=known)
    if row.maker_name and row.maker_name not in known_words["maker name"]:
        notes.append("No logged price is of this maker: it counts only that a maker is named.")
        row = replace(row, maker_name="")
    return row, tuple(notes)


def _named(reading: Reading) -> list[str]:
    """The process families likely enough to be told apart in money."""
    return [word for word, chance in reading.families.items() if word and chance >= SECOND]


def limiter(
    worth: Worth, settings: Settings, venue: Venue, channel: str
) -> Callable[[float], Money | None]:
    """The most to pay for a piece of another worth, under the same terms."""
    from appraise.pricing.bid import advise
    from appraise.pricing.money import terms_of

    terms = terms_of(settings, channel)
    return lambda value: advise(value, worth.estimate.doubt, terms, venue).walk_away


def at_venue(verdict: Verdict, settings: Settings, venue: Venue, channel: str) -> Verdict:
    """The verdict with what to pay elsewhere than where the piece is met; its headline stays.

    Args:
        verdict: On a piece.
        settings: What the buyer decided.
        venue: The terms there.
        channel: What sort of place it is.
    """
    from appraise.pricing.money import money_advice

    worth, gate = verdict.worth, verdict.gate
    if worth is None or gate is None:
        return verdict
    limit = limiter(worth, settings, venue, channel)
    outcomes = tuple(replace(one, limit=limit(one.worth)) for one in gate.outcomes)
    money = money_advice(worth, channel, verdict.piece.asking, settings, venue)
    return replace(verdict, money=money, gate=replace(gate, outcomes=outcomes), no_terms="")


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

    It plays the rest of the checks through, so it is asked for apart from the verdict. Where the
    rest promises too little, what must still be looked at comes first.
    """
    order = Order(verdict.reading, knowledge, _stake(verdict))
    found, proposals = enough(order), order.proposals()
    if found.still:
        proposals = tuple(sorted(proposals, key=lambda one: one.check not in found.still))
    return NextSteps(proposals, found)


def _stake(verdict: Verdict) -> Price | None:
    """What is asked, all in, and what the piece would be worth; None without either."""
    worth = verdict.worth
    cost = verdict.money.cost if verdict.money else None
    if worth is None or cost is None:
        return None
    usual = (worth.estimate.median or 0.0) / verdict.kept
    share_of = cache(worth.shares.of)

    def worth_at(belonging: Mapping[str, float], kept: float) -> float:
        return usual * kept * sum(p * share_of(state) for state, p in belonging.items())

    return Price(worth_at, max(0.01, float(cost.amount)))


def cautions_for(reading: Reading, knowledge: Knowledge) -> tuple[Caution, ...]:
    """The cautions that the findings call for, of its likely materials, and of where it is sold."""
    chances = {**reading.housings, **reading.processes, **reading.families}
    likely = {word for word, chance in chances.items() if chance >= LIKELY}
    asked = {name for one in reading.evidence for name in one.check.cautions if one.answer > 0}
    for check, rows in _calling(knowledge).items():
        asked.update(rows.get(reading.piece.found(check), ()))
    return tuple(
        [
            caution
            for caution in knowledge.cautions.values()
            if caution.id in asked
            or reading.piece.channel in caution.channels
            or not likely.isdisjoint(caution.materials)
        ]
    )


def cautions_at(check: Check, knowledge: Knowledge) -> tuple[Caution, ...]:
    """The cautions to show beside a question."""
    return tuple(
        one
        for one in knowledge.cautions.values()
        if one.id in check.cautions or check.id in one.when
    )


@lru_cache(maxsize=8)
def _calling(knowledge: Knowledge) -> dict[str, dict[str, list[str]]]:
    """By check and answer, the cautions that it calls for by what these say of themselves."""
    found: dict[str, dict[str, list[str]]] = {}
    for caution in knowledge.cautions.values():
        for check, answers in caution.when.items():
            for answer in answers:
                found.setdefault(check, {}).setdefault(answer, []).append(caution.id)
    return found


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
        process=reading.families if reading.family else cased_families(knowledge),
        housing=reading.housings,
        area=area_of(reading),
        condition=kept,
        channel=piece.channel,
        record="bought",
        subject=piece.subjects,
        quality=quality_of(piece, knowledge),
        identified=degree(identified_of(piece, knowledge)),
        maker=bool(piece.maker_known) or None,
        maker_name=" ".join(piece.maker_known.casefold().split()),
        appeal=piece.appeal,
        age=0.0,
        motif=piece.motif,
        ratios=known_ratios(knowledge.ratios, reading.formats.best, kept, "bought"),
    )


def cased_families(knowledge: Knowledge) -> dict[str, float]:
    """How cased pieces are shared out over the process families, before looking."""
    found: dict[str, float] = {}
    for process in knowledge.processes.values():
        share = process.shares.get("cased", 0.0)
        found[process.family] = found.get(process.family, 0.0) + share
    total = sum(found.values())
    return {word: share / total for word, share in found.items()}


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
    if reading.piece.kind == EMPTY:
        housing = NAMELESS  # an empty case is priced by empty cases, not by a share of whole pieces
    shares = Shares(
        housing.image, housing.case, housing.bond, knowledge.ratios.decorative, prices.corrections
    )
    return worth(estimate, reading.belonging, shares)


def _money(worth: Worth, piece: Piece, settings: Settings, venue: Venue) -> MoneyAdvice:
    from appraise.pricing.money import money_advice

    return money_advice(worth, piece.channel, piece.asking, settings, venue)


def _venue(piece: Piece, settings: Settings, venue: Venue | None) -> Venue:
    from appraise.records.venue import Venue

    return venue or Venue(name=piece.channel, currency=settings.currency)
