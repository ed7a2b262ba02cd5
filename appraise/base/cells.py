"""Strokes as lines of a terminal: dots of braille cells, quadrant blocks, or plain ASCII.

A cell of braille is two dots wide and four high (Unicode chapter 21, Braille Patterns), a quadrant
block two by two. An ASCII cell has the dots of braille and shows the sign that is most like them.
A cell is taken to be twice as high as wide.
"""

from collections.abc import Iterable, Sequence

from appraise.base.drawing import HEIGHT, WIDTH, Stroke

Dot = tuple[int, int]

GRAINS = BRAILLE, BLOCKS, ASCII = ("braille", "blocks", "ascii")
NOISE = 1e-9  # of a dot: what reckoning with fractions may be off by
ACROSS, ROWS = 24, 8  # cells of a drawing at its usual size
WIDE = 2  # dots across a cell
_BRAILLE = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))  # by row, then column
_DOTS = {BRAILLE: _BRAILLE, BLOCKS: ((1, 2), (4, 8)), ASCII: _BRAILLE}
_BLOCKS = " ▘▝▀▖▌▞▛▗▚▐▜▄▙▟█"
_SIGNS = (
    ("|", 0x47), ("|", 0xB8), ("-", 0x12), ("_", 0xC0), ("/", 0x5C), ("\\", 0xA3), ("+", 0x5F),
    (".", 0x40), (",", 0x80), ("'", 0x08), ("`", 0x01), ("=", 0x24), ('"', 0x09), ("L", 0xC7),
    ("J", 0xF8),
)  # fmt: skip
"""ASCII signs by the dots of braille that they look like."""


def fitting(across: int, rows: int) -> tuple[int, int]:
    """The widest and highest size in cells within the room that keeps the drawing's proportions."""
    across = min(across, int(rows * 2 * WIDTH / HEIGHT))
    return across, max(1, round(across * HEIGHT / WIDTH / 2))


def cells(drawn: Sequence[Stroke], across: int, rows: int, grain: str = BRAILLE) -> list[str]:
    """The drawing in `rows` lines of `across` cells; the room's proportions are the caller's."""
    held = _DOTS[grain]
    high, found = len(held), dict[Dot, int]()
    for x, y in dots(drawn, across * WIDE, rows * high):
        at = x // WIDE, y // high
        found[at] = found.get(at, 0) | held[y % high][x % WIDE]
    return [
        "".join(_sign(found.get((column, row), 0), grain) for column in range(across))
        for row in range(rows)
    ]


def dots(drawn: Iterable[Stroke], wide: int, high: int) -> set[Dot]:
    """The dots that the strokes run through, on a grid of `wide` by `high` over their box."""
    found: set[Dot] = set()
    for stroke in drawn:
        along = _along(stroke, wide, high)
        found.update(along if len(stroke) == 2 else _thinned(along))
    return {(x, y) for x, y in found if 0 <= x < wide and 0 <= y < high}


def _along(stroke: Stroke, wide: int, high: int) -> list[Dot]:
    """The dots along a stroke, each beside the last."""
    places = [(_place(x, WIDTH, wide), _place(y, HEIGHT, high)) for x, y in stroke]
    out = places[:1]
    for end in places[1:]:
        out += _straight(out[-1], end)
    return out


def _place(at: float, whole: float, many: int) -> int:
    """The dot of a place, counted from the nearer side, so that what mirrors is drawn so."""
    near = int(min(at, whole - at) * many / whole + NOISE)
    near = min(max(0, near), (many - 1) // 2)
    return near if at <= whole / 2 else many - 1 - near


def _straight(start: Dot, end: Dot) -> list[Dot]:
    """The dots of a straight line after its first one, with no corner between two of them."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    steps = max(abs(dx), abs(dy))
    return [
        (start[0] + _near(dx * n, steps), start[1] + _near(dy * n, steps))
        for n in range(1, steps + 1)
    ]


def _near(a: int, b: int) -> int:
    """The whole number nearest to a / b; halves go away from nothing, so that lines mirror."""
    half = (2 * abs(a) + b) // (2 * b)
    return half if a >= 0 else -half


def _thinned(along: list[Dot]) -> list[Dot]:
    """The dots of a curve without those that only make a corner of a slanting step."""
    out: list[Dot] = []
    for place, dot in enumerate(along):
        after = along[place + 1] if place + 1 < len(along) else dot
        if out and abs(after[0] - out[-1][0]) == 1 == abs(after[1] - out[-1][1]):
            continue
        out.append(dot)
    return out


def _sign(held: int, grain: str) -> str:
    """The sign of a cell with such dots; in ASCII the one whose dots differ least from them."""
    if grain == BLOCKS:
        return _BLOCKS[held]
    if grain == BRAILLE:
        return chr(0x2800 + held)
    return min(_SIGNS, key=lambda one: (held ^ one[1]).bit_count())[0] if held else " "
