"""Cells of a spreadsheet in the trade's words. The names are common practice, no source."""

import pytest
from every import every
from hypothesis import example, given
from hypothesis import strategies as st
from thorough import tries

from appraise.exchange.words import WORD_FIELDS, UnknownWordError
from appraise.knowledge import load
from appraise.listing.cellwords import cell_words, sheet_words


@pytest.fixture(scope="module")
def word():
    return cell_words(load())


@every(
    ("field", "cell", "meant"),
    [
        ("process", "ambro", "ambrotype"),
        ("process", "Ambrotype", "ambrotype"),
        ("process", "Ruby Ambrotype", "ambrotype-ruby"),
        ("process", "tin type", "tintype"),
        ("process", "ferrotype", "tintype"),
        ("process", "daguerrotype", "daguerreotype"),
        ("process", "ambro or tin", "ambro-or-tin"),
        ("process", "not an ambrotype", "not-an-ambrotype"),
        ("process", "hologram", "hologram"),
        ("format", "6th plate", "sixth"),
        ("format", "1/6 plate", "sixth"),
        ("format", "Sixth", "sixth"),
        ("format", "9th", "ninth"),
        ("format", "CDV", "carte-de-visite"),
        ("housing", "union case", "thermoplastic"),
        ("housing", "leather case", "leather-wood"),
        ("housing", "gutta percha", "thermoplastic"),
        ("housing", "none", "none"),
        ("record", "purchased", "bought"),
        ("record", "passed", "passed"),
        ("channel", "flea market", "market"),
        ("channel", "antique shop", "shop"),
        ("subjects", "gentleman", "single"),
        ("subjects", "baby", "child"),
        ("kind", "cased image", "cased"),
    ],
)
def test_a_cell_becomes_the_word_of_its_field(word, field, cell, meant):
    assert word(field, cell) == meant


def test_a_word_of_the_field_stands_as_it_is(word):
    knowledge = load()
    for term in knowledge.terms.values():
        if term.field in ("process", "format", "case.material"):
            field = "housing" if term.field == "case.material" else term.field
            assert word(field, term.value) == term.value


STRICT = sheet_words(load())
FIELDS = st.sampled_from(WORD_FIELDS)
CELLS = st.text(max_size=30) | st.text('1234567890/ x×½¾.,-incm"JanuFebp', max_size=20)


@tries(150)
@given(FIELDS, CELLS)
@example("record", "PA")
def test_any_cell_is_a_known_word_or_is_told_apart(field, cell):
    try:
        known = (STRICT(field, cell),)
    except UnknownWordError as error:
        known = error.offers
    assert tuple(STRICT(field, one) for one in known) == known
