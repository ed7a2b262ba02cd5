import numpy as np
import pytest

from appraise.pricing.kernel import (
    FARTHEST,
    Kernel,
    Points,
    Scale,
    covariance,
    prior_variance,
)
from appraise.pricing.regression import fit
from appraise.pricing.texts import TextRows, Vocabulary

WORDS = ["girl", "boy", "basket", "hoop", "dog", "", "soldier sword", "two sisters"]


def random_points(rng: np.random.Generator) -> Points:
    """A log of texts, twins, constant columns and missing values."""
    n, p = int(rng.integers(1, 40)), int(rng.integers(1, 12))
    raw = np.round(rng.standard_normal((n, p)) * rng.choice([0.0, 1.0, 50.0], p), 1)
    raw[rng.random((n, p)) < 0.2] = np.nan
    raw = raw[rng.integers(0, n, n)]
    texts = [" ".join(rng.choice(WORDS, int(rng.integers(0, 4)))) for _ in range(n)]
    scale = Scale.of(raw)
    dense = TextRows.of(texts, Vocabulary.of(texts)).dense(np.arange(n))
    return Points(scale.apply(raw), dense, scale.varying)


def check_positive_definite(seed: int) -> None:
    rng = np.random.default_rng(seed)
    points = random_points(rng)
    kernel = Kernel(
        float(rng.choice([0.05, 0.5, 5.0])),
        float(rng.choice([0.0, 0.3, 3.0])),
        float(rng.choice([1.0, 4.0])),
        float(rng.choice([0.0, 0.3, 0.6, 1.0])),
    )
    total = covariance(kernel, points, points, same=True)
    assert np.allclose(total, total.T)
    assert np.linalg.eigvalsh(total + 0.8 * np.eye(len(points))).min() > 0.79
    assert np.diagonal(total) == pytest.approx(prior_variance(kernel, points))


@pytest.mark.parametrize("batch", range(10))
def test_covariance_with_noise_is_positive_definite(batch: int) -> None:
    for seed in range(40 * batch, 40 * batch + 40):
        check_positive_definite(seed)


def test_a_missing_value_is_read_as_the_mean() -> None:
    scale = Scale.of(np.array([[1.0], [3.0], [np.nan], [np.inf], [1e200]]))
    assert scale.middle == pytest.approx([2.0])
    assert scale.apply(np.array([[np.nan], [2.0], [-np.inf]])) == pytest.approx(0.0)


def test_a_column_that_does_not_vary_is_left_alone() -> None:
    scale = Scale.of(np.array([[7.0, 1.0], [7.0, 2.0]]))
    assert scale.varying == 1
    assert scale.spread[0] == 1.0
    assert scale.apply(np.array([[7.0, 1.5]])) == pytest.approx(0.0)


def test_far_values_are_cut_but_not_those_the_log_holds() -> None:
    column = np.zeros((100, 1))
    column[0] = 1.0
    scale = Scale.of(column)
    lone = scale.apply(column)[0, 0]
    assert lone > FARTHEST
    assert scale.apply(np.array([[9.0]]))[0, 0] == lone
    assert scale.apply(np.array([[-9.0]]))[0, 0] == -FARTHEST


def test_an_empty_text_is_like_nothing_but_itself() -> None:
    x = np.zeros((2, 1))
    points = Points(x, np.zeros((2, 3)), 1)
    own = covariance(Kernel(0.0, 1.0, 1.0, 1.0, 0.0), points, points, same=True)
    assert own == pytest.approx(np.eye(2))


def test_a_rare_word_of_the_log_stays_comparable_to_itself() -> None:
    """One entry of a rare kind must be found by a subject of that kind."""
    column = np.zeros((60, 1))
    column[0] = 1.0
    model = fit(column, np.concatenate([[9.0], np.full(59, 3.0)]))
    assert model.likeness(model.subjects([[1.0]]), 1.0)[0] == pytest.approx(1.0)
