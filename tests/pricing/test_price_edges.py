"""What holds exactly at an edge: bills line by line, least counts, and words of no weight."""

import datetime as dt
import math
from dataclasses import replace
from decimal import Decimal

import pytest
from every import every
from pricing.invented import SUBJECT, invented_log

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.pricing.bid import Terms, ceiling, opening_offer
from appraise.pricing.bill import Exchange, all_in, highest_hammer
from appraise.pricing.estimate import learn, plain, price_of
from appraise.pricing.features import PricedRow
from appraise.pricing.money import in_currency_of, terms_of
from appraise.pricing.replay import FITS, LEAST, replay
from appraise.pricing.robust import CLOSEST
from appraise.pricing.shares import Shares, corrections
from appraise.pricing.spread import FEW
from appraise.pricing.track import PastEstimate, brier, record, reliability
from appraise.pricing.worth import worth
from appraise.records.terms import PLAIN_LADDER, Band, Tax, TaxForm
from appraise.records.venue import Venue

D = Decimal
TWIN = replace(SUBJECT, process={"ambrotype": 1.0})


def usd(amount: str) -> Money:
    return Money(D(amount), "USD")


FULL = Venue(
    "abroad", "GBP", (Band(None, D("0.20")),), surcharge=D("0.03"), fee=D(7),
    tax_form=TaxForm.PREMIUM | TaxForm.FEE | TaxForm.INSURANCE | TaxForm.SHIPPING, tax=D("0.10"),
    taxes=(Tax(D("0.05"), TaxForm.HAMMER | TaxForm.SURCHARGE),), insurance=D("0.01"),
    carriage=D(11), import_tax=D("0.08"), payment=D("0.02"), exchange=D("1.5"),
    exchange_on=dt.date(2026, 5, 3), base="USD", exchange_fee=D("0.03"), travel=D(13),
)  # fmt: skip


def test_a_bill_with_every_charge_by_hand() -> None:
    """10% of 20 + 7 + 1 + 11 is 3.90; 5% of 103 is 5.15; 8% of 100 + 20 + 1 + 11 is 10.56.

    That is 161.61, with 2% of it 164.84; at 1.5 it is 247.26, and 3% of that 7.4178.
    """
    bill = all_in(FULL, Money(D(100), "GBP"))
    assert [(one.name, one.amount.plain, one.amount.currency) for one in bill.lines] == [
        ("hammer", "100.00", "GBP"), ("premium", "20.00", "GBP"), ("surcharge", "3.00", "GBP"),
        ("lot fee", "7.00", "GBP"), ("tax", "3.90", "GBP"), ("tax", "5.15", "GBP"),
        ("insurance", "1.00", "GBP"), ("carriage", "11.00", "GBP"), ("import tax", "10.56", "GBP"),
        ("payment fee", "3.23", "GBP"), ("exchange fee", "7.42", "USD"), ("travel", "13.00", "USD"),
    ]  # fmt: skip
    assert bill.invoice == Money(D("164.84"), "GBP")
    assert bill.total == usd("267.68")
    assert bill.exchange == Exchange("GBP", "USD", D("1.5"), dt.date(2026, 5, 3))
    assert highest_hammer(FULL, bill.total) == Money(D("100.00"), "GBP")


def test_one_tax_needs_no_word_of_what_it_is_on_and_two_do() -> None:
    one = all_in(replace(FULL, taxes=()), Money(D(100), "GBP"))
    assert [line.note for line in one.lines if line.name == "tax"] == [""]
    two = all_in(FULL, Money(D(100), "GBP"))
    assert [line.note for line in two.lines if line.name == "tax"] == [
        "10% on premium and fee and insurance and shipping", "5% on hammer and surcharge",
    ]  # fmt: skip


def test_a_worth_is_less_than_a_thousand_million_million() -> None:
    assert ceiling(9e14, 0.0, Terms(), "USD")[0].amount == D("9e14")
    with pytest.raises(InputError, match="not an amount"):
        ceiling(1e15, 0.0, Terms(), "USD")


@every(("asking", "offer"), [("30", "24"), ("40", "32"), ("41", "32"), ("0.10", "0.10")])
def test_an_offer_is_a_share_of_the_lower_price_in_round_figures(asking: str, offer: str) -> None:
    assert opening_offer(usd("40"), usd(asking), D("0.8"), PLAIN_LADDER) == usd(offer)


def test_what_is_asked_in_the_base_currency_is_turned_into_the_venues() -> None:
    assert in_currency_of(FULL, usd("10")) == Money(D("6.67"), "GBP")
    assert in_currency_of(FULL, Money(D("10"), "GBP")) == Money(D("10"), "GBP")
    assert in_currency_of(FULL, Money(D("10"), "EUR")) is None
    assert in_currency_of(FULL, None) is None


def test_rivals_are_met_where_bids_are_made() -> None:
    from appraise.base.settings import Settings

    settings = Settings(bidders=5)
    told = {one: terms_of(settings, one).bidders for one in ("auction", "online", "market", "fair")}
    assert told == {"auction": 5, "online": 5, "market": 1, "fair": 1}


def twins(count: int) -> list[PricedRow]:
    return [replace(TWIN, id=str(i), price=40.0) for i in range(count)]


def test_five_like_entries_bear_a_number_and_four_do_not() -> None:
    four, five = learn(twins(4)), learn(twins(5))
    assert four.estimate(TWIN).median is four.median(TWIN) is None
    assert four.estimate(TWIN).why == (
        "No estimate: about 4.0 of the 4 entries in the log are similar, and 5 are needed. They "
        "are shown instead."
    )
    assert five.estimate(TWIN).median == five.median(TWIN) == pytest.approx(40.0)
    assert five.estimate(TWIN).like == pytest.approx(5.0)


def test_a_log_of_twenty_may_be_surer_than_twin_sales_and_one_of_nineteen_not() -> None:
    """At a learnt deviation far below that of identical lots."""
    found = []
    for count in (FEW - 1, FEW):
        rows = [replace(row, price=40.0 * 1.001 ** (i % 3)) for i, row in enumerate(twins(count))]
        point = learn(rows).estimate(TWIN).point
        assert point is not None
        found.append(point.deviation)
    assert found[0] == CLOSEST
    assert found[1] < CLOSEST / 2


def test_what_is_said_of_one_piece_leaves_its_own_entries_out() -> None:
    prices = learn(invented_log(40))
    assert prices.without(["no such entry"]) is prices
    rest = prices.without(["e3", "e7"])
    assert [row.id for row in rest.rows] == [f"e{i}" for i in range(40) if i not in (3, 7)]
    assert rest.median(SUBJECT) == learn(rest.rows).median(SUBJECT)
    assert prices.median(SUBJECT) == prices.estimate(SUBJECT).median


@every(("price", "told"), [(9.994, "9.99"), (10.0, "10"), (0.5, "0.50"), (999.6, "1,000")])
def test_cents_are_told_below_ten(price: float, told: str) -> None:
    assert plain(price) == told


def test_a_price_is_kept_within_what_a_machine_holds() -> None:
    assert price_of(701.0) == price_of(5e4) == math.exp(700.0)
    assert price_of(-5e4) == math.exp(-700.0)
    assert price_of(3.0) == math.exp(3.0)


def test_ten_entries_in_a_state_teach_its_share_and_nine_do_not() -> None:
    """Ten beside ten of the judgement: half of the way. An entry at even odds counts as a half."""
    assert corrections([{"married": 1.0}] * 9, [-0.6] * 9) == {}
    assert corrections([{"married": 1.0}] * 10, [-0.6] * 10) == {"married": pytest.approx(-0.3)}
    even = corrections([{"married": 0.5, "together": 0.5}] * 20, [-0.6] * 20)
    assert even == {"married": pytest.approx(-0.3)}
    assert corrections([{"married": 0.49, "together": 0.51}] * 99, [-0.6] * 99) == {}


def test_states_from_half_a_per_cent_on_are_told() -> None:
    estimate = learn(invented_log(60)).estimate(SUBJECT)
    shares = Shares(0.5, 0.3, 0.2, 0.1)
    for chance, told in ((0.005, True), (0.0049, False)):
        found = worth(estimate, {"together": 1.0 - chance, "married": chance}, shares)
        assert found is not None
        assert ("married piece" in found.why) is told
    nothing = worth(estimate, {}, shares)
    assert nothing is not None
    assert nothing.states == (("together", 1.0, 1.0),)
    assert nothing.median == estimate.median


def test_a_piece_as_likely_worthless_as_not_is_worth_nothing_up_to_the_middle() -> None:
    found = worth(
        learn(invented_log(60)).estimate(SUBJECT), {"modern": 0.5, "period": 0.5}, Shares(1, 0, 0)
    )
    assert found is not None
    assert found.quantile(0.5) == 0.0
    assert found.quantile(0.51) > 1.0


def aged(count: int) -> list[PricedRow]:
    """Like entries, a price a week, the oldest first."""
    return [
        replace(row, age=(count - i) / 52.0, price=30.0 + i) for i, row in enumerate(twins(count))
    ]


def test_each_price_is_estimated_from_those_before_it() -> None:
    rows = aged(LEAST + 3)
    told = replay([rows[0], *rows[:0:-1]], 0.9)
    for place, one in enumerate(told, start=LEAST):
        alone = learn(rows[:place]).estimate(replace(rows[place], price=None), 0.9, shown=0)
        assert (one.low, one.median, one.high) == (alone.low, alone.median, alone.high)
        assert (one.price, one.level) == (rows[place].price, 0.9)
    assert len(told) == 3


class Learnt(list):
    """In place of a learnt log: each price is taken for a thousandth of the last one in it."""

    def estimate(self, subject: PricedRow, level: float, shown: int) -> PastEstimate:
        last = (self[-1].price or 0.0) / 1000.0
        return PastEstimate(last / 100.0, last, last, level, 1.0)


@every(("count", "stride"), [(LEAST + FITS, 1), (LEAST + FITS + 1, 2), (LEAST + 2 * FITS + 1, 3)])
def test_of_more_than_seventy_prices_so_many_are_estimated_in_a_row(count, stride) -> None:
    steps: list[tuple[int, int]] = []
    rows = aged(count)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("appraise.pricing.replay.learn", Learnt)
        told = replay(rows, step=lambda *step: steps.append(step))
    assert steps == [(done, count - LEAST) for done in range(0, count - LEAST, stride)]
    assert [one.price for one in told] == [row.price for row in rows[LEAST:]]
    before = [LEAST + (place - LEAST) // stride * stride - 1 for place in range(LEAST, count)]
    assert [one.median for one in told] == [(rows[i].price or 0.0) / 1000.0 for i in before]
    assert {one.low for one in told} == {0.01}  # nothing costs less than a cent


@every(
    "figures",
    [(0.0, 1, 1, 0.8, 1), (1, 1, 1, 0.0, 1), (1, 1, 1, 0.8, 0.0), (1, 1, math.inf, 0.8, 1),
     (1, 0.9, 2, 0.8, 1), (1, 2.1, 2, 0.8, 1)],
)  # fmt: skip
def test_a_forecast_may_be_a_single_price_and_nothing_less(figures: tuple[float, ...]) -> None:
    assert PastEstimate(1.0, 1.0, 1.0, 0.999, 1e-9).median == 1.0
    with pytest.raises(InputError, match="forecast"):
        PastEstimate(*figures)


def test_a_price_on_either_end_lies_inside_its_interval() -> None:
    told = record([PastEstimate(2.0, 3.0, 4.0, 0.8, price) for price in (1.9, 2.0, 4.0, 4.1)])
    assert told is not None
    assert (told.count, told.inside, told.coverage) == (4, 2, 0.5)


def test_steps_of_a_reliability_picture_begin_with_their_lower_edge() -> None:
    said, came = [0.0, 0.2, 0.39, 0.4, 1.0], [False, True, False, True, True]
    told = reliability(said, came)
    assert [(one.said, one.came, one.count) for one in told] == [
        (0.0, 0.0, 1), (pytest.approx(0.295), 0.5, 2), (0.4, 1.0, 1), (1.0, 1.0, 1),
    ]  # fmt: skip
    assert brier([1.0, 0.0], [True, True]) == 0.5
