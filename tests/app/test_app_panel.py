"""The verdict panel: numbers change in place, and money only where it may be seen."""

import re
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pricing.invented import invented_log

from appraise.app.examine.panel import bar, hundred, panel, spent, whole_hundreds
from appraise.app.examine.shown import Shown
from appraise.app.lines import length, words_of
from appraise.app.marks import FINE, PLAIN
from appraise.base.money import Money
from appraise.piece.records import Piece
from appraise.pricing.estimate import learn
from appraise.verdict import judge

DAY = date(2026, 11, 7)
SIZES = [(32, 19), (48, 34), (48, 36), (33, 36), (32, 26), (32, 12)]


@pytest.fixture(scope="module")
def prices():
    return learn(invented_log(60))


@pytest.fixture(scope="module")
def pieces():
    bare = Piece(asking=Money.parse("45 USD"))
    thermo = bare.with_finding("case.material", "thermoplastic")
    known = thermo.with_finding("claim.process", "ambrotype").with_finding("mat.shape", "oval")
    return [bare, thermo, known, replace(known, channel="online"), Piece(kind="card")]


def shown(knowledge, marks=FINE, money=True):
    return Shown(marks, tuple(knowledge.parts), money, True, {})


@pytest.mark.parametrize("size", SIZES)
def test_the_panel_fills_its_place_whatever_it_says(knowledge, prices, pieces, size):
    width, height = size
    counts = set()
    for piece in pieces:
        for learnt in (None, prices):
            rows = panel(judge(piece, knowledge, learnt, DAY), shown(knowledge), width, height)
            assert all(length(row) <= width for row in rows)
            counts.add(len(rows))
    assert counts == {height}


def test_every_line_keeps_its_place(knowledge, prices, pieces):
    places = set()
    for piece in pieces[:4]:
        rows = panel(judge(piece, knowledge, prices, DAY), shown(knowledge), 32, 19)
        said = [words_of(row) for row in rows]
        words = [row.split(" ")[0] for row in said]
        years = next(n for n, row in enumerate(said) if re.match(r"image \d{4}", row))
        bar = next(n for n, row in enumerate(said) if re.match(r"together +\d", row))
        places.add((years, bar, *(words.index(word) for word in ("joint", "package", "worth"))))
    assert len(places) == 1


def test_hidden_money_shows_no_amount(knowledge, prices, pieces):
    verdict = judge(pieces[2], knowledge, prices, DAY)
    open_rows = panel(verdict, shown(knowledge), 48, 34)
    rows = panel(verdict, shown(knowledge, money=False), 48, 34)
    assert len(rows) == len(open_rows)
    text = "\n".join(map(words_of, rows))
    assert "money hidden" in text
    for word in ("worth", "offer", "limit", "nearest"):
        assert word in "\n".join(map(words_of, open_rows))
        assert word not in text


def test_few_like_entries_are_said_instead_of_a_number(knowledge):
    few = learn(invented_log(3))
    verdict = judge(Piece(), knowledge, few, DAY)
    text = "\n".join(map(words_of, panel(verdict, shown(knowledge), 32, 19)))
    assert "no opinion yet" in text
    assert "5 needed" in text


def test_a_card_is_of_its_period_or_modern(knowledge):
    rows = panel(judge(Piece(kind="card"), knowledge, None, DAY), shown(knowledge), 32, 19)
    words = [words_of(row).split(" ")[0] for row in rows]
    assert "period" in words
    assert "married" not in words


def test_before_the_first_verdict_the_panel_says_so(knowledge):
    assert "reading" in words_of(panel(None, shown(knowledge), 32, 19)[0])


def test_plain_marks_are_ascii(knowledge, prices, pieces):
    rows = panel(judge(pieces[2], knowledge, prices, DAY), shown(knowledge, PLAIN), 48, 34)
    assert all(words_of(row).isascii() for row in rows)


@given(st.lists(st.floats(0.0001, 1), min_size=2, max_size=3))
def test_parts_of_a_hundred_add_to_it(chances):
    shares = whole_hundreds(chances)
    assert sum(shares) == 100
    assert all(1 <= share <= 99 for share in shares)


def test_nothing_uncertain_is_said_to_be_certain():
    assert (hundred(0.0), hundred(1.0), hundred(0.613)) == (1, 99, 61)


def test_bars_are_drawn_to_half_a_cell():
    assert bar(0.5, 5, FINE) == "━━╸"
    assert bar(0.5, 5, PLAIN) == "###"
    assert bar(0.0, 5, FINE) == ""
    assert bar(1.0, 5, FINE) == "━━━━━"


@given(st.integers(-5, 40))
def test_spare_lines_are_spent_and_never_overspent(spare):
    rows, gaps = spent(spare)
    assert rows + len(gaps) <= max(0, spare)
