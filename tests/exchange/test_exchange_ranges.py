"""What can be exported can be imported: the ends of every field's range, as YAML and as CSV."""

import datetime as dt
from dataclasses import replace
from decimal import Decimal

import pytest
from every import every
from store.logkit import bought

from appraise.base.money import Money
from appraise.exchange.csv_file import to_csv
from appraise.exchange.sheets import ReadAs, read_csv
from appraise.exchange.yaml_file import from_yaml, to_yaml
from appraise.records.entry import MONEY_FIELDS, RECORDS, Entry, LoggedEstimate
from appraise.records.fields import changed, written
from appraise.records.picture_file import PictureFile
from appraise.records.piece_words import IDENTIFIED, SUBJECTS
from appraise.records.values import Author

PAGES = (
    "\n", "a\n", "a\n\n", "\na", " a ", "\ta", "a | b\n|", "- a: b\n  c", "'=1\n=2",
    "x" * 20_000,
)  # fmt: skip
LINES = ("=1", "'", " a ", "no", "1.0", "2024-05-31", "a; b", '"', "#", "x" * 1_000)
# ISO 4217: the yen has no minor unit, the Kuwaiti dinar three decimals
AMOUNTS = ("0 JPY", "999999999999 JPY", "0.01 USD", "999999999999.99 USD", "0.001 KWD")


def money(text):
    amount, code = text.split()
    return Money(Decimal(amount), code)


CASES = {
    "date": (dt.date.min, dt.date.max, dt.date(2024, 2, 29)),
    "record": RECORDS,
    "identified": ("", *IDENTIFIED),
    "subjects": ((), SUBJECTS, SUBJECTS[:1]),
    "quality": (1.0, 5.0, 3.0000000000000004, 2),
    "condition_factor": (5e-324, 10.0, 1e-05, 1),
    "appeal": (1, 5, None),
    "maker_known": (True, False, None),
    "own_work": (True, False),
    "belonging": ((("together", 0.0), ("married", 1.0)), (("a-b", 5e-324),)),
    "estimate": (LoggedEstimate(*map(money, ("0 JPY", "0 JPY", "999999999999 JPY"))),),
    "pictures": ((PictureFile("0" * 64, "a b.jpg"), PictureFile("f" * 64, "")),),
    "extra": ({"a": [None, True, -(2**63), 1e300, "x\n", {"b": []}]},),
    **dict.fromkeys(("note", "piece"), PAGES),
    **dict.fromkeys(("title", "motif", "maker", "venue"), LINES),
    **dict.fromkeys(MONEY_FIELDS, tuple(map(money, AMOUNTS))),
}
ENTRIES = [
    pytest.param(replace(bought(), **{name: value}), id=f"{name}-{place}")
    for name, values in CASES.items()
    for place, value in enumerate(values)
]


def test_every_field_has_its_cases():
    words = {"channel", "kind", "process", "housing", "format"}
    assert {each.name for each in Entry.FIELDS} == CASES.keys() | words


@every("entry", ENTRIES)
def test_what_goes_out_comes_in_again(entry):
    assert from_yaml(to_yaml([entry]), "log.yaml") == (entry,)
    found = read_csv(to_csv([entry]), "log.csv", ReadAs(delimiter=","))
    assert (found.bad, found.questions, found.entries) == ((), (), (entry,))


@every("entry", ENTRIES)
def test_what_a_form_shows_is_what_it_takes(entry):
    # a form takes one line a field, without needless blanks
    texts = {name: " ".join(text.split()) for name, text in written(entry).items()}
    begun = Entry("asking", dt.date(2000, 1, 1))
    after = changed(begun, texts, Author("USD", dt.date(2024, 5, 31)))
    assert {name: " ".join(text.split()) for name, text in written(after).items()} == texts
    if not any(
        line != " ".join(line.split()) for line in f"{entry.note}\n{entry.title}".split("\n")
    ):
        assert (after.note, after.title) == (entry.note, entry.title)
