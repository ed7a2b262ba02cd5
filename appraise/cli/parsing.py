"""The command line, made from the registry: every command by name, the one meant in full."""

import argparse
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any

from appraise.commands.registry import FAMILIES, Arg, Command, commands_of

PURPOSE = "For buying decisions only; not an appraisal for insurance, tax or estate."


class Parser(argparse.ArgumentParser):
    """A parser whose help tells the fields of records, which are imported for that alone.

    Each argument that is added is tried out on a formatter; that one has a width of its own, since
    to ask for the terminal's takes 2 ms.
    """

    of: Command | None = None

    def __init__(self, **named: Any) -> None:
        super().__init__(formatter_class=partial(argparse.HelpFormatter, width=80), **named)

    def format_usage(self) -> str:
        """How it is called, as wide as the terminal."""
        self.formatter_class = argparse.HelpFormatter
        return super().format_usage()

    def format_help(self) -> str:
        """The help, with every field that may be written."""
        self.formatter_class = argparse.HelpFormatter
        if self.of and self.of.fields and not self.epilog:
            self.formatter_class = argparse.RawDescriptionHelpFormatter
            self.epilog = _fields(self.of)
        return super().format_help()


class _Versions(argparse.Action):
    """Prints what a report of a fault needs to name, and ends."""

    def __call__(self, parser: argparse.ArgumentParser, *_: object) -> None:
        """Print the versions and end well."""
        from appraise.cli.versions import versions

        print(versions())
        parser.exit()


class _Later:
    """Stands for a parser until something is asked of it: of some 90 a command line needs three."""

    def __init__(self, make: Callable[[], argparse.ArgumentParser]) -> None:
        self._make = make
        self._made: argparse.ArgumentParser | None = None

    def __getattr__(self, name: str) -> Any:
        self._made = self._made or self._make()
        return getattr(self._made, name)


class _Names(argparse._SubParsersAction):  # type: ignore[type-arg]  # it has no public name
    """Commands by name; the parser of each is made when it is used."""

    def add_later(
        self, name: str, says: str, fill: Callable[[argparse.ArgumentParser], None]
    ) -> None:
        """Add a command that `fill` describes when it is used."""

        def make() -> argparse.ArgumentParser:
            made = Parser(prog=f"{self._prog_prefix} {name}", description=says)
            fill(made)
            return made

        later: Any = _Later(make)
        self._choices_actions.append(self._ChoicesPseudoAction(name, (), says))
        self._name_parser_map[name] = later


def parser() -> argparse.ArgumentParser:
    """The command line."""
    top = Parser(
        prog="appraise",
        description="Examine, date and price early photographs, and log them.",
        epilog=PURPOSE,
    )
    top.add_argument("--version", action=_Versions, nargs=0, help="show versions, for a report")
    top.add_argument("--home", metavar="DIR", help="where the log and settings are")
    top.add_argument(
        "--no-mouse", dest="mouse", action="store_false", help="leave the mouse to the terminal"
    )
    top.set_defaults(command=None)
    names: Any = top.add_subparsers(
        action=_Names, prog=top.prog, metavar="COMMAND", title="commands"
    )
    for name, family in FAMILIES.items():
        names.add_later(name, family.says, partial(_add_family, name))
    return top


def _add_family(name: str, made: argparse.ArgumentParser) -> None:
    rows, family = commands_of(name), FAMILIES[name]
    if [one.action for one in rows] == [""]:
        _add_command(rows[0], made)
        return
    usual = next((one for one in rows if one.action == family.usual), None)
    if usual:
        made.set_defaults(command=usual, json=False, **_usual(usual))
    names: Any = made.add_subparsers(
        action=_Names,
        prog=made.prog,  # else it is worked out, 2 ms
        metavar="ACTION",
        required=not usual,
        title="actions",
    )
    for row in rows:
        names.add_later(row.action, row.says, partial(_add_command, row))


def _usual(row: Command) -> dict[str, Any]:
    """What the arguments of a command are where none was typed."""
    return {_name(one): [] if one.many == "*" else _default(one) for one in row.takes}


def _add_command(row: Command, made: argparse.ArgumentParser) -> None:
    if isinstance(made, Parser):
        made.of = row
    groups: dict[str, Any] = {"": made}
    for one in row.takes:
        if one.either not in groups:
            groups[one.either] = made.add_mutually_exclusive_group()
        _add_argument(groups[one.either], one)
    if row.json:
        made.add_argument("--json", action="store_true", help="print JSON only")
    if row.day:
        says = "date to use instead of today, e.g. 2026-11-25"
        made.add_argument("--as-of", metavar="DATE", help=says)
    made.set_defaults(command=row)


def _add_argument(to: Any, one: Arg) -> None:
    more: dict[str, Any] = {"help": one.says.replace("%", "%%")}
    if one.name.startswith("-"):
        more["dest"] = _name(one)
        if one.kind is bool:
            to.add_argument(one.name, action="store_true", **more)
            return
        more |= {"default": _default(one), "required": one.needed}
        if one.many == "each":
            more["action"] = "append"
    else:
        if not one.choices:
            more["metavar"] = one.shown or one.name.upper()
        if one.many:
            more["nargs"] = one.many
        if one.many == "?":
            more["default"] = one.usual
    if one.shown:
        more["metavar"] = one.shown
    if one.choices:
        more["choices"] = one.choices
    if one.kind is not bool:
        more["type"] = _whole_text if one.kind is str else one.kind
    made = to.add_argument(one.name, **more)
    made.offers = one.offers or ("file" if one.kind is Path else "")


def _whole_text(typed: str) -> str:
    """What was typed; bytes that are no text become the sign for such."""
    return typed.encode("utf-8", "surrogateescape").decode("utf-8", "replace")


def _name(one: Arg) -> str:
    return one.to or one.name.lstrip("-").replace("-", "_")


def _default(one: Arg) -> object:
    if one.kind is bool:
        return False
    return [] if one.many == "each" else one.usual


def _fields(row: Command) -> str:
    """Every field of the records of a command, with what may be written there."""
    told: dict[str, str] = {}
    for name in row.fields:
        told |= _meanings(name)
    width = max(map(len, told))
    return "fields\n" + "\n".join(f"  {key:<{width}}  {says}" for key, says in told.items())


def _meanings(name: str) -> dict[str, str]:
    from appraise.records.fields import meaning
    from appraise.records.record_types import TYPES

    if name == "lot.piece.1":
        from appraise.records.lot import LotItem

        return {f"piece.1.{key}": says for key, says in meaning(LotItem).items()}
    return meaning(TYPES[name])
