"""The scrollbar as plain grounds: no signs that a font or ASCII terminal may lack."""

from typing import ClassVar

from textual.scrollbar import ScrollBarRender


class PlainBar(ScrollBarRender):
    """A scrollbar whose ends are whole cells."""

    VERTICAL_BARS: ClassVar[list[str]] = [" "] * 8
    HORIZONTAL_BARS: ClassVar[list[str]] = [" "] * 8
