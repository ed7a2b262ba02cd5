"""`appraise log picture`: the pictures of an entry, attached, listed, shown."""

import argparse
from pathlib import Path

from appraise.base.errors import InputError
from appraise.cli.context import Context
from appraise.cli.exits import Exit
from appraise.cli.options import Commands, command, with_json


def add(actions: Commands) -> None:
    """Add the action to `appraise log`."""
    shot = command(actions, "picture", "an entry's photos: list, attach or open them")
    shot.add_argument("id", help="the entry's id, or the first letters of it")
    shot.add_argument(
        "file", nargs="?", default="", metavar="FILE", help=("a photo file to copy and attach")
    )
    what = shot.add_mutually_exclusive_group()
    what.add_argument("--detach", action="store_true", help="FILE is a photo's id: unlink it")
    what.add_argument(
        "--open", action="store_true", help="open it in the system's viewer; FILE is its id"
    )
    with_json(shot)
    shot.set_defaults(run=run_picture)


def run_picture(args: argparse.Namespace, context: Context) -> Exit:
    """Attach, detach, show or list pictures."""
    from appraise.log.pictures import attach, detach
    from appraise.log.viewer import chosen, show
    from appraise.report.entry import entry_document, entry_line

    with context.log() as log:
        if args.detach:
            if not args.file:
                raise InputError("give the photo's id", "--detach", "Write its id.")
            entry = detach(log, args.id, args.file)
        elif args.open or not args.file:
            entry = log.entry(args.id)
        else:
            entry = attach(log, args.id, Path(args.file))
        if args.open:
            show(log.path, chosen(entry, args.file))
    pictures = (f"  {one.sha256[:8]}  {one.name}" for one in entry.pictures)
    context.show(entry_document(entry), "\n".join([entry_line(entry), *pictures]))
    return Exit.DONE
