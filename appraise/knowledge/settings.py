"""The model's own settings as frozen records; every number in them is a judgement."""

from collections.abc import Mapping

from appraise.base.dataclass import dataclass
from appraise.knowledge.basics import Years


@dataclass(frozen=True, slots=True)
class Asking:
    """When a further look is worth it.

    Attributes:
        rest: Share of the cost; where all the rest gains less, it is not worth looking at.
        faint: The same in bits of the best check, where nothing is known of cost and worth.
        bit: What a bit about belonging counts beside the gain over the cost.
        spread: What the variance of worth over the cost counts beside that gain.
        settled: The chance from which on the process stands.
        moves: What a single check must gain for its step not to be left.
        quick: The most seconds that a quick test of process or material takes.
        known: With no price, bits of the best check below which enough is known.
        patience: Answers after which the rest has to promise more than `rest`.
    """

    rest: float
    faint: float
    bit: float
    spread: float
    settled: float
    moves: float
    quick: float
    known: float
    patience: float


@dataclass(frozen=True, slots=True)
class Limits:
    """When a limit stands plain.

    Attributes:
        short: A worth below this share of what the limit assumes is much less.
        doubt: The most that the chance of that may be.
    """

    short: float
    doubt: float


@dataclass(frozen=True, slots=True)
class Odd:
    """Pieces whose signs of how they came together are odd with one cause.

    Attributes:
        chance: How often a piece is such a one, before looking; 0 for never.
        part: The part of its signs that is out of the ordinary.
        rare: What is out of the ordinary: the rarest answers, up to so much of a check's chances.
    """

    chance: float = 0.0
    part: float = 0.0
    rare: float = 1.0


@dataclass(frozen=True, slots=True)
class Weights:
    """The model's own settings, all of them judgements kept in data/.

    Attributes:
        reliability: By known and sort ('form', 'test', 'absence', 'interest').
        group_rest: Factor on the reliability of all but the strongest of an evidence group.
        unnamed: The most that an answer is believed which names no style.
        written: The share of dates written on pieces that are wrong or by a later hand.
        written_spread: Half of the wrong dates lie within so many years of the part's own.
        written_on: By place of the writing, the part that it dates and how many years before the
            writing that part may be.
        floors: Floor under a trapezoid by confidence.
        uninvented: Factor on the floor of a process in the years before it was invented.
        lags: P(lag) for lags of 0, 1, ... years between housing and picture.
        kappa: Share of marriages made to look right, and the window in years they fit within.
        exchange: P(package part exchanged) when undisturbed and when disturbed.
        pad, clasp: P(pad exchanged), P(clasp exchanged) against the case body.
        disturbed: Prior P(disturbed).
        image_years: Prior trapezoid of the picture's year by kind, or by kind and region, and a
            floor under it.
        modern: Factor on the chances of modern parts by channel.
        all_modern: Share of pieces with a modern part whose every part is modern.
        famous: Factors on the odds of a modern picture, by subject: famous sitters are copied more.
        copy, altered: Prior probabilities.
        reference: The fixed belonging prior over which tables are averaged for unreliable eyes.
        regions: Share of pieces by region, for pieces of unknown region.
        same_format: P(picture and case of one format) by belonging state.
        strong_ratio, strong_chance: A warning is strong from this likelihood ratio or probability.
        raise_ratio, raise_chance: A warning is raised from both of these.
        exclude_ratio: Findings exclude each other where all are rarer together by this factor than
            each alone would have it.
        asking: When a further look is worth it.
        gate: When a limit stands plain.
        half_seen: Share of a side's checks to look at before it can be called good.
        once: Evidence groups of which the leader alone is weighed.
        looks_right: Years before a portrayed one in which a picture still looks of its day.
        odd: Pieces whose signs are odd together.
    """

    reliability: Mapping[str, Mapping[str, float]]
    group_rest: float
    unnamed: float
    written: float
    written_spread: int
    written_on: Mapping[str, tuple[str, int]]
    floors: Mapping[str, float]
    uninvented: float
    lags: tuple[float, ...]
    kappa: float
    kappa_window: int
    exchange: tuple[float, float]
    pad: float
    clasp: float
    disturbed: float
    image_years: Mapping[str, Years]
    image_floor: float
    modern: Mapping[str, float]
    all_modern: float
    famous: Mapping[str, float]
    copy: float
    altered: float
    reference: Mapping[str, float]
    regions: Mapping[str, float]
    same_format: Mapping[str, float]
    strong_ratio: float
    strong_chance: float
    raise_ratio: float
    raise_chance: float
    exclude_ratio: float
    asking: Asking
    gate: Limits
    half_seen: float
    looks_right: int
    once: tuple[str, ...] = ()
    odd: Odd = Odd()
