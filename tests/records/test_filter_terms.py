"""The filter line: how it is taken apart, and which records fit each condition."""

import datetime as dt
from decimal import Decimal

import pytest
from every import every

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.records.entry import Entry
from appraise.records.fields import typed_fields
from appraise.records.filter import FilterTerm, fits, terms, written

FIELDS = tuple(typed_fields(Entry))
ENTRY = Entry(
    "bought", dt.date(2021, 6, 1), title="Girl with a basket", process="ambrotype", kind="cased",
    paid=Money(Decimal("45.00"), "USD"), note="Brass mat; thirty per cent off",
)  # fmt: skip


@every(
    ("line", "found"),
    [("girl", [FilterTerm("", "girl")]),
     ("  girl   BASKET ", [FilterTerm("", "girl"), FilterTerm("", "basket")]),
     ("process=amb", [FilterTerm("process", "amb")]),
     ("process:amb", [FilterTerm("process", "amb")]),
     ("PROCESS=amb", [FilterTerm("process", "amb")]), ("-girl", [FilterTerm("", "girl", True)]),
     ("-process=amb", [FilterTerm("process", "amb", True)]),
     ('"brass mat"', [FilterTerm("", "brass mat")]), ('"brass mat', [FilterTerm("", "brass mat")]),
     ('note="brass mat" x', [FilterTerm("note", "brass mat"), FilterTerm("", "x")]),
     ("", []), ("process=", []), ("-", []), ('""', [])],
)  # fmt: skip
def test_a_line_is_taken_apart(line, found):
    assert list(terms(line, FIELDS)) == found
    assert terms(written(found), FIELDS) == tuple(found)


def test_a_field_that_is_not_there_is_told_with_the_nearest():
    with pytest.raises(InputError, match="process") as told:
        terms("proces=amb", FIELDS)
    assert "no field 'proces'" in str(told.value)


def test_bytes_that_are_no_text_are_read_over():
    assert terms("gi\udc80rl", FIELDS) == (FilterTerm("", "girl"),)


@every(
    ("line", "found"),
    [("basket", True), ("BASKET", True), ("girl soldier", False), ('"brass mat"', True),
     ('"mat brass"', False), ("-soldier", True), ("-girl", False), ("process=ambrotype", True),
     ("process=amb", True), ("process=tin,amb", True), ("process=tin", False),
     ("-process=tin", True), ("-process=amb", False), ("housing=?", True), ("-housing=?", False),
     ("process=?", False), ("-process=?", True), ("paid=45", True), ("paid=20-50", True),
     ("paid=46..", False), ("-paid=46..", True), ("date=2021-06", True), ("date=2019-2020", False)],
)  # fmt: skip
def test_a_record_fits_each_condition_or_not(line, found):
    """By the words in the docstring of the filter."""
    assert all(fits(ENTRY, one) for one in terms(line, FIELDS)) is found


def test_a_value_that_cannot_be_understood_is_told_with_its_field():
    (one,) = terms("paid=cheap", FIELDS)
    with pytest.raises(InputError, match="paid"):
        fits(ENTRY, one)
