import math

import numpy as np
import pytest
from scipy import stats

from appraise.base.errors import InputError
from appraise.pricing.student import NORMAL
from appraise.pricing.track import (
    Bin,
    PastEstimate,
    brier,
    crps,
    pinball,
    pit,
    record,
    reliability,
    wilson,
)

Z = NORMAL.inv_cdf(0.9)


def forecast(price: float, scale: float = 0.3) -> PastEstimate:
    return PastEstimate(40 * math.exp(-Z * scale), 40.0, 40 * math.exp(Z * scale), 0.8, price)


def test_true_forecasts_score_as_true() -> None:
    rng = np.random.default_rng(7)
    draws = rng.standard_normal(1000)
    told = record([forecast(40 * math.exp(0.3 * z)) for z in draws])
    assert told is not None
    assert told.coverage_low < 0.8 < told.coverage_high
    assert told.pit == pytest.approx(stats.norm.cdf(draws))
    assert told.median_error == pytest.approx(math.expm1(0.3 * 0.6745), abs=0.02)
    assert told.count == 1000
    assert told.level == pytest.approx(0.8)


def test_narrow_forecasts_are_found_out() -> None:
    rng = np.random.default_rng(7)
    told = record([forecast(40 * math.exp(0.3 * z), 0.1) for z in rng.standard_normal(200)])
    honest = record([forecast(40 * math.exp(0.3 * z)) for z in rng.standard_normal(200)])
    assert told is not None
    assert honest is not None
    assert told.coverage_high < 0.8
    assert told.pinball > honest.pinball
    assert told.crps > honest.crps


def test_nothing_scored() -> None:
    assert record([]) is None


def test_one_forecast_by_hand() -> None:
    told = record([PastEstimate(20.0, 40.0, 80.0, 0.8, 60.0)])
    assert told is not None
    assert (told.count, told.inside, told.coverage) == (1, 1, 1.0)
    assert told.median_error == pytest.approx(0.5)
    losses = 0.1 * math.log(3) + 0.5 * math.log(1.5) + 0.1 * math.log(80 / 60)
    assert told.pinball == pytest.approx(losses / 3)
    assert told.pit[0] == pytest.approx(NORMAL.cdf(math.log(1.5) / (math.log(2) / Z)))


def test_crps_of_an_even_forecast_is_the_normal_one() -> None:
    # Gneiting and Raftery 2007, Journal of the American Statistical Association 102, 359-378.
    z = math.log(55 / 40) / 0.3
    normal = z * (2.0 * NORMAL.cdf(z) - 1.0) + 2.0 * NORMAL.pdf(z) - 1.0 / math.sqrt(math.pi)
    assert crps(forecast(55.0), 20000) == pytest.approx(0.3 * normal, rel=1e-3)


@pytest.mark.parametrize("price", [15.0, 39.0, 40.0, 41.0, 130.0])
def test_crps_of_an_uneven_forecast_is_the_area_between_the_curves(price: float) -> None:
    """The integral of (F(x) - [x >= y])^2 over log prices x, F normal on either side (SciPy)."""
    uneven = PastEstimate(30.0, 40.0, 90.0, 0.8, price)
    x = np.linspace(math.log(40.0) - 6.0, math.log(40.0) + 9.0, 300_001)
    scale = np.where(x > math.log(40.0), math.log(90 / 40) / Z, math.log(40 / 30) / Z)
    below = stats.norm.cdf((x - math.log(40.0)) / scale)
    area = float(((below - (x >= math.log(price))) ** 2).sum() * (x[1] - x[0]))
    assert crps(uneven) == pytest.approx(area, rel=3e-3)


def test_pit_reads_each_side_by_its_own_scale() -> None:
    uneven = PastEstimate(30.0, 40.0, 80.0, 0.8, 30.0)
    assert pit(uneven) == pytest.approx(0.1)
    assert pit(PastEstimate(30.0, 40.0, 80.0, 0.8, 80.0)) == pytest.approx(0.9)


def test_wilson_by_reference_library() -> None:
    """SciPy's binomial test gives the same interval (scipy.stats, PyPI)."""
    for hits, count in ((0, 5), (16, 20), (20, 20), (41, 60)):
        told = stats.binomtest(hits, count).proportion_ci(0.95, method="wilson")
        assert wilson(hits, count) == pytest.approx((told.low, told.high))


@pytest.mark.parametrize(("hits", "count"), [(0, 0), (3, 2), (-1, 4)])
def test_wilson_refuses_what_is_no_share(hits: int, count: int) -> None:
    with pytest.raises(InputError, match="not a share"):
        wilson(hits, count)


@pytest.mark.parametrize(
    "figures",
    [(0.0, 1, 2, 0.8, 1), (1, 2, 3, 1.0, 2), (1, 4, 3, 0.8, 2), (1, 2, 3, 0.8, float("inf"))],
)
def test_a_forecast_of_nonsense_is_refused(figures: tuple[float, ...]) -> None:
    with pytest.raises(InputError, match="forecast"):
        PastEstimate(*figures)


def test_pinball_is_smallest_at_the_quantile() -> None:
    draws = np.random.default_rng(0).standard_normal(4000)
    losses = {
        x: float(np.mean([pinball(y, x, 0.9) for y in draws]))
        for x in (0.8, NORMAL.inv_cdf(0.9), 1.8)
    }
    assert min(losses, key=lambda x: losses[x]) == NORMAL.inv_cdf(0.9)


def test_brier() -> None:
    assert brier([0.9, 0.2], [True, False]) == pytest.approx((0.01 + 0.04) / 2)
    assert brier([0.5] * 4, [True, False, True, True]) == pytest.approx(0.25)
    with pytest.raises(InputError, match="cannot be scored"):
        brier([], [])
    with pytest.raises(InputError, match="cannot be scored"):
        brier([0.5], [])


def test_reliability_groups_what_was_said() -> None:
    told = reliability([0.05, 0.15, 0.95, 1.0], [False, True, True, True], bins=5)
    assert told == (Bin(pytest.approx(0.1), 0.5, 2), Bin(pytest.approx(0.975), 1.0, 2))
