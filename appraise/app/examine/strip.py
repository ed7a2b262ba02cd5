"""The progress line: for each part, checks looked at of those that apply."""

from collections.abc import Mapping, Sequence

from appraise.app.lines import Line, length, line
from appraise.app.marks import Marks


def strip(
    progress: Mapping[str, tuple[int, int]], parts: Sequence[str], at: str, width: int, marks: Marks
) -> Line:
    """As many parts as fit around the one that is looked at; `..` where more are left out."""
    shown = [part for part in parts if part in progress]
    if not shown:
        return line()
    here = shown.index(at) if at in shown else 0
    first, last = here, here + 1
    while last < len(shown) or first > 0:
        wider = [(first, min(len(shown), last + 1)), (max(0, first - 1), last)]
        grown = [
            pair
            for pair in wider
            if pair != (first, last) and _length(progress, shown, pair, at, marks) <= width
        ]
        if not grown:
            break
        first, last = min(grown, key=lambda pair: abs(sum(pair) - 2 * here - 1))
    return _drawn(progress, shown, (first, last), at, marks)


def _length(
    progress: Mapping[str, tuple[int, int]],
    shown: Sequence[str],
    pair: tuple[int, int],
    at: str,
    marks: Marks,
) -> int:
    return length(_drawn(progress, shown, pair, at, marks))


def _drawn(
    progress: Mapping[str, tuple[int, int]],
    shown: Sequence[str],
    pair: tuple[int, int],
    at: str,
    marks: Marks,
) -> Line:
    first, last = pair
    parts: list[str | tuple[str, str]] = [(f"{marks.more} " if first else " ", "quiet")]
    for part in shown[first:last]:
        done, of = progress[part]
        here = part == at
        sign = marks.here if here else " "
        parts.append((f"{sign}{part} {done}/{of} ", "strong" if here else "quiet"))
    parts.append((marks.more if last < len(shown) else "", "quiet"))
    return line(*parts)
