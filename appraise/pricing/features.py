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
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

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
    if name == "subject":
        return dict.fromkeys(row.subject, 1.0)
    if name in WORDS:
        word: str = getattr(row, FIELDS.get(name, name))
        return {word: 1.0} if word else {}
    shares: Mapping[str, float] = getattr(row, name)
    return {word: p for word, p in shares.items() if math.isfinite(p) and p > 0.0}


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
        return cls(
            {
                name: tuple(sorted({word for row in rows for word in words_of(row, name)}))
                for name in (*WORDS, *SHARES)
            }
        )

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
        out = np.array([self._row(row) for row in rows], dtype=float)
        return out.reshape(len(rows), len(self.columns))

    def _row(self, row: PricedRow) -> list[float]:
        out: list[float] = []
        for name in (*WORDS, *SHARES):
            told = words_of(row, name)
            total = max(math.fsum(told.values()), 1.0) if name in SHARES else 1.0
            shares = [told.get(word, 0.0) / total for word in self.levels[name]]
            out += shares
            if name in SHARES:
                rest = max(1.0 - math.fsum(shares), 0.0) if told else 0.0
            else:
                rest = float(any(word not in self.levels[name] for word in told))
            out += [rest, 0.0 if told else 1.0]
        for name in FIGURES:
            value = figure(row, name)
            out += [value, float(math.isnan(value))]
        return out


def motifs(rows: Sequence[PricedRow]) -> list[str]:
    """The motif texts of the rows."""
    return [row.motif for row in rows]


def differs(a: PricedRow, b: PricedRow, name: str) -> bool:
    """Whether two rows differ in a group of features."""
    if name in FIGURES:
        one, other = figure(a, name), figure(b, name)
        return one != other and not (math.isnan(one) and math.isnan(other))
    return words_of(a, name) != words_of(b, name)
