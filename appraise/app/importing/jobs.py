"""The two long jobs of an import: a file read anew, and what was read saved in one act."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from textual.message import Message

from appraise.app.importing.items import looked_at
from appraise.app.work import start, stepping
from appraise.base.errors import StoreError
from appraise.exchange.intake import Taken
from appraise.exchange.preview import Preview, ReadAs
from appraise.exchange.sheets import import_csv
from appraise.store.log import open_log

if TYPE_CHECKING:
    from textual.dom import DOMNode

    from appraise.app.session import Session

OFTEN = 20_000  # instructions of the log between two looks at whether to go on


@dataclass(eq=False)
class SheetRead(Message):
    """A sheet was read."""

    preview: Preview
    read_as: ReadAs


@dataclass(eq=False)
class Imported(Message):
    """Its rows are saved."""

    taken: Taken


def read_sheet(
    node: DOMNode, session: Session, data: bytes, file: str, make: Callable[[], ReadAs]
) -> None:
    """Read a sheet and post `SheetRead`; some seconds for a very long one."""
    step = stepping(node, session, "Reading")

    def job() -> Message:
        step(0, 0)
        read_as = make()
        preview = looked_at(data, file, read_as)
        step(0, 0)
        return SheetRead(preview, read_as)

    start(node, "import", job, session)


def save_rows(node: DOMNode, session: Session, preview: Preview, doubles: str) -> None:
    """Save what was read and post `Imported`; cancelled, all or nothing is in the log."""
    log = session.log
    step = stepping(node, session, f"Importing {len(preview.entries):,} entries")

    def job() -> Message:
        with session.saving(), open_log(log.path, log.clock, log.machine) as own:
            own.connection.set_progress_handler(lambda: step(0, 0), OFTEN)
            try:
                taken = import_csv(own, preview, only_good=True, doubles=doubles)
            except StoreError:
                step(0, 0)
                raise
        return Imported(taken)

    start(node, "import", job, session)
