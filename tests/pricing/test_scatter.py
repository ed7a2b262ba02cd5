import numpy as np
import pytest

from appraise.pricing.kernel import Points
from appraise.pricing.regression import fit
from appraise.pricing.scatter import learn_scatter


def uneven(n: int, seed: int = 3) -> tuple[np.ndarray, np.ndarray]:
    """An invented log whose prices scatter four times as much on the right as on the left."""
    rng = np.random.default_rng(seed)
    x = rng.uniform(-2.0, 2.0, (n, 1))
    return x, np.where(x[:, 0] > 0.0, 0.4, 0.1) * rng.standard_normal(n)


def test_an_even_scatter_has_no_factor() -> None:
    rng = np.random.default_rng(1)
    points = Points(rng.standard_normal((120, 2)), None, 2)
    scatter, factors = learn_scatter(points, rng.standard_normal(120))
    assert scatter is None
    assert factors == pytest.approx(1.0)


def test_an_uneven_one_is_found() -> None:
    x, residuals = uneven(200)
    scatter, factors = learn_scatter(Points(x, None, 1), residuals)
    assert scatter is not None
    left, right = scatter.at(Points(np.array([[-1.5], [1.5]]), None, 1))
    assert right / left > 2.5
    assert np.all(factors > 0.0)


def test_each_factor_is_found_without_its_own_entry() -> None:
    x, residuals = uneven(60)
    changed = residuals.copy()
    changed[7] *= 0.5
    points = Points(x, None, 1)
    one, other = learn_scatter(points, residuals), learn_scatter(points, changed)
    assert one[0] is not None
    assert other[0] is not None
    assert one[1][7] * one[0].sizes.mean() == pytest.approx(
        other[1][7] * other[0].sizes.mean(), rel=0.02
    )


def test_intervals_hold_in_the_quiet_and_in_the_wild_half() -> None:
    x, y = uneven(1400, seed=8)
    low, _, high = fit(x[:400], 4.0 + y[:400]).predict(x[400:])
    inside = (low <= 4.0 + y[400:]) & (4.0 + y[400:] <= high)
    for half in (x[400:, 0] > 0.3, x[400:, 0] < -0.3):
        assert inside[half].mean() == pytest.approx(0.8, abs=0.07)


def test_residuals_of_nothing_have_no_scatter() -> None:
    points = Points(np.zeros((25, 1)), None, 1)
    scatter, factors = learn_scatter(points, np.zeros(25))
    assert scatter is None
    assert factors == pytest.approx(1.0)
