"""Rows made of the log's texts are those made of whole entries, whatever stands in the texts."""

import datetime as dt
import json
import random
from decimal import Decimal

import pytest
from store.logkit import bought

from appraise.base.money import Money
from appraise.knowledge import load
from appraise.pricing.price_rows import priced_rows
from appraise.pricing.price_texts import priced_texts
from appraise.records.entry import Entry
from appraise.records.rate import Rate
from appraise.records.record_types import from_text, to_text
from appraise.records.venue import Venue
from appraise.records.venuebook import VenueBook

ON = dt.date(2026, 11, 30)
BOOK = VenueBook(
    (Venue("Hall A", "USD", channel="auction", usual=True), Venue("Hall B", "GBP")),
    (
        Rate("GBP", "USD", Decimal("1.25"), dt.date(2020, 1, 1)),
        Rate("GBP", "USD", Decimal("1.3"), ON),
    ),
)
ODD = {
    "record": ("bought", "sold", "asking", "gift", "nothing", 3),
    "date": ("2020-05-01", "2020-05", "unknown", "2015~", "31 May", None),
    "title": ("girl", "two\nlines", 5, "x" * 2_000, "\u2067turned"),
    "motif": ("vine", "", "a\tb", None),
    "process": ("ambrotype", "Not A Word", "tintype", 1, "own-word"),
    "channel": ("market", "auction", "moon", ""),
    "housing": ("thermoplastic", "leather", "", "??"),
    "format": ("sixth", "ninth", "no-such", ""),
    "venue": ("Hall A", "hall b", "somewhere", "a\nb"),
    "quality": (3, 4.5, 9, True, "3", None),
    "appeal": (1, 5, 6, 2.0, 2.5, True),
    "condition_factor": (0.8, 1, 0, -1, 11, "1"),
    "identified": ("name", "proven", True, False, "odd"),
    "subject": ("child", None, "two words"),
    "subjects": (["child"], ["child", "child"], [""], "child", ["unheard-of"], []),
    "maker": ("A. Maker", "", 7),
    "maker_known": (True, None, "yes"),
    "own_work": (False, True, 1),
    "paid": ({"amount": "45.00", "currency": "USD"}, {"amount": "-1", "currency": "USD"}, None),
    "hammer": ({"amount": "30", "currency": "GBP"}, {"amount": "3.001", "currency": "USD"}),
    "asked": ({"amount": "7", "currency": "XXQ"}, {"amount": "60", "currency": "USD", "more": 1}),
    "premium": ({"amount": "5.00", "currency": "GBP"}, 5),
    "fees": ({"amount": "2.50", "currency": "USD"}, []),
    "postage": ({"amount": "4", "currency": "USD"}, {"amount": "4", "currency": "GBP"}),
    "belonging": ([["together", 0.9], ["married", 0.1]], [["together", 2]], [["a", 1], ["a", 0]]),
    "estimate": ({"low": 1}, None),
    "unheard": ("of", {"a": [1]}),
    "note": ("plain", "\u0000", 4),
}


def text(chance: random.Random) -> str:
    """A text as the log may hold it, some of whose values are out of place."""
    told = {"record": "bought", "date": "2021-02-03", "title": f"piece {chance.randrange(9)}"}
    told |= {name: chance.choice(ODD[name]) for name in chance.sample(list(ODD), 6)}
    return json.dumps(told, ensure_ascii=chance.random() < 0.5)


def whole(body: str, entry: str) -> Entry:
    """The entry of a text."""
    found = from_text(body, entry)
    assert isinstance(found, Entry)
    return found


def readable(body: str, entry: str) -> bool:
    """Whether a text is an entry at all."""
    try:
        whole(body, entry)
    except Exception:
        return False
    return True


@pytest.mark.parametrize("book", [VenueBook(), BOOK], ids=["no book", "a book"])
def test_the_rows_are_those_of_whole_entries(book):
    chance, knowledge = random.Random(7), load()
    texts = [(text(chance), f"{place:016x}") for place in range(6_000)]
    texts = [each for each in texts if readable(*each)]
    assert len(texts) > 2_000
    entries = [whole(*each) for each in texts]
    told = priced_texts(texts, whole, knowledge, "USD", ON, book)
    assert told == priced_rows(entries, knowledge, "USD", ON, book)
    assert len(told) > 200


def test_what_is_usual_is_not_read_as_a_whole():
    entry = bought("girl", "45.00", motif="vine", process="ambrotype", postage=Money.parse("4 USD"))

    def never(body: str, entry: str) -> Entry:
        raise AssertionError(body)

    (row,) = priced_texts([(to_text(entry), "a" * 16)], never, load(), "USD", ON)
    assert (row.price, row.motif, dict(row.process)) == (49.0, "vine", {"ambrotype": 1.0})
