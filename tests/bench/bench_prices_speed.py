"""Speed of the price model against bare factorisations, and positive covariances."""

import time
from collections.abc import Callable

import numpy as np
from pricing.random_logs import positive_definite

from appraise.pricing.regression import fit

WORDS = ("girl", "boy", "basket", "hoop", "dog", "soldier", "sword", "vine", "fruit", "stag")


def invented(
    rows: int, features: int = 12, seed: int = 1
) -> tuple[np.ndarray, np.ndarray, list[str]]:
    """An invented log with texts."""
    rng = np.random.default_rng(seed)
    x = rng.standard_normal((rows, features))
    y = 4.0 + 0.4 * x[:, 0] + 0.3 * np.sin(2.0 * x[:, 1]) + 0.3 * rng.standard_normal(rows)
    return x, y, [" ".join(rng.choice(WORDS, 3)) for _ in range(rows)]


def fastest(run: Callable[[], object], times: int) -> float:
    """The shortest of several runs in seconds."""
    out = []
    for _ in range(times):
        start = time.perf_counter()
        run()
        out.append(time.perf_counter() - start)
    return min(out)


def factorised(run: Callable[[], object], least: int) -> list[np.ndarray]:
    """The matrices of `least` rows or more that numpy factorises during a run."""
    seen: list[np.ndarray] = []
    plain = np.linalg.cholesky

    def recording(matrix: np.ndarray) -> np.ndarray:
        if len(matrix) >= least:
            seen.append(matrix.copy())
        return plain(matrix)

    np.linalg.cholesky = recording
    try:
        run()
    finally:
        np.linalg.cholesky = plain
    return seen


def _ratio_of_fit(texts: bool) -> float:
    """Time of a fit on 700 rows over that of the bare factorisations of its matrices."""
    x, y, words = invented(700)
    told = words if texts else None
    matrices = factorised(lambda: fit(x, y, told), 700)
    jobs = (lambda: fit(x, y, told), lambda: [np.linalg.cholesky(m) for m in matrices])
    turns = [[fastest(job, 1) for job in jobs] for _ in range(5)]  # turn about: one load for both
    whole, bare = (min(times) for times in zip(*turns, strict=True))
    print(
        f"fit on 700 rows{', texts' if texts else '':8s} {whole:.2f} s, "
        f"{len(matrices)} factorisations {bare:.2f} s: {whole / bare:.2f} times"
    )
    return whole / bare


def check_speed() -> list[str]:
    """Print timings; the bars that were missed."""
    missed = [
        f"fit: {ratio:.2f} times the bare factorisations"
        for ratio in (_ratio_of_fit(False), _ratio_of_fit(True))
        if ratio > 6.0
    ]
    times = {}
    for rows in (1_000, 100_000):
        x, y, words = invented(rows)
        start = time.perf_counter()
        model = fit(x, y, words)
        fitted = time.perf_counter() - start
        times[rows] = fastest(lambda m=model, s=x[0]: m.at(s, "girl basket"), 20)
        print(f"log of {rows:7,d}: fit {fitted:.2f} s, one prediction {1000 * times[rows]:.1f} ms")
    ratio = times[100_000] / times[1_000]
    print(f"prediction from 100,000 over 1,000 rows: {ratio:.2f} times")
    return missed + ([f"prediction: {ratio:.2f} times"] if ratio > 1.5 else [])


def check_covariances(logs: int) -> list[str]:
    """Covariances of random logs of texts and missing values; those that are not positive."""
    bad = [seed for seed in range(logs) if not positive_definite(seed)]
    print(f"covariances of {logs} random logs: {logs - len(bad)} positive definite")
    return [f"covariance of random log {seed} is not positive definite" for seed in bad]
