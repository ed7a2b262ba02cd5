"""Which function shows a command: one of its family's module, or one for every type of record."""

import argparse
from collections.abc import Callable
from importlib import import_module

from appraise.cli.context import Context
from appraise.cli.exits import Exit
from appraise.commands.registry import Command

Handler = Callable[[argparse.Namespace, Context], Exit | None]
"""What runs a command; None: it is done, as most are."""
HOMES = {
    "app": ("demo",),
    "pieces": ("look", "verdict"),
    "advice": ("card", "care", "never"),
    "checks": ("checks", "knowledge"),
    "places": ("paths",),
    "report": ("record",),
    "figures": ("knowledge figure",),
    "rowhelp": ("knowledge fields", "knowledge schema"),
    "venues": ("rates",),
    "logfiles": ("log import", "log export"),
    "track": ("log outcome",),
    "currency": ("log currency",),
    "logpictures": ("log picture",),
    "logcare": (
        "log merge", "log conflicts", "log settle", "log backup", "log restore", "log check",
    ),
    "records": (
        "want", "stock add", "stock list", "stock show", "stock edit", "stock remove", "work",
        "kept edit", "kept remove", "lots remove", "log edit", "log remove",
    ),
}  # fmt: skip
"""The modules that show other commands than those of the family of their name."""
_HOME = {name: module for module, names in HOMES.items() for name in names}


def handler(row: Command | None) -> Handler:
    """What runs a command and shows what it did; without a command the app is opened."""
    if row is None:
        return _found("app", "app")
    if row.action == "history":
        return _found("records", "history")
    module = _HOME.get(row.name) or _HOME.get(row.family, row.family)
    return _found(module, row.action or row.family)


def _found(module: str, name: str) -> Handler:
    found: Handler = getattr(import_module(f"appraise.cli.{module}"), f"run_{name}")
    return found
