"""The filter line: what it finds, in which order, and what it cannot understand."""

import dataclasses
import datetime as dt

import pytest
from every import every
from hypothesis import given
from hypothesis import strategies as st
from store.logkit import bought, opened, usd

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.base.oneline import folded
from appraise.records.entry import Entry
from appraise.records.filter import FilterTerm, terms, written
from appraise.store.search import FIELDS, where
from appraise.store.suggestions import guess

SHELF = (
    bought("girl with a basket", "45.00", motif="vine", venue="Brimley Fair", appeal=4),
    bought(
        "soldier, seated",
        "120.00",
        date=dt.date(2021, 6, 1),
        process="daguerreotype",
        housing="leather-wood",
        subjects=("soldier",),
    ),
    bought(
        "Früher Garten",
        "30.00",
        date=dt.date(2019, 12, 31),
        record="asking",
        kind="loose-plate",
        housing="",
        paid=None,
        asked=Money.parse("30", "EUR"),
        note="brass mat, 50% off",
    ),
    bought("two fishermen", "45.50", date=dt.date(2020, 2, 29), own_work=True),
    bought("no price", "1", date=dt.date(2018, 1, 1), paid=None),
)


words = st.text("abc :?,.", min_size=1).map(folded).filter(bool)


@pytest.fixture(scope="module")
def log(tmp_path_factory):
    with opened(tmp_path_factory.mktemp("query") / "log.sqlite") as log:
        log.add_all(SHELF)
        yield log


def found(log, query, **more):
    return [entry.title for entry in log.entries(query, **more)]


GIRL, SOLDIER, GARDEN, FISHERS, BARE = (entry.title for entry in SHELF)


@every(
    ("query", "titles"),
    [
        ("", [GIRL, SOLDIER, FISHERS, GARDEN, BARE]),
        ("   ", [GIRL, SOLDIER, FISHERS, GARDEN, BARE]),
        ("girl", [GIRL]),
        ("GIRL vine", [GIRL]),
        ("girl soldier", []),
        ("bask", [GIRL]),
        ("fruher", [GARDEN]),
        ("FRÜHER", [GARDEN]),
        ('"brass mat"', [GARDEN]),
        ('"mat brass"', []),
        ('"brass m', [GARDEN]),
        ("50%", [GARDEN]),
        ("%", [GARDEN]),
        ("_", []),
        ("process:dag", [SOLDIER]),
        ("process:dag,amb", [GIRL, SOLDIER, FISHERS, GARDEN, BARE]),
        ("process:type", []),
        ("process=dag", [SOLDIER]),
        ("process=dag price=100-150", [SOLDIER]),
        ("price=30-45", [GIRL, GARDEN]),
        ("-venue=brimley price=45-46", [FISHERS]),
        ("date=2019-2020", [FISHERS, GARDEN]),
        ("date=2019-12", [GARDEN]),
        ("record:asking", [GARDEN]),
        ("housing:?", [GARDEN]),
        ("-housing:?", [GIRL, SOLDIER, FISHERS, BARE]),
        ("venue:fair", [GIRL]),
        ('venue:"brimley fair"', [GIRL]),
        ("motif:vine", [GIRL]),
        ("title:soldier", [SOLDIER]),
        ("subject:soldier", [SOLDIER]),
        ("-soldier", [GIRL, FISHERS, GARDEN, BARE]),
        ("kind:cased -process:dag", [GIRL, FISHERS, BARE]),
        ("date:2021", [SOLDIER]),
        ("date:2020-02", [FISHERS]),
        ("date:2020-02-29", [FISHERS]),
        ("date:2019-12..2020", [FISHERS, GARDEN]),
        ("date:2020..", [GIRL, SOLDIER, FISHERS]),
        ("date:..2019", [GARDEN, BARE]),
        ("price:45", [GIRL]),
        ("price:45..45.50", [GIRL, FISHERS]),
        ("price:100..", [SOLDIER]),
        ("price:..45", [GIRL, GARDEN]),
        ("price:?", [BARE]),
        ("price:..", [GIRL, SOLDIER, FISHERS, GARDEN]),
        ("-price:..45", [SOLDIER, FISHERS, BARE]),
        ("currency:eur", [GARDEN]),
        ("appeal:4", [GIRL]),
        ("appeal:1..3", []),
        ("own:yes", [FISHERS]),
        ("-own:no", [FISHERS]),
        ("pictures:yes", []),
        ("gi\udcffrl", [GIRL]),
        ("process:", [GIRL, SOLDIER, FISHERS, GARDEN, BARE]),
        ("-", [GIRL, SOLDIER, FISHERS, GARDEN, BARE]),
    ],
)
def test_what_a_filter_finds(log, query, titles):
    assert found(log, query) == titles
    assert log.summary(query).count == len(titles)


def test_an_id_is_found_by_its_beginning(log):
    entry = log.entries(limit=1)[0]
    assert log.entries(f"id:{entry.id[:10]}") == (entry,)


@pytest.mark.parametrize(
    ("sort", "titles"),
    [
        ("date", [BARE, GARDEN, FISHERS, SOLDIER, GIRL]),
        ("price", [GARDEN, GIRL, FISHERS, SOLDIER, BARE]),
        ("-price", [SOLDIER, FISHERS, GIRL, GARDEN, BARE]),
        ("title", [GARDEN, GIRL, BARE, SOLDIER, FISHERS]),
    ],
)
def test_sorting(log, sort, titles):
    assert found(log, "", sort=sort) == titles


def test_a_part_of_the_answer(log):
    assert found(log, "", limit=2, offset=1) == [SOLDIER, FISHERS]
    assert found(log, "", limit=0) == []
    assert found(log, "", offset=4) == [BARE]


@pytest.mark.parametrize(
    ("query", "message"),
    [
        ("proces:amb", "the filter has no field 'proces'. Did you mean 'process'?"),
        ("price:cheap", "price: 'cheap' is not a number. Write price:20..50."),
        ("price:1e3", "price: '1e3' is not a number. Write price:20..50."),
        ("date:yesterday", "date: 'yesterday' is not a day. Write date:2019..2021-06."),
        ("date:2021-13", "date: '2021-13' is not a day of the calendar"),
        ("date:2021-02-30", "date: '2021-02-30' is not a day of the calendar"),
        ("own:maybe", "own: 'maybe' is neither yes nor no. Write own:yes."),
    ],
)
def test_what_a_filter_cannot_say(log, query, message):
    for ask in (log.entries, log.summary):
        with pytest.raises(InputError) as caught:
            ask(query)
        assert str(caught.value) == message


def test_an_unknown_order_is_refused(log):
    with pytest.raises(InputError, match=r"cannot sort by 'prise'. Did you mean 'price'\?"):
        log.entries(sort="-prise")


def test_terms_are_taken_apart():
    assert terms('a "b c" -d venue:"e f" -kind=g', FIELDS) == (
        FilterTerm("", "a"),
        FilterTerm("", "b c"),
        FilterTerm("", "d", negated=True),
        FilterTerm("venue", "e f"),
        FilterTerm("kind", "g", negated=True),
    )


@given(
    st.lists(st.builds(FilterTerm, st.sampled_from(["", "title", "kind"]), words, st.booleans()))
)
def test_a_written_filter_is_read_again(terms_):
    assert terms(written(terms_), FIELDS) == tuple(terms_)


@given(st.text(max_size=40))
def test_any_line_is_read_or_refused_in_one_line(text):
    line = ""
    try:
        condition = where(text)
    except InputError as error:
        line = str(error)
    else:
        assert condition.sql.count("?") == len(condition.values)
    assert "\n" not in line


@given(st.text(max_size=40))
def test_folding_twice_is_folding_once(text):
    assert folded(folded(text)) == folded(text)


def test_only_what_was_paid_is_added_up(tmp_path):
    with opened(tmp_path / "log.sqlite") as log:
        log.add(bought(price="38.00"))
        log.add(Entry("asking", dt.date(2024, 5, 31), asked=usd("30.00")))
        (dollars,) = log.summary().sums
        assert (dollars.count, dollars.total) == (2, usd("38.00"))


def test_sum_and_median_by_currency(log):
    dollars, euros = log.summary().sums
    assert (dollars.count, dollars.median) == (3, usd("45.50"))
    assert (euros.count, euros.median) == (1, Money.parse("30 EUR"))
    assert log.summary("nothing such").sums == ()


def test_the_shelf_follows_edits_and_undo(tmp_path):
    with opened(tmp_path / "log.sqlite") as log:
        kept = log.add(bought("old words"))
        log.edit(dataclasses.replace(kept, title="new words", paid=usd("99.00")))
        assert found(log, "old") == []
        assert found(log, "new price:99") == ["new words"]
        log.undo()
        assert found(log, "old price:45") == ["old words"]
        log.undo()
        assert found(log, "words") == []


def test_equal_days_show_in_the_order_of_logging(tmp_path):
    with opened(tmp_path / "log.sqlite") as log:
        first, second, _ = (log.add(bought(title)) for title in ("first", "second", "third"))
        log.edit(dataclasses.replace(first, note="edited later"))
        log.commit(drop=[second.id])
        log.undo()
        assert found(log, "", sort="date") == ["first", "second", "third"]
        assert found(log, "", sort="-date") == ["third", "second", "first"]


@pytest.mark.parametrize(
    ("query", "meant"),
    [
        ("solider", "soldier"),
        ("girl baskte", "girl basket"),
        ("process:daguereotype", "process:daguerreotype"),
        ("process:ambrotpye,tintype", None),
        ("process:ambrotpye,dag", "process:ambrotype,dag"),
        ("venue:brimly", "venue:brimley"),
        ('"brass matt"', '"brass mat"'),
        ("seatd", "seated"),
        ("solier date:2021", "soldier date:2021"),
        ("gril", "girl"),
        ("grl", None),
        ("girl", None),
        ("xyzzy", None),
        ("", None),
    ],
)
def test_what_a_filter_may_have_meant(log, query, meant):
    found = guess(log, query)
    assert (found.query if found else None) == meant
    if found:
        assert log.entries(found.query)
