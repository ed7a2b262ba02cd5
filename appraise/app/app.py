"""The app: themes, the first screen, and what workers bring. Wiring only."""

from __future__ import annotations

import asyncio
import gc
import os
import sys
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, ClassVar

from textual import events
from textual.app import App
from textual.binding import BindingType
from textual.scrollbar import ScrollBar

from appraise.app import work
from appraise.app.actions import bindings_of
from appraise.app.desk import Desk
from appraise.app.session import Learnt, Session
from appraise.app.sheet import Sheet
from appraise.app.themes import NAMES, chosen, other, theme
from appraise.app.threads import LooseThreads
from appraise.app.widgets.scrollbar import PlainBar

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge

SWITCH = 0.0005  # seconds that a worker computes before a key is minded
SCREENS = Path(__file__).parent / "screens.tcss"


class AppraiseApp(App[None], inherit_bindings=False):
    """One run on one home."""

    CSS_PATH = "app.tcss"
    BINDINGS: ClassVar[list[BindingType]] = bindings_of("any")
    ENABLE_COMMAND_PALETTE = False
    TITLE = "appraise"

    def __init__(self, session: Session, alone: bool = False) -> None:
        """`alone`: nothing else runs in the process, so that what was read stays to its end."""
        # With NO_COLOR the library takes out colours altogether only where it may write ANSI.
        if not os.environ.get("NO_COLOR"):
            os.environ.pop("NO_COLOR", None)  # an empty value asks for nothing (no-color.org)
        super().__init__(ansi_color=True if "NO_COLOR" in os.environ else None)
        self.session = session
        self._alone = alone
        ScrollBar.renderer = PlainBar
        self.animation_level = "none"
        for name in NAMES:
            self.register_theme(theme(name))
        self._last_key = ""
        self.pressed = 0.0
        self._twice = False
        self.theme = chosen(session.settings.theme)

    def get_default_screen(self) -> Desk:
        """The desk, under everything else."""
        return Desk()

    def on_mount(self) -> None:
        """All that takes time comes after the desk was painted."""
        asyncio.get_running_loop().set_default_executor(LooseThreads())
        sys.setswitchinterval(SWITCH)
        self.call_after_refresh(self.after_first_paint)

    def after_first_paint(self) -> None:
        """Read the log and how the other screens look, then the knowledge; back up once a day."""
        if isinstance(self.screen, Desk):
            self.screen.read()
        self.stylesheet.read(SCREENS)
        self.refresh_css(animate=False)
        session = self.session
        work.start(self, "knowledge", partial(work.read_knowledge, session), self.knowledge_read)
        if not session.demo:
            work.start(self, "backup", partial(work.back_up_daily, session))
        if isinstance(self.screen, Desk):
            self.screen.first_start()

    async def on_event(self, event: events.Event) -> None:
        """A key takes the last message away; keys and clicks are remembered by their time."""
        if isinstance(event, events.Key | events.MouseDown):
            self.pressed = event.time
        if isinstance(event, events.Key) and not event.is_forwarded:
            self._twice = event.key == self._last_key
            self._last_key = event.key
            if event.key == "escape" and self.session.cancel_job():
                event.stop()
                return
            if isinstance(self.screen, Sheet):
                self.screen.hush()
        await super().on_event(event)

    def on_app_focus(self) -> None:
        """The window is looked at again: something may have been logged elsewhere."""
        if isinstance(self.screen, Sheet):
            self.screen.look_outside()

    def knowledge_read(self, knowledge: Knowledge) -> None:
        """Keep the knowledge, tell the screens, and say once what is wrong with one's own rows."""
        self.session.knowledge = knowledge
        self._more_is_known()
        for told in knowledge.faults[:1]:
            self._say(told, "doubt")
        if len(self.screen_stack) > 1:
            self.learn_prices()

    def learn_prices(self) -> None:
        """Learn the log as it stands, over a connection of its own, unless that was begun."""
        session = self.session
        session.read_book()
        session.read_wants()
        if session.knowledge is None or session.learning == session.changes:
            return
        session.learning = session.changes
        job = partial(session.learn, session.changes)
        work.start(self, "learning", job, self.prices_learnt, session.learns)

    def prices_learnt(self, learnt: Learnt) -> None:
        self.session.learnt = learnt
        self._more_is_known()

    def _more_is_known(self) -> None:
        """Tell the screens; what was read is left out of the search for garbage.

        That search holds a key up to 50 ms.
        """
        if self._alone:
            gc.freeze()
        for screen in self.screen_stack:
            if isinstance(screen, Sheet):
                screen.call_later(screen.ready)

    def trouble(self, says: str) -> None:
        self._say(says, "warn")

    def progress(self, says: str, done: int, of: int) -> None:
        """The app's own jobs tell nothing on their way."""

    def _say(self, says: str, role: str) -> None:
        """A line on the screen that is shown."""
        if isinstance(self.screen, Sheet):
            self.screen.say(says, role)

    def action_press(self, key: str) -> None:
        self.simulate_key(key)

    def action_theme(self) -> None:
        self.theme = other(self.theme)

    def action_discretion(self) -> None:
        self.session.shows = self.session.discreet
        for screen in self.screen_stack:
            if isinstance(screen, Sheet):
                screen.redraw()

    def action_help(self) -> None:
        from appraise.app.help import open_help

        open_help(self)

    def action_palette(self) -> None:
        from appraise.app.palette import open_palette

        open_palette(self)

    def action_listing(self) -> None:
        from appraise.app.listing.opening import begin  # 15 ms

        self._from_here(begin)

    def action_year(self) -> None:
        from appraise.app.era import open_year  # 10 ms

        self._from_here(open_year)

    def _from_here(self, begin: Callable[[Sheet[Any]], object]) -> None:
        from appraise.app.palette import CLOSED

        if isinstance(self.screen, Sheet) and self.screen.AREA not in CLOSED:
            begin(self.screen)

    def action_leave(self) -> None:
        self.exit()

    def action_interrupt(self) -> None:
        if self._twice or not isinstance(self.screen, Sheet):
            self.exit()
        else:
            self.screen.say("Press ctrl+c again to quit. Everything is saved.")
