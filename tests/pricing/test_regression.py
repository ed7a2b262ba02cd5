import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from thorough import tries

from appraise.base.errors import InputError
from appraise.pricing.model import DOUBTFUL, MOST, Model
from appraise.pricing.regression import fit
from appraise.pricing.spread import FEW
from appraise.pricing.student import t_cdf


def straight(n: int, noise: float = 0.1, seed: int = 5) -> tuple[np.ndarray, np.ndarray]:
    """An invented log: two features, log prices on a plane."""
    rng = np.random.default_rng(seed)
    x = rng.standard_normal((n, 2))
    return x, 4.0 + 0.6 * x[:, 0] - 0.2 * x[:, 1] + noise * rng.standard_normal(n)


@pytest.fixture(scope="module")
def model() -> Model:
    return fit(*straight(60))


def test_it_follows_the_plane(model: Model) -> None:
    low, median, high = model.predict([[0.0, 0.0], [1.0, 1.0]])
    assert median == pytest.approx([4.0, 4.4], abs=0.08)
    assert np.all(low < median)
    assert np.all(median < high)
    assert float(np.mean(high - low)) == pytest.approx(2 * 1.2816 * 0.1, rel=0.4)


def test_point_and_prediction_agree(model: Model) -> None:
    point = model.at([0.3, -0.4])
    low, median, high = (float(v[0]) for v in model.predict([[0.3, -0.4]], level=0.9))
    assert point.quantile(0.05) == pytest.approx(low)
    assert point.quantile(0.5) == pytest.approx(median)
    assert point.quantile(0.95) == pytest.approx(high)


def test_chance_falls_from_certain_to_nothing(model: Model) -> None:
    point = model.at([0.0, 0.0])
    told = [point.prob_at_least(x) for x in np.linspace(2.0, 6.0, 41)]
    assert told == sorted(told, reverse=True)
    assert told[0] > 0.99
    assert told[-1] < 0.01
    assert point.prob_at_least(point.median) == pytest.approx(0.5, abs=0.06)


def test_like_counts_the_entries_near_the_subject() -> None:
    x = np.repeat([[0.0, 0.0], [4.0, 4.0]], [9, 3], axis=0)
    model = fit(x, np.linspace(3.0, 4.0, 12))
    assert model.at([0.0, 0.0]).like == pytest.approx(9.0, abs=0.5)
    assert model.at([4.0, 4.0]).like == pytest.approx(3.0, abs=1.0)


def test_the_same_log_gives_the_same_model() -> None:
    x, y = straight(30)
    one, other = fit(x, y).predict(x), fit(x, y).predict(x)
    assert all(np.array_equal(a, b) for a, b in zip(one, other, strict=True))


def test_the_order_of_entries_does_not_matter() -> None:
    x, y = straight(40)
    turned = np.random.default_rng(0).permutation(40)
    one, other = fit(x, y).predict(x[:5]), fit(x[turned], y[turned]).predict(x[:5])
    assert np.allclose(one, other, atol=1e-8)


def test_another_currency_only_moves_the_level() -> None:
    x, y = straight(40)
    one = np.array(fit(x, y).predict(x[:5]))
    other = np.array(fit(x * 100.0 + 7.0, y + math.log(151.0)).predict(x[:5] * 100.0 + 7.0))
    assert np.allclose(one + math.log(151.0), other, atol=1e-8)


def test_an_odd_price_is_flagged_and_does_not_bend_the_curve() -> None:
    x, y = straight(50)
    spoilt = y.copy()
    spoilt[17] += math.log(10.0)
    model = fit(x, spoilt)
    assert list(model.doubtful) == [17]
    assert model.weights[17] < DOUBTFUL < np.delete(model.weights, 17).min()
    assert np.allclose(model.predict(x)[1], fit(x, y).predict(x)[1], atol=0.06)


def test_interval_holds_what_it_says_on_new_sales() -> None:
    x, y = straight(1200, noise=0.3, seed=9)
    low, _, high = fit(x[:200], y[:200]).predict(x[200:])
    assert np.mean((low <= y[200:]) & (y[200:] <= high)) == pytest.approx(0.8, abs=0.05)


def test_words_tell_what_features_do_not() -> None:
    rng = np.random.default_rng(2)
    dear = rng.random(60) < 0.5
    texts = ["soldier with sword" if d else "seated woman" for d in dear]
    y = 4.0 + dear * 1.0 + 0.1 * rng.standard_normal(60)
    model = fit(rng.standard_normal((60, 1)), y, texts)
    assert model.at([0.0], "soldier").median > model.at([0.0], "woman").median + 0.3


def test_texts_that_say_nothing_change_nothing() -> None:
    x, y = straight(20)
    plain, empty = fit(x, y), fit(x, y, [""] * 19 + ["  "])
    assert np.array_equal(plain.predict(x)[1], empty.predict(x)[1])


@pytest.mark.parametrize("n", [1, 2, 3, 5])
def test_very_short_logs_give_wide_but_finite_answers(n: int) -> None:
    x, y = straight(n)
    low, median, high = fit(x, y).predict([[0.0, 0.0], [9e9, np.nan]])
    assert np.all(np.isfinite([low, median, high]))
    assert np.all(low < median)
    assert np.all(median < high)


def test_one_price_is_its_own_middle() -> None:
    model = fit([[2.0, 5.0]], [3.3])
    assert model.at([2.0, 5.0]).median == pytest.approx(3.3)
    assert model.at([2.0, 5.0]).like == pytest.approx(1.0)


def test_prices_that_all_agree() -> None:
    model = fit(np.zeros((8, 3)), np.full(8, 3.0))
    low, median, high = (float(v[0]) for v in model.predict([[0.0, 0.0, 0.0]]))
    assert median == pytest.approx(3.0)
    assert low < median < high


def test_missing_and_absurd_features_are_borne() -> None:
    x, y = straight(30)
    x[3, 0], x[4, 1], x[5, 0], x[6, 1] = np.nan, np.inf, -np.inf, 1e300
    wide = np.column_stack([x, np.full(30, np.nan), np.full(30, 4.0)])
    low, median, high = fit(wide, y).predict([[np.nan, np.nan, np.nan, np.nan], [0, 0, 1e300, -9]])
    assert np.all(np.isfinite([low, median, high]))


@pytest.mark.parametrize(("entries", "learnt"), [(FEW - 1, False), (FEW, True)])
def test_uneven_scatter_is_learnt_from_as_many_entries_as_the_spread_is(entries, learnt) -> None:
    x = np.linspace(-2.0, 2.0, entries)
    uneven = np.where(x < 0.0, 0.01, 1.0) * np.where(np.arange(entries) % 2, 1.0, -1.0)
    assert (fit(x[:, None], 4.0 + uneven).scatter is not None) == learnt


nonsense = st.one_of(
    st.floats(-3.0, 3.0), st.sampled_from([0.0, 1.0, math.nan, math.inf, 1e99, -1e150, 1e-200])
)


@given(st.data(), st.integers(1, 25), st.integers(1, 4))
@tries(30)
def test_any_log_gives_finite_answers_in_order(data: st.DataObject, n: int, p: int) -> None:
    x = [[data.draw(nonsense) for _ in range(p)] for _ in range(n)]
    y = [data.draw(st.sampled_from([-20.0, 0.0, 3.0, 3.1, 3.5, 20.0, 700.0])) for _ in range(n)]
    texts = [data.draw(st.sampled_from(["", "girl", "girl dog", "?"])) for _ in range(n)]
    model = fit(x, y, texts)
    low, median, high = model.predict([*x[:3], [math.nan] * p], ["cat"] * (min(n, 3) + 1))
    assert np.all(np.isfinite([low, median, high]))
    assert np.all(low <= median)
    assert np.all(median <= high)
    assert 0.0 <= model.at(x[0]).like <= n + 1e-9


def test_a_far_subject_gets_a_wider_interval(model: Model) -> None:
    low, _, high = model.predict([[0.0, 0.0], [5.0, -5.0]])
    assert high[1] - low[1] > high[0] - low[0]


def test_a_log_of_words_only_and_no_feature() -> None:
    model = fit(np.zeros((6, 0)), np.linspace(3.0, 4.0, 6), ["a", "b", "a", "b", "a", "b"])
    assert math.isfinite(model.at([], "a").median)


@pytest.mark.parametrize(
    ("features", "prices", "texts", "told"),
    [
        (np.zeros((0, 2)), [], None, "holds no price"),
        ([[1.0]], [1.0, 2.0], None, "as many prices"),
        ([[1.0], [2.0]], [1.0, 2.0], ["one"], "as many prices"),
        ([[1.0], [2.0]], [1.0, math.nan], None, "row 2 of the log has no price"),
        ([[1.0], [2.0]], [1e300, 2.0], None, "row 1 of the log has no price"),
        ([1.0, 2.0], [1.0, 2.0], None, "rows and columns"),
    ],
)
def test_a_log_that_cannot_be_learnt_is_refused(
    features: object, prices: object, texts: list[str] | None, told: str
) -> None:
    with pytest.raises(InputError, match=told):
        fit(features, prices, texts)


@pytest.mark.parametrize(
    ("row", "texts", "level", "told"),
    [
        ([[1.0]], None, 0.8, "1 features where the log has 2"),
        ([[1.0, 2.0]], ["a", "b"], 0.8, "2 texts for 1 rows"),
        ([[1.0, 2.0]], None, 1.0, "not a share"),
    ],
)
def test_a_subject_that_does_not_fit_is_refused(
    model: Model, row: object, texts: list[str] | None, level: float, told: str
) -> None:
    with pytest.raises(InputError, match=told):
        model.predict(row, texts, level)


# Beyond `MOST` rows a sample sets the covariance and the nearest rows give the answer.
LONG_TEXTS = ["vine" if i % 2 else "girl" for i in range(MOST + 500)]


def long_log() -> tuple[np.ndarray, np.ndarray]:
    x, y = straight(MOST + 500, noise=0.2, seed=11)
    y += np.sin(1.5 * x[:, 0])
    y[5] += 3.0
    return x, y


@pytest.fixture(scope="module")
def long() -> Model:
    return fit(*long_log(), LONG_TEXTS)


def test_a_long_log_still_follows_the_prices(long: Model) -> None:
    x = long_log()[0][:20]
    _, median, _ = long.predict(x, ["girl"] * 20)
    truth = 4.0 + 0.6 * x[:, 0] - 0.2 * x[:, 1] + np.sin(1.5 * x[:, 0])
    assert np.abs(median - truth).mean() < 0.12


def test_every_row_of_a_long_log_is_weighed(long: Model) -> None:
    assert len(long.weights) == MOST + 500
    assert 5 in long.doubtful


def test_a_long_log_is_read_near_the_subject(long: Model) -> None:
    near = long.near(long.subjects([[2.0, 0.0]], ["girl"]))
    assert len(near.points) == MOST
    assert near.points.x[:, 0].mean() > long.x[:, 0].mean() + 0.2


def test_a_long_log_is_repeatable(long: Model) -> None:
    again = fit(*long_log(), LONG_TEXTS)
    assert again.at([0.5, 0.5], "girl").median == long.at([0.5, 0.5], "girl").median


def test_a_straight_line_in_one_feature_is_a_student_t_regression() -> None:
    """With no reweighting to speak of, deviation and freedom give the model's own tail."""
    x, y = straight(15, noise=0.05)
    point = fit(x, y).at([0.0, 0.0])
    z = point.spread.quantile(0.9)
    assert t_cdf(z, point.spread.freedom) >= 0.9 - 1e-9
