"""String likeness against worked values and two libraries.

Levenshtein, Binary codes capable of correcting deletions, insertions and reversals, 1966; Jaro,
Advances in record-linkage methodology, Journal of the American Statistical Association 84, 1989,
414-420; Winkler, String comparator metrics and enhanced decision rules, 1990. MARTHA, DIXON and
DWAYNE are Winkler's own pairs; the other values were computed by both libraries named here.
"""

import jellyfish
import pytest
from rapidfuzz import fuzz
from rapidfuzz.distance import OSA, DamerauLevenshtein, Jaro, JaroWinkler, Levenshtein

from appraise.listing.likeness import ENOUGH, Speller

# (one, other, Jaro, Jaro-Winkler, Levenshtein, optimal string alignment)
PAIRS = [
    ("MARTHA", "MARHTA", 0.9444444444, 0.9611111111, 2, 1),
    ("DIXON", "DICKSONX", 0.7666666667, 0.8133333333, 4, 4),
    ("DWAYNE", "DUANE", 0.8222222222, 0.8400000000, 2, 2),
    ("JELLYFISH", "SMELLYFISH", 0.8962962963, 0.8962962963, 2, 2),
    ("SHACKLEFORD", "SHACKELFORD", 0.9696969697, 0.9818181818, 2, 1),
    ("daguerreotype", "daguerrotype", 0.9188034188, 0.9512820513, 1, 1),
    ("ambrotype", "abmrotype", 0.9629629630, 0.9666666667, 2, 1),
]
DISTANCES = [
    ("kitten", "sitting", 3),
    ("saturday", "sunday", 3),
    ("intention", "execution", 5),
    ("rosettacode", "raisethysword", 8),
    ("flaw", "lawn", 2),
]


@pytest.mark.parametrize(("one", "other", "jaro", "winkler", "levenshtein", "osa"), PAIRS)
def test_two_libraries_hold_the_worked_values(
    one: str, other: str, jaro: float, winkler: float, levenshtein: int, osa: int
) -> None:
    assert Jaro.similarity(one, other) == pytest.approx(jaro, abs=1e-10)
    assert jellyfish.jaro_similarity(one, other) == pytest.approx(jaro, abs=1e-10)
    assert JaroWinkler.similarity(one, other) == pytest.approx(winkler, abs=1e-10)
    assert jellyfish.jaro_winkler_similarity(one, other) == pytest.approx(winkler, abs=1e-10)
    assert Levenshtein.distance(one, other) == levenshtein
    assert jellyfish.levenshtein_distance(one, other) == levenshtein
    assert OSA.distance(one, other) == osa


@pytest.mark.parametrize(("one", "other", "distance"), DISTANCES)
def test_edit_distances(one: str, other: str, distance: int) -> None:
    assert Levenshtein.distance(one, other) == distance
    assert jellyfish.levenshtein_distance(one, other) == distance


def test_three_distances_differ_over_one_swap() -> None:
    """CA to ABC: a swap cannot be edited again under optimal string alignment."""
    assert Levenshtein.distance("CA", "ABC") == 3
    assert OSA.distance("CA", "ABC") == 3
    assert DamerauLevenshtein.distance("CA", "ABC") == 2
    assert jellyfish.damerau_levenshtein_distance("CA", "ABC") == 2


def test_token_ratios_and_their_trap() -> None:
    """The first values round to those printed in the README of the library (97, 91, 84, 100).

    The last is why no whole text is compared here: two processes look alike to 83 in 100.
    """
    assert fuzz.ratio("this is a test", "this is a test!") == pytest.approx(96.5517, abs=1e-4)
    assert fuzz.partial_ratio("this is a test", "this is a test!") == 100
    bears = ("fuzzy wuzzy was a bear", "wuzzy fuzzy was a bear")
    assert fuzz.ratio(*bears) == pytest.approx(90.9091, abs=1e-4)
    assert fuzz.token_sort_ratio(*bears) == 100
    twins = ("fuzzy was a bear", "fuzzy fuzzy was a bear")
    assert fuzz.token_sort_ratio(*twins) == pytest.approx(84.2105, abs=1e-4)
    assert fuzz.token_set_ratio(*twins) == 100
    plates = ("sixth plate ambrotype", "sixth plate daguerreotype")
    assert fuzz.token_set_ratio(*plates) == pytest.approx(82.61, abs=5e-3)


@pytest.mark.parametrize(("one", "other", "jaro", "winkler", "levenshtein", "osa"), PAIRS)
def test_the_speller_takes_just_the_pairs_within_its_rule(
    one: str, other: str, jaro: float, winkler: float, levenshtein: int, osa: int
) -> None:
    """One slip from five letters, or a Jaro-Winkler likeness of .92 from eight."""
    known, typed = one.lower(), other.lower()
    meant = Speller([known]).nearest(typed)
    within = osa <= 1 or (winkler >= ENOUGH and len(typed) >= 8)
    assert (meant is not None) == within
    if meant:
        assert meant == (known, round(JaroWinkler.similarity(typed, known), 3))


@pytest.mark.parametrize(
    ("typed", "known"),
    [("plane", "plate"), ("sixty", "sixth"), ("shell", "spell"), ("tin", "ten")],
)
def test_plain_and_short_words_are_never_mended(typed: str, known: str) -> None:
    assert Speller([known], {typed}).nearest(typed) is None


def test_a_word_that_begins_otherwise_is_another_word() -> None:
    assert OSA.distance("feather", "leather") == 1
    assert Speller(["leather"]).nearest("feather") is None
    assert Speller(["leather"]).nearest("elather") is not None
