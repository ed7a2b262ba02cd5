"""A log learnt after a change is the log learnt anew, and a kept one is the one that was kept."""

import datetime as dt
import random
from dataclasses import replace

import pytest
from store.logkit import bought

from appraise.base.places import Home
from appraise.commands import learnt
from appraise.commands.learnt import PriceSource
from appraise.commands.workspace import open_at
from appraise.knowledge import load
from appraise.pricing import model
from appraise.records.venue import Venue
from appraise.store.venue_book import keep_venue

ON = dt.date(2026, 11, 30)
WORDS = ("girl", "vine", "soldier", "dog", "lace")


def some(count: int, seed: int):
    """Entries of an invented collector."""
    chance = random.Random(seed)
    for place in range(count):
        day = dt.date(2015, 1, 1) + dt.timedelta(days=chance.randrange(3_000))
        kind = {"process": chance.choice(("ambrotype", "tintype")), "format": "sixth"}
        words = " ".join(chance.sample(WORDS, 2))
        yield bought(f"{words} {place}", f"{chance.randint(20, 90)}.00", date=day, **kind)


@pytest.fixture
def source(tmp_path):
    with open_at(tmp_path / "log.sqlite") as log:
        log.add_all(some(learnt.LEAST + 100, seed=1))
        yield PriceSource(Home(tmp_path), log, load(), "USD", ON)


def told(prices):
    """What is asked of a learnt log."""
    subject = replace(prices.rows[0], price=None, id="")
    found = prices.estimate(subject)
    return (
        [row.id for row in prices.rows],
        (found.low, found.median, found.high),
        found.comparables,
        prices.doubtful(),
    )


def anew(source):
    """The log learnt from nothing."""
    source.home.learnt.unlink(missing_ok=True)
    return told(source.learnt())


def test_after_each_sort_of_change(source, monkeypatch):
    source.learnt()
    read = []
    plain = PriceSource._read
    monkeypatch.setattr(
        PriceSource, "_read", lambda self, sql, of: read.append(sql) or plain(self, sql, of)
    )
    log = source.log
    entries = log.entries()
    for change in (
        lambda: log.add(next(iter(some(1, seed=5)))),
        lambda: log.commit(drop=[entries[3].id]),
        lambda: log.edit(replace(entries[7], title="another")),
        log.undo,
        lambda: log.add_all(some(40, seed=6)),
    ):
        change()
        known = told(source.learnt())
        assert read[-1] == learnt._SINCE
        assert known == anew(source)


def test_another_venue_is_another_basis(source):
    source.learnt()
    keep_venue(source.log, Venue("Hall", "USD", channel="market", usual=True))
    assert told(source.learnt()) == anew(source)


def test_what_was_kept_is_not_learnt_again(source, monkeypatch):
    known = told(source.learnt())
    monkeypatch.setattr("appraise.pricing.estimate.learn", None)
    assert told(source.learnt()) == known


def test_another_log_in_its_place_is_read_as_a_whole(source, tmp_path):
    source.learnt()
    other = tmp_path / "other"
    other.mkdir()
    with open_at(other / "log.sqlite") as log:
        log.add_all(some(learnt.LEAST + 200, seed=9))
        moved = replace(source, log=log)
        assert told(moved.learnt()) == anew(moved)


def test_a_long_log_keeps_its_sample_when_one_entry_is_added(source, monkeypatch):
    for room in (
        "appraise.pricing.model",
        "appraise.pricing.regression",
        "appraise.pricing.estimate",
    ):
        monkeypatch.setattr(f"{room}.MOST", 100)
    assert model.MOST == 100
    before = source.learnt()
    sample = {before.rows[place].id for place in before.model.sampled.rows}
    (added,) = source.log.add_all(some(1, seed=11))
    after = source.learnt()
    again = {after.rows[place].id for place in after.model.sampled.rows}
    assert len(sample) == 100
    assert len(sample - again) <= 1
    assert again - sample <= {added.id}
    assert told(after) == anew(source)


def test_a_damaged_file_is_made_anew(source):
    known = told(source.learnt())
    head, _, body = source.home.learnt.read_bytes().partition(b"\n")
    for data in (head + b"\n" + body[:-50], head + b"\n", b"\xff\n", b"x 1 y\n" + body):
        source.home.learnt.write_bytes(data)
        assert told(source.learnt()) == known
