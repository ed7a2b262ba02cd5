"""How records are shown on the command line: as a line of a list, and one by itself."""

from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.cli.context import Context, talk
from appraise.records.fields import filled
from appraise.records.record_types import name_of_thing

if TYPE_CHECKING:
    from appraise.records.stored import Stored


@dataclass(frozen=True, slots=True)
class View:
    """How a type of record of the bench is listed.

    Attributes:
        plural: What several are called in JSON.
        empty: What is said where there are none.
    """

    plural: str
    empty: str


VIEWS: Mapping[str, View] = {
    "want": View(
        "wants", "Your want list is empty. 'appraise want add ninth vine, up to 70' adds a want."
    ),
    "stock": View(
        "parts", "No parts in stock. 'appraise stock add sixth brass mat oval, 3' adds one."
    ),
    "work": View(
        "works",
        "No jobs yet. Example: appraise work add rehinged the vine case piece=ID materials=...",
    ),
}


def _line(context: Context, one: "Stored[Any]") -> str:
    from appraise.documents.bench import part_line, want_line, work_line

    name = name_of_thing(one.thing)
    if name == "stock":
        return part_line(one, context.knowledge())
    return want_line(one) if name == "want" else work_line(one)


def _page(context: Context, one: "Stored[Any]") -> tuple[dict[str, str], Sequence[str]]:
    """The fields of a record as they are shown, and what has to be said of it."""
    name, told = name_of_thing(one.thing), filled(one.thing)
    if name == "stock" and one.thing.used_in:
        told["used in"] = one.thing.used_in
    if name != "work":
        return told, ()
    from appraise.documents.bench import work_notes, work_stuff
    from appraise.store.bench import piece_title

    knowledge = context.knowledge()
    with context.log() as log:
        title = piece_title(log, one.thing.piece)
    if title:
        told["piece"] += f" ({title})"
    if one.thing.materials:
        told["materials"] = "; ".join(work_stuff(one.thing, knowledge))
    return told, work_notes(one.thing, knowledge)


def show_list(context: Context, view: View, rows: "Sequence[Stored[Any]]") -> None:
    """Show records, a line each."""
    from appraise.documents.entry import held_json

    document = {
        "schema": f"appraise.{view.plural}/1",
        "as_of": context.as_of.isoformat(),
        view.plural: [held_json(one.id, one.thing) for one in rows],
    }
    lines = [] if context.json else [_line(context, one) for one in rows]
    context.show(document, "\n".join(lines) or view.empty)


def show(context: Context, one: "Stored[Any]", head: str = "") -> None:
    """Show one record, after what was done to it."""
    name = name_of_thing(one.thing)
    if name == "kept":
        _show_kept(context, one, head)
    elif name == "lot":
        show_lot(context, one, head)
    elif name == "price":
        _show_price(context, one, head)
    else:
        _show_fields(context, one, head)


def _show_fields(context: Context, one: "Stored[Any]", head: str) -> None:
    """A record by its fields, then what has to be said of it."""
    from appraise.documents.entry import held_json

    name = name_of_thing(one.thing)
    told, notes = _page(context, one)
    document = {
        "schema": f"appraise.{name}/1",
        "as_of": context.as_of.isoformat(),
        name: held_json(one.id, one.thing),
        "notes": list(notes),
    }
    width = max(map(len, told), default=0)
    lines = [head or one.id, *(f"  {key:<{width}}  {text}" for key, text in told.items())]
    context.show(document, "\n".join([*lines, *(f"! {note}" for note in notes)]))


def _show_kept(context: Context, one: "Stored[Any]", head: str) -> None:
    """A kept piece as it is now, and what speaks against its place; of one removed its line."""
    from appraise.collection.upkeep import unfit, unfit_words
    from appraise.documents.owned_lists import kept_line
    from appraise.documents.owned_page import kept_json

    gone = head.startswith("removed")
    place = one.thing.place
    told = unfit(place, context.knowledge()) if place and not gone else ()
    document = kept_json(one, context.as_of)
    if not gone:
        document["cautions"] = [{"id": row.id, "says": unfit_words(row)} for row in told]
    line = f"removed {kept_line(one)}" if gone else kept_line(one)
    context.show(document, "\n".join([line, *(f"caution: {unfit_words(row)}" for row in told)]))


def _show_price(context: Context, one: "Stored[Any]", head: str) -> None:
    """A price as a line, as `log list` has it."""
    from appraise.documents.entry import entry_document, entry_line

    gone = "removed " if head.startswith("removed") else ""
    context.show(entry_document(one.thing), f"{gone}{entry_line(one.thing)}")


def show_lot(context: Context, one: "Stored[Any]", head: str = "", **more: Any) -> None:
    """A lot with what was done to it, and with what more a document says."""
    from appraise.documents.lots import lot_line, one_lot_json

    when = context.now()
    begun = {"removed": "removed: ", "marked": "marked: "}.get(head.partition(":")[0], head)
    text = f"{begun}{lot_line(one, when).strip()}"
    context.show(one_lot_json(one, when, **more), text)


def line_of(words: Sequence[str], example: str) -> str:
    """A line typed as words; an empty one says nothing that could be read or kept."""
    line = " ".join(words)
    if not line.strip():
        raise InputError("nothing was typed", mend=f"Example: {example}.")
    return line


def tell(
    context: Context,
    understood: Iterable[tuple[str, str]],
    lost: Sequence[str],
    notes: Sequence[str] = (),
) -> None:
    """How a line was understood, as talk."""
    for line in understood_lines(context, understood, lost, notes):
        talk(line)


def understood_lines(
    context: Context,
    understood: Iterable[tuple[str, str]],
    lost: Sequence[str],
    notes: Sequence[str],
) -> list[str]:
    """How a line was understood: its words with what they were taken for, and what is open."""
    from appraise.listing.summary import meanings, summary

    rows, told = tuple(understood), list[str]()
    if rows:
        from appraise.documents.claimed import meaning_words

        told = [
            f"{words:<24} {meaning_words(meaning, context.knowledge())}"
            for words, meaning in meanings(rows)
        ]
    return [*told, *summary(rows, lost, notes)]
