"""The desk: what is being examined, what closes next, what was logged lately."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import timedelta
from typing import TYPE_CHECKING

from textual import events

from appraise.app.desklines import Desktop, desk_lines, desk_title
from appraise.app.glances import LotGlance, followed, glance, glances, wanting
from appraise.app.lines import Line
from appraise.app.sheet import Sheet
from appraise.app.undoing import Undoes
from appraise.store.drafts import Draft

if TYPE_CHECKING:
    from appraise.records.lot import Lot
    from appraise.records.piece import Piece
    from appraise.records.stored import Stored

LATELY = 12  # entries
MINUTE = 60.0  # seconds between two looks at the clock
OWNED = "kept "
"""How the drafts begin of pieces that one owns and looks at anew."""


class Desk(Undoes, Sheet[None]):
    """Where one begins and comes back to."""

    AREA = "desk"
    SHOWS = frozenset({"table"})

    def __init__(self) -> None:
        super().__init__()
        self._drafts: tuple[Draft, ...] = ()
        self._lots: tuple[Stored[Lot], ...] = ()
        self._desk: Desktop | None = None  # None: the log has still to be read
        self._at = 0

    @property
    def desktop(self) -> Desktop:
        """What lies on the desk at this moment."""
        session = self.session
        desk = self._desk or Desktop(session.settings.currency, session.demo)
        hides, lots = session.discreet, self._due_lots()
        return replace(
            desk,
            currency=session.settings.currency,
            marks=session.marks,
            today=session.as_of,
            at=self._at,
            lots=lots,
            hides=hides,
        )

    def draw_head(self, width: int, height: int) -> Sequence[Line]:
        return [desk_title(self.desktop, width)]

    def draw(self, width: int, height: int) -> Sequence[Line]:
        """The three panes, once the log was read."""
        return desk_lines(self.desktop, width, height) if self._desk else ()

    def _due_lots(self) -> tuple[LotGlance, ...]:
        if not self._lots:
            return ()
        from appraise.documents.lots import Now  # 10 ms, and only where lots are followed

        return glances(self._lots, Now(self.session.moment(), None, self.session.as_of))

    def on_mount(self) -> None:
        self.set_interval(MINUTE, self._tick)

    def _tick(self) -> None:
        """Time has passed for the lots that are followed."""
        if self._lots and self.is_current:
            self.redraw()

    def on_screen_resume(self) -> None:
        """Read the log again: something may have been logged or begun since it was shown."""
        if self._desk:
            self.read()

    def read(self) -> None:
        """Show the log as it is now."""
        session, log = self.session, self.session.log
        code = session.settings.currency
        self._desk = self._desk or Desktop(code, session.demo)

        def look() -> None:
            drafts, lately = log.drafts(), log.entries(limit=LATELY)
            lots, purse = followed(log, code, session.as_of)
            seen, wants = tuple(map(glance, drafts)), wanting(session)
            self._desk = Desktop(code, session.demo, seen, lately, purse, wants)
            self._drafts, self._lots = drafts, lots

        self.attempt(look)
        self._at = max(0, min(self._at, len(self._drafts) - 1))
        self._be_discreet()
        self.redraw()

    def _be_discreet(self) -> None:
        """Where a piece of today lies on the table that is met at a stall, hide amounts.

        The prices of the demo are nobody's.
        """
        if self.session.demo or self._desk is None:
            return
        since = self.session.as_of - timedelta(days=1)  # drafts bear the day in UTC
        for draft, told in zip(self._drafts, self._desk.open, strict=True):
            if told.day >= since and not draft.id.startswith(OWNED):
                self.session.meet(draft.id, told.channel)

    def ready(self) -> None:
        """The knowledge has come: say what is due, open the piece that was asked for."""
        self.read()
        super().ready()

    def action_step(self, by: int) -> None:
        self._at = max(0, min(len(self._drafts) - 1, self._at + by))
        self.redraw()

    def action_take_up(self, number: int = 0) -> None:
        if not self._desk:
            self.read()
        place = number - 1 if number else self._at
        if place < len(self._drafts):
            draft = self._drafts[place]
            self.once_known(lambda: self.attempt(lambda: self._resume(draft)))
        elif not self._drafts:
            self.say("Nothing is open. Press n to start a piece.")

    def _resume(self, draft: Draft) -> None:
        from appraise.app.listing.opening import PREFIX, resume  # 15 ms
        from appraise.records.piece_file import parse_piece  # 10 ms

        if draft.id.startswith(PREFIX):
            resume(self, draft)
        elif draft.id.startswith(OWNED):
            from appraise.app.kept.reexamine import resume as look_again  # 40 ms

            look_again(self, draft)
        else:
            self._examine(parse_piece(draft.text, "the draft", self.session.trade()), draft.id)

    def _examine(self, piece: Piece, draft: str) -> None:
        from appraise.app.examine.view import Examine  # 40 ms with the reading

        self.open(Examine(piece, self.session.trade(), draft))

    def action_new(self) -> None:
        from appraise.app.currency import with_currency  # 5 ms

        with_currency(self, self._first_look)

    def _first_look(self) -> None:
        from appraise.app.firstlook import FirstLook  # 15 ms

        self.open(FirstLook(), self._begin)

    def _begin(self, piece: Piece) -> None:
        draft = self.session.new_draft()
        if self.attempt(lambda: self.session.keep(draft, piece)):
            self._examine(piece, draft)

    def action_listing(self, text: str = "") -> None:
        from appraise.app.listing.opening import begin  # 15 ms

        begin(self, text)

    def on_paste(self, event: events.Paste) -> None:
        """What is pasted here is a listing."""
        event.stop()
        self.action_listing(event.text)

    def action_prices(self) -> None:
        from appraise.app.prices.screen import PricesScreen  # 10 ms

        self.open(PricesScreen())

    def action_list(self, name: str) -> None:
        from appraise.app.lists.screen import RecordScreen  # 15 ms
        from appraise.app.lists.spec import spec_of

        self.open(RecordScreen(spec_of(name)))

    def action_track(self) -> None:
        from appraise.app.track.view import TrackRecord  # 5 ms

        self.open(TrackRecord())

    def action_currency(self) -> None:
        from appraise.app.currency import choose_currency  # 4 ms

        choose_currency(self, self.redraw)

    def first_start(self) -> None:
        """Ask what a new home has to know, before anything is typed into it."""
        session = self.session
        fresh = not self.desktop.begun
        if fresh and not session.demo and not session.log.currency_chosen:
            from appraise.app.currency import first_start  # 4 ms

            first_start(self, self.redraw)
