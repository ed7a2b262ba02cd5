"""Every field of every record: what is written is read again, over the whole range of values."""

import datetime as dt
import json
from dataclasses import replace
from decimal import Decimal

import pytest
from collection.benchkit import parts, wants, works
from collection.lotkit import items, lots
from hypothesis import given
from hypothesis import strategies as st
from store.logkit import lines, moneys, pages, slugs

from appraise.base.errors import InputError
from appraise.base.money import EXPONENTS
from appraise.knowledge import load
from appraise.knowledge.records import KINDS
from appraise.records import owned, record_types
from appraise.records import record_types as codec
from appraise.records.budget import PERIODS, Budget
from appraise.records.entry import Entry
from appraise.records.fields import changed, defaults, filled, pair, parted, typed_fields, written
from appraise.records.lot import LotItem
from appraise.records.owned import ConditionCheck, Event, OwnedPiece, Showing
from appraise.records.part import Part
from appraise.records.rate import Rate
from appraise.records.repair import Repair
from appraise.records.terms import PLAIN_LADDER, TAXES, Band, Bounds, Rung, TaxForm
from appraise.records.values import Author, parts_of
from appraise.records.venue import FEES, Venue
from appraise.records.want import Want

DAY = dt.date(2026, 11, 7)
BY = Author("USD", DAY, zone=dt.UTC)
dates = st.sampled_from(("", "1858", "1850~", "[1855..1862]", "2026-11-02", "185X"))
days = st.dates(dt.date(1900, 1, 1), dt.date(2100, 1, 1))
events = st.builds(
    Event,
    day=days,
    sort=st.sampled_from(owned.EVENTS),
    to=lines,
    cost=st.none() | moneys,
    note=pages,
)
looks = st.builds(
    ConditionCheck,
    day=days,
    says=lines,
    by=lines,
    found=st.just(("hinge.tape 2",)) | st.just(()),
    note=pages,
)
showings = st.builds(Showing, day=days, hours=st.integers(1, 9), lux=st.integers(0, 9), where=lines)


def ordered(rows):
    return st.lists(rows, max_size=2).map(lambda all_: tuple(sorted(all_, key=lambda o: o.day)))


pieces = st.builds(
    OwnedPiece,
    title=lines.filter(str.strip),
    number=lines,
    kind=st.sampled_from(("", *KINDS)),
    process=slugs,
    housing=slugs,
    format=slugs,
    dated=dates,
    place=lines,
    status=st.sampled_from(owned.STATUSES),
    acquired=dates,
    provenance=pages,
    receipt=lines,
    return_by=st.none() | days,
    climate=pages,
    note=pages,
    looks=ordered(looks),
    events=ordered(events),
    showings=ordered(showings),
)
budgets = st.builds(
    Budget,
    amount=moneys.filter(lambda money: money.amount > 0),
    per=st.sampled_from(PERIODS),
    since=days,
)
shares = st.integers(0, 10_000).map(lambda one: Decimal(one) / 10_000)
sums = st.integers(0, 10**8).map(lambda one: Decimal(one) / 100)
bounds = st.builds(
    lambda least, more, least_: (
        Bounds(least, None if more is None else least + more)
        if least or more is not None
        else least_
    ),
    sums,
    st.none() | sums,
    st.just(Bounds(Decimal(1))),
)


@st.composite
def venues(draw):
    edges = sorted(draw(st.lists(st.integers(1, 10**6), max_size=3, unique=True)))
    figures = [draw(shares) for _ in edges]
    steps = [Decimal(draw(st.integers(1, 999))) / 100 for _ in edges]
    form = draw(st.sampled_from(list(TAXES.values())))
    rate = draw(shares)
    return Venue(
        draw(st.sampled_from(("Quay rooms", "Früh Hafen"))),
        draw(st.sampled_from(sorted(EXPONENTS))),
        bands=tuple(Band(Decimal(edge), one) for edge, one in zip(edges, figures, strict=True)),
        whole=draw(st.booleans()),
        surcharge=draw(shares),
        fee=draw(sums),
        tax_form=form if rate else TaxForm.NONE,
        tax=rate,
        insurance=draw(shares),
        carriage=draw(sums),
        import_tax=draw(shares),
        payment=draw(shares),
        exchange_fee=draw(shares),
        travel=draw(sums),
        ladder=draw(st.just(PLAIN_LADDER) | st.just(()))
        or tuple(Rung(Decimal(edge), step) for edge, step in zip(edges, steps, strict=True)),
        bounds=draw(
            st.dictionaries(st.sampled_from([each.key for each in FEES]), bounds, max_size=3)
        ),
        channel=draw(st.sampled_from(("auction", "online"))),
        usual=draw(st.booleans()),
        checked=draw(st.none() | days),
        note=draw(lines),
    )


rates = st.builds(
    Rate,
    currency=st.just("EUR"),
    base=st.just("USD"),
    rate=st.integers(1, 10**8).map(lambda one: Decimal(one) / 1000),
    on=days,
    source=lines,
)
every = (
    parts
    | works
    | wants()
    | lots()
    | items
    | pieces
    | events
    | looks
    | showings
    | budgets
    | venues()
    | rates
)


def exact(thing):
    """Whether text alone tells a value: a closing in an unknown zone, a part 'in' something."""
    if isinstance(thing, Repair):
        return all(" in " not in f"{one.what} {one.where} " for one in thing.taken_out)
    return True


@given(every)
def test_what_is_written_changes_nothing(thing):
    assert changed(thing, written(thing), BY) == thing


@given(every.filter(exact))
def test_what_is_written_is_read_again_field_by_field(thing):
    for field in typed_fields(type(thing)).values():
        if field.name == "closes" or not field.told(thing) or not field.text(thing):
            continue
        read = field.read(field.text(thing), thing, BY, {})
        assert replace(thing, **read) == thing, field.name


@given(
    every.filter(
        lambda thing: not isinstance(thing, LotItem | Event | ConditionCheck | Showing | Entry)
    )
)
def test_a_record_comes_back_as_it_was_kept(thing):
    text = record_types.to_text(thing)
    assert record_types.from_text(text) == thing
    assert record_types.to_text(record_types.from_text(text)) == text


@given(every)
def test_an_empty_text_takes_a_field_back_to_nothing(thing):
    unsaid = defaults(type(thing))
    for name, field in typed_fields(type(thing)).items():
        if (
            name in ("outside", "recess", "opening", "currency", "channel")
            or not field.text(thing).strip()
        ):
            continue
        if all(each in unsaid for each in field.attributes):
            after = changed(thing, {name: ""}, BY)
            empty = (
                ""
                if field.kind.takes_empty
                else field.value(
                    replace(thing, **{each: unsaid[each] for each in field.attributes})
                )
            )
            assert field.value(after) == empty


@given(st.lists(st.text(st.characters(codec="utf-8", exclude_characters="\0\n"), min_size=1)))
def test_a_list_comes_back_whatever_stands_in_its_parts(found):
    from appraise.records.values import Kind, SeveralKind

    kind = SeveralKind(Kind())
    assert kind.read(kind.write(tuple(found)), BY) == tuple(found)


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("a; b", ("a", "b")),
        ("a, b", ("a", "b")),
        ("a, b; c", ("a, b", "c")),
        ('"a, b"', ("a, b",)),
        ("a;", ("a",)),
        ("", ()),
    ],
)
def test_a_list_as_a_person_types_it(text, read):
    assert parts_of(text) == read


# What the closed lists hold is refused elsewhere with the nearest word, whoever writes.
@pytest.mark.parametrize(
    ("thing", "text", "told"),
    [
        (Want("x", DAY), "subject=soldjer", "Did you mean 'soldier'?"),
        (Want("x", DAY), "kind=casd", "Did you mean 'cased'?"),
        (Part("x", DAY, "mat"), "made=moderm", "Did you mean 'modern'?"),
        (Repair("x", DAY), "made-by-me=maybe", "is neither yes nor no"),
        (Repair("x", DAY), "by=slef", "Did you mean 'self'?"),
        (OwnedPiece("x"), "status=lnt", "Did you mean 'lent'?"),
        (OwnedPiece("x"), "kind=casd", "Did you mean 'cased'?"),
        (OwnedPiece("x"), "sttus=lent", "Did you mean 'status'?"),
        (Entry("bought", DAY), "own_work=maybe", "'maybe' is neither yes nor no"),
        (Entry("bought", DAY), "record=bougt", "Did you mean 'bought'?"),
        (Entry("bought", DAY), "subjects=child, soldjer", "Did you mean 'soldier'?"),
        (Entry("bought", DAY), "condition_factor=good", "'good' is not a number above 0, up to 10"),
        (Entry("bought", DAY), "condition_factor=0", "'0' is not a number above 0, up to 10"),
        (Entry("bought", DAY), "appeal=6", "is not a whole number of 1 to 5"),
    ],
)
def test_a_word_that_is_not_known_is_refused_with_the_nearest(thing, text, told):
    with pytest.raises(InputError) as caught:
        changed(thing, dict([pair(text)]), BY)
    assert told in str(caught.value)


def test_a_bare_number_takes_the_base_currency():
    pound = Author("GBP", DAY)
    assert str(changed(Part("x", DAY, "mat"), {"cost": "3"}, pound).cost) == "3.00 GBP"
    assert str(changed(Want("x", DAY), {"most": "3"}, pound).most) == "3.00 GBP"
    assert str(changed(Event(DAY, "mended"), {"cost": "3"}, pound).cost) == "3.00 GBP"


def test_words_of_the_trade_are_checked_wherever_the_trade_is_known():
    by = replace(BY, knowledge=load())
    for thing in (Entry("bought", DAY), Want("x", DAY), OwnedPiece("x")):
        with pytest.raises(InputError, match="'nonsense' is not known"):
            changed(thing, {"process": "nonsense"}, by)
        with pytest.raises(InputError, match="Did you mean 'ambrotype'"):
            changed(thing, {"process": "ambrotyqe"}, by)
        assert changed(thing, {"process": "ambrotype"}, by).process == "ambrotype"


def test_what_a_newer_version_says_of_a_price_is_kept_and_written_back():
    text = '{"date":"2026-11-07","paid":{"amount":"45.00","currency":"USD"},"record":"bought"'
    newer = text + ',"channel":"newer-place","zeal":{"of":3}}'
    entry = codec.from_text(newer, "a" * 16)
    assert (entry.channel, entry.rest) == ("", {"channel": "newer-place", "zeal": {"of": 3}})
    after = changed(entry, {"paid": "40"}, BY)
    assert json.loads(codec.to_text(after)) == {
        **json.loads(newer),
        "paid": {"amount": "40.00", "currency": "USD"},
    }


def test_fields_stand_among_the_words_of_a_line():
    line, texts = parted(["sixth", "vine", "most=80", "odd=1"], Want)
    assert (line, texts) == ("sixth vine odd=1", {"most": "80"})


def test_only_fields_that_say_something_are_told():
    assert filled(Want("x", DAY)) == {"title": "x", "since": "2026-11-07"}
