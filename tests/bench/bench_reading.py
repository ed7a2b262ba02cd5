"""Benchmark of the reading: calibration on its own model, and speed beside an earlier commit.

    python tests/bench/bench_reading.py [--pieces 100000] [--seed N] [--shared .5] [--only NAME ...]

NAME is calibration, jitter, shared or speed. Calibration draws pieces and answers from the shipped
knowledge's own model (fixed seeds; half of them modern and weighted back) and reads them: in every
tenth of the scale that holds 200 draws or more, what was said must happen as often as said, within
.03. The weights make few draws of many: a thousand draws of a tenth where modern and period pieces
meet weigh as 190 alike (Kish's effective sample size, 1 / SUM w^2), and it is those that are
counted and printed. Some sixty tenths are looked at, of which chance alone takes three beyond two
standard errors; so a tenth misses the bar where it is further away than .03 and than three; both
are printed. `jitter` and `shared` are the same with a fifth of the pieces, in worlds that the model
does not know: where the log-odds of every table are moved by a normal of .5, and where such a part
of the signs of one part, or of a piece, are odd together or ordinary together. Their figures are
told, with how many tenths are further away than .06, and held to no bar: README.md says what they
come to. The exit status is 1 when a bar is missed.
"""

import argparse
import sys
import time
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field, replace
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests" / "bench")]

from bench_reading_pieces import REGIONS, World, by_part, by_piece, jittered  # noqa: E402
from bench_reading_speed import check_speed  # noqa: E402

from appraise.knowledge import load  # noqa: E402
from appraise.knowledge.records import BELONGING, FIRST_YEAR, Knowledge  # noqa: E402
from appraise.reading.evidence import gather  # noqa: E402
from appraise.reading.factors import factors_of  # noqa: E402
from appraise.reading.frame import frame_for  # noqa: E402
from appraise.reading.joint import PERIOD, Joint, solve  # noqa: E402
from appraise.reading.reading import Reading, margins, read  # noqa: E402
from appraise.reading.spans import span_of  # noqa: E402
from appraise.reading.views import Views  # noqa: E402
from appraise.records.piece import Piece  # noqa: E402
from appraise.verdict.warnings import piece_warnings  # noqa: E402

SEED = 20240601
FEWEST = 200  # draws in a tenth that counts, as many as its weights are worth
CHUNK = 1000  # pieces drawn from one seed
WARNED = 10  # of so many pieces one is read with its warnings and its span of years
BAR, OTHER_BAR, STRONG_BAR = 0.03, 0.06, 0.02  # of the model's own world, of others
SURE = 3.0  # standard errors beyond which a gap is no chance
JITTER, SHARED = 0.5, 0.5
FAMILIES = ("daguerreotype", "ambrotype", "tintype")
NAMES = ("together", "married", "modern", "opened", *FAMILIES, "altered")


@dataclass
class Told:
    """What was said of pieces and whether it was so.

    Attributes:
        said, so: By piece, in the order of `NAMES`.
        weights: By piece.
        held: Of some pieces whether the span of years held, and the weight.
        sure: Of modern pieces with a decisive sign in hand, whether warned, and the weight.
        period: Of pieces of their period, whether strongly warned of modern work, and the weight.
    """

    said: list[list[float]] = field(default_factory=list)
    so: list[list[bool]] = field(default_factory=list)
    weights: list[float] = field(default_factory=list)
    held: list[tuple[bool, float]] = field(default_factory=list)
    sure: list[tuple[bool, float]] = field(default_factory=list)
    period: list[tuple[bool, float]] = field(default_factory=list)

    def add(self, other: "Told") -> None:
        """Put those of another after these."""
        for name in ("said", "so", "weights", "held", "sure", "period"):
            getattr(self, name).extend(getattr(other, name))


@dataclass(frozen=True)
class Setting:
    """In what way the pieces' world is another than the model's: jitter of tables, signs shared."""

    name: str
    jitter: float = 0.0
    shared: float = 0.0
    by_piece: bool = False
    seed: int = SEED

    def world(self, knowledge: Knowledge, number: int) -> World:
        """The pieces' world."""
        cause = by_piece if self.by_piece else by_part
        if self.jitter:
            rng = np.random.default_rng([self.seed, number, 1])
            knowledge = jittered(knowledge, self.jitter, rng)
        return World(knowledge, self.shared, cause)


EXACT = Setting("as the model has it")
JITTERED = Setting("log-odds of every table moved by a normal of .5", jitter=JITTER)


def sharing(part: float) -> tuple[Setting, Setting]:
    """Worlds in which so many of the signs of a part, or of a piece, are odd together."""
    return (
        Setting(f"{part:g} of the signs of a part odd together", shared=part),
        Setting(f"{part:g} of the signs of a piece odd together", shared=part, by_piece=True),
    )


def told_by(joint: Joint) -> list[float]:
    """What a table says, in the order of `NAMES`."""
    states, sums = joint.states, margins(joint)
    families = [sums.families[family] for family in FAMILIES]
    return [states[0], states[1], states[2:].sum(), sums.disturbed, *families, joint.altered]


def solved(piece: Piece, knowledge: Knowledge) -> Joint:
    """The joint table of a piece without measures or writing, and nothing more of its reading."""
    frame = frame_for(piece, knowledge)
    factors = factors_of(gather(piece, knowledge), frame, knowledge)
    return solve(frame, factors, piece.channel, piece.subject)


def decisive(reading: Reading, knowledge: Knowledge) -> bool:
    """Whether a decisive sign of modern work was seen in hand, of what lies there at all."""
    for one in (finding.finding for finding in reading.evidence):
        check = knowledge.checks[one.check]
        if check.decisive and one.known == "in-hand" and (table := check.table("belonging")):
            place = check.index(one.answer)
            modern = max(table.rows[state][place] for state in BELONGING[2:])
            if modern >= knowledge.weights.strong_ratio * table.rows["together"][place]:
                return True
    return False


def drawn(number: int, setting: Setting, knowledge: Knowledge) -> Told:
    """What was said of some pieces, and whether it was so."""
    rng = np.random.default_rng([setting.seed, number])
    world, told = setting.world(knowledge, number), Told()
    counts = rng.multinomial(CHUNK, list(REGIONS.values()))
    for region, count in zip(REGIONS, counts, strict=True):
        found = world.draw(region, int(count), rng)
        states, years = found.truths.states, found.truths.years["image"]
        families = None
        for n, piece in enumerate(found.pieces(region, world.knowledge)):
            joint = solved(piece, knowledge)
            families = families or [one.family for one in joint.frame.processes]
            h, weight = int(states["belonging"][n]), float(found.weights[n])
            family = families[states["process"][n]]
            told.said.append(told_by(joint))
            told.so.append([h == 0, h == 1, h > 1, states["package"][n] == 1,
                            *(family == one for one in FAMILIES),
                            states["altered"][n] == 1])  # fmt: skip
            told.weights.append(weight)
            if n % WARNED == 0:
                _warn(piece, knowledge, h, FIRST_YEAR + int(years[n]), weight, told)
    return told


def _warn(piece: Piece, knowledge: Knowledge, h: int, year: int, weight: float, told: Told) -> None:
    """Note whether a piece was warned of, and whether its span of years held."""
    reading = read(piece, knowledge)
    if h < PERIOD:
        span = span_of(Views(reading.joint, reading.factors).by_year.sum(axis=0))
        told.held.append((span.first <= year <= span.last, weight))
    found = piece_warnings(reading, knowledge)
    modern = [one for one in found if one.id == "reproduction"]
    if h < 2:
        told.period.append((any(one.strong for one in modern), weight))
    elif decisive(reading, knowledge):
        told.sure.append((bool(modern), weight))


_KNOWN: list[Knowledge] = []  # the knowledge of a process of its own


def _start() -> None:
    _KNOWN.append(load())


def _drawn_here(job: tuple[int, Setting]) -> Told:
    return drawn(*job, _KNOWN[0])


def check_calibration(pieces: int, setting: Setting, workers: int) -> bool:
    """Print the reliability of every read-out; True where the bars hold."""
    start, told = time.perf_counter(), Told()
    jobs = [(number, setting) for number in range(-(-pieces // CHUNK))]
    with ProcessPoolExecutor(workers, initializer=_start) as pool:
        for one in pool.map(_drawn_here, jobs):
            told.add(one)
    said, so = np.array(told.said), np.array(told.so, float)
    weights = np.array(told.weights)
    print(f"{len(said)} pieces, {setting.name}, {time.perf_counter() - start:.0f} s")
    bar = OTHER_BAR if setting.jitter or setting.shared else BAR
    missed = [reliability(name, said[:, n], so[:, n], weights, bar) for n, name in enumerate(NAMES)]
    shares = {name: share(getattr(told, name)) for name in ("held", "sure", "period")}
    print(f"  years: the central 80 % held {shares['held']:.3f} of {len(told.held)}")
    print(f"  modern with a decisive sign in hand, warned {shares['sure']:.3f} of {len(told.sure)}")
    print(f"  of its period, strongly warned as modern {shares['period']:.4f} of "
          f"{len(told.period)}")  # fmt: skip
    return not any(missed) and shares["held"] >= 0.78 and shares["period"] <= STRONG_BAR


def share(rows: list[tuple[bool, float]]) -> float:
    """The weighted share that was so."""
    found = np.array(rows, float)
    return float(found[:, 0] @ found[:, 1] / found[:, 1].sum()) if len(found) else float("nan")


def bins(
    said: np.ndarray, so: np.ndarray, weights: np.ndarray
) -> Iterator[tuple[int, int, float, float, float]]:
    """By tenth of the scale: place, draws of one weight, mean said, share so, standard error."""
    places = np.minimum(9, (said * 10).astype(int))
    for place in range(10):
        mine = places == place
        w = weights[mine] / max(1e-9, weights[mine].sum())
        if (worth := 1 / max(1e-9, float(w @ w))) >= FEWEST and mine.any():
            mean, real = float(w @ said[mine]), float(w @ so[mine])
            error = float(np.sqrt(w**2 @ (so[mine] - said[mine]) ** 2))
            yield place, int(worth), mean, real, error


def reliability(
    name: str, said: np.ndarray, so: np.ndarray, weights: np.ndarray, bar: float
) -> int:
    """Print the reliability of one read-out; how many of its tenths miss the bar."""
    gaps, line = [], []
    for place, count, mean, real, error in bins(said, so, weights):
        gaps.append((abs(real - mean), abs(real - mean) / max(1e-9, error)))
        line.append(f"{place}:{100 * real:.1f}/{100 * mean:.1f}({count})")
    brier = float(weights @ (said - so) ** 2 / weights.sum())
    gap, errors = max(gaps)
    missed = sum(one > bar and away > SURE for one, away in gaps)
    worst = f"worst {gap:.3f} ({errors:.1f} s.e.), {missed} beyond {bar}"
    print(f"  {name:14} {worst}  Brier {brier:.4f}  {' '.join(line)}")
    return missed


def main() -> int:
    """Run what was asked for."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--pieces", type=int, default=100_000)
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--seed", type=int, default=SEED)
    parser.add_argument("--shared", type=float, default=SHARED, help="part of the signs, 0 to 1")
    names = ["calibration", "jitter", "shared", "speed"]
    parser.add_argument("--only", nargs="*", default=names, choices=names)
    asked = parser.parse_args()
    good = True
    if "speed" in asked.only:
        good &= check_speed()
    if "calibration" in asked.only:
        good &= check_calibration(asked.pieces, replace(EXACT, seed=asked.seed), asked.workers)
    others = [JITTERED] * ("jitter" in asked.only) + [*sharing(asked.shared)] * (
        "shared" in asked.only
    )
    for setting in others:
        mine = replace(setting, seed=asked.seed)
        check_calibration(asked.pieces // 5, mine, asked.workers)
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main())
