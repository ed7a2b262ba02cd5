"""A photo as half blocks, two of its dots in a cell; without colours in signs from dark to light.

A cell is taken to be twice as high as wide. What cannot be read is told in one line.
"""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

from appraise.app.lines import Line, clip, line
from appraise.app.marks import Marks
from appraise.base.errors import InputError
from appraise.documents.photos import GONE, upright

HALF = "▀"


def thumbnail(
    path: Path, columns: int, rows: int, marks: Marks, colours: bool = True
) -> list[Line]:
    """The photo within so many columns and rows, its proportions kept; one line where it is not.

    Args:
        path: The file.
        columns: Cells of a line at most.
        rows: Lines at most.
        marks: The signs to draw with; plain ones are drawn in tones.
        colours: Whether there are colours.
    """
    try:
        changed = path.stat().st_mtime_ns
    except OSError:
        return [line((clip(f"{GONE}: {path.name}", columns, marks), "doubt"))]
    tones = "" if colours and not marks.levels.isascii() else marks.tones
    return list(_thumbnail(path, changed, max(1, columns), max(1, rows), tones))


@lru_cache(maxsize=32)
def _thumbnail(path: Path, changed: int, columns: int, rows: int, tones: str) -> tuple[Line, ...]:
    from PIL.Image import Resampling  # 30 ms

    try:
        small = upright(path, (2 * columns, 4 * rows))
    except InputError as error:
        return (line((clip(error.what, columns), "doubt")),)
    scale = min(columns / small.width, 2 * rows / small.height)
    size = max(1, round(small.width * scale)), max(1, round(small.height * scale / 2))
    dots = size[0], size[1] if tones else 2 * size[1]
    small = small.resize(dots, Resampling.BOX)
    data = small.tobytes()
    return _toned(data, size[0], tones) if tones else _coloured(data, size[0])


def _coloured(data: bytes, across: int) -> tuple[Line, ...]:
    """Cells with one dot above the other."""
    step = 3 * across
    out = []
    for start in range(0, len(data), 2 * step):
        above, below = data[start : start + step], data[start + step : start + 2 * step]
        out.append(tuple(
            (HALF, f"#{above[n : n + 3].hex()} on #{below[n : n + 3].hex()}")
            for n in range(0, step, 3)
        ))  # fmt: skip
    return tuple(out)


def _toned(data: bytes, across: int, tones: str) -> tuple[Line, ...]:
    """Cells by their light; the sign with the most ink stands for the darkest."""
    light = [
        (299 * data[n] + 587 * data[n + 1] + 114 * data[n + 2]) // 1000
        for n in range(0, len(data), 3)
    ]  # luma of ITU-R BT.601
    signs = "".join(tones[min(len(tones) - 1, one * len(tones) // 256)] for one in light)
    return tuple(line((signs[n : n + across], "")) for n in range(0, len(signs), across))
