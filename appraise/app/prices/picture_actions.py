"""The pictures of an entry: attached from a file, shown by the system's viewer."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from appraise.app import record_actions
from appraise.app.fieldwords import Values
from appraise.app.form import FormField
from appraise.app.picker import Choice, Picker
from appraise.base.errors import InputError
from appraise.records.entry import Entry, PictureFile
from appraise.store.pictures import attach, detach, show

if TYPE_CHECKING:
    from appraise.app.lists.sheet import RecordSheet
    from appraise.records.stored import Stored


def add_picture(sheet: RecordSheet, one: Stored[Entry]) -> None:
    """Ask for a file, copy it, and list it with the entry."""
    session = sheet.session

    def keep(values: Values) -> None:
        if not values["file"]:
            raise InputError("no file given", "file", "Write the path of a photo.")
        file = Path(values["file"]).expanduser()
        try:
            attach(session.log, one.id, file)
        except InputError as error:
            raise InputError(f"{file.name} {error.what}", "file", error.mend) from None

    field = FormField(
        "file", "photo file", hint="The path of a photo; the file is copied and stored."
    )
    record_actions.ask(sheet, "Add a photo", [field], keep, sheet.read)


def show_picture(sheet: RecordSheet, one: Stored[Entry]) -> None:
    """Show a picture; where there are several, one is chosen first."""

    def shown(picture: PictureFile) -> None:
        log = sheet.session.log
        if sheet.attempt(lambda: show(log.path, picture)):
            sheet.say(f"{picture.name} is shown in another window.", "good")

    _one_of(sheet, one.thing, "Open which photo?", shown)


def drop_picture(sheet: RecordSheet, one: Stored[Entry]) -> None:
    """List a picture no more; its file stays for the history, and undo lists it again."""
    session = sheet.session

    def dropped(picture: PictureFile) -> None:
        if sheet.attempt(lambda: detach(session.log, one.id, picture.sha256)):
            session.changes += 1
            sheet.read()

    _one_of(sheet, one.thing, "Unlink which photo?", dropped)


def _one_of(
    sheet: RecordSheet, entry: Entry, title: str, then: Callable[[PictureFile], None]
) -> None:
    if not entry.pictures:
        sheet.say("No photos yet. a adds one.")
        return
    by_id = {one.sha256: one for one in entry.pictures}

    def taken(sha256: str | None) -> None:
        if sha256 is not None:
            then(by_id[sha256])

    if len(by_id) == 1:
        taken(entry.pictures[0].sha256)
        return
    choices = [Choice(one.sha256, one.name, note=one.sha256[:8]) for one in by_id.values()]
    sheet.app.push_screen(Picker(title, choices), taken)
