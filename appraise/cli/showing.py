"""How records are shown on the command line: as a line of a list, and one by itself."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from appraise.base.errors import InputError
from appraise.cli.context import Context, talk
from appraise.records.fields import filled
from appraise.records.record_types import name_of_thing

if TYPE_CHECKING:
    from appraise.records.stored import Stored

Told = tuple[dict[str, str], Sequence[str]]
"""The fields of a record as they are shown, and what has to be said of it."""


@dataclass(frozen=True, slots=True)
class View:
    """How one type of record is shown.

    Attributes:
        plural: What several are called in JSON.
        empty: What is said where there are none.
        page: One with its fields.
    """

    plural: str
    empty: str
    line: "Callable[[Context, Stored[Any]], str]"
    page: "Callable[[Context, Stored[Any]], Told]"


def _want_line(context: Context, one: "Stored[Any]") -> str:
    from appraise.documents.bench import want_line

    return want_line(one)


def _part_line(context: Context, one: "Stored[Any]") -> str:
    from appraise.documents.bench import part_line

    return part_line(one, context.knowledge())


def _job_line(context: Context, one: "Stored[Any]") -> str:
    from appraise.documents.bench import work_line

    return work_line(one)


def _plain(context: Context, one: "Stored[Any]") -> Told:
    return filled(one.thing), ()


def _part_page(context: Context, one: "Stored[Any]") -> Told:
    used = {"used in": one.thing.used_in} if one.thing.used_in else {}
    return filled(one.thing) | used, ()


def _job_page(context: Context, one: "Stored[Any]") -> Told:
    """A job with its piece named, its materials judged, and what has to be said of it."""
    from appraise.documents.bench import work_notes, work_stuff
    from appraise.store.bench import piece_title

    knowledge, told = context.knowledge(), filled(one.thing)
    with context.log() as log:
        title = piece_title(log, one.thing.piece)
    if title:
        told["piece"] += f" ({title})"
    if one.thing.materials:
        told["materials"] = "; ".join(work_stuff(one.thing, knowledge))
    return told, work_notes(one.thing, knowledge)


VIEWS: Mapping[str, View] = {
    "want": View(
        "wants",
        "Your want list is empty. 'appraise want add ninth vine, up to 70' adds a want.",
        _want_line,
        _plain,
    ),
    "stock": View(
        "parts",
        "No parts in stock. 'appraise stock add sixth brass mat oval, 3' adds one.",
        _part_line,
        _part_page,
    ),
    "work": View(
        "works",
        "No jobs yet. Example: appraise work add rehinged the vine case piece=ID materials=...",
        _job_line,
        _job_page,
    ),
}


def show_list(context: Context, view: View, rows: "Sequence[Stored[Any]]") -> None:
    """Show records, a line each."""
    from appraise.documents.bench import held_json

    document = {
        "schema": f"appraise.{view.plural}/1",
        "as_of": context.as_of.isoformat(),
        view.plural: [held_json(one) for one in rows],
    }
    lines = [] if context.json else [view.line(context, one) for one in rows]
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
    from appraise.documents.bench import held_json

    name = name_of_thing(one.thing)
    told, notes = VIEWS[name].page(context, one)
    document = {
        "schema": f"appraise.{name}/1",
        "as_of": context.as_of.isoformat(),
        name: held_json(one),
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
    from appraise.listing.summary import meanings, summary

    rows = tuple(understood)
    if rows:
        from appraise.documents.claimed import meaning_words

        for words, meaning in meanings(rows):
            talk(f"{words:<24} {meaning_words(meaning, context.knowledge())}")
    for said in summary(rows, lost, notes):
        talk(said)
