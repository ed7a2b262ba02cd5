"""Bills, ladders, proxy bids and the winner's curse against published rules and worked tables."""

from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal

import numpy as np
import pytest

from appraise.base.money import EXPONENTS, Money
from appraise.pricing.bill import all_in, highest_hammer, premium
from appraise.pricing.shade import overpaid, shade
from appraise.records.terms import Band, TaxForm
from appraise.records.venue import Venue

D = Decimal


def lines(venue: Venue, hammer: str) -> dict[str, str]:
    bill = all_in(venue, Money(D(hammer), venue.currency))
    return {line.name: line.amount.plain for line in bill.lines} | {"total": bill.total.plain}


def test_premium_of_a_published_margin_scheme_example() -> None:
    """HMRC, VAT Margin Schemes manual VATMARG04150: 10,000 at 12 % premium costs 11,200."""
    venue = Venue("sale", "GBP", (Band(None, D("0.12")),))
    assert lines(venue, "10000") == {
        "hammer": "10000.00",
        "premium": "1200.00",
        "total": "11200.00",
    }


class TestBandedBill:
    """A constructed bill, worked by hand. The premium as part of what sales tax is charged on:
    New York State Department of Taxation and Finance, TSB-A-24(48)S, 2024.
    """

    VENUE = Venue(
        "constructed",
        "USD",
        (Band(D(1000), D("0.25")), Band(D(5000), D("0.20")), Band(None, D("0.12"))),
        surcharge=D("0.03"),
        tax_form=TaxForm.ALL,
        tax=D("0.0825"),
        insurance=D("0.01"),
        carriage=D(45),
        payment=D("0.029"),
    )

    def test_lines(self) -> None:
        assert lines(self.VENUE, "1200") == {
            "hammer": "1200.00",
            "premium": "290.00",
            "surcharge": "36.00",
            "tax": "125.90",
            "insurance": "12.00",
            "carriage": "45.00",
            "payment fee": "49.56",
            "total": "1758.46",
        }

    @pytest.mark.parametrize(
        ("hammer", "due"),
        [("850", "212.50"), ("1000", "250.00"), ("5000", "1050.00"), ("7500", "1350.00")],
    )
    def test_bands(self, hammer: str, due: str) -> None:
        assert premium(self.VENUE, D(hammer)) == D(due)

    @pytest.mark.parametrize(
        ("cap", "hammer"), [("500", "315.93"), ("1800", "1230.10"), ("2500", "1737.20")]
    )
    def test_inverse(self, cap: str, hammer: str) -> None:
        assert highest_hammer(self.VENUE, Money(D(cap), "USD")) == Money(D(hammer), "USD")

    def test_the_next_cent_is_over(self) -> None:
        assert lines(self.VENUE, "315.93")["total"] == "500.00"
        assert lines(self.VENUE, "315.94")["total"] == "500.02"


class TestLotBoughtAbroad:
    """A constructed bill: tax on the premium only, as a margin-scheme lot abroad (HMRC Notice
    718/2), an exchange rate and its fee. Import tax of 5 % effective on collectors' pieces: HMRC,
    Imports manual IMPS05200.
    """

    VENUE = Venue(
        "abroad",
        "EUR",
        (Band(None, D("0.24")),),
        tax_form=TaxForm.PREMIUM,
        tax=D("0.20"),
        carriage=D(28),
        exchange=D("1.27"),
        base="USD",
        exchange_fee=D("0.03"),
    )

    def test_lines(self) -> None:
        bill = all_in(self.VENUE, Money(D(300), "EUR"))
        assert bill.invoice == Money(D("414.40"), "EUR")
        assert lines(self.VENUE, "300") == {
            "hammer": "300.00",
            "premium": "72.00",
            "tax": "14.40",
            "carriage": "28.00",
            "exchange fee": "15.79",
            "total": "542.08",
        }

    @pytest.mark.parametrize(("rate", "due"), [("0.05", "21.00"), ("0.20", "84.00")])
    def test_import_tax_on_value_and_freight(self, rate: str, due: str) -> None:
        venue = Venue("import", "GBP", carriage=D(40), import_tax=D(rate))
        assert lines(venue, "380")["import tax"] == due

    def test_tax_on_hammer_and_premium(self) -> None:
        """Lots under ordinary value added tax: charged on both (common practice)."""
        venue = Venue(
            "v", "GBP", (Band(None, D("0.2")),), tax_form=TaxForm.HAMMER_AND_PREMIUM, tax=D("0.2")
        )
        assert lines(venue, "100")["tax"] == "24.00"


SIGMAS = (0.1, 0.2, 0.3, 0.4, 0.5)
# Quadrature to six decimals: middle / mean / equilibrium for each sigma.
CURSE = {
    2: ".946963 .948358 1.002503 .896739 .905467 1.010050 .849179 .870299 1.022755 "
    ".804141 .842036 1.040811 .761492 .820030 1.064494",
    3: ".921334 .921414 .969857 .848856 .853693 .944321 .782080 .795250 .923060 "
    ".720557 .744778 .905800 .663873 .701192 .892319",
    4: ".905005 .904391 .949442 .819034 .821881 .904462 .741230 .750450 .864483 "
    ".670817 .688428 .829009 .607092 .634433 .797610",
    5: ".893240 .892192 .934918 .797878 .799507 .876677 .712697 .719539 .824497 "
    ".636609 .650309 .777702 .568645 .590181 .735703",
    8: ".870646 .868915 .907449 .758024 .757771 .825418 .659971 .663204 .752566 "
    ".574601 .582467 .687743 .500274 .513309 .629953",
    10: ".860814 .858845 .895667 .741001 .740099 .803942 .637864 .639870 .723143 "
    ".549082 .554995 .651833 .472658 .482892 .588779",
}


class TestWinnersCurse:
    """Capen, Clapp and Campbell 1971, Journal of Petroleum Technology 23, 641-653; Milgrom and
    Weber 1982, Econometrica 50, 1089-1122; the table by independent quadrature and simulation.
    """

    @pytest.mark.parametrize("bidders", CURSE)
    def test_table(self, bidders: int) -> None:
        told = [
            factor
            for sigma in SIGMAS
            for s in [shade(sigma, bidders)]
            for factor in (s.middle, s.mean, s.equilibrium)
        ]
        assert told == pytest.approx([float(x) for x in CURSE[bidders].split()], abs=6e-7)

    @pytest.mark.parametrize(
        ("bidders", "median", "mean"),
        [
            (2, 0.8503, 0.8714),
            (3, 0.7828, 0.7964),
            (4, 0.7421, 0.7516),
            (5, 0.7130, 0.7201),
            (8, 0.6605, 0.6637),
            (10, 0.6384, 0.6403),
        ],
    )
    def test_simulated_table(self, bidders: int, median: float, mean: float) -> None:
        told = shade(0.3, bidders)
        assert (told.middle, told.mean) == pytest.approx((median, mean), abs=0.003)

    def test_simulation(self) -> None:
        highest = np.random.default_rng(20240601).standard_normal((200000, 4)).max(axis=1)
        told = shade(0.3, 4)
        assert told.middle == pytest.approx(float(np.exp(-0.3 * np.median(highest))), abs=0.003)
        assert told.mean == pytest.approx(float(np.exp(-0.3 * highest).mean()), abs=0.003)

    def test_chance_that_raw_estimates_overpay(self) -> None:
        told = [overpaid(n) for n in (2, 3, 4, 5, 8, 10)]
        assert told == pytest.approx([0.25, 0.5, 0.6875, 0.8125, 0.96484, 0.98926], abs=5e-6)


class TestMoney:
    """ISO 4217 minor units and decimal rounding."""

    @pytest.mark.parametrize(
        ("code", "digits"),
        [("USD", 2), ("EUR", 2), ("GBP", 2), ("JPY", 0), ("KRW", 0), ("KWD", 3), ("BHD", 3)],
    )
    def test_minor_units(self, code: str, digits: int) -> None:
        """ISO 4217, table A.1."""
        assert EXPONENTS[code] == digits

    @pytest.mark.parametrize(
        ("amount", "up", "even"), [("0.125", "0.13", "0.12"), ("2.665", "2.67", "2.66")]
    )
    def test_ties(self, amount: str, up: str, even: str) -> None:
        """Half up on bills, half even nowhere: Python's decimal module as the reference."""
        assert Money(D(amount), "USD").rounded(ROUND_HALF_UP).plain == up
        assert D(amount).quantize(D("0.01"), rounding=ROUND_HALF_EVEN) == D(even)
        assert lines(Venue("v", "USD", (Band(None, D(amount)),)), "1")["premium"] == up

    def test_a_thousand_ties_add_up_to_five(self) -> None:
        total = sum((Money(D(n) / 1000, "USD").rounded().amount for n in range(5, 10005, 10)), D(0))
        exact = sum((D(n) / 1000 for n in range(5, 10005, 10)), D(0))
        assert total - exact == D("5.000")

    def test_no_binary_fractions(self) -> None:
        venue = Venue("v", "USD", carriage=D("0.2"))
        assert lines(venue, "0.1")["total"] == "0.30"
        assert 0.1 + 0.2 != 0.3
