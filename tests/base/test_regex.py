"""Patterns that are compiled when they are first used say what compiled ones say."""

import re

import pytest

from appraise.base import regex
from appraise.base.regex import late

TEXT = "One 12, two 345; Three 6"


def test_they_say_what_compiled_ones_say():
    for pattern, flags in ((r"\d+", 0), (r"t(?P<rest>\w+)", re.IGNORECASE), ("x", 0)):
        ours, theirs = late(pattern, flags), re.compile(pattern, flags)
        assert ours.findall(TEXT) == theirs.findall(TEXT)
        assert [one.span() for one in ours.finditer(TEXT)] == [
            one.span() for one in theirs.finditer(TEXT)
        ]
        assert ours.sub("-", TEXT) == theirs.sub("-", TEXT)
        assert (ours.pattern, ours.flags) == (theirs.pattern, theirs.flags)
        assert bool(ours.match(TEXT)) == bool(theirs.match(TEXT))


def test_each_is_compiled_once_and_not_before_it_is_used(monkeypatch):
    compiled = []
    plain = re.compile
    monkeypatch.setattr(regex.re, "compile", lambda *given: compiled.append(given) or plain(*given))
    pattern = late("a+", re.IGNORECASE)
    assert compiled == []
    assert [bool(pattern.search(text)) for text in ("xAy", "b")] == [True, False]
    assert pattern.match("aa")
    assert compiled == [("a+", re.IGNORECASE)]


def test_a_wrong_one_says_so_at_its_first_use():
    pattern = late("(")
    with pytest.raises(re.error):
        pattern.search("")
