"""A day that is known in part or not at all: kept, found, sorted, exported and back again."""

import datetime as dt
import json
from decimal import Decimal

import pytest
from store.logkit import bought, opened

from appraise.base.logday import read_log_day
from appraise.base.money import Money
from appraise.cli.main import run
from appraise.collection.budget_status import spent_on
from appraise.exchange.csv_file import to_csv
from appraise.exchange.intake import take_in
from appraise.exchange.sheets import read_csv
from appraise.exchange.yaml_file import from_yaml, to_yaml
from appraise.knowledge import load
from appraise.pricing.price_rows import priced_rows
from appraise.records.record_types import from_text, to_text
from appraise.records.venuebook import VenueBook
from appraise.store.venue_book import read_budget_status

DAYS = ("2018-08-20", "2018-08", "2019-21", "2015~", "unknown", "[..2014]", "2019-03-02")


@pytest.fixture
def log(tmp_path):
    with opened(tmp_path / "log.sqlite") as log:
        log.add_all([bought(title=f"day {day}", date=read_log_day(day)) for day in DAYS])
        yield log


def days(log, query="", sort="date"):
    return [str(one.date) for one in log.entries(query, sort=sort)]


def test_they_are_sorted_by_the_first_day_and_the_unknown_last(log):
    order = ["[..2014]", "2015~", "2018-08", "2018-08-20", "2019-21", "2019-03-02", "unknown"]
    assert days(log) == order
    assert days(log, sort="-date")[-1] == "unknown"
    assert days(log, sort="-date")[:2] == ["2019-03-02", "2019-21"]


@pytest.mark.parametrize(
    ("query", "found"),
    [
        ("date:2018", {"2018-08-20", "2018-08"}),
        ("date:2018-08-01..2018-08-05", {"2018-08"}),
        ("date:2019-04", {"2019-21"}),
        ("date:..2013", {"2015~", "[..2014]"}),
        ("date:2017", {"2015~"}),
        ("date:?", {"unknown"}),
        ("-date:?", set(DAYS) - {"unknown"}),
        ("-date:2018", set(DAYS) - {"2018-08-20", "2018-08"}),
    ],
)
def test_a_filter_finds_what_may_have_been_then(log, query, found):
    assert set(days(log, query)) == found


def test_they_come_back_from_every_form(log):
    entries = log.entries()
    assert all(from_text(to_text(one), one.id) == one for one in entries)
    assert from_yaml(to_yaml(entries), "log.yaml") == entries
    assert read_csv(to_csv(entries), "log.csv").entries == entries
    assert take_in(log, entries).known == len(DAYS)


def test_the_model_takes_the_middle_of_a_span_and_no_age_of_a_wide_one(log):
    rows = priced_rows(log.entries(), load(), "USD", dt.date(2024, 6, 1))
    ages = {row.motif.removeprefix("day "): row.age for row in rows}
    assert ages["2018-08"] == pytest.approx(
        (dt.date(2024, 6, 1) - dt.date(2018, 8, 16)).days / 365.25
    )
    assert ages["2015~"] == pytest.approx((dt.date(2024, 6, 1) - dt.date(2015, 7, 2)).days / 365.25)
    assert ages["unknown"] is None
    assert ages["[..2014]"] is None


def test_a_budget_counts_what_surely_lies_in_its_month(log):
    status = read_budget_status(log, "USD", dt.date(2018, 8, 31))
    assert status.bought == 2  # the twentieth, and the month
    assert read_budget_status(log, "USD", dt.date(2019, 3, 31)).bought == 1  # spring may be May
    assert spent_on(log.entries("date:?"), "USD", VenueBook())[0] == Money(Decimal(45), "USD")


def test_typed_edited_and_listed(tmp_path, monkeypatch, capsys):
    monkeypatch.setenv("APPRAISE_HOME", str(tmp_path))
    line = "sixth ambrotype vine 38 usd, quay market, spring 2019"
    assert run(["log", "add", "--yes", "--json", line]) == 0
    told = json.loads(capsys.readouterr().out)["entry"]
    assert told["date"] == "2019-21"
    assert "2019" not in told["title"]
    assert run(["log", "edit", told["id"], "date=about 2015"]) == 0
    assert run(["log", "list"]) == 0
    assert "  about 2015   bought" in capsys.readouterr().out
    assert run(["log", "edit", told["id"], "date=unknown"]) == 0
    assert run(["log", "show", told["id"]]) == 0
    assert "unknown" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("words", "day"),
    [
        ("about 2015", "2015~"),
        ("2018-08", "2018-08"),
        ("August 2018", "2018-08"),
        ("in 2017", "2017"),
        ("day unknown", "unknown"),
        ("winter of 2016", "2016-24"),
    ],
)
def test_the_part_of_a_day_in_a_line(words, day):
    from appraise.listing.quick import understand_entry

    line = f"ninth tintype of a soldier about 1863, 40 usd, {words}"
    found = understand_entry(line, load(), "USD", dt.date(2024, 5, 31))
    assert str(found.entry.date) == day
    assert found.entry.paid == Money(Decimal(40), "USD")
