"""What follows in closed form from a fitted log, against fitting it anew without each entry."""

import math

import numpy as np
import pytest
from scipy import stats

from appraise.pricing.kernel import Fade, Kernel, Points
from appraise.pricing.model import MOST, Model
from appraise.pricing.posterior import NoisePrior, condition
from appraise.pricing.regression import fit
from appraise.pricing.robust import noise_prior, weigh
from appraise.pricing.scatter import Scatter, learn_scatter
from appraise.pricing.search import Grid
from appraise.pricing.spread import FEW, Spread

RNG = np.random.default_rng(3)
KERNEL = Kernel(0.5, 1.0, 2.0, 0.0, 100.0, Fade.SOFT)
PRIOR = NoisePrior(1.0, 0.02)
X = RNG.standard_normal((9, 2))
Z = X[:, 0] + 0.3 * RNG.standard_normal(9)
NOISE = 1.0 / RNG.uniform(0.05, 1.25, 9)


def test_the_prediction_is_the_ratio_of_two_densities() -> None:
    """p(new | log) = p(new, log) / p(log), each a multivariate Student-t (SciPy), about 5."""
    told = condition(KERNEL, Points(X[:-1], None, 2), Z[:-1], NOISE[:-1], PRIOR, 5.0)
    mean, doubt = told.mean_and_doubt(Points(X[-1:], None, 2))
    scale = math.sqrt(told.noise * (float(doubt[0]) + NOISE[-1]))
    found = stats.t.logpdf(Z[-1] + 5.0, told.freedom, loc=mean[0], scale=scale)
    assert found == pytest.approx(density(9) - density(8))
    assert told.mean(Points(X[-1:], None, 2)) == pytest.approx(mean)


def density(count: int) -> float:
    x = X[:count]
    gaps = ((x[:, None] - x[None]) ** 2).sum(axis=2) / 2
    total = 100.0 + 0.25 * x @ x.T + 1.0 / (1.0 + gaps / 8.0) + np.diag(NOISE[:count])
    return float(stats.multivariate_t(np.zeros(count), 0.02 * total, df=2.0).logpdf(Z[:count]))


@pytest.fixture(scope="module")
def model() -> Model:
    x = RNG.standard_normal((24, 2))
    return fit(x, 4.0 + x[:, 0] + 0.2 * RNG.standard_normal(24))


def without(model: Model, place: int) -> tuple[float, float]:
    """Log price less what the others say of it, and that over its deviation."""
    rest = np.delete(np.arange(24), place)
    told = condition(
        model.posterior.kernel,
        Points(model.x[rest], None, model.scale.varying),
        model.centred[rest],
        1.0 / model.weights[rest],
        noise_prior(model.centred),
    )
    mean, doubt = told.mean_and_doubt(Points(model.x[place : place + 1], None, 2))
    gap = float(model.centred[place] - mean[0])
    return gap, gap / math.sqrt(model.posterior.noise * (float(doubt[0]) + 1.0))


def test_each_entry_left_out_in_turn(model: Model) -> None:
    """The weights and the noise are those of the whole log."""
    found = [without(model, place) for place in range(24)]
    assert model.left_out == pytest.approx([gap for gap, _ in found])
    ranked = np.array([residual for _, residual in found])
    scatter, factors = learn_scatter(model.posterior.points, ranked)
    assert (scatter is None) == (model.scatter is None)
    assert model.spread.ranked == pytest.approx(np.sort(ranked / factors))
    assert model.spread.freedom == pytest.approx(2.0 + 24)


def test_the_weights_settle_on_the_residuals_that_they_leave(model: Model) -> None:
    """A last round moves none by much, and the error is the weighted deviation."""
    residuals = model.posterior.alpha / model.weights
    assert model.sampled.error == pytest.approx(
        math.sqrt(sum(w * r * r for w, r in zip(model.weights, residuals, strict=True)) / 24)
    )
    assert weigh(residuals, model.sampled.error) == pytest.approx(model.weights, abs=0.06)


def test_a_scatter_is_the_kernel_weighted_mean_of_sizes() -> None:
    """Nadaraya and Watson, 1964, with so many entries of the mean of all; by single sums."""
    x, sizes = RNG.standard_normal((7, 2)), RNG.uniform(0.2, 2.0, 7)
    scatter = Scatter(Points(x, None, 2), sizes, 0.4, 3.0)
    at = RNG.standard_normal((3, 2))
    middle = sum(sizes) / 7
    for subject, told in zip(at, scatter.at(Points(at, None, 2)), strict=True):
        near = [math.exp(-(sum((subject - row) ** 2) / 2) / (2 * 0.4**2)) for row in x]
        total = sum(w * s for w, s in zip(near, sizes, strict=True)) + 3.0 * middle
        assert told == pytest.approx(total / (sum(near) + 3.0) / middle)


def test_a_local_scatter_must_beat_an_even_one_by_a_unit_of_log_likelihood() -> None:
    """Each size is exponential about what the others say (SciPy); the likeliest figures win."""
    x = np.linspace(-2.0, 2.0, 40)[:, None]
    residuals = np.where(x[:, 0] > 0, 2.0, 0.3) * (-1.0) ** np.arange(40)
    chosen, factors = learn_scatter(Points(x, None, 1), residuals)
    sizes = np.minimum(np.abs(residuals), np.quantile(np.abs(residuals), 0.98))
    others = [(sizes.sum() - size) / 39 for size in sizes]

    def expected(reach: float, stiffness: float) -> np.ndarray:
        out = []
        for i in range(40):
            near = np.exp(-((x[:, 0] - x[i, 0]) ** 2) / (2 * reach**2))
            near[i] = 0.0
            out.append((near @ sizes + stiffness * others[i]) / (near.sum() + stiffness))
        return np.array(out)

    def score(means: object) -> float:
        return float(stats.expon(scale=means).logpdf(sizes).sum())

    tried = {
        (reach, stiffness): score(expected(reach, stiffness))
        for reach in (0.25, 0.35, 0.5)
        for stiffness in (2.0, 5.0, 15.0)
    }
    best = max(tried, key=lambda one: tried[one])
    assert tried[best] > score(others) + 1.0
    assert chosen is not None
    assert (chosen.reach, chosen.stiffness) == best
    assert factors == pytest.approx(expected(*best) / sizes.mean())


def test_quantiles_by_rank_written_out() -> None:
    """30 residuals: the q-quantile half a rank beyond q times 31, on either side of the middle."""
    values = np.sort(RNG.standard_normal(30))
    spread = Spread.of(RNG.permutation(values), 32.0)
    for q in (0.6, 0.75, 0.9, 0.95):
        for side, ranked in ((q, values), (1.0 - q, -values[::-1])):
            rank = q * 31 + 0.5
            low = int(rank)
            low, high = min(low, 30), min(low + 1, 30)
            wanted = ranked[low - 1] + (rank - int(rank)) * (ranked[high - 1] - ranked[low - 1])
            assert spread.quantile(side) == pytest.approx(wanted if side == q else -wanted)
            assert spread.probability_below(spread.quantile(side)) == pytest.approx(side)
    beyond = values[-1] * stats.t.ppf(0.99, 32.0) / stats.t.ppf(30 / 31, 32.0)
    assert spread.quantile(0.99) == pytest.approx(beyond)
    assert spread.probability_below(beyond) == pytest.approx(0.99)
    assert FEW == 20


def test_one_entry_has_the_spread_of_the_model_itself() -> None:
    spread = Spread.of(np.array([0.7]), 3.0)
    for q in (0.1, 0.4, 0.8, 0.99):
        assert spread.quantile(q) == pytest.approx(stats.t.ppf(q, 3.0))
        assert spread.probability_below(spread.quantile(q)) == pytest.approx(q)


def long_log() -> tuple[np.ndarray, np.ndarray]:
    x = RNG.standard_normal((MOST + 60, 2))
    return x, 4.0 + x[:, 0] + 0.2 * RNG.standard_normal(MOST + 60)


def test_the_sample_of_a_long_log_is_that_of_the_lowest_lots() -> None:
    """The first sixty rows have the highest lots; the curve is that of the others alone."""
    x, y = long_log()
    lots = [9_999 - row if row < 60 else row for row in range(MOST + 60)]
    long = fit(x, y, lots=lots, grid=Grid((0.5,), (1.0,), (2.0,), fade=(Fade.SOFT,)))
    assert [*long.sampled.rows] == list(range(60, MOST + 60))
    at = long.subjects(x[:5])
    told = long.posterior.mean(at)
    assert long.left_out[:5] == pytest.approx(y[:5] - told)
    assert long.weights[:5] == pytest.approx(weigh(y[:5] - told, long.sampled.error))
    chosen = long.near(long.subjects(x[:1])).points.x
    gaps = np.sort(((long.x - long.x[0]) ** 2).sum(axis=1))
    assert ((chosen - long.x[0]) ** 2).sum(axis=1).max() == pytest.approx(gaps[MOST - 1])
    nearest = np.sort(np.argsort(((long.x - long.x[0]) ** 2).sum(axis=1), kind="stable")[:MOST])
    curve = condition(
        long.posterior.kernel,
        Points(long.x[nearest], None, long.scale.varying),
        long.centred[nearest],
        1.0 / long.weights[nearest],
        noise_prior(long.centred[nearest]),
        long.posterior.middle,
    )
    here = long.subjects(x[:1])
    assert curve.noise == pytest.approx(long.near(here).noise)
    for told, wanted in zip(
        long.near(here).mean_and_doubt(here), curve.mean_and_doubt(here), strict=True
    ):
        assert told == pytest.approx(wanted)
    low, median, high = long.predict(x[:2])
    for row in range(2):
        point = long.at(x[row])
        assert (low[row], median[row], high[row]) == pytest.approx(
            (point.quantile(0.1), point.median, point.quantile(0.9))
        )
