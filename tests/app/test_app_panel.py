"""The verdict panel: numbers change in place, and money only where it may be seen."""

import re
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pricing.invented import invented_log

from appraise.app.examine.panel import panel, plan_for
from appraise.app.examine.purse import MONEY
from appraise.app.examine.screen import verdict_band
from appraise.app.examine.shown import Shown, names_in
from appraise.app.lines import length, words_of
from appraise.app.marks import FINE, PLAIN
from appraise.app.widgets.band import rows_for
from appraise.base.money import Money
from appraise.pricing.estimate import learn
from appraise.records.piece import Piece
from appraise.verdict import judge, pay_of

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
        rows = panel(judge(piece, knowledge, prices, DAY), shown(knowledge), 35, 19)
        said = [words_of(row) for row in rows]
        words = [row.split(" ")[0] for row in said]
        years = next(n for n, row in enumerate(said) if re.match(r"image .* \d{4}-", row))
        bar = next(n for n, row in enumerate(said) if re.match(r"together +(under )?\d", row))
        places.add((years, bar, *(words.index(word) for word in ("condition", "about"))))
    assert len(places) == 1


def test_hidden_money_shows_no_amount(knowledge, prices, pieces):
    verdict = judge(pieces[2], knowledge, prices, DAY)
    open_rows = panel(verdict, shown(knowledge), 48, 34)
    rows = panel(verdict, shown(knowledge, money=False), 48, 34)
    assert len(rows) == len(open_rows)
    text = "\n".join(map(words_of, rows))
    assert "money hidden" in text
    for word in ("about", "limit", "similar"):
        assert word in "\n".join(map(words_of, open_rows))
        assert word not in text


def test_few_like_entries_are_said_instead_of_a_number(knowledge):
    few = learn(invented_log(3))
    verdict = judge(Piece().with_finding("plate.magnet", "no"), knowledge, few, DAY)
    text = " ".join(map(words_of, panel(verdict, shown(knowledge), 35, 19)))
    assert re.search(r"No estimate: \d similar entr(y|ies) of 5 needed\.", text)


def test_a_card_is_of_its_period_or_modern(knowledge):
    rows = panel(judge(Piece(kind="card"), knowledge, None, DAY), shown(knowledge), 35, 19)
    text = "\n".join(map(words_of, rows))
    assert re.search(r"of its time +\d\d%", text)
    assert "married" not in text


def test_before_the_first_verdict_the_panel_says_so(knowledge):
    assert "reading" in words_of(panel(None, shown(knowledge), 35, 19)[0])


def test_plain_marks_are_ascii(knowledge, prices, pieces):
    rows = panel(judge(pieces[2], knowledge, prices, DAY), shown(knowledge, PLAIN), 48, 34)
    assert all(words_of(row).isascii() for row in rows)


@given(st.integers(0, 80), st.booleans())
def test_lines_are_shared_out_and_never_overspent(height, money):
    plan = plan_for(height, money)
    gaps = sum(one.startswith("gap ") for one in plan.extra)
    assert sum(plan.lines.values()) + gaps <= max(height, MONEY)
    assert "money" in plan.lines
    assert ("picture" in plan.extra) <= money


@pytest.mark.parametrize("size", [(80, 24), (110, 30), (160, 45), (60, 20)])
def test_the_band_tells_the_headline_whole(knowledge, prices, pieces, size):
    """What it is, when and the main doubt are never cut; the money stands there whole or not."""
    width, height = size
    for piece in pieces:
        verdict = judge(piece, knowledge, prices, DAY)
        rows = verdict_band(verdict, shown(knowledge), width, rows_for(height))
        assert len(rows) == rows_for(height)
        assert all(length(row) <= width for row in rows)
        told = " ".join(" ".join(words_of(row) for row in rows).split()).lstrip("✓?! ")
        headline, missing = verdict.headline, pay_of(verdict).missing
        assert told in (str(headline), str(headline).replace(f": {missing}", ""), headline.what)
        hidden = verdict_band(verdict, shown(knowledge, money=False), width, rows_for(height))
        said = " ".join(" ".join(map(words_of, hidden)).split()).lstrip("✓?! ")
        assert said == headline.what
