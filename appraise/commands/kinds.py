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
        """A new record from a line in words; raises InputError where the line names none."""
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
        """All of them, the one begun first in front; of prices the newest."""
        from appraise.store.records import held

        return held(log, self.sort)

    def find(self, log: Log, ref: str) -> Stored[R]:
        """The record that is meant; raises InputError where there is none, or more than one."""
        from appraise.store.records import one

        return one(log, self.sort, ref)

    def meant(self, log: Log, one: Stored[R] | str) -> Stored[R]:
        """A record as its editor saw it, or the one of that name; errors as in `find`."""
        return self.find(log, one) if isinstance(one, str) else one

    def keep(self, log: Log, thing: R, own: bool = False) -> Stored[R]:
        """Write a new one; `own` marks its piece's entry as the user's own work."""
        from appraise.store.records import keep

        return keep(log, thing)

    def change(self, log: Log, now: Stored[R], was: R, own: bool = False) -> Stored[R]:
        """Write one as it is now; what another program changed meanwhile is refused."""
        from appraise.store.records import change

        return change(log, now, was)

    def drop(self, log: Log, gone: Stored[R]) -> None:
        """Take one off the log."""
        log.commit(drop=(gone.id,))

    def called(self, thing: R) -> str:
        """What one is called."""
        return title_of(thing)


class Wants(RecordCommands["Want"]):
    """What one looks out for; it has to tell something from other pieces."""

    name, added = "want", "on your list"

    def read(self, work: Workspace, line: str, texts: Texts) -> Understood[Want]:
        from appraise.listing.wish_line import understand_want

        return understand_want(line, work.trade(), work.currency, work.as_of)

    def checked(self, thing: Want) -> Want:
        return thing.telling()


class Parts(RecordCommands["Part"]):
    """Parts in stock; a list leaves out those that are used up."""

    name, added = "stock", "in stock"

    def read(self, work: Workspace, line: str, texts: Texts) -> Understood[Part]:
        from appraise.listing.bench_line import understand_part

        sort = "-".join(texts.get("part", "").lower().split())
        return understand_part(line, work.trade(), work.currency, work.as_of, sort)

    def whole(self, log: Log, texts: Texts) -> dict[str, str]:
        from appraise.store.bench import whole_piece

        return (
            {**texts, "from": whole_piece(log, texts["from"])} if texts.get("from") else {**texts}
        )

    def shown(self, thing: Part) -> bool:
        return bool(thing.count)


class Jobs(RecordCommands["Repair"]):
    """Repairs and assemblies, those in progress first; what they use leaves the stock."""

    name, added = "work", "on the bench"

    def read(self, work: Workspace, line: str, texts: Texts) -> Understood[Repair]:
        from appraise.listing.bench_line import Understood
        from appraise.records.repair import Repair

        title = texts.get("title", line).strip()
        if not title:
            raise InputError("give the job a title", mend="Write: appraise work add new hinge.")
        return Understood(Repair(title, work.as_of), (), ())

    def checked(self, thing: Repair) -> Repair:
        if not thing.title:
            raise InputError("give the job a title", "title")
        return thing

    def whole(self, log: Log, texts: Texts) -> dict[str, str]:
        from appraise.store.bench import whole_ids, whole_piece

        told = whole_ids(log, texts)
        return {**told, "piece": whole_piece(log, told["piece"])} if told.get("piece") else told

    def shown(self, thing: Repair) -> bool:
        return thing.in_hand

    first = shown

    def keep(self, log: Log, thing: Repair, own: bool = False) -> Stored[Repair]:
        from appraise.store.bench import keep_work

        return keep_work(log, thing, own)

    def change(
        self, log: Log, now: Stored[Repair], was: Repair, own: bool = False
    ) -> Stored[Repair]:
        from appraise.store.bench import change_work

        return change_work(log, now, was, own)

    def drop(self, log: Log, gone: Stored[Repair]) -> None:
        from appraise.store.bench import drop_work

        drop_work(log, gone)


class OwnedPieces(RecordCommands["OwnedPiece"]):
    """Pieces that one owns; no number and no purchase is there twice."""

    name = "kept"

    def find(self, log: Log, ref: str) -> Stored[OwnedPiece]:
        from appraise.store.piece_record import find

        return find(log, ref)

    def keep(self, log: Log, thing: OwnedPiece, own: bool = False) -> Stored[OwnedPiece]:
        from appraise.store.owned_pieces import take

        return take(log, thing)

    def change(
        self, log: Log, now: Stored[OwnedPiece], was: OwnedPiece, own: bool = False
    ) -> Stored[OwnedPiece]:
        from appraise.store.owned_pieces import store

        return store(log, now, was)


class LotCommands(RecordCommands["Lot"]):
    """Lots of sales that are marked; a list shows those that are open."""

    name, added, knows = "lot", "marked", False

    def find(self, log: Log, ref: str) -> Stored[Lot]:
        try:
            return super().find(log, ref)
        except InputError as error:
            mend = "'appraise lots list --all' shows all." if "no lot" in error.what else error.mend
            raise InputError(error.what, mend=mend) from None

    def shown(self, thing: Lot) -> bool:
        return thing.open


class Venues(RecordCommands["Venue"]):
    """Places to buy, with their terms; found by their names, in any case."""

    name, knows = "venue", False

    def find(self, log: Log, ref: str) -> Stored[Venue]:
        from appraise.store.venue_book import find_venue

        return find_venue(log, ref)

    def called(self, thing: Venue) -> str:
        return thing.name


class PriceCommands(RecordCommands["Entry"]):
    """Prices that were met."""

    name = "price"

    def every(self, log: Log) -> Sequence[Stored[Entry]]:
        from appraise.records.stored import Stored

        return [Stored(entry.id, entry) for entry in log.entries()]

    def find(self, log: Log, ref: str) -> Stored[Entry]:
        from appraise.records.stored import Stored

        entry = log.entry(ref)
        return Stored(entry.id, entry)

    def called(self, thing: Entry) -> str:
        return thing.title or thing.motif or "the entry"


KINDS: Mapping[str, RecordCommands[Any]] = {
    one.name: one
    for one in (Wants(), Parts(), Jobs(), OwnedPieces(), LotCommands(), Venues(), PriceCommands())
}
"""By the name of the type in the log."""
