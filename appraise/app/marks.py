"""The few signs that are drawn: a set for Unicode terminals and one of plain ASCII."""

from dataclasses import dataclass

from appraise.base.cells import ASCII, BRAILLE

WARN, DOUBT, ORDER, UNSEEN = "!", "?", ".", "-"


@dataclass(frozen=True, slots=True)
class Marks:
    """The signs of one way of drawing; each is one cell wide but for `more`.

    Attributes:
        rule: A piece of a level line.
        wall: A piece of an upright line.
        down, up: Where an upright line leaves a level one.
        corners: Of a frame: top left, top right, bottom left, bottom right.
        bar: A cell of a bar.
        half: Half a cell of a bar, or nothing.
        more: What stands for text that was cut.
        here: What points at the line one is on.
        grain: What drawings are made of.
    """

    rule: str
    wall: str
    down: str
    up: str
    corners: tuple[str, str, str, str]
    bar: str
    half: str
    more: str
    here: str
    grain: str


FINE = Marks("─", "│", "┬", "┴", ("┌", "┐", "└", "┘"), "━", "╸", "…", "›", BRAILLE)
PLAIN = Marks("-", "|", "+", "+", ("+", "+", "+", "+"), "#", "", "..", ">", ASCII)


def marks_for(ascii_only: bool) -> Marks:
    """The signs to draw with."""
    return PLAIN if ascii_only else FINE
