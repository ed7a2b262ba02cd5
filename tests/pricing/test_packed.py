"""A learnt log as bytes and back gives the same estimates."""

import datetime as dt
from dataclasses import replace

import pytest
from store.logkit import bought

from appraise.base.errors import InputError
from appraise.knowledge import load
from appraise.pricing.estimate import learn
from appraise.pricing.packed import pack, unpack
from appraise.pricing.price_rows import priced_rows


@pytest.mark.parametrize("many", [0, 1, 3, 30])
def test_out_and_in_again_is_the_same(many):
    entries = [
        bought(f"girl {n}", f"{30 + 7 * (n % 5)}.00", motif=("vine", "lace", "dog")[n % 3])
        for n in range(many)
    ]
    rows = priced_rows(entries, load(), "USD", dt.date(2024, 6, 1))
    one = learn(rows)
    other = unpack(pack(one))
    assert other.rows == one.rows
    if rows:
        subject = replace(rows[0], price=None)
        told, again = one.estimate(subject), other.estimate(subject)
        assert (told.low, told.median, told.high, told.why, told.comparables) == (
            again.low, again.median, again.high, again.why, again.comparables,
        )  # fmt: skip
    assert [each.id for each in other.doubtful()] == [each.id for each in one.doubtful()]


@pytest.mark.parametrize("data", [b"", b"x", b"\x80", b"\xc1", b"\x93\x01\x02\x03"])
def test_anything_else_is_refused(data):
    with pytest.raises(InputError):
        unpack(data)
