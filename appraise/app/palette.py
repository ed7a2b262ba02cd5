"""The palette: every action that works here, found by its name."""

from __future__ import annotations

from textual.app import App

from appraise.app.actions import ACTIONS, Action
from appraise.app.picker import Choice, Picker
from appraise.app.sheet import Sheet

GROUPS = ("here", "everywhere")
CLOSED = ("list", "form", "ask", "line", "slip", "sides")
"""Places where one is in the middle of something: no palette there."""


def offered(area: str) -> list[Action]:
    """The actions that the palette offers in one place."""
    return [
        one
        for place in (area, "any")
        for one in ACTIONS
        if one.area == place and one.palette and one.do != "app.palette"
    ]


def open_palette(app: App[None]) -> None:
    """Show the palette for the screen one is on."""
    screen = app.screen
    if not isinstance(screen, Sheet) or screen.AREA in CLOSED:
        return
    actions = {one.id: one for one in offered(screen.AREA)}
    choices = [
        Choice(one.id, one.says, " ", one.display, GROUPS[one.area == "any"], one.verb)
        for one in actions.values()
    ]

    async def take(name: str | None) -> None:
        if name:
            await screen.run_action(actions[name].do)

    app.push_screen(Picker("Find an action", choices), take)
