import numpy as np
import pytest
from scipy import stats

from appraise.pricing.kernel import Points, covariance
from appraise.pricing.posterior import NoisePrior
from appraise.pricing.search import Grid, best, evidences


def random_log(seed: int, texts: bool) -> tuple[Points, np.ndarray, np.ndarray]:
    rng = np.random.default_rng(seed)
    n, p = int(rng.integers(2, 30)), int(rng.integers(1, 6))
    x = rng.standard_normal((n, p))
    vectors = None
    if texts:
        vectors = np.abs(rng.standard_normal((n, 4)))
        vectors /= np.linalg.norm(vectors, axis=1)[:, None]
    z = x[:, 0] + np.sin(2 * x[:, -1]) + 0.3 * rng.standard_normal(n)
    return Points(x, vectors, p), z - np.median(z), 1.0 / rng.uniform(0.05, 1.25, n)


@pytest.mark.parametrize("texts", [False, True])
@pytest.mark.parametrize("seed", range(6))
def test_the_shared_factorisation_gives_the_density_of_every_kernel(seed: int, texts: bool) -> None:
    """Against the multivariate Student-t density of SciPy (PyPI), kernel by kernel."""
    points, z, noise = random_log(seed, texts)
    prior = NoisePrior(1.0, 0.02)
    found = evidences(points, z, noise, prior, Grid())
    assert len({kernel for _, kernel in found}) == len(found) == 3 + 3 * 18 * (3 if texts else 1)
    for told, kernel in found:
        shape = 0.02 * (covariance(kernel, points, points, same=True) + np.diag(noise))
        density = stats.multivariate_t(np.zeros(len(z)), shape, df=2.0)
        assert told == pytest.approx(float(density.logpdf(z)), abs=1e-6)
    assert best(points, z, noise, prior, Grid()) == max(found, key=lambda pair: pair[0])[1]


@pytest.mark.parametrize(("shape", "scale"), [(0.7, 0.5), (3.5, 0.02), (6.0, 2.0)])
def test_the_evidence_holds_for_every_prior_of_the_noise(shape: float, scale: float) -> None:
    """An inverse gamma of any shape: a Student-t of twice as many degrees of freedom (SciPy)."""
    points, z, noise = random_log(3, texts=False)
    prior, grid = NoisePrior(shape, scale), Grid(smooth=(0.0, 1.0))
    for told, kernel in evidences(points, z, noise, prior, grid):
        total = covariance(kernel, points, points, same=True) + np.diag(noise)
        density = stats.multivariate_t(np.zeros(len(z)), scale / shape * total, df=2.0 * shape)
        assert told == pytest.approx(float(density.logpdf(z)), abs=1e-6)


def test_a_wiggly_curve_needs_the_smooth_part_and_a_straight_one_does_not() -> None:
    x = np.linspace(-2.0, 2.0, 60)[:, None]
    straight, wiggly = 2.0 * x[:, 0], np.sin(4.0 * x[:, 0])
    noise = 0.05 * np.random.default_rng(1).standard_normal(60)
    prior = NoisePrior(1.0, 0.01)
    ones = np.ones(60)
    assert best(Points(x, None, 1), wiggly + noise, ones, prior, Grid()).smooth > 0.0
    assert best(Points(x, None, 1), straight + noise, ones, prior, Grid()).linear == 5.0


def test_texts_count_only_where_they_tell() -> None:
    rng = np.random.default_rng(3)
    group = rng.integers(0, 2, 80)
    vectors = np.eye(2)[group]
    x = rng.standard_normal((80, 2))
    z = 1.0 * (group - 0.5) + 0.1 * rng.standard_normal(80)
    told = best(Points(x, vectors, 2), z, np.ones(80), NoisePrior(1.0, 0.01), Grid())
    assert told.text > 0.0
