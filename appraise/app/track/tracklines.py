"""The track record as lines: sentences above, the two pictures beside or below one another."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from appraise.app.lines import EMPTY, Line, cut, fill, fold, line
from appraise.app.marks import Marks
from appraise.base.percents import percent
from appraise.documents.track import PARTS, Track, how_scored, sentences
from appraise.pricing.track import Bin

SIDE_BY_SIDE = 72  # cells from which the pictures stand beside one another
LABEL, SAID, COUNT, GAP = 16, 27, 5, 4  # cells
LEAST, MOST = 8, 40  # cells of a picture
FELL = "where prices fell in their ranges"
CAME = "how often 'married piece' came true"


def track_lines(track: Track, width: int, marks: Marks) -> list[Line]:
    """The whole track record in lines of a width."""
    *figures, believed = [fold(told, width) for told in sentences(track)]
    out = [*(row for told in figures for row in told), EMPTY, *believed, EMPTY]
    room = (width - GAP) // 2 if width >= SIDE_BY_SIDE else width
    fell, came = _fell(track, room, marks), _came(track.bins, room)
    if width < SIDE_BY_SIDE:
        return [*out, *fell, *([EMPTY] if fell else []), *came]
    return [*out, *_beside(fell, came, room)]


def _beside(left: Sequence[Line], right: Sequence[Line], room: int) -> Iterator[Line]:
    for place in range(max(len(left), len(right))):
        one = left[place] if place < len(left) else EMPTY
        two = right[place] if place < len(right) else EMPTY
        yield (*fill(one, room), (" " * GAP, ""), *two)


def _fell(track: Track, width: int, marks: Marks) -> list[Line]:
    """A bar for each fifth of the forecasts; all are equally long when the ranges are right."""
    if track.prices is None:
        return []
    counts, even = track.parts, track.prices.count / len(PARTS)
    room = max(LEAST, min(MOST, width - LABEL - COUNT - 2))
    most = max(*counts, even)
    out = [line((FELL, "head")), EMPTY]
    for name, count in zip(PARTS, counts, strict=True):
        out.append(
            line((f"{name:<{LABEL}}", "quiet"), *_bar(count / most, even / most, room, marks))
            + line((f"{count:>{COUNT}}", "strong"))
        )
    told = f"{marks.wall} bar length expected if the ranges are right"
    return [*out, EMPTY, *fold(told, width, role="quiet")]


def _bar(share: float, mark: float, room: int, marks: Marks) -> Iterator[tuple[str, str]]:
    """A bar of so many cells with a sign where it should end."""
    length, place = round(share * room), min(room - 1, round(mark * room))
    for cell in range(room):
        here = cell == place
        sign = marks.wall if here else (marks.bar if cell < length else " ")
        yield sign, "quiet" if here else "bar"


def _came(bins: Sequence[Bin], width: int) -> list[Line]:
    """For each step of what was said, where it stands and where the truth came out."""
    if not bins:
        return []
    room = max(LEAST, min(MOST, width - SAID - COUNT))
    out = [line((CAME, "head")), EMPTY]
    for one in bins:
        said, came = _place(one.said, room), _place(one.came, room)
        cells = [("o" if cell == said else " ") for cell in range(room)]
        cells[came] = "x" if came != said else "*"
        told = f"said {percent(one.said)}, came {percent(one.came)}"
        label, count = (f"{told:<{SAID}}", "quiet"), (f"{one.count:>{COUNT}}", "strong")
        out.append(line(label, ("".join(cells), "bar"), count))
    told = "o predicted, x came true, * both"
    return [*out, EMPTY, *fold(told, width, role="quiet")]


def _place(share: float, room: int) -> int:
    return min(room - 1, int(share * room))


def track_page(track: Track | None, width: int, marks: Marks) -> list[Line]:
    """The page; while the log is being read it says so."""
    if track is None:
        return fold("The log is being read ...", width, role="quiet")
    note = how_scored(track)
    rows = [*track_lines(track, width, marks), EMPTY, *fold(note, width, role="quiet")]
    return [cut(row, width) for row in rows]
