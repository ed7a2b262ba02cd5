"""The demo as text, where there is no terminal for the app: commands on it, and what they tell."""

import shlex
from pathlib import Path

from appraise.base.places import shipped_demo
from appraise.cli.context import Context
from appraise.cli.handlers import handler
from appraise.cli.parsing import parser

OPENING = """\
The demo as text. Everything in it is invented: no price was ever paid.
In a terminal, 'appraise demo' opens the app on the same demo."""
VENUE = "Thornfield rooms"  # one of the demo's venues


def scenes() -> tuple[tuple[str, ...], ...]:
    """The command lines, as a user types them: a verdict on each piece, a listing, a bill."""
    return (
        *(("verdict", one) for one in _named("pieces", "*.yaml")),
        *(("listing", one) for one in _named("listings", "*.txt")),
        ("bid", "demo/pieces/sound.yaml", "--venue", VENUE),
    )


def _named(folder: str, pattern: str) -> tuple[str, ...]:
    found = sorted((shipped_demo() / folder).glob(pattern))
    return tuple(Path("demo", folder, one.name).as_posix() for one in found)


def tell(context: Context) -> None:
    """Print what each command tells of the demo.

    Args:
        context: A home that the demo has furnished, and the day to state prices for.
    """
    print(OPENING)
    for words in scenes():
        print(f"\n$ appraise {shlex.join(words)}\n")
        args = parser().parse_args(words)
        handler(args.command)(args, context)
