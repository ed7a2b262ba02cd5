"""Line drawings: an SVG of a few plain elements as strokes, each a row of points.

Only what a drawing needs is understood, and all else is refused: `path` (M L H V C Q A Z, absolute
and relative), `line`, `rect`, `circle`, `ellipse`, `polyline`, on one box of one size. The lines
are flattened here since a library for it brings fonts, colours and transforms that no drawing has.
Arcs follow the notes on implementation of the SVG recommendation (W3C, SVG 1.1, F.6.5).
"""

import math
import re
from collections.abc import Iterator
from itertools import pairwise

from appraise.base.errors import InputError
from appraise.base.regex import late

WIDTH, HEIGHT = 120.0, 80.0
"""The box of every drawing, in its own units: three to two, as 24 by 8 cells are."""

ROOT = {
    "viewBox": "0 0 120 80", "fill": "none", "stroke": "currentColor", "stroke-width": "2",
    "stroke-linecap": "round", "stroke-linejoin": "round",
}  # fmt: skip
"""What the outermost element says, of every drawing the same."""
GEOMETRY = {
    "path": ("d",), "line": ("x1", "y1", "x2", "y2"), "rect": ("x", "y", "width", "height", "rx"),
    "circle": ("cx", "cy", "r"), "ellipse": ("cx", "cy", "rx", "ry"), "polyline": ("points",),
}  # fmt: skip
STEPS = 24  # straight pieces of a curve
_SPACE = "{http://www.w3.org/2000/svg}"
_PART = late(r"([MLHVCQAZmlhvcqaz])|([-+]?(?:\d+\.?\d*|\.\d+))|[\s,]+|(.)")
_TAKES = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "Q": 4, "A": 7, "Z": 0}

Point = tuple[float, float]
Stroke = tuple[Point, ...]


def strokes(text: str, name: str = "") -> tuple[Stroke, ...]:
    """The strokes of a drawing in its own units; a stroke is one straight line or one curve.

    Raises:
        InputError: for any element, attribute or letter of a path that is not one of those above.
    """
    from xml.etree import ElementTree  # 8 ms

    try:
        root = ElementTree.fromstring(text)
    except ElementTree.ParseError as error:
        raise InputError(f"is not readable as SVG: {error}", name) from None
    if root.tag != f"{_SPACE}svg" or root.attrib != ROOT:
        told = " ".join(f'{key}="{value}"' for key, value in ROOT.items())
        raise InputError("its first line is not that of every drawing", name, f"Write: {told}")
    found: list[Stroke] = []
    for element in root:
        tag = element.tag.removeprefix(_SPACE)
        known = GEOMETRY.get(tag, ())
        if not known or len(element) or (element.text or "").strip():
            raise InputError(f"'{tag}' is not drawn", name, f"Known: {', '.join(GEOMETRY)}.")
        if wrong := sorted(element.attrib.keys() - set(known)):
            raise InputError(f"'{wrong[0]}' is not understood in '{tag}'", name)
        try:
            found += _of(tag, element.attrib)
        except (KeyError, ValueError) as error:
            raise InputError(f"a '{tag}' is not whole: {error}", name) from None
    return tuple(found)


def _of(tag: str, given: dict[str, str]) -> Iterator[Stroke]:
    if tag == "path":
        yield from _path(given["d"])
        return
    if tag == "polyline":
        numbers = [float(one) for one in re.split(r"[\s,]+", given["points"].strip())]
        points = list(zip(numbers[::2], numbers[1::2], strict=True))
        yield from pairwise(points)
        return
    known = {key: float(value) for key, value in given.items()}
    if tag == "line":
        yield (known["x1"], known["y1"]), (known["x2"], known["y2"])
    elif tag == "rect":
        yield from _rect(known)
    elif tag == "circle":
        yield from _ellipse(known["cx"], known["cy"], known["r"], known["r"])
    else:
        yield from _ellipse(known["cx"], known["cy"], known["rx"], known["ry"])


def _rect(known: dict[str, float]) -> Iterator[Stroke]:
    x, y, w, h = (known[key] for key in GEOMETRY["rect"][:4])
    r = min(known.get("rx", 0.0), w / 2, h / 2)
    bend = f"A{r} {r} 0 0 1" if r else "L"
    yield from _path(
        f"M{x + r} {y}H{x + w - r}{bend} {x + w} {y + r}V{y + h - r}{bend} {x + w - r} {y + h}"
        f"H{x + r}{bend} {x} {y + h - r}V{y + r}{bend} {x + r} {y}"
    )


def _ellipse(cx: float, cy: float, rx: float, ry: float) -> Iterator[Stroke]:
    """Its four quarters, each from its end across, so that they mirror one another in cells too."""
    turns = [math.pi / 2 * n / STEPS for n in range(STEPS + 1)]
    for across, down in ((rx, ry), (-rx, ry), (rx, -ry), (-rx, -ry)):
        yield tuple((cx + across * math.cos(t), cy + down * math.sin(t)) for t in turns)


def _path(written: str) -> Iterator[Stroke]:
    at = start = (0.0, 0.0)
    for letter, numbers in _commands(written):
        shift = at if letter.islower() else (0.0, 0.0)
        kind = letter.upper()
        if kind == "Z":
            if at != start:
                yield at, start
            at = start
            continue
        if kind in "HV":
            along = numbers[0] + shift[kind == "V"]
            end = (along, at[1]) if kind == "H" else (at[0], along)
        else:
            end = (numbers[-2] + shift[0], numbers[-1] + shift[1])
        if kind == "M":
            start = end
        elif kind in "LHV":
            yield at, end
        elif kind == "A":
            yield _arc(at, end, numbers)
        else:
            held = zip(numbers[:-2:2], numbers[1:-2:2], strict=True)
            yield _bezier((at, *((x + shift[0], y + shift[1]) for x, y in held), end))
        at = end


def _commands(written: str) -> Iterator[tuple[str, list[float]]]:
    """Each letter of a path with its numbers; numbers beyond what it takes repeat it."""
    letter, numbers = "", list[float]()
    for part in _PART.finditer(written):
        if part[3] or (part[1] and numbers) or (part[2] and _TAKES.get(letter.upper(), 0) == 0):
            raise ValueError(f"'{part[0]}' stands where it cannot")
        if part[1]:
            letter = part[1]
        elif part[2]:
            numbers.append(float(part[2]))
        else:
            continue
        if len(numbers) == _TAKES[letter.upper()]:
            yield letter, numbers
            numbers = []
            letter = {"M": "L", "m": "l"}.get(letter, letter)
    if numbers:
        raise ValueError("a number is missing at its end")


def _bezier(held: tuple[Point, ...]) -> Stroke:
    """A curve through its first and last point, drawn towards those between (de Casteljau)."""

    def at(t: float) -> Point:
        points = list(held)
        while len(points) > 1:
            points = [
                (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])) for a, b in pairwise(points)
            ]
        return points[0]

    return tuple(at(n / STEPS) for n in range(STEPS + 1))


def _arc(at: Point, end: Point, numbers: list[float]) -> Stroke:
    rx, ry, tilt = abs(numbers[0]), abs(numbers[1]), math.radians(numbers[2])
    if not rx or not ry or at == end:
        return at, end
    cos, sin = math.cos(tilt), math.sin(tilt)
    dx, dy = (at[0] - end[0]) / 2, (at[1] - end[1]) / 2
    x, y = cos * dx + sin * dy, cos * dy - sin * dx
    grow = math.sqrt(max(1.0, (x / rx) ** 2 + (y / ry) ** 2))
    rx, ry = rx * grow, ry * grow
    below = (rx * y) ** 2 + (ry * x) ** 2
    far = math.sqrt(max(0.0, (rx * ry) ** 2 / below - 1))
    far = far if bool(numbers[3]) != bool(numbers[4]) else -far
    mx, my = far * rx * y / ry, -far * ry * x / rx
    cx, cy = cos * mx - sin * my + (at[0] + end[0]) / 2, sin * mx + cos * my + (at[1] + end[1]) / 2
    first = math.atan2((y - my) / ry, (x - mx) / rx)
    turn = math.atan2((-y - my) / ry, (-x - mx) / rx) - first
    turn += 2 * math.pi * ((turn < 0) if numbers[4] else -(turn > 0))

    def on(angle: float) -> Point:
        u, v = rx * math.cos(angle), ry * math.sin(angle)
        return cx + cos * u - sin * v, cy + sin * u + cos * v

    return tuple(on(first + turn * n / (2 * STEPS)) for n in range(2 * STEPS + 1))
