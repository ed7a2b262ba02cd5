import math
from dataclasses import replace

import numpy as np
import pytest
from every import every
from pricing.invented import SUBJECT, invented_log

from appraise.base.errors import InputError
from appraise.pricing.estimate import NEEDED, Doubtful, Prices, learn, plain
from appraise.pricing.features import PricedRow
from appraise.pricing.likeness import Likeness, likeness
from appraise.pricing.robust import CLOSEST


@pytest.fixture(scope="module")
def prices() -> Prices:
    return learn(invented_log(80))


def test_the_number_lies_where_the_log_was_made(prices: Prices) -> None:
    told = prices.estimate(SUBJECT)
    assert told.median == pytest.approx(0.8 * math.exp(3.5), rel=0.2)
    assert told.low is not None
    assert told.high is not None
    assert told.low < told.median < told.high
    assert told.entries == 80
    assert told.like > NEEDED
    assert told.median is not None
    assert told.low is not None
    assert told.high is not None
    assert told.why == (
        f"Estimate {plain(told.median)}, from about {told.like:.0f} similar entries of 80 in the "
        f"log. 80% of such sales should fall between {plain(told.low)} and {plain(told.high)}."
    )


def test_quantiles_and_chances_are_those_of_the_interval(prices: Prices) -> None:
    told = prices.estimate(SUBJECT)
    assert told.quantile(0.1) == pytest.approx(told.low)
    assert told.quantile(0.9) == pytest.approx(told.high)
    assert told.prob_at_least(told.low or 0.0) == pytest.approx(0.9, abs=1e-6)
    assert told.prob_at_least(0.0) == 1.0
    assert 0.0 < told.doubt < 0.2


def test_an_empty_log_has_no_opinion() -> None:
    told = learn([]).estimate(SUBJECT)
    assert (told.low, told.median, told.high, told.like) == (None, None, None, 0.0)
    assert told.method == "no opinion"
    assert told.why.startswith("No estimate")
    assert told.quantile(0.5) is None
    assert told.prob_at_least(3.0) is None
    assert told.doubt == 0.0


def test_a_log_of_other_things_has_no_opinion() -> None:
    others = [replace(row, process={"albumen": 1.0}) for row in invented_log(30)]
    told = learn(others).estimate(SUBJECT)
    assert told.median is None
    assert told.method == "no opinion"
    assert "none of the 30 entries" in told.why
    assert told.comparables == ()


def test_too_few_like_entries_are_shown_without_a_number() -> None:
    told = learn(invented_log(6)).estimate(SUBJECT)
    assert told.median is None
    assert 0.0 < told.like < NEEDED
    assert told.comparables
    assert "are needed" in told.why


def test_a_short_log_is_never_surer_than_twin_sales() -> None:
    rows = [replace(SUBJECT, id=str(i), price=40.0) for i in range(8)]
    told = learn(rows).estimate(SUBJECT)
    assert told.median == pytest.approx(40.0)
    assert math.log((told.high or 0.0) / (told.low or 1.0)) >= 2 * 1.28 * CLOSEST


def test_known_ratios_come_off_the_log_and_on_to_the_subject() -> None:
    rows = invented_log(40)
    asking = ("asking over sold", math.log(1.3))
    dearer = [replace(row, price=(row.price or 0.0) * 1.3, ratios=(asking,)) for row in rows]
    plain_log = learn(rows).estimate(SUBJECT)
    asked = learn(dearer)
    assert asked.estimate(SUBJECT).median == pytest.approx(plain_log.median or 0.0)
    offered = asked.estimate(replace(SUBJECT, ratios=(asking,)))
    assert offered.median == pytest.approx(1.3 * (plain_log.median or 0.0))
    assert offered.prob_at_least(offered.low or 0.0) == pytest.approx(0.9, abs=1e-6)


def test_an_entry_without_a_price_is_refused() -> None:
    with pytest.raises(InputError, match="entry 'q'"):
        learn([*invented_log(3), PricedRow(id="q")])


def test_one_entry_one_category_and_nonsense_are_borne() -> None:
    nonsense = PricedRow(id="n", price=1e-9, process={"x": 9.0}, area=-1.0, age=math.inf)
    for rows in ([nonsense], invented_log(1), [nonsense] * 12):
        told = learn(rows).estimate(SUBJECT)
        assert told.entries == len(rows)
        assert told.median is None


def test_likeness_is_one_for_a_twin_and_nothing_for_another_process(prices: Prices) -> None:
    row = prices.rows[0]
    told = likeness(prices.features, prices.design, row, Likeness())
    assert told[0] == pytest.approx(1.0)
    assert np.all((told >= 0.0) & (told <= 1.0))
    for other, value in zip(prices.rows, told, strict=True):
        assert (value == 0.0) == (other.process != row.process)


def test_likeness_is_lower_for_what_is_not_told(prices: Prices) -> None:
    known = likeness(prices.features, prices.design, SUBJECT, Likeness()).sum()
    vague = likeness(
        prices.features, prices.design, replace(SUBJECT, area=None, kind=""), Likeness()
    ).sum()
    assert 0.0 < vague < known


TOLD = PricedRow(
    id="here", price=40.0, kind="cased", process={"ambrotype": 1.0}, housing={"leather-wood": 1.0},
    area=50.0, subject=("single",),
)  # fmt: skip
DIFFERENT = {  # what differs from `TOLD`, and what is left of the likeness by the docstrings
    "nothing": ({}, 1.0),
    "another kind": ({"kind": "loose-plate"}, 0.0),
    "half another process": ({"process": {"ambrotype": 0.5, "tintype": 0.5}}, 0.5),
    "another housing": ({"housing": {"thermoplastic": 1.0}}, 0.5),
    "half another housing": ({"housing": {"thermoplastic": 0.5, "leather-wood": 0.5}}, 0.75),
    "another subject": ({"subject": ("child",)}, 0.8),
    "larger by a standard step": ({"area": 50.0 * math.exp(0.6)}, math.exp(-0.5)),
    "smaller by two": ({"area": 50.0 * math.exp(-1.2)}, math.exp(-2.0)),
    "no housing": ({"housing": {}}, 0.7),
    "no subject": ({"subject": ()}, 0.7),
    "no size": ({"area": None}, 0.7),
    "neither housing nor size": ({"housing": {}, "area": None}, 0.49),
}


@every("change, left", DIFFERENT.values(), ids=DIFFERENT)
def test_each_difference_takes_away_what_it_is_said_to(change, left) -> None:
    """Either way round: an unknown takes as much away on the piece as on the entry."""
    prices = learn([TOLD, replace(TOLD, **{"id": "there", **change})])
    here, there = prices.rows
    for subject, wanted in ((here, (1.0, left)), (there, (left, None))):
        found = likeness(prices.features, prices.design, subject, Likeness())
        assert found[0] == pytest.approx(wanted[0])
        assert wanted[1] is None or found[1] == pytest.approx(wanted[1])


@pytest.mark.parametrize("change", [{"housing": {}}, {"subject": ()}])
def test_what_neither_side_tells_takes_nothing_away(change) -> None:
    row = replace(TOLD, **change)
    prices = learn([TOLD, replace(row, id="there")])
    assert likeness(prices.features, prices.design, row, Likeness())[1] == pytest.approx(1.0)


def test_five_comparables_are_shown_unless_more_are_asked_for(prices: Prices) -> None:
    assert len(prices.estimate(SUBJECT).comparables) == 5
    assert len(prices.estimate(SUBJECT, shown=7).comparables) == 7


@pytest.mark.parametrize(("price", "told"), [(3.456, "3.46"), (12.6, "13"), (1234.0, "1,234")])
def test_prices_in_sentences(price: float, told: str) -> None:
    assert plain(price) == told


def test_a_price_that_fits_nothing_else_is_to_be_checked() -> None:
    rows = invented_log(60)
    rows[9] = replace(rows[9], price=(rows[9].price or 0.0) * 10.0)
    told = learn(rows).doubtful()
    assert told[0].id == "e9"
    assert told[0].weight < 0.4
    assert told[0].others == pytest.approx((rows[9].price or 0.0) / 10.0, rel=0.5)
    assert learn([]).doubtful() == ()


def test_what_to_do_about_a_doubtful_price_is_said_plainly() -> None:
    told = Doubtful("e9", 90.4, 50.2, 0.2).says("USD")
    assert told == (
        "Check this price: a total of 90 USD, where similar entries suggest about 50. It is given "
        "little weight."
    )


def test_an_odd_price_among_details_that_nobody_else_lacks_is_still_odd() -> None:
    """A line typed in a hurry lacks what every other entry tells; that must not excuse it."""
    rows = invented_log(60)
    hurried = replace(
        rows[9], price=2000.0, appeal=None, identified=None, maker=None, condition=None, age=0.0
    )
    prices = learn([*rows[:9], hurried, *rows[10:]])
    assert [one.id for one in prices.doubtful()][:1] == ["e9"]
    vague = replace(SUBJECT, appeal=None, identified=None, maker=None, condition=None)
    told, before = prices.estimate(vague).median, learn(rows).estimate(vague).median
    assert told is not None
    assert before is not None
    assert told < 2.0 * before


def test_prices_beyond_all_measure_are_borne() -> None:
    rows = [
        replace(row, price=1e300 if i % 2 else 1e-300) for i, row in enumerate(invented_log(30))
    ]
    told = learn(rows).estimate(SUBJECT)
    assert told.low is not None
    assert told.high is not None
    assert 0.0 < told.low <= told.high < math.inf
