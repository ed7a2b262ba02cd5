"""The fields of a lot as they are typed: read, written, and refused in a line."""

import datetime as dt
from zoneinfo import ZoneInfo

import pytest
from collection.lotkit import DAY, lot, usd

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.records.fields import changed, written
from appraise.records.lot import LotItem
from appraise.records.values import Author

BY = Author("USD", DAY, zone=ZoneInfo("Europe/Berlin"), zone_name="Europe/Berlin")
TWO = lot(items=(LotItem("girl"), LotItem("empty case", plan="parts")))


def test_every_field_is_read():
    texts = {
        "title": "three  pieces",
        "venue": "Quay rooms",
        "channel": "Online",
        "number": "118",
        "where": "quay.example/118",
        "closes": "2026-11-08 20:00",
        "currency": "eur",
        "asking": "20",
        "estimate": "40..55",
        "selling": "12 %",
        "ceiling": "75",
        "chance": "40",
        "note": "seen on Friday",
        "piece.2.parts": "7 USD",
        "piece.1.plan": "resell",
    }
    after = changed(TWO, texts, BY)
    assert after.title == "three pieces"
    assert after.channel == "online"
    assert after.closes.at == dt.datetime(2026, 11, 8, 19, tzinfo=dt.UTC)
    assert after.closes.zone == "Europe/Berlin"
    assert after.asking == Money.parse("20 EUR")
    assert (after.low, after.high) == (Money.parse("40 EUR"), Money.parse("55 EUR"))
    assert (after.selling, after.chance) == (12, 40)
    assert (after.ceiling, after.ceiling_on) == (usd(75), DAY)
    assert after.items == (
        LotItem("girl", plan="resell"),
        LotItem("empty case", "", "parts", parts=usd(7)),
    )


def test_an_empty_text_takes_a_field_back():
    full = changed(TWO, {"closes": "2026-11-08", "ceiling": "5", "chance": "3", "asking": "4"}, BY)
    empty = dict.fromkeys(("closes", "ceiling", "chance", "asking"), "")
    assert changed(full, empty, BY) == TWO


def test_a_ceiling_left_as_it_was_keeps_its_day():
    before = changed(TWO, {"ceiling": "75"}, BY)
    later = Author("USD", dt.date(2026, 11, 30))
    assert changed(before, written(before), later).ceiling_on == DAY
    assert changed(before, {"ceiling": "70"}, later).ceiling_on == dt.date(2026, 11, 30)


def test_a_piece_is_written_as_it_is_read():
    item = LotItem("girl", "", "keep", usd(40), usd(10), None)
    texts = {f"piece.1.{name}": text for name, text in written(item).items()}
    assert changed(TWO, texts, BY).items[0] == item


def test_an_empty_title_takes_a_piece_out():
    texts = {"piece.1.title": "", "piece.2.title": "case"}
    assert [one.title for one in changed(TWO, texts, BY).items] == ["case"]


@pytest.mark.parametrize(
    ("texts", "told"),
    [
        ({"titel": "x"}, "field 'titel' is not known. Did you mean 'title'?"),
        ({"title": ""}, "title: a lot needs a title"),
        ({"closes": "soon"}, "closes: 'soon' is not a date or time"),
        ({"closes": "2026-03-29 02:30"}, "closes: 02:30 on 2026-03-29 does not exist"),
        ({"asking": "much"}, "asking: 'much' is not an amount of money"),
        ({"asking": "3 EUR"}, "Write it in USD."),
        ({"estimate": "70..40"}, "estimate: '70..40' is not an estimate. Write 40..65 USD."),
        ({"estimate": "40 EUR..50 USD"}, "is not an estimate"),
        ({"selling": "a lot"}, "selling: 'a lot' is not a whole number of 0 to 100"),
        ({"chance": "101"}, "chance: '101' is not a whole number"),
        ({"channel": "auktion"}, "channel: 'auktion' is not known. Did you mean 'auction'?"),
        ({"currency": "usx"}, "currency: currency 'USX' is not known"),
        ({"piece.3.plan": "keep"}, "piece.3.plan: there is no piece 3. The lot holds 2 pieces."),
        ({"piece.0.plan": "keep"}, "there is no piece 0"),
        ({"piece.1.plan": "sell"}, "piece.1.plan: 'sell' is not known. Did you mean 'resell'?"),
        ({"piece.1.wrth": "4"}, "piece.1.wrth: field 'wrth' is not known. Did you mean 'worth'?"),
        ({"piece.1.worth": "x"}, "piece.1.worth: 'x' is not an amount of money"),
    ],
)
def test_mistakes_name_their_field(texts, told):
    with pytest.raises(InputError) as caught:
        changed(TWO, texts, BY)
    assert told in str(caught.value)


def test_the_currency_of_a_bid_stays():
    bid = lot(bid=usd(3), state="bid")
    with pytest.raises(InputError, match="a bid is open in USD"):
        changed(bid, {"currency": "EUR"}, BY)
    assert changed(lot(asking=usd(3)), {"currency": "EUR"}, BY).asking is None
