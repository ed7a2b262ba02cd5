"""Documented dates of published objects against the shipped years of every feature they show.

The objects, their records and what was left out stand in index.yaml and at the head of each file.
Nothing here runs the reasoning model: only the years of single features are compared.
"""

from functools import cache
from pathlib import Path

from every import every

from appraise.base.dates import Dating
from appraise.base.yamls import read
from appraise.knowledge import Knowledge, load
from appraise.knowledge.records import Years
from appraise.records.piece_file import read_piece

PIECES = Path(__file__).parent


@cache
def shipped() -> Knowledge:
    """The shipped knowledge without anybody's overlay."""
    return load()


def listed() -> list[tuple[str, str]]:
    """Files of the list of dated objects, with the documented dates."""
    rows = read(PIECES / "index.yaml").rows("pieces")
    return [(row.text("file"), row.text("documented", "")) for row in rows]


def test_the_list_of_objects_and_its_files_agree() -> None:
    names = [name for name, _ in listed()]
    assert sorted(names) == sorted(p.name for p in PIECES.glob("*.yaml") if p.name != "index.yaml")
    assert all(read_piece(PIECES / name, shipped()).findings for name in names)


def rows_of(check: str, chosen: str) -> dict[str, Years]:
    """Years by region of a finding; what a record calls the process dates by the process."""
    if check == "claim.process":
        return next(dict(p.years) for p in shipped().processes.values() if p.family == chosen)
    found = shipped().checks[check]
    return dict(found.answers[found.index(chosen)].years)


@every(("name", "documented"), [row for row in listed() if row[1]])
def test_documented_dates_lie_within_every_feature_named(name: str, documented: str) -> None:
    # Each record is cited at the head of its file. Features without years for the region are not
    # judged; a date that is only about right may lie five years off.
    runs = Dating.parse(documented).runs
    begins, ends = runs[0].earliest, runs[-1].latest
    assert begins
    assert ends
    slack = 5 if "~" in documented else 0
    piece = read_piece(PIECES / name, shipped())
    judged = [rows_of(each.check, each.answer) for each in piece.findings.values()]
    dated = [row for rows in judged if (row := rows.get(piece.region, rows.get("")))]
    assert dated
    for row in dated:
        assert row.first <= ends.year + slack, row
        assert begins.year - slack <= row.last, row
