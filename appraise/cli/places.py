"""`appraise paths`: where everything lives."""

import argparse

from appraise.base.places import shipped_data, shipped_demo
from appraise.cli.context import Context


def run_paths(args: argparse.Namespace, context: Context) -> None:
    places = {
        "home": context.home.root,
        "log": context.home.log,
        "backups": context.home.backups,
        "reports": context.home.reports,
        "settings": context.home.settings,
        "faults": context.home.faults,
        "own_knowledge": context.home.knowledge,
        "shipped_knowledge": shipped_data(),
        "demo": shipped_demo(),
    }
    document = {"schema": "appraise.paths/1", **{name: str(p) for name, p in places.items()}}
    width = max(map(len, places))
    lines = (f"{name.replace('_', ' '):<{width}}  {path}" for name, path in places.items())
    context.show(document, "\n".join(lines))
