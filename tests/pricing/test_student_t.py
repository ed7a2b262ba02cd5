import math

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from scipy import special, stats

from appraise.pricing.student import incomplete_beta, t_cdf, t_pdf, t_quantile

# Independent reference: SciPy's special functions and distributions (PyPI).


# Nearer to 0 the reference itself strays, by 1.6e-9 at x = 1e-8 with one degree of freedom.
FAR = st.floats(-60.0, 60.0).filter(lambda x: abs(x) >= 1e-3)


@given(FAR, st.floats(1.0, 800.0))
def test_cdf_agrees_with_scipy(x: float, df: float) -> None:
    assert t_cdf(x, df) == pytest.approx(float(special.stdtr(df, x)), rel=1e-9, abs=1e-13)


@given(st.floats(-60.0, 60.0))
@example(1e-8)
def test_one_degree_of_freedom_is_the_cauchy_distribution(x: float) -> None:
    # Abramowitz and Stegun, Handbook of Mathematical Functions, 26.7.3.
    assert t_cdf(x, 1.0) == pytest.approx(0.5 + math.atan(x) / math.pi, abs=1e-14)


@given(st.floats(-1e-3, 1e-3), st.floats(1.0, 800.0))
def test_near_the_middle_the_cdf_follows_the_density(x: float, df: float) -> None:
    assert t_cdf(x, df) == pytest.approx(0.5 + x * t_pdf(0.0, df), abs=1e-9)


@given(st.floats(0.001, 0.999), st.floats(1.0, 800.0))
def test_quantile_agrees_with_scipy(q: float, df: float) -> None:
    assert t_quantile(q, df) == pytest.approx(float(special.stdtrit(df, q)), rel=1e-8, abs=1e-9)


@pytest.mark.parametrize("df", [1.0, 3.5, 40.0])
@pytest.mark.parametrize("x", [-4.0, 0.0, 0.7])
def test_density_agrees_with_scipy(x: float, df: float) -> None:
    assert t_pdf(x, df) == pytest.approx(float(stats.t.pdf(x, df)), rel=1e-12)


@given(st.floats(0.2, 50.0), st.floats(0.2, 50.0), st.floats(0.0, 1.0))
def test_incomplete_beta_agrees_with_scipy(a: float, b: float, x: float) -> None:
    assert incomplete_beta(a, b, x) == pytest.approx(float(special.betainc(a, b, x)), abs=1e-11)


@pytest.mark.parametrize("q", [0.0, 1.0, -0.1, 1.5])
def test_quantile_refuses_what_is_no_probability(q: float) -> None:
    with pytest.raises(ValueError, match="between 0 and 1"):
        t_quantile(q, 5.0)


def test_infinite_arguments() -> None:
    assert t_cdf(float("inf"), 3.0) == 1.0
    assert t_cdf(float("-inf"), 3.0) == 0.0
