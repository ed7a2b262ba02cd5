import math
from dataclasses import replace

import numpy as np
import pytest
from pricing.invented import SUBJECT, invented_log

from appraise.pricing.comparables import Comparable
from appraise.pricing.estimate import learn
from appraise.pricing.features import GROUPS


def grid(count: int = 60) -> tuple[Comparable, ...]:
    asking = ("asking over sold", math.log(1.3))
    rows = [
        replace(row, ratios=(asking,)) if i % 3 == 0 else row
        for i, row in enumerate(invented_log(count))
    ]
    return learn(rows).estimate(SUBJECT, shown=12).comparables


def test_factors_multiply_exactly() -> None:
    for one in grid():
        product = float(np.prod([factor for _, factor in one.factors]))
        assert product == pytest.approx(one.adjusted / one.price, rel=1e-9)


def test_adjusted_price_is_the_logged_one_moved_along_the_curve() -> None:
    prices = learn(invented_log(60))
    assert prices.model is not None
    for one in prices.estimate(SUBJECT).comparables:
        row = next(row for row in prices.rows if row.id == one.id)
        there, here = (
            prices.model.at(prices.design.matrix([r])[0], r.motif).median for r in (row, SUBJECT)
        )
        assert one.adjusted / one.price == pytest.approx(math.exp(here - there), rel=1e-9)


def test_nearest_come_first_and_none_twice() -> None:
    told = grid()
    assert len(told) == 12
    weights = [one.weight for one in told]
    assert weights == sorted(weights, reverse=True)
    assert len({one.id for one in told}) == 12


def test_a_twin_needs_no_adjustment() -> None:
    rows = invented_log(20)
    rows.append(replace(SUBJECT, id="twin", price=33.0))
    nearest = learn(rows).estimate(SUBJECT).comparables[0]
    assert nearest == Comparable("twin", 33.0, (), 33.0, pytest.approx(1.0))


def test_only_features_that_differ_are_listed_in_fixed_order() -> None:
    order = [*GROUPS, "motif", "asking over sold"]
    for one in grid():
        names = [name for name, _ in one.factors]
        assert names == sorted(names, key=order.index)
        assert "kind" not in names
        assert "record" not in names


def test_a_known_ratio_is_one_of_the_factors() -> None:
    factors = {name: factor for one in grid() for name, factor in one.factors}
    assert factors["asking over sold"] == pytest.approx(1.0 / 1.3)


def test_a_worse_comparable_is_adjusted_upwards() -> None:
    rows = [replace(row, condition=0.5 if i % 2 else 1.0) for i, row in enumerate(invented_log(80))]
    told = [
        replace(row, price=math.exp(3.5) * (row.condition or 1.0), process={"ambrotype": 1.0})
        for row in rows
    ]
    subject = replace(SUBJECT, condition=1.0, process={"ambrotype": 1.0})
    shown = learn(told).estimate(subject, shown=80).comparables
    worse = [dict(one.factors)["condition"] for one in shown if one.price < 20.0]
    assert worse
    assert min(worse) > 1.3


def test_a_known_ratio_counts_in_the_factor_of_its_name() -> None:
    rows = [
        replace(row, ratios=(("condition", math.log(row.condition or 1.0)),))
        for row in invented_log(60)
    ]
    subject = replace(SUBJECT, ratios=(("condition", math.log(0.8)),))
    for one in learn(rows).estimate(subject, shown=20).comparables:
        names = [name for name, _ in one.factors]
        assert len(names) == len(set(names))
        product = float(np.prod([factor for _, factor in one.factors]))
        assert product == pytest.approx(one.adjusted / one.price, rel=1e-9)
