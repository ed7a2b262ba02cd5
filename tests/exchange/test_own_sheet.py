"""An export read row by row is the same as one read whole, and is taken in from the disk."""

import tracemalloc

import pytest
from hypothesis import given
from hypothesis import strategies as st
from store import logkit
from store.logkit import bought, opened

from appraise.base.errors import InputError
from appraise.exchange.csv_file import csv_parts, to_csv
from appraise.exchange.own_sheet import own_preview
from appraise.exchange.preview import ReadAs
from appraise.exchange.sheets import import_csv, read_csv
from appraise.store import current_state, spool
from appraise.store.spool import Spool

ids = st.text("0123456789abcdef", min_size=16, max_size=16)
named = st.lists(st.builds(lambda entry, key: entry.named(key), logkit.entries, ids), max_size=3)


@pytest.fixture
def file(tmp_path):
    return tmp_path / "out.csv"


@given(named)
def test_row_by_row_is_the_same_as_whole(tmp_path_factory, entries):
    file = tmp_path_factory.mktemp("own") / "out.csv"
    file.write_bytes(to_csv(entries))
    found = own_preview(file, ReadAs())
    assert found is not None
    if entries:
        whole = read_csv(to_csv(entries), "out.csv")
        assert list(found.entries) == list(whole.entries) == entries
        assert (found.columns, found.samples, found.encoding) == (
            whole.columns, whole.samples, whole.encoding,
        )  # fmt: skip
    assert found.bad == ()


@pytest.mark.parametrize(
    "data",
    [b"", b"title,price\nx,4 USD\n", b"\xff\xfe", b"record;date\n", b'"', to_csv([])[3:40]],
)
def test_another_file_is_left_to_the_reader_of_strangers(file, data):
    file.write_bytes(data)
    assert own_preview(file, ReadAs()) is None


def test_text_that_is_not_utf8_is_left_to_it_too(file):
    file.write_bytes(to_csv([bought("girl")]).replace(b"girl", b"gir\xe9"))
    assert own_preview(file, ReadAs()) is None


def test_what_the_user_decides_is_left_to_it(file):
    file.write_bytes(to_csv([bought("girl")]))
    assert own_preview(file, ReadAs(columns={"title": "note"})) is None


def test_a_quotation_mark_that_is_left_open_is_told_with_its_row(file):
    file.write_bytes(to_csv([bought("girl")]) + b'"open\r\n')
    with pytest.raises(InputError, match="quotation marks"):
        own_preview(file, ReadAs())


def test_rows_that_were_spoilt_are_told(file):
    data = to_csv([bought("girl"), bought("boy")]).replace(b"2024-05-30", b"someday", 1)
    file.write_bytes(data)
    found = own_preview(file, ReadAs())
    assert found is not None
    assert [one.number for one in found.bad] == [2]
    assert [one.title for one in found.entries] == ["boy"]


def test_a_long_one_is_never_held_as_a_whole(file, tmp_path, monkeypatch):
    monkeypatch.setattr(spool, "PART", 50)
    monkeypatch.setattr(current_state, "_PART", 50)
    note, many = "long " * 800, 2_000
    with file.open("wb") as out:
        out.writelines(csv_parts(bought(f"girl {n}", note=f"{n} {note}") for n in range(many)))
    with opened(tmp_path / "log.sqlite") as log:
        usual = ReadAs()
        tracemalloc.start()
        found = own_preview(file, usual)
        assert found is not None
        taken, step = import_csv(log, found), log.undo()
        assert (len(taken.added), len(step.entries), log.entries()) == (many, many, ())
        assert len(import_csv(log, found).added) == many
        _, peak = tracemalloc.get_traced_memory()
        tracemalloc.stop()
    assert peak < 1.2 * file.stat().st_size


def test_a_spool_gives_back_what_was_put_by(monkeypatch):
    monkeypatch.setattr(spool, "PART", 7)
    rows = [(str(n), n, None, n / 3, (n, "x")) for n in range(50)]
    kept = Spool()
    for row in rows:
        kept.add(row)
    one, other = iter(kept), iter(kept)
    assert [next(one) for _ in range(10)] == [next(other) for _ in range(10)] == rows[:10]
    assert list(kept) == rows
    assert (len(kept), kept[0], kept[-1], kept[6:9]) == (50, rows[0], rows[-1], rows[6:9])
    with pytest.raises(IndexError):
        kept[50]
