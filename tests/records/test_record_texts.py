"""Records as the log writes them: what comes back, what is kept as it stands, what is refused."""

import datetime as dt
import json
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from store.logkit import lines, moneys, pages, slugs

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.records import record_types
from appraise.records.entry import Entry
from appraise.records.fields import changed
from appraise.records.lot import Lot
from appraise.records.values import Author
from appraise.records.want import Want

DAY = dt.date(2024, 5, 30)
BY = Author("USD", DAY)
wants = st.builds(
    Want,
    title=lines,
    since=st.dates(),
    kind=st.sampled_from(("", "cased", "card")),
    process=slugs,
    housing=slugs,
    formats=st.lists(slugs.filter(bool), max_size=3).map(tuple),
    motif=lines,
    most=st.none() | moneys,
    note=pages,
)


@given(wants)
def test_a_record_comes_back_as_it_was_kept(thing):
    text = record_types.to_text(thing)
    assert record_types.name_of_thing(thing) == record_types.type_of(text)
    assert record_types.from_text(text) == thing
    assert record_types.to_text(record_types.from_text(text)) == text


@pytest.mark.parametrize("text", ["", "[]", '{"holding":{}}', '{"holding":{"want":[]}}'])
def test_text_that_the_log_cannot_have_written_is_refused(text):
    with pytest.raises(InputError):
        record_types.from_text(text)


@pytest.mark.parametrize(
    "text",
    [
        '{"holding":{"want":{}}}',
        '{"holding":{"wont":{"title":"a"}}}',
        '{"holding":{"want":{"since":"2024-05-30","title":3}}}',
        '{"holding":{"want":{"since":"2024-05-32","title":"a"}}}',
        '{"holding":{"lot":{"currency":"USD","since":"2024-05-30","state":"won","title":"a"}}}',
    ],
)
def test_a_record_that_is_not_known_is_kept_as_it_stands(text):
    thing = record_types.from_text(text)
    assert isinstance(thing, record_types.Unknown)
    assert record_types.to_text(thing) == text


@pytest.mark.parametrize(
    "more",
    [
        {"size": "b"},
        {"subject": "newer-word"},
        {"first": "1850"},
        {"most": {"amount": "3", "currency": "XXX"}},
        {"formats": ["ninth", 3]},
    ],
)
def test_a_field_that_is_not_known_is_kept_and_written_back(more):
    text = json.dumps({"holding": {"want": {"since": "2024-05-30", "title": "a", **more}}})
    want = record_types.from_text(text)
    assert want.title == "a"
    assert want.rest == more
    after = changed(want, {"motif": "vine", "title": "b"}, BY)
    assert json.loads(record_types.to_text(after))["holding"]["want"] == {
        "since": "2024-05-30",
        "title": "b",
        "motif": "vine",
        **more,
    }


def test_a_value_typed_over_one_that_cannot_be_read_takes_its_place():
    text = '{"holding":{"want":{"since":"2024-05-30","subject":"newer-word","title":"a"}}}'
    after = changed(record_types.from_text(text), {"subject": "soldier"}, BY)
    assert '"subject":"soldier"' in record_types.to_text(after)


def test_a_price_stands_by_itself_without_its_id_and_every_other_record_under_its_type():
    price = Entry("bought", DAY, title="lady", paid=Money(Decimal("85.00"), "USD"))
    told = json.loads(record_types.to_text(price))
    assert "id" not in told
    assert told["paid"] == {"amount": "85.00", "currency": "USD"}
    assert record_types.type_of(record_types.to_text(price)) == "price"
    mine = record_types.from_text(record_types.to_text(price), "0123456789abcdef")
    assert (mine.id, mine.title, mine.paid) == ("0123456789abcdef", "lady", price.paid)
    lot = Lot("three plates", DAY, "USD")
    assert list(json.loads(record_types.to_text(lot))) == ["holding"]
    assert record_types.type_of(record_types.to_text(lot)) == record_types.name_of(Lot) == "lot"
    assert record_types.name_of_thing(lot) == "lot"


def test_equal_records_are_equal_text_and_nothing_is_written_of_what_was_not_recorded():
    bare = Want("ninth vine", DAY)
    assert record_types.to_text(Want("ninth vine", DAY, motif="", formats=())) == (
        record_types.to_text(bare)
    )
    assert json.loads(record_types.to_text(bare)) == {
        "holding": {"want": {"title": "ninth vine", "since": "2024-05-30"}}
    }


def test_every_type_is_found_by_its_name_and_the_name_by_the_type():
    assert len(record_types.TYPES) == len(list(record_types.TYPES)) == 10
    for name, sort in record_types.TYPES.items():
        assert record_types.name_of(sort) == name
        assert name in record_types.TYPES
    assert "wont" not in record_types.TYPES


@pytest.mark.parametrize("text", ["{", "[" * 100_000, "3", '{"holding":{"lot":{},"want":{}}}'])
def test_what_is_no_record_is_told_in_one_line(text):
    with pytest.raises(InputError) as told:
        record_types.from_text(text, "0123456789abcdef")
    assert "\n" not in str(told.value)


def test_a_value_that_the_whole_record_refuses_is_kept_beside_it():
    """A rate that is none: a venue can do without its travel cost, but not without its currency."""
    venue = {"name": "the hall", "currency": "USD", "ladder": "plain", "travel": "-3"}
    text = json.dumps({"holding": {"venue": venue}})
    found = record_types.from_text(text)
    assert (found.name, found.travel, found.rest) == ("the hall", Decimal(0), {"travel": "-3"})
    assert json.loads(record_types.to_text(found)) == json.loads(text)
    odd = json.dumps({"holding": {"venue": {**venue, "currency": "XQQ"}}})
    assert isinstance(record_types.from_text(odd), record_types.Unknown)


@pytest.mark.parametrize("amount", ["1.2345", "-1", "1e3", "+1", "1234567890123", "", "1."])
def test_an_amount_is_written_in_plain_digits(amount):
    with pytest.raises(ValueError, match="amount of money"):
        record_types.amount_of(amount, "USD")


def test_an_amount_of_no_currency_is_refused():
    assert record_types.amount_of("123456789012.50", "USD").amount == Decimal("123456789012.50")
    with pytest.raises(InputError):
        record_types.amount_of("1", "XXQ")


def test_a_day_is_written_in_one_way():
    """20240530 is the basic form of ISO 8601, which the log never writes."""
    for on in ("20240530", "2024-W22-4"):
        text = json.dumps({"holding": {"want": {"since": on, "title": "a"}}})
        assert isinstance(record_types.from_text(text), record_types.Unknown)


def test_a_record_without_a_place_for_the_rest_refuses_what_it_does_not_know():
    lot = {"currency": "USD", "since": "2024-05-30", "title": "a"}
    text = json.dumps({"holding": {"lot": {**lot, "items": [{"colour": "red"}]}}})
    assert record_types.from_text(text).rest == {"items": [{"colour": "red"}]}
