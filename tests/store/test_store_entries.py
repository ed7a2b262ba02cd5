"""Entries: what is refused, and JSON that loses nothing."""

import dataclasses
import datetime as dt
import json
from decimal import Decimal

import pytest
from every import every
from hypothesis import given
from store import logkit
from store.logkit import bought, usd

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.records.entry import Entry, LoggedEstimate
from appraise.records.record_types import from_json, from_text, to_json, to_text


@given(logkit.entries)
def test_json_loses_nothing(entry):
    assert from_json(Entry, json.loads(json.dumps(to_json(entry)))) == entry
    assert from_text(to_text(entry)) == entry
    assert to_text(from_text(to_text(entry))) == to_text(entry)


@given(logkit.entries)
def test_text_is_the_same_under_any_id(entry):
    assert to_text(entry.named("0123456789abcdef")) == to_text(entry)


def test_unrecorded_fields_are_left_out():
    assert to_json(Entry("asking", dt.date(2024, 1, 2))) == {
        "record": "asking",
        "date": "2024-01-02",
    }


@every(
    ("change", "message"),
    [
        ({"record": "bougt"}, "record: 'bougt' is not known. Did you mean 'bought'?"),
        ({"record": ""}, "record: is missing"),
        ({"channel": "markt"}, "channel: 'markt' is not known. Did you mean 'market'?"),
        ({"kind": "cased "}, "kind: 'cased ' is not known"),
        ({"subjects": ("soldiers",)}, "subjects: 'soldiers' is not known. Did you mean 'soldier'?"),
        ({"process": "Ambro type"}, "process: 'Ambro type' is not a word. Write it in lower"),
        ({"housing": 3}, "housing: 3 is not a word"),
        ({"date": dt.datetime(2024, 1, 1)}, "date: '2024-01-01 00:00:00' is not a day"),
        ({"title": "a\nb"}, "title: holds a line break or tab (U+000A). Remove it."),
        ({"title": "a\x1b[2J"}, "title: holds a control character (U+001B). Remove it."),
        ({"note": "a\ud800"}, "note: holds a control character (U+D800)"),
        ({"title": "x" * 1001}, "title: is longer than 1,000 characters. Shorten it."),
        ({"appeal": 6}, "appeal: 6 is not a whole number from 1 to 5"),
        ({"appeal": True}, "appeal: True is not a whole number from 1 to 5"),
        ({"condition_factor": 0.0}, "condition_factor: 0.0 is not a number above 0 to 10"),
        ({"condition_factor": float("nan")}, "condition_factor: nan is not a number above 0"),
        ({"identified": "yes"}, "identified: 'yes' is not known. Known: full, initials, name, no"),
        ({"own_work": None}, "own_work: None is neither yes nor no"),
        ({"paid": 45}, "paid: 45 is not an amount of money"),
        ({"paid": Money(Decimal("-1"), "USD")}, "paid: -1 is not between 0 and"),
        ({"paid": Money(Decimal("1e12"), "USD")}, "paid: 1E+12 is not between 0 and"),
        ({"paid": Money(Decimal("1.005"), "USD")}, "paid: 1.005 has more decimals than USD."),
        ({"belonging": (("together", 1.2),)}, "belonging.together: 1.2 is not a number from 0"),
        ({"belonging": (("married", 0.5), ("married", 0.5))}, "belonging: names a state twice"),
        ({"id": "12"}, "id: '12' is not 16 hexadecimal digits"),
        ({"extra": {"x": {1, 2}}}, "extra.x: {1, 2} cannot be saved. Use text, numbers"),
        ({"extra": {"x": float("inf")}}, "extra.x: inf cannot be saved"),
        ({"extra": {"x": 2**63}}, "extra.x: 9223372036854775808 cannot be saved"),
    ],
)
def test_what_an_entry_may_not_be(change, message):
    with pytest.raises(InputError) as caught:
        dataclasses.replace(bought(), **change)
    assert str(caught.value).startswith(message)
    assert "\n" not in str(caught.value)


def test_an_estimate_is_in_order_and_in_one_currency():
    with pytest.raises(InputError, match="not in order"):
        LoggedEstimate(usd("3"), usd("2"), usd("4"))
    with pytest.raises(InputError, match="cannot be added"):
        LoggedEstimate(usd("1"), Money(Decimal(2), "GBP"), usd("4"))


GOOD = {"record": "bought", "date": "2024-01-02"}


@pytest.mark.parametrize(
    ("data", "message"),
    [
        ({"record": "bought"}, "date: is missing"),
        ({"date": "2024-01-02"}, "record: is missing"),
        ({"record": "bought", "date": "2024-1-2"}, "date: cannot be read: '2024-1-2'"),
        ({"record": "bought", "date": "20240102"}, "date: cannot be read: '20240102'"),
        ({"record": "bought", "date": None}, "date: cannot be read: None"),
        ([], "a record of the log needs key: value pairs"),
    ],
)
def test_what_json_is_refused(data, message):
    with pytest.raises(InputError) as caught:
        from_text(json.dumps(data))
    assert str(caught.value).startswith(message)


@pytest.mark.parametrize(
    "odd",
    [
        {"payed": None},
        {"paid": "45 USD"},
        {"paid": {"amount": 45, "currency": "USD"}},
        {"paid": {"amount": "1_0", "currency": "USD"}},
        {"title": 3},
        {"appeal": 9},
        {"estimate": {"low": None}},
        {"belonging": {"together": 1}},
        {"pictures": ["x"]},
        {"extra": []},
    ],
)
def test_what_cannot_be_read_is_kept_and_written_back(odd):
    entry = from_text(json.dumps({**GOOD, **odd}))
    assert entry.rest == odd
    assert dataclasses.replace(entry, rest={}) == from_text(json.dumps(GOOD))
    assert json.loads(to_text(entry)) == {**GOOD, **odd}


def test_broken_json_text_is_one_line():
    for text in ("{", "[" * 100_000, '"x"'):
        with pytest.raises(InputError):
            from_text(text, "0123456789abcdef")


def test_the_price_is_what_says_most():
    entry = Entry("bought", dt.date(2024, 1, 2), asked=usd("62"), offered=usd("40"))
    assert entry.price == usd("62")
    assert dataclasses.replace(entry, hammer=usd("50")).price == usd("50")
    assert dataclasses.replace(entry, hammer=usd("50"), paid=usd("61")).price == usd("61")
    assert dataclasses.replace(entry, asked=None).price == usd("40")
    assert dataclasses.replace(entry, paid=usd("0")).price == usd("0")
