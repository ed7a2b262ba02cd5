from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from appraise.pricing.spread import FEW, Spread
from appraise.pricing.student import t_quantile

residuals = st.lists(st.floats(-50.0, 50.0), min_size=1, max_size=60)


@given(residuals, st.lists(st.floats(0.001, 0.999), min_size=2, max_size=20))
def test_quantiles_never_fall(values: list[float], chances: list[float]) -> None:
    spread = Spread.of(np.array(values), 2.0 + len(values))
    told = [spread.quantile(q) for q in sorted(chances)]
    assert all(a <= b + 1e-9 for a, b in pairwise(told))


@given(residuals)
def test_the_median_is_the_curve_itself(values: list[float]) -> None:
    assert Spread.of(np.array(values), 5.0).quantile(0.5) == 0.0


@given(residuals, st.floats(0.02, 0.98))
def test_chance_and_quantile_are_inverse(values: list[float], q: float) -> None:
    spread = Spread.of(np.array(values), 2.0 + len(values))
    z = spread.quantile(q)
    back = spread.probability_below(z + 1e-7)
    assert back >= q - 1e-6
    assert spread.probability_below(z - 1e-7) <= q + 1e-6


@given(residuals, st.lists(st.integers(-8, 8) | st.floats(-60.0, 60.0), min_size=2, max_size=20))
def test_a_chance_never_falls_and_is_one_half_at_the_middle(
    values: list[float], places: list[float]
) -> None:
    """At whole numbers as well as between them."""
    spread = Spread.of(np.array(values), 2.0 + len(values))
    told = [spread.probability_below(float(z)) for z in sorted(places)]
    assert all(a <= b + 1e-9 for a, b in pairwise(told))
    assert spread.probability_below(0.0) == 0.5
    assert spread.probability_below(70.0) > 0.5 > spread.probability_below(-70.0)


def test_few_entries_are_never_surer_than_the_model_itself() -> None:
    spread = Spread.of(np.zeros(FEW - 1), 21.0)
    assert spread.quantile(0.9) == pytest.approx(t_quantile(0.9, 21.0))
    assert spread.quantile(0.1) == pytest.approx(t_quantile(0.1, 21.0))
    assert Spread.of(np.zeros(FEW), 22.0).quantile(0.9) == 0.0


def test_ranks_are_those_of_n_plus_one() -> None:
    spread = Spread.of(np.arange(-12.0, 13.0), 27.0)  # 25 residuals, so rank q * 26
    assert spread.quantile(23 / 26) == pytest.approx(10.5)
    assert spread.quantile(3 / 26) == pytest.approx(-10.5)


def test_beyond_the_outermost_rank_the_tail_goes_on() -> None:
    spread = Spread.of(np.linspace(-2.0, 2.0, 25), 27.0)
    assert spread.quantile(0.99) > 2.0
    assert spread.quantile(0.01) < -2.0
    assert 0.0 < 1.0 - spread.probability_below(6.0) < 0.01
