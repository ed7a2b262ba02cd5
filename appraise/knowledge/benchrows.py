"""Rows of the bench: `spares` and `materials`."""

from collections.abc import Container

from appraise.base.yamls import Row
from appraise.knowledge.basis import read_basis
from appraise.knowledge.bench import ARCHIVAL, Fitting, Material, Spare
from appraise.knowledge.citing import Keys

OUTSIDES = ("case", "recess", "package", "plate", "mount")
FARTHEST = 50.0  # mm


def read_spare(row: Row, key: str, sources: Keys, parts: Container[str]) -> Spare:
    """A row of `spares:`; its `parts` are words of the topic of that name."""
    asked = row.words("parts")
    for word in asked:
        if word not in parts:
            raise row.error("parts", f"'{word}' is not a part")
    room = row.numbers("room", -FARTHEST, FARTHEST)
    if len(room) != 2 or room[0] >= room[1]:
        raise row.error("room", "two figures in mm are needed: the least and the most")
    spare = Spare(
        key,
        row.text("name"),
        asked,
        row.choice("outside", OUTSIDES),
        (room[0], room[1]),
        _words(row),
        read_basis(row, sources),
    )
    row.done()
    return spare


def read_material(row: Row, key: str, sources: Keys) -> Material:
    """A row of `materials:`."""
    material = Material(
        key,
        row.text("name"),
        row.choice("archival", ARCHIVAL),
        row.text("says"),
        _words(row),
        read_basis(row, sources),
    )
    row.done()
    return material


def read_fitting(row: Row, key: str, sources: Keys) -> Fitting:
    """The one row `fitting:`."""
    fitting = Fitting(row.number("reach", None, 0, 10), row.number("doubtful", None, 0, 1))
    read_basis(row, sources)
    row.done()
    return fitting


def _words(row: Row) -> tuple[str, ...]:
    return tuple(word.lower().replace("-", " ") for word in row.texts("words"))
