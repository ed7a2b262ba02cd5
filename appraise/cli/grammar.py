"""What may stand where on the command line, read off the one parser."""

import argparse
import re
from collections.abc import Iterator
from dataclasses import dataclass

_FILES = re.compile(r"FILE|PIECE|LOT|DIR|OUT|BACKUP")
"""Names of arguments that are files, where their type does not say so."""


@dataclass(frozen=True, slots=True)
class Option:
    """An option.

    Attributes:
        flags: How it may be written.
        says: What it does, a line.
        takes: Whether a value follows.
        choices: The values that it may have; empty: any.
        files: Whether its value is the name of a file.
    """

    flags: tuple[str, ...]
    says: str
    takes: bool
    choices: tuple[str, ...]
    files: bool


@dataclass(frozen=True, slots=True)
class Place:
    """A command, or the program itself.

    Attributes:
        at: The words that lead there, each with a space before it: ' log add'; empty at the top.
        words: What may follow, each with what it does: commands, or the values of an argument.
        options: Its options.
        files: Whether the name of a file may follow.
    """

    at: str
    words: tuple[tuple[str, str], ...]
    options: tuple[Option, ...]
    files: bool


def places(parser: argparse.ArgumentParser, at: str = "") -> Iterator[Place]:
    """Every place of a command line, the outer ones first."""
    words: list[tuple[str, str]] = []
    options: list[Option] = []
    inner: dict[str, argparse.ArgumentParser] = {}
    files = False
    for action in parser._actions:  # argparse offers no other way to read a parser
        if isinstance(action, argparse._SubParsersAction):
            inner |= action.choices
            words += [(one.dest, _plain(one.help)) for one in action._choices_actions]
        elif action.option_strings:
            options.append(_option(action))
        else:
            words += [(str(one), _plain(action.help)) for one in action.choices or ()]
            files = files or _is_file(action)
    yield Place(at, tuple(words), tuple(options), files)
    for name, one in inner.items():
        yield from places(one, f"{at} {name}")


def _option(action: argparse.Action) -> Option:
    choices = tuple(str(one) for one in action.choices or ())
    takes = action.nargs != 0
    flags = tuple(action.option_strings)
    return Option(flags, _plain(action.help), takes, choices, takes and _is_file(action))


def _is_file(action: argparse.Action) -> bool:
    named = action.metavar if isinstance(action.metavar, str) else ""
    return getattr(action.type, "__name__", "") == "Path" or bool(_FILES.search(named))


def _plain(says: str | None) -> str:
    """A line of help as it is printed; none for one that argparse does not print."""
    told = "" if says in (None, argparse.SUPPRESS) else str(says)
    return " ".join(told.replace("%%", "%").split())
