"""The screen on which a file to be imported is looked at, changed, and saved."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from textual import events, on
from textual.app import ComposeResult
from textual.containers import Horizontal

from appraise.app.currency import with_currency
from appraise.app.form import ask_file
from appraise.app.importing.items import (
    READING,
    ROW,
    SheetLine,
    choices_for,
    items_of,
    read_otherwise,
)
from appraise.app.importing.jobs import read_sheet, save_rows
from appraise.app.lines import EMPTY, Line, clip, ends, fold, inset, line
from appraise.app.lists.screen import SIDE
from appraise.app.lists.sheet import RecordSheet
from appraise.app.lists.spec import nothing_there
from appraise.app.marks import DOUBT, WARN
from appraise.app.page import Page
from appraise.app.pane import Pane
from appraise.app.photos import dropped
from appraise.app.picker import Picker
from appraise.app.sheet import Sheet
from appraise.app.widgets.columns import Column
from appraise.app.widgets.rows import Listed
from appraise.app.widgets.table import RecordTable, TableStyle
from appraise.base.files import read_bytes
from appraise.documents.entry import entry_line
from appraise.exchange.intake import Taken
from appraise.exchange.preview import Preview, ReadAs
from appraise.records.fields import Field

SHEETS = (".csv", ".tsv", ".txt", ".yaml", ".yml")
FILE = Field("file", "a CSV or YAML file: its path, or drop it here; nothing is saved yet")
SIGNS = {2: (WARN, "warn"), 1: (DOUBT, "doubt"), 0: ("", "")}
COLUMNS = (
    Column("sort", "what", 7, 60, sorts=False),
    Column("says", "in the file", 18, sorts=False),
    Column("taken", "taken for", 16, sorts=False),
    Column("samples", "such as", sorts=False),
    Column("why", "because", 30, 90, sorts=False),
)


def ask_import(sheet: RecordSheet, here: object) -> None:
    """Ask for a file, and show how it is read."""

    def take(typed: str) -> tuple[bytes, str]:
        found = dropped(typed, SHEETS)
        path = found[0] if found else Path(typed).expanduser()
        return read_bytes(path), path.name

    def ask() -> None:
        ask_file(sheet, "Import", FILE, take, lambda read: open_import(sheet, *read))

    with_currency(sheet, ask)


def open_import(sheet: RecordSheet, data: bytes, name: str) -> None:
    """Show how a file is read; told of on the list when it is saved."""
    sheet.open(ImportScreen(data, name), lambda taken: _told(sheet, taken))


def drop_file(sheet: RecordSheet, text: str) -> None:
    """The same for a file that is dropped on a list; other text goes nowhere."""
    found = dropped(text, SHEETS)
    if found:
        sheet.attempt(lambda: open_import(sheet, read_bytes(found[0]), found[0].name))


def _told(sheet: RecordSheet, taken: Taken) -> None:
    """What became of the rows, told on the list that one is back at."""
    sheet.changed()
    told = [f"{len(taken.added):,} imported"]
    told += [f"{taken.known:,} known already"] if taken.known else []
    told += [f"{len(taken.differing):,} left unchanged"] if taken.differing else []
    many = len(taken.doubles)
    told += [f"{many:,} with day and price of another entry left out"] if many else []
    sheet.say(f"{', '.join(told)}.{' u: undo.' if taken.added else ''}", "good")


class ImportScreen(Sheet[Taken]):
    """What each column and word of a file is taken for; enter takes it for something else."""

    AREA = "import"
    AUTO_FOCUS = ""

    def __init__(self, data: bytes, file: str) -> None:
        super().__init__(classes="records")
        self._data, self._file = data, file
        self._read_as: ReadAs | None = None
        self.preview: Preview | None = None
        self.doubles = ""

    def middle(self) -> ComposeResult:
        """The lines and what is behind one, what will come in."""
        with Horizontal(id="body"):
            style: TableStyle[SheetLine] = TableStyle(COLUMNS, _cell, lambda one: SIGNS[one.asks])
            yield RecordTable(style, id="table")
            yield Pane(self.draw_side, id="side")
        yield Pane(self.draw_totals, id="totals")

    @property
    def table(self) -> RecordTable[SheetLine]:
        return self.query_one("#table", RecordTable)

    def draw_head(self, width: int, height: int) -> Sequence[Line]:
        """The file, and how its bytes were read."""
        found = self.preview
        read = f"{found.encoding} {found.delimiter}".strip() if found else ""
        return self.head(f"Import: {self._file}", read, width)

    def draw_side(self, width: int, height: int) -> Sequence[Line]:
        """All that is behind the line one is at, and the first entries as they will come."""
        here, room = self.table.here, max(1, width - 3)
        if here is None or self.preview is None:
            return ()
        told = behind(here, room)
        coming = [EMPTY, line(("the first entries, as they will come", "head"))]
        for entry in self.preview.entries:
            coming.append(line(clip(entry_line(entry).strip(), room, self.session.marks)))
        return inset([*told, *(coming if self.preview.entries else [])])[:height]

    def draw_totals(self, width: int, height: int) -> Sequence[Line]:
        """How many come in and how many do not; what has to be answered first."""
        found, here = self.preview, self.table.here
        if found is None:
            return [line(" ", ("The file is being read ...", "quiet"))]
        where = f"{self.table.at + 1:,} of {self.table.rows.least:,} " if here else ""
        if found.open:
            told = line(f" {WARN} ", (found.open.says, "warn"))
        else:
            left = len(found.left_out)
            told = line(f" {len(found.entries):,} come in, {left:,} left out")
            if here is not None and here.why and not self.has_class("wide"):
                told = (*told, (f"   {here.why}", "quiet"))
        return [ends(told, line((where, "quiet")), width)]

    def on_mount(self) -> None:
        self._read(self._begun)

    def on_resize(self, event: events.Resize) -> None:
        """What is behind a line stands beside the table where there is room."""
        self.set_class(event.size.width >= SIDE, "wide")

    def _begun(self) -> ReadAs:
        """How a file is read of which nothing was said; 30 ms for the words of the trade."""
        from appraise.exchange.vocabulary import sheet_vocabulary
        from appraise.listing.cellwords import sheet_words
        from appraise.listing.title_words import title_words

        known, session = self.session.trade(), self.session
        return ReadAs(
            base=session.currency,
            words=sheet_words(known),
            titles=title_words(known),
            say=sheet_vocabulary(known),
            region=session.settings.region,
        )

    def _read(self, make: Callable[[], ReadAs]) -> None:
        read_sheet(self, self._data, self._file, make, self.read)

    def read(self, preview: Preview, read_as: ReadAs) -> None:
        """Show how it was read; the line one is at stays, at first it is the first question."""
        self.hush()
        before, was = self.table.here, self.preview
        self.preview, self._read_as = preview, read_as
        items = items_of(preview, read_as, self.doubles)
        at = next((n for n, one in enumerate(items) if before and one.name == before.name), 0)
        if was is None or (before and before.asks and not items[at].asks):
            at = next((n for n, one in enumerate(items) if one.asks == 2), at)
        self.table.show(Listed(items), at, self._instead)
        self.redraw()

    def _instead(self, width: int) -> list[Line]:
        many = len(self.preview.entries) if self.preview else 0
        return nothing_there(f"{many:,} entries, all as a log wrote them. s saves them.", width)

    def trouble(self, says: str) -> None:
        """Say what could not be done; of a file that could not be read there is nothing to show."""
        if self.preview is None:
            self.table.instead = lambda width: nothing_there(says, width)
            self.table.renew()
        super().trouble(says)

    @on(RecordTable.CursorMoved)
    def moved(self) -> None:
        self.redraw()

    @on(RecordTable.Opened)
    def row_clicked(self) -> None:
        self.action_change()

    def action_step(self, by: int) -> None:
        self.table.move(by)

    def action_leap(self, by: int) -> None:
        self.table.move(by * self.table.page)

    def action_end(self, way: int) -> None:
        self.table.end(way)

    def action_change(self) -> None:
        here, found = self.table.here, self.preview
        read_as = self._read_as
        if here is None or found is None or read_as is None:
            return
        if here.sort == ROW:
            self.open(Page(f"{here.says}: {here.taken}", lambda width: behind(here, width)))
            return
        choices, marked = choices_for(here, found, self.session.trade())

        def taken(value: str) -> None:
            if here.sort == READING and here.name == "doubles":
                self.doubles = value
                self.read(found, read_as)
            else:
                self._read(lambda: read_otherwise(here, value, read_as))

        self.open(Picker(f"{here.says}: taken for?", choices, marked), taken)

    def action_save(self) -> None:
        found = self.preview
        if found is None or found.open:
            self.say(found.open.says if found and found.open else "The file is being read ...")
            return
        if not found.entries:
            self.say("No row can be imported.")
            return

        def save() -> None:
            doubles = self.doubles if found.columns else "add"
            save_rows(self, found, doubles, self.saved)

        left = len(found.bad) + len(found.doubtful)
        if not left:
            save()
            return
        rows = "1 row" if left == 1 else f"{left:,} rows"
        self.confirm(f"Import {len(found.entries):,} entries? {rows} will not come in.", save)

    def saved(self, taken: Taken) -> None:
        """Back to the list, which tells what became of the rows."""
        self.dismiss(taken)


def _cell(one: SheetLine, name: str) -> str:
    """The text of a line in a column; where there are no cells, the reason stands for them."""
    if name == "samples":
        return " | ".join(one.samples) if one.samples and one.sort != ROW else one.why
    if name == "why":
        return one.why if one.samples and one.sort != ROW else ""
    return str(getattr(one, name))


def behind(one: SheetLine, width: int) -> list[Line]:
    """A line of the table in full: what it is taken for, why, and its cells."""
    role = SIGNS[one.asks][1]
    out = [*fold(f"{one.says}: {one.taken}", width, role="head")]
    out += fold(one.why, width, role=role) if one.why else []
    for cell in one.samples:
        out += fold(cell, width, "  ", role="quiet")
    return out
