"""A line made of a price's text is the line of the whole entry, or is left to it."""

import json

import pytest
from hypothesis import given
from store.logkit import bought, entries
from thorough import tries

from appraise.documents.entry import entry_line, kept_line
from appraise.records.record_types import from_text, to_text

ID = "0123456789abcdef"


@tries(150)
@given(entries)
def test_a_line_of_the_text_is_the_line_of_the_entry(entry):
    body = to_text(entry)
    line = kept_line(body, ID)
    assert line in ("", entry_line(from_text(body, ID)))


def test_a_plain_entry_needs_no_more_than_its_text():
    entry = bought()
    assert kept_line(to_text(entry), ID) == entry_line(entry.named(ID))


@pytest.mark.parametrize(
    "change", [{"record": "eaten"}, {"date": 5}, {"paid": "45"}, {"title": ["a"]}]
)
def test_what_is_not_plain_is_left_to_the_whole_record(change):
    assert kept_line(json.dumps({**json.loads(to_text(bought())), **change}), ID) == ""


def test_no_json_is_left_to_the_whole_record():
    assert kept_line("{", ID) == ""
