"""A line drawing in cells, kept once it was made."""

from functools import cache, lru_cache

from appraise.app.lines import Line, line
from appraise.base.cells import cells, fitting
from appraise.knowledge.figures import drawing, names

BLANK = "\u2800"  # of braille, which not every font has


@cache
def known() -> frozenset[str]:
    """The drawings that there are: a row of the user's own may name another one."""
    return frozenset(names())


@lru_cache(maxsize=1024)
def drawn(name: str, across: int, rows: int, grain: str) -> tuple[str, ...]:
    """A drawing in `rows` lines of `across` cells."""
    made = cells(drawing(name), across, rows, grain)
    return tuple(row.replace(BLANK, " ") for row in made)


@lru_cache(maxsize=1024)
def filled(names_: tuple[str, ...], across: int, rows: int, grain: str) -> tuple[int, int]:
    """From which column to which any of some drawings has a dot."""
    every = (row for name in names_ for row in drawn(name, across, rows, grain))
    ends = [(len(row) - len(row.lstrip()), len(row.rstrip())) for row in every if row.strip()]
    return min(first for first, _ in ends), max(last for _, last in ends)


def drawing_lines(name: str, across: int, rows: int, grain: str) -> list[Line]:
    """A drawing as large as it can be in the room."""
    return [line((row, "bar")) for row in drawn(name, *fitting(across, rows), grain)]
