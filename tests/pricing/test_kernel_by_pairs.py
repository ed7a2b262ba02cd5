"""The covariance, its scale and its likeness against sums over single pairs in plain Python.

Rational quadratic with alpha 1 and exponential covariance: Rasmussen and Williams, Gaussian
Processes for Machine Learning, 2006, equations 4.19 and 4.18 (nu one half).
"""

import math

import numpy as np
import pytest
from every import every

from appraise.pricing.kernel import (
    FARTHEST,
    PART,
    Fade,
    Kernel,
    Points,
    Scale,
    covariance,
    prior_variance,
)
from appraise.pricing.regression import fit
from appraise.pricing.texts import TextRows, WordWeights

RNG = np.random.default_rng(11)
KERNELS = [
    Kernel(0.5, 0.0, 2.0, 0.0, 7.0),
    Kernel(0.0, 1.5, 2.0, 0.0, 7.0),
    Kernel(0.5, 3.0, 0.7, 0.0, 100.0, Fade.ROUGH),
    Kernel(0.5, 3.0, 2.0, 0.6, 100.0),
    Kernel(0.2, 1.0, 4.0, 0.3, 1.0, Fade.ROUGH),
]


def points(count: int) -> Points:
    """Standardised features of two columns that vary and one that does not, and three words."""
    x = np.column_stack([RNG.standard_normal((count, 2)), np.zeros(count)])
    words = np.abs(RNG.standard_normal((count, 3)))
    words[0] = 0.0
    lengths = np.maximum(np.linalg.norm(words, axis=1), 1e-300)
    return Points(x, words / lengths[:, None], 2)


def pair(kernel: Kernel, a: list[float], b: list[float], cosine: float) -> float:
    """The covariance of two entries, written out."""
    distance = math.sqrt(sum((p - q) ** 2 for p, q in zip(a, b, strict=True)) / 2)
    if kernel.fade is Fade.SOFT:
        near = (1 + distance**2 / (2 * kernel.reach**2)) ** -1
    else:
        near = math.exp(-distance / kernel.reach)
    line = sum(p * q for p, q in zip(a, b, strict=True)) / 2
    told = 1 - kernel.text + kernel.text * cosine
    return kernel.level + kernel.linear * line + kernel.smooth * near * told


@every("kernel", KERNELS)
def test_each_pair_is_what_the_formula_gives(kernel: Kernel) -> None:
    """Of an entry with itself the texts agree wholly, also where there is none."""
    a, b = points(5), points(4)
    assert a.words is not None
    assert b.words is not None
    found, own = covariance(kernel, a, b), covariance(kernel, a, a, same=True)
    for i in range(5):
        for j in range(4):
            cosine = sum(float(p) * float(q) for p, q in zip(a.words[i], b.words[j], strict=True))
            assert found[i, j] == pytest.approx(pair(kernel, [*a.x[i]], [*b.x[j]], cosine))
        assert own[i, i] == pytest.approx(pair(kernel, [*a.x[i]], [*a.x[i]], 1.0))
    assert prior_variance(kernel, a) == pytest.approx(np.diagonal(own))


@every("rows", [3, PART, PART + 1, 2 * PART + 5])
def test_the_scale_is_that_of_numpy_however_long_the_log(rows: int) -> None:
    """A missing value counts as the mean, so the spread is that of the filled column."""
    raw = RNG.normal(40.0, 3.0, (rows, 2))
    raw[0, 1] = np.nan
    shares = np.column_stack([np.linspace(0.0, 1.0, rows), np.arange(rows) == 1])
    scale = Scale.of(np.column_stack([raw, shares, shares[:, :1] - 1e-9, shares[:, :1] * 1.001]))
    filled = np.where(np.isnan(raw), np.nanmean(raw, axis=0), raw)
    assert scale.middle[:2] == pytest.approx(filled.mean(axis=0))
    assert scale.spread[:2] == pytest.approx(filled.std(axis=0))
    assert scale.spread[2:4] == pytest.approx([0.5, 0.5])  # shares are scaled by no less
    assert scale.spread[4:] == pytest.approx(shares[:, 0].std(), rel=1e-2)  # and others are
    assert scale.varying == 6
    told = scale.apply(raw_of(raw, shares))
    assert told[:, :2] == pytest.approx((filled - scale.middle[:2]) / scale.spread[:2])


def raw_of(raw: np.ndarray, shares: np.ndarray) -> np.ndarray:
    return np.column_stack([raw, shares, shares[:, :1] - 1e-9, shares[:, :1] * 1.001])


def test_a_new_value_is_cut_five_deviations_out_and_a_gap_is_the_mean() -> None:
    scale = Scale.of(np.array([[10.0], [12.0], [14.0]]))
    spread = math.sqrt(8 / 3)
    assert scale.apply(np.array([[12.0 + 4.9 * spread]]))[0, 0] == pytest.approx(4.9)
    assert scale.apply(np.array([[12.0 + 5.1 * spread]]))[0, 0] == FARTHEST == 5.0
    assert scale.apply(np.array([[12.0 - 5.1 * spread]]))[0, 0] == -5.0
    assert scale.apply(np.array([[np.nan], [1e100], [-1e100]])) == pytest.approx(0.0)
    assert Scale.of(np.array([[9.9e99], [9.9e99]])).middle[0] == pytest.approx(9.9e99)


def test_the_likeness_is_the_normal_curve_of_the_distance_times_what_the_words_share() -> None:
    """exp(-d^2 / 2) over the columns that vary, whatever fade and reach were chosen."""
    x = RNG.standard_normal((30, 2)) * [1.0, 4.0]
    texts = [("vine", "girl", "")[i % 3] for i in range(30)]
    model = fit(x, x[:, 0] + np.array([len(text) for text in texts]), texts)
    share = model.posterior.kernel.text
    assert share > 0.0
    found = model.likeness(model.subjects([[0.2, 1.0]], ["vine"]))
    at = (np.array([0.2, 1.0]) - x.mean(axis=0)) / x.std(axis=0)
    for row, text, told in zip((x - x.mean(axis=0)) / x.std(axis=0), texts, found, strict=True):
        words = 1.0 if text == "vine" else 1.0 - share
        assert told == pytest.approx(math.exp(-0.5 * sum((row - at) ** 2) / 2) * words)


def test_a_vocabulary_learnt_at_once_is_the_one_learnt_word_by_word() -> None:
    texts = ["girl, with a vine", "", "vine vine girl", "a dog", "Vine!", "a girl a dog a vine"]
    for some in (texts, ["", "  "], texts[1:2], texts[:1]):
        vocabulary, rows = TextRows.learnt(some)
        plain = WordWeights.of(some)
        assert vocabulary.index == plain.index
        assert vocabulary.weight == pytest.approx(plain.weight)
        assert vocabulary.unseen == pytest.approx(plain.unseen)
        every_row = np.arange(len(some))
        told = TextRows.of(some, plain).dense(every_row)
        assert rows.dense(every_row) == pytest.approx(told)


def test_word_weights_by_hand() -> None:
    """Inverse document frequency: log((n + 1) / (d + 1)) + 1 with d of n texts."""
    found = WordWeights.of(["vine girl", "vine vine", "dog"])
    assert found.weight == pytest.approx(
        {"vine": math.log(4 / 3) + 1, "girl": math.log(4 / 2) + 1, "dog": math.log(4 / 2) + 1}
    )
    assert found.unseen == pytest.approx(math.log(4) + 1)
    cells = TextRows.of(["vine vine dog zebra"], found).dense(np.arange(1))[0]
    mass = [2 * (math.log(4 / 3) + 1), 0.0, math.log(2) + 1, math.log(4) + 1]
    length = math.sqrt(sum(m * m for m in mass))
    assert cells == pytest.approx([m / length for m in mass[:3]])
