"""The two long jobs of an import: a file read anew, and what was read saved in one act."""

from __future__ import annotations

from collections.abc import Callable

from appraise.app.importing.items import looked_at
from appraise.app.work import Asker, Step, start_long
from appraise.base.errors import StoreError
from appraise.exchange.intake import Taken
from appraise.exchange.preview import Preview, ReadAs
from appraise.exchange.sheets import import_csv

OFTEN = 20_000  # instructions of the log between two looks at whether to go on


def read_sheet(
    node: Asker,
    data: bytes,
    file: str,
    make: Callable[[], ReadAs],
    then: Callable[[Preview, ReadAs], object],
) -> None:
    """Read a sheet; some seconds for a very long one."""

    def job(step: Step) -> tuple[Preview, ReadAs]:
        step(0, 0)
        read_as = make()
        preview = looked_at(data, file, read_as)
        step(0, 0)
        return preview, read_as

    start_long(node, "import", "Reading", job, lambda found: then(*found))


def save_rows(node: Asker, preview: Preview, doubles: str, then: Callable[[Taken], object]) -> None:
    """Save what was read; cancelled, all or nothing is in the log."""
    session = node.session

    def job(step: Step) -> Taken:
        with session.saving(), session.opened_anew() as own:
            own.connection.set_progress_handler(lambda: step(0, 0), OFTEN)
            try:
                return import_csv(own, preview, only_good=True, doubles=doubles)
            except StoreError:
                step(0, 0)
                raise

    start_long(node, "import", f"Importing {len(preview.entries):,} entries", job, then)
