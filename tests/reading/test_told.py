"""Dates written on a piece: what each says of its part's year, by hand and by enumeration."""

from dataclasses import replace

import numpy as np
import pytest
from reading.bruteforce import SPAN, Enumeration
from reading.smallworld import dated_check, knowledge_of, weights

from appraise.base.dates import Dating
from appraise.knowledge import load
from appraise.knowledge.records import FIRST_YEAR, YEARS, Answer, Knowledge, Years
from appraise.reading.reading import read
from appraise.reading.told import told_lines, written_line
from appraise.records.piece import WRITTEN_ON, Inscription, Piece

WRONG, SPREAD = 0.2, 40  # the tests' settings: a fifth are wrong, half of those within forty years
"""`plate` dates the plate or the year after it, `case` the case or up to six years later."""


@pytest.fixture(scope="module")
def knowledge() -> Knowledge:
    early, late = Years(1840, 1842, 1848, 1850, "high"), Years(1868, 1870, 1880, 1885, "high")
    style = dated_check(
        "mat.shape",
        [Answer("early", "early", {"": early}, 0.4), Answer("late", "late", {"": late}, 0.4),
         Answer("other", "other")],
    )  # fmt: skip
    return knowledge_of([style])


def written(date: str, where: str) -> Inscription:
    return Inscription("", Dating.parse(date), where)


def by_hand(first: int, last: int, before: int) -> np.ndarray:
    """P(the writing | year of its part): right ones in the years that it allows, wrong anywhere."""
    line = np.full(SPAN, WRONG / 2 / SPAN)
    line[max(0, first - SPREAD - FIRST_YEAR) : last + SPREAD - FIRST_YEAR + 1] += (
        WRONG / 2 / (2 * SPREAD + 1)
    )
    width = last - first + 1 + before
    line[first - before - FIRST_YEAR : last - FIRST_YEAR + 1] += (1 - WRONG) / width
    return line


@pytest.mark.parametrize(
    ("date", "where", "years"),
    [
        ("1855", "plate", (1855, 1855, 1)),
        ("1861-03-08", "plate", (1861, 1861, 1)),
        ("1855", "case", (1855, 1855, 6)),
        ("1852/1854", "case", (1852, 1854, 6)),
        ("186X", "plate", (1860, 1869, 1)),
    ],
)
def test_a_right_date_is_of_the_parts_year_or_a_little_later(knowledge, date, where, years):
    line = written_line(written(date, where), knowledge)
    np.testing.assert_allclose(line, by_hand(*years), atol=1e-15)


@pytest.mark.parametrize(
    "one", [Inscription("a gift", None, "plate"), written("1855", "note"), written("1855", "")]
)
def test_no_date_a_loose_note_and_a_place_unknown_bound_nothing(knowledge, one):
    assert written_line(one, knowledge) is None
    piece = Piece(inscription=one)
    assert told_lines(piece, knowledge) == {}
    assert read(piece, knowledge).year_weights == read(Piece(), knowledge).year_weights


def test_all_writing_on_a_part_counts(knowledge):
    two = (written("1861", "plate"), written("1862", "plate"))
    piece = Piece(inscription=two[0], more_writing=(two[1], written("1858", "case")))
    told = told_lines(piece, knowledge)
    assert {part: len(lines) for part, lines in told.items()} == {"plate": 2, "case": 1}
    np.testing.assert_allclose(told["plate"][1], by_hand(1862, 1862, 1))


@pytest.mark.parametrize("where", ["plate", "case"])
@pytest.mark.parametrize("answer", ["", "early", "late"])
def test_the_table_takes_it_in_as_the_enumeration_has_it(knowledge, where, answer, monkeypatch):
    """The line of the writing stands beside the part's own findings and is no finding itself."""
    piece = Piece(inscription=written("1861", where))
    piece = piece.with_finding("mat.shape", answer) if answer else piece
    line = by_hand(1861, 1861, {"plate": 1, "case": 6}[where])
    side = {"plate": "image", "case": "housing"}[where]
    plain = Enumeration.lines

    def with_writing(self: Enumeration, wanted: str) -> dict[str, np.ndarray]:
        found = plain(self, wanted)
        if wanted == side:
            found[where] = found.get(where, np.ones(SPAN)) * line
        return found

    monkeypatch.setattr(Enumeration, "lines", with_writing)
    wanted = Enumeration(piece, knowledge).run()
    told = read(piece, knowledge)
    np.testing.assert_allclose(told.states, wanted.table.sum(axis=(0, 1, 3, 4, 5)), rtol=1e-12)
    np.testing.assert_allclose(told.year_weights, wanted.year, rtol=1e-10, atol=1e-15)
    assert [one.id for one in told.evidence] == (["mat.shape"] if answer else [])


def test_a_date_on_the_plate_moves_the_years_towards_it_and_never_all_the_way(knowledge):
    bare = read(Piece(), knowledge)
    told = read(Piece(inscription=written("1861", "plate")), knowledge)
    before = dict(zip(YEARS, bare.year_weights, strict=True))
    after = dict(zip(YEARS, told.year_weights, strict=True))
    assert told.together.last - told.together.first < bare.together.last - bare.together.first
    for year in (1860, 1861):
        assert after[year] > 5 * before[year]
    # A fifth are wrong or by a later hand: no year is ruled out.
    assert all(after[year] > 0.01 * before[year] for year in YEARS)


def test_a_date_on_the_case_against_one_on_the_plate_speaks_for_a_marriage(knowledge):
    plate = written("1858", "plate")
    married = [
        read(Piece(inscription=plate, more_writing=(written(date, "case"),)), knowledge).married
        for date in ("1858", "1885")
    ]
    assert married[0] < married[1]


def test_every_place_of_writing_but_a_note_is_known_and_dates_a_part():
    shipped = load()
    places = shipped.weights.written_on
    assert set(places) == set(WRITTEN_ON) - {"note"}
    for part, before in places.values():
        assert part in shipped.parts
        assert 0 <= before <= 10
    for where in places:
        assert told_lines(Piece(inscription=written("1861", where)), shipped)
    assert weights().written == WRONG
    assert weights().written_spread == SPREAD


def test_a_date_beyond_all_years_bounds_nothing(knowledge):
    assert written_line(written("1650", "plate"), knowledge) is None
    assert replace(Piece(), inscription=written("1650", "plate")).writings
