"""From log entries to numbers: one row of features per entry.

Construction, in this order of columns (the groups of `GROUPS`):

- kind, channel, record, maker's name: one column per word that the log holds, 1 or 0, and a last
  one for any other word. An empty word is missing: all its columns are 0 but a flag, which is 1.
- subject: the same, but a piece may have several, each of which is 1.
- process, housing: the same, holding probabilities, so an uncertain process is shared out; what
  the probabilities leave below 1 stands in the last column with the words that the log lacks.
- size: natural log of the plate area in square centimetres. condition: natural log of the
  share kept of the price of one with the usual damage. quality: of the image, a mark 1..5 with 3
  for the usual. appeal: the buyer's own mark 1..5. age: years since the entry. identified: how
  well the sitter is, in equal steps from 0 to 1. maker: 1 or 0, whether it is known. Each of these
  has a flag column that is 1 where the value is missing; the value itself is then not a number,
  which the regression reads as the mean.

Known price ratios (formats, conditions, asking over sold) are no features: they stand in
`PricedRow.ratios` as logs and are taken off the log price before fitting and put on again for
the subject. How probable a marriage of parts is, is no feature either.
"""

import math
from collections.abc import Hashable, Mapping, Sequence
from dataclasses import field
from operator import attrgetter
from typing import Any

import numpy as np

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.pricing.texts import Floats

WORDS = ("kind", "channel", "record", "subject", "maker name")
SHARES = ("process", "housing")
FIGURES = ("size", "condition", "quality", "appeal", "age", "identified", "maker")
GROUPS = (*WORDS, *SHARES, *FIGURES)
FIELDS = {"size": "area", "maker name": "maker_name"}
"""Fields of a row, where they are not named as their feature."""
"""Groups of features, in the order in which a comparable is adjusted; the motif comes last."""


@dataclass(frozen=True, slots=True)
class PricedRow:
    """One price met, or the piece at hand; whatever is not known is left empty or None.

    Attributes:
        id: The entry's name in the log.
        price: What it would have cost this buyer in all, base currency, above 0; None: the piece
            at hand.
        kind: As in the piece file: cased, card ...
        process: Process to probability.
        housing: Housing class to probability.
        area: Plate area in square centimetres, above 0.
        condition: Share of its price kept beside one with the usual damage, above 0.
        channel: market, fair, shop, online, auction, private.
        record: bought, sold, asking, hammer ...
        subject: Whom or what it shows: single, child, soldier ...; several may hold.
        quality: Of the image, 1..5 with 3 for the usual.
        identified: How well the sitter is identified, 0 not at all to 1 beyond doubt.
        maker: Whether the maker is known.
        maker_name: The maker's name, folded to small letters.
        appeal: The buyer's own mark, 1..5.
        age: Years since the entry, 0 or more.
        motif: Free text.
        ratios: Named natural logs of known price ratios that hold for this row.
        belonging: State of belonging to probability as noted at logging; empty: not noted. It is
            no feature: `shares` says what it does.
    """

    id: str = ""
    price: float | None = None
    kind: str = ""
    process: Mapping[str, float] = field(default_factory=dict)
    housing: Mapping[str, float] = field(default_factory=dict)
    area: float | None = None
    condition: float | None = None
    channel: str = ""
    record: str = ""
    subject: tuple[str, ...] = ()
    quality: float | None = None
    identified: float | None = None
    maker: bool | None = None
    maker_name: str = ""
    appeal: int | None = None
    age: float | None = None
    motif: str = ""
    ratios: tuple[tuple[str, float], ...] = ()
    belonging: Mapping[str, float] = field(default_factory=dict)

    @property
    def ratio(self) -> float:
        """The sum of the logs of the known ratios."""
        return math.fsum(log for _, log in self.ratios)

    @property
    def level_price(self) -> float:
        """The log price less the known ratios: what the regression learns.

        Raises:
            InputError: when the row has no price above 0.
        """
        if self.price is None or not (math.isfinite(self.price) and self.price > 0.0):
            raise InputError(f"entry '{self.id}' has no price above nothing", mend="Correct it.")
        return math.log(self.price) - self.ratio


def figure(row: PricedRow, name: str) -> float:
    """A figure of a row as the features hold it; not a number where it is missing or absurd."""
    if name in ("size", "condition"):
        raw = row.area if name == "size" else row.condition
        return math.log(raw) if raw is not None and 0.0 < raw < math.inf else math.nan
    value: float | int | bool | None = getattr(row, name)
    return math.nan if value is None or not math.isfinite(value) else float(value)


def words_of(row: PricedRow, name: str) -> Mapping[str, float]:
    """A word group or share group of a row as word to probability; empty where missing."""
    return _probable(name, _keys([row], name)[0])


@dataclass(frozen=True, slots=True)
class Design:
    """Which columns the features have, learnt from a log.

    Attributes:
        levels: For each word and share group, its words in the log, in order.
    """

    levels: Mapping[str, tuple[str, ...]]

    @classmethod
    def of(cls, rows: Sequence[PricedRow]) -> "Design":
        """The design for a log; an empty log has only the columns for other words and flags."""
        levels = {}
        for name in (*WORDS, *SHARES):
            told = (_probable(name, key) for key in set(_keys(rows, name)))
            levels[name] = tuple(sorted({word for one in told for word in one}))
        return cls(levels)

    @property
    def columns(self) -> tuple[str, ...]:
        """The names of the columns, such as 'process: tintype' or 'size missing'."""
        out: list[str] = []
        for name in (*WORDS, *SHARES):
            out += [f"{name}: {word}" for word in self.levels[name]]
            out += [f"{name}: other", f"{name} missing"]
        for name in FIGURES:
            out += [name, f"{name} missing"]
        return tuple(out)

    def block(self, name: str) -> slice:
        """The columns of a word or share group, flags left out."""
        start = 0
        for group in (*WORDS, *SHARES):
            if group == name:
                return slice(start, start + len(self.levels[group]) + 1)
            start += len(self.levels[group]) + 2
        raise KeyError(name)

    def matrix(self, rows: Sequence[PricedRow]) -> Floats:
        """The features, (n, number of columns), not a number where a figure is missing."""
        out = np.empty((len(rows), len(self.columns)))
        place = 0
        for name in (*WORDS, *SHARES):
            width = len(self.levels[name]) + 2
            out[:, place : place + width] = self._group(rows, name)
            place += width
        for name in FIGURES:
            out[:, place] = _figures(rows, name)
            out[:, place + 1] = np.isnan(out[:, place])
            place += 2
        return out

    def _group(self, rows: Sequence[PricedRow], name: str) -> Floats:
        """The columns of a word or share group; each different value is worked out once."""
        known: dict[Hashable, int] = {}
        codes = [known.setdefault(key, len(known)) for key in _keys(rows, name)]
        width = len(self.levels[name]) + 2
        told = [self._cells(name, _probable(name, key)) for key in known]
        found: Floats = np.array(told, dtype=float).reshape(-1, width)[np.array(codes, dtype=int)]
        return found

    def _cells(self, name: str, told: Mapping[str, float]) -> list[float]:
        levels = self.levels[name]
        total = max(math.fsum(told.values()), 1.0) if name in SHARES else 1.0
        shares = [told.get(word, 0.0) / total for word in levels]
        if name in SHARES:
            rest = max(1.0 - math.fsum(shares), 0.0) if told else 0.0
        else:
            rest = float(any(word not in levels for word in told))
        return [*shares, rest, 0.0 if told else 1.0]


def _keys(rows: Sequence[PricedRow], name: str) -> list[Any]:
    """What each row holds of a word or share group, in a form that can be told apart."""
    if name in SHARES:
        return [tuple(getattr(row, name).items()) for row in rows]
    return list(map(attrgetter(FIELDS.get(name, name)), rows))


def _probable(name: str, key: Any) -> Mapping[str, float]:
    """A key of `_keys` as word to probability; empty where missing."""
    if name == "subject":
        return dict.fromkeys(key, 1.0)
    if name in WORDS:
        return {key: 1.0} if key else {}
    return {word: p for word, p in key if math.isfinite(p) and p > 0.0}


def _figures(rows: Sequence[PricedRow], name: str) -> Floats:
    """A figure of each row, as `figure` gives it, (n,)."""
    raw = map(attrgetter(FIELDS.get(name, name)), rows)
    held = np.array([math.nan if one is None else one for one in raw], dtype=float)
    if name not in ("size", "condition"):
        return np.where(np.isfinite(held), held, np.nan)
    sound = (held > 0.0) & (held < np.inf)
    return np.where(sound, np.log(np.where(sound, held, 1.0)), np.nan)


def motifs(rows: Sequence[PricedRow]) -> list[str]:
    """The motif texts of the rows."""
    return [row.motif for row in rows]


def differs(a: PricedRow, b: PricedRow, name: str) -> bool:
    """Whether two rows differ in a group of features."""
    if name in FIGURES:
        one, other = figure(a, name), figure(b, name)
        return one != other and not (math.isnan(one) and math.isnan(other))
    return words_of(a, name) != words_of(b, name)
