import pytest
from pricing.invented import SUBJECT, invented_log

from appraise.pricing.estimate import Estimate, learn
from appraise.pricing.worth import Shares, worth

SHARES = Shares(image=0.45, housing=0.47, bond=0.08, modern=0.05)
BELONGING = {
    "together": 0.6,
    "married": 0.25,
    "modern-case": 0.1,
    "modern-image": 0.04,
    "all-modern": 0.01,
}


@pytest.fixture(scope="module")
def estimate() -> Estimate:
    return learn(invented_log(80)).estimate(SUBJECT)


def test_worth_is_the_sum_over_the_states(estimate: Estimate) -> None:
    told = worth(estimate, BELONGING, SHARES)
    assert told is not None
    kept = 0.6 + 0.25 * 0.92 + 0.1 * 0.45 + 0.04 * 0.47 + 0.01 * 0.05
    assert told.median == pytest.approx(kept * (estimate.median or 0.0))
    assert told.low < told.median < told.high
    assert "married (25 in 100) keeps 92 in 100" in told.why


def test_certainty_leaves_the_estimate_as_it_is(estimate: Estimate) -> None:
    told = worth(estimate, {"together": 1.0}, SHARES)
    assert told is not None
    assert (told.low, told.median, told.high) == pytest.approx(
        (estimate.low, estimate.median, estimate.high), rel=1e-6
    )


def test_probabilities_need_not_sum_to_one(estimate: Estimate) -> None:
    one = worth(estimate, BELONGING, SHARES)
    other = worth(estimate, {name: 3.0 * p for name, p in BELONGING.items()}, SHARES)
    assert one is not None
    assert other is not None
    assert one.median == pytest.approx(other.median)


def test_the_chance_falls_with_the_cost(estimate: Estimate) -> None:
    told = worth(estimate, BELONGING, SHARES)
    assert told is not None
    costs = [0.0, 5.0, 15.0, 25.0, 40.0, 90.0]
    chances = [told.prob_at_least(cost) for cost in costs]
    assert chances[0] == 1.0
    assert chances == sorted(chances, reverse=True)
    assert chances[-1] < 0.05
    assert told.prob_at_least(told.quantile(0.3)) == pytest.approx(0.7, abs=1e-6)


def test_a_piece_worth_nothing_when_modern(estimate: Estimate) -> None:
    told = worth(estimate, {"modern": 0.5, "period": 0.5}, Shares(1.0, 0.0, 0.0))
    assert told is not None
    assert told.median == pytest.approx(0.5 * (estimate.median or 0.0))
    assert told.low == 0.0
    assert told.prob_at_least(0.01) == pytest.approx(0.5, abs=1e-3)


def test_no_number_no_worth() -> None:
    assert worth(learn([]).estimate(SUBJECT), BELONGING, SHARES) is None


@pytest.mark.parametrize(
    ("state", "share"),
    [
        ("together", 1.0),
        ("period", 1.0),
        ("married", 0.92),
        ("modern-case", 0.45),
        ("modern-image", 0.47),
        ("all-modern", 0.05),
        ("modern", 0.05),
    ],
)
def test_shares_by_state(state: str, share: float) -> None:
    assert SHARES.of(state) == pytest.approx(share)
