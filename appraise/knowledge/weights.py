"""The model's own settings as they are written in data/weights.yaml."""

from typing import Any

from appraise.base.yamls import Row
from appraise.knowledge.basis import CONFIDENCE, read_basis, read_years
from appraise.knowledge.citing import Keys
from appraise.knowledge.records import (
    BELONGING,
    CHANNELS,
    KNOWN,
    REGIONS,
    Asking,
    Limits,
    Odd,
    Weights,
)

EXCLUDE = 4.0  # where a file of the user's own, copied earlier, does not say it
RELIABILITY = ("form", "test", "absence", "interest")


def read_weights(row: Row, sources: Keys) -> Weights:
    """The single row of `weights:`; every number is a judgement and is marked as one.

    Raises:
        InputError: when a number is missing, out of range, or a distribution does not sum to 1.
    """
    read_basis(row, sources)
    image, modern = row.row("image-years"), row.row("modern")
    weights = Weights(
        reliability=_reliability(row),
        group_rest=_chance(row, "group-rest"),
        once=row.texts("weighed-once", ()),
        unnamed=_chance(row, "unnamed"),
        **_written(row.row("written")),
        floors=_named(row, "floors", CONFIDENCE),
        uninvented=_chance(row, "uninvented"),
        lags=_distribution(row, "lags"),
        kappa=_chance(row, "kappa"),
        kappa_window=int(row.number("kappa-window", low=0, high=50)),
        disturbed=_chance(row, "disturbed"),
        image_years={kind: read_years(image, kind, "high")[""] for kind in image},
        image_floor=row.number("image-floor", low=0, high=0.1),
        modern={channel: modern.number(channel, low=0, high=20) for channel in CHANNELS},
        all_modern=_chance(row, "all-modern"),
        famous=_factors(row.row("famous")),
        copy=_chance(row, "copy"),
        altered=_chance(row, "altered"),
        reference=_distribution_of(row, "reference", BELONGING),
        regions=_distribution_of(row, "regions", REGIONS),
        same_format=_named(row, "same-format", BELONGING),
        asking=_asking(row.row("asking")),
        gate=_limits(row.row("gate")),
        half_seen=_chance(row, "half-seen"),
        looks_right=int(row.number("looks-right", low=0, high=50)),
        odd=_odd(row.row("odd")) if "odd" in row else Odd(),
        **_exchange(row.row("exchange")),
        **_warnings(row.row("warnings")),
    )
    row.done()
    return weights


def _odd(row: Row) -> Odd:
    """Pieces whose signs are odd with one cause."""
    rare = row.number("rare", low=0.001, high=1)
    found = Odd(_chance(row, "chance"), _chance(row, "part"), rare)
    row.done()
    return found


def _exchange(row: Row) -> dict[str, Any]:
    """How often a part is an exchange."""
    pair = (_chance(row, "undisturbed"), _chance(row, "disturbed"))
    return {"exchange": pair, "pad": _chance(row, "pad"), "clasp": _chance(row, "clasp")}


def _written(row: Row) -> dict[str, Any]:
    """How far dates written on a piece are believed, and what each place of them dates."""
    places = row.row("on")
    on = {}
    for place in places:
        inner = places.row(place)
        on[place] = (inner.text("part"), int(inner.number("before", low=0, high=50)))
        inner.done()
    told = {
        "written": _chance(row, "wrong"),
        "written_spread": int(row.number("spread", low=1, high=200)),
        "written_on": on,
    }
    row.done()
    return told


def _asking(row: Row) -> Asking:
    """When a further look is worth it."""
    names = ("rest", "faint", "bit", "spread", "settled", "moves", "quick", "known", "patience")
    told = Asking(*(row.number(name, low=0, high=600) for name in names))
    row.done(names)
    return told


def _limits(row: Row) -> Limits:
    """When a limit stands plain."""
    told = Limits(_chance(row, "short"), _chance(row, "doubt"))
    row.done()
    return told


def _warnings(row: Row) -> dict[str, Any]:
    """From when a warning is raised, and raised as strong."""
    return {
        "strong_ratio": row.number("strong-ratio", low=1),
        "strong_chance": _chance(row, "strong-chance"),
        "raise_ratio": row.number("raise-ratio", low=1),
        "raise_chance": _chance(row, "raise-chance"),
        "exclude_ratio": row.number("exclude-ratio", low=1, default=EXCLUDE),
    }


def _factors(row: Row) -> dict[str, float]:
    """Factors on the odds of a modern picture, by subject."""
    found = {subject: row.number(subject, low=1, high=20) for subject in row}
    row.done()
    return found


def _chance(row: Row, key: str) -> float:
    return row.number(key, low=0, high=1)


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
