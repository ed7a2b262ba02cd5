"""`appraise knowledge figure`: a drawing in the terminal, or what there is to draw."""

import argparse

from appraise.base.cells import ACROSS, ASCII, BRAILLE, cells, fitting
from appraise.base.errors import InputError
from appraise.cli.context import Context
from appraise.knowledge.figures import drawing, named, names
from appraise.knowledge.records import Knowledge

LEAST, MOST = 6, 200  # cells across


def run_figure(args: argparse.Namespace, context: Context) -> None:
    """Print one drawing with what it shows, or without a name the list of all."""
    shows = _shows(context.knowledge())
    if args.figure is None:
        listed = {name: shows.get(name, []) for name in names()}
        lines = [f"{name:<22}{'; '.join(says)}" for name, says in listed.items()]
        context.show({"schema": "appraise.figures/1", "figures": listed}, "\n".join(lines))
        return
    grain = args.drawn or (ASCII if context.settings().ascii else BRAILLE)
    across = ACROSS if args.across is None else args.across
    if not LEAST <= across <= MOST:
        raise InputError(f"{across} cells", "--across", f"Give {LEAST} to {MOST}.")
    rows = cells(drawing(args.figure), *fitting(across, across), grain)
    says = shows.get(args.figure, [])
    document = {
        "schema": "appraise.figure/1", "figure": args.figure, "shows": says, "lines": rows,
    }  # fmt: skip
    context.show(document, "\n".join([*rows, *says]))


def _shows(knowledge: Knowledge) -> dict[str, list[str]]:
    """What each drawing shows: the check, and the answer in its words."""
    found: dict[str, list[str]] = {}
    for check in knowledge.checks.values():
        for name, answer, says in named(check):
            found.setdefault(name, []).append(f"{check.id}{' = ' if answer else ': '}{says}")
    return found
