"""Weights of odd prices: Student-t errors by reweighting (Lange, Little and Taylor 1989)."""

import numpy as np
import pytest

from appraise.pricing.robust import CLOSEST, SHARE_OF_VARIANCE, noise_prior, weigh


@pytest.mark.parametrize(
    ("residual", "error", "weight"),
    [
        (0.0, 1.0, 5 / 4),  # (nu + 1) / nu
        (1.0, 1.0, 5 / 5),
        (2.0, 1.0, 5 / 8),
        (-2.0, 1.0, 5 / 8),
        (1.0, 0.5, 5 / 8),
        (4.0, 1.0, 5 / 20),
        (100.0, 1.0, 0.05),  # the lightest
    ],
)
def test_the_weight_is_nu_plus_one_over_nu_plus_the_squared_share(residual, error, weight):
    """Four degrees of freedom, by hand from (nu + 1) / (nu + r^2 / s^2)."""
    assert weigh(np.array([residual]), error) == pytest.approx(weight)


def test_the_noise_is_a_share_of_the_variance():
    logs = np.log([40.0, 60.0, 90.0, 20.0])
    prior = noise_prior(logs - np.median(logs))
    assert prior.scale == pytest.approx(SHARE_OF_VARIANCE * np.var(logs))


def test_where_all_prices_agree_the_noise_is_that_of_identical_lots():
    """The spread of 920, 800 and 700, fetched by identical lots (Ashenfelter 1989)."""
    spread = float(np.std(np.log([920.0, 800.0, 700.0]), ddof=1))
    assert pytest.approx(spread, abs=1e-3) == CLOSEST
    assert noise_prior(np.zeros(5)).scale == pytest.approx(0.02 * spread**2, rel=1e-2)
