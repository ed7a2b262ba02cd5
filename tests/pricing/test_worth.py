import math
from dataclasses import replace

import pytest
from pricing.invented import SUBJECT, invented_log

from appraise.pricing.estimate import Estimate, learn
from appraise.pricing.features import PricedRow
from appraise.pricing.shares import ENOUGH, TAKEN_OFF, Shares, corrections, kept_of, taken_off
from appraise.pricing.worth import worth

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
    assert "married piece 25%, 92% of value" in told.why


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
    assert one.states == tuple((name, pytest.approx(p), of) for name, p, of in other.states)
    assert (one.low, one.high) == pytest.approx((other.low, other.high))


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


def test_what_is_kept_without_any_state() -> None:
    assert kept_of({}, SHARES) == 1.0
    assert kept_of({"modern-case": 2.0, "together": 2.0}, SHARES) == pytest.approx(0.725)


def married_log(count: int, share: float, chance: float = 1.0) -> list[PricedRow]:
    """An invented log in which the first `count` entries are married and fetched a share."""
    states = {"married": chance, "together": 1.0 - chance}
    return [
        replace(
            row,
            price=(row.price or 0.0) * share,
            belonging=states,
            ratios=taken_off(states, SHARES),
        )
        if i < count
        else row
        for i, row in enumerate(invented_log(120))
    ]


def learnt(rows: list[PricedRow], state: str = "married") -> float:
    return replace(SHARES, learnt=learn(rows).corrections).of(state)


def test_what_a_state_took_off_is_put_on_again() -> None:
    states = {"together": 0.5, "modern-case": 0.5}
    assert dict(taken_off(states, SHARES))[TAKEN_OFF] == pytest.approx(math.log(0.725))
    assert taken_off({"together": 1.0}, SHARES) == taken_off({}, SHARES) == ()
    assert taken_off({"modern": 1.0}, SHARES) == ((TAKEN_OFF, math.log(0.25)),)
    with_it = learn(married_log(40, 0.92)).estimate(SUBJECT).median
    without = learn(married_log(0, 1.0)).estimate(SUBJECT).median
    assert with_it == pytest.approx(without, rel=0.02)


def test_a_share_is_learnt_once_ten_entries_tell_of_it() -> None:
    """Thirty entries at 60 per cent where 92 were judged pull the share about three quarters."""
    assert 0.6 < learnt(married_log(30, 0.6)) < 0.8
    assert learnt(married_log(9, 0.6)) == pytest.approx(0.92)
    assert learnt(married_log(30, 0.6, chance=0.4)) == pytest.approx(0.92)
    assert learnt(married_log(30, 0.6), "modern-case") == 0.45
    assert learn([]).corrections == {}


def test_a_judgement_that_holds_is_left_alone() -> None:
    assert learnt(married_log(30, 0.92)) == pytest.approx(0.92, abs=0.05)


def test_a_learnt_share_is_never_above_the_whole() -> None:
    assert learnt(married_log(30, 1.8)) == 1.0


def test_the_draw_towards_the_judgement_by_hand() -> None:
    """Twelve entries that leave -0.5: 12 of 22 parts of it, with ten parts of the judgement."""
    told = corrections([{"married": 1.0}] * 12 + [{}] * 5, [-0.5] * 12 + [3.0] * 5)
    assert told == {"married": pytest.approx(-0.5 * 12.0 / (12.0 + ENOUGH))}
    assert corrections([{"together": 1.0}] * 20, [-0.5] * 20) == {}


def test_the_sentence_says_what_is_by_the_log(estimate: Estimate) -> None:
    told = worth(
        estimate, {"together": 0.6, "married": 0.4}, replace(SHARES, learnt={"married": -0.2})
    )
    assert told is not None
    median = estimate.median or 0.0
    assert told.why == (
        f"If it is all of its time and its parts belong together: about {median:,.0f}, from about "
        f"{estimate.like:.0f} similar entries. Allowing for the chances on this one (together 60%, "
        f"full value; married piece 40%, 75% of value by your log): about {told.median:,.0f}."
    )
