"""The log played again: every price is estimated from those before it, and from nothing else."""

from dataclasses import replace

from pricing.invented import invented_log

from appraise.pricing.features import PricedRow
from appraise.pricing.replay import FITS, LEAST, replay
from appraise.pricing.track import record


def aged(count: int) -> list[PricedRow]:
    """An invented log, a price a week, the oldest first."""
    return [replace(row, age=(count - i) / 52.0) for i, row in enumerate(invented_log(count))]


def test_coverage_is_near_what_was_promised() -> None:
    told = record(replay(aged(120)))
    assert told is not None
    assert told.count > 60
    assert told.coverage_low < 0.80 < told.coverage_high


def test_a_later_price_changes_nothing_before_it() -> None:
    rows = aged(60)
    later = [*rows[:50], *(replace(row, price=(row.price or 0.0) * 3.0) for row in rows[50:])]
    early = replay(rows[:50])
    assert len(early) > 10
    assert replay(rows)[: len(early)] == early
    assert replay(later)[: len(early)] == early


def test_the_order_of_the_list_does_not_matter() -> None:
    rows = aged(40)
    assert replay(rows) == replay(rows[::-1])


def test_a_short_log_cannot_be_played_again() -> None:
    assert replay([]) == []
    assert replay(aged(LEAST)) == []


def test_a_long_log_is_learnt_so_many_times_at_most(monkeypatch) -> None:
    learnt = []

    def counted(rows):
        learnt.append(len(rows))
        return plain(rows)

    import appraise.pricing.replay as room

    plain = room.learn
    monkeypatch.setattr(room, "learn", counted)
    replay(aged(LEAST + 2 * FITS + 5))
    assert len(learnt) <= FITS
    assert learnt == sorted(learnt)
