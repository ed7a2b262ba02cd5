"""Other ways to predict prices, for comparison: each takes a training set and new features.

All get features standardised on the training rows and give the quantiles .1, .5 and .9 of the
log price as an array (3, m). Reference libraries: statsmodels and scikit-learn (PyPI).
"""

import math

import numpy as np
import statsmodels.api as sm
from scipy import stats
from sklearn.ensemble import GradientBoostingRegressor
from sklearn.linear_model import BayesianRidge
from sklearn.neighbors import KNeighborsRegressor, NearestNeighbors

TAUS = (0.1, 0.5, 0.9)


def middle(x: np.ndarray, y: np.ndarray, new: np.ndarray) -> np.ndarray:
    """The training quantiles, whatever the features."""
    return np.repeat(np.quantile(y, TAUS)[:, None], len(new), axis=1)


def least_squares(x: np.ndarray, y: np.ndarray, new: np.ndarray) -> np.ndarray:
    """Ordinary least squares with its Student-t prediction interval."""
    told = sm.OLS(y, sm.add_constant(x, has_constant="add")).fit()
    frame = told.get_prediction(sm.add_constant(new, has_constant="add")).summary_frame(alpha=0.2)
    return frame[["obs_ci_lower", "mean", "obs_ci_upper"]].to_numpy().T


def bayesian_ridge(x: np.ndarray, y: np.ndarray, new: np.ndarray) -> np.ndarray:
    """Bayesian ridge regression with a normal interval."""
    mean, deviation = BayesianRidge().fit(x, y).predict(new, return_std=True)
    half = stats.norm.ppf(0.9) * deviation
    return np.array([mean - half, mean, mean + half])


def nearest(x: np.ndarray, y: np.ndarray, new: np.ndarray, k: int = 7) -> np.ndarray:
    """The mean of the nearest seven with the quantiles of leave-one-out residuals."""
    around = NearestNeighbors(n_neighbors=min(k + 1, len(x))).fit(x).kneighbors(x)[1][:, 1:]
    edges = np.quantile(y - y[around].mean(axis=1), [0.1, 0.9])
    mean = KNeighborsRegressor(n_neighbors=min(k, len(x))).fit(x, y).predict(new)
    return np.array([mean + edges[0], mean, mean + edges[1]])


def boosting(x: np.ndarray, y: np.ndarray, new: np.ndarray) -> np.ndarray:
    """Gradient boosting of trees with quantile loss, one model a quantile."""
    told = [
        GradientBoostingRegressor(
            loss="quantile",
            alpha=tau,
            n_estimators=150,
            max_depth=2,
            learning_rate=0.05,
            min_samples_leaf=5,
            random_state=0,
        )
        .fit(x, y)
        .predict(new)
        for tau in TAUS
    ]
    return np.sort(told, axis=0)


def _conjugate(
    design: np.ndarray, y: np.ndarray, start: np.ndarray, precision: np.ndarray, scale: float
) -> tuple[float, np.ndarray, np.ndarray, float]:
    """Log evidence, coefficients, inverse precision and scale of conjugate regression, shape 1."""
    after = np.diag(precision) + design.T @ design
    inverse = np.linalg.inv(after)
    mean = inverse @ (precision * start + design.T @ y)
    rest = ((y - design @ mean) ** 2).sum() + (precision * (mean - start) ** 2).sum()
    shape, summed = 1.0 + len(y) / 2.0, scale + rest / 2.0
    evidence = (
        0.5 * (np.log(precision).sum() - np.linalg.slogdet(after)[1])
        + math.log(scale)
        - shape * math.log(summed)
    )
    return float(evidence), mean, inverse, summed


def conjugate(x: np.ndarray, y: np.ndarray, new: np.ndarray) -> np.ndarray:
    """Normal-inverse-gamma regression, prior strengths by the largest evidence."""
    design = np.column_stack([np.ones(len(x)), x])
    start = np.concatenate([[np.median(y)], np.zeros(x.shape[1])])
    fits = []
    for slope in (0.01, 0.1, 1.0, 10.0, 100.0):
        precision = np.concatenate([[0.1], np.full(x.shape[1], slope)])
        for share in (0.1, 0.2, 0.35, 0.6, 1.0):
            scale = (float(y.std()) * share) ** 2
            fits.append(_conjugate(design, y, start, precision, scale))
    _, mean, inverse, summed = max(fits, key=lambda told: told[0])
    at = np.column_stack([np.ones(len(new)), new])
    shape = 1.0 + len(y) / 2.0
    deviation = np.sqrt(summed / shape * (1.0 + ((at @ inverse) * at).sum(axis=1)))
    half = stats.t.ppf(0.9, 2.0 * shape) * deviation
    return np.array([at @ mean - half, at @ mean, at @ mean + half])


def robust_linear(x: np.ndarray, y: np.ndarray, new: np.ndarray) -> np.ndarray:
    """Linear regression with Student-t(4) errors and leave-one-out residual ranks."""
    design = np.column_stack([np.ones(len(x)), x])
    prior = np.diag(np.concatenate([[0.01], np.full(x.shape[1], 0.1)]))
    start = np.concatenate([[np.median(y)], np.zeros(x.shape[1])])
    w = np.ones(len(y))
    for _ in range(50):
        inverse = np.linalg.inv(prior + design.T @ (w[:, None] * design))
        mean = inverse @ (prior @ start + design.T @ (w * y))
        r = y - design @ mean
        w = 5.0 / (4.0 + r**2 / max(float((w * r**2).mean()), 1e-12))
    leverage = np.minimum(w * ((design @ inverse) * design).sum(axis=1), 0.95)
    ranked = np.sort(r / (1.0 - leverage))
    rank = min(math.ceil(0.9 * (len(y) + 1)), len(y))
    at = np.column_stack([np.ones(len(new)), new]) @ mean
    return np.array([at + ranked[len(y) - rank], at, at + ranked[rank - 1]])


BASELINES = {
    "training quantiles": middle,
    "least squares": least_squares,
    "Bayesian ridge": bayesian_ridge,
    "nearest seven": nearest,
    "quantile boosting": boosting,
    "conjugate, evidence": conjugate,
    "robust linear": robust_linear,
}
