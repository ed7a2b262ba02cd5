"""Text of any origin as one plain line."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from appraise.base.oneline import plain


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("a  b\n\tc", "a b c"),
        ("\x1b[31mred", "[31mred"),
        ("a\u202eb", "ab"),
        ("a \x1b b", "a b"),
        ("\u00e9\u0301 \u6587 \U0001f600", "\u00e9\u0301 \u6587 \U0001f600"),
        ("na\u200cme", "na\u200cme"),
        ("", ""),
    ],
)
def test_blanks_are_one_space_and_what_cannot_be_seen_goes(text, line):
    assert plain(text) == line


@given(st.text())
def test_it_is_one_line_that_stays_as_it_is(text):
    line = plain(text)
    assert plain(line) == line
    assert len(line.splitlines()) <= 1
    assert all(unicodedata.category(c) not in ("Cc", "Cs") for c in line)
