"""Records of open museum collections: what sizes and dates they give, against what the tool says.

Sources, holders, licences and what to allow for stand in museum/README.md. The figures at the
earlier commit are those of the bench. A test of what was corrected by the records shows that the
correction took, and no more; of what was not, it is a check from outside.
"""

import json
import sys
from functools import cache
from pathlib import Path
from statistics import median

import pytest

from appraise.knowledge import load

sys.path.insert(0, str(Path(__file__).parents[1] / "bench"))

import bench_museum as bench

README = bench.RECORDS.parent / "README.md"
LICENCES = {"CC0-1.0": "CC0 1.0", "CC-BY-4.0": "CC BY 4.0", "CC-BY-3.0": "CC BY 3.0"}


@cache
def rows() -> dict[str, bench.Row]:
    return bench.measure_all(bench.RECORDS, load())


def test_every_record_says_its_holder_and_licence_and_both_are_credited():
    credits = README.read_text(encoding="utf-8")
    records = [json.loads(line) for line in bench.RECORDS.read_text(encoding="utf-8").splitlines()]
    assert len({record["id"] for record in records}) == len(records)
    for record in records:
        row = next(line for line in credits.splitlines() if f"| {record['source']} |" in line)
        assert f"| {LICENCES[record['licence']]} |" in row
        assert record["accession"]


FORMATS = ["plate", "opening", "opening, plate told", "case", "slide, continent"]
MOUNTS = ["carte mount", "cabinet mount", "stereo mount"]


@pytest.mark.parametrize("name", FORMATS + MOUNTS)
def test_what_is_stated_of_a_format_is_as_often_right(name):
    count, right, stated = rows()[name]
    assert count >= 16
    assert abs(stated - right) <= 10


@pytest.mark.parametrize("name", FORMATS + MOUNTS)
def test_a_format_is_named_as_often_as_before(name):
    assert rows()[name][1] >= bench.BEFORE[name][1] - 1e-3


def test_four_openings_in_five_name_their_plate():
    assert rows()["opening"][1] >= 80
    assert rows()["opening, plate told"][1] >= 80


def test_the_documented_years_of_a_carte():
    _, inside, bits, width = rows()["carte, documented"]
    _, _, bits_before, width_before = bench.BEFORE["carte, documented"]
    assert 70 <= inside <= 95
    assert bits <= bits_before - 0.4
    assert width <= 28 < width_before


@pytest.mark.parametrize("holder", ["american-art/npg", "cmoa/collection"])
@pytest.mark.parametrize("years", ["documented", "any date"])
def test_cartes_of_each_holder_by_itself(holder, years):
    name = f"carte, {years}, {holder}"
    assert rows()[name][1] >= 70
    assert rows()[name][3] <= bench.BEFORE[name][3] - 8
    assert rows()[name][2] <= bench.BEFORE[name][2] - 0.4


# One object: loose plates are now given years up to 1932, since tintypes were made into the 20th
# century (Tintype, American Institute for Conservation).
# The last cards of a carte's size are given more years since developing-out papers and later mounts
# have rows of their own; their bits are held to the same bound as all others.
WIDER = {"tintype, loose-plate": 2, "1890s": 2, "1900s": 2}


@pytest.mark.parametrize("name", [name for name, row in bench.BEFORE.items() if len(row) == 4])
def test_no_row_of_years_got_worse(name):
    _, _, bits_before, width_before = bench.BEFORE[name]
    _, _, bits, width = rows()[name]
    assert bits <= bits_before + 0.1
    assert width <= width_before + WIDER.get(name, 1)


def test_a_carte_s_mount_is_of_the_size_that_museums_measure():
    records = bench.records_of(bench.RECORDS)
    sides = [piece.measured["mount"].sides for piece, _ in bench.mounts(records, "carte")]
    usual = tuple(median(float(one[side]) for one in sides) for side in (0, 1))
    assert usual == pytest.approx((61, 99.5), abs=1)
    assert (61.0, 100.0) in load().formats["carte-de-visite"].sizes


def test_the_columns_of_the_table_stand_beside_each_other():
    table = list(bench.lines(rows()))
    assert bench.BEFORE_COMMIT in table[0]
    told = {line[:36].strip() for line in table}
    assert set(bench.BEFORE) <= told
