"""The price model and its scores against published methods, worked through to many digits.

The formulas are those of the named sources; the digits were computed once by an independent
script (Python 3.11, numpy, scipy) and, where a reference library holds the same thing, are
checked against it here as well.
"""

import math

import numpy as np
import pytest
from pricing.clock_sales import clock_sales
from scipy import stats

from appraise.pricing.kernel import Kernel, Points
from appraise.pricing.posterior import NoisePrior, Posterior, condition
from appraise.pricing.regression import fit
from appraise.pricing.robust import weigh
from appraise.pricing.search import Grid, evidences
from appraise.pricing.student import t_cdf, t_quantile
from appraise.pricing.track import pinball
from appraise.pricing.weighted import effective_size, smooth_quantile

TIGHT = {"rel": 0.0, "abs": 1e-9}


class TestConjugateRegression:
    """Bishop, Pattern Recognition and Machine Learning, 2006, section 3.3; Murphy, Conjugate
    Bayesian analysis of the Gaussian distribution, 2007: six prices, prior mean (4, 0, 0), prior
    precision diag(1, 4, 4), noise variance InverseGamma(2, 0.2).

    The kernel 1 + x.x'/4 (level 1, linear part 0.5 over two features) is that prior.
    """

    X = np.array([[0, 0], [1, 0], [1, 1], [2, 0], [2, 1], [0, 1]], dtype=float)
    PRICES = np.array([40.0, 65.0, 80.0, 110.0, 150.0, 52.0])
    KERNEL = Kernel(linear=0.5, smooth=0.0, level=1.0)

    def posterior(self, rows: slice = slice(None), noise: np.ndarray | None = None) -> Posterior:
        x = self.X[rows]
        return condition(
            self.KERNEL,
            Points(x, None, 2),
            np.log(self.PRICES[rows]) - 4.0,
            np.ones(len(x)) if noise is None else noise,
            NoisePrior(2.0, 0.2),
            4.0,
        )

    def test_coefficients(self) -> None:
        """Differences of the mean between corners are the regression's coefficients."""
        corners = Points(np.array([[0.0, 0.0], [1.0, 0.0], [0.0, 1.0]]), None, 2)
        at = self.posterior().mean(corners)
        assert at[0] == pytest.approx(4.017654576960, **TIGHT)
        assert at[1] - at[0] == pytest.approx(0.261080883019, **TIGHT)
        assert at[2] - at[0] == pytest.approx(0.072528466774, **TIGHT)

    def test_noise(self) -> None:
        told = self.posterior()
        assert told.freedom == 10.0
        assert told.noise == pytest.approx(0.508843226271 / 5.0, **TIGHT)

    def test_prediction(self) -> None:
        told = self.posterior()
        mean, doubt = told.mean_and_doubt(Points(np.array([[1.0, 1.0]]), None, 2))
        scale = math.sqrt(told.noise * (1.0 + float(doubt[0])))
        assert float(mean[0]) == pytest.approx(4.351263926752, **TIGHT)
        assert scale == pytest.approx(0.349625074735, **TIGHT)
        quantiles = [float(mean[0]) + scale * t_quantile(q, told.freedom) for q in (0.1, 0.5, 0.9)]
        assert quantiles == pytest.approx([3.871514118679, 4.351263926752, 4.831013734825], **TIGHT)
        assert [math.exp(x) for x in quantiles] == pytest.approx(
            [48.015031526156, 77.576451939712, 125.337955724889], abs=1e-8
        )
        chance = t_cdf((math.log(120.0) - float(mean[0])) / scale, told.freedom)
        assert chance == pytest.approx(0.879716720484, **TIGHT)

    def test_evidence(self) -> None:
        """Also the density of a multivariate Student-t, by SciPy."""
        grid = Grid(linear=(0.5,), smooth=(0.0,), level=1.0)
        ((told, kernel),) = evidences(
            Points(self.X, None, 2),
            np.log(self.PRICES) - 4.0,
            np.ones(6),
            NoisePrior(2.0, 0.2),
            grid,
        )
        assert kernel == self.KERNEL
        assert told == pytest.approx(-3.723316294740, **TIGHT)
        shape = 0.1 * (np.eye(6) + 1.0 + self.X @ self.X.T / 4.0)
        density = stats.multivariate_t(np.full(6, 4.0), shape, df=4.0)
        assert told == pytest.approx(float(density.logpdf(np.log(self.PRICES))), **TIGHT)

    def test_order_of_rows_does_not_matter(self) -> None:
        at = Points(np.array([[1.0, 1.0]]), None, 2)
        assert self.posterior(slice(None, None, -1)).mean(at) == pytest.approx(
            self.posterior().mean(at), **TIGHT
        )

    def test_row_noise_is_the_inverse_of_a_case_weight(self) -> None:
        weights = np.array([1.0, 0.5, 1.0, 0.25, 0.8, 0.6])
        corners = Points(np.array([[0.0, 0.0], [1.0, 0.0], [0.0, 1.0]]), None, 2)
        at = self.posterior(noise=1.0 / weights).mean(corners)
        assert at[0] == pytest.approx(4.023267012323, **TIGHT)
        assert at[1] - at[0] == pytest.approx(0.220232025267, **TIGHT)
        assert at[2] - at[0] == pytest.approx(0.083255782161, **TIGHT)


class TestWeightedQuantiles:
    """Kish's effective size; type 1: Hyndman and Fan 1996, The American Statistician 50,
    361-365; weighted type 7: Akinshin 2023, Weighted quantile estimators, arXiv:2304.07265.
    """

    X = (40.0, 52.0, 65.0, 80.0, 110.0, 150.0)
    W = (0.2, 1.0, 0.8, 1.0, 0.5, 0.1)

    def test_effective_size(self) -> None:
        assert effective_size(self.W) == pytest.approx(4.408163265306, **TIGHT)

    @pytest.mark.parametrize(
        ("q", "smooth", "even"),
        [
            (0.10, 52.0, 46.0),
            (0.25, 56.974489795918, 55.25),
            (0.50, 68.826530612245, 72.5),
            (0.75, 80.0, 102.5),
            (0.90, 91.816326530612, 130.0),
        ],
    )
    def test_quantiles(self, q: float, smooth: float, even: float) -> None:
        assert smooth_quantile(self.X, self.W, q) == pytest.approx(smooth, **TIGHT)
        assert smooth_quantile(self.X, (1.0,) * 6, q) == pytest.approx(even, **TIGHT)


class TestScores:
    """Gneiting and Raftery 2007, Journal of the American Statistical Association 102, 359-378,
    at the prediction above (Student-t, 10 degrees of freedom) and an outcome of 4.6.
    """

    LOCATION, SCALE, OUTCOME = 4.351263926752, 0.349625074735, 4.6

    def test_pit(self) -> None:
        z = (self.OUTCOME - self.LOCATION) / self.SCALE
        assert t_cdf(z, 10.0) == pytest.approx(0.753462426291, **TIGHT)

    def test_pinball(self) -> None:
        told = pinball(self.OUTCOME, 3.871514118679, 0.1)
        assert told == pytest.approx(0.072848588132, **TIGHT)


class TestOutliers:
    """Lange, Little and Taylor 1989, Journal of the American Statistical Association 84,
    881-896: weights of Student-t(4) errors; clock sales as in `clock_sales`.
    """

    def test_weights(self) -> None:
        told = weigh(np.array([0.0, 1.0, 2.0, 3.0, 5.0]), 1.0)
        assert told == pytest.approx([1.25, 1.0, 0.625, 0.3846, 0.1724], abs=5e-5)

    def test_clock_sales_are_those_that_were_published(self) -> None:
        """Least squares on the raw price: -1338.951 + 12.740574 age + 85.952984 bidders."""
        features, prices = clock_sales()
        design = np.column_stack([np.ones(32), features])
        told, rest, *_ = np.linalg.lstsq(design, prices, rcond=None)
        assert told == pytest.approx([-1338.951, 12.740574, 85.952984], abs=5e-4)
        assert 1.0 - float(rest[0]) / float(((prices - prices.mean()) ** 2).sum()) == pytest.approx(
            0.892344, abs=5e-7
        )

    def test_the_misprint_of_one_public_copy_is_flagged(self) -> None:
        """1131 for 2131 is the row of least weight, and below the bar."""
        features, prices = clock_sales()
        row = int(np.flatnonzero(prices == 2131.0)[0])
        assert row not in fit(np.log(features), np.log(prices)).doubtful
        prices[row] = 1131.0
        model = fit(np.log(features), np.log(prices))
        assert model.doubtful[0] == row
        assert model.weights.argmin() == row

    def test_identical_lots_minutes_apart(self) -> None:
        """920, 800 and 700 for identical lots: Ashenfelter 1989, J. Econ. Perspectives 3(3)."""
        from appraise.pricing.robust import CLOSEST

        assert float(np.std(np.log([920.0, 800.0, 700.0]), ddof=1)) == pytest.approx(
            CLOSEST, abs=5e-5
        )
