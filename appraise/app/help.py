"""Help, written from the registry of actions."""

from functools import partial

from textual.app import App

from appraise.app.actions import AREAS, Action, actions_of
from appraise.app.lines import EMPTY, Line, does, fold, line
from appraise.app.marks import FINE, Marks
from appraise.app.page import Page
from appraise.app.sheet import Sheet

NOTES = (
    "Marks: {warn} serious or odd, {doubt} doubtful, {order} in order, {unseen} not checked.",
    "Timeline: {levels} the higher, the more common the years; {bar} the combined date.",
    "Listing: [claims] and {flags} carry the numbers of the list; arrow heads mark your place.",
    "Mouse: click a key, a row, a heading or a line here; drag over text to copy it.",
    "appraise --no-mouse leaves the mouse to the terminal.",
    "Every answer is saved at once. Quitting or a flat battery loses nothing.",
)
MARKED = 2  # notes that name signs
KEYS = 20  # cells for the keys


def open_help(app: App[None]) -> None:
    """Show the keys of the screen one is on."""
    screen = app.screen
    if isinstance(screen, Sheet):
        write = partial(help_lines, screen.AREA, marks=screen.session.marks)
        app.push_screen(HelpPage(f"Keys: {AREAS[screen.AREA]}", write))


class HelpPage(Page):
    """The keys of a screen; a click on a line goes back and presses its key."""

    def action_press(self, key: str) -> None:
        self.dismiss(None)
        self.app.call_later(self.app.simulate_key, key)


def help_lines(area: str, width: int, marks: Marks = FINE) -> list[Line]:
    """The keys of one place, then those that work everywhere, then the marks."""
    out: list[Line] = []
    for place in (area, "any"):
        out.append(line((AREAS[place], "head")))
        keys = max(len(one.display) for one in actions_of(place)) + 2
        for one in actions_of(place):
            out += _row(one, min(keys, KEYS, max(4, width // 3)), width)
        out.append(EMPTY)
    signs = dict(zip(("order", "doubt", "warn", "unseen"), marks.signs, strict=True))
    told = {**signs, "levels": marks.levels.strip(), "bar": marks.bar}
    for note in NOTES[:MARKED]:
        out += fold(note.format_map(told), width, role="quiet")
    for note in NOTES[MARKED:]:
        out += fold(note, width, role="quiet")
    return out


def _row(one: Action, room: int, width: int) -> list[Line]:
    rows = fold(one.says, width, f"{one.display:<{room}} ", lead_role="key")
    if "{key}" in one.do:
        return rows
    return [does(row, f"press('{one.keys.split()[0]}')") for row in rows]
