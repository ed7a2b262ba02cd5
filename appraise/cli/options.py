"""Options that several commands share."""

import argparse
from typing import Any

Commands = Any  # argparse gives its sub-parser collection no public name


def command(commands: Commands, name: str, says: str) -> argparse.ArgumentParser:
    """A command with its one line of help."""
    made: argparse.ArgumentParser = commands.add_parser(name, help=says, description=says)
    return made


def with_json(parser: argparse.ArgumentParser) -> None:
    """Add --json."""
    parser.add_argument("--json", action="store_true", help="print JSON only")


def with_day(parser: argparse.ArgumentParser) -> None:
    """Add --as-of."""
    parser.add_argument(
        "--as-of", metavar="DATE", help=("date to use instead of today, e.g. 2026-11-25")
    )
