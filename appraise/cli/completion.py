"""`appraise completion`: what a shell completes, asked of the parser and of the user's log.

The scripts and the talk with the shells are argcomplete's; here stands what an argument may be.
"""

import argparse
import sys
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

from appraise.base.errors import AppraiseError
from appraise.cli.context import Context

if TYPE_CHECKING:
    from appraise.records.fields import Record

INSTALL = {
    "bash": "mkdir -p ~/.local/share/bash-completion/completions && appraise completion bash "
    "> ~/.local/share/bash-completion/completions/appraise",
    "zsh": "mkdir -p ~/.zfunc && appraise completion zsh > ~/.zfunc/_appraise, and have "
    "'fpath+=(~/.zfunc); autoload -U compinit; compinit' in ~/.zshrc",
    "fish": "appraise completion fish > ~/.config/fish/completions/appraise.fish",
    "powershell": "appraise completion powershell >> $PROFILE",
}
NEWEST = 50  # entries of the log that are offered
Offers = Mapping[str, str]
"""What may be written, each with what it is."""


def run_completion(args: argparse.Namespace, context: Context) -> None:
    from argcomplete.shell_integration import shellcode

    sys.stdout.write(shellcode(["appraise"], shell=args.shell))
    print(f"To install it: {INSTALL[args.shell]}\nThen open a new shell.", file=sys.stderr)


def complete() -> None:
    """Answer the shell that asks, and end."""
    import argcomplete
    from argcomplete.completers import SuppressCompleter

    nothing = SuppressCompleter()
    argcomplete.autocomplete(whole_parser(), default_completer=nothing)


def whole_parser() -> argparse.ArgumentParser:
    """The parser of every command, each argument with what completes it."""
    from appraise.cli.parsing import parser

    top = parser()
    for action in _actions(top):
        offers = getattr(action, "offers", "")
        if offers:
            action.completer = _completer(offers)  # type: ignore[attr-defined]
    return top


def _actions(parser: argparse.ArgumentParser) -> Iterator[argparse.Action]:
    for action in parser._actions:  # argparse offers no other way to read a parser
        yield action
        if isinstance(action, argparse._SubParsersAction):
            for inner in action.choices.values():
                yield from _actions(inner)


def _completer(offers: str) -> Callable[..., Offers]:
    """What argcomplete calls for an argument."""

    def found(prefix: str, parsed_args: argparse.Namespace, **more: Any) -> Offers:
        sort, _, of = offers.rpartition(":")
        if of == "file":
            return _files(prefix)
        if of == "code":
            from appraise.base.moneytext import EXPONENTS

            return dict.fromkeys(EXPONENTS, "")
        if sort:
            return _fields(of, sort, prefix)
        known = _records(of, parsed_args.home)
        return known | _files(prefix) if of in ("lot", "price") else known

    return found


def _files(prefix: str) -> dict[str, str]:
    """Files and directories that begin so."""
    place = Path(prefix) if prefix.endswith("/") else Path(prefix).parent
    head = "" if prefix.endswith("/") else Path(prefix).name
    try:
        near = [one for one in place.iterdir() if one.name.startswith(head)]
    except OSError:
        return {}
    return {f"{one}/" if one.is_dir() else str(one): "" for one in near}


def _fields(of: str, sort: str, prefix: str) -> dict[str, str]:
    """Fields of a record as FIELD=, or as field: in a filter, and the words that one takes."""
    from appraise.records.fields import meaning, words
    from appraise.records.record_types import TYPES

    sign = ":" if sort == "filter" else "="
    record: type[Record] = TYPES[of]
    name, signed, _rest = prefix.partition(sign)
    if not signed:
        return {f"{key}{sign}": says for key, says in meaning(record).items()}
    return {f"{name}{sign}{word}": "" for word in words(record, None).get(name, ())}


def _records(of: str, place: str | None) -> dict[str, str]:
    """The records of a type: pieces by their number, venues by name, others by the id's start."""
    from appraise.base.places import home
    from appraise.commands.workspace import open_at
    from appraise.records.fields import title_of
    from appraise.records.record_types import TYPES
    from appraise.store.records import held

    path = home(place).log
    if not path.exists():
        return {}
    try:
        with open_at(path) as log:
            if of == "price":
                return {one.id[:8]: one.title for one in log.entries(limit=NEWEST)}
            found = held(log, TYPES[of])
    except AppraiseError:
        return {}
    names = {"kept": "number", "venue": "name"}
    return {
        str(getattr(one.thing, names.get(of, ""), "") or one.id[:8]): title_of(one.thing)
        for one in found
    }
