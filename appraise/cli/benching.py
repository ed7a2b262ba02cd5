"""What the commands of the bench share: a line understood, changes as FIELD=VALUE, one record."""

import argparse
import sys
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, Any, TypeVar

from appraise.cli.context import Context
from appraise.cli.exits import Exit
from appraise.cli.options import Commands, command, with_day, with_json
from appraise.records.fields import Record

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge
    from appraise.log.records import Stored
    from appraise.log.store import Log

R = TypeVar("R", bound="Record")
Run = Callable[[argparse.Namespace, Context], Exit]


def action(
    actions: Commands, name: str, says: str, run: Run, *takes: tuple[str, str, str]
) -> argparse.ArgumentParser:
    """An action with --json and --as-of; each of `takes` is a name, how many, and what it is."""
    made = command(actions, name, says)
    for argument, many, meaning in takes:
        more: dict[str, Any] = {"nargs": many} if many else {}
        made.add_argument(argument, metavar=argument.upper(), help=meaning, **more)
    with_json(made)
    with_day(made)
    made.set_defaults(run=run)
    return made


def with_fields(parser: argparse.ArgumentParser, sort: type[Record]) -> None:
    """Every field of a record with what may be written there, below the help."""
    from appraise.records.fields import meaning

    told = meaning(sort)
    parser.formatter_class = argparse.RawDescriptionHelpFormatter
    width = max(map(len, told))
    parser.epilog = "fields\n" + "\n".join(f"  {key:<{width}}  {t}" for key, t in told.items())


def tell(
    understood: Sequence[tuple[str, str]],
    lost: Sequence[str],
    knowledge: "Knowledge",
    notes: Sequence[str] = (),
) -> None:
    """How a line was understood, as talk."""
    from appraise.listing.summary import meanings, summary
    from appraise.report.claimed import meaning_words

    for words, meaning in meanings(understood):
        print(f"  {words:<24} {meaning_words(meaning, knowledge)}", file=sys.stderr)
    for said in summary(understood, lost, notes):
        print(f"  {said}", file=sys.stderr)


def show_one(
    context: Context,
    stored: "Stored[Any]",
    head: str = "",
    told: Mapping[str, str] | None = None,
    notes: Sequence[str] = (),
) -> Exit:
    """Show one record: its fields, then what has to be said of it."""
    from appraise.records.fields import filled
    from appraise.records.record_types import name_of_thing
    from appraise.report.bench import held_json

    sort, shown = name_of_thing(stored.thing), filled(stored.thing) if told is None else told
    document = {
        "schema": f"appraise.{sort}/1",
        "as_of": context.as_of.isoformat(),
        sort: held_json(stored),
        "notes": list(notes),
    }
    width = max(map(len, shown), default=0)
    lines = [head or stored.id, *(f"  {key:<{width}}  {text}" for key, text in shown.items())]
    context.show(document, "\n".join([*lines, *(f"! {note}" for note in notes)]))
    return Exit.DONE


def found(args: argparse.Namespace, context: Context, sort: type[R]) -> "Stored[R]":
    """The record that is meant."""
    from appraise.log.records import one

    with context.log() as log:
        return one(log, sort, args.id)


def removed(args: argparse.Namespace, context: Context, sort: type[Record]) -> Exit:
    """Take a record off the log."""
    from appraise.log.records import drop, one
    from appraise.records.fields import title_of

    with context.log() as log:
        gone = one(log, sort, args.id)
        drop(log, [gone.id])
    return show_one(context, gone, f"removed: {title_of(gone.thing)}")


def edited(
    args: argparse.Namespace,
    context: Context,
    sort: type[R],
    settle: "Callable[[Log, R, dict[str, str]], dict[str, str]] | None" = None,
    check: Callable[[R], R] = lambda thing: thing,
) -> "Stored[R]":
    """A record with fields as typed.

    Args:
        args: The id, and FIELD=VALUE words.
        context: The surroundings.
        sort: Its type.
        settle: Makes short ids among the texts whole.
        check: Refuses a record that cannot stand.
    """
    from appraise.log.records import Stored, change, one
    from appraise.records.fields import changed, pair

    by, texts = context.author(context.knowledge()), dict(map(pair, args.changes))
    with context.log() as log:
        was = one(log, sort, args.id)
        texts = settle(log, was.thing, texts) if settle else texts
        return change(log, Stored(was.id, check(changed(was.thing, texts, by))), was=was.thing)


def show_list(
    context: Context, name: str, rows: "Iterable[Stored[Any]]", lines: list[str], empty: str
) -> None:
    """Show records, a line each."""
    from appraise.report.bench import held_json

    document = {
        "schema": f"appraise.{name}/1",
        "as_of": context.as_of.isoformat(),
        name: [held_json(one) for one in rows],
    }
    context.show(document, "\n".join(lines) or empty)
