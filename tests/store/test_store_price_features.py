"""Several subjects, image quality, identification, a maker's name: kept, found, from old logs."""

import json
import sqlite3
from contextlib import closing

import pytest
from store.logkit import bought, opened

from appraise.exchange.csv_file import OWN_HEADERS, to_csv
from appraise.exchange.sheets import ReadAs, read_csv
from appraise.exchange.yaml_file import from_yaml, to_yaml
from appraise.knowledge import load
from appraise.pricing.price_rows import priced_rows
from appraise.records import record_types as codec
from appraise.store.migrations import MIGRATIONS, applied, migrate
from appraise.store.transaction import connect

FIDDLER = bought(
    "fiddler",
    "60.00",
    subjects=("soldier", "music"),
    quality=4.5,
    identified="full",
    maker="R. Quill",
)
PLAIN = bought("plain man", "30.00", subjects=("single",), identified="no")
BARE = bought("bare", "20.00")


@pytest.mark.parametrize(
    ("query", "titles"),
    [
        ("subject:music", ["fiddler"]),
        ("subject:sol", ["fiddler"]),
        ("subject:ic", []),  # a word from its beginning
        ("identified:full,no", ["fiddler", "plain man"]),
        ("identified:?", ["bare"]),
        ("maker:quill", ["fiddler"]),
        ("quill", ["fiddler"]),
        ("quality:4..", ["fiddler"]),
        ("quality:..4.4", []),
        ("-subject:music", ["plain man", "bare"]),
    ],
)
def test_a_filter_finds_them(tmp_path, query, titles):
    with opened(tmp_path / "log.sqlite") as log:
        log.add_all([FIDDLER, PLAIN, BARE])
        assert sorted(one.title for one in log.entries(query)) == sorted(titles)


def test_out_as_csv_yaml_and_json_and_in_again():
    entries = (FIDDLER, PLAIN, BARE)
    assert from_yaml(to_yaml(entries), "log.yaml") == entries
    assert read_csv(to_csv(entries), "log.csv").entries == entries
    assert tuple(codec.from_text(codec.to_text(one)) for one in entries) == entries


OLD = (
    '{"date":"2024-05-31","identified":true,"maker_known":true,"record":"bought","subject":"child"}'
)


def test_an_entry_of_an_older_log_is_read():
    entry = codec.from_text(OLD)
    assert (entry.subjects, entry.identified) == (("child",), "name")
    assert (entry.maker, entry.maker_known) == ("", True)
    unknown = codec.from_text(OLD.replace('"identified":true', '"identified":false'))
    assert unknown.identified == "no"


def test_an_older_yaml_and_csv_export_are_read():
    text = (
        "log: 1\nentries:\n- record: bought\n  date: 2024-05-31\n  subject: child\n"
        "  identified: yes\n"
    )
    (entry,) = from_yaml(text, "old.yaml")
    assert (entry.subjects, entry.identified) == (("child",), "name")
    header = OWN_HEADERS[-1]
    assert "subject" in header
    cells = {
        "record": "bought", "date": "2024-05-31", "subject": "child", "identified": "yes",
        "paid": "45.00", "currency": "USD",
    }  # fmt: skip
    row = ",".join(cells.get(name, "") for name in header)
    (entry,) = read_csv(f"{','.join(header)}\n{row}\n".encode(), "old.csv").entries
    assert (entry.subjects, entry.identified) == (("child",), "name")
    assert str(entry.paid) == "45.00 USD"


def test_a_log_of_before_shows_its_entries_after_the_step(tmp_path):
    """A log whose shelf lacks the columns and whose texts have the fields of before."""
    path = tmp_path / "log.sqlite"
    names = [step.name for step in MIGRATIONS]
    since = names[names.index("features") :]
    with opened(path) as log:
        log.add(bought("old girl", "45.00"))
    with closing(connect(path)) as connection:
        _as_before(connection, json.dumps({**json.loads(OLD), "title": "old girl"}), since)
        assert applied(connection) == tuple(names[: names.index("features")])
        assert migrate(connection, path, "2024-06-01") == tuple(since)
    with opened(path) as log:
        assert [one.identified for one in log.entries("identified:name")] == ["name"]
        assert [one.subjects for one in log.entries("subject:child")] == [("child",)]


def _as_before(connection: sqlite3.Connection, body: str, since: list[str]) -> None:
    """Take a log back to the step before, with one entry in the words of that time."""
    for column in ("quality", "identified", "maker", "until"):
        connection.execute(f"ALTER TABLE shelf DROP COLUMN {column}")
    connection.executemany("DELETE FROM migration WHERE name = ?", [(name,) for name in since])
    connection.execute(f"PRAGMA user_version = {len(MIGRATIONS) - len(since)}")
    connection.execute("DROP TRIGGER revision_stands")
    connection.execute("UPDATE revision SET body = ?", (body,))
    connection.execute("UPDATE shelf SET subject = 'child'")


def test_cells_of_a_strangers_sheet():
    sheet = (
        "date,price,subject,identified,photographer,image quality\n"
        "2024-05-31,45 USD,soldier; music,initials,R. Quill,4\n"
        "2024-05-30,30 USD,child,yes,,\n"
        "2024-05-29,30 USD,child,perhaps,,\n"
    )
    told = read_csv(sheet.encode(), "mine.csv", ReadAs(record="bought"))
    first, second = told.entries
    assert (first.subjects, first.identified) == (("soldier", "music"), "initials")
    assert (first.maker, first.quality) == ("R. Quill", 4.0)
    assert (second.subjects, second.identified) == (("child",), "name")
    assert "identified: 'perhaps' does not say how well" in told.bad[0].reason


def test_they_reach_the_price_model():
    rows = priced_rows([FIDDLER, PLAIN, BARE], load(), "USD", FIDDLER.date)
    fiddler, plain, bare = rows
    assert fiddler.subject == ("soldier", "music")
    assert (fiddler.quality, fiddler.identified) == (4.5, 0.75)
    assert (fiddler.maker, fiddler.maker_name) == (True, "r. quill")
    assert (plain.identified, plain.quality, plain.maker) == (0.0, None, None)
    assert (bare.subject, bare.identified, bare.maker_name) == ((), None, "")
