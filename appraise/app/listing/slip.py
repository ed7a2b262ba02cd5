"""The slip of paper: where a text is pasted, typed or taken from a file."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from textual import events
from textual.app import ComposeResult
from textual.widgets import TextArea

from appraise.app.form import ask_file
from appraise.app.lines import EMPTY, Line, fold
from appraise.app.listing.text import EDITABLE, cleaned, text_from
from appraise.app.pane import Pane
from appraise.app.sheet import Sheet
from appraise.records.fields import Field

GUIDE = "Paste the seller's text, title included. Or type it and press esc. ctrl+o reads a file."


class Paper(TextArea):
    """A plain field of many lines; what is pasted is offered to the sheet first."""

    def __init__(self, text: str, pasted: Callable[[str], bool]) -> None:
        super().__init__(text, highlight_cursor_line=False, compact=True)
        self._pasted = pasted

    async def _on_paste(self, event: events.Paste) -> None:
        """Insert what was pasted, unless the sheet takes it."""
        event.stop()
        event.prevent_default()
        if not self._pasted(event.text):
            self.insert(cleaned(event.text))


class Slip(Sheet[str]):
    """A text in; it is handed back cleaned, and never empty."""

    AREA = "slip"
    heading = "Listing"
    AUTO_FOCUS = "Paper"

    def __init__(self, text: str = "") -> None:
        super().__init__()
        self._text = text

    def middle(self) -> ComposeResult:
        """How a text comes in, and the paper."""
        guide = Pane(self.draw)
        guide.styles.height = 4
        yield guide
        yield Paper(self._text, self.pasted)

    def on_mount(self) -> None:
        self.learn_prices()

    def draw(self, width: int, height: int) -> Sequence[Line]:
        return [EMPTY, *fold(GUIDE, max(1, width - 2), " ")]

    @property
    def written(self) -> str:
        return cleaned(self.query_one(Paper).text)

    def pasted(self, text: str) -> bool:
        """Take what was pasted onto an empty paper, or what is too long to be edited there."""
        there, new = self.written, cleaned(text)
        if there and len(there) + len(new) <= EDITABLE:
            return False
        self._finish(f"{there}\n{new}".strip())
        return True

    def action_done(self) -> None:
        if self.written:
            self._finish(self.written)
        else:
            self.dismiss(None)

    def action_file(self) -> None:
        field = Field("file", "the path of a text file, e.g. ~/listings/lot 12.txt")
        ask_file(self, "Listing from a file", field, text_from, self._finish)

    def _finish(self, text: str) -> None:
        self.once_known(lambda: self._hand_over(text))

    def _hand_over(self, text: str) -> None:
        self.dismiss(text)
