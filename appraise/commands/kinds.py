"""What is special about a type of record: how it is found, read from a line, checked and written.

Everything else is the same for all of them, and stands in `commands/records.py`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any, Generic, TypeVar

from appraise.base.errors import InputError
from appraise.records.fields import Record, title_of
from appraise.records.record_types import TYPES

if TYPE_CHECKING:
    from appraise.commands.workspace import Workspace
    from appraise.listing.bench_line import Understood
    from appraise.records.entry import Entry
    from appraise.records.lot import Lot
    from appraise.records.owned import OwnedPiece
    from appraise.records.part import Part
    from appraise.records.repair import Repair
    from appraise.records.stored import Stored
    from appraise.records.venue import Venue
    from appraise.records.want import Want
    from appraise.store.log import Log

R = TypeVar("R", bound=Record)
Texts = Mapping[str, str]


class RecordCommands(Generic[R]):
    """One type of record.

    Attributes:
        name: Its name in the log.
        added: What is said of a new one, before its id.
        knows: Whether its fields take words of the trade.
    """

    name = ""
    added = "added"
    knows = True

    @property
    def sort(self) -> type[R]:
        """Its dataclass, imported when it is first asked for."""
        found: Any = TYPES[self.name]
        return found  # type: ignore[no-any-return]

    def read(self, work: Workspace, line: str, texts: Texts) -> Understood[R]:
        """A new record from a line in words.

        Raises:
            InputError: when the line names none.
        """
        raise InputError(f"a {self.name} is not written in one line")

    def whole(self, log: Log, texts: Texts) -> dict[str, str]:
        """The texts of fields with the short ids among them made whole."""
        return dict(texts)

    def checked(self, thing: R) -> R:
        """The record; raises InputError where it cannot stand."""
        return thing

    def shown(self, thing: R) -> bool:
        """Whether a list shows it without being asked for all."""
        return True

    def first(self, thing: R) -> bool:
        """Whether it stands before the others in a list."""
        return True

    def every(self, log: Log) -> Sequence[Stored[R]]:
        """All of them, the one begun first in front."""
        from appraise.store.records import held

        return held(log, self.sort)

    def find(self, log: Log, ref: str) -> Stored[R]:
        """The record that is meant.

        Raises:
            InputError: when there is none, or more than one.
        """
        from appraise.store.records import one

        return one(log, self.sort, ref)

    def keep(self, log: Log, thing: R, own: bool = False) -> Stored[R]:
        """Write a new one; `own` marks its piece's entry as the user's own work."""
        from appraise.store.records import keep

        return keep(log, thing)

    def change(self, log: Log, now: Stored[R], was: R, own: bool = False) -> Stored[R]:
        """Write one as it is now."""
        from appraise.store.records import change

        return change(log, now, was=was)

    def drop(self, log: Log, gone: Stored[R]) -> None:
        """Take one off the log."""
        from appraise.store.records import drop

        drop(log, [gone.id])

    def called(self, thing: R) -> str:
        """What one is called."""
        return title_of(thing)


class Wants(RecordCommands["Want"]):
    """What one looks out for."""

    name, added = "want", "on your list"

    def read(self, work: Workspace, line: str, texts: Texts) -> Understood[Want]:
        """A want from a line."""
        from appraise.listing.wish_line import understand_want

        return understand_want(line, work.trade(), work.currency, work.as_of)

    def checked(self, thing: Want) -> Want:
        """It has to tell something from other pieces."""
        return thing.telling()


class Parts(RecordCommands["Part"]):
    """Parts in stock."""

    name, added = "stock", "in stock"

    def read(self, work: Workspace, line: str, texts: Texts) -> Understood[Part]:
        """A part from a line."""
        from appraise.listing.bench_line import understand_part

        sort = "-".join(texts.get("part", "").lower().split())
        return understand_part(line, work.trade(), work.currency, work.as_of, sort)

    def whole(self, log: Log, texts: Texts) -> dict[str, str]:
        """The piece that it was taken from by its whole id."""
        from appraise.store.bench import whole_origin

        return whole_origin(log, texts)

    def shown(self, thing: Part) -> bool:
        """Not those that are used up."""
        return bool(thing.count)


class Jobs(RecordCommands["Repair"]):
    """Repairs and assemblies; what they use leaves the stock."""

    name, added = "work", "on the bench"

    def read(self, work: Workspace, line: str, texts: Texts) -> Understood[Repair]:
        """A job begun today, the line its title."""
        from appraise.listing.bench_line import Understood
        from appraise.records.repair import Repair

        title = texts.get("title", line).strip()
        if not title:
            raise InputError("give the job a title", mend="Write: appraise work add new hinge.")
        return Understood(Repair(title, work.as_of), (), ())

    def checked(self, thing: Repair) -> Repair:
        """It needs a title."""
        if not thing.title:
            raise InputError("give the job a title", "title")
        return thing

    def whole(self, log: Log, texts: Texts) -> dict[str, str]:
        """The parts that it used and its piece by their whole ids."""
        from appraise.store.bench import whole_ids, whole_piece

        told = whole_ids(log, texts)
        if told.get("piece"):
            told["piece"] = whole_piece(log, told["piece"])
        return told

    def shown(self, thing: Repair) -> bool:
        """Those in progress."""
        return thing.in_hand

    first = shown

    def keep(self, log: Log, thing: Repair, own: bool = False) -> Stored[Repair]:
        """A new job takes its parts out of stock."""
        from appraise.store.bench import keep_work

        return keep_work(log, thing, own)

    def change(
        self, log: Log, now: Stored[Repair], was: Repair, own: bool = False
    ) -> Stored[Repair]:
        """Stock follows what it uses."""
        from appraise.store.bench import change_work

        return change_work(log, now, was, own)

    def drop(self, log: Log, gone: Stored[Repair]) -> None:
        """What it used goes back into stock."""
        from appraise.store.bench import drop_work

        drop_work(log, gone)


class OwnedPieces(RecordCommands["OwnedPiece"]):
    """Pieces that one owns."""

    name = "kept"

    def find(self, log: Log, ref: str) -> Stored[OwnedPiece]:
        """By its number, the start of an id, or its title."""
        from appraise.store.owned_pieces import find

        return find(log, ref)

    def keep(self, log: Log, thing: OwnedPiece, own: bool = False) -> Stored[OwnedPiece]:
        """No number and no purchase is there twice."""
        from appraise.store.owned_pieces import take

        return take(log, thing)

    def change(
        self, log: Log, now: Stored[OwnedPiece], was: OwnedPiece, own: bool = False
    ) -> Stored[OwnedPiece]:
        """No number is there twice."""
        from appraise.store.owned_pieces import store

        return store(log, now, was)


class LotCommands(RecordCommands["Lot"]):
    """Lots of sales that are marked."""

    name, added, knows = "lot", "marked", False

    def find(self, log: Log, ref: str) -> Stored[Lot]:
        """By its id or title."""
        try:
            return super().find(log, ref)
        except InputError as error:
            mend = "'appraise lots list --all' shows all." if "no lot" in error.what else error.mend
            raise InputError(error.what, mend=mend) from None

    def shown(self, thing: Lot) -> bool:
        """Those that are open."""
        return thing.open


class Venues(RecordCommands["Venue"]):
    """Places to buy, with their terms."""

    name, knows = "venue", False

    def find(self, log: Log, ref: str) -> Stored[Venue]:
        """By its name, in any case."""
        from appraise.store.records import one
        from appraise.store.venue_book import read_book

        return one(log, self.sort, read_book(log).named(ref).name)

    def called(self, thing: Venue) -> str:
        """By its name."""
        return thing.name


class PriceCommands(RecordCommands["Entry"]):
    """Prices that were met."""

    name = "price"

    def every(self, log: Log) -> Sequence[Stored[Entry]]:
        """All prices, the newest first."""
        from appraise.records.stored import Stored

        return [Stored(entry.id, entry) for entry in log.entries()]

    def find(self, log: Log, ref: str) -> Stored[Entry]:
        """By the start of its id."""
        from appraise.records.stored import Stored

        entry = log.entry(ref)
        return Stored(entry.id, entry)

    def change(self, log: Log, now: Stored[Entry], was: Entry, own: bool = False) -> Stored[Entry]:
        """As an edit of the log, which refuses what was changed meanwhile."""
        from appraise.records.stored import Stored

        return Stored(now.id, log.edit(now.thing, was=was))

    def keep(self, log: Log, thing: Entry, own: bool = False) -> Stored[Entry]:
        """A price under the id that the log gives it."""
        from appraise.records.stored import Stored

        entry = log.add(thing)
        return Stored(entry.id, entry)

    def drop(self, log: Log, gone: Stored[Entry]) -> None:
        """Take it off the log."""
        log.remove(gone.id)

    def called(self, thing: Entry) -> str:
        """By its title, or its motif."""
        return thing.title or thing.motif or "the entry"


KINDS: Mapping[str, RecordCommands[Any]] = {
    one.name: one
    for one in (Wants(), Parts(), Jobs(), OwnedPieces(), LotCommands(), Venues(), PriceCommands())
}
"""By the name of the type in the log."""
