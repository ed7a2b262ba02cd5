"""The verdict panel: numbers change in place, and money only where it may be seen."""

import re
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pricing.invented import invented_log

from appraise.app.examine.band import band, rows_for
from appraise.app.examine.panel import bar, panel, spent
from appraise.app.examine.shown import Shown, names_in
from appraise.app.lines import length, words_of
from appraise.app.marks import FINE, PLAIN
from appraise.base.money import Money
from appraise.pricing.estimate import learn
from appraise.records.piece import Piece
from appraise.verdict import judge

DAY = date(2026, 11, 7)
SIZES = [(32, 19), (48, 34), (48, 36), (33, 36), (32, 26), (32, 12)]


@pytest.fixture(scope="module")
def prices():
    return learn(invented_log(60))


@pytest.fixture(scope="module")
def pieces():
    bare = Piece(asking=Money.parse("45 USD")).with_finding("plate.magnet", "no")
    thermo = bare.with_finding("case.material", "thermoplastic")
    known = thermo.with_finding("claim.process", "ambrotype").with_finding("mat.shape", "oval")
    return [bare, thermo, known, replace(known, channel="online"), Piece(kind="card")]


def shown(knowledge, marks=FINE, money=True):
    return Shown(marks, tuple(knowledge.parts), money, True, {}, names_in(knowledge))


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
        bar = next(n for n, row in enumerate(said) if re.match(r"together +(under )?\d", row))
        places.add((years, bar, *(words.index(word) for word in ("combined", "package", "worth"))))
    assert len(places) == 1


def test_hidden_money_shows_no_amount(knowledge, prices, pieces):
    verdict = judge(pieces[2], knowledge, prices, DAY)
    open_rows = panel(verdict, shown(knowledge), 48, 34)
    rows = panel(verdict, shown(knowledge, money=False), 48, 34)
    assert len(rows) == len(open_rows)
    text = "\n".join(map(words_of, rows))
    assert "money hidden" in text
    for word in ("worth", "limit", "similar in your log"):
        assert word in "\n".join(map(words_of, open_rows))
        assert word not in text


def test_few_like_entries_are_said_instead_of_a_number(knowledge):
    few = learn(invented_log(3))
    verdict = judge(Piece().with_finding("plate.magnet", "no"), knowledge, few, DAY)
    text = " ".join(map(words_of, panel(verdict, shown(knowledge), 32, 19)))
    assert re.search(r"No estimate: \d similar entr(y|ies) of 5 needed\.", text)


def test_a_card_is_of_its_period_or_modern(knowledge):
    rows = panel(judge(Piece(kind="card"), knowledge, None, DAY), shown(knowledge), 32, 19)
    text = "\n".join(map(words_of, rows))
    assert re.search(r"of its time +\d\d%", text)
    assert "married" not in text


def test_before_the_first_verdict_the_panel_says_so(knowledge):
    assert "reading" in words_of(panel(None, shown(knowledge), 32, 19)[0])


def test_plain_marks_are_ascii(knowledge, prices, pieces):
    rows = panel(judge(pieces[2], knowledge, prices, DAY), shown(knowledge, PLAIN), 48, 34)
    assert all(words_of(row).isascii() for row in rows)


def test_bars_are_drawn_to_half_a_cell():
    assert bar(0.5, 5, FINE) == "━━╸"
    assert bar(0.5, 5, PLAIN) == "###"
    assert bar(0.0, 5, FINE) == ""
    assert bar(1.0, 5, FINE) == "━━━━━"


@given(st.integers(-5, 40))
def test_spare_lines_are_spent_and_never_overspent(spare):
    rows, gaps = spent(spare)
    assert rows + len(gaps) <= max(0, spare)


@pytest.mark.parametrize("size", [(78, 24), (108, 30), (118, 40), (58, 20)])
def test_the_band_tells_the_headline_whole(knowledge, prices, pieces, size):
    """What it is, when and the main doubt are never cut; the money stands there whole or not."""
    width, height = size
    for piece in pieces:
        verdict = judge(piece, knowledge, prices, DAY)
        rows = band(verdict, shown(knowledge), width, height)
        assert len(rows) == rows_for(height)
        assert all(length(row) <= width for row in rows)
        told = " ".join(" ".join(words_of(row) for row in rows).split())
        assert told in (str(verdict.headline), verdict.headline.what)
        hidden = band(verdict, shown(knowledge, money=False), width, height)
        assert " ".join(" ".join(map(words_of, hidden)).split()) == verdict.headline.what
