"""What the commands of the bench share: a line understood, changes as FIELD=VALUE, one record."""

import argparse
import sys
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from appraise.base.errors import InputError
from appraise.cli.context import Context
from appraise.cli.exits import Exit
from appraise.cli.options import Commands, command, with_day, with_json

if TYPE_CHECKING:
    from appraise.log.holdings import Held

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


def fields_epilog(parser: argparse.ArgumentParser, meaning: Mapping[str, str]) -> None:
    """Every field with what may be written there, below the help."""
    parser.formatter_class = argparse.RawDescriptionHelpFormatter
    width = max(map(len, meaning))
    parser.epilog = "fields\n" + "\n".join(f"  {key:<{width}}  {t}" for key, t in meaning.items())


def parted(words: Iterable[str], fields: Iterable[str]) -> tuple[str, dict[str, str]]:
    """The words of a line, and the fields written among them as FIELD=VALUE."""
    known, line, texts = set(fields), list[str](), dict[str, str]()
    for word in words:
        name, equals, value = word.partition("=")
        if equals and name in known:
            texts[name] = value
        else:
            line.append(word)
    return " ".join(line), texts


def changes_of(words: Iterable[str]) -> dict[str, str]:
    """FIELD=VALUE words as texts by field.

    Raises:
        InputError: for a word without '='.
    """
    texts: dict[str, str] = {}
    for word in words:
        name, equals, value = word.partition("=")
        if not equals:
            raise InputError(f"'{word}' is not FIELD=VALUE", mend="Write place='box 3'.")
        texts[name.strip()] = value
    return texts


def tell(
    understood: Sequence[tuple[str, str]], lost: Sequence[str], notes: Sequence[str] = ()
) -> None:
    """How a line was understood, as talk."""
    from appraise.listing.summary import meanings, summary

    for words, meaning in meanings(understood):
        print(f"  {words:<24} {meaning}", file=sys.stderr)
    for said in summary(understood, lost, notes):
        print(f"  {said}", file=sys.stderr)


def show_one(
    context: Context,
    sort: str,
    held: "Held[Any]",
    written: Mapping[str, str],
    notes: Iterable[str] = (),
    head: str = "",
) -> None:
    """Show one record: its fields, then what has to be said of it."""
    from appraise.report.bench import held_json

    notes = list(notes)
    document = {
        "schema": f"appraise.{sort}/1",
        "as_of": context.as_of.isoformat(),
        sort: held_json(held),
        "notes": notes,
    }
    width = max(map(len, written), default=0)
    lines = [head or held.id, *(f"  {key:<{width}}  {text}" for key, text in written.items())]
    context.show(document, "\n".join([*lines, *(f"! {note}" for note in notes)]))


def show_list(
    context: Context, name: str, rows: "Iterable[Held[Any]]", lines: list[str], empty: str
) -> None:
    """Show records, a line each."""
    from appraise.report.bench import held_json

    document = {
        "schema": f"appraise.{name}/1",
        "as_of": context.as_of.isoformat(),
        name: [held_json(one) for one in rows],
    }
    context.show(document, "\n".join(lines) or empty)
