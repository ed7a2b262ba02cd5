"""The model's own settings as they are written in data/weights.yaml."""

from appraise.base.yamls import Row
from appraise.knowledge.basis import CONFIDENCE, read_basis, read_years
from appraise.knowledge.records import (
    BELONGING,
    CHANNELS,
    KNOWN,
    REGIONS,
    Weights,
)

RELIABILITY = ("form", "test", "absence", "interest")


def read_weights(row: Row, sources: frozenset[str]) -> Weights:
    """The single row of `weights:`; every number is a judgement and is marked as one.

    Raises:
        InputError: when a number is missing, out of range, or a distribution does not sum to 1.
    """
    read_basis(row, sources)
    image = row.row("image-years")
    modern = row.row("modern")
    exchange = row.row("exchange")
    warn = row.row("warnings")
    weights = Weights(
        reliability=_reliability(row),
        group_rest=row.number("group-rest", low=0, high=1),
        floors=_named(row, "floors", CONFIDENCE),
        lags=_distribution(row, "lags"),
        kappa=row.number("kappa", low=0, high=1),
        kappa_window=int(row.number("kappa-window", low=0, high=50)),
        exchange=(
            exchange.number("undisturbed", low=0, high=1),
            exchange.number("disturbed", low=0, high=1),
        ),
        pad=exchange.number("pad", low=0, high=1),
        clasp=exchange.number("clasp", low=0, high=1),
        disturbed=row.number("disturbed", low=0, high=1),
        image_years={kind: read_years(image, kind, "high")[""] for kind in image},
        image_floor=row.number("image-floor", low=0, high=0.1),
        modern={channel: modern.number(channel, low=0, high=20) for channel in CHANNELS},
        all_modern=row.number("all-modern", low=0, high=1),
        famous=row.number("famous", low=1, high=20),
        copy=row.number("copy", low=0, high=1),
        altered=row.number("altered", low=0, high=1),
        reference=_distribution_of(row, "reference", BELONGING),
        regions=_distribution_of(row, "regions", REGIONS),
        same_format=_named(row, "same-format", BELONGING),
        strong_ratio=warn.number("strong-ratio", low=1),
        strong_chance=warn.number("strong-chance", low=0, high=1),
        raise_ratio=warn.number("raise-ratio", low=1),
        raise_chance=warn.number("raise-chance", low=0, high=1),
    )
    row.done()
    return weights


def _reliability(row: Row) -> dict[str, dict[str, float]]:
    inner = row.row("reliability")
    table = {}
    for known in KNOWN:
        line = inner.row(known)
        table[known] = {sort: line.number(sort, low=0, high=1) for sort in RELIABILITY}
        line.done()
    inner.done()
    return table


def _named(row: Row, key: str, names: tuple[str, ...]) -> dict[str, float]:
    inner = row.row(key)
    values = {name: inner.number(name, low=0, high=1) for name in names}
    inner.done(names)
    return values


def _distribution_of(row: Row, key: str, names: tuple[str, ...]) -> dict[str, float]:
    values = _named(row, key, names)
    if abs(sum(values.values()) - 1) > 1e-6:
        raise row.error(key, "these must sum to 1")
    return values


def _distribution(row: Row, key: str) -> tuple[float, ...]:
    values = row.numbers(key, 0, 1)
    if abs(sum(values) - 1) > 1e-6:
        raise row.error(key, f"these sum to {sum(values):g}, not to 1")
    return values
