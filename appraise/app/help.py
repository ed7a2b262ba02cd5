"""Help, written from the registry of actions."""

from functools import partial

from textual.app import App

from appraise.app.action import AREAS, Action
from appraise.app.actions import actions_of
from appraise.app.lines import EMPTY, Line, fold, line
from appraise.app.page import Page
from appraise.app.sheet import Sheet

NOTES = (
    "Marks: ! a warning, ? an open doubt, . in order, - not looked at.",
    "Listing: [claims] and {flags} with the numbers of the list; arrow heads are where you are.",
    "Timeline: | common years, : and . the years before and after, ^ the years of the whole.",
    "Text can be selected with the mouse as in any terminal; the app leaves the mouse alone.",
    "Everything is kept as you answer. Leaving or a dead battery loses nothing.",
)
KEYS = 20  # cells for the keys


def open_help(app: App[None]) -> None:
    """Show the keys of the screen one is on."""
    screen = app.screen
    if isinstance(screen, Sheet):
        page = Page(f"Keys: {AREAS[screen.AREA]}", partial(help_lines, screen.AREA))
        app.push_screen(page)


def help_lines(area: str, width: int) -> list[Line]:
    """The keys of one place, then those that work everywhere, then the marks."""
    out: list[Line] = []
    for place in (area, "any"):
        out.append(line((AREAS[place], "head")))
        for one in actions_of(place):
            out += _row(one, width)
        out.append(EMPTY)
    for note in NOTES:
        out += fold(note, width, role="quiet")
    return out


def _row(one: Action, width: int) -> list[Line]:
    room = min(KEYS, max(4, width // 3))
    return fold(one.says, width, f"{one.display:<{room}} ", lead_role="key")
