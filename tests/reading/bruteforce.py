"""The joint table by plain enumeration, written from the model's definitions alone.

Every housing, process, state of belonging, package state, exchange of each part of the package and
of pad and clasp, yes/no unknown, year of the picture and year of the housing is gone through with
numpy. Nothing here calls the reasoning under test.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np
from scipy import stats

from appraise.knowledge.records import (
    BELONGING,
    DISTURBED,
    FIRST_YEAR,
    LAST_YEAR,
    YES_NO,
    Basis,
    Check,
    Housing,
    Knowledge,
    Process,
    Weights,
    Years,
)
from appraise.records.piece import Finding, Piece

SPAN = LAST_YEAR - FIRST_YEAR + 1
YEAR = np.arange(FIRST_YEAR, LAST_YEAR + 1, dtype=float)
LOOSE = ("pad", "clasp")
AXES = ("housing", "process", "belonging", "package", "copy", "altered")


@dataclass(frozen=True)
class Enumerated:
    """Posterior weights of everything that was enumerated.

    Attributes:
        table: P(m, p, h, u, copy, altered), summing to 1.
        evidence: The sum before it was brought to 1.
        year: P(year of the picture | it is of its period).
        by_process: (p, y) the same with processes told apart, summing to 1 in all.
        exchanged: By part of the package P(exchanged | picture of its period); by pad or clasp
            P(exchanged).
    """

    table: np.ndarray
    evidence: float
    year: np.ndarray
    by_process: np.ndarray
    exchanged: Mapping[str, float]


def ramp(years: Years, floor: float) -> np.ndarray:
    """A trapezoid over a floor: f + (1 - f) w, flanks (y - E + 1) / (F - E + 1) and mirrored."""
    first, start, end, last = years.first, years.start, years.end, years.last
    rising = (YEAR - first + 1) / (start - first + 1)
    falling = (last - YEAR + 1) / (last - end + 1)
    inside = (first <= YEAR) & (last >= YEAR)
    height = np.where(inside, np.minimum(1, np.minimum(rising, falling)), 0.0)
    return floor + (1 - floor) * height


def line(rows: Mapping[str, Years], region: str, weights: Weights) -> np.ndarray:
    """Years in a region; where the region is not named, the mixture of those that are."""
    if not rows:
        return np.ones(SPAN)
    names = [region] if region in rows else [""] if "" in rows else list(rows)
    shares = np.array([weights.regions.get(name, 1.0) for name in names])
    lines = [ramp(rows[name], weights.floors[rows[name].confidence]) for name in names]
    return (shares / shares.sum()) @ np.array(lines)


def prior_years(weights: Weights, kind: str, region: str) -> np.ndarray:
    rows = weights.image_years
    values = ramp(rows.get(f"{kind} {region}", rows[kind]), 0.0) + weights.image_floor
    return values / values.sum()


def beliefs(check: Check, finding: Finding, demoted: bool, weights: Weights) -> np.ndarray:
    """r of every answer: by how it is known and its sort, less for the followers of a group."""
    found = []
    for answer in check.answers:
        sort = "interest" if finding.admitted else "absence" if answer.absence else check.sort
        r = weights.reliability[finding.known][sort]
        r = min(r, weights.unnamed) if answer.unnamed else r
        rest = 0 if check.group in weights.once else weights.group_rest
        found.append(r * (rest if demoted else 1))
    return np.array(found)


def counted(piece: Piece, knowledge: Knowledge) -> list[tuple[Check, Finding, bool]]:
    """The findings that count, and whether each follows another of its group."""
    kept = [
        (check, piece.findings[name])
        for name, check in knowledge.checks.items()
        if name in piece.findings
        and piece.findings[name].answer != "cannot-tell"
        and piece.kind in check.kinds
        and not (piece.conserved and check.fit)
        and all(
            piece.found(other) in ("", "cannot-tell", *wanted)
            for other, wanted in check.when.items()
        )
    ]
    undated = {c.part for c, f in kept if c.answers[c.index(f.answer)].undates}
    kept = [(c, f) for c, f in kept if c.part not in undated or not any(a.years for a in c.answers)]
    found = []
    for check, finding in kept:
        mates = [(c, c.answers[c.index(f.answer)]) for c, f in kept if c.group == check.group]
        mates = [c for c, a in mates if not a.unnamed] or [c for c, _ in mates]
        mates = mates if check.group else []
        first = max(mates, key=lambda c: c.strength) if mates else check
        found.append((check, finding, first is not check))
    return found


def mixed(rows: np.ndarray, reference: np.ndarray, r: np.ndarray) -> np.ndarray:
    """r P + (1 - r) Pbar for every answer (the first axis), with Pbar over the fixed reference.

    Each answer is scaled so that in every state they sum to 1; no ratio changes by that.
    """
    means = np.array([(row * reference).sum() for row in rows])
    lines = [one * row + (1 - one) * mean for one, row, mean in zip(r, rows, means, strict=True)]
    return np.array([line / one for line, one in zip(lines, r, strict=True)]) / (means / r).sum()


# A piece without a case has one housing without years or name, its mount if it has any; what holds
# no picture has one process without years or name.
NO_HOUSING = Housing("", "", 1.0, {}, {"any": 0.0}, (0.0, 0.0), 0.0, 1, 0, 0, Basis("judgement"))
NO_PROCESS = Process("", "", "", {}, {}, 0.0, Basis("judgement"))


class Enumeration:
    """One piece gone through."""

    def __init__(self, piece: Piece, knowledge: Knowledge) -> None:
        self.piece, self.weights = piece, knowledge.weights
        self.pi = prior_years(self.weights, piece.kind, piece.region)
        made = [p for p in knowledge.processes.values() if piece.kind in p.shares]
        self.pictured, self.processes = bool(made), made or [NO_PROCESS]
        self.cased = piece.kind in ("cased", "empty-case")
        self.housings = list(knowledge.housings.values()) if self.cased else [NO_HOUSING]
        shares = np.array([p.shares.get(piece.kind, 1.0) for p in self.processes])
        self.p = shares / shares.sum()
        shares = np.array([h.share for h in self.housings])
        self.m = shares / shares.sum()
        self.found = counted(piece, knowledge)
        self.sides = {name: part.side for name, part in knowledge.parts.items()}

    def rates(self) -> np.ndarray:
        """P(h | m, p, channel, subject)."""
        weights = self.weights

        def moved(chance: float, factor: float) -> float:
            return factor * chance / (1 - chance + factor * chance)

        found = np.zeros((len(self.m), len(self.p), 5))
        channel = weights.modern[self.piece.channel]
        famous = weights.famous.get(self.piece.subject, 1)
        for (m, housing), (p, process) in product(
            enumerate(self.housings), enumerate(self.processes)
        ):
            if not self.cased:
                # Of its period, or modern: the print alone, or print and mount.
                image = moved(process.modern_image, channel * famous)
                both = weights.all_modern * image
                found[m, p] = (1 - image, 0, 0, image - both, both)
                continue
            case = moved(housing.modern_case, channel)
            image = moved(process.modern_image, channel * famous)
            both = max(case * image, weights.all_modern * min(case, image))
            married = housing.married
            rate = married.get(process.id, married.get(process.family, married["any"]))
            rate = rate if self.pictured else 0.0
            period = 1 - case - image + both
            found[m, p] = (period * (1 - rate), period * rate, case - both, image - both, both)
        return found

    def states(self, axis: str) -> tuple[tuple[str, ...], np.ndarray]:
        """The words of an axis and its fixed reference prior."""
        weights = self.weights
        if axis == "housing":
            return tuple(h.id for h in self.housings), self.m
        if axis == "process":
            return tuple(p.id for p in self.processes), self.p
        if axis == "belonging":
            return BELONGING, np.array([weights.reference[h] for h in BELONGING])
        yes = {"package": weights.disturbed, "copy": weights.copy, "altered": weights.altered}[axis]
        return DISTURBED if axis == "package" else YES_NO, np.array([1 - yes, yes])

    def axes(self, check: Check) -> list[str]:
        """What a check bears on in this kind of piece."""
        absent = (() if self.cased else ("housing",)) + (() if self.pictured else ("process",))
        return [table.over for table in check.tables if table.over not in absent]

    def table_of(self, check: Check, finding: Finding, demoted: bool) -> np.ndarray:
        """P'(answer | states), of as many dimensions as there are axes, spread over all of them."""
        over = self.axes(check)
        values = np.ones((1,) * len(AXES) + (len(check.answers),))
        reference = np.ones((1,) * len(AXES))
        for axis in over:
            table = next(t for t in check.tables if t.over == axis)
            words, prior = self.states(axis)
            shape = [1] * len(AXES)
            shape[AXES.index(axis)] = len(words)
            values = values * np.array([table.rows[w] for w in words]).reshape(*shape, -1)
            reference = reference * prior.reshape(shape)
        values = values / values.sum(axis=-1, keepdims=True)
        rows = np.moveaxis(values, -1, 0)
        sure = finding.known == "in-hand" and not demoted
        if sure and check.decisive:
            return rows[check.index(finding.answer)]
        found = mixed(rows, reference, beliefs(check, finding, demoted, self.weights))
        if sure and check.slip:
            # What is impossible stays as rare as the table has it; the rest of the answers share
            # what that leaves.
            rare = rows <= check.slip * (1 + 1e-9)
            room = 1 - (rows * rare).sum(axis=0)
            found = np.where(rare, rows, found * room / (found * ~rare).sum(axis=0))
        return found[check.index(finding.answer)]

    def line_of(self, check: Check, finding: Finding, demoted: bool) -> np.ndarray:
        """P'(answer | year); an answer that takes the part's years away is alike in every year."""
        shared = {
            a.id: a.share * line(a.years, self.piece.region, self.weights)
            for a in check.answers
            if a.share
        }
        others = [a.id for a in check.answers if not a.share]
        rest = (1 - sum(shared.values())) / max(1, len(others))
        rows = np.array([shared.get(a.id, rest) for a in check.answers])
        found = mixed(rows, self.pi, beliefs(check, finding, demoted, self.weights))
        gone = [answer.undates for answer in check.answers]
        same = sum(
            (one * self.pi).sum() for one, undates in zip(found, gone, strict=True) if undates
        )
        whole = sum(one for one, undates in zip(found, gone, strict=True) if not undates)
        for place, undates in enumerate(gone):
            one = found[place]
            found[place] = (one * self.pi).sum() if undates else one * (1 - same) / whole
        return found[check.index(finding.answer)]

    def of_process(self, process) -> np.ndarray:
        """How common a process was by year; before it was invented next to nothing."""
        found = line(process.years, self.piece.region, self.weights)
        if process.years:
            first = min(years.first for years in process.years.values())
            found = np.where(first > YEAR, found * self.weights.uninvented, found)
        return found

    def priors(self) -> np.ndarray:
        """(p, y) the years before looking; a process that stands apart has its own alone."""
        return np.array([np.ones(SPAN) if p.apart else self.pi for p in self.processes])

    def side(self, part: str) -> str:
        """Where a part's dates count; what is on the piece as a whole dates the picture."""
        return "dress" if part == "sitter" else self.sides[part].replace("piece", "image")

    def whole(self, wanted: str) -> np.ndarray:
        """The product of all dated findings of a side."""
        return np.prod([np.ones(SPAN), *self.lines(wanted).values()], axis=0)

    def lines(self, wanted: str) -> dict[str, np.ndarray]:
        """The product of the dated findings by part, for a side of the piece."""
        found: dict[str, np.ndarray] = {}
        for check, finding, r in self.found:
            if any(a.years for a in check.answers) and self.side(check.part) == wanted:
                one = self.line_of(check, finding, r)
                found[check.part] = found.get(check.part, np.ones(SPAN)) * one
        return found

    def kernels(self) -> tuple[np.ndarray, np.ndarray]:
        """P(year of the housing | year of the picture): together, and married to look right."""
        lag, window = np.zeros((SPAN, SPAN)), np.zeros((SPAN, SPAN))
        for year in range(SPAN):
            for years, chance in enumerate(self.weights.lags):
                lag[year, max(0, year - years)] += chance
            reach = self.weights.kappa_window
            low, high = max(0, year - reach), min(SPAN - 1, year + reach)
            window[year, low : high + 1] = 1 / (high - low + 1)
        return lag, window

    def run(self) -> Enumerated:
        """Everything enumerated."""
        before = self.before()
        package, housing = self.lines("package"), self.lines("housing")
        loose = [part for part in LOOSE if part in housing]
        own = {h.id: line(h.years, self.piece.region, self.weights) for h in self.housings}
        by_class = np.array([values / (values * self.pi).sum() for values in own.values()])
        by_process = np.array([self.of_process(p) for p in self.processes])
        by_process = by_process * self.priors()
        by_process = by_process / by_process.sum(axis=1, keepdims=True)
        body = np.prod([np.ones(SPAN), *(v for k, v in housing.items() if k not in LOOSE)], axis=0)
        # [m, p, h, u, copy, y]; a modern picture has no year: its sum goes to y = 0.
        sums = np.zeros((len(self.m), len(self.p), 5, 2, 2, SPAN))
        parted: dict[str, np.ndarray] = {part: np.zeros_like(sums) for part in (*package, *loose)}
        ways = product((0, 1), repeat=1 + len(package) + len(loose))
        for copied, *away in ways:
            gone = dict(zip((*package, *loose), away, strict=True))
            # The dress of a copy is the original's: it says nothing of the copy's own year.
            dress = self.whole("dress")
            picture = self.whole("image") * ((self.pi * dress).sum() if copied else dress)
            constant = (self.pi * picture).sum()
            for part, values in package.items():
                mean = (self.pi * values).sum()
                picture = picture * (mean if gone[part] else values)
                constant *= mean
            case = body.copy()
            for part in loose:
                values = housing[part]
                case = case * ((self.pi * values).sum() if gone[part] else values)
            found = self.year_sums(by_process * picture, by_class * case, constant)
            chance = self.chance_of(gone, tuple(package), loose)
            found = found[:, :, :, None, :] * chance[None, None, None, :, None]
            sums[:, :, :, :, copied] += found
            for part in parted:
                if gone[part]:
                    parted[part][:, :, :, :, copied] += found
        return self.summed(before, sums, parted, loose)

    def made(self, named: Sequence[str]) -> np.ndarray:
        """(p, y) 1 where an image of a name can be of a process; a wrong name is as old as any."""
        mine = [process for process in self.processes if process.family in named]
        dated = [one.first for process in mine for one in process.years.values()]
        line = np.zeros((len(self.processes), SPAN))
        for place, process in enumerate(self.processes):
            first = min(dated, default=0)
            if process in mine:
                first = min((one.first for one in process.years.values()),
                            default=9999 if dated else 0)  # fmt: skip
            line[place] = first <= YEAR
        return line

    def image_line(self, named: Sequence[str]) -> np.ndarray:
        """The year by the picture alone, of some processes: tables, its own dated findings."""
        weights = self.before()[:, :, :3].sum(axis=(0, 2, 3, 5))
        years = np.array([self.of_process(p) for p in self.processes])
        years = years * self.priors()
        years = years / years.sum(axis=1, keepdims=True)
        years = years * self.made(named)
        dress = self.whole("dress")
        free = np.full(SPAN, (self.pi * dress).sum())
        return self.whole("image") * sum(
            (weights[:, copied] @ years) * worn for copied, worn in enumerate((dress, free))
        )

    def package_line(self, disturbed: float) -> np.ndarray:
        """The year by the package alone."""
        total = np.zeros(SPAN)
        for share, rho in zip((1 - disturbed, disturbed), self.weights.exchange, strict=True):
            one = self.pi.copy()
            for values in self.lines("package").values():
                one = one * ((1 - rho) * values + rho * (self.pi * values).sum())
            total = total + share * one
        return total

    def housing_line(self) -> np.ndarray:
        """The housing's year by the housing alone."""
        weights = self.before()[:, :, :2].sum(axis=(1, 2, 3, 4, 5))
        years = np.array([line(h.years, self.piece.region, self.weights) for h in self.housings])
        years = years / (years * self.pi).sum(axis=1, keepdims=True)
        total = weights @ years * self.pi
        for part, values in self.lines("housing").items():
            rate = {"pad": self.weights.pad, "clasp": self.weights.clasp}.get(part, 0.0)
            total = total * ((1 - rate) * values + rate * (self.pi * values).sum())
        return total

    def before(self) -> np.ndarray:
        """Priors and tables over [m, p, h, u, copy, altered]."""
        disturbed, copy, altered = (self.states(axis)[1] for axis in ("package", "copy", "altered"))
        found = np.einsum(
            "m,p,mph,u,c,a->mphuca", self.m, self.p, self.rates(), disturbed, copy, altered
        )
        for check, finding, r in self.found:
            if self.axes(check):
                found = found * self.table_of(check, finding, r)
        return found

    def chance_of(
        self, gone: Mapping[str, int], package: tuple[str, ...], loose: list[str]
    ) -> np.ndarray:
        """P(these parts are exchanges, the others not) for u = 0 and 1."""
        chance = np.ones(2)
        for part in package:
            rho = np.array(self.weights.exchange)
            chance = chance * (rho if gone[part] else 1 - rho)
        for part in loose:
            rate = self.weights.pad if part == "pad" else self.weights.clasp
            chance = chance * (rate if gone[part] else 1 - rate)
        return chance

    def year_sums(self, picture: np.ndarray, case: np.ndarray, constant: float) -> np.ndarray:
        """[m, p, h, y] summed over the year of the housing, for one set of exchanges."""
        lag, window = self.kernels()
        mean = (self.pi * case).sum(axis=1)
        kappa = self.weights.kappa
        found = np.zeros((len(self.m), len(self.p), 5, SPAN))
        flat = mean[:, None, None] * picture[None, :, :]
        found[:, :, 0] = (case @ lag.T)[:, None, :] * picture[None, :, :]
        found[:, :, 1] = (
            kappa * (case @ window.T)[:, None, :] * picture[None, :, :] + (1 - kappa) * flat
        )
        found[:, :, 2] = flat
        found[:, :, 3:, 0] = (constant * mean)[:, None, None]
        return found

    def summed(
        self,
        before: np.ndarray,
        sums: np.ndarray,
        parted: Mapping[str, np.ndarray],
        loose: list[str],
    ) -> Enumerated:
        flat = before.sum(axis=5)
        table = before * sums.sum(axis=-1)[..., None]
        period = (flat[..., None] * sums)[:, :, :3]
        exchanged = {}
        for part, values in parted.items():
            weighed = flat[..., None] * values
            if part in loose:
                exchanged[part] = weighed.sum() / table.sum()
            else:
                exchanged[part] = weighed[:, :, :3].sum() / period.sum()
        apart = period.sum(axis=(0, 2, 3, 4)) / period.sum()
        return Enumerated(table / table.sum(), table.sum(), apart.sum(axis=0), apart, exchanged)


def span(values: np.ndarray, level: float = 0.8) -> tuple[int, int, int]:
    """First, last and median year of the central part, as scipy's discrete distribution has it."""
    known = stats.rv_discrete(values=(YEAR.astype(int), values / values.sum()))
    tail = (1 - level) / 2
    low, middle, high = (int(known.ppf(q)) for q in (tail, 0.5, 1 - tail))
    return low, high, middle


def enumerate_joint(piece: Piece, knowledge: Knowledge) -> Enumerated:
    """The joint table of a piece, gone through cell by cell."""
    return Enumeration(piece, knowledge).run()
