"""The few signs that are drawn: a set for Unicode terminals and one of plain ASCII."""

from appraise.base.cells import ASCII, BRAILLE
from appraise.base.dataclass import dataclass

WARN, DOUBT, ORDER, UNSEEN = "!", "?", ".", "-"


@dataclass(frozen=True, slots=True)
class Marks:
    """The signs of one way of drawing; each is one cell wide but for `more`.

    Attributes:
        rule: A piece of a level line.
        wall: A piece of an upright line.
        corner: The lower left one of a frame.
        bar: A cell of a bar.
        more: What stands for text that was cut.
        here: What points at the line one is on.
        grain: What drawings are made of.
        levels: Heights of a bar, from nothing to full; the highest leaves a gap above itself.
        fills: What the parts of one stacked bar are filled with, in their order.
        tones: Dark to light, for a photo without colours.
        dot, dots: One thing on an axis, and several in one cell.
        span: The left end, the body, the middle and the right end of a range.
        pointer: What points up at an axis.
        signs: Of a part: in order, doubtful, odd, not looked at.
    """

    rule: str
    wall: str
    corner: str
    bar: str
    more: str
    here: str
    grain: str
    levels: str
    fills: str
    tones: str
    dot: str
    dots: str
    span: str
    pointer: str
    signs: str

    def sign(self, state: str) -> str:
        """The sign for a state of a part, one of `ORDER`, `DOUBT`, `WARN`, `UNSEEN`."""
        return self.signs[STATES.index(state)]


STATES = (ORDER, DOUBT, WARN, UNSEEN)
FINE = Marks(
    "─", "│", "└", "━", "…", "›", BRAILLE,
    " ▁▂▃▄▅▆", "███", "█▓▒░ ", "•", "●", "├─●┤", "▲", "✓?!·",
)  # fmt: skip
PLAIN = Marks(
    "-", "|", "+", "#", "..", ">", ASCII,
    " .:|", "#=.", "@%#*+=-:. ", "o", "8", "|-#|", "^", ".?!-",
)  # fmt: skip


def marks_for(ascii_only: bool) -> Marks:
    """The signs to draw with."""
    return PLAIN if ascii_only else FINE
