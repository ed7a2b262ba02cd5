import numpy as np
import pytest
from pricing.random_logs import positive_definite

from appraise.pricing.kernel import (
    FARTHEST,
    Kernel,
    Points,
    Scale,
    covariance,
)
from appraise.pricing.regression import fit


@pytest.mark.parametrize("batch", range(10))
def test_covariance_with_noise_is_positive_definite(batch: int) -> None:
    assert [s for s in range(40 * batch, 40 * batch + 40) if not positive_definite(s)] == []


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
    column[0] = 4.0
    scale = Scale.of(column)
    lone = scale.apply(column)[0, 0]
    assert lone > FARTHEST
    assert scale.apply(np.array([[9.0]]))[0, 0] == lone
    assert scale.apply(np.array([[-9.0]]))[0, 0] == -FARTHEST


def test_a_rare_yes_is_no_louder_than_a_common_one() -> None:
    rare, common = np.zeros((100, 1)), np.zeros((100, 1))
    rare[0] = common[:50] = 1.0
    gaps = [np.ptp(Scale.of(column).apply(column)) for column in (rare, common)]
    assert gaps == pytest.approx([2.0, 2.0])


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
    assert model.likeness(model.subjects([[1.0]]))[0] == pytest.approx(1.0)
