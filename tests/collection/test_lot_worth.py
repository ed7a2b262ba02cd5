"""One maximum for a lot: worths summed under their plans, the bill, and each piece's share."""

from decimal import Decimal

import pytest
from collection.lotkit import DAY, lot, usd
from hypothesis import given
from hypothesis import strategies as st

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.collection.lotworth import (
    NONE_KNOWN,
    NOT_NOTED,
    SOME_UNKNOWN,
    STATED,
    all_valued,
    judged,
    lot_advice,
    valued,
    weights_of,
    worth_weights,
)
from appraise.knowledge import load
from appraise.pricing.bid import Terms
from appraise.pricing.lot import share_out
from appraise.records.lot import LotItem
from appraise.records.piece import Piece
from appraise.records.piece_file import write_piece
from appraise.records.terms import Band
from appraise.records.venue import Venue
from appraise.verdict import judge
from appraise.verdict.pay import NOTHING_LEFT

D = Decimal
ROOMS = Venue("Quay rooms", "USD", bands=(Band(None, D("0.25")),), carriage=D("12.50"))
PIECES = (
    LotItem("girl", worth=usd(40), extra=usd(10)),
    LotItem("man", plan="resell", worth=usd(30), extra=usd(99)),
    LotItem("empty case", plan="parts", worth=usd(25), parts=usd(8)),
)


def same(money):
    return money if money.currency == "USD" else None


def stated(*items):
    return [valued(item, None, NOT_NOTED, same) for item in items]


def test_worths_are_summed_under_their_plans():
    told = lot_advice(lot(selling=10), stated(*PIECES), Terms(repair=D(5)), ROOMS)
    # 40 + 30 less a tenth + 8 less a tenth = 74.20; + 10 to the buyer alone - 2 x 5 to mend the
    # two that are not taken apart = 74.20.
    assert told.total == pytest.approx(74.2)
    assert told.ceiling == usd("74.20")
    # Steps of 2 below 50: 48 + 12 + 12.50 = 72.50, and 50 + 12.50 + 12.50 = 75.00.
    assert told.bid == usd(48)
    assert told.bill.total == usd("72.50")
    # 50 : 27 : 7.20 of 84.20.
    assert told.shares == share_out(usd("72.50"), [50.0, 27.0, 7.2])
    assert sum(one.minor for one in told.shares) == 7250
    assert not told.decided
    assert (told.extra, told.less, told.capped) == (D(10), D(10), False)


def test_the_budget_of_the_settings_holds_the_ceiling_down():
    told = lot_advice(lot(), stated(*PIECES), Terms(budget=D(30), margin=D(5)), ROOMS)
    assert (told.ceiling, told.capped, told.less) == (usd(30), True, D(5))


def test_the_users_own_ceiling_stands():
    decided = lot(ceiling=usd(62), ceiling_on=DAY)
    told = lot_advice(decided, stated(*PIECES), Terms(bidders=4), ROOMS)
    assert (told.ceiling, told.decided, told.factor) == (usd(62), True, 1.0)
    assert told.bill.total <= usd(62)


def test_a_ceiling_in_another_currency_is_no_ceiling_here():
    told = lot_advice(lot(ceiling=Money.parse("48 EUR")), stated(PIECES[0]), Terms(), ROOMS)
    assert not told.decided


def test_a_worth_that_is_not_known_counts_as_nothing_and_is_told():
    told = lot_advice(lot(), stated(PIECES[0], LotItem("unseen")), Terms(), ROOMS)
    assert told.total == 40.0
    assert [one.item.title for one in told.unknown] == ["unseen"]
    assert told.shares == ()
    assert told.pieces[1].basis == NOT_NOTED


def test_a_worth_that_is_not_known_is_never_said_to_be_exceeded_by_the_costs():
    unseen, cheap = LotItem("unseen"), LotItem("case", worth=usd(5))
    for name, channel in (("limit", "market"), ("maximum bid", "auction")):
        for pieces, said in (
            ((unseen,), NONE_KNOWN),
            ((unseen, unseen), NONE_KNOWN),
            ((unseen, cheap), SOME_UNKNOWN),
            ((cheap,), NOTHING_LEFT[name]),
        ):
            pay = lot_advice(lot(channel=channel), stated(*pieces), Terms(), ROOMS).pay
            assert pay.reason == said, (name, pieces)
            assert pay.limit is None
    assert lot_advice(lot(ceiling=usd(60)), stated(unseen), Terms(), ROOMS).pay.reason == ""


def test_a_lot_of_nothing_needs_a_ceiling():
    with pytest.raises(InputError, match="holds no piece"):
        lot_advice(lot(), [], Terms(), ROOMS)
    assert lot_advice(lot(ceiling=usd(20)), [], Terms(), ROOMS).ceiling == usd(20)


def test_too_little_is_no_bid():
    told = lot_advice(lot(), stated(LotItem("case", worth=usd(5))), Terms(), ROOMS)
    assert told.bid is None
    assert told.shares == ()


def test_an_amount_without_a_rate_is_not_guessed():
    with pytest.raises(InputError, match=r"no rate for 3\.00 EUR") as caught:
        stated(LotItem("girl", worth=Money.parse("3 EUR")))
    assert "appraise rates EUR RATE" in str(caught.value)


def test_pieces_are_judged_where_the_lot_is_met():
    knowledge = load()
    noted = LotItem("girl", write_piece(Piece(channel="market", motif="vine")))
    seen = []

    def by_nothing(piece):
        seen.append(piece)
        return judge(piece, knowledge, None, DAY)

    thing = lot(channel="online", items=(noted, LotItem("case", worth=usd(4))))
    verdicts = judged(thing, knowledge, by_nothing)
    assert [piece.channel for piece in seen] == ["online"]
    assert verdicts[1] is None
    girl, case = all_valued(thing, verdicts, same)
    assert girl.basis == "the log holds no price yet"
    assert (case.worth, case.basis) == (4.0, STATED)


class TestWeights:
    def test_what_a_piece_brings_is_its_weight(self):
        assert worth_weights(stated(*PIECES), 10) == pytest.approx((50.0, 27.0, 7.2))

    def test_where_none_is_known_all_are_alike(self):
        assert worth_weights(stated(LotItem("a"), LotItem("b")), 0) == (1.0, 1.0)

    def test_where_one_is_not_known_it_is_asked_for(self):
        with pytest.raises(InputError, match="unseen: the worth is not known"):
            worth_weights(stated(PIECES[0], LotItem("unseen")), 0)

    @pytest.mark.parametrize(
        ("text", "count", "weights"),
        [
            ("equal", 3, (1.0, 1.0, 1.0)),
            (" Equal ", 1, (1.0,)),
            ("3 2 1", 3, (3.0, 2.0, 1.0)),
            ("3,2, 1.5", 3, (3.0, 2.0, 1.5)),
            ("0 1", 2, (0.0, 1.0)),
        ],
    )
    def test_shares_as_written(self, text, count, weights):
        assert weights_of(text, count) == weights

    @pytest.mark.parametrize(
        "text", ["", "3 2", "3 2 1 1", "a b c", "1 1 -1", "1 1 nan", "1 1 inf"]
    )
    def test_what_is_no_share_is_refused(self, text):
        with pytest.raises(InputError, match="is not 3 shares"):
            weights_of(text, 3)


@given(
    st.integers(1, 10**7),
    st.lists(st.floats(0.0, 1e6, allow_subnormal=False), min_size=1, max_size=8),
    st.integers(0, 100),
)
def test_shares_of_any_lot_add_up_to_the_cost_exactly(minor, worths, selling):
    items = [
        LotItem("a", plan="resell" if place % 2 else "keep", worth=usd(round(D(worth), 2)))
        for place, worth in enumerate(worths)
    ]
    total = Money.of_minor(minor, "USD")
    shares = share_out(total, worth_weights(stated(*items), selling))
    assert sum(one.minor for one in shares) == minor
    assert all(one.amount >= 0 for one in shares)
