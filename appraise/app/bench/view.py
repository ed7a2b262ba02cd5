"""The Bench screen: parts in stock, work in hand, and what one looks out for."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import Any, ClassVar

from textual import on
from textual.binding import BindingType

from appraise.app.actions import bindings_of
from appraise.app.bench import deeds
from appraise.app.bench.benchlines import BenchColumn, bench_lines, part_row, want_row, work_row
from appraise.app.bench.pages import record_lines
from appraise.app.lines import EMPTY, Line, clip, line
from appraise.app.messages import Ready
from appraise.app.page import Page
from appraise.app.sheet import Sheet
from appraise.app.undoing import Undoes
from appraise.knowledge.records import Knowledge
from appraise.records.part import Part
from appraise.records.repair import Repair
from appraise.records.stored import Stored
from appraise.records.want import Want
from appraise.store.records import held

STOCK, WORK, WANTS = range(3)
NAMES = ("parts in stock", "work in progress", "want list")
EMPTY_SAYS = (
    "No parts in stock. Press n and type one line.",
    "No job in progress. Press n to add one.",
    "Your want list is empty. Press n and type one line.",
)
FOOT = "Fitting is not belonging: a plate in another's case makes a married piece."
FRAME = 5  # lines of head, rules and foot


class Bench(Undoes, Sheet[None], inherit_bindings=False):
    """The bench."""

    AREA = "bench"
    SHOWS = frozenset({"stock", "work", "want"})
    BINDINGS: ClassVar[list[BindingType]] = bindings_of("bench")

    def __init__(self) -> None:
        super().__init__()
        self._lists: tuple[tuple[Stored[Any], ...], ...] = ((), (), ())
        self._hidden = [0, 0, 0]
        self._at = [0, 0, 0]
        self._which = STOCK
        self._every = False
        self._page = 1

    @property
    def here(self) -> Stored[Any] | None:
        """The record that is marked."""
        rows = self._lists[self._which]
        return rows[self._at[self._which]] if rows else None

    def draw(self, width: int, height: int) -> Sequence[Line]:
        """Title, the lists, and what has to be remembered."""
        rows = max(1, height - FRAME)
        self._page = max(1, rows - 3)
        knowledge = self.session.knowledge
        made = (partial(part_row, knowledge=knowledge), work_row, want_row)
        columns = [
            BenchColumn(
                NAMES[n], tuple(map(made[n], self._lists[n])), EMPTY_SAYS[n], self._hidden[n]
            )
            for n in (STOCK, WORK, WANTS)
        ]
        marks = self.session.marks
        body = bench_lines(columns, self._which, self._at[self._which], (width, rows), marks)
        filled = [EMPTY, *body, *[EMPTY] * rows][: rows + 1]
        foot = line(" ", (clip(FOOT, max(1, width - 2), marks), "quiet"))
        return [*self.head("Bench", "", width), *filled, self.rule(width), foot]

    def on_mount(self) -> None:
        """Read the log."""
        self.read()

    @on(Ready)
    def ready(self, message: Ready) -> None:
        """The knowledge has come: parts have their names."""
        self.redraw()

    def read(self, seek: str = "") -> None:
        """Read the log; what is marked stays marked, or the record of that id is."""
        log, ids = self.session.log, [seek or self._id_at(n) for n in (STOCK, WORK, WANTS)]

        def look() -> None:
            parts, works = held(log, Part), held(log, Repair)
            shown: tuple[tuple[Stored[Any], ...], ...] = (
                tuple(one for one in parts if self._every or one.thing.count),
                tuple(one for one in works if self._every or one.thing.in_hand),
                held(log, Want),
            )
            self._hidden = [len(parts) - len(shown[STOCK]), len(works) - len(shown[WORK]), 0]
            self._lists = shown

        self.attempt(look)
        for n, rows in enumerate(self._lists):
            found = (place for place, one in enumerate(rows) if one.id == ids[n])
            self._at[n] = next(found, max(0, min(self._at[n], len(rows) - 1)))
        self.redraw()

    def _id_at(self, which: int) -> str:
        rows = self._lists[which]
        return rows[self._at[which]].id if rows else ""

    def _with_knowledge(self) -> Knowledge | None:
        if self.session.knowledge is None:
            self.say("The knowledge is being read ...")
        return self.session.knowledge

    # Walking

    def action_step(self, by: int) -> None:
        """Mark another record."""
        last = len(self._lists[self._which]) - 1
        self._at[self._which] = max(0, min(last, self._at[self._which] + by))
        self.redraw()

    def action_leap(self, by: int) -> None:
        """So many pages on."""
        self.action_step(by * self._page)

    def action_turn(self, by: int) -> None:
        """Another list, round and round."""
        self._which = (self._which + by) % len(NAMES)
        self.redraw()

    def action_choose(self, number: int) -> None:
        """The list of that number."""
        self._which = number - 1
        self.redraw()

    def action_every(self) -> None:
        """Show or hide used up parts and finished jobs."""
        self._every = not self._every
        self.read()

    # Records

    def action_new(self) -> None:
        """Note something, by the list one is at."""
        knowledge = self._with_knowledge()
        if knowledge is None:
            return
        if self._which == WORK:
            deeds.new_work(self, knowledge, self._worked)
        elif self._which == STOCK:
            deeds.new_part(self, self.read)
        else:
            deeds.new_want(self, self.read)

    def action_edit(self) -> None:
        """Edit the marked record."""
        here, knowledge = self.here, self._with_knowledge()
        if here is not None and knowledge is not None:
            then = partial(self._worked, here.id) if self._which == WORK else self.read
            deeds.edit(self, here, knowledge, then)

    def _worked(self, work: str) -> None:
        """A work was written down: what has to be said of it is said at once."""
        self.read(work)
        log, knowledge = self.session.log, self.session.knowledge
        found = [one for one in held(log, Repair) if one.id == work]
        if knowledge is not None and found and deeds.warned(found[0].thing, knowledge):
            self._show(found[0], knowledge)

    def _show(self, record: Stored[Any], knowledge: Knowledge) -> None:
        texts, notes = deeds.texts_of(record, knowledge, self.session.log)
        self.app.push_screen(Page(record.thing.title, partial(record_lines, texts, notes)))

    def action_open(self) -> None:
        """All that is noted of the marked record; in an empty list, note one."""
        here, knowledge = self.here, self._with_knowledge()
        if knowledge is None:
            return
        if here is None:
            self.action_new()
            return
        self._show(here, knowledge)

    def action_done(self) -> None:
        """Finish the marked work."""
        here, knowledge = self.here, self._with_knowledge()
        if self._which != WORK or here is None:
            self.say("Select a job in progress first: tab goes to the next list.")
        elif knowledge is not None:
            deeds.done(self, here, knowledge, partial(self._worked, here.id))

    def action_fits(self) -> None:
        """Which loose plates the marked part goes with."""
        here, knowledge = self.here, self._with_knowledge()
        if self._which != STOCK or here is None:
            self.say("Select a part in stock first. For a piece: f on its own screen.")
        elif knowledge is not None:
            from appraise.app.bench.seeking import fits_part  # 20 ms with the reading

            fits_part(self, here, knowledge)

    def action_remove(self) -> None:
        """Take the marked record off."""
        if self.here is not None:
            deeds.remove(self, self.here, self.read)

    def reread(self) -> None:
        """Show the log as it is now."""
        self.read()
