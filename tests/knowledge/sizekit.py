"""What the tests of sizes share: inches to mm, the shipped sizes, the nearest format."""

from functools import cache

from appraise.base.measures import Measure
from appraise.knowledge import Knowledge, load

TENTH = 0.06  # mm: figures in the data are rounded to a tenth
AMERICAN = ("whole", "half", "quarter", "sixth", "eighth", "ninth", "sixteenth", "gem")


@cache
def knowledge() -> Knowledge:
    return load()


def mm(text: str) -> tuple[float, float]:
    """Width and height in mm, the smaller first."""
    width, height = Measure.parse(text).sides
    return float(width), float(height)


def ships(name: str, size: tuple[float, float], within: float = TENTH) -> bool:
    return any(
        abs(width - size[0]) <= within and abs(height - size[1]) <= within
        for width, height in knowledge().formats[name].sizes
    )


def allowance(plate: str, outside: tuple[float, float]) -> tuple[float, float]:
    width, height = knowledge().formats[plate].sizes[0]
    return outside[0] - width, outside[1] - height


def nearest(
    size: tuple[float, float], offset: str = "plate", among: tuple[str, ...] = AMERICAN
) -> str:
    """The format whose size, with the offset added, lies nearest."""
    add = knowledge().offsets[offset].add

    def gap(name: str) -> float:
        return min(
            abs(min(size) - width - add[0]) + abs(max(size) - height - add[1])
            for width, height in knowledge().formats[name].sizes
        )

    return min(among, key=gap)
