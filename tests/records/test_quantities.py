"""Amounts, numbers, days and years as they are typed, kept, refused, and found by a filter."""

import datetime as dt
from decimal import Decimal

import pytest
from every import every

from appraise.base.errors import InputError
from appraise.base.logday import read_log_day
from appraise.base.money import Money
from appraise.records.fields import Author
from appraise.records.quantities import (
    COMING,
    DAY,
    LOG_DAY,
    AmountKind,
    AmountRangeKind,
    ClosingKind,
    CountKind,
    DatedKind,
    InstantKind,
    NumberKind,
    PercentKind,
    YearRangeKind,
    span,
)

TODAY = dt.date(2026, 11, 7)
BY = Author("USD", TODAY)
YEARS = YearRangeKind()


def usd(amount):
    return Money(Decimal(amount), "USD")


@every(
    ("text", "ends"),
    [("20..50", ("20", "50")), ("20-50", ("20", "50")), ("2.5-3", ("2.5", "3")),
     ("20..", ("20", "")), ("..50", ("", "50")), ("20", ("20", "20"))],
)  # fmt: skip
def test_both_ends_of_a_span(text, ends):
    assert span(text) == ends


@every(
    ("text", "ends"),
    [("2019-2021", ("2019", "2021")), ("2019-06", ("2019-06", "2019-06")),
     ("2019..2021-06", ("2019", "2021-06"))],
)  # fmt: skip
def test_of_days_a_hyphen_stands_between_whole_years_alone(text, ends):
    assert span(text, days=True) == ends


@every(
    ("wanted", "found"),
    [("20-50", True), ("50", True), ("50..", True), ("..50", True), ("50.01..", False),
     ("..49.99", False), ("49", False)],
)  # fmt: skip
def test_a_span_of_amounts_holds_its_ends(wanted, found):
    assert AmountKind().fits(usd(50), wanted) is found
    assert NumberKind(0, 100).fits(50.0, wanted) is found
    if "." not in wanted.replace("..", ""):
        assert CountKind().fits(50, wanted) is found


@every("kind", [AmountKind(), NumberKind(0, 100), CountKind(), DAY, DatedKind()], ids=str)
def test_what_was_not_recorded_fits_no_span(kind):
    assert not kind.fits(None, "1800..2100")


@every("kind", [AmountKind(), NumberKind(0, 100), CountKind()], ids=str)
def test_a_span_of_words_is_refused(kind):
    with pytest.raises(InputError, match="is not a number"):
        kind.fits(None, "cheap..dear")


def test_an_amount_is_not_negative_and_where_asked_above_nothing():
    AmountKind().check("price", usd(0))
    AmountKind(above=True).check("price", usd("0.01"))
    AmountKind(above=True).check("price", None)
    with pytest.raises(InputError, match="above 0"):
        AmountKind(above=True).check("price", usd(0))
    with pytest.raises(InputError, match="not between"):
        AmountKind().check("price", usd(-1))


@every(
    ("text", "low", "high"),
    [("40..65 USD", usd(40), usd(65)), ("40..65", usd(40), usd(65)), ("50", usd(50), usd(50)),
     ("40 EUR..65 EUR", Money(Decimal(40), "EUR"), Money(Decimal(65), "EUR"))],
)  # fmt: skip
def test_an_estimate_is_two_amounts_or_one(text, low, high):
    kind = AmountRangeKind()
    assert kind.read(text, BY) == (low, high)
    assert kind.read(kind.write((low, high)), Author(low.currency, TODAY)) == (low, high)
    kind.check("estimate", (low, high))


@every(
    ("text", "low", "high"),
    [("180-250", 180, 250), ("$180-250", 180, 250), ("180 to 250 USD", 180, 250),
     ("est. 180 - 250", 180, 250), ("between 180 and 250", 180, 250)],
)  # fmt: skip
def test_an_estimate_as_salerooms_write_it(text, low, high):
    assert AmountRangeKind().read(text, BY) == (usd(low), usd(high))


def test_an_estimate_takes_the_currency_of_its_first_amount():
    low, high = AmountRangeKind().read("\u00a3180-250", BY)
    assert (low.currency, high.currency) == ("GBP", "GBP")


@every(
    ("text", "words"),
    [("cheap", "Write 40..65"), ("1,250-1,500", "reads two ways"),
     ("2026-12-06", "not an estimate")],
)  # fmt: skip
def test_what_is_no_estimate_is_told_by_its_own_example(text, words):
    with pytest.raises(InputError) as raised:
        AmountRangeKind().read(text, BY)
    assert words in str(raised.value)


def test_a_day_to_come_counts_from_today():
    assert COMING.read("14 days", BY) == TODAY + dt.timedelta(days=14)
    assert ClosingKind().read("tomorrow 20:00 UTC", BY).at == dt.datetime(
        TODAY.year, TODAY.month, TODAY.day, 20, tzinfo=dt.UTC
    ) + dt.timedelta(days=1)


@every("text", ["65..40 USD", "40 EUR..65 USD"])
def test_an_estimate_that_runs_backwards_or_in_two_currencies_is_none(text):
    with pytest.raises(InputError, match="is not an estimate"):
        AmountRangeKind().read(text, BY)


def test_half_an_estimate_is_kept_and_one_that_runs_backwards_is_not():
    kind = AmountRangeKind()
    assert kind.write((None, usd(65))) == kind.write((usd(65), None)) == str(usd(65))
    assert kind.write((None, None)) == ""
    for half in ((None, usd(65)), (usd(65), None), (usd(65), usd(65))):
        kind.check("estimate", half)
    with pytest.raises(InputError, match="is not an estimate"):
        kind.check("estimate", (usd(65), usd(40)))


@every("text", ["2026-02-30", "7 Nov 20", "", "2026", "14 days"])
def test_what_is_no_calendar_day_is_refused(text):
    with pytest.raises(InputError, match="is not a day"):
        DAY.read(text, BY)


@every("value", ["2026-11-07", dt.datetime(2026, 11, 7, 12), 20261107], ids=repr)
def test_a_day_is_a_day_and_neither_text_nor_an_hour(value):
    DAY.check("on", TODAY)
    DAY.check("on", None)
    LOG_DAY.check("on", TODAY)
    for kind in (DAY, LOG_DAY):
        with pytest.raises(InputError, match="is not a day"):
            kind.check("on", value)


@every(
    ("wanted", "found"),
    [("2026", True), ("2026-11", True), ("2026-11-07", True), ("2026-11-07..", True),
     ("..2026-11-07", True), ("2025..2026", True), ("2025-2026", True), ("2026-11-08..", False),
     ("..2026-11-06", False), ("..2026-10", False), ("2025", False), ("2027..", False)],
)  # fmt: skip
def test_a_day_is_found_by_year_month_and_day(wanted, found):
    assert DAY.fits(TODAY, wanted) is found
    assert LOG_DAY.fits(TODAY, wanted) is found


@every(
    ("wanted", "found"),
    [("2026", True), ("2026-03", True), ("2026-12", True), ("2025..2026-01", True), ("2027", False),
     ("2025", False), ("..2025-12-31", False)],
)  # fmt: skip
def test_a_day_known_by_its_year_may_be_any_day_of_it(wanted, found):
    assert LOG_DAY.fits(read_log_day("2026"), wanted) is found


@every(
    ("wanted", "found"),
    [("1858", True), ("1850-1855", True), ("1862..", True), ("..1854", False), ("1863..", False),
     ("..1855", True)],
)  # fmt: skip
def test_years_fit_where_they_touch(wanted, found):
    """Years of an object as EDTF (ISO 8601-2:2019) and as a range: an overlap is enough."""
    assert DatedKind().fits("1855/1862", wanted) is found
    assert YEARS.fits((1855, 1862), wanted) is found


def test_an_open_range_of_years_has_no_end():
    assert YEARS.fits((1855, None), "1990")
    assert YEARS.fits((None, 1862), "1801")
    assert not YEARS.fits((1855, None), "..1854")
    assert not YEARS.fits((None, 1862), "1863..")
    assert YEARS.fits((None, None), "1858")


@every("wanted", ["185x", "0", "12345", "1850-x"])
def test_what_is_no_year_is_refused(wanted):
    with pytest.raises(InputError, match="is not a year"):
        YEARS.fits((1855, 1862), wanted)


@every(
    ("text", "value"),
    [("1855..1862", (1855, 1862)), ("1855-1862", (1855, 1862)), ("1855 to 1862", (1855, 1862)),
     ("1855..", (1855, None)), ("..1862", (None, 1862)), ("1858", (1858, 1858))],
)  # fmt: skip
def test_a_range_of_years_is_read_and_written(text, value):
    assert YEARS.read(text, BY) == value
    assert YEARS.read(YEARS.write(value), BY) == value
    YEARS.check("years", value)


@every("text", ["..", "185", "1855..62", "long ago", ""])
def test_what_is_no_range_of_years_is_refused(text):
    with pytest.raises(InputError, match="not a span of years"):
        YEARS.read(text, BY)


@every(
    ("value", "why"),
    [((1862, 1855), "runs backwards"), ((1799, 1855), "whole number"),
     ((1855, 2101), "whole number"), ((1855.5, 1862), "whole number")],
)  # fmt: skip
def test_years_that_cannot_be_are_refused(value, why):
    with pytest.raises(InputError, match=why):
        YEARS.check("years", value)
    YEARS.check("years", (1800, 2100))


def test_a_date_with_blanks_round_it_is_refused_and_read_without_them():
    assert DatedKind().read(" 1858~ ", BY) == "1858~"
    DatedKind().check("dated", "1858~")
    DatedKind().check("dated", "")
    with pytest.raises(InputError, match="blanks"):
        DatedKind().check("dated", " 1858~")


@every(("text", "number"), [("0", 0), ("100", 100), ("07", 7)])
def test_a_count_within_its_bounds(text, number):
    assert CountKind().read(text, BY) == number
    assert CountKind(percent=True).read(f"{text} %", BY) == number


@every("text", ["101", "-1", "3.5", "²", "9999999999", "5 %", ""])
def test_a_count_beyond_them_is_refused(text):
    with pytest.raises(InputError, match="whole number of 0 to 100"):
        CountKind().read(text, BY)


@every(("text", "number"), [("0.5", 0.5), ("0,5", 0.5), ("10", 10.0)])
def test_a_number_with_point_or_comma(text, number):
    kind = NumberKind(0, 10, above=True)
    assert kind.read(text, BY) == number
    assert kind.read(kind.write(number), BY) == number


@every("text", ["0", "10.01", "nan", "inf", "half"])
def test_a_number_that_must_lie_above_is_not_its_bound(text):
    with pytest.raises(InputError, match="is not a number above 0, up to 10"):
        NumberKind(0, 10, above=True).read(text, BY)


@every("share", ["-0.1", "100.1", "NaN", "Infinity"])
def test_a_share_lies_within_the_whole(share):
    PercentKind().check("share", Decimal(0))
    PercentKind().check("share", Decimal(100))
    with pytest.raises(InputError, match="no share of the price"):
        PercentKind().check("share", Decimal(share))


@every(("share", "text"), [("50", "50"), ("100", "100"), ("12.50", "12.5"), ("0.0", "0")])
def test_a_share_is_written_without_an_exponent(share, text):
    """100 normalized by itself is 1E+2, which nobody types."""
    assert PercentKind().write(Decimal(share)) == text


def test_an_end_of_a_sale_and_an_instant_are_no_text():
    closing = ClosingKind().read("2026-11-09 19:00 +00:00", BY)
    ClosingKind().check("closes", closing)
    ClosingKind().check("closes", None)
    assert ClosingKind().read(ClosingKind().write(closing), BY).at == closing.at
    with pytest.raises(InputError, match="is not a time"):
        ClosingKind().check("closes", "2026-11-09")
    noon = dt.datetime(2026, 11, 7, 12, 5, tzinfo=dt.UTC)
    InstantKind().check("at", noon)
    assert InstantKind().write(noon) == "2026-11-07 12:05 UTC"
    with pytest.raises(InputError):
        InstantKind().check("at", noon.replace(tzinfo=None))
